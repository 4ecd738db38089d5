/**
 * How do the shapes of the last seconds share a candidate, and how long was the aircraft held off?
 *
 * In: what the heights say of each candidate touchdown. Out: log evidence and shares of the shapes
 * with each start of the float; for every candidate how its weight is shared between the
 * hold-offs considered.
 */
import { HEIGHT_SHAPES } from './height-shapes.ts';
import type { AlongEvidence } from './touchdown-along.ts';
import type { HeightEvidence } from './touchdown-height.ts';
import { ALONG, HEIGHT, TOUCHDOWN } from './tuning.ts';

/** What the heights say of each candidate's shapes, each float start asked for in turn. */
export class ShapeWeights {
  readonly #heights: HeightEvidence;
  /** The shapes' evidence at the candidate looked at, over that of its best shape. */
  readonly #relative: Float64Array;
  #largest = -Infinity;
  /** Shares of the shapes at the float start last asked for; they add up to 1 where the evidence is finite. */
  readonly shares: Float64Array;

  constructor(heights: HeightEvidence) {
    this.#heights = heights;
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
    const ties = TIED_WEIGHTS[float];
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

/** Weight of each shape with each start of the float: its own, times how well the two go together. */
const TIED_WEIGHTS = ALONG.floatStartsS.map((startS) =>
  Float64Array.from(HEIGHT_SHAPES, ({ holdOffS, roundOutS, weight }) => {
    const gap = (startS - holdOffS - roundOutS) / TOUCHDOWN.tieSdS;
    return weight * (Math.exp((-gap * gap) / 2) + TOUCHDOWN.tieFloor);
  }),
);

/**
 * Log weight of each start of the float where no height tells the shapes apart: how the shapes, each
 * by its own weight, go with it.
 */
export const FLOAT_LOG_WEIGHTS: readonly number[] = TIED_WEIGHTS.map((ties) =>
  Math.log(ties.reduce((sum, each) => sum + each, 0)),
);

/** Column of each shape's hold-off in `HEIGHT.holdOffsS`. */
const HOLD_OFF_COLUMN = HEIGHT_SHAPES.map(({ holdOffS }) =>
  HEIGHT.holdOffsS.findIndex((each) => each === holdOffS),
);

/**
 * Weight of every candidate and hold-off, rows of `HEIGHT.holdOffsS.length`; candidates that weigh
 * next to nothing get none.
 *
 * @param weight of candidate, float and brake, normalised, as the touchdown's posterior lays them out.
 */
export function holdOffWeights(
  weight: Float64Array,
  along: AlongEvidence,
  heights: HeightEvidence,
): Float64Array {
  const perCandidate = along.floatCount * along.brakeCount;
  const count = weight.length / perCandidate;
  const holdOffs = HEIGHT.holdOffsS.length;
  const out = new Float64Array(count * holdOffs);
  const shapes = new ShapeWeights(heights);
  for (let c = 0; c < count; c++) {
    shapes.lookAt(c);
    for (let f = 0; f < along.floatCount; f++) {
      const slot = c * perCandidate + f * along.brakeCount;
      let total = 0;
      for (let b = 0; b < along.brakeCount; b++) total += weight[slot + b];
      if (total < TOUCHDOWN.negligibleShare) continue;
      if (shapes.weigh(f) === -Infinity) continue;
      shapes.shares.forEach((share, k) => {
        out[c * holdOffs + HOLD_OFF_COLUMN[k]] += total * share;
      });
    }
  }
  return out;
}
