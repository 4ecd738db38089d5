/**
 * How long after the satellite height does the pressure height of a log follow?
 *
 * In: both heights of a whole log with ground and vertical speed. Out: the delay with its error. In
 * climb and descent a delayed height differs from the other by the delay times the vertical speed, so
 * wherever the vertical speed changes the difference shows it; what the static error of the cabin adds
 * goes with the ground speed and is fitted beside it. Receiver and weather drift: a random walk.
 *
 * Source: generalised least squares with a scalar filter as whitening, standard; checked in the tests
 * against delays that were put in.
 */
import { invertSymmetric3 } from '../numeric/matrix3.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';

/** Columns of one log, all of one length; NaN where the log gives nothing. */
export interface HeightPair {
  readonly timeS: Float64Array;
  readonly satelliteM: Float64Array;
  readonly pressureM: Float64Array;
  readonly speedMps: Float64Array;
  /** Vertical speed as the satellite height has it. */
  readonly verticalSpeedMps: Float64Array;
  /** White noise of both heights' difference, metres. */
  readonly noiseSdM: number;
}

/** How long after the satellite height the pressure height follows (negative: before it), and one standard deviation, seconds. */
export interface HeightDelay {
  readonly delayS: number;
  readonly sdS: number;
}

/** The delay, or null where too little of the log is flown with both heights, or where they do not go together. Never fails. */
export function heightDelay(pair: HeightPair): HeightDelay | null {
  const first = delayBeside(pair, 0);
  // Their difference goes with the vertical speed half-way between both, not with that of the satellite height.
  return first && delayBeside(pair, first.delayS / 2);
}

/** The delay beside the vertical speed of so many seconds before each fix. */
function delayBeside(pair: HeightPair, beforeS: number): HeightDelay | null {
  const { timeS } = pair;
  const sums = new WhitenedSums(pair.noiseSdM);
  const leastMps = FLOWN_SHARE * fastSpeed(pair.speedMps);
  let lastS = -Infinity;
  let after = 1;
  for (let i = 0; i < timeS.length; i++) {
    const speed = pair.speedMps[i];
    const atS = timeS[i] - beforeS;
    while (after < timeS.length - 1 && timeS[after] < atS) after++;
    const share = (atS - timeS[after - 1]) / (timeS[after] - timeS[after - 1]);
    const [from, to] = [pair.verticalSpeedMps[after - 1], pair.verticalSpeedMps[after]];
    const climb = from + Math.max(0, Math.min(1, share)) * (to - from);
    const difference = pair.pressureM[i] - pair.satelliteM[i];
    if (!(speed > leastMps) || Number.isNaN(difference + climb)) continue;
    // Faster logs say no more: their noise hangs together from fix to fix.
    if (timeS[i] - lastS < LEAST_STEP_S) continue;
    lastS = timeS[i];
    sums.add(lastS, [
      -climb,
      (-speed * speed) / (2 * GRAVITY_MPS2),
      -speed / GRAVITY_MPS2,
      difference,
    ]);
  }
  return sums.count < LEAST_ROWS ? null : solve(sums);
}

/** The speed that a tenth of the fixes are faster than, m/s: no single wrong one decides. */
function fastSpeed(speedMps: Float64Array): number {
  const sorted = speedMps.filter((speed) => !Number.isNaN(speed)).sort();
  return sorted.length === 0 ? NaN : sorted[Math.floor(0.9 * sorted.length)];
}

/** Slower than this share of the fast ones the aircraft may be on the ground, where the static error is another. */
const FLOWN_SHARE = 0.55;
const LEAST_STEP_S = 0.9;
const LEAST_ROWS = 40;
/** After a hole this long the drift begins anew, seconds. */
const HOLE_S = 30;
/** Drift of a receiver's height as a variance rate: in the middle of those that touchdowns allow for. */
const DRIFT_M2_PER_S = 0.2;
/** Further off than this many standard deviations a difference is a fault of one of the heights. */
const FAULT_SDS = 6;
/** Priors of the terms, one standard deviation: so wide that the log decides the delay; the static error as at touchdown. */
const PRIOR_SD = [3, 0.08, 0.4];
/** Differences that fit worse than this, as a ratio to their noise, are not of two heights of one aircraft. */
const WORST_FIT = 4;

const TERMS = 3;
const COLUMNS = TERMS + 1;

/** Inner products of the terms and the difference (the last column), freed of the drift as they come. */
class WhitenedSums {
  readonly product = new Float64Array(COLUMNS * COLUMNS);
  count = 0;
  readonly #noiseVar: number;
  readonly #level = new Float64Array(COLUMNS);
  #levelVar = 0;
  #lastS = -Infinity;

  constructor(noiseSdM: number) {
    this.#noiseVar = noiseSdM * noiseSdM;
  }

  add(timeS: number, row: readonly number[]): void {
    const gapS = timeS - this.#lastS;
    if (gapS > HOLE_S) {
      this.#level.set(row);
      this.#levelVar = this.#noiseVar;
      this.#lastS = timeS;
      return;
    }
    const levelVar = this.#levelVar + DRIFT_M2_PER_S * gapS;
    const variance = levelVar + this.#noiseVar;
    const off = row[TERMS] - this.#level[TERMS];
    if (off * off > FAULT_SDS * FAULT_SDS * variance) return;
    const gain = levelVar / variance;
    const innovation = row.map((value, k) => value - this.#level[k]);
    for (let a = 0; a < COLUMNS; a++) {
      this.#level[a] += gain * innovation[a];
      for (let b = 0; b < COLUMNS; b++) {
        this.product[a * COLUMNS + b] += (innovation[a] * innovation[b]) / variance;
      }
    }
    this.#levelVar = levelVar * (1 - gain);
    this.#lastS = timeS;
    this.count++;
  }
}

/** Fits the terms to the sums; the error grows where the differences scatter more than their noise says. */
function solve({ product, count }: WhitenedSums): HeightDelay | null {
  const normal = new Float64Array(TERMS * TERMS);
  for (let a = 0; a < TERMS; a++) {
    for (let b = 0; b < TERMS; b++) {
      normal[a * TERMS + b] = product[a * COLUMNS + b] + (a === b ? PRIOR_SD[a] ** -2 : 0);
    }
  }
  const inverse = new Float64Array(TERMS * TERMS);
  invertSymmetric3(normal, inverse);
  const withData = (a: number): number => product[a * COLUMNS + TERMS];
  let left = product[TERMS * COLUMNS + TERMS];
  let delayS = 0;
  for (let a = 0; a < TERMS; a++) {
    delayS += inverse[a] * withData(a);
    for (let b = 0; b < TERMS; b++) left -= inverse[a * TERMS + b] * withData(a) * withData(b);
  }
  const scatter = left / count;
  const sdS = Math.sqrt(inverse[0] * Math.max(1, scatter));
  return scatter <= WORST_FIT && Number.isFinite(delayS) && Math.abs(delayS) <= MOST_DELAY_S
    ? { delayS, sdS }
    : null;
}

/** No sensor is later than this, seconds: a fit beyond it is none. */
const MOST_DELAY_S = 4;
