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

/**
 * Counts rises in the seconds from the earliest touchdown on.
 *
 * @param untilS end of the roll: a rise after it is a take-off.
 */
export function measureBounces(
  motion: Motion,
  view: StripView,
  touchdown: Estimate,
  untilS: number,
): Measured {
  if (!motion.hasHeight) return undetermined('the log has no heights');
  if (motion.heightDatum === 'pressure') {
    return undetermined('a pressure height in a cabin lags too far behind for a bounce');
  }
  // The first average ends at the earliest touchdown: it is the lowest before the first rise.
  const from = firstAtOrAfter(motion.timeS, touchdown.low - BOUNCE_S);
  const to = firstAtOrAfter(motion.timeS, Math.min(touchdown.value + WATCHED_S, untilS));
  if (to - from < 3) return undetermined('too few fixes after touchdown');
  const above = (i: number): number => motion.heightM[i] - view.groundM[i];
  const perWindow = Math.max(1, Math.round(BOUNCE_S / motion.medianIntervalS));
  const windowSd = motion.noise.verticalSdM / Math.sqrt(perWindow);
  const limit = Math.max(SEEN_SDS * windowSd, LEAST_HEIGHT_M);
  if (limit > HIDDEN_ABOVE_M) {
    return undetermined(`height noise hides a bounce lower than ${limit.toFixed(1)} m`);
  }
  let count = 0;
  let rising = false;
  // The last turn: lowest so far while falling, highest while rising. It begins on the way down.
  let turnM = Infinity;
  for (let i = from; i + perWindow <= to; i++) {
    let sum = 0;
    for (let k = i; k < i + perWindow; k++) sum += above(k);
    const heightM = sum / perWindow;
    if (Number.isNaN(heightM)) continue;
    turnM = rising ? Math.max(turnM, heightM) : Math.min(turnM, heightM);
    if (Math.abs(heightM - turnM) < limit) continue;
    if (!rising) count++;
    rising = !rising;
    turnM = heightM;
  }
  return { value: count, low: count, high: count + 1 };
}

/** Seconds after touchdown in which a bounce is looked for, and over which heights are averaged. */
const WATCHED_S = 6;
const BOUNCE_S = 0.6;
/** The difference of two averages that noise alone does not make in a few seconds, sds of one. */
const SEEN_SDS = 5;
const LEAST_HEIGHT_M = 0.4;
const HIDDEN_ABOVE_M = 1;
