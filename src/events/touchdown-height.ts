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
import { SmallSolver } from '../numeric/linear-evidence.ts';
import { logAdd } from '../numeric/posterior.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { HeightFilter, type HeightErrors } from './height-filter.ts';
import { stackRows, type HeightRows, type HeightStack } from './height-stack.ts';
import { HEIGHT_SHAPES, settleTerm, steadySinkTerm, type HeightShape } from './height-shapes.ts';
import { HEIGHT } from './tuning.ts';

/** Log evidence in columns of candidates x shapes (HEIGHT_SHAPES). */
export interface HeightEvidence {
  readonly shapeCount: number;
  readonly logEvidence: Float64Array;
}

/**
 * Weighs every candidate.
 *
 * @param satellite rows of satellite heights, or null; @param pressure rows of pressure heights, or null.
 * @param look a rough one takes the middle drift and lag, a close one averages over all.
 * @returns null where neither is given.
 */
export function weighHeights(
  satellite: HeightRows | null,
  pressure: HeightRows | null,
  candidateS: Float64Array,
  look: 'rough' | 'close',
): HeightEvidence | null {
  if (!satellite && !pressure) return null;
  const size = candidateS.length * HEIGHT_SHAPES.length;
  const total = new Float64Array(size).fill(-Infinity);
  const middle = (values: readonly number[]): readonly number[] =>
    look === 'close' ? values : [values[values.length >> 1]];
  const rates = satellite ? middle(HEIGHT.driftRates) : [HEIGHT.pressureDriftRate];
  for (const lagS of pressure ? middle(HEIGHT.pressureLagsS) : [0]) {
    const stack = stackRows(satellite, pressure, lagS, 'latest first');
    for (let c = 0; c < candidateS.length; c++) {
      const model = new CandidateModel(stack, candidateS[c]);
      for (const rate of rates) {
        model.addEvidence(rate, total, c * HEIGHT_SHAPES.length);
      }
    }
  }
  return { shapeCount: HEIGHT_SHAPES.length, logEvidence: total };
}

/** Shapes of one geometry differ in the sink's prior alone, so their columns are shared. */
const GEOMETRIES: readonly { shape: HeightShape; from: number; to: number }[] = findGeometries();

function findGeometries(): { shape: HeightShape; from: number; to: number }[] {
  const found: { shape: HeightShape; from: number; to: number }[] = [];
  HEIGHT_SHAPES.forEach((shape, k) => {
    const last = found.at(-1);
    const same =
      last?.shape.holdOffS === shape.holdOffS && last.shape.roundOutS === shape.roundOutS;
    if (same) last.to = k + 1;
    else found.push({ shape, from: k, to: k + 1 });
  });
  return found;
}

/** The columns of one candidate: shared terms, the data, the time before touchdown, one steady sink a geometry. */
class CandidateModel {
  readonly #stack: HeightStack;
  readonly #u: Float64Array;
  readonly #raw: Float64Array;
  readonly #count: number;
  readonly #shared: number;
  readonly #priorMean: readonly number[];
  readonly #priorSd: readonly number[];

