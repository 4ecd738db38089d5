/** Logs too slow to measure from: what is said of them, and what is not. Rule CO1 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { isCoarse, tooFarApart } from '../../src/events/coarse-log.ts';
import { isUndetermined } from '../../src/result.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { demoStrips } from '../synthetic/demo/doggerland-strips.ts';
import { createMap } from '../synthetic/runway.ts';
import { flyDrawnApproach, type Scenario } from '../synthetic/scenarios.ts';
import type { Outcome } from '../synthetic/truth.ts';
import { makeTrack, type MadeFix } from '../track/made-track.ts';
import { eventsOf, holds, lineUpAtTernholm, onlyOne, valueOf } from './simulated.ts';

/** Take-off, touch-and-go, go-around, landing at one strip. */
function lesson(seed: number): Scenario {
  const pilot = lineUpAtTernholm(seed);
  pilot.takeOff();
  pilot.circuit();
  pilot.touchAndGo();
  pilot.circuit();
  pilot.goAround(12);
  pilot.circuit();
  pilot.land();
  return { strip: demoStrips(createMap()).ternholm, designator: '25', flown: pilot.finish() };
}

const SEEDS = [900, 901, 902, 903, 904, 905];

describe('[CO1] a log slower than one fix in 5.5 s', () => {
  for (const intervalS of [6, 8, 10]) {
    test(`[CO1] with a fix every ${intervalS} s places no lift-off and no touchdown, and calls no touch a pass`, () => {
      let touches = 0;
      let times = 0;
      let held = 0;
      for (const seed of SEEDS) {
        const scenario = lesson(seed);
        const found = eventsOf(scenario, { seed, receiver: { intervalS } });
        const [truth] = scenario.flown.truth.takeOffs;
        for (const takeOff of found.takeOffs) {
          expect(takeOff.groundRollM).toHaveProperty('undetermined');
          expect(takeOff.screen).toHaveProperty('undetermined');
          expect(takeOff.stripLeftM).toHaveProperty('undetermined');
          if (isUndetermined(takeOff.liftOff)) throw new Error('a lift-off has its time');
          expect(takeOff.liftOff.alongM).toHaveProperty('undetermined');
        }
        const [first] = found.takeOffs;
        if (!isUndetermined(first.liftOff) && truth.liftOff) {
          times++;
          if (holds(first.liftOff.timeS, truth.liftOff.timeS)) held++;
        }
        const [touch, pass, landing] = found.approaches;
        touches++;
        expect(found.approaches, `seed ${seed}`).toHaveLength(3);
        if (touch.outcome !== 'touch-and-go') {
          expect(touch.outcome).toEqual({
            undetermined: `fixes ${intervalS} s apart are too far apart to tell a touch from a pass`,
          });
          expect(touch.goAround).toBeNull();
          expect(touch.contactProbability).toBeNaN();
        } else {
          expect(touch.notes.join()).toContain('a touch-and-go from a stop-and-go');
        }
        expect(isUndetermined(pass.outcome), `seed ${seed}`).toBe(true);
        expect(landing.outcome).toBe('full-stop');
        for (const { touchdown, groundRollM } of found.approaches) {
          expect(touchdown).toHaveProperty('undetermined');
          expect(groundRollM).toHaveProperty('undetermined');
        }
        expect(isUndetermined(landing.rollEnd) || landing.rollEnd.kind === 'stopped').toBe(true);
      }
      expect([touches, times]).toEqual([SEEDS.length, SEEDS.length]);
      expect(held).toBeGreaterThanOrEqual(SEEDS.length - 1);
    });
  }

  test('[CO1] where a roll ended is told where the aircraft stood, and not where power was opened', () => {
    const slow = (outcome: Outcome, seed: number) =>
      onlyOne(
        eventsOf(flyDrawnApproach(seed, outcome), { seed, receiver: { intervalS: 8 } }).approaches,
      );
    const untold = { undetermined: 'fixes 8 s apart are too far apart to tell how the roll ended' };
    const mayHaveStood =
      'fixes 8 s apart are too far apart to tell a touch-and-go from a stop-and-go';
    // They stood for six seconds, which does not show.
    for (const seed of [1, 5]) {
      const { outcome, rollEnd, stripLeftM, notes } = slow('stop-and-go', seed);
      expect(outcome, `seed ${seed}`).toBe('touch-and-go');
      expect([rollEnd, stripLeftM]).toEqual([untold, untold]);
      expect(notes).toEqual([mayHaveStood]);
    }
    const stood = slow('full-stop', 5);
    expect(stood.rollEnd).toMatchObject({ kind: 'stopped' });
    expect(valueOf(stood.stripLeftM)).toBeGreaterThan(0);
    expect(stood.notes).toEqual([]);
    expect(slow('full-stop', 1)).toMatchObject({ rollEnd: untold, notes: [] });
  });

  test('[CO1] a fix every 4 s is not too slow: the same flights are measured', () => {
    for (const seed of SEEDS.slice(0, 2)) {
      const found = eventsOf(lesson(seed), { seed, receiver: { intervalS: 4 } });
      expect(found.takeOffs[0].groundRollM).toHaveProperty('value');
      expect(found.approaches.at(-1)?.groundRollM).toHaveProperty('value');
    }
  });
});

describe('[CO1] how far apart the fixes are around a moment', () => {
  const at = (times: readonly number[], atS: number): boolean => {
    const fixes: MadeFix[] = times.map((t) => ({ t, north: 30 * t }));
    const motion = computeMotion(makeTrack(fixes));
    return tooFarApart(motion, motion.timeS[0] + atS, 'it') !== null;
  };
  const every = (stepS: number, toS: number, fromS = 0): number[] =>
    Array.from({ length: (toS - fromS) / stepS }, (_, k) => fromS + k * stepS);

  test('[CO1] is judged there and nowhere else', () => {
    const mixed = [...every(1, 100), ...every(10, 300, 100)];
    expect(at(mixed, 40)).toBe(false);
    expect(at(mixed, 200)).toBe(true);
  });

  test('[CO1] a hole in a log of many fixes is no slow log', () => {
    expect(at([...every(1, 100), ...every(1, 200, 126)], 113)).toBe(false);
    expect(at([...every(4, 100), ...every(4, 200, 120)], 110)).toBe(false);
  });

  test('[CO1] bursts of fixes do not hide the pauses between them', () => {
    const bursts = every(8, 200).flatMap((t) => [t, t + 0.2, t + 0.4, t + 0.6, t + 0.8]);
    expect(at(bursts, 100)).toBe(true);
  });

  test('[CO1] the limit lies between 5 and 6 s', () => {
    expect([4, 5, 6].map(isCoarse)).toEqual([false, false, true]);
  });
});
