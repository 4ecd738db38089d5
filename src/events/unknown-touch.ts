/**
 * Where did the aircraft touch and go at a place nobody knows?
 *
 * In: motion and the flight's typical speed. Out: lines of possible touches: a straight low stretch
 * after a descent and before a climb, in which the speed sagged. Whether the wheels touched is
 * judged later (contact.ts); here only the line is proposed.
 */
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import { percentile } from './passes.ts';
import type { RollLine } from './roll-line.ts';
import { PLACE, TOUCH } from './place-tuning.ts';

/** Lines of possible touches, in order of time. */
export function possibleTouches(motion: Motion, flightSpeedMps: number): RollLine[] {
  if (!motion.hasHeight) return [];
  const touches: RollLine[] = [];
  let i = 0;
  while (i < motion.length) {
    if (isLowest(motion, i)) {
      const touch = touchAt(motion, i, flightSpeedMps);
      if (touch) touches.push(touch);
      i = firstAtOrAfter(motion.timeS, motion.timeS[i] + TOUCH.aroundS);
    } else {
      i++;
    }
  }
  return touches;
}

/** Lowest within a minute either way, after a descent and before a climb. */
function isLowest(motion: Motion, i: number): boolean {
  const height = motion.smoothHeightM[i];
  const from = firstAtOrAfter(motion.timeS, motion.timeS[i] - TOUCH.aroundS);
  const to = firstAtOrAfter(motion.timeS, motion.timeS[i] + TOUCH.aroundS);
  let before = height;
  let after = height;
  for (let k = from; k < to; k++) {
    const other = motion.smoothHeightM[k];
    if (other < height) return false;
    if (k < i) before = Math.max(before, other);
    else after = Math.max(after, other);
  }
  return before - height > TOUCH.climbM && after - height > TOUCH.climbM;
}

function touchAt(motion: Motion, lowest: number, flightSpeedMps: number): RollLine | null {
  const at = motion.timeS[lowest];
  const from = firstAtOrAfter(motion.timeS, at - TOUCH.lowS);
  const to = firstAtOrAfter(motion.timeS, at + TOUCH.lowS);
  if (to - from < 4) return null;
  let slowest = from;
  for (let i = from; i < to; i++) {
    if (motion.speedMps[i] < motion.speedMps[slowest]) slowest = i;
    if (i > from && motion.timeS[i] - motion.timeS[i - 1] > PLACE.longestGapS) return null;
  }
  const finalFrom = firstAtOrAfter(motion.timeS, at - 2.5 * TOUCH.lowS);
  const finalMps = percentile(motion.speedMps.slice(finalFrom, from), 0.5);
  const slowMps = motion.speedMps[slowest];
  if (!(slowMps < TOUCH.saggedShare * finalMps) || slowMps < 0.2 * flightSpeedMps) return null;
  const east = motion.eastM[to - 1] - motion.eastM[from];
  const north = motion.northM[to - 1] - motion.northM[from];
  const lengthM = Math.hypot(east, north);
  for (let i = from; i < to; i++) {
    const cross =
      ((motion.eastM[i] - motion.eastM[from]) * north -
        (motion.northM[i] - motion.northM[from]) * east) /
      lengthM;
    if (Math.abs(cross) > Math.max(PLACE.straightM, 0.05 * lengthM)) return null;
  }
  return {
    eastM: motion.eastM[slowest],
    northM: motion.northM[slowest],
    bearingRad: Math.atan2(east, north),
    lengthM: lengthM / 2,
    index: slowest,
    rolled: false,
  };
}
