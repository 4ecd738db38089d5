/**
 * Was the aircraft launched by something else than its own engine?
 *
 * In: motion, a take-off, the recorder's engine noise where it has that. Out: winch, tow, or null:
 * under its own power as far as the log tells. Such launches are found and measured like any
 * take-off and never compared with a handbook.
 *
 * A winch shows in the climb. A tow flies like an aeroplane: only a recorder that hears no engine
 * aboard gives it away. Source: engine noise 0 to 999 (ENL, FAI specification for IGC flight
 * recorders); the limits are common practice, no source.
 */
import { isUndetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import type { TakeOff } from './flight-event.ts';
import { LAUNCH } from './place-tuning.ts';

/** How a take-off was launched; null: by its own engine as far as the log tells. */
export type Launch = TakeOff['launch'];

/** @param engineNoise a slot for each fix, NaN where the recorder wrote none; null without such a column. */
export function launchOf(
  motion: Motion,
  { kind, liftOff, from }: TakeOff,
  engineNoise: Float64Array | null,
): Launch {
  if (kind !== 'take-off' || isUndetermined(liftOff) || isUndetermined(liftOff.timeS)) return null;
  if (climbsLikeOnAWinch(motion, liftOff.timeS.value)) return 'winch';
  const heard = engineNoise ? meanNoise(engineNoise, motion, from, liftOff.timeS.value) : NaN;
  return heard < LAUNCH.quietNoise ? 'tow' : null;
}

/** The steepest stretch of the first climb: fast upward, and steep over the ground. */
function climbsLikeOnAWinch(motion: Motion, liftOffS: number): boolean {
  const first = firstAtOrAfter(motion.timeS, liftOffS);
  for (let i = first; i < motion.length; i++) {
    const to = firstAtOrAfter(motion.timeS, motion.timeS[i] + LAUNCH.climbS);
    if (to >= motion.length || motion.timeS[i] - liftOffS > LAUNCH.climbWithinS) return false;
    const climbM = motion.smoothHeightM[to] - motion.smoothHeightM[i];
    const overM = Math.hypot(
      motion.eastM[to] - motion.eastM[i],
      motion.northM[to] - motion.northM[i],
    );
    const spanS = motion.timeS[to] - motion.timeS[i];
    if (climbM > LAUNCH.climbMps * spanS && climbM > LAUNCH.climbGradient * overM) return true;
  }
  return false;
}

/** Mean noise from the run's beginning to some seconds after lift-off; NaN where most fixes have none. */
function meanNoise(noise: Float64Array, motion: Motion, from: number, liftOffS: number): number {
  const to = firstAtOrAfter(motion.timeS, liftOffS + LAUNCH.listenS);
  let sum = 0;
  let count = 0;
  for (let i = from; i < to; i++) {
    if (Number.isNaN(noise[i])) continue;
    sum += noise[i];
    count++;
  }
  return count * 2 > to - from ? sum / count : NaN;
}
