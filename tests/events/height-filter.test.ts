/**
 * The filter that whitens heights against the full covariance of all rows, factored in one piece:
 * inner products under the inverse covariance, and its determinant, must agree.
 */
import { describe, test } from 'vitest';
import { HeightFilter } from '../../src/events/height-filter.ts';
import { WanderSteps } from '../../src/events/wander-steps.ts';
import { choleskyInPlace, forwardSolve } from '../../src/numeric/cholesky.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

const ERRORS = {
  driftVar: [15, 0.75] as const,
  driftTimeS: 150,
  wanderSdMps: 0.25,
  wanderTimeS: 1.5,
  wanderShare: () => 0.8,
};

/** Filter and steps for rows at u seconds from contact. */
function filterFor(
  u: Float64Array,
  kind: Uint8Array,
  noiseVar: Float64Array,
): { filter: HeightFilter; steps: WanderSteps } {
  const steps = new WanderSteps(u, ERRORS);
  const filter = new HeightFilter({ timeS: u, kind, noiseVar }, ERRORS, ERRORS.wanderSdMps);
  steps.setContact(u);
  filter.prepare(steps);
  return { filter, steps };
}

/** Covariance of two rows; the integrated exponentially correlated speed in closed form. */
function covariance(u: Float64Array, channel: Uint8Array, noiseVar: Float64Array): Float64Array {
  const n = u.length;
  const R = new Float64Array(n * n);
  const T = ERRORS.wanderTimeS;
  const scale = (0.8 * ERRORS.wanderSdMps * T) ** 2;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      if (channel[i] === channel[j]) {
        R[i * n + j] +=
          ERRORS.driftVar[channel[i]] * Math.exp(-Math.abs(u[i] - u[j]) / ERRORS.driftTimeS);
      }
      const a = u[i] / T;
      const b = u[j] / T;
      if (a > 0 && b > 0) {
        R[i * n + j] +=
          scale *
          (2 * Math.min(a, b) - 1 + Math.exp(-a) + Math.exp(-b) - Math.exp(-Math.abs(a - b)));
      }
      if (i === j) R[i * n + j] += noiseVar[i];
    }
  }
  return R;
}

describe('[HF1] whitening heights', () => {
  test('[HF1] agrees with the full covariance for both kinds of height at uneven times', () => {
    const random = createRandom(9);
    const u = Float64Array.of(-9, -8.4, -7, -7, -3, -1.2, -0.4, 0.3, 0.5, 1.4, 2.9, 3.1, 7, 12, 14);
    const n = u.length;
    const channel = Uint8Array.from(u, (_, i) => (i % 3 === 1 ? 1 : 0));
    const noiseVar = Float64Array.from(u, (_, i) => (channel[i] === 1 ? 0.16 : 0.45));
    const columns = new Float64Array(n * 2).map(() => random.normal());
    const R = covariance(u, channel, noiseVar);
    const halfLogDet = choleskyInPlace(R, n);
    const dense = [0, 1].map((k) => {
      const out = new Float64Array(n);
      forwardSolve(
        R,
        n,
        Float64Array.from(u, (_, i) => columns[2 * i + k]),
        out,
      );
      return out;
    });
    const { filter } = filterFor(u, channel, noiseVar);
    filter.whiten(columns, 2);
    expectNear(filter.halfLogDet, halfLogDet, 1e-9, 'half log determinant');
    for (const [a, b] of [
      [0, 0],
      [0, 1],
      [1, 1],
    ]) {
      let byFilter = 0;
      let byMatrix = 0;
      for (let i = 0; i < n; i++) {
        byFilter += columns[2 * i + a] * columns[2 * i + b];
        byMatrix += dense[a][i] * dense[b][i];
      }
      expectNear(byFilter, byMatrix, 1e-9 * Math.abs(byMatrix) + 1e-9, `product ${a} ${b}`);
    }
  });

  test('[HF2] columns that begin later come out as if their zeros had been worked through', () => {
    const random = createRandom(10);
    const u = Float64Array.from({ length: 12 }, (_, i) => i - 5);
    const channel = Uint8Array.from(u, (_, i) => i % 2);
    const { filter, steps } = filterFor(u, channel, new Float64Array(12).fill(0.3));
    const begins = [0, 4, 7];
    const whole = Float64Array.from({ length: 36 }, (_, at) =>
      Math.floor(at / 3) < begins[at % 3] ? 0 : random.normal(),
    );
    const begun = Int32Array.from(u, (_, i) => begins.filter((begin) => begin <= i).length);
    const skipped = whole.slice();
    filter.whiten(whole, 3);
    filter.whiten(skipped, 3, begun);
    skipped.forEach((value, at) => expectNear(value, whole[at], 1e-15, `at ${at}`));
    const once = filter.halfLogDet;
    filter.prepare(steps);
    expectNear(filter.halfLogDet, once, 0, 'prepared again');
  });

  test('[HF3] set to another contact it is the filter made for that contact', () => {
    const errors = { ...ERRORS, wanderShare: (u: number) => 0.3 + 0.7 * Math.min(1, u / 4) };
    const timeS = Float64Array.of(20, 19.2, 18.7, 17, 16.4, 14, 13.9, 11, 10, 6.5);
    const kind = Uint8Array.from(timeS, (_, i) => i % 2);
    const rows = { timeS, kind, noiseVar: new Float64Array(timeS.length).fill(0.4) };
    const used = new WanderSteps(timeS, errors);
    const filter = new HeightFilter(rows, errors, errors.wanderSdMps);
    for (const contactS of [12.1, 25, 16.4, 3, 17.3]) {
      const u = timeS.map((each) => contactS - each);
      const fresh = new WanderSteps(timeS, errors);
      const other = new HeightFilter(rows, errors, errors.wanderSdMps);
      used.setContact(u);
      fresh.setContact(u);
      filter.prepare(used);
      other.prepare(fresh);
      expectNear(filter.halfLogDet, other.halfLogDet, 0, `contact at ${contactS}`);
      const [once, again] = [filter, other].map((each) => {
        const column = Float64Array.from(timeS, (_, i) => Math.cos(i));
        each.whiten(column, 1);
        return column;
      });
      once.forEach((value, i) => expectNear(value, again[i], 0, `row ${i}, ${contactS}`));
    }
  });
});
