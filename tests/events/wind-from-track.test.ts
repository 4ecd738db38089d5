/**
 * The wind from turns flown by hand: ground velocity = airspeed along the heading + a known wind.
 * Rules in docs/spec/measuring.md.
 */
import { describe, expect, test } from 'vitest';
import { describeWind, fitWind, type FittedWind } from '../../src/events/wind-from-track.ts';
import { windSamples } from '../../src/events/wind-samples.ts';
import { windShare } from '../../src/events/wind-share.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { circuit, fitted, flownInWind, SLOWING, WIND_ALOFT, type Moment } from './made-wind.ts';
import { bandOf, holds, valueOf } from './simulated.ts';

/** The error of the mean wind's speed. */
function tooStrong(moments: readonly Moment[]): { errorMps: number; held: boolean; width: number } {
  const fitted = fitWind(flownInWind(moments));
  if (isUndetermined(fitted)) throw new Error(fitted.undetermined);
  const shares = moments.map(({ aboveM }) => windShare(aboveM));
  const meanShare = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  const truth = meanShare * Math.hypot(WIND_ALOFT.east, WIND_ALOFT.north);
  const { speedMps } = describeWind(fitted);
  const { low, high } = bandOf(speedMps);
  return {
    errorMps: valueOf(speedMps) - truth,
    held: holds(speedMps, truth),
    width: high - low,
  };
}

describe('[WI5] the wind from a circuit in which the pilot changes speed', () => {
  test('[WI5] slowing down from downwind to final is not taken for a headwind', () => {
    const { errorMps, held } = tooStrong(SLOWING);
    expect(Math.abs(errorMps)).toBeLessThan(1.2);
    expect(held).toBe(true);
  });

  test('[WI5] flown at one speed it is not taken for a tailwind either', () => {
    const steady = SLOWING.map((moment) => ({ ...moment, airspeedMps: 34 }));
    const { errorMps, held } = tooStrong(steady);
    expect(Math.abs(errorMps)).toBeLessThan(1);
    expect(held).toBe(true);
  });

  test('[WI5] all of it in the turns, with nothing to see on the straights, is within the band', () => {
    const hidden = circuit({
      'climb-out': [33, 33],
      'to crosswind': [33, 34],
      crosswind: [34, 34],
      'to downwind': [34, 37],
      downwind: [37, 37],
      'to base': [37, 34.5],
      base: [34.5, 34.5],
      'to final': [34.5, 32],
      final: [32, 32],
    });
    const { errorMps, held, width } = tooStrong(hidden);
    expect(Math.abs(errorMps)).toBeLessThan(1.2);
    expect(held).toBe(true);
    expect(width).toBeLessThan(8);
  });

  test('[WI5] full turns tell it better than four quarter turns', () => {
    const orbiting = Array.from({ length: 120 }, (_, k) => ({
      headingDeg: 9 * k,
      airspeedMps: 34 + 0.02 * k,
      aboveM: 200,
    }));
    const round = tooStrong(orbiting);
    expect(Math.abs(round.errorMps)).toBeLessThan(0.4);
    expect(round.held).toBe(true);
    expect(round.width).toBeLessThan(0.7 * tooStrong(SLOWING).width);
  });
});

const STEADY = SLOWING.map((moment) => ({ ...moment, airspeedMps: 34 }));
/** All of it as low as the lowest of the flight, which counts as its ground. */
const LEVEL = STEADY.map((moment) => ({ ...moment, aboveM: 0 }));

/** Level flight that swings between north and east, so that both components err together. */
const weaving = (forS: number): Moment[] =>
  Array.from({ length: forS }, (_, k) => ({
    headingDeg: 45 + 60 * Math.sin((2 * Math.PI * k) / 60),
    ...{ airspeedMps: 34, aboveM: 0 },
  }));

