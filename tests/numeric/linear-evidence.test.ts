/** Evidence and posterior of a linear model against the multivariate normal density of the data. */
import { describe, test } from 'vitest';
import { choleskyInPlace, forwardSolve } from '../../src/numeric/cholesky.ts';
import { EliminatedTerms } from '../../src/numeric/eliminated-terms.ts';
import {
  fillGram,
  fillGramTerm,
  SmallSolver,
  WhitenedColumns,
} from '../../src/numeric/linear-evidence.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

const N = 12;
const MEAN = [1, -0.5, 2];
const SD = [0.7, 0.3, 1.5];

describe('[LE1] a linear model with normal priors', () => {
  const random = createRandom(4);
  const shapes = [() => 1, (i: number) => i / 4, (i: number) => Math.sin(i)];
  const y = Float64Array.from({ length: N }, (_, i) => 2 + i / 3 + random.normal());
  const R = new Float64Array(N * N);
  for (let i = 0; i < N; i++) {
    for (let j = 0; j < N; j++) R[i * N + j] = Math.exp(-Math.abs(i - j) / 3) + (i === j ? 0.4 : 0);
  }
  const factor = R.slice();
  const halfLogDet = choleskyInPlace(factor, N);
  const columns = new WhitenedColumns(factor, N);
  const [first, second, third] = shapes.map((shape) => columns.whiten(shape));
  const data = columns.whiten((i) => y[i]);
  const gram = new Float64Array(16);
  fillGram(gram, [first, second, third], data, 3);
  const solver = new SmallSolver(3, MEAN, SD, halfLogDet);
  solver.solve(gram);

  test('[LE1] has the log evidence of y ~ N(A m0, R + A P A)', () => {
    const whole = R.slice();
    const residual = y.map((value, i) => value - shapes.reduce((s, f, k) => s + MEAN[k] * f(i), 0));
    for (let i = 0; i < N; i++) {
      for (let j = 0; j < N; j++) {
        shapes.forEach((shape, k) => (whole[i * N + j] += SD[k] ** 2 * shape(i) * shape(j)));
      }
    }
    const half = choleskyInPlace(whole, N);
    const white = new Float64Array(N);
    forwardSolve(whole, N, residual, white);
    const density = -white.reduce((sum, value) => sum + value * value, 0) / 2 - half;
    expectNear(solver.logEvidence, density, 1e-9);
  });

  test('[LE2] has the posterior mean that makes the penalised squares least', () => {
    const cost = (at: Float64Array): number => {
      let sum = 0;
      for (let i = 0; i < N; i++) {
        sum += (data[i] - at[0] * first[i] - at[1] * second[i] - at[2] * third[i]) ** 2;
      }
      return sum + at.reduce((s, value, k) => s + ((value - MEAN[k]) / SD[k]) ** 2, 0);
    };
    const least = cost(solver.mean);
    for (let k = 0; k < 3; k++) {
      for (const step of [-1e-3, 1e-3]) {
        const other = solver.mean.slice();
        other[k] += step;
        // The curvature of the cost is twice the posterior precision with the others held.
        expectNear(Math.sign(cost(other) - least), 1, 0, `term ${k}`);
      }
    }
  });

  test('[LE3] has posterior variances smaller than the prior and equal to a direct inverse', () => {
    const precision = Array.from({ length: 9 }, (_, at) => {
      const [a, b] = [[first, second, third][Math.floor(at / 3)], [first, second, third][at % 3]];
      const product = a.reduce((sum, value, i) => sum + value * b[i], 0);
      return product + (Math.floor(at / 3) === at % 3 ? SD[at % 3] ** -2 : 0);
    });
    const [a, b, c, , e, f, , , i] = precision;
    const det = a * (e * i - f * f) - b * (b * i - f * c) + c * (b * f - e * c);
    expectNear(solver.varianceOf(Float64Array.of(1, 0, 0)), (e * i - f * f) / det, 1e-12);
    expectNear(solver.varianceOf(Float64Array.of(0, 0, 1)), (a * e - b * b) / det, 1e-12);
  });

  test('[LE4] with leading terms kept from the solution before, a model is solved as by itself', () => {
    const two = new SmallSolver(3, MEAN, SD, halfLogDet, 2);
    const other = gram.slice();
    // Another third column: half the first and half the third.
    const mixed = first.map((value, i) => (value + third[i]) / 2);
    fillGram(other, [first, second, mixed], data, 3);
    const middle = Float64Array.of(0, 1, 0);
    two.solve(other);
    two.solve(gram, true);
    expectNear(two.logEvidence, solver.logEvidence, 1e-12);
    for (let k = 0; k < 3; k++) expectNear(two.mean[k], solver.mean[k], 1e-12);
    expectNear(two.varianceOf(middle), solver.varianceOf(middle), 1e-12);
  });

  test('[LE5] with two terms eliminated the third alone has the same evidence', () => {
    const terms = new EliminatedTerms(MEAN.slice(0, 2), SD.slice(0, 2));
    terms.eliminate(
      (a, b) => gram[Math.max(a, b) * 4 + Math.min(a, b)],
      (a) => gram[12 + a],
      gram[15],
    );
    const column = Float64Array.of(gram[8], gram[9]);
    const withData = terms.reduce(column, gram[14]);
    const square = terms.left(gram[10], column, column);
    const gap = withData - MEAN[2] * square;
    const residual = terms.dataSquare - MEAN[2] * (gap + withData);
    const precision = square + SD[2] ** -2;
    const evidence = -(residual - gap ** 2 / precision) / 2 - Math.log(precision * SD[2] ** 2) / 2;
    expectNear(evidence - terms.halfLogDet - halfLogDet, solver.logEvidence, 1e-10);
  });

  test('[LE6] what changes with one column is filled anew', () => {
    const filled = new Float64Array(16);
    fillGram(filled, [first, data, third], data, 3);
    fillGramTerm(filled, [first, second, third], 1, data, 3);
    filled.forEach((value, at) => expectNear(value, gram[at], 1e-12, `at ${at}`));
  });
});
