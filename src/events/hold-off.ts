/**
 * How do the shapes of the last seconds share a candidate, and how long was the aircraft held off?
 *
 * In: what the heights say of each candidate touchdown, how likely each shape is beforehand. Out: log
 * evidence and shares of the shapes with each start of the float; for every candidate how its weight is
 * shared between the shapes, and between the hold-offs considered.
 */
import { HEIGHT_SHAPES } from './height-shapes.ts';
import type { Manner } from './manner.ts';
import type { AlongEvidence } from './touchdown-along.ts';
import type { HeightEvidence } from './touchdown-height.ts';
import { ALONG, HEIGHT, TOUCHDOWN } from './tuning.ts';

/** What the heights say of each candidate's shapes, each float start asked for in turn. */
export class ShapeWeights {
  readonly #heights: HeightEvidence;
  readonly #tied: TiedWeights;
  /** The shapes' evidence at the candidate looked at, over that of its best shape. */
  readonly #relative: Float64Array;
  #largest = -Infinity;
  /** Shares of the shapes at the float start last asked for; they add up to 1 where the evidence is finite. */
  readonly shares: Float64Array;

  constructor(heights: HeightEvidence, tied: TiedWeights) {
    this.#heights = heights;
    this.#tied = tied;
    this.#relative = new Float64Array(heights.shapeCount);
    this.shares = new Float64Array(heights.shapeCount);
  }

  /** Turns to one candidate. */
  lookAt(candidate: number): void {
    const { shapeCount, logEvidence } = this.#heights;
    const from = candidate * shapeCount;
    let largest = -Infinity;
    for (let k = 0; k < shapeCount; k++) largest = Math.max(largest, logEvidence[from + k]);
    this.#largest = largest;
    if (largest === -Infinity) return;
    for (let k = 0; k < shapeCount; k++) {
      this.#relative[k] = Math.exp(logEvidence[from + k] - largest);
    }
  }

  /**
   * Log evidence of the heights for the candidate, its shapes weighed by how they go with a float that
   * began `ALONG.floatStartsS[float]` before; -Infinity where no shape explains them. Fills `shares`.
   */
  weigh(float: number): number {
    if (this.#largest === -Infinity) return -Infinity;
    const ties = this.#tied[float];
    const { shares } = this;
    let sum = 0;
    for (let k = 0; k < shares.length; k++) {
      shares[k] = ties[k] * this.#relative[k];
      sum += shares[k];
    }
    for (let k = 0; k < shares.length; k++) shares[k] /= sum;
    return this.#largest + Math.log(sum);
  }
}

/** Weight of each shape with each start of the float, a row a start. */
type TiedWeights = readonly Float64Array[];

/** How well each shape and each start of the float go together. */
const TIES: TiedWeights = ALONG.floatStartsS.map((startS) =>
  Float64Array.from(HEIGHT_SHAPES, ({ holdOffS, roundOutS }) => {
    const gap = (startS - holdOffS - roundOutS) / TOUCHDOWN.tieSdS;
    return Math.exp((-gap * gap) / 2) + TOUCHDOWN.tieFloor;
  }),
);

/** Each shape's own share times how well it goes with each start of the float. */
export function tiedWeights({ shapes }: Manner): TiedWeights {
  return TIES.map((ties) => ties.map((tie, k) => shapes[k] * tie));
}

/**
 * Log weight of each start of the float where no height tells the shapes apart: how the shapes, each
 * by its own weight, go with it.
 */
export function floatLogWeights(tied: TiedWeights): number[] {
  return tied.map((ties) => Math.log(ties.reduce((sum, each) => sum + each, 0)));
}

/**
 * Weight of every candidate and shape, rows of `HEIGHT_SHAPES.length`; candidates that weigh next to
 * nothing get none.
 *
 * @param weight of candidate, float and brake, normalised, as the touchdown's posterior lays them out.
 */
export function shapeWeights(
  weight: Float64Array,
  along: AlongEvidence,
  heights: HeightEvidence,
  tied: TiedWeights,
): Float64Array {
  const perCandidate = along.floatCount * along.brakeCount;
  const count = weight.length / perCandidate;
  const { shapeCount } = heights;
  const out = new Float64Array(count * shapeCount);
  const shapes = new ShapeWeights(heights, tied);
  for (let c = 0; c < count; c++) {
    shapes.lookAt(c);
    for (let f = 0; f < along.floatCount; f++) {
      const slot = c * perCandidate + f * along.brakeCount;
      let total = 0;
      for (let b = 0; b < along.brakeCount; b++) total += weight[slot + b];
      if (total < NEXT_TO_NOTHING) continue;
      if (shapes.weigh(f) === -Infinity) continue;
      for (let k = 0; k < shapeCount; k++) out[c * shapeCount + k] += total * shapes.shares[k];
    }
  }
  return out;
}

/** A candidate and float that weigh less than this have no shares: there are hundreds. */
const NEXT_TO_NOTHING = 1e-4;

/** Column of each shape's hold-off in `HEIGHT.holdOffsS`. */
const HOLD_OFF_COLUMN = HEIGHT_SHAPES.map(({ holdOffS }) =>
  HEIGHT.holdOffsS.findIndex((each) => each === holdOffS),
);

/** The same by hold-off: rows of `HEIGHT.holdOffsS.length`. */
export function holdOffWeights(byShape: Float64Array): Float64Array {
  const holdOffs = HEIGHT.holdOffsS.length;
  const shapes = HOLD_OFF_COLUMN.length;
  const out = new Float64Array((byShape.length / shapes) * holdOffs);
  byShape.forEach((each, slot) => {
    const row = Math.floor(slot / shapes);
    out[row * holdOffs + HOLD_OFF_COLUMN[slot % shapes]] += each;
  });
  return out;
}
