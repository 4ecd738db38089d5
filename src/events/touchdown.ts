/**
 * When and where did the wheels first touch?
 *
 * In: motion, strip view, a pass with contact and how its roll ended. Out: the posterior over
 * touchdown times with position and speed at each, from positions along the strip and heights over
 * it together. Touchdown is a change of regime, not a threshold of height: every candidate is
 * weighed by how well approach, float, roll and round-out around it explain the log.
 *
 * Source: Bayesian change-point analysis on a grid with linear models inside; models and priors in
 * touchdown-along.ts, touchdown-height.ts and tuning.ts.
 */
import { crossingAt } from '../numeric/crossing.ts';
import { isUndetermined, undetermined, type Undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { alongRows, firstAtOrAfter, heightsBetween } from './arrival-data.ts';
import { tooFarApart } from './coarse-log.ts';
import type { TouchdownPosterior } from './flight-event.ts';
import type { Manner } from './manner.ts';
import type { Pass } from './passes.ts';
import type { StripView } from './strip-view.ts';
import { weighAlong } from './touchdown-along.ts';
import { weighHeights } from './touchdown-height.ts';
import { combineEvidence } from './touchdown-posterior.ts';
import { TAKE_OFF } from './take-off-tuning.ts';
import { TOUCHDOWN } from './tuning.ts';

/** One arriving pass, and how its pilot arrives. */
export interface Arriving {
  readonly motion: Motion;
  readonly view: StripView;
  readonly pass: Pass;
  readonly manner: Manner;
}

/** What is known of the roll before the touchdown is sought. */
export interface RollContext {
  /** First fix that is slower than half the approach speed, or the slowest fix of a touch-and-go. */
  readonly slowIndex: number;
  /** Time after which the roll says nothing more: standstill, power for take-off, or the end of the log. */
  readonly endS: number;
  /** True where the roll went on into a take-off. */
  readonly powered: boolean;
}

/** The posterior over candidate times, or why there is none. */
export function locateTouchdown(
  { motion, view, pass, manner }: Arriving,
  roll: RollContext,
): TouchdownPosterior | Undetermined {
  let slowedS = slowDownTime(motion, view, pass, roll);
  const none = tooFarApart(motion, slowedS, 'where the wheels touched');
  if (none) return none;
  const search = (stepS: number, within: Span = EVER): TouchdownPosterior | Undetermined =>
    weighCandidates({ motion, view, pass, manner }, roll, slowedS, stepS, within);
  let rough = search(TOUCHDOWN.roughStepS);
  // Where the latest candidates are likely the search ended too early: an approach slowed down all
  // the way, or heights that lag behind. Without heights nothing but the speed can end it.
  const furtherSearches = motion.hasHeight ? TOUCHDOWN.furtherSearches : 0;
  for (let k = 0; k < furtherSearches && endsTooEarly(rough); k++) {
    slowedS += TOUCHDOWN.furtherS;
    const further = search(TOUCHDOWN.roughStepS);
    if (isUndetermined(further) || latest(further) <= latest(rough)) {
      slowedS -= TOUCHDOWN.furtherS;
      break;
    }
    rough = further;
  }
  return search(TOUCHDOWN.stepS, isUndetermined(rough) ? EVER : likelySpan(rough));
}

/** A span of time, seconds; both ends belong to it. */
interface Span {
  readonly fromS: number;
  readonly toS: number;
}

const EVER: Span = { fromS: -Infinity, toS: Infinity };

/**
 * From just before the first candidate that weighs anything to just after the last: where the logarithm
 * of the weight, taken as straight between candidates of the rough look, passes the least that counts.
 */
function likelySpan({ timeS, weight }: TouchdownPosterior): Span {
  const least = TOUCHDOWN.negligibleShare * Math.max(...weight);
  const first = weight.findIndex((each) => each > least);
  const last = weight.findLastIndex((each) => each > least);
  const reachS = (from: number, to: number): number => {
    const fallen = Math.log(least / weight[from]) / Math.log((weight[to] || 0) / weight[from]);
    const share = to < 0 || to >= weight.length ? 1 : fallen;
    return share * TOUCHDOWN.roughStepS + TOUCHDOWN.stepS;
  };
  return {
    fromS: timeS[first] - reachS(first, first - 1),
    toS: timeS[last] + reachS(last, last + 1),
  };
}

function endsTooEarly(
  posterior: TouchdownPosterior | Undetermined,
): posterior is TouchdownPosterior {
  return (
    !isUndetermined(posterior) &&
    posterior.weight[posterior.weight.length - 1] > TOUCHDOWN.edgeWeight
  );
}

function latest({ timeS }: TouchdownPosterior): number {
  return timeS[timeS.length - 1];
}

/** The posterior over the candidates around one guess of when the aircraft had slowed down. */
function weighCandidates(
  { motion, view, pass, manner }: Arriving,
  roll: RollContext,
  slowedS: number,
  stepS: number,
  within: Span,
): TouchdownPosterior | Undetermined {
  const wholeSearchS = candidates(motion, view, pass, roll, slowedS, stepS);
  const candidateS = wholeSearchS.filter((t) => t >= within.fromS && t <= within.toS);
  if (candidateS.length < 3) {
    return undetermined('too few fixes between the approach and the roll');
  }
  const fromS = Math.max(wholeSearchS[0] - TOUCHDOWN.leadS, straightFromS(motion, view, pass));
  const slowestUseful = TOUCHDOWN.latestShare * pass.referenceMps;
  const alongToS = roll.powered
    ? roll.endS
    : Math.min(
        timeBelow(motion, view, roll.slowIndex, slowestUseful, roll.endS),
        slowedS + TOUCHDOWN.alongTailS,
      );
  const rows = alongRows(motion, view, fromS, alongToS);
  if (rows.timeS.length < 6) {
    return undetermined(`only ${rows.timeS.length} fixes around the touchdown`);
  }
  const along = weighAlong(rows.timeS, rows.alongM, rows.noiseSdM, candidateS);
  if (!along) return undetermined('the positions around the touchdown do not fit together');
  const heightToS = roll.powered
    ? roll.endS + HEIGHT_AFTER_POWER_S
    : Math.min(roll.endS + TOUCHDOWN.afterStopS, slowedS + TOUCHDOWN.heightTailS);
  const heights = weighHeights(
    heightsBetween(motion, view, fromS, heightToS),
    candidateS,
    stepS === TOUCHDOWN.roughStepS ? 'rough' : 'close',
  );
  return combineEvidence(candidateS, along, heights, view, manner);
}

/**
 * From when on the pass flies straight down the strip, a moment on the log's clock: on a short curved
 * final the base turn ends within sight of the threshold, and no model of a straight path holds in it.
 * Straight is the course that was held over the strip: a strip may be drawn some degrees off.
 */
function straightFromS(motion: Motion, view: StripView, pass: Pass): number {
  const { velocityEastMps, velocityNorthMps, speedMps } = motion;
  const lastFixes = pass.to - LEAST_STRAIGHT_FIXES;
  let eastMps = 0;
  let northMps = 0;
  for (let i = pass.from; i < pass.to; i++) {
    if (i < lastFixes && view.smoothAlongM[i] < view.beginsAlongM) continue;
    eastMps += velocityEastMps[i];
    northMps += velocityNorthMps[i];
  }
  const sumMps = Math.hypot(eastMps, northMps);
  const cosLimit = Math.cos((TOUCHDOWN.straightDeg * Math.PI) / 180);
  const isTurning = (i: number): boolean => {
    const onCourse = velocityEastMps[i] * eastMps + velocityNorthMps[i] * northMps;
    return onCourse < cosLimit * speedMps[i] * sumMps;
  };
  let i = pass.from;
  while (i < lastFixes && view.smoothAlongM[i] < view.beginsAlongM && isTurning(i)) i++;
  return motion.timeS[i];
}

/** So many fixes at the end of a pass are used, however crooked. */
const LEAST_STRAIGHT_FIXES = 8;

/** After power for take-off the wheels stay down at least this long, seconds. */
const HEIGHT_AFTER_POWER_S = 1.5;

/** Last time before the roll's slow part at which the speed was still that of a float. */
function slowDownTime(motion: Motion, view: StripView, pass: Pass, roll: RollContext): number {
  const limit = TOUCHDOWN.slowedShare * speedOverThreshold(motion, view, pass, roll);
  for (let i = roll.slowIndex; i > pass.from; i--) {
    const before = view.forwardMps[i - 1];
    if (before >= limit) {
      const after = [motion.timeS[i], view.forwardMps[i]] as const;
      return crossingAt(limit, [motion.timeS[i - 1], before], after) ?? motion.timeS[i];
    }
  }
  return motion.timeS[pass.from];
}

/**
 * Speed at the last passage of 50 ft above the roll; that of the whole approach where no height tells
 * or where it was slower still. Many approaches are slowed down all the way, so the speed of long
 * final says little about the speed of a float.
 */
function speedOverThreshold(
  motion: Motion,
  view: StripView,
  pass: Pass,
  roll: RollContext,
): number {
  if (!motion.hasHeight) return pass.referenceMps;
  const screenM = view.smoothAboveM[roll.slowIndex] + TAKE_OFF.screenM;
  for (let i = roll.slowIndex; i > pass.from; i--) {
    if (view.smoothAboveM[i] > screenM) return Math.min(pass.referenceMps, view.forwardMps[i]);
  }
  return pass.referenceMps;
}

function candidates(
  motion: Motion,
  view: StripView,
  pass: Pass,
  roll: RollContext,
  slowedS: number,
  stepS: number,
): Float64Array {
  const latestMps = TOUCHDOWN.latestShare * pass.referenceMps;
  const last = Math.min(
    slowedS + TOUCHDOWN.searchAfterS,
    timeBelow(motion, view, roll.slowIndex, latestMps, roll.endS) - 1,
  );
  const first = Math.max(last - TOUCHDOWN.searchBeforeS, straightFromS(motion, view, pass) + 1);
  const count = Math.max(0, Math.floor((last - first) / stepS) + 1);
  return Float64Array.from({ length: count }, (_, k) => last - (count - 1 - k) * stepS);
}

/** First time from `fromIndex` on at which the forward speed is below a limit; `endS` where it never is before. */
function timeBelow(
  motion: Motion,
  view: StripView,
  fromIndex: number,
  limitMps: number,
  endS: number,
): number {
  const end = Math.min(motion.length, firstAtOrAfter(motion.timeS, endS) + 1);
  for (let i = fromIndex; i < end; i++) {
    if (view.forwardMps[i] < limitMps) return Math.min(motion.timeS[i], endS);
  }
  return endS;
}
