/**
 * How does a wandering vertical speed carry the height from row to row?
 *
 * In: rows in the order from contact into the air, and the time of contact. Out: for each row what the
 * wander does from the row before. All of it is the same for every drift of a receiver, so it is worked
 * out once a contact.
 *
 * The wander is an exponentially correlated vertical speed from contact on, and the height its integral.
 * Source: closed form of an integrated exponentially correlated process, from memory, checked against
 * the full covariance in the tests.
 */

/** Wandering vertical speed in the air. Times in seconds. */
export interface WanderErrors {
  readonly wanderSdMps: number;
  readonly wanderTimeS: number;
  /** Share of the wander at u seconds from contact. */
  readonly wanderShare: (u: number) => number;
}

/** Longest step over which the wander's share is taken as constant, seconds. */
const STEP_S = 0.5;

/** Made for rows, set to one contact after the other. Columns have a value a row. */
export class WanderSteps {
  /** Rows up to contact come first; so many of them. */
  groundRows = 0;
  /** Decay of the wander speed, and height per wander speed. */
  readonly speedDecay: Float64Array;
  readonly heightPerSpeed: Float64Array;
  /** What the step adds to the variances of speed and height, and to their covariance. */
  readonly addSpeed: Float64Array;
  readonly addHeight: Float64Array;
  readonly addCross: Float64Array;
  readonly #errors: WanderErrors;
  /** Each row's step from the row before in parts of equal length. */
  readonly #parts: readonly EvenParts[];

  /** @param timeS times of the rows, all rising or all falling. */
  constructor(timeS: Float64Array, errors: WanderErrors) {
    const n = timeS.length;
    this.#errors = errors;
    this.speedDecay = new Float64Array(n);
    this.heightPerSpeed = new Float64Array(n);
    this.addSpeed = new Float64Array(n);
    this.addHeight = new Float64Array(n);
    this.addCross = new Float64Array(n);
    this.#parts = Array.from(timeS, (atS, i) =>
      evenParts(i > 0 ? Math.abs(atS - timeS[i - 1]) : 0, errors),
    );
  }

  /** @param u of each row the seconds from contact into the air, rising; up to 0: on the ground. */
  setContact(u: Float64Array): void {
    const n = u.length;
    let ground = 0;
    while (ground < n && !(u[ground] > 0)) ground++;
    this.groundRows = ground;
    this.speedDecay.fill(1, 0, ground);
    this.heightPerSpeed.fill(0, 0, ground);
    this.addSpeed.fill(0, 0, ground);
    this.addHeight.fill(0, 0, ground);
    this.addCross.fill(0, 0, ground);
    if (ground === n) return;
    this.#carry(ground, 0, evenParts(u[ground], this.#errors));
    for (let i = ground + 1; i < n; i++) this.#carry(i, u[i - 1], this.#parts[i]);
  }

  /** Puts the parts of one row's step together, each with the wander's share in its middle. */
  #carry(row: number, fromU: number, parts: EvenParts): void {
    const { count, partS, decay, slide, speed, height, cross: covariance } = parts;
    let speedDecay = 1;
    let heightPerSpeed = 0;
    let speedVar = 0;
    let cross = 0;
    let heightVar = 0;
    for (let k = 0; k < count; k++) {
      const share = this.#errors.wanderShare(fromU + (k + 0.5) * partS);
      // One part: height += moved x speed, speed x decay.
      const moved = share * slide;
      heightVar += moved * (2 * cross + moved * speedVar) + share * share * height;
      cross = (cross + moved * speedVar) * decay + share * covariance;
      speedVar = speedVar * decay * decay + speed;
      heightPerSpeed += moved * speedDecay;
      speedDecay *= decay;
    }
    this.speedDecay[row] = speedDecay;
    this.heightPerSpeed[row] = heightPerSpeed;
    this.addSpeed[row] = speedVar;
    this.addCross[row] = cross;
    this.addHeight[row] = heightVar;
  }
}

/** A step in parts of equal length, and what each does where the share is one. */
interface EvenParts {
  readonly count: number;
  readonly partS: number;
  /** Decay of the wander's speed; height per speed. */
  readonly decay: number;
  readonly slide: number;
  /** Added to the variances of speed and height, and to their covariance. */
  readonly speed: number;
  readonly height: number;
  readonly cross: number;
}

function evenParts(stepS: number, { wanderSdMps, wanderTimeS: T }: WanderErrors): EvenParts {
  const count = Math.max(1, Math.ceil(stepS / STEP_S));
  const partS = stepS / count;
  const speedVar = wanderSdMps ** 2;
  const decay = Math.exp(-partS / T);
  return {
    count,
    partS,
    decay,
    slide: T * (1 - decay),
    speed: speedVar * (1 - decay * decay),
    height: speedVar * T * (2 * partS - T * (3 - 4 * decay + decay * decay)),
    cross: speedVar * T * (1 - decay) ** 2,
  };
}
