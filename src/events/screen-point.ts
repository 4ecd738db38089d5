/**
 * When and where was the aircraft 50 ft over the surface after take-off?
 *
 * In: motion, strip view, the time of lift-off and the brake release. Out: time and distance with
 * bands. The height counts from the level of the run (run-level.ts); what it may be off by is the
 * drift since then, the level itself, and in slow logs how the climb bends between two fixes.
 *
 * Source: definitions in docs/spec/measuring.md.
 */
import {
  cutBelow,
  undetermined,
  Z90,
  type Estimate,
  type Measured,
  type Undetermined,
} from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter, valueAt } from './arrival-data.ts';
import type { Release } from './brake-release.ts';
import { SCREEN } from './gate-tuning.ts';
import { runLevel, type RunLevel } from './run-level.ts';
import type { StripView } from './strip-view.ts';
import { TAKE_OFF } from './take-off-tuning.ts';

/** 50 ft over the surface: the level of the run carried through the first seconds of flight. */
export function screenPoint(
  motion: Motion,
  view: StripView,
  liftTime: Estimate,
  release: Release | null,
): { timeS: Measured; distanceM: Measured } | Undetermined {
  if (!motion.hasHeight) return undetermined('the log has no heights');
  const level = runLevel(motion, view, liftTime.low);
  if (level === null) return undetermined('too few heights before lift-off');
  const from = Math.max(1, firstAtOrAfter(motion.timeS, liftTime.low));
  const to = Math.min(motion.length, firstAtOrAfter(motion.timeS, liftTime.high + SCREEN.searchS));
  const above = (heightM: number): number => passes(motion, view, level, heightM, from, to);
  // The antenna rises more than the wheels: the gear unloads and the nose comes up.
  const screenM = TAKE_OFF.screenM + TAKE_OFF.riseM;
  const value = above(screenM);
  if (Number.isNaN(value)) return undetermined('the climb to 50 ft is not in the log');
  const sdM = heightSdM(motion, view, level, value);
  const low = above(screenM - Z90 * sdM);
  const high = above(screenM + Z90 * sdM);
  const timeS = {
    value,
    low: Math.min(low, value),
    // The log may end, or the climb, before it reaches the upper height.
    high: Math.max(Number.isNaN(high) ? value + (value - low) : high, value),
  };
  if (!release) {
    return { timeS, distanceM: undetermined('no brake release: the run began rolling') };
  }
  const runM = (t: number): number => valueAt(motion.timeS, view.smoothAlongM, t) - release.alongM;
  const distance = runM(value);
  const startM = Z90 * release.alongSdM;
  return {
    timeS,
    distanceM: cutBelow(
      {
        value: distance,
        low: distance - Math.hypot(distance - runM(timeS.low), startM),
        high: distance + Math.hypot(runM(timeS.high) - distance, startM),
      },
      0,
    ),
  };
}

/** When a height over the run's level is first passed, seconds; NaN where it is not. */
function passes(
  motion: Motion,
  view: StripView,
  level: RunLevel,
  heightM: number,
  from: number,
  to: number,
): number {
  const { timeS } = motion;
  const aboveM = (i: number): number =>
    view.smoothAboveM[i] - level.readsM(view.forwardMps[i], view.smoothAlongM[i]);
  for (let i = from; i < to; i++) {
    if (!(aboveM(i) >= heightM)) continue;
    const stepS = timeS[i] - timeS[i - 1];
    const [before, after] = [aboveM(i - 1), aboveM(i)];
    // Passed in a hole of the heights.
    if (Number.isNaN(before)) return NaN;
    if (before >= heightM) return timeS[i - 1] - level.lagS;
    const share = shareOfClimb(motion, i, heightM - before, after - before, stepS);
    return timeS[i - 1] + share * stepS - level.lagS;
  }
  return NaN;
}

/**
 * The share of a step at which the climb has gained so much of its rise: along the curve that meets
 * the vertical speeds at both fixes. A straight line would be passed up to half a second too early
 * where fixes are 4 s apart, because the climb steepens.
 */
function shareOfClimb(
  motion: Motion,
  i: number,
  gainM: number,
  riseM: number,
  stepS: number,
): number {
  // Only the bend is taken from the vertical speeds: the rise is over the strip's own surface.
  const meanMps = (motion.smoothHeightM[i] - motion.smoothHeightM[i - 1]) / stepS;
  const enters = (motion.verticalSpeedMps[i - 1] - meanMps) * stepS;
  const leaves = (motion.verticalSpeedMps[i] - meanMps) * stepS;
  const gained = (u: number): number => u * riseM + u * (1 - u) * ((1 - u) * enters - u * leaves);
  let [low, high] = [0, 1];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    if (gained(middle) < gainM) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** A step of some seconds to a thousandth of it. */
const HALVINGS = 10;

/** What the height over the run's level may be off by at a time, metres, one sd. */
function heightSdM(motion: Motion, view: StripView, level: RunLevel, timeS: number): number {
  const climbMps = valueAt(motion.timeS, motion.verticalSpeedMps, timeS + level.lagS);
  const speedMps = valueAt(motion.timeS, view.forwardMps, timeS + level.lagS);
  const alongM = valueAt(motion.timeS, view.smoothAlongM, timeS + level.lagS);
  return Math.hypot(
    level.driftSdM,
    level.sdM(speedMps, alongM),
    TAKE_OFF.riseSdM,
    motion.noise.verticalSdM / 2,
    level.lagSdS * climbMps,
    SCREEN.bendMps2 * motion.medianIntervalS ** 2,
  );
}
