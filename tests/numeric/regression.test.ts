import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { fitLinear } from '../../src/numeric/regression.ts';
import type { LinearFit } from '../../src/numeric/regression.ts';
import { isUndetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';

const ones = (length: number) => new Float64Array(length).fill(1);

function fitted(...args: Parameters<typeof fitLinear>): LinearFit {
  const fit = fitLinear(...args);
  if (isUndetermined(fit)) throw new Error(fit.undetermined);
  return fit;
}

describe('least squares', () => {
  test('[REG1] finds an exact plane through five points', () => {
    const x = Float64Array.of(0, 1, 2, 3, 4);
    const z = Float64Array.of(1, -1, 4, 0, 2);
    const y = x.map((value, i) => 3 - 2 * value + 0.5 * z[i]);
    const fit = fitted([ones(5), x, z], y);
    expectNear(fit.coefficients[0], 3, 1e-13);
    expectNear(fit.coefficients[1], -2, 1e-13);
    expectNear(fit.coefficients[2], 0.5, 1e-13);
    expectNear(fit.residualSd, 0, 1e-13);
    expect(fit.degreesOfFreedom).toBe(2);
  });

  test('[REG2] residuals are at right angles to every predictor (seed 3)', () => {
    const random = createRandom(3);
    const column = () => Float64Array.from({ length: 50 }, () => 1000 + random.normal());
    const predictors = [ones(50), column(), column()];
    const { residuals } = fitted(predictors, column());
    for (const predictor of predictors) {
      const product = predictor.reduce((sum, value, i) => sum + value * residuals[i], 0);
      // 50 terms of about 1000 rounded at 1e-13 each.
      expectNear(product, 0, 1e-8);
    }
  });

  test('[REG3] a weight of 2 counts as the point given twice', () => {
    const twice = fitted([ones(4), Float64Array.of(0, 1, 2, 2)], Float64Array.of(0, 2, 3, 3));
    const weighted = fitted(
      [ones(3), Float64Array.of(0, 1, 2)],
      Float64Array.of(0, 2, 3),
      Float64Array.of(1, 1, 2),
    );
    expectNear(weighted.coefficients[0], twice.coefficients[0], 1e-13);
    expectNear(weighted.coefficients[1], twice.coefficients[1], 1e-13);
  });

  test('[REG4] leaves out points with a missing value or no weight, and keeps their slots', () => {
    const x = Float64Array.of(0, NaN, 1, 2, 3);
    const y = Float64Array.of(1, 5, 2, NaN, 4);
    const fit = fitted([ones(5), x], y);
    expect(fit.count).toBe(3);
    expectNear(fit.coefficients[1], 1, 1e-13);
    expect(fit.residuals[1]).toBeNaN();
    expect(fit.residuals[3]).toBeNaN();
    const alone = fitted([ones(2)], Float64Array.of(4, 100), Float64Array.of(1, 0));
    expectNear(alone.coefficients[0], 4, 1e-13);
  });

  test('[REG5] cannot tell from too few points or from predictors that depend on each other', () => {
    expect(fitLinear([ones(1), Float64Array.of(2)], Float64Array.of(3))).toEqual({
      undetermined: '1 points cannot give 2 coefficients',
    });
    const x = Float64Array.of(1, 2, 3);
    const double = x.map((value) => 2 * value);
    expect(fitLinear([x, double], x)).toEqual({
      undetermined: 'the predictors depend on each other',
    });
    expect(isUndetermined(fitLinear([new Float64Array(3)], x))).toBe(true);
  });

  test('[REG6] a mistake of the program throws', () => {
    expect(() => fitLinear([], ones(3))).toThrow('at least one predictor');
    expect(() => fitLinear([ones(2)], ones(3))).toThrow('3 slots, another 2');
    expect(() => fitLinear([ones(2)], ones(2), Float64Array.of(1, -1))).toThrow('weight 1 is -1');
  });

  test('[REG7] the covariance gives the error of a prediction', () => {
    // Straight line through x = 0, 1, 2, 3: variance of the slope is s2 / 5, of the mean s2 / 4.
    const x = Float64Array.of(0, 1, 2, 3);
    const fit = fitted([ones(4), x], Float64Array.of(0, 1, 1, 3));
    const variance = fit.residualSd ** 2;
    expectNear(fit.covariance[3], variance / 5, 1e-13, 'slope');
    const atMean = fit.covariance[0] + 3 * fit.covariance[1] + 2.25 * fit.covariance[3];
    expectNear(atMean, variance / 4, 1e-13, 'at the mean');
    expectNear(fit.covariance[1], fit.covariance[2], 1e-15, 'symmetric');
  });

  test('[REG8] takes a long column', () => {
    const length = 200_000;
    const x = Float64Array.from({ length }, (_, i) => i);
    const fit = fitted(
      [ones(length), x],
      x.map((value) => 7 + value / 4),
    );
    expectNear(fit.coefficients[1], 0.25, 1e-12);
  });
});
