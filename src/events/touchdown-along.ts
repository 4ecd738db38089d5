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
import { WhitenedColumns } from '../numeric/whitened-columns.ts';
import { AlongModels } from './along-models.ts';
import { AlongWander } from './along-wander.ts';
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
  const wander = new AlongWander(timeS);
  const { draws } = wander;
  const stray = new Float64Array(n * draws);
  for (let i = 0; i < n; i++) wander.displacement(timeS[i], stray, i * draws);
  const factor = alongCovariance(timeS, noiseSdM, stray, draws);
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
  const whitener = new WhitenedColumns(factor, n);
  const strayed = Array.from({ length: draws }, (_, k) =>
    whitener.whiten((i) => stray[i * draws + k]),
  );
  const models = new AlongModels(timeS, alongM, whitener, strayed);
  const { position, speed } = models;
  let slot = 0;
  for (const touchdownS of candidateS) {
    wander.displacement(touchdownS, position.shares);
    wander.velocity(touchdownS, speed.shares);
    models.setTouchdown(touchdownS);
    for (const startS of floats) {
      models.setFloat(startS);
      for (let b = 0; b < brakes.length; b++) {
        models.setBrake(b);
        out.logEvidence[slot] = models.logEvidence - halfLogDet;
        out.positionM[slot] = position.value;
        out.positionVar[slot] = position.variance;
        out.speedMps[slot] = speed.value;
        out.speedVar[slot] = speed.variance;
        slot++;
      }
    }
  }
  return out;
}

/** Covariance of the positions: white noise, receiver drift, wandering. `stray`: shares of the wander's draws, a row a fix. */
function alongCovariance(
  timeS: Float64Array,
  noiseSdM: Float64Array,
  stray: Float64Array,
  draws: number,
): Float64Array {
  const n = timeS.length;
  const R = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const gap = timeS[i] - timeS[j];
      let wander = 0;
      for (let k = 0; k < draws; k++) wander += stray[i * draws + k] * stray[j * draws + k];
      R[i * n + j] =
        ALONG.driftSdM ** 2 * Math.exp(-gap / ALONG.driftTimeS) +
        wander +
        (i === j ? noiseSdM[i] ** 2 : 0);
    }
  }
  return R;
}
