/**
 * The columns of a linear model of heights around a contact with the ground, and their inner products.
 *
 * Leading columns (terms that every variant of the model has, and the data) stand beside trailing ones
 * (one a variant). A trailing column is zero on the ground and begins in the air. What a variant needs
 * are the products of the leading columns with one another and with its own.
 */
import type { HeightFilter } from './height-filter.ts';

/** Room for leading columns: a row of them is one cache line, and their sums fit the registers. */
const LEAD = 8;

/** Raw columns of one model, row by row; whitened copies stay inside. Made once and filled again and again. */
export class ContactColumns {
  readonly #n: number;
  readonly #leads: number;
  readonly #tails: number;
  readonly #lead: Float64Array;
  readonly #tail: Float64Array;
  readonly #tailsBegun: Int32Array;
  readonly #leadsBegun: Int32Array;
  readonly #whiteLead: Float64Array;
  readonly #whiteTail: Float64Array;
  readonly #leadProducts: Float64Array;
  readonly #tailProducts: Float64Array;
  readonly #tailSquares: Float64Array;

  /** @param n rows; @param leads at most 8 leading columns; @param tails trailing columns. */
  constructor(n: number, leads: number, tails: number) {
    if (leads > LEAD) throw new Error(`${leads} leading columns, room for ${LEAD}`);
    this.#n = n;
    this.#leads = leads;
    this.#tails = tails;
    this.#lead = new Float64Array(n * LEAD);
    this.#tail = new Float64Array(n * tails);
    this.#tailsBegun = new Int32Array(n);
    this.#leadsBegun = new Int32Array(n).fill(leads);
    this.#whiteLead = new Float64Array(n * LEAD);
    this.#whiteTail = new Float64Array(n * tails);
    this.#leadProducts = new Float64Array(LEAD * LEAD);
    this.#tailProducts = new Float64Array(LEAD * tails);
    this.#tailSquares = new Float64Array(tails);
  }

  /** Sets a leading column at a row. */
  setLead(row: number, column: number, value: number): void {
    this.#lead[row * LEAD + column] = value;
  }

  /**
   * Sets a trailing column at a row. Columns begin in order, and rows are filled from the ground up:
   * a column that has a value at one row has one at every later row.
   */
  setTail(row: number, column: number, value: number): void {
    this.#tail[row * this.#tails + column] = value;
  }

  /** Says how many trailing columns have begun at a row. */
  setBegun(row: number, tails: number): void {
    this.#tailsBegun[row] = tails;
  }

  /** Whitens all columns and takes their products, which are then those under the inverse covariance. */
  whiten(filter: HeightFilter): void {
    this.#whiteLead.set(this.#lead);
    this.#whiteTail.set(this.#tail);
    filter.whiten(this.#whiteLead, LEAD, this.#leadsBegun);
    filter.whiten(this.#whiteTail, this.#tails, this.#tailsBegun);
    for (let column = 0; column < this.#leads; column++) {
      this.#sumProducts(this.#whiteLead, LEAD, column, 0, this.#leadProducts);
    }
    let first = 0;
    for (let column = 0; column < this.#tails; column++) {
      while (first < this.#n && this.#tailsBegun[first] <= column) first++;
      this.#sumProducts(this.#whiteTail, this.#tails, column, first, this.#tailProducts);
      let square = 0;
      for (let at = first * this.#tails + column; at < this.#whiteTail.length; at += this.#tails) {
        square += this.#whiteTail[at] * this.#whiteTail[at];
      }
      this.#tailSquares[column] = square;
    }
  }

  /** Product of two leading columns. */
  leads(a: number, b: number): number {
    return this.#leadProducts[a * LEAD + b];
  }

  /** Product of a trailing and a leading column. */
  tailLead(tail: number, lead: number): number {
    return this.#tailProducts[tail * LEAD + lead];
  }

  /** Square of a trailing column. */
  tailSquare(tail: number): number {
    return this.#tailSquares[tail];
  }

  /** Products of one column with all leading ones, from a row on, to its place in `out`. */
  #sumProducts(
    of: Float64Array,
    stride: number,
    column: number,
    first: number,
    out: Float64Array,
  ): void {
    const lead = this.#whiteLead;
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    let s4 = 0;
    let s5 = 0;
    let s6 = 0;
    let s7 = 0;
    for (let i = first; i < this.#n; i++) {
      const value = of[i * stride + column];
      const at = i * LEAD;
      s0 += value * lead[at];
      s1 += value * lead[at + 1];
      s2 += value * lead[at + 2];
      s3 += value * lead[at + 3];
      s4 += value * lead[at + 4];
      s5 += value * lead[at + 5];
      s6 += value * lead[at + 6];
      s7 += value * lead[at + 7];
    }
    const to = column * LEAD;
    out[to] = s0;
    out[to + 1] = s1;
    out[to + 2] = s2;
    out[to + 3] = s3;
    out[to + 4] = s4;
    out[to + 5] = s5;
    out[to + 6] = s6;
    out[to + 7] = s7;
  }
}
