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
import { ContactColumns } from './contact-columns.ts';
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
    const model = new CandidateModel(stack);
    for (let c = 0; c < candidateS.length; c++) {
      model.setTouchdown(candidateS[c]);
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
 * One stack's model, set to one candidate after the other. Leading columns: shared terms, the data,
 * the time before touchdown; behind them one steady sink a geometry.
 */
class CandidateModel {
  readonly #stack: HeightStack;
  readonly #u: Float64Array;
  readonly #shared: number;
  readonly #columns: ContactColumns;
  readonly #filter: HeightFilter;
  readonly #gram: Float64Array;
  /** One for each sink at contact, and whether it has solved a model of these columns. */
  readonly #solvers: readonly SmallSolver[];
  readonly #solved: Uint8Array;

  constructor(stack: HeightStack) {
    const pressure = stack.hasPressure ? HEIGHT.pressurePriorSd : [];
    const level = stack.hasSatellite ? [Infinity] : [];
    const priorSd = [...level, HEIGHT.dropSdM, ...pressure];
    const priorMean = [...level.map(() => 0), HEIGHT.dropM, ...pressure.map(() => 0)];
    this.#stack = stack;
    this.#u = new Float64Array(stack.n);
    this.#shared = priorSd.length;
    this.#filter = new HeightFilter(stack.kind, stack.noiseVar, stack.hasPressure ? 2 : 1);
    this.#columns = new ContactColumns(stack.n, this.#shared + 2, GEOMETRIES.length);
    this.#gram = new Float64Array((this.#shared + 3) ** 2);
    this.#solvers = HEIGHT.contactSinks.map(
      ({ meanMps, sdMps }) =>
        new SmallSolver(
          this.#shared + 2,
          [...priorMean, meanMps, HEIGHT.steadySinkMps],
          [...priorSd, sdMps, HEIGHT.steadySinkSdMps],
          0,
          this.#shared,
        ),
    );
    this.#solved = new Uint8Array(this.#solvers.length);
  }

  /** Sets the columns for one candidate. */
  setTouchdown(touchdownS: number): void {
    const { n, kind, speedMps, heightM, hasSatellite, hasPressure } = this.#stack;
    const columns = this.#columns;
    for (let i = 0; i < n; i++) {
      const u = touchdownS - this.#stack.timeS[i];
      this.#u[i] = u;
      let lead = 0;
      if (hasSatellite) columns.setLead(i, lead++, 1 - kind[i]);
      columns.setLead(i, lead++, settleTerm(u));
      if (hasPressure) {
        columns.setLead(i, lead++, kind[i]);
        columns.setLead(i, lead++, (-kind[i] * speedMps[i] ** 2) / (2 * GRAVITY_MPS2));
        columns.setLead(i, lead++, (-kind[i] * speedMps[i]) / GRAVITY_MPS2);
      }
      columns.setLead(i, lead++, heightM[i]);
      columns.setLead(i, lead, Math.max(0, u));
      let begun = 0;
      // Geometries come in the order of their hold-offs.
      while (begun < GEOMETRIES.length && u > GEOMETRIES[begun].shape.holdOffS) {
        columns.setTail(i, begun, steadySinkTerm(u, GEOMETRIES[begun].shape));
        begun++;
      }
      for (let g = begun; g < GEOMETRIES.length; g++) columns.setTail(i, g, 0);
      columns.setBegun(i, begun);
    }
  }

  /** Adds the evidence of every shape under one rate of satellite drift (m2/s), as logarithms. */
  addEvidence(rate: number, total: Float64Array, slot: number): void {
    const filter = this.#filter;
    filter.prepare(this.#u, errors(rate, this.#stack));
    const columns = this.#columns;
    columns.whiten(filter);
    const gram = this.#gram;
    const shared = this.#shared;
    const data = shared;
    const before = shared + 1;
    const terms = shared + 2;
    const side = terms + 1;
    for (let a = 0; a < shared; a++) {
      for (let b = 0; b <= a; b++) gram[a * side + b] = columns.leads(a, b);
      gram[terms * side + a] = columns.leads(a, data);
    }
    gram[terms * side + terms] = columns.leads(data, data);
    this.#solved.fill(0);
    GEOMETRIES.forEach(({ from, to }, g) => {
      // The height by the sink at contact is the time before touchdown less the steady part.
      for (let a = 0; a < shared; a++) {
        const product = columns.tailLead(g, a);
        gram[shared * side + a] = columns.leads(before, a) - product;
        gram[(shared + 1) * side + a] = product;
      }
      const withData = columns.tailLead(g, data);
      gram[terms * side + shared] = columns.leads(before, data) - withData;
      gram[terms * side + shared + 1] = withData;
      const cross = columns.tailLead(g, before);
      const square = columns.tailSquare(g);
      gram[shared * side + shared] = columns.leads(before, before) - 2 * cross + square;
      gram[(shared + 1) * side + shared] = cross - square;
      gram[(shared + 1) * side + shared + 1] = square;
      for (let k = from; k < to; k++) {
        const sink = SINK_OF_SHAPE[k];
        const evidence = this.#solvers[sink].weigh(gram, this.#solved[sink] === 1);
        this.#solved[sink] = 1;
        total[slot + k] = logAdd(total[slot + k], evidence - filter.halfLogDet);
      }
    });
  }
}

/** Place of each shape's sink in `HEIGHT.contactSinks`. */
const SINK_OF_SHAPE = HEIGHT_SHAPES.map(({ sinkMps }) =>
  HEIGHT.contactSinks.findIndex(({ meanMps }) => meanMps === sinkMps),
);

/** Errors of both kinds of height; the satellite's drift by its rate, m2/s. */
function errors(rate: number, { hasPressure }: HeightStack): HeightErrors {
  return {
    driftVar: [rate, ...(hasPressure ? [HEIGHT.pressureDriftRate] : [])].map(
      (each) => (each * HEIGHT.driftTimeS) / 2,
    ),
    driftTimeS: HEIGHT.driftTimeS,
    wanderSdMps: HEIGHT.wanderSdMps,
    wanderTimeS: HEIGHT.wanderTimeS,
    wanderShare: (u) =>
      HEIGHT.wanderShareAtContact +
      (1 - HEIGHT.wanderShareAtContact) * Math.min(1, u / HEIGHT.wanderGrowsOverS),
  };
}
