/**
 * How does an airspeed change from one moment to the next?
 *
 * A pilot's airspeed gathers and loses speed smoothly: its rate of change lives for some seconds, so
 * that what is seen on the straights beside a turn tells what is likely within it, and what happens
 * within it is left open. Gusts come on top and are gone in seconds. In: the moments, and columns of
 * values at them that are linear in what is sought. Out: the same columns with what the moments
 * before foretell taken off, each row over the spread that it should then have.
 *
 * Source: Kalman filter of a Gauss-Markov rate and a Gauss-Markov gust; generalised least squares by
 * the innovations of one filter run over data and regressors alike (any text on state-space models).
 */
import { WIND } from './circuit-tuning.ts';
import type { WindSample } from './wind-samples.ts';

/** How restless the airspeed is. */
export interface AirspeedWalk {
  /** Spread of its rate of change, m/s2. */
  readonly rateSdMps2: number;
  /** Spread of the gusts, m/s. */
  readonly gustSdMps: number;
}

/** Innovations of each column: one row for each moment but the first, which only says where the airspeed began. */
export function innovations(
  samples: readonly WindSample[],
  columns: readonly Float64Array[],
  walk: AirspeedWalk,
): Float64Array[] {
  const state = columns.map(() => new Float64Array(3));
  const out = columns.map(() => new Float64Array(samples.length - 1));
  const cov = Float64Array.of(
    ...[UNKNOWN_SPEED_MPS ** 2, 0, 0, walk.rateSdMps2 ** 2, 0, walk.gustSdMps ** 2],
  );
  for (let i = 0; i < samples.length; i++) {
    if (i > 0) predict(samples[i - 1], samples[i], walk, state, cov);
    const bySpeed = cov[0] + cov[2];
    const byRate = cov[1] + cov[4];
    const byGust = cov[2] + cov[5];
    const variance = bySpeed + byGust + samples[i].speedSdMps ** 2 + LEAST_SD_MPS ** 2;
    const sd = Math.sqrt(variance);
    for (let c = 0; c < columns.length; c++) {
      const each = state[c];
      const off = columns[c][i] - each[0] - each[2];
      each[0] += (bySpeed / variance) * off;
      each[1] += (byRate / variance) * off;
      each[2] += (byGust / variance) * off;
      if (i > 0) out[c][i - 1] = off / sd;
    }
    cov[0] -= (bySpeed * bySpeed) / variance;
    cov[1] -= (bySpeed * byRate) / variance;
    cov[2] -= (bySpeed * byGust) / variance;
    cov[3] -= (byRate * byRate) / variance;
    cov[4] -= (byRate * byGust) / variance;
    cov[5] -= (byGust * byGust) / variance;
  }
  return out;
}

/** The airspeed at the beginning is not known at all. */
const UNKNOWN_SPEED_MPS = 1000;

/** No ground speed is known better than this, m/s. */
const LEAST_SD_MPS = 0.1;

/** `cov`: of airspeed, rate and gust, upper triangle, row by row. */
function predict(
  from: WindSample,
  to: WindSample,
  { rateSdMps2, gustSdMps }: AirspeedWalk,
  state: readonly Float64Array[],
  cov: Float64Array,
): void {
  const stepS = to.timeS - from.timeS;
  const keep = Math.exp(-stepS / WIND.rateS);
  const reachS = WIND.rateS * (1 - keep);
  const keepGust = Math.exp(-stepS / WIND.gustS);
  for (const each of state) {
    each[0] += reachS * each[1];
    each[1] *= keep;
    each[2] *= keepGust;
  }
  const climbChange = to.climbMps - from.climbMps;
  const held = from.inFullTurn && to.inFullTurn ? WIND.heldInFullTurn : 1;
  const rateVar = (held * rateSdMps2) ** 2 + (WIND.ratePerClimb * climbChange) ** 2;
  const driftVar = WIND.rateS ** 2 * ((2 * stepS) / WIND.rateS - 3 + 4 * keep - keep * keep);
  // In an order in which each still finds the old ones that it needs.
  cov[0] += 2 * reachS * cov[1] + reachS * reachS * cov[3] + rateVar * driftVar;
  cov[1] = keep * (cov[1] + reachS * cov[3]) + rateVar * WIND.rateS * (1 - keep) ** 2;
  cov[2] = keepGust * (cov[2] + reachS * cov[4]);
  cov[3] = keep * keep * cov[3] + rateVar * (1 - keep * keep);
  cov[4] *= keep * keepGust;
  cov[5] = keepGust * keepGust * cov[5] + gustSdMps ** 2 * (1 - keepGust * keepGust);
}
