/**
 * How do the shapes of the last seconds share a candidate, and how long was the aircraft held off?
 *
 * In: what the heights say of each candidate touchdown. Out: log evidence and shares of the shapes
 * with a float that began so long before; for every candidate how its weight is shared between the
 * hold-offs considered.
 */
import { HEIGHT_SHAPES } from './height-shapes.ts';
import type { AlongEvidence } from './touchdown-along.ts';
import type { HeightEvidence } from './touchdown-height.ts';
import { ALONG, HEIGHT, TOUCHDOWN } from './tuning.ts';

/**
 * Log evidence of the heights for one candidate, its shapes weighed by how they go with a float that
 * began `startS` before; -Infinity where no shape explains them.
 *
 * @param shares filled with the shares of the shapes, which add up to 1 where the evidence is finite.
 */
export function weighShapes(
  heights: HeightEvidence,
  candidate: number,
  startS: number,
  shares: Float64Array,
): number {
  const { shapeCount, logEvidence } = heights;
  const from = candidate * shapeCount;
  let largest = -Infinity;
  for (let k = 0; k < shapeCount; k++) largest = Math.max(largest, logEvidence[from + k]);
  if (largest === -Infinity) return -Infinity;
  let sum = 0;
  for (let k = 0; k < shapeCount; k++) {
    const { holdOffS, roundOutS, weight } = HEIGHT_SHAPES[k];
    const gap = (startS - holdOffS - roundOutS) / TOUCHDOWN.tieSdS;
    const tie = Math.exp((-gap * gap) / 2) + TOUCHDOWN.tieFloor;
    shares[k] = weight * tie * Math.exp(logEvidence[from + k] - largest);
    sum += shares[k];
  }
  for (let k = 0; k < shapeCount; k++) shares[k] /= sum;
  return largest + Math.log(sum);
}

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
  const shares = new Float64Array(heights.shapeCount);
  for (let c = 0; c < count; c++) {
    for (let f = 0; f < along.floatCount; f++) {
      const slot = c * perCandidate + f * along.brakeCount;
      let total = 0;
      for (let b = 0; b < along.brakeCount; b++) total += weight[slot + b];
      if (total < TOUCHDOWN.negligibleShare) continue;
      if (weighShapes(heights, c, ALONG.floatStartsS[f], shares) === -Infinity) continue;
      shares.forEach((share, k) => {
        out[c * holdOffs + HOLD_OFF_COLUMN[k]] += total * share;
      });
    }
  }
  return out;
}
