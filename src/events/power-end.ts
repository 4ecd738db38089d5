/**
 * Where was power opened for the take-off that ended a landing roll?
 *
 * In: motion, strip view, the slowest fix of the roll. Out: the end of the roll, how far its moment
 * and its speed may be off.
 *
 * Source: definitions in docs/spec/measuring.md; numbers found on simulated touch-and-goes.
 */
import { crossingAt } from '../numeric/crossing.ts';
import type { Motion } from '../track/motion.ts';
import { stepAt, valueAt } from './arrival-data.ts';
import type { FoundRollEnd } from './roll-end.ts';
import type { StripView } from './strip-view.ts';
import { ROLL } from './tuning.ts';

/**
 * The roll's end where power was opened for take-off: a little before the slowest fix, and anywhere
 * where the speed cannot be told from the slowest. A flat bottom, as of a roll at an even speed,
 * makes it uncertain; a sharp one does not.
 */
export function powerEnd(motion: Motion, view: StripView, slowest: number): FoundRollEnd {
  const { timeS, speedMps } = motion;
  const slowestMps = speedMps[slowest];
  const stepS = stepAt(timeS, timeS[slowest]);
  const atS = Math.max(timeS[0], timeS[slowest] - POWER.slowingOnS);
  // Both spans hold the moment as likely here as there: the speed's bottom, and the step between two fixes.
  const timeSdS = Math.hypot(flatS(motion, slowest), stepS) / Math.sqrt(12);
  const bentMps = bendMps(motion, slowest, Math.max(POWER.leastReachS, stepS));
  return {
    kind: 'power',
    index: slowest,
    timeS: atS,
    timeSdS,
    alongM: valueAt(timeS, view.smoothAlongM, atS),
    alongSdM: Math.hypot(motion.noise.horizontalSdM, timeSdS * slowestMps),
    speedMps: Math.max(0, slowestMps - POWER.roundedOff * bentMps),
    speedSdMps: Math.hypot(POWER.speedSdMps, POWER.roundedOffSd * bentMps),
  };
}

/** How long the speed stays within its doubt of the slowest, seconds, between the fixes. */
function flatS(motion: Motion, slowest: number): number {
  return leavesBottomS(motion, slowest, 1) - leavesBottomS(motion, slowest, -1);
}

/** When the speed, seen from the slowest fix on in one way of time, first exceeds the slowest by its doubt. */
function leavesBottomS(motion: Motion, slowest: number, way: 1 | -1): number {
  const { timeS, speedMps, length } = motion;
  const limitMps = speedMps[slowest] + ROLL.speedDoubtMps;
  for (let i = slowest + way; i >= 0 && i < length; i += way) {
    if (speedMps[i] < limitMps) continue;
    const inside = [timeS[i - way], speedMps[i - way]] as const;
    return crossingAt(limitMps, inside, [timeS[i], speedMps[i]]) ?? timeS[i];
  }
  return way > 0 ? timeS[length - 1] : timeS[0];
}

/** How far the speed at the slowest fix lies below that of a while before and after it, in the mean, m/s. */
function bendMps({ timeS, speedMps }: Motion, slowest: number, reachS: number): number {
  const at = (atS: number): number => valueAt(timeS, speedMps, atS);
  const beside = (at(timeS[slowest] - reachS) + at(timeS[slowest] + reachS)) / 2;
  return Math.max(0, beside - speedMps[slowest]);
}

/** Tuned on simulated touch-and-goes that judge nothing, logged every 0.5 to 4 s. */
const POWER = {
  /** The roll still slows for so long after the throttle is opened, seconds: the engine takes its time. */
  slowingOnS: 0.45,
  /** Smoothing and the steps between fixes round the lowest speed off, by this share of the bend seen over a step, a second at least; and one sd of that. */
  roundedOff: 0.35,
  roundedOffSd: 0.2,
  leastReachS: 1,
  /** Of a lowest speed that nothing rounded off, m/s, one sd. */
  speedSdMps: 0.26,
} as const;
