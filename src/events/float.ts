/**
 * How long was the float, from the end of the round-out to touchdown?
 *
 * In: motion, the view, the touchdown's posterior with its hold-offs. Out: its time and distance
 * with bands, or why the heights cannot tell.
 */
import { positiveMixtureEstimate } from '../numeric/posterior.ts';
import { undetermined, type Measured, type Undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { valueAt } from './arrival-data.ts';
import { FLOAT } from './circuit-tuning.ts';
import type { TouchdownPosterior } from './flight-event.ts';
import { holdOffWeights } from './hold-off.ts';
import type { StripView } from './strip-view.ts';
import { HEIGHT } from './tuning.ts';

/** The float. */
export interface Float {
  readonly durationS: Measured;
  readonly distanceM: Measured;
}

/** The float of one landing. */
export function floatOf(
  motion: Motion,
  view: StripView,
  posterior: TouchdownPosterior,
): Float | Undetermined {
  const { arrival, timeS } = posterior;
  const byShape = arrival?.shapes;
  if (!byShape) {
    return undetermined(
      'the end of the round-out is known only from heights that agree with the touchdown',
    );
  }
  const holdOffWeight = holdOffWeights(byShape);
  const holdOffs = HEIGHT.holdOffsS;
  const distance = new Float64Array(holdOffWeight.length);
  const distanceSd = new Float64Array(holdOffWeight.length);
  // A hold-off is as long whenever the wheels touched; how far it went is each candidate's own.
  const byHoldOff = new Float64Array(holdOffs.length);
  for (let c = 0; c < timeS.length; c++) {
    const touchAlongM = valueAt(motion.timeS, view.smoothAlongM, timeS[c]);
    for (let h = 0; h < holdOffs.length; h++) {
      const slot = c * holdOffs.length + h;
      if (holdOffWeight[slot] === 0) continue;
      byHoldOff[h] += holdOffWeight[slot];
      const from = valueAt(motion.timeS, view.smoothAlongM, timeS[c] - holdOffs[h]);
      distance[slot] = touchAlongM - from;
      distanceSd[slot] = FLOAT.gridSds[h] * posterior.speedMps[c];
    }
  }
  const durationS = positiveMixtureEstimate({
    weight: byHoldOff,
    mean: Float64Array.from(holdOffs),
    sd: Float64Array.from(FLOAT.gridSds),
  });
  if (durationS.high - durationS.low > FLOAT.mostWidthS) {
    return undetermined('the heights do not tell where the round-out ended');
  }
  return {
    durationS,
    distanceM: positiveMixtureEstimate({ weight: holdOffWeight, mean: distance, sd: distanceSd }),
  };
}
