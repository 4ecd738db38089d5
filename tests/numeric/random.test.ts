/** Tolerances here are five standard errors of the sample, so a sound generator fails one seed in a million. */

import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

const N = 40_000;

describe('[RND1] seeded generator', () => {
  test('[RND1] equal seeds give equal streams and other seeds give others', () => {
    const take = (seed: number): number[] => {
      const random = createRandom(seed);
      return Array.from({ length: 50 }, () => random.uniform());
    };
    expect(take(7)).toEqual(take(7));
    expect(take(7)).not.toEqual(take(8));
    expect(take(0)).not.toEqual(take(2 ** 32));
  });

  test('[RND2] uniform deviates fill 0 to 1 evenly, also in the first draw of neighbouring seeds', () => {
    const random = createRandom(1);
    const streams = [
      Array.from({ length: N }, () => random.uniform()),
      Array.from({ length: N }, (_, seed) => createRandom(seed).uniform()),
    ];
    for (const values of streams) {
      expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...values)).toBeLessThan(1);
      expectNear(mean(values), 0.5, 5 * Math.sqrt(1 / 12 / N), 'mean');
      expectNear(variance(values), 1 / 12, 5 * Math.sqrt(1 / 180 / N), 'variance');
      const tenths = new Array<number>(10).fill(0);
      for (const value of values) tenths[Math.floor(value * 10)]++;
      for (const count of tenths) expectNear(count, N / 10, 5 * Math.sqrt(N * 0.09), 'tenth');
    }
  });

  test('[RND3] normal deviates have mean 0, variance 1 and 5 % beyond 1.96', () => {
    const random = createRandom(3);
    const values = Array.from({ length: N }, () => random.normal());
    expectNear(mean(values), 0, 5 / Math.sqrt(N), 'mean');
    expectNear(variance(values), 1, 5 * Math.sqrt(2 / N), 'variance');
    const beyond = values.filter((value) => Math.abs(value) > 1.959964).length / N;
    expectNear(beyond, 0.05, 5 * Math.sqrt((0.05 * 0.95) / N), 'share beyond 1.96');
    const products = values.slice(1).map((value, i) => value * values[i]);
    expectNear(mean(products), 0, 5 / Math.sqrt(N), 'lag-one product');
  });

  test('[RND4] whole numbers stay in the half-open range and reach every value', () => {
    const random = createRandom(4);
    const counts = new Map<number, number>();
    for (let i = 0; i < N; i++) {
      const value = random.integer(-2, 3);
      counts.set(value, (counts.get(value) ?? 0) + 1);
    }
    expect([...counts.keys()].toSorted((a, b) => a - b)).toEqual([-2, -1, 0, 1, 2]);
    for (const count of counts.values()) expectNear(count, N / 5, 5 * Math.sqrt(N * 0.16), 'count');
    expect(() => random.integer(3, 3)).toThrow('no whole number');
  });

  test('[RND5] a seed that is not a whole number is refused', () => {
    expect(() => createRandom(Number.NaN)).toThrow('whole number');
    expect(() => createRandom(0.5)).toThrow('whole number');
  });
});

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function variance(values: readonly number[]): number {
  const centre = mean(values);
  return mean(values.map((value) => (value - centre) ** 2));
}
