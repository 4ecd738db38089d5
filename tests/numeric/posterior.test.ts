/** Mixtures against closed forms and published tables. */
import { describe, expect, test } from 'vitest';
import {
  cutAbove,
  logAdd,
  mixtureCdf,
  mixtureEstimate,
  mixtureQuantile,
  narrowestPositiveEstimate,
  normalCdf,
  normaliseLogWeights,
  positiveMixtureEstimate,
  tiltMixture,
} from '../../src/numeric/posterior.ts';
import { expectNear } from '../expect-near.ts';

const single = (mean: number, sd: number) => ({
  weight: Float64Array.of(1),
  mean: Float64Array.of(mean),
  sd: Float64Array.of(sd),
});

describe('[PO1] the normal distribution function', () => {
  // Standard normal tables, as in any statistics text (from memory): four to six decimals.
  test.each([
    [0, 0.5],
    [0.5, 0.691462],
    [1, 0.841345],
    [1.645, 0.950015],
    [1.96, 0.975002],
    [2.576, 0.995002],
    [3, 0.99865],
    [-1, 0.158655],
  ])('[PO1] at %d is %d', (z, expected) => {
    expectNear(normalCdf(z), expected, 1e-6);
  });
});

describe('[PO2] mixtures', () => {
  test('[PO2] of one normal have its median and 90 % interval', () => {
    const { value, low, high } = mixtureEstimate(single(10, 2));
    expectNear(value, 10, 1e-4);
    expectNear(low, 10 - 1.644854 * 2, 1e-4);
    expectNear(high, 10 + 1.644854 * 2, 1e-4);
  });

  test('[PO3] quantiles invert the distribution function, whatever the weights add up to', () => {
    const mixture = {
      weight: Float64Array.of(3, 1, 0),
      mean: Float64Array.of(0, 10, 1e9),
      sd: Float64Array.of(1, 2, 1),
    };
    for (const p of [0.05, 0.3, 0.5, 0.76, 0.95]) {
      expectNear(mixtureCdf(mixture, mixtureQuantile(mixture, p)), p, 1e-5, `p ${p}`);
    }
  });

  test('[PO4] cut off at zero a half normal has the median 0.6745 sd', () => {
    // The upper half of a normal about zero: its median is the 75 % point of the normal.
    expectNear(positiveMixtureEstimate(single(0, 2)).value, 2 * 0.67449, 1e-3);
    expect(positiveMixtureEstimate(single(-100, 2))).toMatchObject({ value: 0, low: 0 });
    expectNear(positiveMixtureEstimate(single(50, 2)).value, 50, 1e-3);
  });

  test('[PO7] the narrowest interval of what is cut off at zero begins there, and has equal tails far from it', () => {
    // Standard normal tables (from memory): |z| stays below 1.6449 nine times in ten.
    const near = narrowestPositiveEstimate(single(0, 2));
    expect(near.low).toBe(0);
    expectNear(near.high, 2 * 1.64485, 1e-3);
    expectNear(near.value, 2 * 0.67449, 1e-3);
    const far = narrowestPositiveEstimate(single(50, 2));
    expectNear(far.low, 50 - 2 * 1.64485, 1e-3);
    expectNear(far.high, 50 + 2 * 1.64485, 1e-3);
    expect(narrowestPositiveEstimate(single(-100, 2))).toMatchObject({ value: 0, low: 0 });
  });

  test('[PO7] it holds nine tenths of a lopsided mixture in less room than equal tails', () => {
    const mixture = {
      weight: Float64Array.of(0.92, 0.08),
      mean: Float64Array.of(12, 45),
      sd: Float64Array.of(4, 4),
    };
    const { value, low, high } = narrowestPositiveEstimate(mixture);
    expectNear(mixtureCdf(mixture, high) - mixtureCdf(mixture, low), 0.9, 2e-3);
    const equal = positiveMixtureEstimate(mixture);
    expect(high - low).toBeLessThan(0.6 * (equal.high - equal.low));
    expect(value).toBe(equal.value);
  });

  test('[PO5] tilted by exp(-x / s) a normal moves by its variance over s', () => {
    const tilted = tiltMixture(single(20, 5), 30);
    expectNear(tilted.mean[0], 20 - 25 / 30, 1e-12);
    expectNear(tilted.weight[0], Math.exp(-20 / 30 + 25 / 1800), 1e-12);
  });

  test('[PO8] cut off above a limit each component keeps mean and spread of what is left', () => {
    for (const [mean, sd, limitSd] of [
      [0, 2, 0],
      [5, 3, 1],
      [-1, 0.5, 2],
    ]) {
      const limit = 1;
      const cut = cutAbove(single(mean, sd), limit, limitSd);
      // The same by sums over the normal, each value weighed by the chance of lying below the limit.
      let [total, first, second] = [0, 0, 0];
      for (let z = -8; z <= 8; z += 0.001) {
        const value = mean + sd * z;
        const below = limitSd === 0 ? Number(value <= limit) : normalCdf((limit - value) / limitSd);
        const weight = Math.exp((-z * z) / 2) * below;
        total += weight;
        first += weight * value;
        second += weight * value * value;
      }
      expectNear(cut.weight[0], (total * 0.001) / Math.sqrt(2 * Math.PI), 1e-3);
      expectNear(cut.mean[0], first / total, 2e-3 * sd);
      expectNear(cut.sd[0], Math.sqrt(second / total - (first / total) ** 2), 2e-3 * sd);
    }
  });

  test('[PO8] a component far above the limit is gone, one far below stays, and of none the limit is left', () => {
    const two = {
      weight: Float64Array.of(0.5, 0.5),
      mean: Float64Array.of(100, -100),
      sd: Float64Array.of(1, 1),
    };
    const cut = cutAbove(two, 0, 0.5);
    expect([...cut.weight]).toEqual([0, 0.5]);
    expect(cut.mean[1]).toBe(-100);
    const none = cutAbove(single(100, 1), 0, 0.5);
    expect([none.weight[0], none.mean[0], none.sd[0]]).toEqual([1, 0, 0.5]);
  });

  test('[PO6] logarithms of weights add and normalise without overflow', () => {
    expectNear(logAdd(1000, 1000), 1000 + Math.log(2), 1e-9);
    expect(logAdd(-Infinity, -Infinity)).toBe(-Infinity);
    const weights = Float64Array.of(-2000, -2000 + Math.log(3), NaN, -Infinity);
    normaliseLogWeights(weights);
    expect([...weights].map((w) => Math.round(w * 1e9) / 1e9)).toEqual([0.25, 0.75, 0, 0]);
    expect(() => {
      normaliseLogWeights(Float64Array.of(-Infinity));
    }).toThrow('no candidate');
  });
});
