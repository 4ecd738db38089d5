/**
 * Heights over the strip on an approach: threshold crossing, gates, lowest height of a go-around.
 *
 * In: a measured approach and the flight's tied height offset. Out: the approach with its heights,
 * and with `go-around` told apart from `low-pass` and `overflight` where it did not touch.
 *
 * Source: definitions in docs/spec/measuring.md.
 */
import { crossingAt } from '../numeric/crossing.ts';
import {
  isUndetermined,
  normalEstimate,
  undetermined,
  Z90,
  type Estimate,
  type Measured,
  type Undetermined,
} from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import type { MeasuredApproach } from './measured-approach.ts';
import { stepAt, valueAt } from './arrival-data.ts';
import type { Approach, GoAround, Outcome } from './flight-event.ts';
import { gates, thresholdCrossing } from './gates.ts';
import type { TiedOffset } from './ground-tie.ts';
import { initiation } from './initiation.ts';
import { airDistance, landingDistance } from './landing-distance.ts';
import { perhapsLowest, type LowestSpan } from './lowest-moment.ts';
import type { Pass } from './passes.ts';
import type { StripView } from './strip-view.ts';
import { TiedHeights } from './tied-heights.ts';
import { ALONG, PASS, PASS_SHAPE } from './tuning.ts';

/** The approach with its heights; null where the pass was no approach at all (it never came down). */
export function addHeights(
  measured: MeasuredApproach,
  offsetAt: (timeS: number) => TiedOffset,
): Approach | null {
  const { motion, view, pass, lowPart } = measured;
  const heights = new TiedHeights(motion, view, offsetAt);
  let approach = measured.approach;
  const said = approach.saidContact?.refused === null ? approach.saidContact : null;
  const isOnGround = approach.posterior !== null || said?.touched === true;
  if (approach.outcome === 'go-around' || (isUndetermined(approach.outcome) && !isOnGround)) {
    const lowestS = heights.momentOf(motion.timeS[lowPart.lowestIndex]);
    if (endsOverStrip(motion, view, pass, lowPart.lowestIndex)) {
      approach = { ...approach, outcome: undetermined(LOG_ENDS), goAround: null };
    } else {
      // A pass that the pilot says something of stays: a word that nobody sees cannot be taken back.
      const isSaid = approach.saidContact !== null;
      if (!isSaid && !isApproach(motion, view, pass, lowPart.lowestIndex)) return null;
      const soFar = approach.outcome;
      const outcome = passOutcome(
        motion,
        view,
        pass,
        lowPart.lowestIndex,
        heights.roughlyAboveAt(lowestS),
        soFar,
        said !== null,
      );
      const isNone = outcome === 'overflight' || Number.isNaN(approach.contactProbability);
      const broken = isNone ? null : goAround(measured, heights);
      approach = { ...approach, outcome, goAround: broken };
    }
  }
  const passed = gates(motion, view, pass, heights, lowPart.lowestIndex);
  const crossing = rolledOver(thresholdCrossing(motion, view, pass, heights), approach.touchdown);
  const start = { view, crossing, gates: passed };
  return {
    ...approach,
    thresholdCrossing: start.crossing,
    gates: passed,
    airDistanceM: airDistance(approach, start),
    landingDistanceM: landingDistance(approach, start),
  };
}

/** A threshold that the aircraft may have rolled over: then it was on the ground there, with the probability of that. */
function rolledOver(
  crossing: Approach['thresholdCrossing'],
  touchdown: Approach['touchdown'],
): Approach['thresholdCrossing'] {
  if (isUndetermined(crossing) || isUndetermined(touchdown)) return crossing;
  const { aboveM } = crossing;
  const { shortProbability } = touchdown;
  // Less than this and the band of nine in ten leaves it out.
  if (isUndetermined(aboveM) || shortProbability < 0.05) return crossing;
  const value = shortProbability < 0.5 ? aboveM.value : 0;
  const high = shortProbability < 0.95 ? aboveM.high : 0;
  return { ...crossing, aboveM: { value, low: 0, high } };
}

const LOG_ENDS = 'the log ends over the strip before it shows a landing or a climb';

