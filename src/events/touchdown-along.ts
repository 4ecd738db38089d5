/**
 * How well does each candidate touchdown explain the positions along the strip?
 *
 * In: times and along-strip positions of one arrival, and candidate times. For each candidate,
 * each length of float and each brake delay: a linear model of the acceleration (approach, float,
 * free roll, brakes) with weak normal priors; its log evidence, and position and speed at the
 * candidate in closed form. Slow receiver drift, white noise and wandering acceleration are in the
 * covariance.
 *
 * Units: seconds, metres. Source: Bayesian linear regression, standard; the priors' reasons stand
 * in tuning.ts.
 */
import { choleskyInPlace } from '../numeric/cholesky.ts';
import {
  dot,
  fillGram,
  fillGramTerm,
  SmallSolver,
  WhitenedColumns,
} from '../numeric/linear-evidence.ts';
import { ALONG } from './tuning.ts';

/** Columns over candidates x floats x brakes, in that order of nesting. */
export interface AlongEvidence {
  readonly floatCount: number;
  readonly brakeCount: number;
  readonly logEvidence: Float64Array;
  /** Position along the strip at the candidate time: mean and variance, metres. */
  readonly positionM: Float64Array;
  readonly positionVar: Float64Array;
  /** Speed along the strip at the candidate time: mean and variance, m/s. */
  readonly speedMps: Float64Array;
  readonly speedVar: Float64Array;
}

/** Columns of the model: position, speed, approach, float, ground, brake; and the data themselves. */
const TERMS = 6;

/**
 * Weighs every candidate.
 *
 * @param timeS n rising times; @param alongM n positions; @param noiseSdM white noise of each.
 * @param candidateS candidate touchdown times, on the same clock.
 * @returns columns of candidates x floats x brakes; null where the covariance cannot be factored.
 */
export function weighAlong(
  timeS: Float64Array,
  alongM: Float64Array,
  noiseSdM: Float64Array,
  candidateS: Float64Array,
): AlongEvidence | null {
  const n = timeS.length;
  const factor = alongCovariance(timeS, noiseSdM);
  const halfLogDet = choleskyInPlace(factor, n);
  if (Number.isNaN(halfLogDet)) return null;
  const floats = ALONG.floatStartsS;
  const brakes = ALONG.brakeDelaysS;
  const size = candidateS.length * floats.length * brakes.length;
  const out: AlongEvidence = {
    floatCount: floats.length,
    brakeCount: brakes.length,
    logEvidence: new Float64Array(size),
    positionM: new Float64Array(size),
    positionVar: new Float64Array(size),
    speedMps: new Float64Array(size),
    speedVar: new Float64Array(size),
  };
  const columns = new WhitenedColumns(factor, n);
  const one = columns.whiten(() => 1);
  const clock = columns.whiten((i) => timeS[i] - timeS[0]);
  const data = columns.whiten((i) => alongM[i]);
  const linear = new Float64Array(n);
  const approach = new Float64Array(n);
  const gram = new Float64Array((TERMS + 1) * (TERMS + 1));
  const solver = new SmallSolver(TERMS, ALONG.priorMean, ALONG.priorSd, halfLogDet, TERMS - 1);
  const scratch = (): Float64Array => new Float64Array(n);
  const [ground, before, floating] = [scratch(), scratch(), scratch()];
  const brake = brakes.map(() => ({
    column: scratch(),
    row: new Float64Array(TERMS),
    withData: 0,
  }));
  let slot = 0;
  for (const touchdownS of candidateS) {
    const offset = touchdownS - timeS[0];
    for (let i = 0; i < n; i++) linear[i] = clock[i] - offset * one[i];
    columns.whiten((i) => positiveSquare(timeS[i] - touchdownS) / 2, ground);
    columns.whiten((i) => positiveSquare(touchdownS - timeS[i]) / 2, before);
    brake.forEach((each, b) => {
      const { column, row } = each;
      const startS = touchdownS + brakes[b];
      columns.whiten((i) => rampTwice(timeS[i] - startS, ALONG.brakeRampS), column);
      row[0] = dot(one, column);
      row[1] = dot(linear, column);
      row[GROUND] = dot(ground, column);
      row[BRAKE] = dot(column, column);
      each.withData = dot(data, column);
    });
    for (const startS of floats) {
      columns.whiten((i) => floatTerm(timeS[i] - touchdownS, startS), floating);
      // The approach's own acceleration fades out as the float comes in.
      for (let i = 0; i < n; i++) approach[i] = before[i] - floating[i];
      const shared = [one, linear, approach, floating, ground];
      if (startS === floats[0]) fillGram(gram, shared, data, TERMS);
      else
        for (const changed of [APPROACH, FLOAT]) fillGramTerm(gram, shared, changed, data, TERMS);
      for (let b = 0; b < brake.length; b++) {
        const { column, row, withData } = brake[b];
        row[APPROACH] = dot(approach, column);
        row[FLOAT] = dot(floating, column);
        gram.set(row, BRAKE_ROW);
        gram[DATA_ROW + BRAKE] = withData;
        solver.solve(gram, b > 0);
        out.logEvidence[slot] = solver.logEvidence;
        out.positionM[slot] = solver.mean[0];
        out.positionVar[slot] = solver.variance(0);
        out.speedMps[slot] = solver.mean[1];
        out.speedVar[slot] = solver.variance(1);
        slot++;
      }
    }
  }
  return out;
}

