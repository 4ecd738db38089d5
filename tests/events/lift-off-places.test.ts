/** Where lift-offs are found, from standing and out of touch-and-goes, over drawn flights and receivers; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { firstAtOrAfter } from '../../src/events/arrival-data.ts';
import { detectEvents } from '../../src/events/detect-events.ts';
import { measureTakeOff } from '../../src/events/take-off.ts';
import { isUndetermined, undetermined } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { expectNear } from '../expect-near.ts';
import { flyDrawnTakeOff } from '../synthetic/scenarios.ts';
import { independentCells, readFolder } from '../tools/accuracy-independent.ts';
import { Tally } from '../tools/accuracy-tally.ts';
import { runTrial, type QuantityName } from '../tools/accuracy-trials.ts';
import { record } from './simulated.ts';

const GPX_1_S = 1;
const GPX_4_S = 3;
const IGC_1_S = 5;
const FIRST = 1_500_000;
const FLIGHTS = 160;

/** The lift-offs of drawn flights, counted up for either log; each flight is flown once. */
function talliesOf(flies: 'take-off' | 'touch-and-go'): { quick: Tally; slow: Tally } {
  const name: QuantityName = flies === 'take-off' ? 'lift-off' : 'lift-off again';
  const tallies = { quick: new Tally(), slow: new Tally() };
  const logs = [GPX_1_S, GPX_4_S];
  for (let seed = FIRST; seed < FIRST + FLIGHTS; seed++) {
    for (const { log, quantities } of runTrial({ seed, flies, logs, forBound: false })) {
      const tally = log === GPX_1_S ? tallies.quick : tallies.slow;
      for (const [value, low, high, truth] of quantities[name] ?? []) {
        const found = Number.isNaN(value) ? undetermined('not found') : { value, low, high };
        tally.add(found, truth);
      }
    }
  }
  return tallies;
}

const takeOffs = talliesOf('take-off');
const touchAndGoes = talliesOf('touch-and-go');

describe('[TO7] the usual speed of a lift-off', () => {
  test('[TO7] narrows the bands of take-offs, and they hold', () => {
    const { quick: tally } = takeOffs;
    expect(tally.count).toBe(FLIGHTS);
    expect(tally.coverage().value).toBeGreaterThan(0.95);
    // By heights alone, each speed as likely as the next: 135 and 100 m.
    expect(tally.penalty()).toBeLessThan(125);
    expect(tally.width()).toBeLessThan(90);
  });

  test('[TO7] and where fixes are 4 s apart the search begins between them', () => {
    const { slow: tally } = takeOffs;
    expect(tally.count).toBe(FLIGHTS);
    // Beginning at the first fix above the least speed: 94 %; each speed as likely as the next: 185.
    expect(tally.coverage().value).toBeGreaterThan(0.955);
    expect(tally.penalty()).toBeLessThan(170);
  });
});

describe('[TO7] the speed of the first climb', () => {
  test('[TO7] is looked for beyond a turn soon after lift-off, where the pass along the strip ends', () => {
    for (const seed of [1, 2, 3]) {
      const scenario = flyDrawnTakeOff(FIRST + seed);
      const recorded = record(scenario, { seed });
      const motion = computeMotion(applyCleaning(recorded, cleanTrack(recorded)));
      const { takeOffs, views } = detectEvents(motion, {
        ...EMPTY_STRIP_BOOK,
        strips: [scenario.strip],
      });
      const [found] = takeOffs;
      const view = views.find(({ direction }) => direction.designator === found.direction);
      const lift = scenario.flown.truth.takeOffs[0].liftOff;
      if (!view || !lift) throw new Error('no take-off');
      const { from } = found;
      const placeOf = (to: number): number => {
        const { liftOff } = measureTakeOff(motion, view, { from, to, rollingSinceS: null });
        if (isUndetermined(liftOff) || isUndetermined(liftOff.alongM)) throw new Error('no place');
        return liftOff.alongM.value;
      };
      const turnsAt = firstAtOrAfter(motion.timeS, lift.timeS + 6);
      expect(found.to, 'the drawn flight climbs straight on').toBeGreaterThan(turnsAt + 5);
      expectNear(placeOf(turnsAt), placeOf(found.to), 3, `seed ${seed}`);
    }
  });
});

describe('[TO8] the lift-off of a touch-and-go', () => {
  test('[TO8] has a band that holds', () => {
    const { quick: tally } = touchAndGoes;
    expect(tally.count).toBeGreaterThan(140);
    expect(tally.coverage().value).toBeGreaterThan(0.97);
    // By heights alone, each speed as likely as the next: 117 and 34 m.
    expect(tally.penalty()).toBeLessThan(105);
    expect(tally.error(0.9).value).toBeLessThan(31);
  });

  test('[TO8] may lie before the slowest fix, which shows where fixes are 4 s apart', () => {
    const { slow: tally } = touchAndGoes;
    // From the slowest fix on: 94 % and 153.
    expect(tally.coverage().value).toBeGreaterThan(0.95);
    expect(tally.penalty()).toBeLessThan(155);
  });

  test('[TO8] has the ground of the whole roll as its level, which an independent flight shows', () => {
    const flights = readFolder('tests/truth').filter(({ events }) =>
      events.some(({ type }) => type === 'liftoff_tg'),
    );
    expect(flights).toHaveLength(1);
    const [{ tallies }] = independentCells(flights, [IGC_1_S]);
    expect(tallies['lift-off again'].count).toBe(8);
    // By the last three seconds of the roll alone: 211.
    expect(tallies['lift-off again'].penalty()).toBeLessThan(160);
  });
});
