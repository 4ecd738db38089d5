/**
 * Brake release, lift-off, 50 ft and the halfway check of one departure.
 *
 * In: motion, strip view, a departing pass (or the rest of a touch-and-go from its slowest fix).
 * Out: a TakeOff with bands; `rejected` where the aircraft slowed down again on the strip.
 *
 * Source: definitions in docs/spec/measuring.md.
 */
import { crossingAt, type Reading } from '../numeric/crossing.ts';
import { mixtureEstimate, normaliseLogWeights, type Mixture } from '../numeric/posterior.ts';
import {
  cutBelow,
  isUndetermined,
  normalEstimate,
  undetermined,
  type Estimate,
  type Measured,
} from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter, heightsBetween, valueAt } from './arrival-data.ts';
import { brakeRelease, firstIndex, type DepartureRange, type Release } from './brake-release.ts';
import { tooFarApart } from './coarse-log.ts';
import type { TakeOff } from './flight-event.ts';
import { halfwayCheck } from './halfway-check.ts';
import { weighLiftOff } from './lift-off.ts';
import { percentile } from './passes.ts';
import { screenPoint } from './screen-point.ts';
import { endsUnknown, type StripView } from './strip-view.ts';
import { TAKE_OFF } from './take-off-tuning.ts';
import { ALONG } from './tuning.ts';

/** Measures one departure that left the ground. */
export function measureTakeOff(motion: Motion, view: StripView, range: DepartureRange): TakeOff {
  const release = range.rollingSinceS === null ? brakeRelease(motion, view, range) : null;
  const base = {
    kind: 'take-off',
    launch: null,
    strip: view.stripId,
    direction: view.stripId === null ? null : view.direction.designator,
    from: range.from,
    to: range.to,
    notes: view.listedForTakeOff
      ? []
      : [`the strip does not list direction ${view.direction.designator} for taking off`],
  } as const;
  const known = view.stripId !== null;
  const positionSd = known ? placeSdM(view.strip) : 0;
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
  const none = tooFarApart(motion, motion.timeS[range.from], 'where the wheels left the ground');
  if (none) {
    return {
      ...base,
      brakeRelease: releaseOut,
      liftOff: { timeS: liftOffSpan(motion, view, range), alongM: none, groundSpeedMps: none },
      groundRollM: none,
      screen: none,
      stripLeftM: none,
      halfway: none,
    };
  }
  const lift = liftOff(motion, view, range, release);
  const rollFrom = release ?? null;
  const groundRollM = rollFrom
    ? cutBelow(
        mixtureEstimate({
          weight: lift.weight,
          mean: lift.alongM.map((x) => x - rollFrom.alongM),
          sd: lift.stepSdM.map((stepSdM) => Math.hypot(rollFrom.alongSdM, stepSdM, 0.5)),
        }),
        0,
      )
    : undetermined('no brake release: the run began rolling');
  const liftTime = mixtureEstimate(lift.time);
  const liftSpeed = mixtureEstimate(lift.speed);
  const liftAlong = along(lift.along);
  return {
    ...base,
    brakeRelease: releaseOut,
    liftOff: { timeS: liftTime, alongM: liftAlong, groundSpeedMps: liftSpeed },
    groundRollM,
    screen: screenPoint(motion, view, liftTime, release),
    stripLeftM: isUndetermined(liftAlong)
      ? liftAlong
      : (endsUnknown(view) ?? mirror(view.direction.toraM - view.direction.displacedM, liftAlong)),
    halfway: halfwayCheck(motion, view, range, liftSpeed, liftTime),
  };
}