/** Places of columns in the model, and of the rows of the brake and of the data among the inner products. */
const APPROACH = 2;
const FLOAT = 3;
const GROUND = 4;
const BRAKE = 5;
const BRAKE_ROW = BRAKE * (TERMS + 1);
const DATA_ROW = TERMS * (TERMS + 1);

/** Covariance of the positions: white noise, receiver drift, wandering acceleration integrated twice. */
function alongCovariance(timeS: Float64Array, noiseSdM: Float64Array): Float64Array {
  const n = timeS.length;
  const R = new Float64Array(n * n);
  const wander = wanderCovariance(timeS);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const gap = timeS[i] - timeS[j];
      R[i * n + j] =
        ALONG.driftSdM ** 2 * Math.exp(-gap / ALONG.driftTimeS) +
        wander[i * n + j] +
        (i === j ? noiseSdM[i] ** 2 : 0);
    }
  }
  return R;
}

/**
 * Covariance of a path driven by wandering acceleration (exponential correlation), by accelerations
 * on knots half a second or more apart with straight lines between them.
 */
function wanderCovariance(timeS: Float64Array): Float64Array {
  const n = timeS.length;
  const stepS = ALONG.wanderKnotS;
  const knots = Math.ceil((timeS[n - 1] - timeS[0]) / stepS) + 2;
  // Displacement at each fix from a unit hat of acceleration at each knot, times the wander's own factor.
  const factor = new Float64Array(knots * knots);
  for (let i = 0; i < knots; i++) {
    for (let j = 0; j <= i; j++) {
      const correlation = Math.exp((-(i - j) * stepS) / ALONG.wanderTimeS);
      factor[i * knots + j] = ALONG.wanderSdMps2 ** 2 * correlation;
    }
  }
  choleskyInPlace(factor, knots);
  const shape = new Float64Array(n * knots);
  for (let i = 0; i < n; i++) {
    const t = timeS[i] - timeS[0];
    for (let k = 0; k < knots; k++) {
      const u = t - k * stepS;
      shape[i * knots + k] =
        (positiveCube(u + stepS) - 2 * positiveCube(u) + positiveCube(u - stepS)) / (6 * stepS);
    }
  }
  const spread = new Float64Array(n * knots);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < knots; j++) {
      let sum = 0;
      for (let k = j; k < knots; k++) sum += shape[i * knots + k] * factor[k * knots + j];
      spread[i * knots + j] = sum;
    }
  }
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let k = 0; k < knots; k++) sum += spread[i * knots + k] * spread[j * knots + k];
      out[i * n + j] = sum;
    }
  }
  return out;
}

/** Displacement by a deceleration that grows in from `startS` before touchdown; nothing after touchdown. */
function floatTerm(s: number, startS: number): number {
  if (s >= 0) return 0;
  const ramp = ALONG.floatRampS;
  const slope = rampOnce(startS, ramp);
  return rampTwice(s + startS, ramp) - rampTwice(startS, ramp) - slope * s;
}

/** Integral of a ramp from 0 to 1 over `rampS`, at u after its start. */
function rampOnce(u: number, rampS: number): number {
  return (positiveSquare(u) - positiveSquare(u - rampS)) / (2 * rampS);
}

/** Twice-integrated ramp. */
function rampTwice(u: number, rampS: number): number {
  return (positiveCube(u) - positiveCube(u - rampS)) / (6 * rampS);
}

function positiveSquare(u: number): number {
  return u > 0 ? u * u : 0;
}

function positiveCube(u: number): number {
  return u > 0 ? u * u * u : 0;
}
