/** Strips whose ends are only where wheels were seen; rule UP4 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { Approach } from '../../src/events/flight-event.ts';
import { guessedEndsNotes } from '../../src/events/guessed-ends.ts';
import type { StripView } from '../../src/events/strip-view.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import { createStripFrame } from '../../src/strips/strip-frame.ts';
import { ENDS_GUESSED, type Strip } from '../../src/strips/strip.ts';
import type { Outcome } from '../synthetic/truth.ts';
import { flyDrawnApproach, type Scenario } from '../synthetic/scenarios.ts';
import { bandOf, eventsOf, onlyOne } from './simulated.ts';

const IN_M = 150;

/** The strip as the rolls of another day drew it: both ends too far in, no elevation. */
function guessed(strip: Strip, endsGuessed = true, inM = IN_M): Strip {
  const frame = createStripFrame(strip, strip.directions[0]);
  const ends = [inM, frame.lengthM - inM].map((alongM) => frame.pointAt(alongM, 0));
  return {
    ...strip,
    latDeg: ends.map(({ latDeg }) => latDeg),
    lonDeg: ends.map(({ lonDeg }) => lonDeg),
    elevationM: null,
    profile: null,
    endsGuessed,
    directions: strip.directions.map((each) => ({ ...each, ldaM: each.ldaM - 2 * inM })),
  };
}

/** Landings of some seeds whose wheels touch before the end as guessed. */
function early(outcome: Outcome, seeds: readonly number[]): { scenario: Scenario; seed: number }[] {
  return seeds
    .map((seed) => ({
      scenario: flyDrawnApproach(seed, outcome, { approach: { aimAlongM: -40 } }),
      seed,
    }))
    .filter(({ scenario: { strip, flown } }) => {
      const touchedM = flown.truth.approaches[0].touchdown?.alongM ?? NaN;
      const { lengthM } = createStripFrame(strip, strip.directions[0]);
      return touchedM > 0 && touchedM < IN_M - 40 && lengthM > 550;
    });
}

const SEEDS = Array.from({ length: 40 }, (_, k) => 7400 + k);
const reasonOf = (found: Measured | { readonly undetermined: string }): string =>
  isUndetermined(found) ? found.undetermined : 'told';

