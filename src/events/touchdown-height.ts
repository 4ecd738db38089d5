/**
 * How well does each candidate touchdown explain the heights over the strip?
 *
 * In: heights above the strip's surface (any datum: the level is free) with their times and, where
 * recorded, pressure heights with the ground speed. For each candidate and each shape of round-out
 * a linear model: level, settling of the antenna after contact, sink before it. The drift of the
 * receiver is averaged over; a pressure height carries its static error as two more terms.
 *
 * Units: seconds, metres, m/s. Source: Bayesian linear regression, standard; the priors' reasons
 * stand in tuning.ts.
 */
import { choleskyInPlace } from '../numeric/cholesky.ts';
import { logAdd } from '../numeric/posterior.ts';
import { fillGram, SmallSolver, WhitenedColumns } from '../numeric/linear-evidence.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { HEIGHT } from './tuning.ts';

/** Heights of one kind above the strip's surface. */
export interface HeightRows {
  readonly timeS: Float64Array;
  readonly heightM: Float64Array;
  /** Ground speed at each row, m/s. */
  readonly speedMps: Float64Array;
  /** White noise of one row, metres. */
  readonly noiseSdM: number;
}

/** Log evidence in columns of candidates x hold-offs x round-outs. */
export interface HeightEvidence {
  readonly shapeCount: number;
  readonly logEvidence: Float64Array;
}

/** One shape of the last seconds: hold-off and round-out, seconds; sink at contact, m/s; prior weight. */
export interface HeightShape {
  readonly holdOffS: number;
  readonly roundOutS: number;
  readonly sinkMps: number;
  readonly sinkSdMps: number;
  readonly weight: number;
}

/** The shapes in the order of the columns; those of one geometry stand together. */
export const HEIGHT_SHAPES: readonly HeightShape[] = HEIGHT.holdOffsS.flatMap((holdOffS) =>
  HEIGHT.roundOutsS.flatMap((roundOutS) =>
    HEIGHT.contactSinks
      .filter((sink) => !sink.heldOff || holdOffS > 0)
      .map((sink) => ({
        holdOffS,
        roundOutS,
        sinkMps: sink.meanMps,
        sinkSdMps: sink.sdMps,
        weight: (sink.weight * holdOffWeight(holdOffS)) / holdOffTotal(sink.heldOff),
      })),
  ),
);

/** Long hold-offs are rarer than short ones. */
function holdOffWeight(holdOffS: number): number {
  return Math.exp(-holdOffS / HEIGHT.holdOffDecayS);
}

function holdOffTotal(heldOff: boolean): number {
  let total = 0;
  for (const holdOffS of HEIGHT.holdOffsS) {
    if (!heldOff || holdOffS > 0) total += holdOffWeight(holdOffS);
  }
  return total;
}

/**
 * Weighs every candidate.
 *
 * @param satellite rows of satellite heights, or null; @param pressure rows of pressure heights, or null.
 * @returns null where neither is given or no covariance can be factored.
 */
export function weighHeights(
  satellite: HeightRows | null,
  pressure: HeightRows | null,
  candidateS: Float64Array,
): HeightEvidence | null {
  if (!satellite && !pressure) return null;
  const lags = pressure ? HEIGHT.pressureLagsS : [0];
  const size = candidateS.length * HEIGHT_SHAPES.length;
  const total = new Float64Array(size).fill(-Infinity);
  const drifts = satellite ? HEIGHT.driftRates : [HEIGHT.pressureDriftRate];
  for (const lagS of lags) {
    const stack = stackRows(satellite, pressure, lagS);
    for (const drift of drifts) {
      const base = driftCovariance(stack, drift);
      for (let c = 0; c < candidateS.length; c++) {
        weighCandidate(stack, base, candidateS[c], total, c * HEIGHT_SHAPES.length);
      }
    }
  }
  return { shapeCount: HEIGHT_SHAPES.length, logEvidence: total };
}

/** Rows of both kinds in one list; a pressure row answers for the moment one lag earlier. */
interface Stack {
  readonly n: number;
  readonly satelliteRows: number;
  readonly timeS: Float64Array;
  readonly heightM: Float64Array;
  readonly speedMps: Float64Array;
  readonly noiseVar: Float64Array;
  readonly hasPressure: boolean;
}

