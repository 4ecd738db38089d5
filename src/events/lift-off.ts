/**
 * When and where did the wheels leave the ground?
 *
 * In: heights over the strip through the run and the first seconds of flight, and candidate times.
 * Out: a weight for every candidate, by the heights alone. The usual speed of a lift-off is a prior in
 * take-off.ts. How the speed goes on after it says nothing: the acceleration falls over many seconds,
 * and a model of that pushes the answer late.
 *
 * Source: Bayesian change-point analysis; the errors of the heights in
 * height-filter.ts; numbers in tuning.ts.
 */
import { EliminatedTerms } from '../numeric/eliminated-terms.ts';
import { OptionalTerm } from '../numeric/optional-term.ts';
import { logAdd } from '../numeric/posterior.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import type { Heights } from './arrival-data.ts';
import { ContactColumns } from './contact-columns.ts';
import { filterUnder, type HeightFilter } from './height-filter.ts';
import { averageOverLate, withLateCandidates } from './height-lags.ts';
import { stackRows, type HeightStack } from './height-stack.ts';
import { TAKE_OFF } from './take-off-tuning.ts';
import { HEIGHT } from './tuning.ts';
import { WanderSteps } from './wander-steps.ts';

/**
 * Log weight of every candidate lift-off time.
 *
 * @param candidateS times in even steps, seconds, at least two.
 */
export function weighLiftOff(
  { satellite, pressure, lags }: Heights,
  candidateS: Float64Array,
): Float64Array {
  const stepS = candidateS[1] - candidateS[0];
  const wideS = withLateCandidates(candidateS, lags);
  const rates = satellite ? HEIGHT.driftRates : [HEIGHT.pressureDriftRate];
  const total = new Float64Array(candidateS.length).fill(-Infinity);
  // A rough look with the middle drift; the close one only where it weighs anything.
  for (const { pressureBehindS, weight, late } of lags) {
    const stack = stackRows(satellite, pressure, pressureBehindS, 'earliest first');
    const model = new LiftOffModel(stack);
    const filters = rates.map((rate) => filterUnder(rate, stack, TAKE_OFF.wanderSdMps));
    const weigh = (liftOffS: number, under: readonly HeightFilter[]): number => {
      model.setLiftOff(liftOffS);
      // Ground that bows is weighed under the first drift alone, standing for all.
      const each = under.map(
        (filter, k) => model.evidence(filter, k === 0 ? under.length : 0) - Math.log(under.length),
      );
      return each.reduce(logAdd);
    };
    const middle = [filters[filters.length >> 1]];
    const rough = wideS.map((liftOffS) => weigh(liftOffS, middle));
    const least = Math.max(...rough) + Math.log(TAKE_OFF.negligibleShare);
    const onTime = rough.map((value, c) => (value > least ? weigh(wideS[c], filters) : value));
    averageOverLate(onTime, 1, total.length, stepS, late).forEach((value, c) => {
      total[c] = logAdd(total[c], Math.log(weight) + value);
    });
  }
  return total;
}

/** Place of the antenna's rise among the leading columns. */
const RISE = 0;

/**
 * One stack's model, set to one candidate after the other. Leading columns: the antenna's rise, levels
 * of both kinds, the static error of a pressure height, an unknown slope, the data, the bow of the
 * ground if it may have one; behind them one climb a ramp.
 */
class LiftOffModel {
  readonly #stack: HeightStack;
  readonly #u: Float64Array;
  readonly #shared: number;
  readonly #columns: ContactColumns;
  readonly #steps: WanderSteps;
  readonly #terms: EliminatedTerms;
  /** Products of one climb with the shared terms, solved. */
  readonly #climb: Float64Array;
  /** The bow of the ground; null where it has none. */
  readonly #bow: OptionalTerm | null;

