/**
 * Where does the motion stray from its model, and by how much?
 *
 * In: the times of the fixes. Out: a path driven by wandering acceleration (exponential correlation)
 * as shares of independent unit draws: accelerations on knots a second apart with straight lines
 * between them, integrated. Whoever multiplies the shares of two moments has their covariance.
 *
 * Units: seconds, metres, m/s. Source: linear interpolation of a first-order Gauss-Markov process,
 * standard; its size and time in tuning.ts.
 */
import { choleskyInPlace } from '../numeric/cholesky.ts';
import { positiveCube, positiveSquare } from '../numeric/positive-powers.ts';
import { ALONG } from './tuning.ts';

/** The path of one arrival's wandering acceleration from the first fix on; before it there is none. */
export class AlongWander {
  /** Number of independent draws. */
  readonly draws: number;
  readonly #startS: number;
  /** Accelerations at the knots from the draws: lower triangle, row-major. */
  readonly #factor: Float64Array;

  /** @param timeS rising times; the path is known from the first to the last. */
  constructor(timeS: Float64Array) {
    this.#startS = timeS[0];
    const knots = Math.ceil((timeS[timeS.length - 1] - timeS[0]) / ALONG.wanderKnotS) + 2;
    this.draws = knots;
    this.#factor = new Float64Array(knots * knots);
    for (let i = 0; i < knots; i++) {
      for (let j = 0; j <= i; j++) {
        const correlation = Math.exp((-(i - j) * ALONG.wanderKnotS) / ALONG.wanderTimeS);
        this.#factor[i * knots + j] = ALONG.wanderSdMps2 ** 2 * correlation;
      }
    }
    choleskyInPlace(this.#factor, knots);
  }

  /** Shares of the draws in the displacement at a time: metres a unit draw, written to `out` from `at` on. */
  displacement(atS: number, out: Float64Array, at = 0): void {
    const stepS = ALONG.wanderKnotS;
    this.#share(atS, out, at, (u) => positiveCube(u) / (6 * stepS));
  }

  /** Shares of the draws in the velocity at a time: m/s a unit draw, written to `out`. */
  velocity(atS: number, out: Float64Array): void {
    const stepS = ALONG.wanderKnotS;
    this.#share(atS, out, 0, (u) => positiveSquare(u) / (2 * stepS));
  }

  /** What a unit hat of acceleration at each knot leaves, times the knots' shares of the draws. */
  #share(atS: number, out: Float64Array, at: number, ramp: (u: number) => number): void {
    const { draws } = this;
    const stepS = ALONG.wanderKnotS;
    const t = atS - this.#startS;
    out.fill(0, at, at + draws);
    for (let k = 0; k < draws; k++) {
      const u = t - k * stepS;
      const hat = ramp(u + stepS) - 2 * ramp(u) + ramp(u - stepS);
      if (hat === 0) break;
      for (let j = 0; j <= k; j++) out[at + j] += hat * this.#factor[k * draws + j];
    }
  }
}
