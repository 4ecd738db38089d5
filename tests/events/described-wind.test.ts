/** The wind in words a pilot uses, and what of a flight tells it, by hand; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { describeWind } from '../../src/events/wind-from-track.ts';
import { turnedDeg, windSamples } from '../../src/events/wind-samples.ts';
import { windShare } from '../../src/events/wind-share.ts';
import { undetermined, Z90 } from '../../src/result.ts';
import type { Motion } from '../../src/track/motion.ts';
import { expectNear } from '../expect-near.ts';
import { bandOf } from './simulated.ts';

/** A wind to 3 m/s east and 4 m/s north, times a share, off by these along it and across it, one sd. */
function blowing(share: number, alongSdMps: number, acrossSdMps: number) {
  const [along, across] = [alongSdMps ** 2, acrossSdMps ** 2];
  return describeWind({
    ...{ eastMps: 3, northMps: 4, meanShare: share },
    // Turned by the direction (0.6, 0.8).
    varEast: 0.36 * along + 0.64 * across,
    varNorth: 0.64 * along + 0.36 * across,
    cov: 0.48 * (along - across),
  });
}

describe('[WI1] a fitted wind as the mean over the heights flown', () => {
  test('[WI1] has the doubt along it in its speed, and that across it in its direction', () => {
    const { speedMps, fromDeg } = blowing(1.2, 1, 0.5);
    const speed = bandOf(speedMps);
    expectNear(speed.value, 6, 1e-9);
    expectNear(speed.high - speed.value, Z90 * 1.2, 1e-9);
    expectNear(speed.value - speed.low, Z90 * 1.2, 1e-9);
    const from = bandOf(fromDeg);
    expectNear(from.value, 180 + (Math.atan2(3, 4) * 180) / Math.PI, 1e-9);
    const halfDeg = (Math.atan2(Z90 * 1.2 * 0.5, 6) * 180) / Math.PI;
    expectNear(from.high - from.value, halfDeg, 1e-9);
    expectNear(from.value - from.low, halfDeg, 1e-9);
  });

  test('[WI1] has no direction where its band across reaches a calm', () => {
    const light = undetermined('the wind is too light for a direction');
    // 5 m/s, off across by 3.1 and 3: 5.1 and 4.9 nine times in ten.
    expect(blowing(1, 1, 3.1).fromDeg).toEqual(light);
    bandOf(blowing(1, 1, 3).fromDeg);
    // Weaker than its doubt across, it may blow from there: its speed is as doubtful as both.
    const { speedMps, fromDeg } = blowing(1, 1, 6);
    expect(fromDeg).toEqual(light);
    const { high, low } = bandOf(speedMps);
    expectNear(high, 5 + Z90 * Math.hypot(1, 6), 1e-9);
    expectNear(low, 5 - Z90, 1e-9);
    expect(bandOf(blowing(1, 4, 1).speedMps).low).toBe(0);
  });
});

describe('[WI2] what of a flight tells its wind', () => {
  test('[WI2] the wind grows from 2 m on by a power law', () => {
    expectNear(windShare(50), 0.5 ** 0.15, 1e-12);
    expectNear(windShare(2), 0.02 ** 0.15, 1e-12);
    expect(windShare(-3)).toBe(windShare(2));
  });

  /** Seconds of flight at these speeds and tracks. */
  const flown = (fixes: readonly (readonly [timeS: number, mps: number, trackDeg: number])[]) => {
    const column = (of: (fix: (typeof fixes)[number], k: number) => number): Float64Array =>
      Float64Array.from(fixes, of);
    const rad = (deg: number): number => (deg * Math.PI) / 180;
    const rates = fixes.map(([timeS, , deg], k) => {
      const [beforeS, , beforeDeg] = fixes[Math.max(0, k - 1)];
      return k === 0 ? 0 : rad(deg - beforeDeg) / (timeS - beforeS);
    });
    return {
      length: fixes.length,
      timeS: column(([timeS]) => timeS),
      ...{ speedMps: column(([, mps]) => mps), speedSdMps: column(() => 0.2) },
      velocityEastMps: column(([, mps, deg]) => mps * Math.sin(rad(deg))),
      velocityNorthMps: column(([, mps, deg]) => mps * Math.cos(rad(deg))),
      accelerationEastMps2: column(([, mps, deg], k) => mps * rates[k] * Math.cos(rad(deg))),
      accelerationNorthMps2: column(([, mps, deg], k) => -mps * rates[k] * Math.sin(rad(deg))),
      ...{ smoothHeightM: column(() => NaN), verticalSpeedMps: column(() => NaN) },
    } as unknown as Motion;
  };
  const turning = (fromS: number, mps: number, count: number) =>
    Array.from({ length: count }, (_, k) => [fromS + 2 * k, mps, 10 * k] as const);

  test('[WI2] a turn in flight counts by its degrees, one while taxiing not at all', () => {
    const flight = turning(0, 30, 19);
    expectNear(turnedDeg(windSamples(flown(flight))), 180, 1e-6);
    const taxied = flown([...flight, ...turning(40, 6, 10)]);
    expect(windSamples(taxied)).toHaveLength(19);
    expectNear(turnedDeg(windSamples(taxied)), 180, 1e-6);
  });

  test('[WI2] what turned within a long hole does not count', () => {
    const holed = turning(0, 30, 19).map(
      ([timeS, mps, deg], k) => [timeS + (k >= 10 ? 20 : 0), mps, deg] as const,
    );
    expectNear(turnedDeg(windSamples(flown(holed))), 170, 1e-6);
  });
});
