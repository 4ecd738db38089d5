/** Smoothed motion and the noise learned from the log, against tracks whose truth is known. */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { computeMotion, medianInterval } from '../../src/track/motion.ts';
import { thirdDifferenceSd } from '../../src/track/white-noise.ts';
import { expectNear } from '../expect-near.ts';
import { makeTrack, steady } from './made-track.ts';

/** A turn at 30 m/s through half a circle of 300 m, with white noise. */
function turn(noiseM: number, seed: number, intervalS = 1) {
  const random = createRandom(seed);
  const times = Array.from({ length: Math.round(60 / intervalS) }, (_, k) => k * intervalS);
  return makeTrack(
    times.map((t) => ({
      t,
      north: 300 * Math.sin(t / 10) + noiseM * random.normal(),
      east: 300 * (1 - Math.cos(t / 10)) + noiseM * random.normal(),
      height: 200 + 2 * t + 2 * noiseM * random.normal(),
    })),
  );
}

describe('[MO1] motion', () => {
  test('[MO1] has the speed, the acceleration and the climb of a steady turn', () => {
    const motion = computeMotion(turn(0, 1));
    for (let i = 5; i < motion.length - 5; i++) {
      // The made track counts on a sphere: up to 0.4 % off the ellipsoid here.
      expectNear(motion.speedMps[i], 30, 0.2, `speed ${i}`);
      // v2/r: 30^2 / 300.
      const acceleration = Math.hypot(
        motion.accelerationEastMps2[i],
        motion.accelerationNorthMps2[i],
      );
      expectNear(acceleration, 3, 0.1, `acceleration ${i}`);
      expectNear(motion.verticalSpeedMps[i], 2, 0.05, `climb ${i}`);
    }
  });

  test('[MO2] has speeds as near to the truth as their standard deviation says', () => {
    let squares = 0;
    let count = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const motion = computeMotion(turn(0.5, seed));
      for (let i = 3; i < motion.length - 3; i++) {
        const away = [
          motion.velocityNorthMps[i] - 30 * Math.cos(i / 10),
          motion.velocityEastMps[i] - 30 * Math.sin(i / 10),
        ];
        for (const off of away) squares += (off / motion.speedSdMps[i]) ** 2;
        count += 2;
      }
    }
    // Mean square of a standard normal is 1; a smooth turn needs less jerk than is allowed for, so less.
    expect(squares / count).toBeGreaterThan(0.2);
    expect(squares / count).toBeLessThan(1.15);
  });

  test.each([0.3, 0.8, 2])('[MO3] learns white noise of %d m from the log', (noiseM) => {
    const found = [1, 2, 3, 4, 5].map((seed) => computeMotion(turn(noiseM, seed)).noise);
    const mean = found.reduce((sum, { horizontalSdM }) => sum + horizontalSdM, 0) / 5;
    const vertical = found.reduce((sum, { verticalSdM }) => sum + verticalSdM, 0) / 5;
    // Third differences of 60 fixes: 12 % a flight; the lesser of two axes is taken.
    expectNear(mean / noiseM, 0.93, 0.17, 'horizontal');
    expectNear(vertical / (2 * noiseM), 1, 0.17, 'vertical');
  });

  test('[MO3] third differences of normal noise give its standard deviation', () => {
    const random = createRandom(2);
    const times = Float64Array.from({ length: 20_000 }, (_, i) => i);
    const column = times.map((t) => 7 + 3 * t - 0.2 * t * t + 1.5 * random.normal());
    expectNear(thirdDifferenceSd(times, column, 1), 1.5, 0.03);
    expect(thirdDifferenceSd(times.slice(0, 10), column.slice(0, 10), 1)).toBeNaN();
  });

  test('[MO4] takes the pressure height where there is no satellite height, and says where there is none', () => {
    const pressureOnly = computeMotion(
      makeTrack(steady(30).map((fix) => ({ ...fix, pressure: 100 + fix.t }))),
    );
    expect(pressureOnly.hasHeight).toBe(true);
    expectNear(pressureOnly.smoothHeightM[15], 115, 0.1);
    const neither = computeMotion(makeTrack(steady(30)));
    expect(neither.hasHeight).toBe(false);
    expect(neither.smoothHeightM.every(Number.isNaN)).toBe(true);
  });

  test('[MO5] bridges missing heights and uneven steps', () => {
    const fixes = steady(40)
      .filter(({ t }) => t % 7 !== 3)
      .map((fix) => ({ ...fix, height: fix.t === 20 ? NaN : 500 - 3 * fix.t }));
    const motion = computeMotion(makeTrack(fixes));
    motion.timeS.forEach((t, i) => {
      expectNear(motion.smoothHeightM[i], 500 - 3 * (t - motion.timeS[0]), 0.2, `height ${i}`);
      expectNear(motion.speedMps[i], 40, 0.25, `speed ${i}`);
    });
  });

  test('[MO6] the median interval is the middle of the steps; one fix is a mistake', () => {
    expect(medianInterval(Float64Array.of(0, 1, 2, 3, 63))).toBe(1);
    expect(medianInterval(Float64Array.of(5))).toBeNaN();
    expect(() => computeMotion(makeTrack(steady(1)))).toThrow('two fixes');
  });

  test('[MO7] north is north where the aircraft is, far from where the log began too', () => {
    // First at the place itself, then 200 km to the east: up a meridian, and along a parallel.
    const far = (t: number, north: number, east: number) => ({ t, north, east: 200_000 + east });
    const begun = steady(30);
    const northward = Array.from({ length: 60 }, (_, k) => far(4000 + k, 40 * k, 0));
    const eastward = Array.from({ length: 60 }, (_, k) => far(5000 + k, 0, 40 * k));
    const motion = computeMotion(makeTrack([...begun, ...northward, ...eastward]));
    const at = (i: number) => [motion.velocityNorthMps[i], motion.velocityEastMps[i]] as const;
    const [up, right] = at(begun.length + 30);
    // 2.5 degrees of leaning meridians would be 1.8 m/s; made tracks are 0.4 % off the ellipsoid.
    expectNear(right, 0, 0.02, 'east on a meridian');
    expectNear(up, 40, 0.2, 'north on a meridian');
    const [alsoUp, alsoRight] = at(begun.length + 90);
    expectNear(alsoUp, 0, 0.02, 'north on a parallel');
    expectNear(alsoRight, 40, 0.2, 'east on a parallel');
  });
});
