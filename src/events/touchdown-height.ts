/**
 * How well does each candidate touchdown explain the heights over the strip?
 *
 * In: heights above the strip's surface (any datum: the level is free) with their times and, where
 * recorded, pressure heights with the ground speed. For each candidate and each shape of round-out
 * a linear model: level, settling of the antenna after contact, sink before it. The drift of the
 * receiver is averaged over; a pressure height carries its static error as two more terms. Where only
 * the ends of the strip are known, the ground between may be as even as entered or bow off that line.
 *
 * Units: seconds, metres, m/s. Source: Bayesian linear regression, standard; the priors' reasons
 * stand in tuning.ts and, of delays, in height-lags.ts.
 */
import { EliminatedTerms } from '../numeric/eliminated-terms.ts';
import { OptionalTerm } from '../numeric/optional-term.ts';
import { LogSums } from '../numeric/log-sums.ts';
import { logAdd } from '../numeric/posterior.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import type { Heights } from './arrival-data.ts';
import { ContactColumns } from './contact-columns.ts';
import { filterUnder, type HeightFilter } from './height-filter.ts';
import { averageOverLate, withLateCandidates } from './height-lags.ts';
import { stackRows, type HeightStack } from './height-stack.ts';
import { HEIGHT_SHAPES, settleTerm, steadySinkTerm, type HeightShape } from './height-shapes.ts';
import { HEIGHT } from './tuning.ts';
import { WanderSteps } from './wander-steps.ts';

/** Log evidence in columns of candidates x shapes (HEIGHT_SHAPES). */
export interface HeightEvidence {
  readonly shapeCount: number;
  readonly logEvidence: Float64Array;
}

/**
 * Weighs every candidate.
 *
 * @param heights null where the log has none. @param candidateS times in even steps, seconds.
 * @param look a rough one takes the middle drift and the first delay, a close one averages over all.
 * @returns null without heights.
 */
