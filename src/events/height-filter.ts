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

/** Made for rows of given channels and noise, prepared for their times; whitens any number of columns. */
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
  readonly #noiseVar: Float64Array;
  readonly #P: Float64Array;
  readonly #cross: Float64Array;
  /** Of each column while whitening: wander speed, wander height, drifts. */
  #states: Float64Array[] = [];
  /** Half the log determinant of the rows' covariance, as last prepared. */
  halfLogDet = NaN;

  /**
   * @param channel of each row, from 0; @param noiseVar white noise of each row, m2;
   * @param channels how many there are, 1 or 2.
   */
  constructor(channel: Uint8Array, noiseVar: Float64Array, channels: number) {
    const n = channel.length;
    const states = channels + 2;
    this.#n = n;
    this.#channel = channel;
    this.#noiseVar = noiseVar;
    this.#channels = channels;
    this.#driftDecay = new Float64Array(n).fill(1);
    this.#speedDecay = new Float64Array(n);
    this.#heightPerSpeed = new Float64Array(n);
    this.#gain = new Float64Array(n * states);
    this.#inverseSd = new Float64Array(n);
    this.#P = new Float64Array(states * states);
    this.#cross = new Float64Array(states);
  }

  /**
   * Prepares the filter for times and errors.
   *
   * @param u n rising seconds from contact into the air.
   */
  prepare(u: Float64Array, errors: HeightErrors): void {
    const c = this.#channels;
    const states = c + 2;
    const P = this.#P.fill(0);
    this.#speedDecay.fill(1);
    this.#heightPerSpeed.fill(0);
    for (let k = 0; k < c; k++) P[k * states + k] = errors.driftVar[k];
    P[c * states + c] = errors.wanderSdMps ** 2;
    const gap = { driftS: NaN, decay: NaN };
    const step: WanderStep = { stepS: NaN, e: NaN, addSpeed: NaN, addCross: NaN, addHeight: NaN };
    let halfLogDet = 0;
    for (let i = 0; i < this.#n; i++) {
      if (i > 0) {
        const stepS = u[i] - u[i - 1];
        // Logs are mostly even: the same step over and over.
        if (stepS !== gap.driftS) {
          gap.driftS = stepS;
          gap.decay = Math.exp(-stepS / errors.driftTimeS);
        }
        this.#decayDrifts(P, i, gap.decay, errors.driftVar);
      }
      const from = i > 0 ? Math.max(u[i - 1], 0) : 0;
      if (u[i] > from) this.#wander(P, i, from, u[i], errors, step);
      halfLogDet += this.#update(P, i, this.#noiseVar[i]);
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
    const [speeds, heights, ...drifts] = this.#cleared(count);
    for (let i = 0; i < this.#n; i++) {
      const driftDecay = this.#driftDecay[i];
      const speedDecay = this.#speedDecay[i];
      const heightPerSpeed = this.#heightPerSpeed[i];
      const inverseSd = this.#inverseSd[i];
      const used = begun ? begun[i] : count;
      const row = i * count;
      const channel = this.#channel[i];
      const own = drifts[channel];
      const other = drifts[1 - channel];
      const gains = i * states;
      const ownGain = gain[gains + channel];
      const otherGain = c > 1 ? gain[gains + 1 - channel] : 0;
      const speedGain = gain[gains + c];
      const heightGain = gain[gains + c + 1];
      for (let k = 0; k < used; k++) {
        const drift = own[k] * driftDecay;
        const height = heights[k] + heightPerSpeed * speeds[k];
        const innovation = columns[row + k] - drift - height;
        own[k] = drift + ownGain * innovation;
        other[k] = other[k] * driftDecay + otherGain * innovation;
        speeds[k] = speeds[k] * speedDecay + speedGain * innovation;
        heights[k] = height + heightGain * innovation;
        columns[row + k] = innovation * inverseSd;
      }
    }
  }

  /** Wander speed, wander height and two drifts of so many columns, all zero. */
  #cleared(count: number): Float64Array[] {
    if (this.#states.length === 0 || this.#states[0].length < count) {
      this.#states = Array.from({ length: 4 }, () => new Float64Array(count));
    }
    for (const column of this.#states) column.fill(0);
    return this.#states;
  }

  /** Lets the drifts fade and grow from the row before. Of P only the lower triangle is kept up. */
  #decayDrifts(P: Float64Array, row: number, decay: number, driftVar: readonly number[]): void {
    const c = this.#channels;
    const states = c + 2;
    this.#driftDecay[row] = decay;
    const both = decay * decay;
    for (let b = 0; b < c; b++) {
      for (let a = b; a < c; a++) P[a * states + b] *= both;
      P[b * states + b] += driftVar[b] * (1 - both);
      P[c * states + b] *= decay;
      P[(c + 1) * states + b] *= decay;
    }
  }

  /** Carries the wander in the air from one time to another, in steps where its share changes. */
  #wander(
    P: Float64Array,
    row: number,
    from: number,
    to: number,
    errors: HeightErrors,
    of: WanderStep,
  ): void {
    const c = this.#channels;
    const steps = Math.max(1, Math.ceil((to - from) / STEP_S));
    const stepS = (to - from) / steps;
    if (stepS !== of.stepS) setStep(of, stepS, errors);
    const { e, addSpeed, addCross, addHeight } = of;
    const states = c + 2;
    const speed = c * states;
    const height = speed + states;
    let speedDecay = 1;
    let heightPerSpeed = 0;
    for (let k = 0; k < steps; k++) {
      const share = errors.wanderShare(from + (k + 0.5) * stepS);
      // One step: height += slide x speed, speed x e.
      const slide = share * errors.wanderTimeS * (1 - e);
      heightPerSpeed += slide * speedDecay;
      speedDecay *= e;
      for (let b = 0; b < c; b++) {
        P[height + b] += slide * P[speed + b];
        P[speed + b] *= e;
      }
      const speedVar = P[speed + c];
      const cross = P[height + c];
      P[height + c + 1] += slide * (2 * cross + slide * speedVar) + share * share * addHeight;
      P[height + c] = (cross + slide * speedVar) * e + share * addCross;
      P[speed + c] = speedVar * e * e + addSpeed;
    }
    this.#speedDecay[row] = speedDecay;
    this.#heightPerSpeed[row] = heightPerSpeed;
  }

  /** Takes in one row: gains, innovation variance; returns half its logarithm. */
  #update(P: Float64Array, row: number, noiseVar: number): number {
    const cross = this.#cross;
    const drift = this.#channel[row];
    const states = this.#channels + 2;
    const height = (states - 1) * states;
    for (let s = 0; s < states; s++) {
      cross[s] = P[s > drift ? s * states + drift : drift * states + s] + P[height + s];
    }
    const variance = cross[drift] + cross[states - 1] + noiseVar;
    const inverse = 1 / variance;
    for (let a = 0; a < states; a++) {
      const gain = cross[a] * inverse;
      this.#gain[row * states + a] = gain;
      for (let b = 0; b <= a; b++) P[a * states + b] -= gain * cross[b];
    }
    this.#inverseSd[row] = Math.sqrt(inverse);
    return Math.log(variance) / 2;
  }
}

/** What one step of the wander adds, kept as long as steps are equally long. */
interface WanderStep {
  stepS: number;
  /** Decay of the wander's speed. */
  e: number;
  addSpeed: number;
  addCross: number;
  addHeight: number;
}

function setStep(of: WanderStep, stepS: number, errors: HeightErrors): void {
  const T = errors.wanderTimeS;
  const speedVar = errors.wanderSdMps ** 2;
  const e = Math.exp(-stepS / T);
  of.stepS = stepS;
  of.e = e;
  of.addSpeed = speedVar * (1 - e * e);
  of.addCross = speedVar * T * (1 - e) ** 2;
  of.addHeight = speedVar * T * (2 * stepS - T * (3 - 4 * e + e * e));
}
