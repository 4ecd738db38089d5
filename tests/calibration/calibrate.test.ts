import { describe, expect, test } from 'vitest';
import { calibrate, type OwnFactor } from '../../src/calibration/calibrate.ts';
import type {
  ComparedQuantity,
  Comparison,
  Role,
  UsedFactorSet,
} from '../../src/calibration/comparison.ts';
import type { LogRatio } from '../../src/calibration/log-ratio.ts';
import { predictNextRatio } from '../../src/calibration/predictive.ts';
import { toleranceBound } from '../../src/calibration/tolerance.ts';
import { studentTQuantile } from '../../src/numeric/distributions.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { undetermined, Z90 } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';

function compared(
  ratio: number,
  day: string,
  role: Role = 'counts',
  quantity: ComparedQuantity = 'landing-from-50-ft',
): Comparison {
  return {
    quantity,
    dayKey: day,
    ratio: { value: ratio, low: ratio * 0.95, high: ratio * 1.05 },
    log: { value: Math.log(ratio), sd: 0.03 },
    role,
    why: 'for the test',
    factorSet: null,
  };
}

const SIX = [1.0, 1.05, 0.98, 1.1, 1.02, 1.07];
const DAYS = ['1', '1', '2', '3', '4', '4'];
const six = (scale = 1, quantity?: ComparedQuantity): Comparison[] =>
  SIX.map((ratio, i) => compared(ratio * scale, DAYS[i], 'counts', quantity));

function ownFactor(
  comparisons: readonly Comparison[],
  quantity: ComparedQuantity = 'landing-from-50-ft',
): OwnFactor {
  const found = calibrate(quantity, comparisons);
  if (found.kind !== 'own-factor') throw new Error(found.reason);
  return found;
}

describe('[OWN1] too few landings', () => {
  test('[OWN1] four landings, or five on two days, give no factor', () => {
    const four = calibrate('landing-from-50-ft', six().slice(0, 4));
    expect(four).toMatchObject({ kind: 'too-few', counts: { counted: 4 } });
    expect(four).not.toHaveProperty('factor');
    const twoDays = SIX.slice(0, 5).map((ratio, i) => compared(ratio, i < 3 ? 'a' : 'b'));
    const found = calibrate('landing-from-50-ft', twoDays);
    expect(found).toMatchObject({ kind: 'too-few', counts: { counted: 5, days: 2 } });
    expect(calibrate('landing-from-50-ft', [])).toMatchObject({ kind: 'too-few' });
  });

  test('[OWN1] bounds and left-out landings do not fill up the five', () => {
    const mixed = [
      ...six().slice(0, 4),
      compared(0.8, '8', 'upper-bound'),
      compared(0.8, '9', 'left-out'),
    ];
    expect(calibrate('landing-from-50-ft', mixed)).toMatchObject({
      kind: 'too-few',
      counts: { counted: 4, upperBounds: 1, leftOut: 1 },
    });
  });
});

describe('[OWN2] held against the published factor', () => {
  test('[OWN2] a smaller own factor keeps the published one and is no permission', () => {
    const found = ownFactor(six());
    expect(found.factor).toBeLessThan(1.43);
    expect(found).toMatchObject({ published: 1.43, planWith: 1.43, verdict: 'keeps-published' });
    expect(found.text).toContain('no permission');
  });

  test('[OWN3] a larger own factor plans, and the text says it loudly', () => {
    const found = ownFactor(six(1.4));
    expect(found.factor).toBeGreaterThan(1.43);
    expect(found.planWith).toBe(found.factor);
    expect(found.verdict).toBe('exceeds-published');
    expect(found.text).toContain('LARGER');
  });

  test('[OWN4] a roll factor is never held against a published one and never plans', () => {
    for (const scale of [1, 1.6]) {
      const found = ownFactor(six(scale, 'landing-roll'), 'landing-roll');
      expect(found).toMatchObject({ published: null, planWith: null, verdict: 'not-for-planning' });
    }
  });

  test('[OWN5] take-off distance to 50 ft is held against 1.33', () => {
    const found = ownFactor(six(1, 'take-off-to-50-ft'), 'take-off-to-50-ft');
    expect(found).toMatchObject({ published: 1.33 });
  });

  /** CAT.POL.A.305(b): 1.25; the other set is made up. */
  const CLASS_B = { id: 'class-b', name: 'class B operations', isOwn: false, safetyFactor: 1.25 };
  const MINE = { id: 'mine', name: 'my own set', isOwn: true, safetyFactor: 1.6 };
  const takeOffs = (scale: number, factorSet: UsedFactorSet): Comparison[] =>
    six(scale, 'take-off-to-50-ft').map((each) => ({ ...each, factorSet }));

  test('[OWN19] the factor it is held against is that of the set in use, by name', () => {
    const quantity = 'take-off-to-50-ft';
    // Above the 1.25 of class B, below the leaflet's 1.33.
    const between = ownFactor(takeOffs(1.07, CLASS_B), quantity);
    expect(between.factor).toBeGreaterThan(1.25);
    expect(between.factor).toBeLessThan(1.33);
    expect(between).toMatchObject({ published: 1.25, planWith: between.factor });
    expect(between.text).toMatch(/LARGER than the published 1\.25 of class B operations: plan/);
    expect(between.factorSets).toEqual([{ id: 'class-b', name: 'class B operations' }]);
    const below = ownFactor(takeOffs(1.3, MINE), quantity);
    expect(below).toMatchObject({ published: 1.6, planWith: 1.6, verdict: 'keeps-published' });
    expect(below.text).toContain('below the 1.6 of my own set');
    expect(below.text).not.toContain('published');
  });

  test('[OWN19] of several sets the largest factor counts, and the text says that they are several', () => {
    const [first, ...rest] = takeOffs(1.1, CLASS_B);
    const mixed = ownFactor([{ ...first, factorSet: MINE }, ...rest], 'take-off-to-50-ft');
    expect(mixed).toMatchObject({ published: 1.6, planWith: 1.6 });
    expect(mixed.factorSets.map(({ id }) => id)).toEqual(['mine', 'class-b']);
    expect(mixed.text).toContain('more than one factor set');
  });

  test('[OWN19] on wet ground the floor is that of the set too', () => {
    const own = takeOffs(1.2, CLASS_B);
    const others = [six(0.8, 'take-off-to-50-ft'), six(0.8, 'take-off-to-50-ft')];
    const found = calibrate('take-off-to-50-ft', own, others, 'wet');
    if (found.kind !== 'own-factor') throw new Error(found.reason);
    const dry = calibrate('take-off-to-50-ft', own, others, 'dry');
    if (dry.kind !== 'own-factor') throw new Error(dry.reason);
    expect(dry.factor).toBeLessThan(found.alone);
    expect(found.factor).toBe(Math.max(dry.factor, Math.min(1.25, found.alone)));
  });
});

