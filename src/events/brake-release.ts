/**
 * When and where did the take-off run begin?
 *
 * In: motion, strip view and the range of a departure. Out: the start of the continuous
 * acceleration, on the strip's own line.
 */
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter, valueAt } from './arrival-data.ts';
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

/**
 * Start of the continuous acceleration: where the line through the early speeds meets the speed
 * before, or out of a taxi where the speed turns up.
 */
export function brakeRelease(motion: Motion, view: StripView, range: DepartureRange): Release {
  let fastest = 0;
  for (let i = range.from; i < range.to; i++) fastest = Math.max(fastest, view.forwardMps[i]);
  const slowLimit = Math.max(1, 0.04 * fastest);
  const taxi = taxiBefore(motion, view, range, fastest, slowLimit);
  if (taxi) {
    const timeS = kneeTime(motion.timeS, motion.speedMps, taxi.from, taxi.to, taxi.knownBy);
    return rollingRelease(motion, view, timeS, motion.speedMps[taxi.from]);
  }
  // The last fix, going back from a third of the top speed, after which the speed only rose.
  const third = firstIndex(range.from, range.to, (i) => view.forwardMps[i] > fastest / 3);
  let start = third;
  while (start > 0 && motion.timeS[third] - motion.timeS[start] < LONGEST_RISE_S) {
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
  if (!(mean / count < slowLimit) && view.forwardMps[start] > 0) {
    // A few fixes of the run itself, or nothing tells a knee from noise.
    const to = Math.min(third + 3, motion.length);
    const timeS = kneeTime(motion.timeS, view.forwardMps, start, to, third);
    return rollingRelease(motion, view, timeS, view.forwardMps[start]);
  }
  const timeS = standingTime(motion, view, start, third);
  return {
    timeS,
    timeSdS: Math.max(0.6, 0.5 * motion.medianIntervalS),
    alongM: standingAlong(motion, view, start, timeS),
    alongSdM: Math.hypot(motion.noise.horizontalSdM, 0.6),
  };
}

/** Longest time over which the speed rises from the taxi, or from standing, to a third of the top speed, seconds. */
const LONGEST_RISE_S = 25;

/** The end of a taxi that a run goes on from, and the run's first fixes. */
interface TaxiIntoRun {
  readonly from: number;
  readonly to: number;
  /** Fix by which the throttle had been opened. */
  readonly knownBy: number;
}

/**
 * The last seconds of the taxi before a run, null where it began from standing: there the speed was
 * gathered much slower than in the run after it. Ground speeds tell it: in a turn on to the strip
 * the speed along it rises without any throttle.
 */
function taxiBefore(
  motion: Motion,
  view: StripView,
  range: DepartureRange,
  fastest: number,
  slowLimit: number,
): TaxiIntoRun | null {
  const { timeS, speedMps, length } = motion;
  const half = firstIndex(range.from, range.to, (i) => view.forwardMps[i] > fastest / 2);
  const later = firstIndex(half, length, (i) => timeS[i] >= timeS[half] + GATHER_S);
  let runMps2 = gatheredMps2(motion, later);
  for (let i = half; i > 0 && timeS[half] - timeS[i] < LONGEST_RISE_S; i--) {
    const from = secondsBefore(motion, i);
    if (speedMps[from] < slowLimit || timeS[i] - timeS[from] > LONGEST_RISE_S) return null;
    const mps2 = gatheredMps2(motion, i);
    runMps2 = Math.max(runMps2, mps2);
    if (mps2 > TAXI_SHARE * runMps2) continue;
    if (ranBefore(motion, from, timeS[half] - LONGEST_RISE_S, slowLimit, runMps2)) return null;
    const enough = speedMps[i] + (fastest - speedMps[i]) / 3;
    const knownBy = firstIndex(i, half + 1, (k) => speedMps[k] > enough);
    return { from, to: Math.min(knownBy + 2, length), knownBy };
  }
  return null;
}

/**
 * True where, before a lull, speed had been gathered as in the run: soft ground or a hump that the run
 * rolled over, and no taxi.
 */
function ranBefore(
  motion: Motion,
  at: number,
  sinceS: number,
  slowMps: number,
  runMps2: number,
): boolean {
  for (let i = at; i > 0 && motion.timeS[i] > sinceS && motion.speedMps[i] >= slowMps; i--) {
    if (gatheredMps2(motion, i) > RUN_SHARE * runMps2) return true;
  }
  return false;
}

/** Speed gathered in the seconds before a fix, m/s2. */
function gatheredMps2(motion: Motion, i: number): number {
  const from = secondsBefore(motion, i);
  return (motion.speedMps[i] - motion.speedMps[from]) / (motion.timeS[i] - motion.timeS[from]);
}

function secondsBefore({ timeS }: Motion, i: number): number {
  return Math.min(firstAtOrAfter(timeS, timeS[i] - GATHER_S), i - 1);
}

/**
 * Over so many seconds the last of a taxi gathers at most this share of what the run does: open
 * throttles give 1.2 m/s2 and more, a taxi takes up to half of it, but only for a moment, and mostly
 * nothing (common practice, no source). What gathers more than half was itself the run.
 */
const GATHER_S = 4;
const TAXI_SHARE = 0.4;
const RUN_SHARE = 0.55;

function rollingRelease(motion: Motion, view: StripView, timeS: number, taxiMps: number): Release {
  const timeSdS = Math.max(ROLLING_SD_S, 0.5 * motion.medianIntervalS);
  return {
    timeS,
    timeSdS,
    alongM: valueAt(motion.timeS, view.smoothAlongM, timeS),
    alongSdM: Math.hypot(motion.noise.horizontalSdM, taxiMps * timeSdS),
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
function kneeTime(
  timeS: Float64Array,
  speedMps: Float64Array,
  from: number,
  to: number,
  knownBy: number,
): number {
  let knee = timeS[from];
  let least = Infinity;
  for (let atS = timeS[from]; atS <= timeS[knownBy]; atS += KNEE_STEP_S) {
    const left = squaresLeft(timeS, speedMps, from, to, atS);
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