function stackRows(satellite: HeightRows | null, pressure: HeightRows | null, lagS: number): Stack {
  const first = satellite?.timeS.length ?? 0;
  const second = pressure?.timeS.length ?? 0;
  const n = first + second;
  const stack = {
    n,
    satelliteRows: first,
    timeS: new Float64Array(n),
    heightM: new Float64Array(n),
    speedMps: new Float64Array(n),
    noiseVar: new Float64Array(n),
    hasPressure: pressure !== null,
  };
  const copy = (rows: HeightRows | null, from: number, shiftS: number): void => {
    if (!rows) return;
    for (let i = 0; i < rows.timeS.length; i++) {
      stack.timeS[from + i] = rows.timeS[i] - shiftS;
      stack.heightM[from + i] = rows.heightM[i];
      stack.speedMps[from + i] = rows.speedMps[i];
      stack.noiseVar[from + i] = rows.noiseSdM ** 2;
    }
  };
  copy(satellite, 0, 0);
  copy(pressure, first, lagS);
  return stack;
}

/** Covariance without the part that depends on the candidate: white noise and drift, each kind its own. */
function driftCovariance(stack: Stack, satelliteRate: number): Float64Array {
  const { n, satelliteRows } = stack;
  const R = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      if (i < satelliteRows !== j < satelliteRows) continue;
      const rate = i < satelliteRows ? satelliteRate : HEIGHT.pressureDriftRate;
      const variance = (rate * HEIGHT.driftTimeS) / 2;
      const gap = Math.abs(stack.timeS[i] - stack.timeS[j]);
      R[i * n + j] = variance * Math.exp(-gap / HEIGHT.driftTimeS);
    }
    R[i * n + i] += stack.noiseVar[i];
  }
  return R;
}

/** Adds one candidate's evidences, shape by shape, to `total` from `slot` (all as logarithms). */
function weighCandidate(
  stack: Stack,
  base: Float64Array,
  touchdownS: number,
  total: Float64Array,
  slot: number,
): void {
  const { n, timeS } = stack;
  const R = base.slice();
  addWander(R, timeS, touchdownS);
  const halfLogDet = choleskyInPlace(R, n);
  if (Number.isNaN(halfLogDet)) return;
  const columns = new WhitenedColumns(R, n);
  const since = (i: number): number => timeS[i] - touchdownS;
  const isSatellite = (i: number): boolean => i < stack.satelliteRows;
  const data = columns.whiten((i) => stack.heightM[i]);
  const drop = columns.whiten((i) => settleTerm(since(i)));
  const levels: Float64Array[] = [];
  const priorMean: number[] = [];
  const priorSd: number[] = [];
  const add = (column: Float64Array, mean: number, sd: number): void => {
    levels.push(column);
    priorMean.push(mean);
    priorSd.push(sd);
  };
  if (stack.satelliteRows > 0)
    add(
      columns.whiten((i) => (isSatellite(i) ? 1 : 0)),
      0,
      Infinity,
    );
  add(drop, HEIGHT.dropM, HEIGHT.dropSdM);
  if (stack.hasPressure) {
    const share = (valueAt: (i: number) => number): Float64Array =>
      columns.whiten((i) => (isSatellite(i) ? 0 : valueAt(i)));
    const terms = [
      share(() => 1),
      share((i) => -(stack.speedMps[i] ** 2) / (2 * GRAVITY_MPS2)),
      share((i) => -stack.speedMps[i] / GRAVITY_MPS2),
    ];
    terms.forEach((column, k) => {
      add(column, HEIGHT.pressurePriorMean[k], HEIGHT.pressurePriorSd[k]);
    });
  }
  const terms = priorMean.length + 2;
  const gram = new Float64Array((terms + 1) * (terms + 1));
  const solvers = new Map<number, SmallSolver>();
  for (const { meanMps, sdMps } of HEIGHT.contactSinks) {
    const means = [...priorMean, meanMps, HEIGHT.steadySinkMps];
    const sds = [...priorSd, sdMps, HEIGHT.steadySinkSdMps];
    solvers.set(meanMps, new SmallSolver(terms, means, sds, halfLogDet));
  }
  const before = columns.whiten((i) => Math.max(0, -since(i)));
  let last: HeightShape | null = null;
  for (let k = 0; k < HEIGHT_SHAPES.length; k++) {
    const shape = HEIGHT_SHAPES[k];
    const { holdOffS, roundOutS } = shape;
    if (last?.holdOffS !== holdOffS || last.roundOutS !== roundOutS) {
      const steady = columns.whiten((i) => steadySinkTerm(since(i), holdOffS, roundOutS));
      // Height by sink at contact: all of the time before touchdown less the steady part.
      const contact = before.map((value, i) => value - steady[i]);
      fillGram(gram, [...levels, contact, steady], data, terms);
      last = shape;
    }
    const solver = solvers.get(shape.sinkMps);
    if (!solver) throw new Error('a shape has a sink without a solver');
    solver.solve(gram);
    total[slot + k] = logAdd(total[slot + k], solver.logEvidence);
  }
}

