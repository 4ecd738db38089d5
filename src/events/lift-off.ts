/**
 * When and where did the wheels leave the ground?
 *
 * In: heights over the strip through the run and the first seconds of flight, and candidate times.
 * Out: a weight for every candidate. The speed is left out on purpose: after lift-off the
 * acceleration falls over many seconds, and a model that says otherwise pushes the answer late.
 *
 * Source: Bayesian change-point analysis; the errors of the heights in
 * height-filter.ts; numbers in tuning.ts.
 */
import { SmallSolver } from '../numeric/linear-evidence.ts';
import { logAdd } from '../numeric/posterior.ts';
import { HeightFilter, type HeightErrors } from './height-filter.ts';
import type { HeightRows } from './touchdown-height.ts';
import { HEIGHT, TAKE_OFF } from './tuning.ts';

/** Terms of the model: level, antenna rise, climb. The data's column follows, then one climb a ramp. */
const TERMS = 3;
const DATA = 2;
const FIRST_CLIMB = 3;

/** Log weight of every candidate lift-off time. */
export function weighLiftOff(rows: HeightRows, candidateS: Float64Array): Float64Array {
  const n = rows.timeS.length;
  const count = FIRST_CLIMB + TAKE_OFF.rampsS.length;
  const channel = new Uint8Array(n);
  const noiseVar = rows.noiseSdM.map((sd) => sd * sd);
  const raw = new Float64Array(n * count);
  return candidateS.map((liftOffS) => {
    const u = rows.timeS.map((t) => t - liftOffS);
    for (let i = 0; i < n; i++) {
      raw[i * count] = 1;
      raw[i * count + 1] = riseTerm(u[i]);
      raw[i * count + DATA] = rows.heightM[i];
      TAKE_OFF.rampsS.forEach((rampS, k) => {
        raw[i * count + FIRST_CLIMB + k] = climbTerm(u[i], rampS);
      });
    }
    let total = -Infinity;
    for (const rate of HEIGHT.driftRates) {
      const filter = new HeightFilter(u, channel, noiseVar, errors(rate));
      const columns = raw.slice();
      filter.whiten(columns, count);
      total = logAdd(total, evidence(columns, count, filter.halfLogDet));
    }
    return total;
  });
}

/** Evidence of one candidate under one drift, all ramps together. */
function evidence(columns: Float64Array, count: number, halfLogDet: number): number {
  const dot = (a: number, b: number): number => {
    let sum = 0;
    for (let at = 0; at < columns.length; at += count) sum += columns[at + a] * columns[at + b];
    return sum;
  };
  const side = TERMS + 1;
  const gram = new Float64Array(side * side);
  const solver = new SmallSolver(
    TERMS,
    [0, TAKE_OFF.riseM, TAKE_OFF.climbMps],
    [Infinity, TAKE_OFF.riseSdM, TAKE_OFF.climbSdMps],
    halfLogDet,
  );
  let total = -Infinity;
  for (let k = FIRST_CLIMB; k < count; k++) {
    const order = [0, 1, k, DATA];
    for (let a = 0; a < side; a++) {
      for (let b = 0; b <= a; b++) gram[a * side + b] = dot(order[a], order[b]);
    }
    solver.solve(gram);
    total = logAdd(total, solver.logEvidence);
  }
  return total;
}

function errors(rate: number): HeightErrors {
  return {
    driftVar: [(rate * HEIGHT.driftTimeS) / 2],
    driftTimeS: HEIGHT.driftTimeS,
    wanderSdMps: TAKE_OFF.wanderSdMps,
    wanderTimeS: TAKE_OFF.wanderTimeS,
    wanderShare: () => 1,
  };
}

/** Antenna rising before lift-off by a unit; all of it from lift-off on. */
function riseTerm(u: number): number {
  return u >= 0 ? 1 : Math.exp(u / TAKE_OFF.riseS);
}

/** Height by a unit climb that builds up over `rampS`. */
function climbTerm(u: number, rampS: number): number {
  if (u <= 0) return 0;
  return u < rampS ? (u * u) / (2 * rampS) : u - rampS / 2;
}
