/**
 * Did the aircraft leave the ground again after its first contact?
 *
 * In: motion, strip view, the touchdown time. Out: how many bounces the heights show, or
 * undetermined where their noise would hide one.
 *
 * A bounce of a light aeroplane is 0.3 to 2 m high and lasts one to two seconds (common practice, no
 * source). It shows only where the height is quiet enough or the log fast enough.
 */
import { undetermined, type Estimate, type Measured } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import type { StripView } from './strip-view.ts';

/** Counts bounces in the seconds after touchdown. */
export function measureBounces(motion: Motion, view: StripView, touchdown: Estimate): Measured {
  if (!motion.hasHeight) return undetermined('the log has no heights');
  const from = firstAtOrAfter(motion.timeS, touchdown.high);
  const to = firstAtOrAfter(motion.timeS, touchdown.value + WATCHED_S);
  const levelTo = firstAtOrAfter(motion.timeS, touchdown.value + WATCHED_S + LEVEL_S);
  if (to - from < 3 || levelTo - to < 3) return undetermined('too few fixes after touchdown');
  const above = (i: number): number => motion.heightM[i] - view.groundM[i];
  let level = 0;
  for (let i = to; i < levelTo; i++) level += above(i);
  level /= levelTo - to;
  const perWindow = Math.max(1, Math.round(BOUNCE_S / motion.medianIntervalS));
  const windowSd = motion.noise.verticalSdM / Math.sqrt(perWindow);
  const limit = Math.max(SEEN_SDS * windowSd, LEAST_HEIGHT_M);
  if (limit > HIDDEN_ABOVE_M) {
    return undetermined(`height noise hides a bounce lower than ${limit.toFixed(1)} m`);
  }
  let count = 0;
  let up = false;
  for (let i = from; i + perWindow <= to; i++) {
    let mean = 0;
    for (let k = i; k < i + perWindow; k++) mean += above(k);
    const isUp = mean / perWindow - level > limit;
    if (isUp && !up) count++;
    up = isUp;
  }
  return { value: count, low: count, high: count + 1 };
}

/** Seconds after touchdown in which a bounce is looked for, then averaged for the level; and one bounce's length. */
const WATCHED_S = 6;
const LEVEL_S = 6;
const BOUNCE_S = 1;
const SEEN_SDS = 3.5;
const LEAST_HEIGHT_M = 0.4;
const HIDDEN_ABOVE_M = 1;
