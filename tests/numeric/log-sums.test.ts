/** Logarithms of sums of likelihoods. */
import { describe, expect, test } from 'vitest';
import { LogSums } from '../../src/numeric/log-sums.ts';
import { expectNear } from '../expect-near.ts';

describe('[LSE1] logarithms of sums', () => {
  test('[LSE1] are those of the sums, in whatever order the terms come', () => {
    // exp(1)/2 + exp(3)/1 + exp(-2)/0.5, by hand: 1.359141 + 20.085537 + 0.270671.
    const terms = [
      [1, 4],
      [3, 1],
      [-2, 0.25],
    ] as const;
    for (const order of [terms, [...terms].reverse(), [terms[1], terms[0], terms[2]]]) {
      const sums = new LogSums(2);
      for (const [exponent, spread] of order) sums.add(1, exponent, spread);
      expectNear(sums.logOf(1), Math.log(21.715349), 1e-7);
      expect(sums.logOf(0), 'the other sum is empty').toBe(-Infinity);
    }
  });

  test('[LSE1] do not overflow or vanish, and begin anew when cleared', () => {
    const sums = new LogSums(1);
    for (const exponent of [-5000, 4000, 4000, 3000, -Infinity]) sums.add(0, exponent, 1);
    expectNear(sums.logOf(0), 4000 + Math.log(2), 1e-9);
    sums.clear();
    sums.add(0, -Infinity, 1);
    expect(sums.logOf(0)).toBe(-Infinity);
    sums.add(0, -6000, 1);
    expectNear(sums.logOf(0), -6000, 1e-9);
  });
});
