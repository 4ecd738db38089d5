/**
 * One more term that a linear model may have, weighed beside the same model without it.
 *
 * The terms that the model surely has are eliminated first; the optional one is then one column more,
 * and what it takes from an inner product is a product of two numbers. In: inner products of whitened
 * columns. Out: the products as the optional term leaves them, and what it costs the evidence.
 *
 * Source: block elimination of normal equations, one term at a time, standard; checked against the
 * solution of whole models in the tests.
 */
import type { EliminatedTerms } from './eliminated-terms.ts';

/** A term with a normal prior about zero that a share of all models has. */
export class OptionalTerm {
  /** What having the term adds to a model's log evidence, its odds and its prior's spread. */
  logOdds = NaN;
  /** Product of the term with the data less the prior mean, as the other terms leave it. */
  data = NaN;
  readonly #sd: number;
  readonly #priorLogOdds: number;
  readonly #solved: Float64Array;
  #precision = NaN;

  /**
   * @param count how many terms the model surely has.
   * @param sd prior standard deviation, in units of the data per unit of the column.
   * @param share of the models that have it, between 0 and 1.
   */
  constructor(count: number, sd: number, share: number) {
    this.#solved = new Float64Array(count);
    this.#sd = sd;
    this.#priorLogOdds = Math.log(share / (1 - share));
  }

  /**
   * Takes the term's column from among others.
   *
   * @param product of two columns; those of the eliminated terms come first.
   * @param own, data places of the term's column and of the data among them.
   */
  set(
    terms: EliminatedTerms,
    product: (a: number, b: number) => number,
    own: number,
    data: number,
  ): void {
    for (let a = 0; a < this.#solved.length; a++) this.#solved[a] = product(a, own);
    this.data = terms.reduce(this.#solved, product(own, data));
    this.#precision = terms.left(product(own, own), this.#solved, this.#solved) + 1 / this.#sd ** 2;
    this.logOdds = this.#priorLogOdds - Math.log(this.#precision * this.#sd ** 2) / 2;
  }

  /** Product of another column with this term, as the eliminated terms leave it; that column's products `solved` as they solve them. */
  withColumn(terms: EliminatedTerms, product: number, solved: Float64Array): number {
    return terms.left(product, this.#solved, solved);
  }

  /** What the term leaves of a product of two columns, each given by its own product with the term. */
  left(product: number, one: number, other: number): number {
    return product - (one * other) / this.#precision;
  }
}
