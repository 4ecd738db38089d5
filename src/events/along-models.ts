/**
 * The models of the motion along the strip around one candidate touchdown: what each says of the
 * positions, and of place and speed at the candidate.
 *
 * A model is one start of the float and one delay of the brakes. All brakes of a float have five terms in
 * common (position, speed, approach, float, ground), which are eliminated once; a brake then is a model
 * of one term, written out. A float changes the products with its own column, and those with the
 * approach by as much: the approach's acceleration fades out as the float comes in.
 *
 * Units: seconds, metres. Source: Bayesian linear regression, standard; priors in tuning.ts.
 */
import { EliminatedTerms } from '../numeric/eliminated-terms.ts';
import { positiveCube, positiveSquare } from '../numeric/positive-powers.ts';
import { dot, type WhitenedColumns } from '../numeric/whitened-columns.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import { ALONG } from './tuning.ts';

/** Terms that all brakes have in common, in the order of their priors; the brake's own is the last. */
const POSITION = 0;
const SPEED = 1;
const APPROACH = 2;
const FLOAT = 3;
const GROUND = 4;
const SHARED = 5;
const BRAKE_MEAN = ALONG.priorMean[SHARED];
const BRAKE_VAR = ALONG.priorSd[SHARED] ** 2;

/** Set to one candidate, float and brake after the other. */
export class AlongModels {
  /** Log evidence of the model last set, without what is the same for all. */
  logEvidence = NaN;
  /** Position (m) and speed (m/s) at the candidate; their `shares` are to be set before it. */
  readonly position: Reading;
  readonly speed: Reading;
  readonly #timeS: Float64Array;
  readonly #whitener: WhitenedColumns;
  readonly #clock: Float64Array;
  readonly #before: Float64Array;
  readonly #floating: Float64Array;
  readonly #one: Partner;
  readonly #linear: Partner;
  readonly #ground: Partner;
  readonly #data: Partner;
  readonly #brakes: readonly Brake[];
  readonly #partners: readonly Partner[];
  readonly #dataSquare: number;
  #touchdownS = NaN;
  #beforeSquare = NaN;
  /** Inner products of the shared terms. */
  readonly #gram = new Float64Array(SHARED * SHARED);
  readonly #terms = new EliminatedTerms(
    ALONG.priorMean.slice(0, SHARED),
    ALONG.priorSd.slice(0, SHARED),
  );

  /** @param strayed whitened columns of the wander's draws in the positions. */
  constructor(
    timeS: Float64Array,
    alongM: Float64Array,
    whitener: WhitenedColumns,
    strayed: readonly Float64Array[],
  ) {
    const n = timeS.length;
    this.#timeS = timeS;
    this.#whitener = whitener;
    this.#clock = whitener.whiten((i) => timeS[i] - timeS[0]);
    this.#before = new Float64Array(n);
    this.#floating = new Float64Array(n);
    this.#one = new Partner(whitener.whiten(() => 1));
    this.#linear = new Partner(new Float64Array(n));
    this.#ground = new Partner(new Float64Array(n));
    this.#data = new Partner(whitener.whiten((i) => alongM[i]));
    this.#dataSquare = dot(this.#data.column, this.#data.column);
    this.#brakes = ALONG.brakeDelaysS.map((delayS) => new Brake(n, delayS));
    this.position = new Reading(POSITION, n, strayed);
    this.speed = new Reading(SPEED, n, strayed);
    this.#partners = [
      ...[this.#one, this.#linear, this.#ground, this.#data],
      ...[this.position.partner, this.speed.partner],
      ...this.#brakes.map(({ partner }) => partner),
    ];
  }

  setTouchdown(touchdownS: number): void {
    const timeS = this.#timeS;
    const whitener = this.#whitener;
    const one = this.#one.column;
    const linear = this.#linear.column;
    const offsetS = touchdownS - timeS[0];
    this.#touchdownS = touchdownS;
    for (let i = 0; i < linear.length; i++) linear[i] = this.#clock[i] - offsetS * one[i];
    whitener.whiten((i) => positiveSquare(timeS[i] - touchdownS) / 2, this.#ground.column);
    whitener.whiten((i) => positiveSquare(touchdownS - timeS[i]) / 2, this.#before);
    this.#beforeSquare = dot(this.#before, this.#before);
    this.position.look(this.#data.column);
    this.speed.look(this.#data.column);
    for (const brake of this.#brakes) {
      const { partner } = brake;
      const startS = touchdownS + brake.delayS;
      partner.first = firstAtOrAfter(timeS, startS);
      whitener.whiten((i) => rampTwice(timeS[i] - startS, ALONG.brakeRampS), partner.column);
      brake.withData = partner.dot(this.#data.column);
      brake.square = partner.dot(partner.column);
      brake.withPosition = partner.dot(this.position.partner.column);
      brake.withSpeed = partner.dot(this.speed.partner.column);
    }
    for (const partner of this.#partners) {
      partner.lookAt(one, linear, this.#before, this.#ground.column);
    }
  }

  /** @param startS how long before touchdown the float's deceleration begins. */
  setFloat(startS: number): void {
    const floating = this.#floating;
    this.#whitener.whiten((i) => floatTerm(this.#timeS[i] - this.#touchdownS, startS), floating);
    for (const partner of this.#partners) partner.lookAtFloat(floating);
    const square = dot(floating, floating);
    const cross = dot(floating, this.#before);
    const gram = this.#gram;
    gram[APPROACH * SHARED + APPROACH] = this.#beforeSquare - 2 * cross + square;
    gram[FLOAT * SHARED + APPROACH] = gram[APPROACH * SHARED + FLOAT] = cross - square;
    gram[FLOAT * SHARED + FLOAT] = square;
    this.#setGram(POSITION, this.#one);
    this.#setGram(SPEED, this.#linear);
    this.#setGram(GROUND, this.#ground);
    const { withTerms } = this.#data;
    this.#terms.eliminate(
      (a, b) => gram[a * SHARED + b],
      (a) => withTerms[a],
      this.#dataSquare,
    );
    this.position.settle(this.#terms);
    this.speed.settle(this.#terms);
  }

  #setGram(term: number, { withTerms }: Partner): void {
    for (let other = 0; other < SHARED; other++) {
      this.#gram[term * SHARED + other] = this.#gram[other * SHARED + term] = withTerms[other];
    }
  }

  /** @param index of the brake's delay in the tuning. */
  setBrake(index: number): void {
    const { partner, solved, withData, square, withPosition, withSpeed } = this.#brakes[index];
    const terms = this.#terms;
    const dataLeft = terms.reduce(partner.withTerms, withData, solved);
    const squareLeft = terms.left(square, solved, solved);
    // Bayesian linear regression of one term, the brake, written out.
    const gap = dataLeft - BRAKE_MEAN * squareLeft;
    const residual = terms.dataSquare - BRAKE_MEAN * (gap + dataLeft);
    const precision = squareLeft + 1 / BRAKE_VAR;
    const spread = Math.log(precision * BRAKE_VAR) / 2;
    this.logEvidence = -(residual - (gap * gap) / precision) / 2 - spread - terms.halfLogDet;
    const brakeMps2 = BRAKE_MEAN + gap / precision;
    this.position.read(
      terms.left(withPosition, this.position.solved, solved),
      brakeMps2,
      precision,
    );
    this.speed.read(terms.left(withSpeed, this.speed.solved, solved), brakeMps2, precision);
  }
}

/** A whitened column, and its inner products with the shared terms. */
class Partner {
  readonly column: Float64Array;
  /** The column is zero before this row. */
  first = 0;
  readonly withTerms = new Float64Array(SHARED);
  #withBefore = NaN;

  constructor(column: Float64Array) {
    this.column = column;
  }

  dot(other: Float64Array): number {
    return dot(this.column, other, this.first);
  }

  /** Turns to one candidate. @param before an approach all the way to touchdown, without a float. */
  lookAt(
    one: Float64Array,
    linear: Float64Array,
    before: Float64Array,
    ground: Float64Array,
  ): void {
    this.withTerms[POSITION] = this.dot(one);
    this.withTerms[SPEED] = this.dot(linear);
    this.withTerms[GROUND] = this.dot(ground);
    this.#withBefore = this.dot(before);
  }

  /** Turns to one float. */
  lookAtFloat(floating: Float64Array): void {
    const withFloat = this.dot(floating);
    this.withTerms[APPROACH] = this.#withBefore - withFloat;
    this.withTerms[FLOAT] = withFloat;
  }
}

/** One delay of the brakes: its column's inner products. */
class Brake {
  readonly delayS: number;
  readonly partner: Partner;
  /** Room for the products with the shared terms, solved. */
  readonly solved = new Float64Array(SHARED);
  withData = NaN;
  square = NaN;
  withPosition = NaN;
  withSpeed = NaN;

  constructor(n: number, delayS: number) {
    this.partner = new Partner(new Float64Array(n));
    this.delayS = delayS;
  }
}

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
  /** Whitened covariance of what is read with the data. */
  readonly partner: Partner;
  /** Its products with the shared terms less the model's own, solved. */
  readonly solved = new Float64Array(SHARED);
  readonly #term: number;
  readonly #strayed: readonly Float64Array[];
  #withData = NaN;
  /** What of the wander's own variance the data leave. */
  #left = NaN;
  /** Mean and variance at a brake of zero. */
  #unbraked = NaN;
  #unbrakedVar = NaN;

  /** @param term the model's own position or speed at the candidate; @param strayed whitened columns of the draws. */
  constructor(term: number, n: number, strayed: readonly Float64Array[]) {
    this.shares = new Float64Array(strayed.length);
    this.partner = new Partner(new Float64Array(n));
    this.#term = term;
    this.#strayed = strayed;
  }

  /** Turns to the candidate that `shares` belong to. */
  look(data: Float64Array): void {
    const column = this.partner.column.fill(0);
    let square = 0;
    this.#strayed.forEach((draw, k) => {
      const share = this.shares[k];
      if (share === 0) return;
      square += share * share;
      for (let i = 0; i < column.length; i++) column[i] += share * draw[i];
    });
    this.#left = square - dot(column, column);
    this.#withData = dot(column, data);
  }

  /** Takes over the shared terms as eliminated. */
  settle(terms: EliminatedTerms): void {
    const { solved } = this;
    solved.set(this.partner.withTerms);
    solved[this.#term] -= 1;
    this.#unbraked = terms.reduce(solved, this.#withData);
    this.#unbrakedVar = this.#left + dot(solved, solved);
  }

  /** @param perBrake how much less is read for a unit brake; @param precision of the brake, one over its variance. */
  read(perBrake: number, brakeMps2: number, precision: number): void {
    this.value = this.#unbraked - perBrake * brakeMps2;
    this.variance = this.#unbrakedVar + (perBrake * perBrake) / precision;
  }
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