  constructor(stack: HeightStack) {
    const pressure = stack.hasPressure ? HEIGHT.pressurePriorSd : [];
    const level = stack.hasSatellite ? [Infinity] : [];
    const tilt = stack.tiltedM ? [HEIGHT.slopeSd] : [];
    const free = [...level, ...pressure, ...tilt];
    this.#stack = stack;
    this.#u = new Float64Array(stack.n);
    this.#shared = 1 + free.length;
    this.#steps = new WanderSteps(stack.timeS, WANDER);
    this.#columns = new ContactColumns(
      stack.n,
      this.#shared + (stack.bow ? 2 : 1),
      TAKE_OFF.rampsS.length,
    );
    this.#terms = new EliminatedTerms(
      [TAKE_OFF.riseM, ...free.map(() => 0)],
      [TAKE_OFF.riseSdM, ...free],
    );
    this.#climb = new Float64Array(this.#shared);
    this.#bow = stack.bow && new OptionalTerm(this.#shared, HEIGHT.bowSdM, HEIGHT.bowedShare);
    this.#setFixed();
  }

  /** Sets the columns that no candidate changes. */
  #setFixed(): void {
    const { n, kind, speedMps, heightM, tiltedM, bow, hasSatellite, hasPressure } = this.#stack;
    const columns = this.#columns;
    for (let i = 0; i < n; i++) {
      let lead = RISE + 1;
      if (hasSatellite) columns.setLead(i, lead++, 1 - kind[i]);
      if (hasPressure) {
        columns.setLead(i, lead++, kind[i]);
        columns.setLead(i, lead++, (-kind[i] * speedMps[i] ** 2) / (2 * GRAVITY_MPS2));
        columns.setLead(i, lead++, (-kind[i] * speedMps[i]) / GRAVITY_MPS2);
      }
      if (tiltedM) columns.setLead(i, lead++, tiltedM[i]);
      columns.setLead(i, lead++, heightM[i]);
      if (bow) columns.setLead(i, lead, bow[i]);
    }
  }

  /** Sets the others for one candidate. */
  setLiftOff(liftOffS: number): void {
    const columns = this.#columns;
    const ramps = TAKE_OFF.rampsS;
    for (let i = 0; i < this.#stack.n; i++) {
      const u = this.#stack.timeS[i] - liftOffS;
      this.#u[i] = u;
      columns.setLead(i, RISE, riseTerm(u));
      for (let ramp = 0; ramp < ramps.length; ramp++) {
        columns.setTail(i, ramp, climbTerm(u, ramps[ramp]));
      }
      columns.setBegun(i, u > 0 ? ramps.length : 0);
    }
    this.#steps.setContact(this.#u);
  }

  /**
   * Evidence of the candidate under the drifts of one filter, all ramps together.
   *
   * @param bowWeight for how many filters the evidence over ground that bows counts here; 0: not at all.
   */
  evidence(filter: HeightFilter, bowWeight: number): number {
    filter.prepare(this.#steps);
    const columns = this.#columns;
    columns.whiten(filter);
    const terms = this.#terms;
    const shared = this.#shared;
    const data = shared;
    const leads = (x: number, y: number): number => columns.leads(x, y);
    terms.eliminate(leads, (x) => columns.leads(x, data), columns.leads(data, data));
    const ground = bowWeight > 0 ? this.#bow : null;
    const bow = shared + 1;
    ground?.set(terms, leads, bow, data);
    const common = terms.halfLogDet + filter.halfLogDet;
    let total = -Infinity;
    for (let ramp = 0; ramp < TAKE_OFF.rampsS.length; ramp++) {
      for (let x = 0; x < shared; x++) this.#climb[x] = columns.tailLead(ramp, x);
      const withData = terms.reduce(this.#climb, columns.tailLead(ramp, data));
      const square = terms.left(columns.tailSquare(ramp), this.#climb, this.#climb);
      total = logAdd(total, climbEvidence(terms.dataSquare, withData, square) - common);
      if (ground) {
        const withBow = ground.withColumn(terms, columns.tailLead(ramp, bow), this.#climb);
        const overBow = climbEvidence(
          ground.left(terms.dataSquare, ground.data, ground.data),
          ground.left(withData, withBow, ground.data),
          ground.left(square, withBow, withBow),
        );
        total = logAdd(total, overBow + ground.logOdds + Math.log(bowWeight) - common);
      }
    }
    return total;
  }
}

/** Log evidence of a climb, given what is left of the data's square, of its product with a unit climb and of that one's square: Bayesian linear regression of one term, written out. */
function climbEvidence(dataSquare: number, withData: number, square: number): number {
  const { climbMps, climbSdMps } = TAKE_OFF;
  const gap = withData - climbMps * square;
  const residual = dataSquare - climbMps * (gap + withData);
  const precision = square + 1 / climbSdMps ** 2;
  const spread = Math.log(precision * climbSdMps ** 2) / 2;
  return -(residual - (gap * gap) / precision) / 2 - spread;
}

const WANDER = {
  wanderSdMps: TAKE_OFF.wanderSdMps,
  wanderTimeS: TAKE_OFF.wanderTimeS,
  wanderShare: (): number => 1,
};

/** Antenna rising before lift-off by a unit; all of it from lift-off on. */
function riseTerm(u: number): number {
  return u >= 0 ? 1 : Math.exp(u / TAKE_OFF.riseS);
}

/** Height by a unit climb that builds up over `rampS`. */
function climbTerm(u: number, rampS: number): number {
  if (u <= 0) return 0;
  return u < rampS ? (u * u) / (2 * rampS) : u - rampS / 2;
}
