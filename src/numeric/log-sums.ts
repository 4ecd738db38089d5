/**
 * Logarithms of sums of many likelihoods, each given by its logarithm and a spread that divides it.
 *
 * In: for each sum its terms, one after the other. Out: the logarithms of the sums. Terms are kept
 * beside the largest so far, so that none overflows; a logarithm is taken once a sum.
 *
 * Source: sums of exponentials scaled by the largest, standard.
 */

/** So many sums, filled term by term. */
export class LogSums {
  readonly #largest: Float64Array;
  readonly #sum: Float64Array;

  /** @param count how many sums. */
  constructor(count: number) {
    this.#largest = new Float64Array(count);
    this.#sum = new Float64Array(count);
    this.clear();
  }

  /** Empties all sums. */
  clear(): void {
    this.#largest.fill(-Infinity);
    this.#sum.fill(0);
  }

  /** Adds exp(`exponent`) / sqrt(`spread`) to a sum; a spread is above nought, an exponent finite or -Infinity. */
  add(slot: number, exponent: number, spread: number): void {
    const largest = this.#largest[slot];
    const share = 1 / Math.sqrt(spread);
    if (exponent > largest) {
      this.#sum[slot] = this.#sum[slot] * Math.exp(largest - exponent) + share;
      this.#largest[slot] = exponent;
    } else if (exponent > -Infinity) {
      this.#sum[slot] += share * Math.exp(exponent - largest);
    }
  }

  /** Logarithm of a sum; -Infinity of nothing. */
  logOf(slot: number): number {
    return this.#sum[slot] > 0 ? this.#largest[slot] + Math.log(this.#sum[slot]) : -Infinity;
  }
}
