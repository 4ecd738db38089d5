/** Time and lowest height over an area, on a straight descent of which everything is known. */
import { expect, test } from 'vitest';
import { areaTimes, type AreaTime } from '../../src/events/area-time.ts';
import { valueAt } from '../../src/events/arrival-data.ts';
import { Z90 } from '../../src/result.ts';
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

test('[OC3] a hole with both ends over the field counts its length', () => {
  // At 10 m/s it is over the field for 30 s, from 30.5 to 60.5 s after the start.
  const slow = { fromAlongM: -1205, lengthS: 80, speedMps: () => 10 };
  const { insideS } = overField({ ...slow, isHole: (t) => t > 35 && t < 50 });
  const whole = bandOf(overField(slow).insideS);
  const { value, low, high } = bandOf(insideS);
  expectNear(whole.value, 30, 0.1);
  expectNear(value, 30, 0.1);
  // It may have been flown elsewhere, but not longer than it lasted.
  expectNear(value - low, 15 + (whole.value - whole.low), 0.6);
  expectNear(high - value, whole.high - whole.value, 0.1);
});

test('[OC3] with a fix every 4 s each crossing of the edge lies anywhere in its step', () => {
  // The edges lie 30 m from the nearest fix, further than a place is off.
  const { value, low, high } = bandOf(overField({ fromAlongM: -1170, intervalS: 4 }).insideS);
  // Two moments, each spread evenly over 4 s: variances of 16 / 12.
  const halfS = Z90 * Math.sqrt((2 * 16) / 12);
  expectNear(high - value, halfS, 0.05);
  expectNear(value - low, halfS, 0.05);
});