describe('[OWN6] what moves the factor', () => {
  test('[OWN6] scaling every ratio scales the factor nearly as much', () => {
    // The weak prior of the mean holds back a little, hence 2 %.
    expectNear(ownFactor(six(1.2)).factor / ownFactor(six()).factor, 1.2, 0.024, 'scale');
  });

  test('[OWN7] more landings of the same scatter give a smaller factor', () => {
    const again = six().map((comparison) => ({ ...comparison, dayKey: `${comparison.dayKey}b` }));
    expect(ownFactor([...six(), ...again]).factor).toBeLessThan(ownFactor(six()).factor);
  });

  test('[OWN8] landings of one day tell less than the same landings on days of their own', () => {
    // Day means differ and days agree inside, so the scatter is between days.
    const ratios = [0.8, 0.81, 1.0, 1.01, 1.25, 1.26];
    const shared = ratios.map((ratio, i) => compared(ratio, String(Math.floor(i / 2))));
    const own = ratios.map((ratio, i) => compared(ratio, String(i)));
    expect(ownFactor(shared).factor).toBeGreaterThan(ownFactor(own).factor);
    expect(ownFactor(shared).dayShare.value).toBeGreaterThan(ownFactor(own).dayShare.value);
  });

  test('[OWN9] a coasted landing below the others pulls the factor down, less than as a plain value', () => {
    const low = 0.8;
    const bounded = ownFactor([...six(), compared(low, '9', 'upper-bound')]);
    const plainly = ownFactor([...six(), compared(low, '9')]);
    expect(bounded.typicalRatio.value).toBeLessThan(ownFactor(six()).typicalRatio.value);
    expect(bounded.counts).toMatchObject({ counted: 6, upperBounds: 1 });
    expectNear(bounded.withEveryLanding, plainly.factor, 1e-9, 'with every landing');
  });

  test('[OWN9] a coasted landing far above the others says nothing', () => {
    const bounded = ownFactor([...six(), compared(4, '9', 'upper-bound')]);
    expectNear(bounded.factor, ownFactor(six()).factor, 0.005, 'factor');
  });

  test('[OWN10] left-out landings change only the factor with every landing in', () => {
    const found = ownFactor([...six(), compared(1.5, '9', 'left-out')]);
    expectNear(found.factor, ownFactor(six()).factor, 1e-12, 'factor');
    expect(found.withEveryLanding).toBeGreaterThan(found.factor);
  });

  test('[OWN11] a left-out landing without a ratio is passed over', () => {
    const noRatio: Comparison = {
      ...compared(1, '9', 'left-out'),
      ratio: undetermined('gap'),
      log: undetermined('gap'),
    };
    expectNear(
      ownFactor([...six(), noRatio]).withEveryLanding,
      ownFactor(six()).factor,
      1e-12,
      'all',
    );
  });

  test('[OWN12] quantities are never mixed', () => {
    expect(() => calibrate('landing-roll', six())).toThrow('landing-roll');
  });
});

