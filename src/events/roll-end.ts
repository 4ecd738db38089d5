/**
 * Where, when and why did the landing roll end?
 *
 * In: motion, strip view, the pass, and where to stop looking. Out: the first of standstill,
 * turning off or steady taxi; undetermined where the log ends first. Power for take-off: power-end.ts.
 *
 * Source: definitions in docs/spec/measuring.md.
 */
import { crossingAt } from '../numeric/crossing.ts';
import { MPS_PER_KNOT } from '../units/convert.ts';
import type { Motion } from '../track/motion.ts';
import { stepAt, valueAt } from './arrival-data.ts';
import type { RollEndKind } from './flight-event.ts';
import { changeWithin } from './smoothed-speed.ts';
import { trackDeg, type StripView } from './strip-view.ts';
import { ROLL } from './tuning.ts';

/** The end of a roll, on the log's own clock and the strip's own line. */
export interface FoundRollEnd {
  readonly kind: RollEndKind;
  /** Fix at which it was found. */
  readonly index: number;
  readonly timeS: number;
  readonly timeSdS: number;
  readonly alongM: number;
  /** Random error of the position, without receiver drift and the strip's own error, metres. */
  readonly alongSdM: number;
  readonly speedMps: number;
  readonly speedSdMps: number;
}

/**
 * Finds the end of the roll.
 *
 * @param slowIndex first fix slower than half the approach speed.
 * @param limit no fix from here on belongs to the roll (the next take-off, or the log's end).
 * @returns null where the log or the limit ends the roll before anything did.
 */
export function findRollEnd(
  motion: Motion,
  view: StripView,
  slowIndex: number,
  limit: number,
): FoundRollEnd | null {
  const mostM = mostBesideM(motion, view, slowIndex);
  for (let i = slowIndex; i < limit; i++) {
    if (isStationary(motion, view, i, limit)) return standstill(motion, view, i, limit);
    if (turnsOff(motion, view, mostM, i, limit)) return turnedOff(motion, view, slowIndex, i);
    if (taxiesFrom(motion, view, mostM, i, limit)) return slowedToTaxi(motion, view, i);
  }
  return null;
}

/** Standstill from `i` on: over the next few seconds the line through the positions is slower than the limit. */
function isStationary(motion: Motion, view: StripView, i: number, limit: number): boolean {
  // The cheap test first: a smoothed speed far above the limit cannot be a standstill.
  if (motion.speedMps[i] > ROLL.stoppedMps + 4 * ROLL.speedDoubtMps) return false;
  const spanS = Math.max(ROLL.standstillS, 2.1 * motion.medianIntervalS);
  const to = windowEnd(motion, i, limit, spanS);
  if (motion.timeS[to - 1] - motion.timeS[i] < ROLL.leastStandstillS) {
    const restS = motion.timeS[to - 1] - motion.timeS[i];
    return to === limit && restS >= 0 && motion.speedMps[i] < ROLL.stoppedMps;
  }
  const alongMps = slope(motion.timeS, view.alongM, i, to);
  const acrossMps = slope(motion.timeS, view.crossM, i, to);
  return Math.hypot(alongMps, acrossMps) < ROLL.stoppedMps;
}

function standstill(motion: Motion, view: StripView, i: number, limit: number): FoundRollEnd {
  let from = i;
  while (from < limit - 1 && motion.timeS[from] < motion.timeS[i] + ROLL.settleS) from++;
  let to = windowEnd(motion, from, limit, ROLL.standstillS);
  // Everything while it stands still sharpens the place, as long as it does stand still.
  while (to < limit && motion.speedMps[to] < ROLL.stoppedMps + ROLL.speedDoubtMps) {
    if (motion.timeS[to] - motion.timeS[from] > ROLL.longestMeanS) break;
    to++;
  }
  let sum = 0;
  for (let k = from; k < to; k++) sum += view.alongM[k];
  const count = to - from;
  const spread = motion.noise.horizontalSdM / Math.sqrt(count);
  return {
    kind: 'stopped',
    index: i,
    ...stoppedAt(motion, i, limit),
    alongM: sum / count,
    alongSdM: Math.hypot(spread, motion.noise.quantumM, ROLL.creepSdM),
    speedMps: 0,
    speedSdMps: ROLL.speedDoubtMps / 2,
  };
}

/**
 * When it slowed below the limit of a standstill: the positions of the four seconds that show the
 * standstill still hold the last of the roll. Where the speed of a receiver at rest never falls
 * below it, at their beginning.
 */
