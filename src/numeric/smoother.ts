/**
 * A fixed-interval smoother on uneven time steps: where was it, how fast, and how sure are we?
 *
 * One or more axes share one error model: state position, velocity and acceleration, driven by
 * white jerk; positions are measured with a given standard deviation. A forward Kalman filter and
 * a backward Rauch-Tung-Striebel pass; fixes far off the smoothed path lose weight and the passes
 * are repeated, so that a stray fix bends nothing.
 *
 * Shapes: times, weights and measurements have n slots; covariances are stored as the six upper
 * entries pp, pv, pa, vv, va, aa of a symmetric 3 x 3 matrix. Units: seconds and metres.
 * Source: standard linear smoothing theory (Rauch, Tung and Striebel 1965), from memory.
 */

import { invertSymmetric3, multiply3 } from './matrix3.ts';

/** What the smoother is told about the motion and the measurements. */
export interface SmootherOptions {
  /** Power of the white jerk, m2/s5. */
  readonly jerkPower: number;
  /** Standard deviation of one measured position, metres. */
  readonly positionSdM: number;
  /** Passes of down-weighting after the first; 0: none. */
  readonly robustPasses: number;
}

/** Smoothed motion of several axes with a common covariance. Columns of n slots. */
export interface SmoothedAxes {
  readonly positionM: readonly Float64Array[];
  readonly velocityMps: readonly Float64Array[];
  readonly accelerationMps2: readonly Float64Array[];
  /** Standard deviation of the position on any one axis, metres. */
  readonly positionSdM: Float64Array;
  /** Standard deviation of the velocity on any one axis, m/s. */
  readonly velocitySdMps: Float64Array;
  /** Covariance of position and velocity on any one axis, m2/s. */
  readonly positionVelocityCov: Float64Array;
  /** Weight of each measurement after down-weighting, 0 to 1. */
  readonly weight: Float64Array;
}

/**
 * Smooths the axes together.
 *
 * @param timeS n rising times, seconds.
 * @param axes one column of n measured positions each, metres; a NaN in any axis: not measured there.
 * @returns columns of n slots. Throws where columns differ in length or times do not rise.
 */
export function smoothAxes(
  timeS: Float64Array,
  axes: readonly Float64Array[],
  options: SmootherOptions,
): SmoothedAxes {
  const n = timeS.length;
  for (const axis of axes) {
    if (axis.length !== n) throw new Error(`an axis has ${axis.length} slots, the times ${n}`);
  }
  for (let i = 1; i < n; i++) {
    if (!(timeS[i] > timeS[i - 1])) throw new Error(`time does not rise at index ${i}`);
  }
  const weight = new Float64Array(n).fill(1);
  for (let i = 0; i < n; i++) {
    if (axes.some((axis) => Number.isNaN(axis[i]))) weight[i] = 0;
  }
  const measured = weight.slice();
  let smoothed = smoothOnce(timeS, axes, weight, options);
  for (let pass = 0; pass < options.robustPasses; pass++) {
    reweigh(axes, smoothed, measured, weight, options.positionSdM);
    smoothed = smoothOnce(timeS, axes, weight, options);
  }
  return smoothed;
}

/** Weights by distance from the smoothed path: 1 within three standard deviations, then falling as 1/d2. */
function reweigh(
  axes: readonly Float64Array[],
  smoothed: SmoothedAxes,
  measured: Float64Array,
  weight: Float64Array,
  sdM: number,
): void {
  for (let i = 0; i < weight.length; i++) {
    if (measured[i] === 0) continue;
    let squared = 0;
    for (let a = 0; a < axes.length; a++) squared += (axes[a][i] - smoothed.positionM[a][i]) ** 2;
    const limit = 9 * axes.length * sdM * sdM;
    weight[i] = squared <= limit ? 1 : limit / squared;
  }
}

/** Variances before the first fix, m2, (m/s)2, (m/s2)2: nothing is known of it. */
const UNKNOWN = Float64Array.of(1e8, 0, 0, 0, 1e4, 0, 0, 0, 1e2);

