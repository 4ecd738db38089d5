/** Time and lowest height over an area, on a straight descent of which everything is known. */
import { expect, test } from 'vitest';
import { areaTimes, type AreaTime } from '../../src/events/area-time.ts';
import { valueAt } from '../../src/events/arrival-data.ts';
import { expectNear } from '../expect-near.ts';
import { makeRun, type MadeRun } from './made-motion.ts';
import { bandOf } from './simulated.ts';

/** 30 m/s from 1200 m before the threshold, sinking 2 m each second from 100 m up; over the field from 900 to 600 m before it. */
function overField(run: Partial<MadeRun>, belowMslM: number | null = null): AreaTime {
  const { motion, view, startS } = makeRun({
    ...{ fromAlongM: -1200, lengthS: 40, speedMps: () => 30 },
    ...run,
  });
  const corners = [
    [-900, -150],
    [-600, -150],
    [-600, 150],
    [-900, 150],
    [-900, -150],
  ].map(([alongM, crossM]): readonly [number, number] => {
    const { latDeg, lonDeg } = view.frame.pointAt(alongM, crossM);
    return [lonDeg, latDeg];
  });
  const heightM = motion.timeS.map((t) => 100 - 2 * (t - startS));
  const mslAt = (fix: number) => {
    const value = valueAt(motion.timeS, heightM, motion.timeS[fix]);
    return { value, low: value - 4, high: value + 4 };
  };
  const [area] = areaTimes(
    motion,
    [{ name: 'a field', rings: [corners], belowMslM, properties: {} }],
    mslAt,
  );
  return area;
}

// It is over the field from 10 to 20 s after the start, and 60 m up where it leaves it.

test.each([1, 3, 4, 7])(
  '[OC3] a descent is lowest where it crosses the edge, with a fix every %d s',
  (intervalS) => {
    const { lowestMslM } = overField({ intervalS });
    const { value, low, high } = bandOf(lowestMslM);
    expectNear(value, 60, 0.4);
    expectNear(high - low, 8, 0.1);
  },
);

test('[OC3] of an area with a limit only what is below it counts', () => {
  expect(bandOf(overField({ intervalS: 4 }, 70).lowestMslM).value).toBeLessThan(60.5);
  expect(overField({ intervalS: 4 }, 50)).toBeUndefined();
});

test('[OC3] a hole over the field counts as on the straight line, none of it, or all', () => {
  const { insideS, lowestMslM, firstTimeS } = overField({ isHole: (t) => t > 7 && t < 24 });
  const { value, low, high } = bandOf(insideS);
  expectNear(value, 10, 1.1);
  expect(low).toBe(0);
  expect(high).toBeGreaterThanOrEqual(17);
  expect(firstTimeS).not.toBeNull();
  // It may have been as low there as at the end of the hole, 24 s after the start.
  expectNear(bandOf(lowestMslM).low, 100 - 48 - 4, 0.1);
});

test('[OC3] a hole that begins over the field adds what may have been flown there', () => {
  const { insideS, lowestMslM } = overField({ isHole: (t) => t > 15 && t < 28 });
  const { value, low, high } = bandOf(insideS);
  expectNear(value, 10, 1.1);
  expect(low).toBeLessThan(6);
  expect(high).toBeGreaterThan(16);
  // The line over a hole is looked at once a second, in which it sinks 2 m.
  expectNear(bandOf(lowestMslM).value, 60, 2.1);
});

test('[OC3] a hole elsewhere adds nothing', () => {
  const { insideS } = overField({ isHole: (t) => t > 25 && t < 38 });
  expect(bandOf(insideS).high).toBeLessThan(12);
});
