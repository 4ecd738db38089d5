/**
 * Terms that many linear models have in common, eliminated once.
 *
 * A model of common terms and a few of its own is, once the common ones are integrated out, a model of
 * its own terms alone, with other inner products. In: inner products of whitened columns. Out: the
 * inner products that are left; from them each model's evidence needs only its own few terms.
 *
 * Source: block elimination of normal equations (Schur complement), standard; checked against the
 * solution of whole models in the tests.
 */
import { choleskyInPlace, forwardSolve } from './cholesky.ts';

/** Normal priors on k terms, and their elimination from one set of data after another. */
export class EliminatedTerms {
  /** Square of the data less the prior mean, as far as the terms leave it. */
  dataSquare = NaN;
  /** What the terms cost every model's log evidence: half the log determinants of their posterior and prior. */
  halfLogDet = NaN;
  readonly #k: number;
  readonly #mean: Float64Array;
  readonly #precision: Float64Array;
  readonly #priorLogDet: number;
  readonly #factor: Float64Array;
  /** Products of the terms with the data less the prior mean, solved. */
  readonly #data: Float64Array;

  /** @param priorMean, priorSd one value a term; an infinite sd: no prior (flat). */
  constructor(priorMean: readonly number[], priorSd: readonly number[]) {
    this.#k = priorMean.length;
    this.#mean = Float64Array.from(priorMean);
    this.#precision = Float64Array.from(priorSd, (sd) => (sd === Infinity ? 0 : 1 / (sd * sd)));
    this.#priorLogDet = priorSd.reduce((sum, sd) => sum + (sd === Infinity ? 0 : Math.log(sd)), 0);
    this.#factor = new Float64Array(this.#k ** 2);
    this.#data = new Float64Array(this.#k);
  }

  /** Eliminates the terms, given products of two of them, of each with the data, and the data's square. */
  eliminate(
    product: (a: number, b: number) => number,
    withData: (a: number) => number,
    square: number,
  ): void {
    const k = this.#k;
    const mean = this.#mean;
    this.dataSquare = square;
    for (let a = 0; a < k; a++) {
      let fitted = 0;
      for (let b = 0; b < k; b++) {
        const each = product(a, b);
        fitted += each * mean[b];
        this.#factor[a * k + b] = each;
      }
      this.#factor[a * k + a] += this.#precision[a];
      this.#data[a] = withData(a) - fitted;
      this.dataSquare += mean[a] * (fitted - 2 * withData(a));
    }
    this.halfLogDet = choleskyInPlace(this.#factor, k) + this.#priorLogDet;
    forwardSolve(this.#factor, k, this.#data, this.#data);
    for (let a = 0; a < k; a++) this.dataSquare -= this.#data[a] ** 2;
  }

  /**
   * What is left of a column's product with the data less the prior mean.
   *
   * @param column its products with the terms.
   * @param withData its product with the data.
   * @param solved filled with the products as solved, for `left`; may be `column` itself.
   */
  reduce(column: Float64Array, withData: number, solved: Float64Array = column): number {
    let product = withData;
    for (let a = 0; a < this.#k; a++) product -= this.#mean[a] * column[a];
    forwardSolve(this.#factor, this.#k, column, solved);
    return this.left(product, solved, this.#data);
  }

  /** What is left of the product of two columns that were reduced. */
  left(product: number, one: Float64Array, other: Float64Array): number {
    let sum = product;
    for (let a = 0; a < this.#k; a++) sum -= one[a] * other[a];
    return sum;
  }
}