/** True where the log came down to the strip and ends over it without having climbed again. */
function endsOverStrip(motion: Motion, view: StripView, pass: Pass, lowest: number): boolean {
  if (!motion.hasHeight || !endsOver(motion, view, pass)) return false;
  const riseM = view.smoothAboveM[pass.to - 1] - view.smoothAboveM[lowest];
  return riseM < PASS.climbM && cameDown(motion, view, lowest);
}

/** True where the log ends over the strip. */
function endsOver(motion: Motion, view: StripView, pass: Pass): boolean {
  if (pass.to < motion.length) return false;
  const last = view.smoothAlongM[pass.to - 1];
  return last >= view.beginsAlongM && last <= view.endsAlongM;
}

/** True where it came down by `PASS.descentM` within `PASS.descentS` before its lowest point. */
function cameDown(motion: Motion, view: StripView, lowest: number): boolean {
  const level = view.smoothAboveM[lowest];
  for (let i = lowest; i >= 0 && motion.timeS[lowest] - motion.timeS[i] < PASS.descentS; i--) {
    if (view.smoothAboveM[i] - level >= PASS.descentM) return true;
  }
  return false;
}

/** A pass is an approach where it came down before its lowest point near the strip, or where no height can tell. */
function isApproach(motion: Motion, view: StripView, pass: Pass, lowest: number): boolean {
  const along = view.smoothAlongM[lowest];
  if (along > view.endsAlongM + PASS.lowestPastM) return false;
  if (!motion.hasHeight) {
    const cameIn = view.smoothAlongM[pass.from] < view.beginsAlongM;
    return crossesStrip(view, pass) || (cameIn && endsOver(motion, view, pass));
  }
  if (!cameDown(motion, view, lowest)) return false;
  if (crossesStrip(view, pass)) return true;
  // Broken off before the strip: it must have climbed away again.
  const level = view.smoothAboveM[lowest];
  const endS = motion.timeS[lowest] + PASS.climbS;
  for (let i = lowest; i < motion.length && motion.timeS[i] < endS; i++) {
    if (view.smoothAboveM[i] - level > PASS.climbM) return true;
  }
  return false;
}

/** True where the pass ran over a good part of the strip. */
function crossesStrip(view: StripView, pass: Pass): boolean {
  const first = view.smoothAlongM[pass.from];
  const last = view.smoothAlongM[pass.to - 1];
  return first < view.beginsAlongM && last > view.endsAlongM / 2;
}

function passOutcome(
  motion: Motion,
  view: StripView,
  pass: Pass,
  lowest: number,
  height: Measured,
  soFar: Approach['outcome'],
  isPassSaid: boolean,
): Outcome | Undetermined {
  if (isUndetermined(height)) {
    if (isPassSaid) return 'go-around';
    return undetermined('without heights a touch, a pass and an overflight look alike');
  }
  if (height.low > PASS.overflightM) return 'overflight';
  if (height.high > PASS.overflightM && height.value > PASS.overflightM) {
    return undetermined('the height band straddles 400 ft: approach or overflight');
  }
  if (isUndetermined(soFar)) return soFar;
  return levelAlongStrip(motion, view, pass, lowest, height.value) ? 'low-pass' : 'go-around';
}

/** Flown along most of the strip without climbing much from its lowest point, rather than climbing at once. */
function levelAlongStrip(
  motion: Motion,
  view: StripView,
  pass: Pass,
  lowest: number,
  heightM: number,
): boolean {
  let riseM = 0;
  let riseS = 0;
  let first = -1;
  let last = -1;
  for (let i = pass.from; i < pass.to; i++) {
    const along = view.smoothAlongM[i];
    if (along > view.endsAlongM) break;
    if (i > lowest && view.smoothAboveM[i] - view.smoothAboveM[lowest] > riseM) {
      riseM = view.smoothAboveM[i] - view.smoothAboveM[lowest];
      riseS = motion.timeS[i] - motion.timeS[lowest];
    }
    if (along < view.beginsAlongM) continue;
    if (first < 0) first = i;
    last = i;
  }
  if (first < 0) return false;
  const { levelM, levelOfHeight, levelMostM, levelClimbMps, levelShare, levelS } = PASS_SHAPE;
  const slackM = Math.min(levelMostM, Math.max(levelM, levelOfHeight * heightM));
  // Between the fixes at the ends and their neighbours off the strip lies one step more, half at each end.
  const stepM = motion.medianIntervalS * view.forwardMps[last];
  const flownM = view.smoothAlongM[last] - view.smoothAlongM[first] + stepM;
  return (
    (riseM < slackM || riseM < Math.min(levelMostM, levelClimbMps * riseS)) &&
    flownM > levelShare * view.frame.lengthM &&
    motion.timeS[last] - motion.timeS[first] + motion.medianIntervalS > levelS
  );
}

