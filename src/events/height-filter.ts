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
 * Source: innovations of a Kalman filter, standard; checked against the full covariance in the tests.
 */
import { HEIGHT } from './tuning.ts';
import type { WanderSteps } from './wander-steps.ts';

/** Rows of heights. Columns have a value a row. */
export interface FilterRows {
  readonly timeS: Float64Array;
  /** White noise, m2. */
  readonly noiseVar: Float64Array;
  /** Which receiver or sensor drifts: 0 or 1. */
  readonly kind: Uint8Array;
}

/** Drift of receiver or sensor: variance of either kind (m2), correlation time (s). */
export interface DriftErrors {
  readonly driftVar: readonly [number, number];
  readonly driftTimeS: number;
}

/** A filter for rows whose satellite heights drift at one rate, m2/s; the pressure heights at their own. */
export function filterUnder(rate: number, rows: FilterRows, wanderSdMps: number): HeightFilter {
  const { driftTimeS, pressureDriftRate } = HEIGHT;
  const driftVar = [(rate * driftTimeS) / 2, (pressureDriftRate * driftTimeS) / 2] as const;
  return new HeightFilter(rows, { driftVar, driftTimeS }, wanderSdMps);
}

/** Numbers a row in the filter: a cache line. */
const STRIDE = 8;
const DRIFT_DECAY = 0;
const SPEED_DECAY = 1;
const HEIGHT_PER_SPEED = 2;
const INVERSE_SD = 3;
const DRIFT_GAIN = 4;
const SPEED_GAIN = 6;
const HEIGHT_GAIN = 7;

/** Made for rows and their drift, prepared for one contact after the other; whitens any number of columns. */
export class HeightFilter {
  readonly #rows: FilterRows;
  readonly #drift: DriftErrors;
  readonly #wanderVar: number;
  /** Per row: decays of drifts and wander speed, height per wander speed, one over the innovation's sd, gains. */
  readonly #filter: Float64Array;
  /** Of each column while whitening: wander speed, wander height, drifts. */
  #states: Float64Array[] = [];
  /** Half the log determinant of the rows' covariance, as last prepared. */
  halfLogDet = NaN;

  /** @param wanderSdMps of the vertical speed in the air. */
  constructor(rows: FilterRows, drift: DriftErrors, wanderSdMps: number) {
    const { timeS } = rows;
    this.#rows = rows;
    this.#drift = drift;
    this.#wanderVar = wanderSdMps ** 2;
    this.#filter = new Float64Array(timeS.length * STRIDE);
    for (let i = 0; i < timeS.length; i++) {
      const stepS = i > 0 ? Math.abs(timeS[i] - timeS[i - 1]) : 0;
      this.#filter[i * STRIDE + DRIFT_DECAY] = Math.exp(-stepS / drift.driftTimeS);
    }
  }

  /** Prepares the filter for the contact that the steps are set to. */
  prepare(steps: WanderSteps): void {
    const { noiseVar, kind } = this.#rows;
    const [varA, varB] = this.#drift.driftVar;
    const filter = this.#filter;
    // Covariance of the drifts a and b, the wander's speed s and its height h. Single variables, not a
    // matrix: nothing else in the program runs as often.
    let aa = varA;
    let ba = 0;
    let bb = varB;
    let sa = 0;
    let sb = 0;
    let ss = this.#wanderVar;
    let ha = 0;
    let hb = 0;
    let hs = 0;
    let hh = 0;
    let halfLogDet = 0;
    for (let i = 0; i < kind.length; i++) {
      const at = i * STRIDE;
      // From the row before to this one: the drifts fade and grow, the wander goes on.
      const fade = filter[at + DRIFT_DECAY];
      const decay = steps.speedDecay[i];
      const slide = steps.heightPerSpeed[i];
      filter[at + SPEED_DECAY] = decay;
      filter[at + HEIGHT_PER_SPEED] = slide;
      const kept = fade * fade;
      aa = aa * kept + varA * (1 - kept);
      ba *= kept;
      bb = bb * kept + varB * (1 - kept);
      ha = (ha + slide * sa) * fade;
      hb = (hb + slide * sb) * fade;
      sa *= fade * decay;
      sb *= fade * decay;
      hh += slide * (2 * hs + slide * ss) + steps.addHeight[i];
      hs = (hs + slide * ss) * decay + steps.addCross[i];
      ss = ss * decay * decay + steps.addSpeed[i];
      // The row itself tells of one drift and the height together.
      const first = kind[i] === 0;
      const withA = (first ? aa : ba) + ha;
      const withB = (first ? ba : bb) + hb;
      const withS = (first ? sa : sb) + hs;
      const withH = (first ? ha : hb) + hh;
      const variance = (first ? withA : withB) + withH + noiseVar[i];
      const inverse = 1 / variance;
      const gainA = withA * inverse;
      const gainB = withB * inverse;
      const gainS = withS * inverse;
      const gainH = withH * inverse;
      aa -= gainA * withA;
      ba -= gainB * withA;
      bb -= gainB * withB;
      sa -= gainS * withA;
      sb -= gainS * withB;
      ss -= gainS * withS;
      ha -= gainH * withA;
      hb -= gainH * withB;
      hs -= gainH * withS;
      hh -= gainH * withH;
      filter[at + INVERSE_SD] = Math.sqrt(inverse);
      filter[at + DRIFT_GAIN] = gainA;
      filter[at + DRIFT_GAIN + 1] = gainB;
      filter[at + SPEED_GAIN] = gainS;
      filter[at + HEIGHT_GAIN] = gainH;
      halfLogDet += Math.log(variance);
    }
    this.halfLogDet = halfLogDet / 2;
  }

  /**
   * Whitens several columns at once, in place: `columns` holds a row of `count` values for each of
   * the rows. Afterwards inner products of columns are those under the inverse covariance.
   *
   * @param begun of every row, how many leading columns have been other than zero up to it; absent:
   * all. Zeros before a column's beginning stay zeros.
   */
  whiten(columns: Float64Array, count: number, begun: Int32Array | null = null): void {
    const filter = this.#filter;
    const { kind } = this.#rows;
    const [speeds, heights, ...drifts] = this.#cleared(count);
    for (let i = 0; i < kind.length; i++) {
      const at = i * STRIDE;
      const driftDecay = filter[at + DRIFT_DECAY];
      const speedDecay = filter[at + SPEED_DECAY];
      const heightPerSpeed = filter[at + HEIGHT_PER_SPEED];
      const inverseSd = filter[at + INVERSE_SD];
      const used = begun ? begun[i] : count;
      const row = i * count;
      const own = drifts[kind[i]];
      const other = drifts[1 - kind[i]];
      const ownGain = filter[at + DRIFT_GAIN + kind[i]];
      const otherGain = filter[at + DRIFT_GAIN + 1 - kind[i]];
      const speedGain = filter[at + SPEED_GAIN];
      const heightGain = filter[at + HEIGHT_GAIN];
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
}
