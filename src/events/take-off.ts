/**
 * Brake release, lift-off, 50 ft and the halfway check of one departure.
 *
 * In: motion, strip view, a departing pass (or the rest of a touch-and-go from its slowest fix).
 * Out: a TakeOff with bands; `rejected` where the aircraft slowed down again on the strip.
 *
 * Source: definitions in docs/spec/measuring.md; 70 % at half way: rule of thumb in FAA guidance on
 * half-way signs, from memory.
 */
import { mixtureEstimate, normaliseLogWeights, type Mixture } from '../numeric/posterior.ts';
import {
  isUndetermined,
  normalEstimate,
  undetermined,
  type Estimate,
  type Measured,
  type Undetermined,
} from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter, satelliteRows, valueAt } from './arrival-data.ts';
import type { HalfwayCheck, TakeOff } from './flight-event.ts';
import { weighLiftOff } from './lift-off.ts';
import { slope } from './roll-end.ts';
import type { StripView } from './strip-view.ts';
import { ALONG, TAKE_OFF } from './tuning.ts';

/** Where a departure begins: from a standstill or slow taxi, or rolling on after a touch. */
export interface DepartureRange {
  readonly from: number;
  readonly to: number;
  readonly rolling: boolean;
}

/** Measures one departure that left the ground. */
export function measureTakeOff(motion: Motion, view: StripView, range: DepartureRange): TakeOff {
  const release = range.rolling ? null : brakeRelease(motion, view, range);
  const lift = liftOff(motion, view, range, release?.timeS ?? motion.timeS[range.from]);
  const base = {
    strip: view.stripId,
    direction: view.stripId === null ? null : view.direction.designator,
    from: range.from,
    to: range.to,
    notes: view.listed ? [] : [`the strip does not list direction ${view.direction.designator}`],
  };
  const known = view.stripId !== null;
  const positionSd = known ? view.strip.positionErrorM : 0;
  const along = (mixture: Mixture): Measured =>
    known ? mixtureEstimate(widen(mixture, positionSd)) : undetermined(NO_STRIP);
  const releaseOut = release
    ? {
        timeS: normalEstimate(release.timeS, release.timeSdS),
        alongM: known
          ? normalEstimate(release.alongM, Math.hypot(release.alongSdM, ALONG.driftSdM, positionSd))
          : undetermined(NO_STRIP),
      }
    : undetermined('the run began rolling, after a touch');
  const rollFrom = release ?? null;
  const groundRollM = rollFrom
    ? mixtureEstimate({
        weight: lift.weight,
        mean: lift.alongM.map((x) => x - rollFrom.alongM),
        sd: lift.weight.map(() => Math.hypot(rollFrom.alongSdM, 0.5)),
      })
    : undetermined('no brake release: the run began rolling');
  const liftTime = mixtureEstimate(lift.time);
  const liftSpeed = mixtureEstimate(lift.speed);
  const liftAlong = along(lift.along);
  return {
    kind: 'take-off',
    ...base,
    brakeRelease: releaseOut,
    liftOff: { timeS: liftTime, alongM: liftAlong, groundSpeedMps: liftSpeed },
    groundRollM,
    screen: screenPoint(motion, view, range, liftTime, rollFrom),
    stripLeftM: isUndetermined(liftAlong)
      ? liftAlong
      : mirror(view.direction.toraM - view.direction.displacedM, liftAlong),
    halfway: halfway(motion, view, range, liftSpeed),
  };
}

/** A run that reached a good part of flying speed and ended on the strip. */
export function rejectedTakeOff(motion: Motion, view: StripView, range: DepartureRange): TakeOff {
  const release = brakeRelease(motion, view, range);
  const reason = undetermined('the take-off was rejected');
  const known = view.stripId !== null;
  return {
    kind: 'rejected',
    strip: view.stripId,
    direction: known ? view.direction.designator : null,
    from: range.from,
    to: range.to,
    brakeRelease: {
      timeS: normalEstimate(release.timeS, release.timeSdS),
      alongM: known
        ? normalEstimate(
            release.alongM,
            Math.hypot(release.alongSdM, ALONG.driftSdM, view.strip.positionErrorM),
          )
        : undetermined(NO_STRIP),
    },
    liftOff: reason,
    groundRollM: reason,
    screen: reason,
    stripLeftM: reason,
    halfway: reason,
    notes: [],
  };
}

const NO_STRIP = 'no strip is known here';

/** `from` less an estimate: low and high change places. */
function mirror(from: number, estimate: Estimate): Estimate {
  return {
    value: from - estimate.value,
    low: from - estimate.high,
    high: from - estimate.low,
  };
}

