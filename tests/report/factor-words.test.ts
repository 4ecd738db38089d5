/** What the own factor says: loudly where it is larger, never as a permission, in the words of its distance. */
import { describe, expect, test } from 'vitest';
import { calibrate, type OwnFactor, type TooFew } from '../../src/calibration/calibrate.ts';
import type { ComparedQuantity, Comparison } from '../../src/calibration/comparison.ts';
import {
  factorBasis,
  factorCaution,
  factorMeaning,
  factorRestsOn,
  factorRows,
  factorSentence,
  QUANTITY_WORDS,
} from '../../src/report/factor-words.ts';
import { hasFigure } from '../../src/report/figure-text.ts';

const QUANTITIES = Object.keys(QUANTITY_WORDS) as ComparedQuantity[];

/** Landings of one ratio each, every one on a day of its own unless said otherwise. */
function comparisons(
  quantity: ComparedQuantity,
  ratios: readonly number[],
  { role = 'counts', day = (k: number) => String(k) } = {},
): Comparison[] {
  return ratios.map((value, k) => ({
    quantity,
    dayKey: day(k),
    ratio: { value, low: value * 0.95, high: value * 1.05 },
    log: { value: Math.log(value), sd: 0.03 },
    role: role as Comparison['role'],
    why: 'made up',
    factorSet: null,
  }));
}

const SHORT = [0.72, 0.75, 0.7, 0.74, 0.71, 0.73, 0.72, 0.74];
const LONG = [1.5, 1.62, 1.44, 1.58, 1.7, 1.49, 1.53, 1.61];
const own = (quantity: ComparedQuantity, ratios: readonly number[]): OwnFactor => {
  const result = calibrate(quantity, comparisons(quantity, ratios));
  if (result.kind !== 'own-factor') throw new Error(result.reason);
  return result;
};
const few = (quantity: ComparedQuantity, count: number): TooFew => {
  const result = calibrate(quantity, comparisons(quantity, SHORT.slice(0, count)));
  if (result.kind !== 'too-few') throw new Error('too few');
  return result;
};
const said = (result: OwnFactor | TooFew): string => {
  const { head, text } = factorCaution(result);
  return [factorSentence(result), factorMeaning(result), head, text].join(' ');
};

describe('a factor that is larger than the published one', () => {
  test('[LW20] is said before everything else, and is the one to plan with', () => {
    const result = own('landing-from-50-ft', LONG);
    expect(result.verdict).toBe('exceeds-published');
    const factor = result.factor.toFixed(2);
    expect(factorSentence(result)).toBe(
      `Your own factor is ${factor}. The published 1.43 is too short for how you fly.`,
    );
    expect(factorCaution(result).head).toBe(`Plan with ${factor}, not with 1.43.`);
    expect(factorCaution(result).text).toMatch(/^Your own landings need more room/);
  });

  test('[LW21] by a hair is never written as the published one', () => {
    for (const factor of [1.4301, 1.433, 1.4349]) {
      const hair = { ...own('landing-from-50-ft', LONG), factor, planWith: factor };
      const sentence = factorSentence(hair);
      const [, written] =
        /^Your own factor is (1\.43\d)\. The published 1\.43 is/.exec(sentence) ?? [];
      expect(Number(written), sentence).toBeGreaterThanOrEqual(factor);
      expect(Number(written), sentence).toBeGreaterThan(1.43);
      expect(factorCaution(hair).head).toBe(`Plan with ${written}, not with 1.43.`);
    }
  });
});

describe('a factor below the published one', () => {
  test('[LW22] is no permission: the published one stays', () => {
    const result = own('landing-from-50-ft', SHORT);
    expect(result.verdict).toBe('keeps-published');
    const factor = result.factor.toFixed(2);
    expect(factorSentence(result)).toBe(`Your own factor is ${factor}. The published 1.43 stays.`);
    expect(factorCaution(result)).toEqual({
      head: 'Plan with the published 1.43.',
      text: `Your own ${factor} is no permission to plan shorter.`,
    });
    // The published factor of take-offs (UK CAA Safety Sense Leaflet 7c, from memory).
    expect(factorSentence(own('take-off-to-50-ft', SHORT))).toMatch(/The published 1\.33 stays\.$/);
  });
});

describe('a factor of a roll', () => {
  test('[LW23] is held against no published one and plans nothing', () => {
    for (const quantity of ['landing-roll', 'take-off-roll'] as const) {
      const result = own(quantity, LONG);
      expect(result.published).toBeNull();
      expect(factorSentence(result)).toBe(
        `19 in 20 stay below ${result.factor.toFixed(2)} times the expected roll.`,
      );
      expect(factorCaution(result).head).toMatch(/^Never plan a length of strip with a roll alone/);
      expect(said(result)).not.toMatch(/1\.43|1\.33/);
    }
  });
});

