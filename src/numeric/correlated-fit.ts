/**
 * Least squares where errors hang together: fixed terms, correlated errors, and what can be
 * predicted from both.
 *
 * In: observations with the covariance of all that is random in them, columns of the fixed terms.
 * Out: any linear functional of the fixed terms and of a random part, with its standard deviation.
 *
 * Source: generalised least squares and universal kriging (textbook statistics, from memory;
 * checked in the tests against sums done by hand and against simulated draws).
 */
import { backSolveInPlace, choleskyInPlace, forwardSolve } from './cholesky.ts';
import { undetermined, type Undetermined } from '../result.ts';

/** A predicted value and its standard deviation, in the unit of the observations. */
export interface Predicted {
  readonly value: number;
  readonly sd: number;
}

/** A fit that answers for any functional. */
export interface CorrelatedFit {
  /**
   * Predicts fixed . coefficients + random part.
   *
   * @param fixed one factor for each fixed term.
   * @param cross covariance of the functional's random part with each observation; null for none.
   * @param variance prior variance of that random part.
   */
  predict(fixed: readonly number[], cross: Float64Array | null, variance: number): Predicted;
}

/**
 * Fits y by fixed columns with errors of a given covariance.
 *
 * Shape: `covariance` n x n row-major (lower triangle read, overwritten); k columns of n.
 * Fails: undetermined where the covariance is not positive definite or the columns depend on each other.
 */
export function fitCorrelated(
  y: Float64Array,
  columns: readonly Float64Array[],
  covariance: Float64Array,
): CorrelatedFit | Undetermined {
  const n = y.length;
  const k = columns.length;
  if (n < k || Number.isNaN(choleskyInPlace(covariance, n))) {
    return undetermined('too few observations for a fit');
  }
  const white = columns.map((column) => whiten(covariance, n, column));
  const whiteY = whiten(covariance, n, y);
  const normal = new Float64Array(k * k);
  const coefficients = new Float64Array(k);
  for (let a = 0; a < k; a++) {
    for (let b = 0; b <= a; b++) normal[a * k + b] = dot(white[a], white[b]);
    coefficients[a] = dot(white[a], whiteY);
  }
  const squares = Float64Array.from({ length: k }, (_, a) => normal[a * k + a]);
  const halfLogDet = choleskyInPlace(normal, k);
  const dependent = squares.some((square, a) => normal[a * k + a] ** 2 < DEPENDENT * square);
  if (Number.isNaN(halfLogDet) || dependent) {
    return undetermined('the observations do not span the terms of the fit');
  }
  forwardSolve(normal, k, coefficients, coefficients);
  backSolveInPlace(normal, k, coefficients);
  const residual = whiteY.map((value, i) => {
    let rest = value;
    for (let a = 0; a < k; a++) rest -= coefficients[a] * white[a][i];
    return rest;
  });
  return {
    predict: (fixed, cross, variance) => {
      const gap = Float64Array.from(fixed);
      let value = dot(gap, coefficients);
      let left = variance;
      if (cross) {
        const whiteCross = whiten(covariance, n, cross);
        value += dot(whiteCross, residual);
        left -= dot(whiteCross, whiteCross);
        for (let a = 0; a < k; a++) gap[a] -= dot(white[a], whiteCross);
      }
      forwardSolve(normal, k, gap, gap);
      return { value, sd: Math.sqrt(Math.max(0, left) + dot(gap, gap)) };
    },
  };
}

/** Share of a term that the others must leave unexplained. */
const DEPENDENT = 1e-10;

function whiten(factor: Float64Array, n: number, column: Float64Array): Float64Array {
  const out = new Float64Array(n);
  forwardSolve(factor, n, column, out);
  return out;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
