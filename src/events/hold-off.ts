/**
 * How long was the aircraft held off between round-out and touchdown?
 *
 * In: the weights of the touchdown's candidates and what the heights say of each. Out: for every
 * candidate how its weight is shared between the hold-offs considered.
 */
import { HEIGHT_SHAPES } from './height-shapes.ts';
import type { AlongEvidence } from './touchdown-along.ts';
import type { HeightEvidence } from './touchdown-height.ts';
import { ALONG, HEIGHT, TOUCHDOWN } from './tuning.ts';

/** How well a shape of the last seconds goes with a float that began `startS` before contact, with its prior weight. */
export function tiedShapeWeight(k: number, startS: number): number {
  const { holdOffS, roundOutS, weight } = HEIGHT_SHAPES[k];
  const gap = (startS - holdOffS - roundOutS) / TOUCHDOWN.tieSdS;
  return weight * (Math.exp((-gap * gap) / 2) + TOUCHDOWN.tieFloor);
}

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
    const first = c * heights.shapeCount;
    let largest = -Infinity;
    for (let k = 0; k < heights.shapeCount; k++) {
      largest = Math.max(largest, heights.logEvidence[first + k]);
    }
    if (largest === -Infinity) continue;
    for (let f = 0; f < along.floatCount; f++) {
      let total = 0;
      const slot = c * perCandidate + f * along.brakeCount;
      for (let b = 0; b < along.brakeCount; b++) total += weight[slot + b];
      if (total < TOUCHDOWN.negligibleShare) continue;
      let sum = 0;
      for (let k = 0; k < heights.shapeCount; k++) {
        shares[k] =
          tiedShapeWeight(k, ALONG.floatStartsS[f]) *
          Math.exp(heights.logEvidence[first + k] - largest);
        sum += shares[k];
      }
      for (let k = 0; k < heights.shapeCount; k++) {
        const column = HEIGHT.holdOffsS.findIndex((each) => each === HEIGHT_SHAPES[k].holdOffS);
        out[c * holdOffs + column] += (total * shares[k]) / sum;
      }
    }
  }
  return out;
}
