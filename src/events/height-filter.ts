/**
 * Whitens columns of heights around a contact with the ground, in time linear in their number.
 *
 * The error of a recorded height is white noise plus a slow drift of its own receiver or sensor
 * (exponentially correlated); in the air the model's error is added, the integral of a vertical
 * speed that wanders (exponentially correlated, starting at contact). Both are Markov processes, so
 * a filter that runs from the ground part into the air gives the same likelihood as the full
 * covariance matrix would.
 *
 * Rows are ordered by u, seconds from contact into the air: for an arrival the time before
 * touchdown, for a departure the time after lift-off. Rows with u <= 0 are on the ground.
 *
 * Source: innovations of a Kalman filter, standard; closed form of an integrated exponentially
 * correlated process, from memory, checked against the full covariance in the tests.
 */

/** How the heights err. Lengths in metres, times in seconds. */
export interface HeightErrors {
  /** Variance of the drift of each channel, m2. */
  readonly driftVar: readonly number[];
  readonly driftTimeS: number;
  /** Wandering vertical speed in the air: standard deviation (m/s), correlation time, share of it at u seconds from contact. */
  readonly wanderSdMps: number;
  readonly wanderTimeS: number;
  readonly wanderShare: (u: number) => number;
}

/** Longest step over which the wander's share is taken as constant, seconds. */
const STEP_S = 0.5;

/** Prepared for one set of rows; whitens any number of columns. */
export class HeightFilter {
  readonly #n: number;
  readonly #channel: Uint8Array;
  readonly #channels: number;
  /** Per row: decay of the drifts, decay of the wander speed, height per wander speed. */
  readonly #driftDecay: Float64Array;
  readonly #speedDecay: Float64Array;
  readonly #heightPerSpeed: Float64Array;
  /** Per row: gains of the drifts, the wander speed and the wander height; one over the innovation's sd. */
  readonly #gain: Float64Array;
  readonly #inverseSd: Float64Array;
  /** Half the log determinant of the rows' covariance. */
  readonly halfLogDet: number;

  /**
   * @param u n rising seconds from contact into the air; @param channel of each row, from 0;
   * @param noiseVar white noise of each row, m2.
   */
  constructor(u: Float64Array, channel: Uint8Array, noiseVar: Float64Array, errors: HeightErrors) {
    const n = u.length;
    const c = errors.driftVar.length;
    const states = c + 2;
    this.#n = n;
    this.#channel = channel;
    this.#channels = c;
    this.#driftDecay = new Float64Array(n);
    this.#speedDecay = new Float64Array(n).fill(1);
    this.#heightPerSpeed = new Float64Array(n);
    this.#gain = new Float64Array(n * states);
    this.#inverseSd = new Float64Array(n);
    const P = new Float64Array(states * states);
    for (let k = 0; k < c; k++) P[k * states + k] = errors.driftVar[k];
    P[c * states + c] = errors.wanderSdMps ** 2;
    let halfLogDet = 0;
    for (let i = 0; i < n; i++) {
      if (i > 0) this.#predict(P, states, i, u[i - 1], u[i], errors);
      else if (u[0] > 0) this.#predict(P, states, 0, 0, u[0], errors);
      halfLogDet += this.#update(P, states, i, noiseVar[i]);
    }
    this.halfLogDet = halfLogDet;
  }

