/** Terms eliminated from linear models, against the multivariate normal density of the data and a direct inverse. */
import { describe, test } from 'vitest';
import { choleskyInPlace, forwardSolve } from '../../src/numeric/cholesky.ts';
import { EliminatedTerms } from '../../src/numeric/eliminated-terms.ts';
import { invertSymmetric3 } from '../../src/numeric/matrix3.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { dot, WhitenedColumns } from '../../src/numeric/whitened-columns.ts';
import { expectNear } from '../expect-near.ts';

const N = 12;
const MEAN = [1, -0.5, 2];
const SD = [0.7, 0.3, 1.5];
type Shape = (i: number) => number;
const SHARED: readonly Shape[] = [() => 1, (i) => i / 4];
const OWN: readonly Shape[] = [(i) => Math.sin(i), (i) => Math.sin(i) / 2 + 0.5];

describe('[LE1] a linear model with normal priors, two of its terms eliminated', () => {
  const random = createRandom(4);
  const y = Float64Array.from({ length: N }, (_, i) => 2 + i / 3 + random.normal());
  const R = new Float64Array(N * N);
  for (let i = 0; i < N; i++) {
    for (let j = 0; j < N; j++) R[i * N + j] = Math.exp(-Math.abs(i - j) / 3) + (i === j ? 0.4 : 0);
  }
  const factor = R.slice();
  const halfLogDet = choleskyInPlace(factor, N);
  const whitener = new WhitenedColumns(factor, N);
  const shared = SHARED.map((shape) => whitener.whiten(shape));
  const data = whitener.whiten((i) => y[i]);
  const terms = new EliminatedTerms(MEAN.slice(0, 2), SD.slice(0, 2));
  terms.eliminate(
    (a, b) => dot(shared[a], shared[b]),
    (a) => dot(shared[a], data),
    dot(data, data),
  );

  /** The third term's model, written out as its users do. */
  const solve = (
    shape: Shape,
  ): {
    column: Float64Array;
    solved: Float64Array;
    mean: number;
    variance: number;
    log: number;
  } => {
    const column = whitener.whiten(shape);
    const solved = Float64Array.from(shared, (each) => dot(each, column));
    const withData = terms.reduce(solved, dot(column, data));
    const square = terms.left(dot(column, column), solved, solved);
    const gap = withData - MEAN[2] * square;
    const residual = terms.dataSquare - MEAN[2] * (gap + withData);
    const precision = square + SD[2] ** -2;
    const spread = Math.log(precision * SD[2] ** 2) / 2;
    const log = -(residual - gap ** 2 / precision) / 2 - spread - terms.halfLogDet - halfLogDet;
    return { column, solved, mean: MEAN[2] + gap / precision, variance: 1 / precision, log };
  };

  for (const [k, own] of OWN.entries()) {
    const shapes = [...SHARED, own];
    const model = solve(own);

    test(`[LE1] has the log evidence of y ~ N(A m0, R + A P A), own term ${k}`, () => {
      const whole = R.slice();
      const residual = y.map(
        (value, i) => value - shapes.reduce((s, f, term) => s + MEAN[term] * f(i), 0),
      );
      for (let i = 0; i < N; i++) {
        for (let j = 0; j < N; j++) {
          shapes.forEach((shape, term) => {
            whole[i * N + j] += SD[term] ** 2 * shape(i) * shape(j);
          });
        }
      }
      const half = choleskyInPlace(whole, N);
      const white = new Float64Array(N);
      forwardSolve(whole, N, residual, white);
      expectNear(model.log, -dot(white, white) / 2 - half, 1e-9);
    });

    test(`[LE2] tells mean and variance of any combination of the terms, own term ${k}`, () => {
      const columns = [...shared, model.column];
      const precision = Float64Array.from({ length: 9 }, (_, at) => {
        const [a, b] = [Math.floor(at / 3), at % 3];
        return dot(columns[a], columns[b]) + (a === b ? SD[a] ** -2 : 0);
      });
      const covariance = new Float64Array(9);
      invertSymmetric3(precision, covariance);
      const right = columns.map((column, a) => dot(column, data) + MEAN[a] / SD[a] ** 2);
      const mean = columns.map((_, a) =>
        right.reduce((sum, each, b) => sum + covariance[a * 3 + b] * each, 0),
      );
      const weights = [0.8, -1.7, 0.4];
      let [value, variance] = [0, 0];
      for (let a = 0; a < 3; a++) {
        value += weights[a] * mean[a];
        for (let b = 0; b < 3; b++) variance += weights[a] * covariance[a * 3 + b] * weights[b];
      }
      // A combination is read as a column whose products with the terms are its weights, less.
      const solved = Float64Array.of(-weights[0], -weights[1]);
      const without = terms.reduce(solved, 0);
      const perOwn = terms.left(-weights[2], solved, model.solved);
      expectNear(without - perOwn * model.mean, value, 1e-9, 'mean');
      expectNear(dot(solved, solved) + perOwn ** 2 * model.variance, variance, 1e-9, 'variance');
    });
  }

  test('[LE3] a column that begins late has the same products from its beginning on', () => {
    const late = whitener.whiten((i) => (i < 7 ? 0 : i));
    expectNear(dot(late, data, 7), dot(late, data), 0);
    expectNear(dot(late, late, 8) < dot(late, late) ? 1 : 0, 1, 0, 'it does begin there');
  });
});
