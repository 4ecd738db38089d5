/**
 * Columns of linear models whitened by one covariance, and their inner products.
 *
 * The data's covariance is factored once; each model column is whitened once; what a model's evidence
 * needs is then only the inner products of its columns and the data (eliminated-terms.ts).
 *
 * Source: Bayesian linear regression with known noise covariance, standard (for example any text
 * on Gaussian linear models).
 */
import { forwardSolve } from './cholesky.ts';

/** Whitens columns with one covariance factor (n x n, lower, row-major). */
export class WhitenedColumns {
  readonly #factor: Float64Array;
  readonly #n: number;
  readonly #raw: Float64Array;

  constructor(factor: Float64Array, n: number) {
    this.#factor = factor;
    this.#n = n;
    this.#raw = new Float64Array(n);
  }

  /** A whitened column from the values of `valueAt(0..n-1)`, in `out`. */
  whiten(
    valueAt: (i: number) => number,
    out: Float64Array = new Float64Array(this.#n),
  ): Float64Array {
    let first = this.#n;
    for (let i = this.#n - 1; i >= 0; i--) {
      const value = valueAt(i);
      this.#raw[i] = value;
      if (value !== 0) first = i;
    }
    forwardSolve(this.#factor, this.#n, this.#raw, out, first);
    return out;
  }
}

/** Inner product of two columns of one length, one of which is zero before the row `first`. */
export function dot(a: Float64Array, b: Float64Array, first = 0): number {
  let sum = 0;
  for (let i = first; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