  /**
   * Whitens several columns at once, in place: `columns` holds a row of `count` values for each of
   * the rows. Afterwards inner products of columns are those under the inverse covariance.
   *
   * @param begun of every row, how many leading columns have been other than zero up to it; absent:
   * all. Zeros before a column's beginning stay zeros.
   */
  whiten(columns: Float64Array, count: number, begun: Int32Array | null = null): void {
    const c = this.#channels;
    const states = c + 2;
    const gain = this.#gain;
    const drifts = Array.from({ length: c }, () => new Float64Array(count));
    const speeds = new Float64Array(count);
    const heights = new Float64Array(count);
    for (let i = 0; i < this.#n; i++) {
      const driftDecay = this.#driftDecay[i];
      const speedDecay = this.#speedDecay[i];
      const heightPerSpeed = this.#heightPerSpeed[i];
      const inverseSd = this.#inverseSd[i];
      const used = begun ? begun[i] : count;
      const row = i * count;
      const own = drifts[this.#channel[i]];
      const gains = i * states;
      const speedGain = gain[gains + c];
      const heightGain = gain[gains + c + 1];
      for (const drift of drifts) for (let k = 0; k < used; k++) drift[k] *= driftDecay;
      for (let k = 0; k < used; k++) {
        const height = heights[k] + heightPerSpeed * speeds[k];
        const innovation = columns[row + k] - own[k] - height;
        speeds[k] = speeds[k] * speedDecay + speedGain * innovation;
        heights[k] = height + heightGain * innovation;
        columns[row + k] = innovation;
      }
      for (let d = 0; d < c; d++) {
        const driftGain = gain[gains + d];
        const drift = drifts[d];
        for (let k = 0; k < used; k++) drift[k] += driftGain * columns[row + k];
      }
      for (let k = 0; k < used; k++) columns[row + k] *= inverseSd;
    }
  }

  /** Carries the covariance from one row to the next, in steps where the wander's share changes. */
  #predict(
    P: Float64Array,
    states: number,
    row: number,
    from: number,
    to: number,
    errors: HeightErrors,
  ): void {
    const c = this.#channels;
    const decay = row === 0 ? 1 : Math.exp(-(to - from) / errors.driftTimeS);
    this.#driftDecay[row] = decay;
    for (let a = 0; a < c; a++) {
      for (let b = 0; b < states; b++) {
        P[a * states + b] *= decay;
        P[b * states + a] *= decay;
      }
      P[a * states + a] += errors.driftVar[a] * (1 - decay * decay);
    }
    const start = Math.max(from, 0);
    if (to <= start) return;
    const steps = Math.max(1, Math.ceil((to - start) / STEP_S));
    const step = (to - start) / steps;
    const T = errors.wanderTimeS;
    const e = Math.exp(-step / T);
    const speedVar = errors.wanderSdMps ** 2;
    const addSpeed = speedVar * (1 - e * e);
    const addCross = speedVar * T * (1 - e) ** 2;
    const addHeight = speedVar * T * (2 * step - T * (3 - 4 * e + e * e));
    let speedDecay = 1;
    let heightPerSpeed = 0;
    for (let k = 0; k < steps; k++) {
      const share = errors.wanderShare(start + (k + 0.5) * step);
      const slide = share * T * (1 - e);
      heightPerSpeed += slide * speedDecay;
      speedDecay *= e;
      stepCovariance(P, states, c, e, slide);
      P[c * states + c] += addSpeed;
      P[c * states + c + 1] += share * addCross;
      P[(c + 1) * states + c] += share * addCross;
      P[(c + 1) * states + c + 1] += share * share * addHeight;
    }
    this.#speedDecay[row] = speedDecay;
    this.#heightPerSpeed[row] = heightPerSpeed;
  }

  /** Takes in one row: gains, innovation variance; returns half its logarithm. */
  #update(P: Float64Array, states: number, row: number, noiseVar: number): number {
    const drift = this.#channel[row];
    const height = this.#channels + 1;
    const cross = new Float64Array(states);
    for (let s = 0; s < states; s++) cross[s] = P[s * states + drift] + P[s * states + height];
    const variance = cross[drift] + cross[height] + noiseVar;
    for (let s = 0; s < states; s++) this.#gain[row * states + s] = cross[s] / variance;
    for (let a = 0; a < states; a++) {
      for (let b = 0; b < states; b++) P[a * states + b] -= (cross[a] * cross[b]) / variance;
    }
    this.#inverseSd[row] = 1 / Math.sqrt(variance);
    return Math.log(variance) / 2;
  }
}

/** One step of the wander: height += slide x speed, speed x e, in rows and columns. */
function stepCovariance(
  P: Float64Array,
  states: number,
  c: number,
  e: number,
  slide: number,
): void {
  for (let b = 0; b < states; b++) {
    P[(c + 1) * states + b] += slide * P[c * states + b];
    P[c * states + b] *= e;
  }
  for (let a = 0; a < states; a++) {
    P[a * states + c + 1] += slide * P[a * states + c];
    P[a * states + c] *= e;
  }
}