/** Antenna above its rest on the ground by a unit drop: all of it in the air, fading after contact. */
function settleTerm(s: number): number {
  return s < 0 ? 1 : Math.exp(-s / HEIGHT.settleS);
}

/** Height by a unit sink before the round-out, at s seconds from touchdown. */
function steadySinkTerm(s: number, holdOffS: number, roundOutS: number): number {
  const u = -s - holdOffS;
  if (u <= 0) return 0;
  return u < roundOutS ? (u * u) / (2 * roundOutS) : u - roundOutS / 2;
}

/** Adds the covariance of the height that wandering vertical speed makes before touchdown. */
function addWander(R: Float64Array, timeS: Float64Array, touchdownS: number): void {
  const n = timeS.length;
  for (let i = 0; i < n; i++) {
    const before = touchdownS - timeS[i];
    if (before <= 0) continue;
    for (let j = 0; j <= i; j++) {
      const earlier = touchdownS - timeS[j];
      if (earlier > 0) R[i * n + j] += wanderAt(before, earlier);
    }
  }
}

const WANDER_STEP_S = 0.25;
const WANDER_SLOTS = 200;
let wanderTable: Float64Array | null = null;

/** Covariance at two moments, both given as seconds before touchdown, by bilinear look-up. */
function wanderAt(beforeS: number, otherS: number): number {
  wanderTable ??= makeWanderTable();
  const a = Math.min(beforeS / WANDER_STEP_S, WANDER_SLOTS - 1.001);
  const b = Math.min(otherS / WANDER_STEP_S, WANDER_SLOTS - 1.001);
  const i = Math.floor(a);
  const j = Math.floor(b);
  const fa = a - i;
  const fb = b - j;
  const t = wanderTable;
  const row = i * WANDER_SLOTS + j;
  const next = row + WANDER_SLOTS;
  return (
    (1 - fa) * ((1 - fb) * t[row] + fb * t[row + 1]) + fa * ((1 - fb) * t[next] + fb * t[next + 1])
  );
}

/** Integrates the vertical speed's covariance from touchdown backwards, on a square of half-steps. */
function makeWanderTable(): Float64Array {
  const table = new Float64Array(WANDER_SLOTS * WANDER_SLOTS);
  const amplitude = (k: number): number => {
    const grown = Math.min(1, ((k + 0.5) * WANDER_STEP_S) / HEIGHT.wanderGrowsOverS);
    return HEIGHT.wanderShareAtContact + (1 - HEIGHT.wanderShareAtContact) * grown;
  };
  for (let i = 1; i < WANDER_SLOTS; i++) {
    for (let j = 1; j < WANDER_SLOTS; j++) {
      const correlation = Math.exp((-Math.abs(i - j) * WANDER_STEP_S) / HEIGHT.wanderTimeS);
      const cell =
        (HEIGHT.wanderSdMps * WANDER_STEP_S) ** 2 *
        amplitude(i - 1) *
        amplitude(j - 1) *
        correlation;
      table[i * WANDER_SLOTS + j] =
        cell +
        table[(i - 1) * WANDER_SLOTS + j] +
        table[i * WANDER_SLOTS + j - 1] -
        table[(i - 1) * WANDER_SLOTS + j - 1];
    }
  }
  return table;
}
