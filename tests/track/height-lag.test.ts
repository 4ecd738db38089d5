/** The delay between the two heights of a log, held against delays that were put in; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { heightDelay, type HeightPair } from '../../src/track/height-lag.ts';
import { expectNear } from '../expect-near.ts';

const CIRCUIT_S = 300;
const GRAVITY_MPS2 = 9.80665;

/** From one value to the next through a circuit of five minutes: climb, downwind, descent; each change takes a while. */
function through(
  timeS: number,
  values: readonly [number, number, number],
  changeS: number,
): number {
  const inCircuitS = ((timeS % CIRCUIT_S) + CIRCUIT_S) % CIRCUIT_S;
  const [climb, level, descent] = values;
  const changes: [number, number, number][] = [
    [0, descent, climb],
    [80, climb, level],
    [200, level, descent],
  ];
  const [fromS, before, after] = changes.findLast(([from]) => inCircuitS >= from) ?? changes[0];
  return before + (after - before) * Math.min(1, (inCircuitS - fromS) / changeS);
}

const climbMps = (timeS: number): number => through(timeS, [3, 0, -2.4], 3);
const speedMps = (timeS: number): number => through(timeS, [30, 42, 33], 20);

interface Made {
  readonly lateS: number;
  readonly circuits?: number;
  readonly staticError?: number;
  readonly noiseM?: number;
  readonly seed?: number;
  readonly intervalS?: number;
}

/** Two heights of one flight, the pressure height late, with drift and white noise. */
function made({ lateS, circuits = 4, staticError = 0.08, ...rest }: Made): HeightPair {
  const { noiseM = 0.6, seed = 1, intervalS = 1 } = rest;
  const random = createRandom(seed);
  const length = Math.floor((circuits * CIRCUIT_S) / intervalS);
  const timeS = Float64Array.from({ length }, (_, i) => i * intervalS);
  const stepS = 0.1;
  const height = new Float64Array(Math.ceil((circuits * CIRCUIT_S) / stepS) + 100);
  for (let k = 1; k < height.length; k++) {
    height[k] = height[k - 1] + climbMps((k - 50) * stepS) * stepS;
  }
  const heightAt = (atS: number): number => height[Math.round(atS / stepS) + 50];
  let driftM = 0;
  const satelliteM = timeS.map((t) => {
    driftM += Math.sqrt(0.1 * intervalS) * random.normal();
    return heightAt(t) + driftM + noiseM * random.normal();
  });
  const pressureM = timeS.map((t) => {
    const staticM = (staticError * speedMps(t - lateS) ** 2) / (2 * GRAVITY_MPS2);
    return heightAt(t - lateS) - staticM + 40 + 0.4 * random.normal();
  });
  return {
    ...{ timeS, satelliteM, pressureM },
    speedMps: timeS.map(speedMps),
    verticalSpeedMps: timeS.map(climbMps),
    noiseSdM: Math.hypot(noiseM, 0.4),
  };
}

