/** Strips whose ground between the ends is not the line that was entered; rule GT8 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import type { Strip } from '../../src/strips/strip.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { drawReceiver, withPressure } from '../synthetic/population.ts';
import { createMap } from '../synthetic/runway.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { eventsOf, holds, onlyOne, valueOf } from './simulated.ts';

const LENGTH_M = 600;
const LANDINGS = 30;

/** Ground at 40 m that lies off its line by so much half-way, as a smooth hollow or crest. */
const bowed = (middleM: number): Strip => ground((u) => middleM * Math.sin(Math.PI * u) ** 2);
/** A hollow in the first half and a crest in the second, or the other way round. */
const waved = (firstM: number): Strip => ground((u) => firstM * Math.sin(2 * Math.PI * u));

function ground(offM: (share: number) => number): Strip {
  const profile = Array.from({ length: 21 }, (_, k): [number, number] => [
    (k * LENGTH_M) / 20,
    40 + offM(k / 20),
  ]);
  const wish = { id: 'uneven', bearingDeg: 40, lengthM: LENGTH_M, profile };
  return inventStrip(createMap(), { ...wish, elevationM: [40, 40] });
}

/** How many of thirty bands of touchdowns hold the truth, and the greatest error in metres. */
function judge(strip: Strip, entered: Partial<Strip>): { held: number; worstM: number } {
  let held = 0;
  let worstM = 0;
  for (let seed = 9500; seed < 9500 + LANDINGS; seed++) {
    const scenario = flyDrawnApproach(seed, 'full-stop', { strip });
    const random = createRandom(seed);
    const receiver = withPressure(drawReceiver(random, 1), random);
    const strips = [{ ...strip, ...entered }];
    const recording = { seed, strips, receiver, format: 'igc' as const };
    const { touchdown } = onlyOne(eventsOf(scenario, recording).approaches);
    if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
    const trueM = scenario.flown.truth.approaches[0].touchdown?.alongM ?? NaN;
    if (holds(touchdown.alongM, trueM)) held++;
    worstM = Math.max(worstM, Math.abs(valueOf(touchdown.alongM) - trueM));
  }
  return { held, worstM };
}

describe('[GT8] ground between the ends that nobody entered', () => {
  // Of 30 bands that hold nine times in ten, fewer than 23 hold once in 130 draws (binomial).
  for (const [name, strip] of [
    ['a hollow of 4 m', bowed(-4)],
    ['a crest of 4 m', bowed(4)],
    ['a hollow of 1.5 m before a crest', waved(-1.5)],
    ['a crest of 1.5 m before a hollow', waved(1.5)],
  ] as const) {
    test(`[GT8] bands of touchdowns hold over ${name}, and none is off by far`, () => {
      const { held, worstM } = judge(strip, { profile: null });
      console.log(`${name}: bands hold ${held} of 30, worst ${worstM.toFixed(0)} m`);
      expect(held).toBeGreaterThanOrEqual(23);
      // Some five times the usual error; with the sensor's own drift alone 113 to 210 m in three of the four.
      expect(worstM).toBeLessThan(110);
    });
  }
});