describe('[WI5] the wind and its doubt keep to what is known of pilots', () => {
  test('[WI5] the same flight at half all speeds has half the wind and half its doubt', () => {
    const whole = flownInWind(SLOWING);
    const half = (of: Float64Array): Float64Array => of.map((each) => each / 2);
    const slower = fitted({
      ...whole,
      ...{ velocityEastMps: half(whole.velocityEastMps), speedMps: half(whole.speedMps) },
      ...{ velocityNorthMps: half(whole.velocityNorthMps), speedSdMps: half(whole.speedSdMps) },
      accelerationEastMps2: half(whole.accelerationEastMps2),
      accelerationNorthMps2: half(whole.accelerationNorthMps2),
      verticalSpeedMps: half(whole.verticalSpeedMps),
    });
    const { eastMps, northMps, varEast, varNorth } = fitted(whole);
    expectNear(2 * slower.eastMps, eastMps, 0.3);
    expectNear(2 * slower.northMps, northMps, 0.3);
    expectNear(4 * (slower.varEast / varEast), 1, 0.1);
    expectNear(4 * (slower.varNorth / varNorth), 1, 0.1);
  });

  test('[WI5] without heights the band is wider', () => {
    const seen = flownInWind(LEVEL, { east: 0, north: 0 });
    const none = new Float64Array(seen.length).fill(NaN);
    const blind = fitted({ ...seen, smoothHeightM: none, verticalSpeedMps: none });
    const sighted = fitted(seen);
    const width = ({ varEast, varNorth, meanShare }: FittedWind): number =>
      meanShare * Math.sqrt(varEast + varNorth);
    expect(width(blind)).toBeGreaterThan(1.15 * width(sighted));
  });

  test('[WI5] a wind holds for half an hour: an hour tells it no better, a quarter worse', () => {
    const [quarter, half, hour] = [900, 1800, 3600].map((forS) =>
      fitted(flownInWind(weaving(forS))),
    );
    expectNear(Math.sqrt(hour.varNorth / half.varNorth), 1, 0.03);
    expectNear(Math.sqrt(hour.varEast / half.varEast), 1, 0.03);
    expectNear(hour.cov / half.cov, 1, 0.06);
    expectNear(Math.sqrt(quarter.varNorth / half.varNorth), Math.SQRT2, 0.06);
  });

  test('[WI5] one jump of 6 m/s in a turn is an outlier and moves it little', () => {
    const jumped = LEVEL.map((moment, k) => ({
      ...moment,
      airspeedMps: moment.airspeedMps + (k < 139 ? 0 : 6),
    }));
    const [without, withJump] = [LEVEL, jumped].map((each) => fitted(flownInWind(each)));
    expectNear(withJump.eastMps, without.eastMps, 0.5);
    expectNear(withJump.northMps, without.northMps, 0.5);
  });

  test('[WI5] right-hand circuits tell the mirrored wind', () => {
    const mirrored = SLOWING.map((moment) => ({ ...moment, headingDeg: -moment.headingDeg }));
    const left = fitted(flownInWind(SLOWING));
    const right = fitted(flownInWind(mirrored, { ...WIND_ALOFT, east: -WIND_ALOFT.east }));
    expectNear(right.eastMps, -left.eastMps, 1e-9);
    expectNear(right.northMps, left.northMps, 1e-9);
    expectNear(right.varEast, left.varEast, 1e-9);
    expectNear(right.varNorth, left.varNorth, 1e-9);
    expectNear(right.cov, -left.cov, 1e-9);
  });

  test('[WI5] hands less steady than thought leave more doubt', () => {
    const random = createRandom(15);
    const steadily = weaving(600);
    const restlessly = steadily.map((moment) => ({
      ...moment,
      airspeedMps: moment.airspeedMps + 1.5 * random.normal(),
    }));
    const [steady, restless] = [steadily, restlessly].map((each) => fitted(flownInWind(each)));
    expect(Math.sqrt(restless.varEast / steady.varEast)).toBeGreaterThan(1.7);
    expect(Math.sqrt(restless.varNorth / steady.varNorth)).toBeGreaterThan(1.7);
  });
});

describe('[WI5] turns, as the track shows them', () => {
  const orbiting = (degPs: number): Moment[] =>
    Array.from({ length: 120 }, (_, k) => ({
      ...{ headingDeg: degPs * k, airspeedMps: 34, aboveM: 0 },
    }));

  test.each([9, -9])('[WI5] an orbit at %d degrees a second is one full turn', (degPs) => {
    const samples = windSamples(flownInWind(orbiting(degPs), { east: 0, north: 0 }));
    expect(samples.length).toBeGreaterThan(50);
    for (const { turnDegPs, inFullTurn } of samples) {
      // The ends see half a step.
      expectNear(turnDegPs, degPs, 0.1);
      expect(inFullTurn).toBe(true);
    }
  });

  test('[WI5] quarter turns with straights between, or an S, are none', () => {
    const s = [...orbiting(9).slice(0, 30), ...orbiting(-9).slice(0, 30)];
    for (const moments of [LEVEL, s]) {
      const samples = windSamples(flownInWind(moments, { east: 0, north: 0 }));
      expect(samples.length).toBeGreaterThan(25);
      expect(samples.filter(({ inFullTurn }) => inFullTurn)).toEqual([]);
    }
  });

  test('[WI2] without heights the wind is taken as it is at the reference height', () => {
    expect(windShare(NaN)).toBe(1);
    expect(windShare(100)).toBe(1);
  });
});