describe('[PH6] how late the pressure height is', () => {
  test.each([-1.2, -0.4, 0, 0.5, 1.3])('[PH6] finds %f s, to its own error', (lateS) => {
    const found = heightDelay(made({ lateS }));
    if (!found) throw new Error('no delay found');
    expectNear(found.delayS, lateS, Math.max(0.05, 3 * found.sdS));
    expect(found.sdS).toBeLessThan(0.15);
    expect(found.sdS).toBeGreaterThan(0.01);
  });

  test('[PH6] its error is as large as it says, and smaller over more circuits', () => {
    const scores: number[] = [];
    for (let seed = 0; seed < 60; seed++) {
      const found = heightDelay(made({ lateS: 0.6, circuits: 2, seed }));
      if (found) scores.push((found.delayS - 0.6) / found.sdS);
    }
    expect(scores).toHaveLength(60);
    const rms = Math.sqrt(scores.reduce((sum, score) => sum + score * score, 0) / 60);
    // The sd of 60 normal values scatters by a tenth; a bias of one sd would make it 1.4.
    expect(rms).toBeGreaterThan(0.6);
    expect(rms).toBeLessThan(1.35);
    const sdOver = (circuits: number): number =>
      heightDelay(made({ lateS: 0.6, circuits }))?.sdS ?? NaN;
    expect(sdOver(8)).toBeLessThan(0.6 * sdOver(2));
  });

  test('[PH6] faults of either height, holes and slow logs do not bend it', () => {
    const clean = made({ lateS: 0.5, intervalS: 2 });
    const spoilt = {
      ...clean,
      satelliteM: clean.satelliteM.map((value, i) => (i % 97 === 5 ? value + 60 : value)),
      pressureM: clean.pressureM.map((value, i) => (i > 100 && i < 160 ? NaN : value)),
    };
    const found = heightDelay(spoilt);
    if (!found) throw new Error('no delay found');
    expectNear(found.delayS, 0.5, Math.max(0.1, 3 * found.sdS));
  });

  test('[PH6] after a hole of more than half a minute the heights may stand anywhere to each other', () => {
    const withJumps = (jumpM: number) => {
      const clean = made({ lateS: 0.5 });
      const circuit = clean.timeS.map((t) => Math.floor(t / CIRCUIT_S));
      return heightDelay({
        ...clean,
        timeS: clean.timeS.map((t, i) => t + 31 * circuit[i]),
        satelliteM: clean.satelliteM.map((height, i) => height + jumpM * circuit[i]),
      });
    };
    const [level, jumped] = [0, 60].map(withJumps);
    if (!level || !jumped) throw new Error('no delay found');
    expectNear(jumped.delayS, level.delayS, 1e-6);
    expectNear(jumped.sdS, level.sdS, 1e-6);
  });

  test('[PH6] a static error that is as large as a cabin has is none', () => {
    for (const staticError of [-0.12, 0.12]) {
      const found = heightDelay(made({ lateS: 0.5, staticError }));
      expectNear(found?.delayS ?? NaN, 0.5, 0.25, `static error ${staticError}`);
    }
  });

  test('[PH6] it is as uncertain as the heights scatter, whatever noise they are said to have', () => {
    const honest = heightDelay(made({ lateS: 0.5, noiseM: 1.2 }));
    const boasting = heightDelay({ ...made({ lateS: 0.5, noiseM: 1.2 }), noiseSdM: 0.6 });
    if (!honest || !boasting) throw new Error('no delay found');
    // By the noise it is said to have it would be a fifth smaller.
    expect(boasting.sdS).toBeGreaterThan(honest.sdS);
  });

  test('[PH6] one wrong speed, and one that is missing, do not hide it', () => {
    const pair = made({ lateS: 0.5 });
    const speeds = pair.speedMps.slice();
    speeds[40] = 130;
    speeds[41] = NaN;
    const found = heightDelay({ ...pair, speedMps: speeds });
    expectNear(found?.delayS ?? NaN, 0.5, 0.25);
  });

  test('[PH6] what the heights do on the ground does not count', () => {
    const pair = made({ lateS: 0.5 });
    // Twenty minutes of taxiing before it, with a pressure height that follows the speed.
    const n = 1200;
    const before = (column: Float64Array, value: (i: number) => number): Float64Array =>
      Float64Array.from({ length: n + column.length }, (_, i) =>
        i < n ? value(i) : column[i - n],
      );
    const wave = (i: number): number => Math.sin(i / 5);
    const found = heightDelay({
      ...pair,
      timeS: before(
        pair.timeS.map((t) => t + n),
        (i) => i,
      ),
      satelliteM: before(pair.satelliteM, () => 10),
      pressureM: before(pair.pressureM, (i) => 50 - 3 * wave(i)),
      speedMps: before(pair.speedMps, () => 4),
      verticalSpeedMps: before(pair.verticalSpeedMps, wave),
    });
    expectNear(found?.delayS ?? NaN, 0.5, 0.25);
  });

  test('[PH6] says nothing of a few fixes, of one height, of heights that do not go together', () => {
    expect(heightDelay(made({ lateS: 0.5, circuits: 0.1 }))).toBeNull();
    const pair = made({ lateS: 0.5 });
    expect(heightDelay({ ...pair, pressureM: pair.timeS.map(() => NaN) })).toBeNull();
    const random = createRandom(3);
    const other = pair.timeS.map(() => 30 * random.normal());
    expect(heightDelay({ ...pair, pressureM: other })).toBeNull();
  });
});
