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
import {
  dot,
  fillGram,
  fillGramTerm,
  SmallSolver,
  WhitenedColumns,
} from '../numeric/linear-evidence.ts';
import { positiveCube, positiveSquare } from '../numeric/positive-powers.ts';
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

/** Columns of the model: position, speed, approach, float, ground, brake; and the data themselves. */
const TERMS = 6;

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
  const columns = new WhitenedColumns(factor, n);
  const strayed = Array.from({ length: draws }, (_, k) =>
    columns.whiten((i) => stray[i * draws + k]),
  );
  const one = columns.whiten(() => 1);
  const clock = columns.whiten((i) => timeS[i] - timeS[0]);
  const data = columns.whiten((i) => alongM[i]);
  const linear = new Float64Array(n);
  const approach = new Float64Array(n);
  const gram = new Float64Array((TERMS + 1) * (TERMS + 1));
  const solver = new SmallSolver(TERMS, ALONG.priorMean, ALONG.priorSd, halfLogDet, TERMS - 1);
  const scratch = (): Float64Array => new Float64Array(n);
  const [ground, before, floating] = [scratch(), scratch(), scratch()];
  const brake = brakes.map(() => ({
    column: scratch(),
    row: new Float64Array(TERMS),
    withData: 0,
  }));
  const position = new Reading(0, strayed);
  const speed = new Reading(1, strayed);
  let slot = 0;
  for (const touchdownS of candidateS) {
    const offset = touchdownS - timeS[0];
    for (let i = 0; i < n; i++) linear[i] = clock[i] - offset * one[i];
    columns.whiten((i) => positiveSquare(timeS[i] - touchdownS) / 2, ground);
    columns.whiten((i) => positiveSquare(touchdownS - timeS[i]) / 2, before);
    brake.forEach((each, b) => {
      const { column, row } = each;
      const startS = touchdownS + brakes[b];
      columns.whiten((i) => rampTwice(timeS[i] - startS, ALONG.brakeRampS), column);
      row[0] = dot(one, column);
      row[1] = dot(linear, column);
      row[GROUND] = dot(ground, column);
      row[BRAKE] = dot(column, column);
      each.withData = dot(data, column);
    });
    wander.displacement(touchdownS, position.shares);
    wander.velocity(touchdownS, speed.shares);
    for (const reading of [position, speed]) reading.look(data, [one, linear], ground, brake);
    for (const startS of floats) {
      columns.whiten((i) => floatTerm(timeS[i] - touchdownS, startS), floating);
      // The approach's own acceleration fades out as the float comes in.
      for (let i = 0; i < n; i++) approach[i] = before[i] - floating[i];
      const shared = [one, linear, approach, floating, ground];
      if (startS === floats[0]) fillGram(gram, shared, data, TERMS);
      else
        for (const changed of [APPROACH, FLOAT]) fillGramTerm(gram, shared, changed, data, TERMS);
      for (const reading of [position, speed]) reading.lookAtFloat(approach, floating);
      for (let b = 0; b < brake.length; b++) {
        const { column, row, withData } = brake[b];
        row[APPROACH] = dot(approach, column);
        row[FLOAT] = dot(floating, column);
        gram.set(row, BRAKE_ROW);
        gram[DATA_ROW + BRAKE] = withData;
        solver.solve(gram, b > 0);
        out.logEvidence[slot] = solver.logEvidence;
        position.read(solver, b);
        out.positionM[slot] = position.value;
        out.positionVar[slot] = position.variance;
        speed.read(solver, b);
        out.speedMps[slot] = speed.value;
        out.speedVar[slot] = speed.variance;
        slot++;
      }
    }
  }
  return out;
}

/** Places of columns in the model, and of the rows of the brake and of the data among the inner products. */
const APPROACH = 2;
const FLOAT = 3;
const GROUND = 4;
const BRAKE = 5;
const BRAKE_ROW = BRAKE * (TERMS + 1);
const DATA_ROW = TERMS * (TERMS + 1);

/**
 * Position or speed at one candidate, as the fixes around it tell: the model's own, and how far the
 * motion had strayed from the model by then. Without the second a candidate's place would be off by
 * all that the wander has done since the data began.
 */
class Reading {
  /** Shares of the wander's draws in what is read. */
  readonly shares: Float64Array;
  value = NaN;
  variance = NaN;
  readonly #term: number;
  readonly #strayed: readonly Float64Array[];
  /** Whitened covariance of what is read with the data; and what of its own variance they leave. */
  readonly #column: Float64Array;
  #left = NaN;
  #withData = NaN;
  /** Weight of each term of the model in what is read; the brake's for each brake. */
  readonly #terms = new Float64Array(TERMS);
  readonly #brake: Float64Array;

  /** @param term the model's own position or speed at the candidate; @param strayed whitened columns of the draws. */
  constructor(term: number, strayed: readonly Float64Array[]) {
    this.shares = new Float64Array(strayed.length);
    this.#term = term;
    this.#strayed = strayed;
    this.#column = new Float64Array(strayed[0].length);
    this.#brake = new Float64Array(ALONG.brakeDelaysS.length);
  }

  /** Turns to the candidate that `shares` belong to. */
  look(
    data: Float64Array,
    [one, linear]: readonly Float64Array[],
    ground: Float64Array,
    brake: readonly { readonly column: Float64Array }[],
  ): void {
    const column = this.#column.fill(0);
    let square = 0;
    this.#strayed.forEach((draw, k) => {
      const share = this.shares[k];
      if (share === 0) return;
      square += share * share;
      for (let i = 0; i < column.length; i++) column[i] += share * draw[i];
    });
    this.#left = square - dot(column, column);
    this.#withData = dot(column, data);
    const terms = this.#terms;
    terms[0] = -dot(column, one);
    terms[1] = -dot(column, linear);
    terms[GROUND] = -dot(column, ground);
    terms[this.#term] += 1;
    brake.forEach((each, b) => {
      this.#brake[b] = -dot(column, each.column);
    });
  }

  /** Turns to one start of the float. */
  lookAtFloat(approach: Float64Array, floating: Float64Array): void {
    this.#terms[APPROACH] = -dot(this.#column, approach);
    this.#terms[FLOAT] = -dot(this.#column, floating);
  }

  /** Reads the model last solved, that of one brake. */
  read(solver: SmallSolver, brake: number): void {
    const terms = this.#terms;
    terms[BRAKE] = this.#brake[brake];
    this.value = this.#withData + dot(terms, solver.mean);
    this.variance = this.#left + solver.varianceOf(terms);
  }
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

/** Displacement by a deceleration that grows in from `startS` before touchdown; nothing after touchdown. */
function floatTerm(s: number, startS: number): number {
  if (s >= 0) return 0;
  const ramp = ALONG.floatRampS;
  const slope = rampOnce(startS, ramp);
  return rampTwice(s + startS, ramp) - rampTwice(startS, ramp) - slope * s;
}

/** Integral of a ramp from 0 to 1 over `rampS`, at u after its start. */
function rampOnce(u: number, rampS: number): number {
  return (positiveSquare(u) - positiveSquare(u - rampS)) / (2 * rampS);
}

/** Twice-integrated ramp. */
function rampTwice(u: number, rampS: number): number {
  return (positiveCube(u) - positiveCube(u - rampS)) / (6 * rampS);
}