describe('[OWN13] the predictive bound against textbook results', () => {
  const plain = (values: readonly number[], sd: number): LogRatio[] =>
    values.map((logRatio, i) => ({ logRatio, sd, dayKey: String(i), kind: 'value' }));

  test('[OWN13] many landings without measuring error give the classical prediction bound', () => {
    const random = createRandom(77);
    const values = Array.from({ length: 60 }, () => 0.1 + 0.2 * random.normal());
    const mean = values.reduce((sum, value) => sum + value, 0) / 60;
    const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 59);
    // Textbook: mean + t(0.95; n - 1) sd sqrt(1 + 1/n). The weak priors move it by under 1 %.
    const classical = mean + studentTQuantile(0.95, 59) * sd * Math.sqrt(1 + 1 / 60);
    const found = Math.log(predictNextRatio(plain(values, 0)).quantile(0.95));
    expectNear(found, classical, 0.01, 'bound');
  });

  test('[OWN14] measuring error is taken out: noisy measuring of like landings is no scatter', () => {
    const random = createRandom(78);
    const values = Array.from({ length: 40 }, () => 0.1 * random.normal());
    const believed = predictNextRatio(plain(values, 0.1)).quantile(0.95);
    const ignored = predictNextRatio(plain(values, 0)).quantile(0.95);
    expect(believed).toBeLessThan(ignored - 0.03);
    expect(believed).toBeGreaterThan(1);
  });

  test('[OWN20] half of the measuring error of a roll stays in doubt of its middle, however many landings', () => {
    const many = Array.from({ length: 120 }, (_, k) =>
      compared(SIX[k % 6], `day ${k}`, 'counts', 'landing-roll'),
    );
    const { low, high } = ownFactor(many, 'landing-roll').typicalRatio;
    const sd = (Math.log(high) - Math.log(low)) / (2 * Z90);
    // 0.03 of measuring, half of its variance, and a scatter of 0.04 over the root of 120.
    expectNear(sd, Math.hypot(0.03 * Math.SQRT1_2, 0.04 / Math.sqrt(120)), 0.001, 'doubt');
  });

  test('[OWN20] an error that all have in common is no scatter, so none of the scatter is taken out for it', () => {
    const random = createRandom(78);
    const values = Array.from({ length: 40 }, () => 0.1 * random.normal());
    const boundOf = (commonShare: number): number =>
      Math.log(
        predictNextRatio(plain(values, 0.1).map((each) => ({ ...each, commonShare }))).quantile(
          0.95,
        ),
      );
    // All in common: the scatter as seen and the error beside it, 0.1 each; taken out as well: 0.1 in all.
    expect(boundOf(1)).toBeGreaterThan(1.645 * 0.125);
    expect(boundOf(0)).toBeLessThan(1.645 * 0.1);
  });

  test('[OWN20] the error of a touchdown is in no whole distance, so nothing of it is common there', () => {
    const whole = ownFactor(six());
    const plain = predictNextRatio(
      SIX.map((ratio, i) => ({
        ...{ logRatio: Math.log(ratio), sd: 0.03 },
        ...{ dayKey: DAYS[i], kind: 'value' as const },
      })),
    );
    expectNear(whole.factor, plain.quantile(0.95), 1e-12, 'factor');
    expect(whole.typicalRatio).toEqual(plain.typicalRatio);
    const roll = ownFactor(six(1, 'landing-roll'), 'landing-roll');
    expect(roll.factor).toBeGreaterThan(whole.factor);
    expectNear(roll.typicalRatio.value, whole.typicalRatio.value, 0.002, 'middle');
  });

  test('[OWN15] without landings it is the prior: symmetric about 1, and wide', () => {
    const prior = predictNextRatio([]);
    expectNear(prior.quantile(0.5), 1, 1e-6, 'median');
    expectNear(prior.quantile(0.95) * prior.quantile(0.05), 1, 1e-6, 'symmetry');
    expectNear(prior.typicalRatio.high, Math.exp(1.6449 * 0.35), 1e-3, 'typical ratio');
  });

  test('[OWN16] a ratio that is not a number is a mistake of the caller', () => {
    expect(() => predictNextRatio(plain([Number.NaN], 0.1))).toThrow('must be numbers');
    expect(() => predictNextRatio(plain([0], Number.NaN))).toThrow('must be numbers');
  });

  test('[OWN17] the tolerance bound is mean + 2.9110 sd for ten landings (ISO 16269-6, from memory)', () => {
    const values = [-0.09, -0.07, -0.05, -0.03, -0.01, 0.01, 0.03, 0.05, 0.07, 0.09];
    const sd = Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / 9);
    const bound = toleranceBound(values);
    if (typeof bound !== 'number') throw new Error(bound.undetermined);
    expectNear(Math.log(bound), 2.911 * sd, 1e-5, 'bound');
    expect(toleranceBound([0.1, 0.2])).toHaveProperty('undetermined');
  });
});