function goAround(
  { motion, view, pass, lowPart }: MeasuredApproach,
  heights: TiedHeights,
): GoAround {
  const { timeS, hasHeight } = motion;
  const index = lowPart.lowestIndex;
  const lowestTimeS = hasHeight
    ? lowestTime(motion, heights, index, perhapsLowest(motion, view, pass, index))
    : normalEstimate(timeS[index], WITHOUT_HEIGHTS_SD_S);
  const begunS = heights.momentOf(initiation(motion, index));
  const begunSdS = Math.hypot(momentSdS(motion, begunS, LEAST_BEGUN_SD_S), heights.lateSdS);
  return {
    initiationTimeS: hasHeight
      ? normalEstimate(begunS, begunSdS)
      : undetermined('the log has no heights'),
    lowestTimeS,
    lowestAboveM: heights.aboveAt(heights.momentOf(timeS[index])),
    lowestAlongM:
      view.stripId === null
        ? undetermined('no strip is known here')
        : hasHeight
          ? lowestPlace(motion, view, lowestTimeS)
          : undetermined('the log has no heights'),
    contactProbability: lowPart.contactProbability,
  };
}

/** The moment of the lowest height: between fixes, as late as heights may be, and wherever the pass was as low. */
function lowestTime(
  motion: Motion,
  heights: TiedHeights,
  index: number,
  { fromS, toS }: LowestSpan,
): Estimate {
  const lowestS = heights.momentOf(levelS(motion, index));
  const momentS = Z90 * momentSdS(motion, lowestS, LEAST_LOWEST_SD_S);
  const lateS = Z90 * heights.lateSdS;
  const before = Math.max(momentS, lowestS - heights.momentOf(fromS));
  const after = Math.max(momentS, heights.momentOf(toS) - lowestS);
  return {
    value: lowestS,
    low: lowestS - Math.hypot(lateS, before),
    high: lowestS + Math.hypot(lateS, after),
  };
}

/** Where the aircraft was then, alongM: with the errors of receiver and strip. */
function lowestPlace(motion: Motion, view: StripView, { value, low, high }: Estimate): Estimate {
  const at = (momentS: number): number => valueAt(motion.timeS, view.smoothAlongM, momentS);
  const placeM = Z90 * Math.hypot(ALONG.driftSdM, placeSdM(view.strip));
  const alongM = at(value);
  return {
    value: alongM,
    low: alongM - Math.hypot(placeM, alongM - at(low)),
    high: alongM + Math.hypot(placeM, at(high) - alongM),
  };
}

/** When the sinking ended beside the lowest fix, seconds: in the step to the one before or after it. */
function levelS({ timeS, verticalSpeedMps: upMps, length }: Motion, lowest: number): number {
  const other = upMps[lowest] < 0 ? lowest + 1 : lowest - 1;
  if (other < 0 || other >= length) return timeS[lowest];
  const beside = [timeS[other], upMps[other]] as const;
  return crossingAt(0, [timeS[lowest], upMps[lowest]], beside) ?? timeS[lowest];
}

/** What a moment of the height's course may be off by, one sd, seconds: more where fixes there lie far apart. */
function momentSdS({ timeS }: Motion, atS: number, leastS: number): number {
  return Math.max(leastS, STEP_SHARE * stepAt(timeS, atS));
}

const LEAST_LOWEST_SD_S = 0.7;
const LEAST_BEGUN_SD_S = 0.9;
const STEP_SHARE = 0.35;
const WITHOUT_HEIGHTS_SD_S = 5;