export function weighHeights(
  heights: Heights | null,
  candidateS: Float64Array,
  look: 'rough' | 'close',
): HeightEvidence | null {
  if (!heights) return null;
  const { satellite, pressure, lags } = heights;
  const shapeCount = HEIGHT_SHAPES.length;
  const stepS = candidateS[1] - candidateS[0];
  const used = look === 'close' ? lags : lags.slice(0, 1);
  const wideS = withLateCandidates(candidateS, used);
  const driftRates = satellite ? HEIGHT.driftRates : [HEIGHT.pressureDriftRate];
  const rates = look === 'close' ? driftRates : [driftRates[driftRates.length >> 1]];
  const logEvidence = new Float64Array(candidateS.length * shapeCount).fill(-Infinity);
  for (const { pressureBehindS, weight, late } of used) {
    const onTime = new Float64Array(wideS.length * shapeCount);
    const stack = stackRows(satellite, pressure, pressureBehindS, 'latest first');
    const model = new CandidateModel(stack);
    const filters = rates.map((rate) => filterUnder(rate, stack, HEIGHT.wanderSdMps));
    const sums = new LogSums(shapeCount);
    for (let c = 0; c < wideS.length; c++) {
      model.setTouchdown(wideS[c]);
      sums.clear();
      filters.forEach((filter, f) => {
        // Ground that bows is weighed under the quietest drift alone, standing for all: a restless one follows the bow itself.
        const bowWeight = f === 0 ? filters.length : 0;
        model.addEvidence(filter, sums, bowWeight);
      });
      for (let k = 0; k < shapeCount; k++) onTime[c * shapeCount + k] = sums.logOf(k);
    }
    const averaged = averageOverLate(onTime, shapeCount, candidateS.length, stepS, late);
    averaged.forEach((value, k) => {
      logEvidence[k] = logAdd(logEvidence[k], Math.log(weight) + value);
    });
  }
  return { shapeCount, logEvidence };
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
 * the time before touchdown, the bow of the ground if it may have one; behind them one steady sink a
 * geometry.
 */
class CandidateModel {
  readonly #stack: HeightStack;
  readonly #u: Float64Array;
  readonly #shared: number;
  /** Column of the antenna's settling; before it the level of the satellite heights, behind it what pressure heights need, and an unknown slope. */
  readonly #settling: number;
  readonly #columns: ContactColumns;
  readonly #steps: WanderSteps;
  readonly #terms: EliminatedTerms;
  /** Products of the time before touchdown and of one steady sink with the shared terms, solved. */
  readonly #before: Float64Array;
  readonly #steady: Float64Array;
  /** The bow of the ground; null where it has none. */
  readonly #bow: OptionalTerm | null;

  constructor(stack: HeightStack) {
    const pressure = stack.hasPressure ? HEIGHT.pressurePriorSd : [];
    const level = stack.hasSatellite ? [Infinity] : [];
    const tilt = stack.tiltedM ? [HEIGHT.slopeSd] : [];
    const behind = [...pressure, ...tilt];
    const priorSd = [...level, HEIGHT.dropSdM, ...behind];
    const priorMean = [...level.map(() => 0), HEIGHT.dropM, ...behind.map(() => 0)];
    const shared = priorSd.length;
    this.#stack = stack;
    this.#u = new Float64Array(stack.n);
    this.#shared = shared;
    this.#settling = level.length;
    this.#columns = new ContactColumns(stack.n, shared + (stack.bow ? 3 : 2), GEOMETRIES.length);
    this.#steps = new WanderSteps(stack.timeS, WANDER);
    this.#terms = new EliminatedTerms(priorMean, priorSd);
    this.#before = new Float64Array(shared);
    this.#steady = new Float64Array(shared);
    this.#bow = stack.bow && new OptionalTerm(shared, HEIGHT.bowSdM, HEIGHT.bowedShare);
    this.#setFixed();
  }

  /** Sets the columns that no candidate changes. */
  #setFixed(): void {
    const { n, kind, speedMps, heightM, tiltedM, bow, hasSatellite, hasPressure } = this.#stack;
    const columns = this.#columns;
    for (let i = 0; i < n; i++) {
      if (hasSatellite) columns.setLead(i, 0, 1 - kind[i]);
      if (hasPressure) {
        const level = this.#settling + 1;
        columns.setLead(i, level, kind[i]);
        columns.setLead(i, level + 1, (-kind[i] * speedMps[i] ** 2) / (2 * GRAVITY_MPS2));
        columns.setLead(i, level + 2, (-kind[i] * speedMps[i]) / GRAVITY_MPS2);
      }
      if (tiltedM) columns.setLead(i, this.#shared - 1, tiltedM[i]);
      columns.setLead(i, this.#shared, heightM[i]);
      if (bow) columns.setLead(i, this.#shared + 2, bow[i]);
    }
  }

  /** Sets the others for one candidate. */
  setTouchdown(touchdownS: number): void {
    const columns = this.#columns;
    const before = this.#shared + 1;
    for (let i = 0; i < this.#stack.n; i++) {
      const u = touchdownS - this.#stack.timeS[i];
      this.#u[i] = u;
      columns.setLead(i, this.#settling, settleTerm(u));
      columns.setLead(i, before, Math.max(0, u));
      let begun = 0;
      // Geometries come in the order of their hold-offs.
      while (begun < GEOMETRIES.length && u > GEOMETRIES[begun].shape.holdOffS) {
        columns.setTail(i, begun, steadySinkTerm(u, GEOMETRIES[begun].shape));
        begun++;
      }
      for (let g = begun; g < GEOMETRIES.length; g++) columns.setTail(i, g, 0);
      columns.setBegun(i, begun);
    }
    this.#steps.setContact(this.#u);
  }

  /**
   * Adds the evidence of every shape under the drifts of one filter to the shape's sum.
   *
   * @param bowWeight for how many filters the evidence over ground that bows counts here; 0: not at all.
   */
  addEvidence(filter: HeightFilter, sums: LogSums, bowWeight: number): void {
    filter.prepare(this.#steps);
    const columns = this.#columns;
    columns.whiten(filter);
    const terms = this.#terms;
    const shared = this.#shared;
    const data = shared;
    const before = shared + 1;
    const leads = (x: number, y: number): number => columns.leads(x, y);
    terms.eliminate(leads, (x) => columns.leads(x, data), columns.leads(data, data));
    for (let x = 0; x < shared; x++) this.#before[x] = columns.leads(before, x);
    const beforeData = terms.reduce(this.#before, columns.leads(before, data));
    const beforeSquare = terms.left(columns.leads(before, before), this.#before, this.#before);
    const ground = bowWeight > 0 ? this.#bow : null;
    const bow = shared + 2;
    ground?.set(terms, leads, bow, data);
    const bowBefore = ground?.withColumn(terms, columns.leads(before, bow), this.#before) ?? 0;
    const common = terms.halfLogDet + filter.halfLogDet;
    const bowCommon = common - (ground?.logOdds ?? 0) - Math.log(bowWeight);
    for (let g = 0; g < GEOMETRIES.length; g++) {
      for (let x = 0; x < shared; x++) this.#steady[x] = columns.tailLead(g, x);
      const steadyData = terms.reduce(this.#steady, columns.tailLead(g, data));
      const steadySquare = terms.left(columns.tailSquare(g), this.#steady, this.#steady);
      const cross = terms.left(columns.tailLead(g, before), this.#steady, this.#before);
      // The height by the sink at contact is the time before touchdown less the steady part.
      const left: LeftProducts = {
        data: terms.dataSquare,
        contactData: beforeData - steadyData,
        steadyData,
        contact: beforeSquare - 2 * cross + steadySquare,
        contactSteady: cross - steadySquare,
        steady: steadySquare,
      };
      const bowSteady = ground?.withColumn(terms, columns.tailLead(g, bow), this.#steady) ?? 0;
      const overBow = ground && lessBow(left, ground, bowBefore - bowSteady, bowSteady);
      const { from, to } = GEOMETRIES[g];
      for (let k = from; k < to; k++) {
        addSinks(left, HEIGHT_SHAPES[k], -common, sums, k);
        if (overBow) addSinks(overBow, HEIGHT_SHAPES[k], -bowCommon, sums, k);
      }
    }
  }
}

/** Inner products that the shared terms leave of the data, of the height by the sink at contact and of that by the steady sink. */
interface LeftProducts {
  readonly data: number;
  readonly contactData: number;
  readonly steadyData: number;
  readonly contact: number;
  readonly contactSteady: number;
  readonly steady: number;
}

/** The products as a bow of the ground leaves them, given its own with the heights by both sinks. */
function lessBow(
  left: LeftProducts,
  bow: OptionalTerm,
  contact: number,
  steady: number,
): LeftProducts {
  return {
    data: bow.left(left.data, bow.data, bow.data),
    contactData: bow.left(left.contactData, contact, bow.data),
    steadyData: bow.left(left.steadyData, steady, bow.data),
    contact: bow.left(left.contact, contact, contact),
    contactSteady: bow.left(left.contactSteady, contact, steady),
    steady: bow.left(left.steady, steady, steady),
  };
}

/** Adds the evidence of a shape's two sinks to a sum, times exp(`common`): Bayesian linear regression of two terms, written out. */
function addSinks(
  left: LeftProducts,
  { sinkMps, sinkSdMps }: HeightShape,
  common: number,
  sums: LogSums,
  slot: number,
): void {
  const steadyMps = HEIGHT.steadySinkMps;
  const steadySd = HEIGHT.steadySinkSdMps;
  const contactFit = sinkMps * left.contact + steadyMps * left.contactSteady;
  const steadyFit = sinkMps * left.contactSteady + steadyMps * left.steady;
  const residual =
    left.data +
    sinkMps * (contactFit - 2 * left.contactData) +
    steadyMps * (steadyFit - 2 * left.steadyData);
  const contactGap = left.contactData - contactFit;
  const steadyGap = left.steadyData - steadyFit;
  const contact = left.contact + 1 / (sinkSdMps * sinkSdMps);
  const steady = left.steady + 1 / (steadySd * steadySd);
  const determinant = contact * steady - left.contactSteady * left.contactSteady;
  const explained =
    (contactGap * contactGap * steady -
      2 * contactGap * steadyGap * left.contactSteady +
      steadyGap * steadyGap * contact) /
    determinant;
  // Determinants of posterior and prior.
  const spread = determinant * (sinkSdMps * steadySd) ** 2;
  sums.add(slot, common - (residual - explained) / 2, spread);
}

const WANDER = {
  wanderSdMps: HEIGHT.wanderSdMps,
  wanderTimeS: HEIGHT.wanderTimeS,
  wanderShare: (u: number): number =>
    HEIGHT.wanderShareAtContact +
    (1 - HEIGHT.wanderShareAtContact) * Math.min(1, u / HEIGHT.wanderGrowsOverS),
};
