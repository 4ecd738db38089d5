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

/**
 * The columns of one candidate: shared terms, the data, the time before touchdown, one steady sink a
 * geometry. The last ones are zero on the ground and begin in the air one after the other.
 */
class CandidateModel {
  readonly #stack: HeightStack;
  readonly #u: Float64Array;
  readonly #raw: Float64Array;
  readonly #count: number;
  readonly #shared: number;
  /** Of every row, how many columns have begun. */
  readonly #begun: Int32Array;
  readonly #priorMean: readonly number[];
  readonly #priorSd: readonly number[];

  constructor(stack: HeightStack, touchdownS: number) {
    this.#stack = stack;
    const { n, kind, speedMps, hasSatellite, hasPressure } = stack;
    const u = stack.timeS.map((t) => touchdownS - t);
    this.#u = u;
    const [level, dynamic, wind] = HEIGHT.pressurePriorSd;
    const pressureTerms = hasPressure ? 3 : 0;
    this.#priorMean = [
      ...(hasSatellite ? [0] : []),
      HEIGHT.dropM,
      ...[0, 0, 0].slice(0, pressureTerms),
    ];
    this.#priorSd = [
      ...(hasSatellite ? [Infinity] : []),
      HEIGHT.dropSdM,
      ...[level, dynamic, wind].slice(0, pressureTerms),
    ];
    const shared = this.#priorMean.length;
    const count = shared + 2 + GEOMETRIES.length;
    this.#shared = shared;
    this.#count = count;
    const raw = new Float64Array(n * count);
    this.#raw = raw;
    this.#begun = new Int32Array(n);
    for (let i = 0; i < n; i++) {
      let at = i * count;
      if (hasSatellite) raw[at++] = 1 - kind[i];
      raw[at++] = settleTerm(u[i]);
      if (hasPressure) {
        raw[at++] = kind[i];
        raw[at++] = (-kind[i] * speedMps[i] ** 2) / (2 * GRAVITY_MPS2);
        raw[at++] = (-kind[i] * speedMps[i]) / GRAVITY_MPS2;
      }
      raw[at++] = stack.heightM[i];
      raw[at++] = Math.max(0, u[i]);
      let geometries = 0;
      while (geometries < GEOMETRIES.length && u[i] > GEOMETRIES[geometries].shape.holdOffS) {
        raw[at++] = steadySinkTerm(u[i], GEOMETRIES[geometries].shape);
        geometries++;
      }
      this.#begun[i] = shared + (u[i] > 0 ? 2 : 1) + geometries;
    }
  }

  /** Adds the evidence of every shape under one rate of satellite drift (m2/s), as logarithms. */
  addEvidence(rate: number, total: Float64Array, slot: number): void {
    const filter = new HeightFilter(this.#u, this.#stack.kind, this.#stack.noiseVar, errors(rate));
    const columns = this.#raw.slice();
    filter.whiten(columns, this.#count, this.#begun);
    const products = this.#innerProducts(columns);
    const shared = this.#shared;
    const leading = shared + 2;
    const terms = shared + 2;
    const side = terms + 1;
    const gram = new Float64Array(side * side);
    for (let a = 0; a < shared; a++) {
      for (let b = 0; b <= a; b++) gram[a * side + b] = products[a * leading + b];
      gram[terms * side + a] = products[shared * leading + a];
    }
    gram[terms * side + terms] = products[shared * leading + shared];
    const before = (shared + 1) * leading;
    const solvers = HEIGHT.contactSinks.map(
      ({ meanMps, sdMps }) =>
        new SmallSolver(
          terms,
          [...this.#priorMean, meanMps, HEIGHT.steadySinkMps],
          [...this.#priorSd, sdMps, HEIGHT.steadySinkSdMps],
          filter.halfLogDet,
        ),
    );
    const kept = solvers.map(() => 0);
    GEOMETRIES.forEach(({ from, to }, g) => {
      const steady = (leading + g) * leading;
      // The height by the sink at contact is the time before touchdown less the steady part.
      for (let a = 0; a < shared; a++) {
        const product = products[steady + a];
        gram[shared * side + a] = products[before + a] - product;
        gram[(shared + 1) * side + a] = product;
      }
      const withData = products[steady + shared];
      gram[terms * side + shared] = products[before + shared] - withData;
      gram[terms * side + shared + 1] = withData;
      const cross = products[steady + shared + 1];
      const square = products[(leading + GEOMETRIES.length) * leading + g];
      gram[shared * side + shared] = products[before + shared + 1] - 2 * cross + square;
      gram[(shared + 1) * side + shared] = cross - square;
      gram[(shared + 1) * side + shared + 1] = square;
      for (let k = from; k < to; k++) {
        const sink = SINK_OF_SHAPE[k];
        solvers[sink].weigh(gram, kept[sink]);
        kept[sink] = shared;
        total[slot + k] = logAdd(total[slot + k], solvers[sink].logEvidence);
      }
    });
  }

  /**
   * Inner products of every column with the leading ones (shared terms, data, time before), a row of
   * them a column; behind them the squares of the steady sinks.
   */
  #innerProducts(columns: Float64Array): Float64Array {
    const count = this.#count;
    const leading = this.#shared + 2;
    const squares = count * leading;
    const out = new Float64Array(squares + GEOMETRIES.length);
    for (let i = 0; i < this.#begun.length; i++) {
      const row = i * count;
      const begun = this.#begun[i];
      const first = Math.min(begun, leading);
      for (let a = 0; a < begun; a++) {
        const value = columns[row + a];
        const to = a * leading;
        const last = a < first ? a + 1 : first;
        for (let b = 0; b < last; b++) out[to + b] += value * columns[row + b];
        if (a >= leading) out[squares + a - leading] += value * value;
      }
    }
    return out;
  }
}

/** Place of each shape's sink in `HEIGHT.contactSinks`. */
const SINK_OF_SHAPE = HEIGHT_SHAPES.map(({ sinkMps }) =>
  HEIGHT.contactSinks.findIndex(({ meanMps }) => meanMps === sinkMps),
);

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
