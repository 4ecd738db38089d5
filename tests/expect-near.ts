/**
 * Compares numbers with a stated tolerance, and never lets NaN or infinity pass.
 */

import { expect } from 'vitest';

/** Fails unless both are finite and differ by at most the tolerance; `what` names the quantity. */
export function expectNear(actual: number, expected: number, tolerance: number, what = ''): void {
  expect(Number.isFinite(actual), `${what} is finite, not ${actual}`).toBe(true);
  expect(Number.isFinite(expected), `expected ${what} is finite, not ${expected}`).toBe(true);
  const missBy = Math.abs(actual - expected);
  expect(missBy, `${what}: ${actual} against ${expected}`).toBeLessThanOrEqual(tolerance);
}

/** Fails unless the relative error is at most 10 to the power of minus `digits`. */
export function expectDigits(actual: number, expected: number, digits: number, what = ''): void {
  expectNear(actual, expected, Math.abs(expected) * 10 ** -digits, what);
}