describe('too few', () => {
  test('[LW24] give no factor, in words that count', () => {
    expect(factorSentence(few('landing-roll', 0))).toBe(
      'No landing counts yet, so there is no factor of your own.',
    );
    expect(factorSentence(few('landing-roll', 1))).toBe(
      'Too few landings: one counts, no factor yet.',
    );
    expect(factorSentence(few('landing-roll', 4))).toBe(
      'Too few landings: four count, no factor yet.',
    );
    expect(factorCaution(few('landing-roll', 4)).head).toBe('Plan with the published factors.');
    expect(said(few('landing-roll', 4))).not.toMatch(/\d\.\d\d/);
  });

  test('[LW25] days are too few as well', () => {
    const day = (): string => 'one day';
    const result = calibrate('landing-roll', comparisons('landing-roll', SHORT, { day }));
    expect(result.kind).toBe('too-few');
    expect(factorMeaning(result)).toBe(
      '8 that count on 1 day; 0 left out. A factor needs 5 or more on 3 or more days.',
    );
  });
});

describe('the words', () => {
  test('[LW26] of take-offs speak of take-offs, those of landings of landings', () => {
    for (const quantity of QUANTITIES) {
      const other = quantity.startsWith('take-off')
        ? /landing|wheels touch|touchdown/i
        : /take-off/i;
      for (const result of [own(quantity, SHORT), own(quantity, LONG)]) {
        const rows = factorRows(result, 0).slice(0, -1);
        const all = [said(result), ...rows.map(({ label }) => label)].join(' ');
        expect(all, quantity).not.toMatch(other);
      }
      for (const count of [0, 1, 4])
        expect(said(few(quantity, count)), quantity).not.toMatch(other);
    }
  });

  test('[LW27] say from what the factor was found, one or many', () => {
    const counted = comparisons('landing-roll', SHORT);
    const bound = comparisons('landing-roll', [0.9], { role: 'upper-bound' });
    const out = comparisons('landing-roll', [2.2, 2.3], { role: 'left-out' });
    const result = calibrate('landing-roll', [...counted, ...bound, ...out]);
    expect(factorMeaning(result)).toMatch(
      /^95 of 100 landings on another day should need less than \d\.\d\d times the expected landing ground roll\. From 8 that count on 8 days, 1 coasted as an upper bound; 2 left out\.$/,
    );
    const two = comparisons('landing-roll', [0.9, 0.95], { role: 'upper-bound' });
    expect(factorMeaning(calibrate('landing-roll', [...counted, ...two]))).toMatch(
      /2 coasted as upper bounds; 0 left out\.$/,
    );
  });

  test('[LW66] say in one sentence what it rests on: middle, scatter, and what being few adds', () => {
    const of = own('landing-from-50-ft', LONG);
    const middle = of.typicalRatio.value;
    const forFew = of.factor - middle * Math.exp(1.6449 * of.spread.value);
    expect(forFew).toBeGreaterThan(0.02);
    expect(factorRestsOn(of)).toBe(
      `It rests on 8 landings on 8 days: the middle one took ${middle.toFixed(2)} times the expected distance, two in three lie within ${(100 * (Math.exp(of.spread.value) - 1)).toFixed(0)} % of that, and because 8 are few the factor stands ${forFew.toFixed(2)} higher than it otherwise would.`,
    );
    // What logs get wrong alike, more landings do not take off.
    expect(factorRestsOn(own('landing-roll', LONG))).toContain(
      'because 8 are few, and their logs may all be wrong in the same way, the factor stands',
    );
    expect(factorRestsOn(own('take-off-roll', SHORT))).toContain('8 take-offs on 8 days');
    expect(factorRestsOn(few('landing-roll', 3))).toBeNull();
  });

  test('[LW28] never approve, whatever the factor', () => {
    const approving =
      /\b(safe|safely|good|fine|well done|ok|okay|enough room|approved|green)\b|✓|✔/i;
    for (const quantity of QUANTITIES) {
      const results = [
        own(quantity, SHORT),
        own(quantity, LONG),
        few(quantity, 0),
        few(quantity, 4),
      ];
      for (const result of results) {
        const rows = factorRows(result, 3).map(({ label }) => label);
        const all = [said(result), factorBasis(quantity) ?? '', ...rows].join(' ');
        expect(all).not.toMatch(approving);
      }
    }
  });

  test('[LW29] show how the bound was found, and the go-arounds that no ratio holds', () => {
    const result = own('landing-from-50-ft', LONG);
    const rows = factorRows(result, 7);
    const shown = rows.map(({ figure }) => (hasFigure(figure) ? figure.value : figure.reason));
    expect(shown[0]).toBe(result.typicalRatio.value.toFixed(2));
    expect(shown[3]).toBe(result.withEveryLanding.toFixed(2));
    expect(Number(shown[4])).toBeGreaterThan(1.5);
    expect(shown.at(-1)).toBe('7');
    expect(factorRows(few('landing-roll', 2), 7).length).toBe(1);
    expect(factorBasis('landing-from-50-ft')).toMatch(/low makes this ratio small/);
    expect(factorBasis('landing-roll')).toBeNull();
  });
});