/** Means of all axes as columns, filtered and then smoothed in place. */
type Means = Pick<SmoothedAxes, 'positionM' | 'velocityMps' | 'accelerationMps2'>;

function smoothOnce(
  timeS: Float64Array,
  axes: readonly Float64Array[],
  weight: Float64Array,
  options: SmootherOptions,
): SmoothedAxes {
  const column = (): Float64Array => new Float64Array(timeS.length);
  const means: Means = {
    positionM: axes.map(column),
    velocityMps: axes.map(column),
    accelerationMps2: axes.map(column),
  };
  const covariances = filterForward(timeS, axes, weight, options, means);
  return { ...means, ...smoothBackward(timeS, options, means, covariances), weight };
}

/**
 * Predicts every fix from the one before and corrects it by what was measured there.
 *
 * @returns the covariance at every fix, 3 x 3 row-major, one after the other.
 */
function filterForward(
  timeS: Float64Array,
  axes: readonly Float64Array[],
  weight: Float64Array,
  { positionSdM, jerkPower }: SmootherOptions,
  means: Means,
): Float64Array {
  const covariances = new Float64Array(9 * timeS.length);
  const P = UNKNOWN.slice();
  const before = new Float64Array(9);
  for (let i = 0; i < timeS.length; i++) {
    if (i === 0) axes.forEach((axis, k) => (means.positionM[k][0] = firstNumber(axis)));
    else {
      const dt = timeS[i] - timeS[i - 1];
      predictMeans(means, i, dt);
      before.set(P);
      fillPredicted(P, before, dt, jerkPower);
    }
    if (weight[i] > 0) correct(means, P, axes, i, positionSdM ** 2 / weight[i]);
    covariances.set(P, 9 * i);
  }
  return covariances;
}

/** Carries the means of all axes from fix i - 1 on to fix i. */
function predictMeans(
  { positionM, velocityMps, accelerationMps2 }: Means,
  i: number,
  dt: number,
): void {
  const half = (dt * dt) / 2;
  for (let k = 0; k < positionM.length; k++) {
    const [p, v, acc] = [positionM[k], velocityMps[k], accelerationMps2[k]];
    p[i] = p[i - 1] + dt * v[i - 1] + half * acc[i - 1];
    v[i] = v[i - 1] + dt * acc[i - 1];
    acc[i] = acc[i - 1];
  }
}

/** Takes in the positions measured at fix i, which have this variance: means and covariance in place. */
function correct(
  { positionM, velocityMps, accelerationMps2 }: Means,
  P: Float64Array,
  axes: readonly Float64Array[],
  i: number,
  measuredVar: number,
): void {
  const [pp, pv, pa] = P;
  const sum = pp + measuredVar;
  const [kp, kv, ka] = [pp / sum, pv / sum, pa / sum];
  for (let k = 0; k < axes.length; k++) {
    const gap = axes[k][i] - positionM[k][i];
    positionM[k][i] += kp * gap;
    velocityMps[k][i] += kv * gap;
    accelerationMps2[k][i] += ka * gap;
  }
  P[0] -= kp * pp;
  P[1] = P[3] -= kp * pv;
  P[2] = P[6] -= kp * pa;
  P[4] -= kv * pv;
  P[5] = P[7] -= kv * pa;
  P[8] -= ka * pa;
}