describe('[UP4] a landing before the ends of a strip as guessed', () => {
  const landings = early('full-stop', SEEDS).slice(0, 10);

  test('[UP4] is measured as where nobody kept the place: what was drawn pulls no touchdown in', () => {
    expect(landings).toHaveLength(10);
    /** Of the landings the greatest difference of the roll's band from that at a place nobody has kept, metres. */
    const differsM = (strip: (scenario: Scenario) => Strip): number => {
      const differences = landings.map(({ scenario, seed }) => {
        const roll = (strips: readonly Strip[]) =>
          bandOf(onlyOne(eventsOf(scenario, { seed, strips }).approaches).groundRollM);
        const [kept, place] = [roll([strip(scenario)]), roll([])];
        return Math.max(Math.abs(kept.low - place.low), Math.abs(kept.high - place.high));
      });
      return Math.max(...differences);
    };
    expect(differsM(({ strip }) => guessed(strip))).toBeLessThan(6);
    expect(differsM(({ strip }) => guessed(strip, false))).toBeGreaterThan(20);
  });

  test('[UP4] is measured the same wherever the rolls of another day drew the ends', () => {
    for (const { scenario, seed } of landings) {
      const [far, near] = [240, -300].map((inM) => {
        const strips = [guessed(scenario.strip, true, inM)];
        return bandOf(onlyOne(eventsOf(scenario, { seed, strips }).approaches).groundRollM);
      });
      expect(Math.abs(far.low - near.low), `seed ${seed}`).toBeLessThan(1);
      expect(Math.abs(far.value - near.value), `seed ${seed}`).toBeLessThan(1);
      expect(Math.abs(far.high - near.high), `seed ${seed}`).toBeLessThan(1);
    }
  });

  test('[UP4] nothing that counts from the ends is told, and nothing lies short of them', () => {
    const [{ scenario, seed }] = landings;
    const strips = [guessed(scenario.strip)];
    const { approaches, problems } = eventsOf(scenario, { seed, strips });
    const landing = onlyOne(approaches);
    expect(reasonOf(landing.stripLeftM)).toBe(ENDS_GUESSED);
    expect(reasonOf(landing.landingDistanceM)).toBe(ENDS_GUESSED);
    const { thresholdCrossing: crossing, touchdown } = landing;
    expect(isUndetermined(crossing) && crossing.undetermined).toBe(ENDS_GUESSED);
    if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
    expect(touchdown.shortProbability).toBe(0);
    expect(bandOf(touchdown.alongM).value).toBeLessThan(0);
    const note = onlyOne(problems.filter(({ code }) => code === 'ends-guessed'));
    const beforeM = -bandOf(touchdown.alongM).value;
    expect(note.message).toContain(`${beforeM.toFixed(0)} m before end ${scenario.designator}`);
    expect(problems.map(({ code }) => code)).not.toContain('touched-short');
  });

  test('[UP4] a touch-and-go well before them is one', () => {
    const touches = early('touch-and-go', SEEDS).slice(0, 4);
    expect(touches).toHaveLength(4);
    for (const { scenario, seed } of touches) {
      const strips = [guessed(scenario.strip)];
      expect(onlyOne(eventsOf(scenario, { seed, strips }).approaches).outcome).toBe('touch-and-go');
    }
  });

  test('[UP4] a touch-and-go well behind them is one, where it is told how far behind its landing stopped', () => {
    const aimed = { approach: { aimAlongM: 250 } };
    const behind = (outcome: Outcome) => {
      const scenario = flyDrawnApproach(7400, outcome, aimed);
      const { strip, designator, flown } = scenario;
      const direction = strip.directions.find((each) => each.designator === designator);
      if (!direction) throw new Error('the strip has the direction flown');
      // It is drawn to end 130 m before the wheels touched.
      const touchedM = flown.truth.approaches[0].touchdown?.alongM ?? NaN;
      const frame = createStripFrame(strip, direction);
      const ends = [-100, touchedM - 130].map((alongM) => frame.pointAt(alongM, 0));
      if (direction.from === 'B') ends.reverse();
      const drawn = {
        ...guessed(strip),
        latDeg: ends.map(({ latDeg }) => latDeg),
        lonDeg: ends.map(({ lonDeg }) => lonDeg),
      };
      const events = eventsOf(scenario, { seed: 7400, strips: [drawn] });
      return { approach: onlyOne(events.approaches), ...events };
    };
    expect(behind('touch-and-go').approach.outcome).toBe('touch-and-go');
    const { approach, problems, views } = behind('full-stop');
    const view = views.find(({ direction }) => direction.designator === approach.direction);
    const other = views.find(({ direction }) => direction.designator !== approach.direction);
    if (isUndetermined(approach.rollEnd) || !view) throw new Error('it rolled');
    const behindM = bandOf(approach.rollEnd.alongM).value - view.frame.farEndAlongM;
    expect(behindM).toBeGreaterThan(200);
    expect(onlyOne(problems.filter(({ code }) => code === 'ends-guessed')).message).toContain(
      `wheels were seen ${behindM.toFixed(0)} m before end ${other?.direction.designator} as drawn`,
    );
  });
});

describe('[UP4] the note of guessed ends', () => {
  /** Notes of landings that touched and stopped at these places of a strip drawn to be 400 m long. */
  const noted = (places: readonly (readonly [touchM: number, stopM: number])[], stripId = 's') => {
    const at = (valueM: number) => ({ alongM: { value: valueM, low: valueM, high: valueM } });
    const directions = [
      { from: 'A', designator: '18' },
      { from: 'B', designator: '36' },
    ];
    const view = {
      ...{ stripId: stripId || null, strip: { endsGuessed: true, directions } },
      ...{ direction: directions[0], frame: { nearEndAlongM: 0, farEndAlongM: 400 } },
    } as unknown as StripView;
    return guessedEndsNotes(
      places.map(([touchM, stopM]) => ({
        approach: { touchdown: at(touchM), rollEnd: at(stopM) } as unknown as Approach,
        view,
      })),
    ).map(({ message }) => message);
  };

  test('[UP4] says how far before which end wheels were seen at the most, and nothing of what a place may be off by', () => {
    const [furthest] = noted([
      [-30, 460],
      [-70, 300],
      [-40, 420],
    ]);
    expect(furthest).toContain(
      'wheels were seen 70 m before end 18 and 60 m before end 36 as drawn',
    );
    const [within] = noted([[-14, 414]]);
    expect(within).toContain('guessed');
    expect(within).not.toMatch(/\d m before end/);
  });

  test('[UP4] is none of a place that nobody has kept', () => {
    expect(noted([[-70, 460]], '')).toEqual([]);
  });
});
