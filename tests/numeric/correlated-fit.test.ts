/** Least squares with correlated errors, against sums done by hand. */
import { describe, expect, test } from 'vitest';
import { fitCorrelated } from '../../src/numeric/correlated-fit.ts';
import { fitLinear } from '../../src/numeric/regression.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';

const ones = (n: number): Float64Array => new Float64Array(n).fill(1);

function fitOf(...args: Parameters<typeof fitCorrelated>) {
  const fit = fitCorrelated(...args);
  if (isUndetermined(fit)) throw new Error(fit.undetermined);
  return fit;
}

describe('[GLS1] a fit with correlated errors', () => {
  test('[GLS1] of independent errors is the ordinary line', () => {
    const x = Float64Array.of(0, 1, 2, 5, 7);
    const y = Float64Array.of(1, 3.2, 4.8, 11.5, 14.7);
    const identity = Float64Array.from({ length: 25 }, (_, k) => (k % 6 === 0 ? 1 : 0));
    const line = fitLinear([ones(5), x], y);
    if (isUndetermined(line)) throw new Error(line.undetermined);
    const found = fitOf(y, [ones(5), x], identity).predict([1, 4], null, 0);
    expectNear(found.value, line.coefficients[0] + 4 * line.coefficients[1], 1e-9);
    // Unit variance: X'X = [[5, 15], [15, 79]], determinant 170; at x = 4: (79 - 8 * 15 + 16 * 5) / 170.
    expectNear(found.sd, Math.sqrt(39 / 170), 1e-9);
  });

  test('[GLS1] of two readings that share a bias: the bias stays, the noise is halved', () => {
    // Variance of the mean of two with covariance 4 and own noise 1: 4 + 1/2.
    const fit = fitOf(Float64Array.of(10, 12), [ones(2)], Float64Array.of(5, 0, 4, 5));
    const mean = fit.predict([1], null, 0);
    expectNear(mean.value, 11, 1e-9);
    expectNear(mean.sd, Math.sqrt(4.5), 1e-9);
  });

  test('[GLS2] a random part far from every observation keeps its own variance, one at an exact observation none', () => {
    const rho = 0.5;
    const y = Float64Array.of(3, 5);
    const covariance = (): Float64Array => Float64Array.of(1, 0, rho, 1);
    const exact = fitOf(y, [ones(2)], covariance()).predict([1], Float64Array.of(1, rho), 1);
    expectNear(exact.value, 3, 1e-9);
    expectNear(exact.sd, 0, 1e-6);
    // Unrelated place: mean 4 with variance (1 + rho) / 2, and 1 of its own.
    const far = fitOf(y, [ones(2)], covariance()).predict([1], Float64Array.of(0, 0), 1);
    expectNear(far.value, 4, 1e-9);
    expectNear(far.sd, Math.sqrt(0.75 + 1), 1e-9);
  });

  test('[GLS1] its standard deviation is that of repeated draws (seed 11)', () => {
    const random = createRandom(11);
    const x = Float64Array.of(0, 1, 2, 3);
    let square = 0;
    let sd = 0;
    const draws = 2000;
    for (let k = 0; k < draws; k++) {
      const bias = 2 * random.normal();
      const y = x.map((at, i) => 1 + 0.5 * at + (i < 2 ? bias : 0) + random.normal());
      const covariance = Float64Array.from({ length: 16 }, (_, cell) => {
        const [i, j] = [cell >> 2, cell & 3];
        return (i < 2 && j < 2 ? 4 : 0) + (i === j ? 1 : 0);
      });
      const found = fitOf(y, [ones(4), x], covariance).predict([1, 5], null, 0);
      square += (found.value - 3.5) ** 2;
      sd = found.sd;
    }
    // The spread of 2000 draws is known to 1.6 %.
    expectNear(Math.sqrt(square / draws) / sd, 1, 0.05);
  });

  test('[GLS1] terms that cannot be told apart, or too few readings, are undetermined', () => {
    const twice = [ones(2), ones(2)];
    expect(
      isUndetermined(fitCorrelated(Float64Array.of(1, 2), twice, Float64Array.of(1, 0, 0, 1))),
    ).toBe(true);
    expect(isUndetermined(fitCorrelated(new Float64Array(0), [ones(0)], new Float64Array(0)))).toBe(
      true,
    );
  });
});