function stoppedAt(
  { timeS, speedMps }: Motion,
  i: number,
  limit: number,
): { readonly timeS: number; readonly timeSdS: number } {
  let k = i;
  while (k < limit && speedMps[k] >= ROLL.stoppedMps) k++;
  const seen = k < limit && timeS[k] - timeS[i] <= ROLL.standstillS;
  let atS = timeS[i];
  if (seen) {
    const before = Math.max(k - 1, 0);
    const slowed = [timeS[k], speedMps[k]] as const;
    atS = crossingAt(ROLL.stoppedMps, [timeS[before], speedMps[before]], slowed) ?? timeS[k];
  }
  const stepS = stepAt(timeS, atS);
  return {
    timeS: seen ? atS - STOP_LATE_PER_STEP * Math.min(stepS, LATE_STEP_S) : atS,
    timeSdS: Math.hypot(STOP_SD_S, STOP_SD_PER_STEP * stepS),
  };
}

/** Smoothing draws out the end of the slowing: so much too late, and one sd, for each second between fixes; found on simulated landings that judge nothing. */
const STOP_LATE_PER_STEP = 0.4;
/** A longer step is a hole, over which nothing was smoothed. */
const LATE_STEP_S = 5;
const STOP_SD_PER_STEP = 0.4;
const STOP_SD_S = 0.4;

/**
 * A turn off the strip began before it showed: where the course had left the axis by a few degrees, less
 * what smoothing rounds off.
 */
function turnedOff(motion: Motion, view: StripView, slowIndex: number, i: number): FoundRollEnd {
  const offDeg = (k: number): number => Math.abs(trackDeg(view, k));
  let k = i;
  while (
    k > slowIndex &&
    motion.timeS[i] - motion.timeS[k - 1] < TURN_LONGEST_S &&
    offDeg(k - 1) > TURN_BEGUN_DEG
  ) {
    k--;
  }
  const before = Math.max(k - 1, 0);
  const begunS =
    crossingAt(
      TURN_BEGUN_DEG,
      [motion.timeS[before], offDeg(before)],
      [motion.timeS[k], offDeg(k)],
    ) ?? motion.timeS[k];
  const stepS = Math.min(stepAt(motion.timeS, motion.timeS[i]), LATE_STEP_S);
  return movingEnd(motion, view, i, {
    kind: 'vacated',
    timeS: Math.min(begunS - TURN_LATE_S - TURN_LATE_PER_STEP * stepS, motion.timeS[i]),
    timeSdS: Math.hypot(TURN_SD_S, TURN_SD_PER_STEP * stepS),
  });
}

/** A steady taxi began between two fixes, before the first that shows it. */
function slowedToTaxi(motion: Motion, view: StripView, i: number): FoundRollEnd {
  const stepS = Math.min(stepAt(motion.timeS, motion.timeS[i]), LATE_STEP_S);
  return movingEnd(motion, view, i, {
    kind: 'taxi',
    timeS: motion.timeS[i] - TAXI_LATE_S - TAXI_LATE_PER_STEP * stepS,
    timeSdS: Math.hypot(TAXI_SD_S, TAXI_SD_PER_STEP * stepS),
  });
}

/** How far off the axis a turn has begun, degrees, and how long it may take until it shows, seconds. */
const TURN_BEGUN_DEG = 8;
const TURN_LONGEST_S = 10;
/**
 * So much too late, and one sd, seconds, at once and for each second between fixes: a smoothed turn
 * begins before the turn, a taxi is seen at the fix after it began. Found on simulated landings that judge
 * nothing.
 */
const TURN_LATE_S = 0.35;
const TURN_LATE_PER_STEP = -0.37;
const TURN_SD_S = 0.5;
const TURN_SD_PER_STEP = 0.25;
const TAXI_LATE_S = 0.35;
const TAXI_LATE_PER_STEP = 0.5;
const TAXI_SD_S = 0.6;
const TAXI_SD_PER_STEP = 0.33;

/** The same end of a roll at the fix that showed it. */
export function endWhereFound(motion: Motion, view: StripView, end: FoundRollEnd): FoundRollEnd {
  const { kind, index, timeSdS } = end;
  return movingEnd(motion, view, index, { kind, timeS: motion.timeS[index], timeSdS });
}