function widen(mixture: Mixture, sdM: number): Mixture {
  return { ...mixture, sd: mixture.sd.map((sd) => Math.hypot(sd, sdM)) };
}

interface Release {
  readonly timeS: number;
  readonly timeSdS: number;
  readonly alongM: number;
  readonly alongSdM: number;
}

/** Start of the continuous acceleration: where the line through the early speeds meets the speed before. */
function brakeRelease(motion: Motion, view: StripView, range: DepartureRange): Release {
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
  const from = Math.min(start + 1, third);
  const acceleration =
    third - from >= 2 ? slope(motion.timeS, view.forwardMps, from, third + 1) : NaN;
  const middle = Math.floor((from + third) / 2);
  const usable = acceleration > 0.1;
  const timeS = usable
    ? Math.min(
        motion.timeS[third],
        Math.max(
          motion.timeS[start] - 2,
          motion.timeS[middle] - (view.forwardMps[middle] - before) / acceleration,
        ),
      )
    : motion.timeS[start];
  return {
    timeS,
    timeSdS: Math.max(0.6, 0.5 * motion.medianIntervalS),
    alongM: standingAlong(motion, view, start, timeS),
    alongSdM: Math.hypot(motion.noise.horizontalSdM, before > 0 ? before * 0.8 : 0.6),
  };
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

function firstIndex(from: number, to: number, test: (i: number) => boolean): number {
  for (let i = from; i < to; i++) if (test(i)) return i;
  return to - 1;
}

interface LiftOffPosterior {
  readonly weight: Float64Array;
  readonly alongM: Float64Array;
  readonly time: Mixture;
  readonly along: Mixture;
  readonly speed: Mixture;
}

function liftOff(
  motion: Motion,
  view: StripView,
  range: DepartureRange,
  releaseS: number,
): LiftOffPosterior {
  const candidateS = liftOffCandidates(motion, view, range);
  const last = candidateS[candidateS.length - 1];
  const rows = satelliteRows(motion, view, releaseS - 3, last + TAKE_OFF.afterS);
  const weight = rows ? weighLiftOff(rows, candidateS) : new Float64Array(candidateS.length);
  if (!weight.some((value) => Number.isFinite(value))) weight.fill(0);
  normaliseLogWeights(weight);
  const alongM = candidateS.map((t) => valueAt(motion.timeS, view.smoothAlongM, t));
  const speedMps = candidateS.map((t) => valueAt(motion.timeS, view.forwardMps, t));
  const spread = (sd: number): Float64Array => new Float64Array(candidateS.length).fill(sd);
  return {
    weight,
    alongM,
    time: { weight, mean: candidateS, sd: spread(TAKE_OFF.stepS / 2) },
    along: { weight, mean: alongM, sd: spread(ALONG.driftSdM) },
    speed: { weight, mean: speedMps, sd: spread(0.4) },
  };
}

/** Candidate times: from a share of the top speed to where the aircraft is surely in the air. */
function liftOffCandidates(motion: Motion, view: StripView, range: DepartureRange): Float64Array {
  let fastest = 0;
  for (let i = range.from; i < range.to; i++) fastest = Math.max(fastest, view.forwardMps[i]);
  const early = range.rolling
    ? range.from
    : firstIndex(
        range.from,
        range.to,
        (i) => view.forwardMps[i] > TAKE_OFF.earliestShare * fastest,
      );
  let late = range.to - 1;
  if (motion.hasHeight) {
    let level = 0;
    for (let i = range.from; i <= early; i++) level += view.smoothAboveM[i];
    level /= early - range.from + 1;
    late = firstIndex(early, range.to, (i) => view.smoothAboveM[i] > level + TAKE_OFF.screenM);
  }
  const firstS = motion.timeS[early];
  const lastS = Math.min(motion.timeS[late], firstS + 60);
  const count = Math.max(2, Math.floor((lastS - firstS) / TAKE_OFF.stepS) + 1);
  return Float64Array.from({ length: count }, (_, k) => firstS + k * TAKE_OFF.stepS);
}

/** 50 ft over the surface: the level of the run carried through the first seconds of flight. */
function screenPoint(
  motion: Motion,
  view: StripView,
  range: DepartureRange,
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
const SCREEN_DRIFT_SD_M = 1.6;

function bandOf(value: number, low: number, high: number): Estimate | null {
  if (Number.isNaN(value)) return null;
  const upper = Number.isNaN(high) ? value + (value - low) : high;
  return { value, low: Math.min(low, value), high: Math.max(upper, value) };
}

function halfway(
  motion: Motion,
  view: StripView,
  range: DepartureRange,
  liftSpeed: Estimate,
): HalfwayCheck | Undetermined {
  if (view.stripId === null) return undetermined(NO_STRIP);
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
