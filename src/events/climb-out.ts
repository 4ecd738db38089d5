/**
 * 50 ft after take-off, and the check at half the TORA.
 *
 * In: motion, strip view, the departure, its lift-off and brake release. Out: quantities with bands.
 *
 * Source: definitions in docs/spec/measuring.md; 70 % of the lift-off speed at half way: rule of
 * thumb in FAA guidance on half-way signs, from memory.
 */
import { undetermined, type Estimate, type Measured, type Undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter, valueAt } from './arrival-data.ts';
import type { DepartureRange, Release } from './brake-release.ts';
import type { HalfwayCheck } from './flight-event.ts';
import type { StripView } from './strip-view.ts';
import { TAKE_OFF } from './tuning.ts';

/** 50 ft over the surface: the level of the run carried through the first seconds of flight. */
export function screenPoint(
  motion: Motion,
  view: StripView,
  liftTime: Estimate,
  release: Release | null,
): { timeS: Measured; distanceM: Measured } | Undetermined {
  if (!motion.hasHeight) return undetermined('the log has no heights');
  const levelTo = firstAtOrAfter(motion.timeS, liftTime.low);
  const levelFrom = firstAtOrAfter(motion.timeS, liftTime.low - 15);
  let sum = 0;
  let count = 0;
  for (let i = Math.max(levelFrom, 0); i < levelTo; i++) {
    sum += view.smoothAboveM[i];
    count++;
  }
  if (count < 2) return undetermined('too few heights before lift-off');
  const level = sum / count;
  const end = Math.min(motion.length, firstAtOrAfter(motion.timeS, liftTime.high + 90));
  const above = (heightM: number): number => {
    for (let i = levelTo; i < end; i++) {
      if (view.smoothAboveM[i] - level >= heightM) {
        const before = view.smoothAboveM[i - 1] - level;
        const share = (heightM - before) / (view.smoothAboveM[i] - level - before);
        return motion.timeS[i - 1] + share * (motion.timeS[i] - motion.timeS[i - 1]);
      }
    }
    return NaN;
  };
  const doubtM = 1.645 * Math.hypot(SCREEN_DRIFT_SD_M, motion.noise.verticalSdM / 2);
  const timeS = bandOf(
    above(TAKE_OFF.screenM),
    above(TAKE_OFF.screenM - doubtM),
    above(TAKE_OFF.screenM + doubtM),
  );
  if (!timeS) return undetermined('the climb to 50 ft is not in the log');
  if (!release) {
    return { timeS, distanceM: undetermined('no brake release: the run began rolling') };
  }
  const from = release;
  const alongAt = (t: number): number => valueAt(motion.timeS, view.smoothAlongM, t) - from.alongM;
  return {
    timeS,
    distanceM: { value: alongAt(timeS.value), low: alongAt(timeS.low), high: alongAt(timeS.high) },
  };
}

/** Drift of the height from the run to 50 ft, some 15 s later, metres. */
const SCREEN_DRIFT_SD_M = 2;

function bandOf(value: number, low: number, high: number): Estimate | null {
  if (Number.isNaN(value)) return null;
  const upper = Number.isNaN(high) ? value + (value - low) : high;
  return { value, low: Math.min(low, value), high: Math.max(upper, value) };
}

export function halfwayCheck(
  motion: Motion,
  view: StripView,
  range: DepartureRange,
  liftSpeed: Estimate,
): HalfwayCheck | Undetermined {
  if (view.stripId === null) return undetermined('no strip is known here');
  if (range.rolling) return undetermined('the run began rolling, after a touch');
  const halfM = view.frame.nearEndAlongM + view.direction.toraM / 2;
  for (let i = range.from + 1; i < range.to; i++) {
    if (view.smoothAlongM[i - 1] < halfM && view.smoothAlongM[i] >= halfM) {
      const share =
        (halfM - view.smoothAlongM[i - 1]) / (view.smoothAlongM[i] - view.smoothAlongM[i - 1]);
      const speed = view.forwardMps[i - 1] + share * (view.forwardMps[i] - view.forwardMps[i - 1]);
      const sd = motion.speedSdMps[i];
      const low = speed - 1.645 * sd;
      const high = speed + 1.645 * sd;
      return {
        groundSpeedMps: { value: speed, low, high },
        shareOfLiftOff: {
          value: speed / liftSpeed.value,
          low: low / liftSpeed.high,
          high: high / liftSpeed.low,
        },
      };
    }
  }
  return undetermined('the run did not pass half the TORA on the ground');
}
