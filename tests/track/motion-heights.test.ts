/** Which heights of a log are heights. */
import { describe, expect, test } from 'vitest';
import { computeMotion } from '../../src/track/motion.ts';
import { makeTrack, type MadeFix } from './made-track.ts';

/** Stands for half a minute, then flies; a fix every `stepS` seconds. */
function flown(rule: (t: number) => Pick<MadeFix, 'height' | 'pressure'>, stepS = 1) {
  const fixes = Array.from({ length: Math.round(120 / stepS) }, (_, k) => {
    const t = k * stepS;
    return { t, north: 40 * Math.max(0, t - 30), ...rule(t) };
  });
  return computeMotion(makeTrack(fixes));
}

/** Seconds from the start of fixes that have no smoothed height. */
function missingAt({ timeS, smoothHeightM }: ReturnType<typeof flown>): number[] {
  return Array.from(timeS, (t) => t - timeS[0]).filter((_, i) => Number.isNaN(smoothHeightM[i]));
}

describe('[PH4] heights that never change', () => {
  test('[PH4] of an aeroplane that stood and flew are none, nor are those that are all nought', () => {
    for (const height of [0, 100]) {
      const motion = flown(() => ({ height }));
      expect(motion.hasHeight).toBe(false);
      expect(missingAt(motion)).toHaveLength(motion.length);
      expect(motion.heightM.every((value) => Number.isNaN(value))).toBe(true);
    }
  });

  test('[PH4] of one that flew all the time are, and so are those that do change', () => {
    const level = Array.from({ length: 60 }, (_, t) => ({ t, north: 40 * t, height: 300 }));
    expect(computeMotion(makeTrack(level)).hasHeight).toBe(true);
    expect(flown((t) => ({ height: Math.max(10, 3 * t) })).hasHeight).toBe(true);
  });
});

describe('[PH5] heights in coarse steps', () => {
  const climb = (stepM: number, climbMps: number) =>
    flown((t) => ({ height: stepM * Math.round((climbMps * t) / stepM) }));

  test('[PH5] of a few metres are that much less certain, of a dozen and more none', () => {
    // A slow climb in steps of 6 m stands still most of the time, as if there were no noise at all.
    expect(climb(6, 0.1).noise.satelliteSdM).toBeCloseTo(2, 1);
    expect(climb(1, 0.1).noise.satelliteSdM).toBeLessThan(0.6);
    expect(climb(6, 3).hasHeight).toBe(true);
    expect(climb(30, 3).hasHeight).toBe(false);
  });
});

describe('[PH2] a hole in the heights', () => {
  const climb = (t: number): number => Math.max(10, 3 * t - 80);

  test('[PH2] is bridged for a moment, not further', () => {
    const short = flown((t) => ({ height: t >= 60 && t < 64 ? NaN : climb(t) }));
    expect(missingAt(short)).toEqual([]);
    const long = flown((t) => ({ height: t >= 60 && t < 70 ? NaN : climb(t) }));
    expect(missingAt(long)).toEqual([62, 63, 64, 65, 66, 67]);
    expect(long.hasHeight).toBe(true);
  });

  test('[PH2] of one fix is bridged in a slow log too', () => {
    const motion = flown((t) => ({ height: t === 60 ? NaN : climb(t) }), 4);
    expect(missingAt(motion)).toEqual([]);
  });

  test('[PH2] as long as the log leaves no heights', () => {
    const motion = flown((t) => ({ height: t < 4 ? climb(t) : NaN }));
    expect(motion.hasHeight).toBe(false);
    expect(missingAt(motion)).toHaveLength(motion.length);
  });
});

test('[PH3] pressure heights are read where most satellite heights are missing, not otherwise', () => {
  const height = (t: number): number => 2 * t;
  const most = flown((t) => ({ height: t < 40 ? height(t) : NaN, pressure: height(t) - 50 }));
  expect(most.heightDatum).toBe('pressure');
  expect(most.smoothHeightM[100]).toBeCloseTo(150, 0);
  const some = flown((t) => ({ height: t < 80 ? height(t) : NaN, pressure: height(t) - 50 }));
  expect(some.heightDatum).toBe('unstated');
  expect(some.smoothHeightM[70]).toBeCloseTo(140, 0);
  expect(some.smoothHeightM[100]).toBeNaN();
});