  constructor(stack: HeightStack, touchdownS: number) {
    this.#stack = stack;
    const { n, kind } = stack;
    const u = stack.timeS.map((t) => touchdownS - t);
    this.#u = u;
    const columns: ((i: number) => number)[] = [];
    const priorMean: number[] = [];
    const priorSd: number[] = [];
    const add = (mean: number, sd: number, valueAt: (i: number) => number): void => {
      columns.push(valueAt);
      priorMean.push(mean);
      priorSd.push(sd);
    };
    if (stack.hasSatellite) add(0, Infinity, (i) => 1 - kind[i]);
    add(HEIGHT.dropM, HEIGHT.dropSdM, (i) => settleTerm(u[i]));
    if (stack.hasPressure) {
      const [level, dynamic, wind] = HEIGHT.pressurePriorSd;
      add(0, level, (i) => kind[i]);
      add(0, dynamic, (i) => (-kind[i] * stack.speedMps[i] ** 2) / (2 * GRAVITY_MPS2));
      add(0, wind, (i) => (-kind[i] * stack.speedMps[i]) / GRAVITY_MPS2);
    }
    this.#shared = columns.length;
    this.#priorMean = priorMean;
    this.#priorSd = priorSd;
    columns.push((i) => stack.heightM[i]);
    columns.push((i) => Math.max(0, u[i]));
    for (const { shape } of GEOMETRIES) columns.push((i) => steadySinkTerm(u[i], shape));
    const count = columns.length;
    this.#count = count;
    this.#raw = new Float64Array(n * count);
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < count; k++) this.#raw[i * count + k] = columns[k](i);
    }
  }

  /** Adds the evidence of every shape under one rate of satellite drift (m2/s), as logarithms. */
  addEvidence(rate: number, total: Float64Array, slot: number): void {
    const filter = new HeightFilter(this.#u, this.#stack.kind, this.#stack.noiseVar, errors(rate));
    const columns = this.#raw.slice();
    filter.whiten(columns, this.#count);
    const shared = this.#shared;
    const data = shared;
    const before = shared + 1;
    const dot = (a: number, b: number): number => this.#dot(columns, a, b);
    const terms = shared + 2;
    const side = terms + 1;
    const gram = new Float64Array(side * side);
    for (let a = 0; a < shared; a++) {
      for (let b = 0; b <= a; b++) gram[a * side + b] = dot(a, b);
      gram[terms * side + a] = dot(a, data);
    }
    gram[terms * side + terms] = dot(data, data);
    const beforeShared = Float64Array.from({ length: shared + 1 }, (_, a) => dot(before, a));
    const beforeSquare = dot(before, before);
    const solvers = HEIGHT.contactSinks.map(
      ({ meanMps, sdMps }) =>
        new SmallSolver(
          terms,
          [...this.#priorMean, meanMps, HEIGHT.steadySinkMps],
          [...this.#priorSd, sdMps, HEIGHT.steadySinkSdMps],
          filter.halfLogDet,
        ),
    );
    GEOMETRIES.forEach(({ from, to }, g) => {
      const steady = before + 1 + g;
      // The height by the sink at contact is the time before touchdown less the steady part.
      for (let a = 0; a <= shared; a++) {
        const product = dot(steady, a);
        const row = a === shared ? terms : shared;
        gram[row * side + (a === shared ? shared : a)] = beforeShared[a] - product;
        gram[(a === shared ? terms : shared + 1) * side + (a === shared ? shared + 1 : a)] =
          product;
      }
      const cross = dot(steady, before);
      const square = dot(steady, steady);
      gram[shared * side + shared] = beforeSquare - 2 * cross + square;
      gram[(shared + 1) * side + shared] = cross - square;
      gram[(shared + 1) * side + shared + 1] = square;
      for (let k = from; k < to; k++) {
        const sink = HEIGHT.contactSinks.findIndex(
          ({ meanMps }) => meanMps === HEIGHT_SHAPES[k].sinkMps,
        );
        solvers[sink].solve(gram);
        total[slot + k] = logAdd(total[slot + k], solvers[sink].logEvidence);
      }
    });
  }

  #dot(columns: Float64Array, a: number, b: number): number {
    const count = this.#count;
    let sum = 0;
    for (let at = 0; at < columns.length; at += count) sum += columns[at + a] * columns[at + b];
    return sum;
  }
}

/** Errors of both kinds of height; the satellite's drift by its rate, m2/s. */
function errors(rate: number): HeightErrors {
  return {
    driftVar: [rate, HEIGHT.pressureDriftRate].map((each) => (each * HEIGHT.driftTimeS) / 2),
    driftTimeS: HEIGHT.driftTimeS,
    wanderSdMps: HEIGHT.wanderSdMps,
    wanderTimeS: HEIGHT.wanderTimeS,
    wanderShare: (u) =>
      HEIGHT.wanderShareAtContact +
      (1 - HEIGHT.wanderShareAtContact) * Math.min(1, u / HEIGHT.wanderGrowsOverS),
  };
}
