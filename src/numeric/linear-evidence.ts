/**
 * Evidence of linear models with normal priors, for many models on the same data.
 *
 * The data's covariance is factored once; each model column is whitened once; what a model needs is
 * then only the small matrix of inner products (Gram matrix) of its columns and the data.
 *
 * Source: Bayesian linear regression with known noise covariance, standard (for example any text
 * on Gaussian linear models): with r = y - A m0 and M = A'A + P^-1, the log evidence is
 * -1/2 (r'r - r'A M^-1 A'r) - 1/2 log|M| - 1/2 log|P| - 1/2 log|R|, up to a constant.
 */
import { backSolveInPlace, choleskyRowsInPlace, forwardSolve } from './cholesky.ts';

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

/**
 * Inner products of model columns and data, as a square of side terms + 1: the data's row is last.
 *
 * Leaves the last model column's row as it is when `columns` has one column fewer than `terms`.
 */
export function fillGram(
  gram: Float64Array,
  columns: readonly Float64Array[],
  data: Float64Array,
  terms: number,
): void {
  const side = terms + 1;
  for (let i = 0; i < columns.length; i++) {
    for (let j = 0; j <= i; j++) gram[i * side + j] = dot(columns[i], columns[j]);
    gram[terms * side + i] = dot(columns[i], data);
  }
  gram[terms * side + terms] = dot(data, data);
}

/** Fills anew what changes with one of the columns that `fillGram` was given. */
export function fillGramTerm(
  gram: Float64Array,
  columns: readonly Float64Array[],
  changed: number,
  data: Float64Array,
  terms: number,
): void {
  const side = terms + 1;
  columns.forEach((column, i) => {
    const at = i > changed ? i * side + changed : changed * side + i;
    gram[at] = dot(columns[changed], column);
  });
  gram[terms * side + changed] = dot(columns[changed], data);
}

/** Inner product of two columns of one length. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

/** Solves one small model after another; results stay valid until the next `solve`. */
export class SmallSolver {
  /** Posterior means of the terms. */
  readonly mean: Float64Array;
  /** Log evidence of the model last solved, without the constant of the data's size. */
  logEvidence = NaN;
  readonly #terms: number;
  readonly #leading: number;
  readonly #priorMean: Float64Array;
  readonly #precision: Float64Array;
  readonly #priorLogDet: number;
  readonly #halfLogDet: number;
  readonly #matrix: Float64Array;
  readonly #right: Float64Array;
  readonly #unit: Float64Array;
  /** Of the leading terms: what they explain of one another, and half the log determinant of their factor. */
  readonly #fitted: Float64Array;
  #leadingLogDet = NaN;

  /**
   * @param priorMean, priorSd one value a term; an infinite sd: no prior (flat).
   * @param halfLogDet half the log determinant of the data's covariance.
   * @param leading so many leading terms several models have in common.
   */
  constructor(
    terms: number,
    priorMean: readonly number[],
    priorSd: readonly number[],
    halfLogDet: number,
    leading = 0,
  ) {
    this.#terms = terms;
    this.#leading = leading;
    this.#priorMean = Float64Array.from(priorMean);
    this.#precision = Float64Array.from(priorSd, (sd) => (sd === Infinity ? 0 : 1 / (sd * sd)));
    this.#priorLogDet = priorSd.reduce(
      (sum, sd) => (sd === Infinity ? sum : sum + Math.log(sd)),
      0,
    );
    this.#halfLogDet = halfLogDet;
    this.mean = new Float64Array(terms);
    this.#matrix = new Float64Array(terms * terms);
    this.#right = new Float64Array(terms);
    this.#unit = new Float64Array(terms);
    this.#fitted = new Float64Array(leading);
  }

  /**
   * Solves the model whose inner products stand in `gram` (side terms + 1, lower triangle).
   *
   * @param sameLeading true where those of the leading terms are the ones of the solution before.
   */
  solve(gram: Float64Array, sameLeading = false): void {
    this.#weigh(gram, sameLeading);
    const p = this.#terms;
    backSolveInPlace(this.#matrix, p, this.#unit);
    for (let i = 0; i < p; i++) this.mean[i] = this.#priorMean[i] + this.#unit[i];
  }

  #weigh(gram: Float64Array, sameLeading: boolean): void {
    const p = this.#terms;
    const side = p + 1;
    const prior = this.#priorMean;
    const matrix = this.#matrix;
    const right = this.#right;
    const leading = this.#leading;
    const leadingFitted = this.#fitted;
    const precision = this.#precision;
    if (!sameLeading) this.#setLeading(gram);
    // r = y - A m0, through the inner products alone.
    const dataRow = p * side;
    let residual = gram[dataRow + p];
    for (let i = 0; i < p; i++) {
      let fitted = 0;
      if (i < leading) fitted = leadingFitted[i];
      else {
        for (let j = 0; j <= i; j++) {
          const g = gram[i * side + j];
          fitted += g * prior[j];
          matrix[i * p + j] = g;
        }
        matrix[i * p + i] += precision[i];
      }
      for (let j = Math.max(i + 1, leading); j < p; j++) fitted += gram[j * side + i] * prior[j];
      const product = gram[dataRow + i];
      right[i] = product - fitted;
      residual += prior[i] * (fitted - 2 * product);
    }
    const halfLogDetM = this.#leadingLogDet + choleskyRowsInPlace(matrix, p, this.#leading, p);
    const unit = this.#unit;
    forwardSolve(matrix, p, right, unit);
    let explained = 0;
    for (let i = 0; i < p; i++) explained += unit[i] * unit[i];
    this.logEvidence =
      -(residual - explained) / 2 - halfLogDetM - this.#priorLogDet - this.#halfLogDet;
  }

  /** Takes over the inner products of the leading terms with one another. */
  #setLeading(gram: Float64Array): void {
    const p = this.#terms;
    const side = p + 1;
    for (let i = 0; i < this.#leading; i++) {
      let fitted = 0;
      for (let j = 0; j < this.#leading; j++) {
        const g = j <= i ? gram[i * side + j] : gram[j * side + i];
        fitted += g * this.#priorMean[j];
        if (j <= i) this.#matrix[i * p + j] = g;
      }
      this.#fitted[i] = fitted;
      this.#matrix[i * p + i] += this.#precision[i];
    }
    this.#leadingLogDet = choleskyRowsInPlace(this.#matrix, p, 0, this.#leading);
  }

  /** Posterior variance of a combination of the terms of the model last solved: one weight a term. */
  varianceOf(weights: Float64Array): number {
    const unit = this.#unit;
    forwardSolve(this.#matrix, this.#terms, weights, unit);
    let sum = 0;
    for (let i = 0; i < unit.length; i++) sum += unit[i] * unit[i];
    return sum;
  }
}
