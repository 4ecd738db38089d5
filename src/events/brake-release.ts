/**
 * When and where did the take-off run begin?
 *
 * In: motion, strip view and the range of a departure. Out: the start of the continuous
 * acceleration, on the strip's own line.
 */
import type { Motion } from '../track/motion.ts';
import { valueAt } from './arrival-data.ts';
import { slope } from './roll-end.ts';
import type { StripView } from './strip-view.ts';

/** Where a departure begins: from a standstill or slow taxi, or rolling on after a touch. */
export interface DepartureRange {
  readonly from: number;
  readonly to: number;
  /** Rolling on after a touch: the moment of the touch, seconds. Else null. */
  readonly rollingSinceS: number | null;
}

/** Start of the run; the place without receiver drift and the strip's own error. */
export interface Release {
  readonly timeS: number;
  readonly timeSdS: number;
  readonly alongM: number;
  readonly alongSdM: number;
}

/** Start of the continuous acceleration: where the line through the early speeds meets the speed before. */
export function brakeRelease(motion: Motion, view: StripView, range: DepartureRange): Release {
  let fastest = 0;
  for (let i = range.from; i < range.to; i++) fastest = Math.max(fastest, view.forwardMps[i]);
  // The last fix, going back from a third of the top speed, after which the speed only rose.
  const third = firstIndex(range.from, range.to, (i) => view.forwardMps[i] > fastest / 3);
  let start = third;
  const slowLimit = Math.max(1, 0.04 * fastest);
  while (start > 0 && motion.timeS[third] - motion.timeS[start] < 25) {
    if (view.forwardMps[start] < slowLimit) break;
    if (view.forwardMps[start - 1] > view.forwardMps[start] + 0.3) break;
    start--;
  }
  let mean = 0;
  let count = 0;
  for (let i = start; i >= 0 && motion.timeS[start] - motion.timeS[i] <= 4; i--) {
    mean += Math.abs(view.forwardMps[i]);
    count++;
  }
  const before = mean / count < slowLimit ? 0 : view.forwardMps[start];
  const timeS =
    before > 0 ? kneeTime(motion, view, start, third) : standingTime(motion, view, start, third);
  return {
    timeS,
    timeSdS: Math.max(before > 0 ? ROLLING_SD_S : 0.6, 0.5 * motion.medianIntervalS),
    alongM: standingAlong(motion, view, start, timeS),
    alongSdM: Math.hypot(
      motion.noise.horizontalSdM,
      before > 0 ? before * Math.max(ROLLING_SD_S, 0.5 * motion.medianIntervalS) : 0.6,
    ),
  };
}

/** How well the moment is known at which a taxiing aircraft opened the throttle, seconds. */
const ROLLING_SD_S = 0.8;

/** From standing: where the line through the early speeds meets zero. */
function standingTime(motion: Motion, view: StripView, start: number, third: number): number {
  const from = Math.min(start + 1, third);
  const acceleration =
    third - from >= 2 ? slope(motion.timeS, view.forwardMps, from, third + 1) : NaN;
  if (!(acceleration > 0.1)) return motion.timeS[start];
  const middle = Math.floor((from + third) / 2);
  const meets = motion.timeS[middle] - view.forwardMps[middle] / acceleration;
  return Math.min(motion.timeS[third], Math.max(motion.timeS[start] - 2, meets));
}

/**
 * Out of a taxi: where the speeds turn up. Of all moments the one that leaves the least squares when a
 * steady speed is followed by a steady acceleration; a line through all of it would meet the taxi's
 * speed seconds too early.
 */
function kneeTime(motion: Motion, view: StripView, start: number, third: number): number {
  // A few fixes of the run itself, or nothing tells a knee from noise.
  const to = Math.min(third + 3, motion.length);
  const endS = motion.timeS[third];
  let knee = motion.timeS[start];
  let least = Infinity;
  for (let atS = motion.timeS[start]; atS <= endS; atS += KNEE_STEP_S) {
    const left = squaresLeft(motion.timeS, view.forwardMps, start, to, atS);
    if (left < least) [knee, least] = [atS, left];
  }
  return knee;
}

const KNEE_STEP_S = 0.2;

/** Squares left by the best steady speed up to a moment and steady acceleration after it. */
function squaresLeft(
  timeS: Float64Array,
  speedMps: Float64Array,
  from: number,
  to: number,
  kneeS: number,
): number {
  const n = to - from;
  let [sumU, sumV, sumUU, sumUV, sumVV] = [0, 0, 0, 0, 0];
  for (let i = from; i < to; i++) {
    const u = Math.max(0, timeS[i] - kneeS);
    const v = speedMps[i];
    sumU += u;
    sumV += v;
    sumUU += u * u;
    sumUV += u * v;
    sumVV += v * v;
  }
  const spread = sumUU - (sumU * sumU) / n;
  const joint = sumUV - (sumU * sumV) / n;
  const own = sumVV - (sumV * sumV) / n;
  return spread > 0 ? own - (joint * joint) / spread : own;
}

/** Position at the release: the mean of the last seconds where the aircraft stood, else where it was. */
function standingAlong(motion: Motion, view: StripView, start: number, timeS: number): number {
  let sum = 0;
  let count = 0;
  for (let i = start; i >= 0 && motion.timeS[start] - motion.timeS[i] <= 5; i--) {
    if (motion.speedMps[i] > 0.6) break;
    sum += view.alongM[i];
    count++;
  }
  return count >= 2 ? sum / count : valueAt(motion.timeS, view.smoothAlongM, timeS);
}

export function firstIndex(from: number, to: number, test: (i: number) => boolean): number {
  for (let i = from; i < to; i++) if (test(i)) return i;
  return to - 1;
}