function movingEnd(
  motion: Motion,
  view: StripView,
  index: number,
  { kind, timeS, timeSdS }: Pick<FoundRollEnd, 'kind' | 'timeS' | 'timeSdS'>,
): FoundRollEnd {
  const speedMps = valueAt(motion.timeS, motion.speedMps, timeS);
  return {
    ...{ kind, index, timeS, timeSdS },
    alongM: valueAt(motion.timeS, view.smoothAlongM, timeS),
    alongSdM: Math.hypot(motion.noise.horizontalSdM, timeSdS * speedMps),
    speedMps,
    speedSdMps: Math.hypot(
      ROLL.speedDoubtMps / 2,
      changeWithin(motion, motion.speedMps, timeS, timeSdS),
    ),
  };
}

/** Further beside than `mostM`, or off the axis by more than an angle, and staying so. */
function turnsOff(
  motion: Motion,
  view: StripView,
  mostM: number,
  i: number,
  limit: number,
): boolean {
  if (Math.abs(view.smoothCrossM[i]) > mostM) return true;
  const cosLimit = Math.cos((ROLL.turnedDeg * Math.PI) / 180);
  // Two fixes at least, also in a slow log: one alone may be off by its noise.
  const to = windowEnd(motion, i, limit, Math.max(ROLL.turnedForS, 1.1 * motion.medianIntervalS));
  if (to - i < 2) return false;
  // An aircraft that stands seems to move where positions are noisy or in steps, but not far.
  const { horizontalSdM, quantumM } = motion.noise;
  const leastM = Math.max(TURNED_SDS * horizontalSdM, TURNED_QUANTA * quantumM);
  for (let k = i; k < limit; k++) {
    if (motion.speedMps[k] < ROLL.turningMps) return false;
    if (view.forwardMps[k] > cosLimit * motion.speedMps[k]) return false;
    const movedM = Math.hypot(
      view.smoothAlongM[k] - view.smoothAlongM[i],
      view.smoothCrossM[k] - view.smoothCrossM[i],
    );
    if (k >= to - 1 && movedM > leastM) return true;
  }
  return false;
}

/** Least length of a turning off, in errors of one position and in those of its rounding: a step and a half, as smoothing overshoots. */
const TURNED_SDS = 3;
const TURNED_QUANTA = 5.2;

/**
 * Further from the centreline than this the aircraft has left the strip, metres. Where it rolled
 * beside the strip before it was slow, the strip is drawn beside the grass: it turns off from there.
 */
function mostBesideM(motion: Motion, view: StripView, slowIndex: number): number {
  const rolledM = Math.abs(view.smoothCrossM[Math.max(slowIndex - 1, 0)]);
  const edgeM = Math.max(view.strip.widthM / 2, rolledM) + ROLL.besideM;
  return Math.max(edgeM, ROLL.leastBesideM) + 2 * motion.noise.quantumM;
}

/** Slower than 10 kt and no longer slowing, or slower than 5 kt without coming to a standstill. */
function taxiesFrom(
  motion: Motion,
  view: StripView,
  mostM: number,
  i: number,
  limit: number,
): boolean {
  const speed = view.forwardMps[i];
  if (speed > 10 * MPS_PER_KNOT) return false;
  const to = windowEnd(motion, i, limit, Math.max(ROLL.taxiS, 2.1 * motion.medianIntervalS));
  const spanS = motion.timeS[to - 1] - motion.timeS[i];
  if (spanS < ROLL.taxiS * 0.7) return false;
  let slowest = Infinity;
  for (let k = i; k < to; k++) {
    if (turnsOff(motion, view, mostM, k, limit)) return false;
    slowest = Math.min(slowest, motion.speedMps[k]);
  }
  // Free rolling on grass goes on slowing; a steady taxi does not.
  const slowed = ROLL.taxiSlowingMps2 * Math.max(ROLL.taxiS, spanS);
  return slowest > Math.max(speed - slowed, ROLL.stoppedMps * 2);
}

/** First fix after a span of seconds from `i`, at most `limit`. */
function windowEnd(motion: Motion, i: number, limit: number, spanS: number): number {
  let to = i + 1;
  while (to < limit && motion.timeS[to] <= motion.timeS[i] + spanS) to++;
  return to;
}

/** Slope of the least-squares line through a column, per second. */
export function slope(timeS: Float64Array, column: Float64Array, from: number, to: number): number {
  const n = to - from;
  let meanT = 0;
  let meanY = 0;
  for (let i = from; i < to; i++) {
    meanT += timeS[i];
    meanY += column[i];
  }
  meanT /= n;
  meanY /= n;
  let cross = 0;
  let square = 0;
  for (let i = from; i < to; i++) {
    cross += (timeS[i] - meanT) * (column[i] - meanY);
    square += (timeS[i] - meanT) ** 2;
  }
  return cross / square;
}
