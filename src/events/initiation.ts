/**
 * When was a descent broken?
 *
 * In: motion and the lowest fix of a pass. Out: UTC seconds.
 */
import { crossingAt } from '../numeric/crossing.ts';
import type { Motion } from '../track/motion.ts';
import { percentile } from './passes.ts';

/** When the descent was broken: going back from the lowest point, the last time it sank at over half its steady rate. */
export function initiation(motion: Motion, lowest: number): number {
  const rates: number[] = [];
  let first = lowest;
  for (; first > 0 && motion.timeS[lowest] - motion.timeS[first] < STEADY_FROM_S; first--) {
    if (motion.timeS[lowest] - motion.timeS[first] >= STEADY_TO_S) {
      rates.push(motion.verticalSpeedMps[first]);
    }
  }
  const steady = percentile(Float64Array.from(rates), 0.5);
  const { timeS, verticalSpeedMps: upMps } = motion;
  for (let i = lowest; i > first; i--) {
    if (!(upMps[i] <= steady / 2)) continue;
    if (i === lowest) return timeS[i];
    // Between this fix and the next the sinking fell below it.
    return crossingAt(steady / 2, [timeS[i], upMps[i]], [timeS[i + 1], upMps[i + 1]]) ?? timeS[i];
  }
  return timeS[lowest];
}

/** Seconds before the lowest point between which the descent is taken to have been steady. */
const STEADY_FROM_S = 25;
const STEADY_TO_S = 5;
