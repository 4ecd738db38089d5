/**
 * The smoother against an independent route: the same linear normal model solved in one piece by
 * dense algebra, at uneven times.
 */
import { describe, expect, test } from 'vitest';
import { backSolveInPlace, choleskyInPlace, forwardSolve } from '../../src/numeric/cholesky.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { smoothAxes } from '../../src/numeric/smoother.ts';
import { expectNear } from '../expect-near.ts';

const OPTIONS = { jerkPower: 0.35, positionSdM: 0.6, robustPasses: 0 };
const TIMES = Float64Array.of(0, 1, 1.3, 2.5, 4.5, 5, 6.1, 9, 9.2, 10);

/** How far the initial position, speed and acceleration reach into the position and the speed at `t`. */
const REACH = {
  position: (t: number) => [1, t, (t * t) / 2],
  speed: (t: number) => [0, 1, t],
} as const;
type Quantity = keyof typeof REACH;
const INITIAL_VAR = [1e8, 1e4, 1e2];

/** Prior covariance of two quantities at two times: the initial state, and white jerk integrated. */
function priorCov(a: Quantity, s: number, b: Quantity, t: number): number {
  const initial = INITIAL_VAR.reduce((sum, v, k) => sum + v * REACH[a](s)[k] * REACH[b](t)[k], 0);
  // What jerk at u adds to a quantity is its reach of an acceleration over the time since: a power of it.
  const added = (q: Quantity, since: number): number =>
    q === 'position' ? (since * since) / 2 : since;
  const end = Math.min(s, t);
  // Gauss-Legendre with three points is exact for the quartic inside.
  const points = [
    [-Math.sqrt(0.6), 5 / 9],
    [0, 8 / 9],
    [Math.sqrt(0.6), 5 / 9],
  ];
  const jerk = points.reduce((sum, [x, weight]) => {
    const u = (end * (1 + x)) / 2;
    return sum + (weight * end * added(a, s - u) * added(b, t - u)) / 2;
  }, 0);
  return initial + OPTIONS.jerkPower * jerk;
}

describe('[SM1] the smoother', () => {
  test('[SM1] gives the means and errors of the dense solution at uneven times', () => {
    const random = createRandom(3);
    const truth = TIMES.map((t) => 5 + 20 * t - 0.7 * t * t);
    const measured = truth.map((x) => x + 0.6 * random.normal());
    const n = TIMES.length;
    const factor = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        const shared = priorCov('position', TIMES[i], 'position', TIMES[j]);
        factor[i * n + j] = shared + (i === j ? 0.36 : 0);
      }
    }
    choleskyInPlace(factor, n);
    const offset = measured[0];
    const weights = measured.map((x) => x - offset);
    forwardSolve(factor, n, weights, weights);
    backSolveInPlace(factor, n, weights);
    const smoothed = smoothAxes(TIMES, [measured], OPTIONS);
    for (let i = 0; i < n; i++) {
      for (const quantity of ['position', 'speed'] as const) {
        const cross = TIMES.map((t) => priorCov(quantity, TIMES[i], 'position', t));
        let mean = quantity === 'position' ? offset : 0;
        for (let j = 0; j < n; j++) mean += cross[j] * weights[j];
        forwardSolve(factor, n, cross, cross);
        let variance = priorCov(quantity, TIMES[i], quantity, TIMES[i]);
        for (const value of cross) variance -= value * value;
        const [column, sd] =
          quantity === 'position'
            ? [smoothed.positionM[0], smoothed.positionSdM]
            : [smoothed.velocityMps[0], smoothed.velocitySdMps];
        // The prior's variance of 1e8 costs the dense route about six digits of 0.36.
        expectNear(column[i], mean, 1e-3, `${quantity} at ${TIMES[i]}`);
        expectNear(sd[i] ** 2, variance, 1e-3, `variance of ${quantity} at ${TIMES[i]}`);
      }
    }
  });

  test('[SM2] covers the truth as often as its errors say', () => {
    const random = createRandom(5);
    let inside = 0;
    let all = 0;
    for (let run = 0; run < 60; run++) {
      let [p, v, a] = [0, 20, 0];
      const times = Float64Array.from({ length: 60 }, (_, i) => i);
      const truth = times.map((t) => {
        if (t > 0) {
          // A second of white jerk in fifty steps.
          for (let k = 0; k < 50; k++) {
            p += v / 50 + a / 5000;
            v += a / 50;
            a += Math.sqrt(0.35 / 50) * random.normal();
          }
        }
        return p;
      });
      const measured = truth.map((x) => x + 0.6 * random.normal());
      const { positionM, positionSdM } = smoothAxes(times, [measured], OPTIONS);
      for (let i = 0; i < 60; i++) {
        all++;
        if (Math.abs(positionM[0][i] - truth[i]) < 1.645 * positionSdM[i]) inside++;
      }
    }
    // 3,600 values, some dozen a run independent: the share has a standard error near 1.2 points.
    expectNear(inside / all, 0.9, 0.04);
  });

  test('[SM3] a stray fix bends nothing, a missing one is bridged', () => {
    const times = Float64Array.from({ length: 30 }, (_, i) => i);
    const measured = times.map((t) => 25 * t);
    const stray = measured.slice();
    stray[15] += 80;
    const robust = smoothAxes(times, [stray], { ...OPTIONS, robustPasses: 2 });
    expectNear(robust.positionM[0][15], measured[15], 1, 'stray');
    expect(robust.weight[15]).toBeLessThan(0.1);
    const missing = measured.slice();
    missing[10] = NaN;
    expectNear(smoothAxes(times, [missing], OPTIONS).positionM[0][10], 250, 0.1, 'missing');
  });

  test('[SM4] refuses times that do not rise and columns of other lengths', () => {
    const two = Float64Array.of(0, 1);
    expect(() => smoothAxes(Float64Array.of(0, 0), [two], OPTIONS)).toThrow('does not rise');
    expect(() => smoothAxes(two, [Float64Array.of(1)], OPTIONS)).toThrow('1 slots, the times 2');
  });
});