/** What the fixes after each say of it: means in place; out come the spreads. */
function smoothBackward(
  timeS: Float64Array,
  { jerkPower }: SmootherOptions,
  { positionM, velocityMps, accelerationMps2 }: Means,
  covariances: Float64Array,
): Pick<SmoothedAxes, 'positionSdM' | 'velocitySdMps' | 'positionVelocityCov'> {
  const n = timeS.length;
  const positionSdM = new Float64Array(n);
  const velocitySdMps = new Float64Array(n);
  const positionVelocityCov = new Float64Array(n);
  // Scratch matrices, 3 x 3 row-major: nothing is allocated in the loop.
  const predicted = new Float64Array(9);
  const gain = new Float64Array(9);
  const scratch = { a: new Float64Array(9), b: new Float64Array(9) };
  /** The covariance smoothed at i + 1, then at i. */
  const later = covariances.slice(9 * (n - 1));
  for (let i = n - 1; i >= 0; i--) {
    if (i < n - 1) {
      const dt = timeS[i + 1] - timeS[i];
      const filtered = covariances.subarray(9 * i, 9 * i + 9);
      fillPredicted(predicted, filtered, dt, jerkPower);
      fillGain(gain, filtered, predicted, dt, scratch);
      const half = (dt * dt) / 2;
      for (let k = 0; k < positionM.length; k++) {
        const [p, v, acc] = [positionM[k], velocityMps[k], accelerationMps2[k]];
        const dp = p[i + 1] - (p[i] + dt * v[i] + half * acc[i]);
        const dv = v[i + 1] - (v[i] + dt * acc[i]);
        const da = acc[i + 1] - acc[i];
        p[i] += gain[0] * dp + gain[1] * dv + gain[2] * da;
        v[i] += gain[3] * dp + gain[4] * dv + gain[5] * da;
        acc[i] += gain[6] * dp + gain[7] * dv + gain[8] * da;
      }
      smoothCovariance(later, filtered, predicted, gain, scratch);
    }
    positionSdM[i] = Math.sqrt(Math.max(later[0], 0));
    velocitySdMps[i] = Math.sqrt(Math.max(later[4], 0));
    positionVelocityCov[i] = later[1];
  }
  return { positionSdM, velocitySdMps, positionVelocityCov };
}

/** Room for intermediate products. */
interface Scratch {
  readonly a: Float64Array;
  readonly b: Float64Array;
}

function firstNumber(column: Float64Array): number {
  for (const value of column) if (!Number.isNaN(value)) return value;
  return 0;
}

/** F P F' + Q over dt; P symmetric. */
function fillPredicted(out: Float64Array, P: Float64Array, dt: number, q: number): void {
  const half = (dt * dt) / 2;
  const m00 = P[0] + dt * P[1] + half * P[2];
  const m01 = P[1] + dt * P[4] + half * P[5];
  const m02 = P[2] + dt * P[5] + half * P[8];
  const m11 = P[4] + dt * P[5];
  const m12 = P[5] + dt * P[8];
  out[0] = m00 + dt * m01 + half * m02 + (q * dt ** 5) / 20;
  out[1] = out[3] = m01 + dt * m02 + (q * dt ** 4) / 8;
  out[2] = out[6] = m02 + (q * dt ** 3) / 6;
  out[4] = m11 + dt * m12 + (q * dt ** 3) / 3;
  out[5] = out[7] = m12 + (q * dt * dt) / 2;
  out[8] = P[8] + q * dt;
}

/** P F' times the inverse of the predicted covariance. */
function fillGain(
  out: Float64Array,
  P: Float64Array,
  predicted: Float64Array,
  dt: number,
  { a, b }: Scratch,
): void {
  const half = (dt * dt) / 2;
  for (let r = 0; r < 9; r += 3) {
    a[r] = P[r] + dt * P[r + 1] + half * P[r + 2];
    a[r + 1] = P[r + 1] + dt * P[r + 2];
    a[r + 2] = P[r + 2];
  }
  invertSymmetric3(predicted, b);
  multiply3(a, b, out);
}

/** Replaces the later covariance by the one smoothed a step earlier: P + gain (later - predicted) gain'. */
function smoothCovariance(
  later: Float64Array,
  P: Float64Array,
  predicted: Float64Array,
  gain: Float64Array,
  { a, b }: Scratch,
): void {
  for (let k = 0; k < 9; k++) a[k] = later[k] - predicted[k];
  multiply3(gain, a, b);
  for (let r = 0; r < 9; r += 3) {
    for (let c = 0; c < 3; c++) {
      later[r + c] =
        P[r + c] + b[r] * gain[3 * c] + b[r + 1] * gain[3 * c + 1] + b[r + 2] * gain[3 * c + 2];
    }
  }
}
