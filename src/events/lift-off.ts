/**
 * When and where did the wheels leave the ground?
 *
 * In: heights over the strip through the run and the first seconds of flight, and candidate times.
 * Out: a weight for every candidate. The speed is left out on purpose: after lift-off the
 * acceleration falls over many seconds, and a model that says otherwise pushes the answer late.
 *
 * Source: Bayesian change-point analysis; covariance of an integrated exponentially correlated
 * speed in closed form, standard; numbers in tuning.ts.
 */
import { choleskyInPlace } from '../numeric/cholesky.ts';
import { fillGram, SmallSolver, WhitenedColumns } from '../numeric/linear-evidence.ts';
import { logAdd } from '../numeric/posterior.ts';
import type { HeightRows } from './touchdown-height.ts';
import { HEIGHT, TAKE_OFF } from './tuning.ts';

/** Log weight of every candidate lift-off time. */
export function weighLiftOff(rows: HeightRows, candidateS: Float64Array): Float64Array {
  const n = rows.timeS.length;
  const total = new Float64Array(candidateS.length).fill(-Infinity);
  const terms = 3;
  const gram = new Float64Array((terms + 1) * (terms + 1));
  for (const rate of HEIGHT.driftRates) {
    const base = driftCovariance(rows, rate);
    for (let c = 0; c < candidateS.length; c++) {
      const liftOffS = candidateS[c];
      const R = base.slice();
      addClimbWander(R, rows.timeS, liftOffS);
      const halfLogDet = choleskyInPlace(R, n);
      if (Number.isNaN(halfLogDet)) continue;
      const columns = new WhitenedColumns(R, n);
      const since = (i: number): number => rows.timeS[i] - liftOffS;
      const level = columns.whiten(() => 1);
      const rise = columns.whiten((i) => riseTerm(since(i)));
      const data = columns.whiten((i) => rows.heightM[i]);
      const solver = new SmallSolver(
        terms,
        [0, TAKE_OFF.riseM, TAKE_OFF.climbMps],
        [Infinity, TAKE_OFF.riseSdM, TAKE_OFF.climbSdMps],
        halfLogDet,
      );
      let sum = -Infinity;
      for (const rampS of TAKE_OFF.rampsS) {
        const climb = columns.whiten((i) => climbTerm(since(i), rampS));
        fillGram(gram, [level, rise, climb], data, terms);
        solver.solve(gram);
        sum = logAdd(sum, solver.logEvidence);
      }
      total[c] = logAdd(total[c], sum);
    }
  }
  return total;
}

function driftCovariance(rows: HeightRows, rate: number): Float64Array {
  const n = rows.timeS.length;
  const R = new Float64Array(n * n);
  const variance = (rate * HEIGHT.driftTimeS) / 2;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      R[i * n + j] =
        variance * Math.exp((rows.timeS[j] - rows.timeS[i]) / HEIGHT.driftTimeS) +
        (i === j ? rows.noiseSdM ** 2 : 0);
    }
  }
  return R;
}

/** Antenna rising before lift-off by a unit; all of it from lift-off on. */
function riseTerm(s: number): number {
  return s >= 0 ? 1 : Math.exp(s / TAKE_OFF.riseS);
}

/** Height by a unit climb that builds up over `rampS`. */
function climbTerm(s: number, rampS: number): number {
  if (s <= 0) return 0;
  return s < rampS ? (s * s) / (2 * rampS) : s - rampS / 2;
}

/** Covariance of the height that wandering vertical speed makes after lift-off. */
function addClimbWander(R: Float64Array, timeS: Float64Array, liftOffS: number): void {
  const n = timeS.length;
  const T = TAKE_OFF.wanderTimeS;
  const scale = (TAKE_OFF.wanderSdMps * T) ** 2;
  for (let i = 0; i < n; i++) {
    const a = (timeS[i] - liftOffS) / T;
    if (a <= 0) continue;
    for (let j = 0; j <= i; j++) {
      const b = (timeS[j] - liftOffS) / T;
      if (b <= 0) continue;
      R[i * n + j] +=
        scale * (2 * Math.min(a, b) - 1 + Math.exp(-a) + Math.exp(-b) - Math.exp(-Math.abs(a - b)));
    }
  }
}