/** A run that reached a good part of flying speed and ended on the strip. */
export function rejectedTakeOff(motion: Motion, view: StripView, range: DepartureRange): TakeOff {
  const release = brakeRelease(motion, view, range);
  const reason = undetermined('the take-off was rejected');
  const known = view.stripId !== null;
  return {
    kind: 'rejected',
    launch: null,
    strip: view.stripId,
    direction: known ? view.direction.designator : null,
    from: range.from,
    to: range.to,
    brakeRelease: {
      timeS: normalEstimate(release.timeS, release.timeSdS),
      alongM: known
        ? normalEstimate(
            release.alongM,
            Math.hypot(release.alongSdM, ALONG.driftSdM, placeSdM(view.strip)),
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

interface LiftOffPosterior {
  readonly weight: Float64Array;
  readonly alongM: Float64Array;
  /** A candidate stands for its step, in which the aircraft moved on evenly: standard deviation of the place in it. */
  readonly stepSdM: Float64Array;
  readonly time: Mixture;
  readonly along: Mixture;
  readonly speed: Mixture;
}

function liftOff(
  motion: Motion,
  view: StripView,
  range: DepartureRange,
  release: Release | null,
): LiftOffPosterior {
  const candidateS = liftOffCandidates(motion, view, range);
  const last = candidateS[candidateS.length - 1];
  // The ground's level: all of the run, and some standing before it.
  const groundFromS = release ? release.timeS - STANDING_S : motion.timeS[range.from];
  const fromS = Math.min(groundFromS, range.rollingSinceS ?? groundFromS);
  const heights = heightsBetween(motion, view, fromS, last + TAKE_OFF.afterS);
  const fromHeights = heights && weighLiftOff(heights, candidateS);
  const usual = fromHeights ? TAKE_OFF.usualSpeed : TAKE_OFF.usualSpeedAlone;
  const fromSpeed = weighBySpeed(motion, view, range, candidateS, usual);
  const weight = fromHeights ? fromHeights.map((each, k) => each + fromSpeed[k]) : fromSpeed;
  if (!weight.some((value) => Number.isFinite(value))) weight.fill(0);
  normaliseLogWeights(weight);
  const alongM = candidateS.map((t) => valueAt(motion.timeS, view.smoothAlongM, t));
  const speedMps = candidateS.map((t) => valueAt(motion.timeS, view.forwardMps, t));
  const stepSdM = speedMps.map((speed) => (speed * TAKE_OFF.stepS) / Math.sqrt(12));
  const spread = (sd: number): Float64Array => new Float64Array(candidateS.length).fill(sd);
  return {
    weight,
    alongM,
    stepSdM,
    time: { weight, mean: candidateS, sd: spread(TAKE_OFF.stepS / 2) },
    along: {
      weight,
      mean: alongM,
      sd: stepSdM.map((sd) => Math.hypot(ALONG.driftSdM, sd)),
    },
    speed: { weight, mean: speedMps, sd: spread(0.4) },
  };
}

/** Seconds of standing before the run whose heights count. */
const STANDING_S = 3;

/** Log weight of every candidate by the usual lift-off speed, as a share of the speed in the first climb. */
function weighBySpeed(
  motion: Motion,
  view: StripView,
  range: DepartureRange,
  candidateS: Float64Array,
  usual: { readonly share: number; readonly sd: number },
): Float64Array {
  // The first climb may turn: its speed is looked for as long as its heights are.
  const untilS = candidateS[candidateS.length - 1] + TAKE_OFF.afterS;
  const to = Math.max(range.to, firstAtOrAfter(motion.timeS, untilS));
  const fastest = percentile(motion.speedMps.slice(range.from, to), 0.8);
  return candidateS.map((t) => {
    const share = valueAt(motion.timeS, view.forwardMps, t) / fastest;
    const gap = (share - usual.share) / usual.sd;
    return -(gap * gap) / 2;
  });
}

/** From the fix before the first candidate to the last: when the wheels left the ground in a log too slow to say more. */
function liftOffSpan(motion: Motion, view: StripView, range: DepartureRange): Estimate {
  const candidateS = liftOffCandidates(motion, view, range);
  const firstS = candidateS[0];
  const low = motion.timeS[Math.max(range.from, firstAtOrAfter(motion.timeS, firstS) - 1)];
  const high = candidateS[candidateS.length - 1];
  return { value: (low + high) / 2, low, high };
}

/** Candidate times: from a share of the top speed, or from about the power of a touch-and-go, to where the aircraft is surely in the air. */
function liftOffCandidates(motion: Motion, view: StripView, range: DepartureRange): Float64Array {
  let fastest = 0;
  for (let i = range.from; i < range.to; i++) fastest = Math.max(fastest, view.forwardMps[i]);
  const leastMps = TAKE_OFF.earliestShare * fastest;
  const early =
    range.rollingSinceS === null
      ? firstIndex(range.from, range.to, (i) => view.forwardMps[i] > leastMps)
      : range.from;
  // Without heights: at the latest where the speed of the first climb is reached.
  const climbMps = percentile(view.forwardMps.slice(range.from, range.to), 0.8);
  let late = firstIndex(early, range.to, (i) => view.forwardMps[i] >= climbMps);
  if (motion.hasHeight) {
    let level = 0;
    for (let i = range.from; i <= early; i++) level += view.smoothAboveM[i];
    level /= early - range.from + 1;
    late = firstIndex(early, range.to, (i) => view.smoothAboveM[i] > level + TAKE_OFF.screenM);
  }
  const firstS =
    range.rollingSinceS === null
      ? passesSpeedS(motion, view, early, leastMps)
      : Math.max(range.rollingSinceS, motion.timeS[range.from] - SLOWEST_DOUBT_S);
  const lastS = Math.min(motion.timeS[late], firstS + 60);
  const count = Math.max(2, Math.floor((lastS - firstS) / TAKE_OFF.stepS) + 1);
  return Float64Array.from({ length: count }, (_, k) => firstS + k * TAKE_OFF.stepS);
}

/** When a speed was passed in the step up to a fix, seconds, by a straight line; the fix itself where it was not passed there. */
function passesSpeedS(motion: Motion, view: StripView, i: number, speedMps: number): number {
  if (i === 0) return motion.timeS[0];
  const before: Reading = [motion.timeS[i - 1], view.forwardMps[i - 1]];
  const after: Reading = [motion.timeS[i], view.forwardMps[i]];
  return crossingAt(speedMps, before, after) ?? motion.timeS[i];
}

/** How well the slowest moment of a touch-and-go is known, seconds. */
const SLOWEST_DOUBT_S = 1;
