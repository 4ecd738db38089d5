/**
 * Heights over the strip on an approach: threshold crossing, gates, lowest height of a go-around.
 *
 * In: a measured approach and the flight's tied height offset. Out: the approach with its heights,
 * and with `go-around` told apart from `low-pass` and `overflight` where it did not touch.
 *
 * Source: definitions in docs/spec/measuring.md.
 */
import { positiveMixtureEstimate, tiltMixture } from '../numeric/posterior.ts';
import {
  isUndetermined,
  normalEstimate,
  undetermined,
  type Measured,
  type Undetermined,
} from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { METRES_PER_FOOT } from '../units/convert.ts';
import type { MeasuredApproach } from './approach.ts';
import { valueAt } from './arrival-data.ts';
import type { Approach, Gate, GoAround, Outcome, ThresholdCrossing } from './flight-event.ts';
import type { TiedOffset } from './ground-tie.ts';
import type { Pass } from './passes.ts';
import type { StripView } from './strip-view.ts';
import { ALONG, PASS, PASS_SHAPE, TIE } from './tuning.ts';

/** The approach with its heights; null where the pass was no approach at all (it never came down). */
export function addHeights(
  motion: Motion,
  measured: MeasuredApproach,
  offsetAt: (timeS: number) => TiedOffset,
): Approach | null {
  const { view, pass, lowPart } = measured;
  const heights = new Heights(motion, view, offsetAt);
  let approach = measured.approach;
  if (approach.outcome === 'go-around' || isUndetermined(approach.outcome)) {
    const lowest = heights.aboveAt(motion.timeS[lowPart.lowestIndex]);
    if (!isApproach(motion, view, pass, lowPart.lowestIndex)) return null;
    const outcome = passOutcome(motion, view, pass, lowPart.lowestIndex, lowest, approach.outcome);
    approach = {
      ...approach,
      outcome,
      goAround: outcome === 'overflight' ? null : goAround(motion, measured, lowest),
    };
  }
  return {
    ...approach,
    thresholdCrossing: thresholdCrossing(motion, view, pass, heights),
    gates: gates(motion, view, pass, heights, lowPart.lowestIndex),
  };
}

/** Heights of the wheels over the strip's surface, tied. */
class Heights {
  readonly #motion: Motion;
  readonly #view: StripView;
  readonly #offsetAt: (timeS: number) => TiedOffset;

  constructor(motion: Motion, view: StripView, offsetAt: (timeS: number) => TiedOffset) {
    this.#motion = motion;
    this.#view = view;
    this.#offsetAt = offsetAt;
  }

  /** Height at a time; never below the ground. */
  aboveAt(timeS: number): Measured {
    if (!this.#motion.hasHeight) return undetermined('the log has no heights');
    const recorded = valueAt(this.#motion.timeS, this.#view.smoothAboveM, timeS);
    if (Number.isNaN(recorded)) return undetermined('the log has no height here');
    const offset = this.#offsetAt(timeS);
    const above = {
      weight: offset.offset.weight,
      mean: offset.offset.mean.map((mean) => recorded - mean),
      sd: offset.offset.sd.map((sd) => Math.hypot(sd, this.#motion.noise.verticalSdM / 2)),
    };
    // Where nothing ties the height, that passes are mostly broken off low is all there is to go by.
    return positiveMixtureEstimate(offset.tied ? above : tiltMixture(above, TIE.lowScaleM));
  }

  /** Middle of the same, for finding where a height was passed; NaN without heights. */
  middleAt(i: number): number {
    return this.#view.smoothAboveM[i] - this.#offsetAt(this.#motion.timeS[i]).offsetM;
  }

  tiedAt(timeS: number): TiedOffset {
    return this.#offsetAt(timeS);
  }
}

/** A pass is an approach where it came down before its lowest point near the strip, or where no height can tell. */
function isApproach(motion: Motion, view: StripView, pass: Pass, lowest: number): boolean {
  const along = view.smoothAlongM[lowest];
  if (along > view.frame.farEndAlongM + PASS.lowestPastM) return false;
  if (!motion.hasHeight) return crossesStrip(view, pass);
  const level = view.smoothAboveM[lowest];
  let highest = level;
  for (let i = lowest; i >= 0 && motion.timeS[lowest] - motion.timeS[i] < PASS.descentS; i--) {
    highest = Math.max(highest, view.smoothAboveM[i]);
  }
  if (highest - level < PASS.descentM) return false;
  if (crossesStrip(view, pass)) return true;
  // Broken off before the strip: it must have climbed away again.
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
  return first < view.frame.nearEndAlongM && last > view.frame.farEndAlongM / 2;
}

function passOutcome(
  motion: Motion,
  view: StripView,
  pass: Pass,
  lowest: number,
  height: Measured,
  soFar: Approach['outcome'],
): Outcome | Undetermined {
  if (isUndetermined(height)) {
    return undetermined('without heights a touch, a pass and an overflight look alike');
  }
  if (height.low > PASS.overflightM) return 'overflight';
  if (height.high > PASS.overflightM && height.value > PASS.overflightM) {
    return undetermined('the height band straddles 400 ft: approach or overflight');
  }
  if (isUndetermined(soFar)) return soFar;
  return levelAlongStrip(motion, view, pass, lowest) ? 'low-pass' : 'go-around';
}

/** Flown along the strip near its lowest height for a while, rather than climbing at once. */
function levelAlongStrip(motion: Motion, view: StripView, pass: Pass, lowest: number): boolean {
  const limit = view.smoothAboveM[lowest] + PASS_SHAPE.levelM;
  let from = lowest;
  let to = lowest;
  while (from > pass.from && view.smoothAboveM[from - 1] < limit) from--;
  while (to + 1 < pass.to && view.smoothAboveM[to + 1] < limit) to++;
  const start = Math.max(view.smoothAlongM[from], view.frame.nearEndAlongM);
  const end = Math.min(view.smoothAlongM[to], view.frame.farEndAlongM);
  const levelS = motion.timeS[to] - motion.timeS[from];
  return levelS > PASS_SHAPE.levelS && end - start > PASS_SHAPE.levelShare * view.frame.lengthM;
}

function goAround(motion: Motion, measured: MeasuredApproach, lowest: Measured): GoAround {
  const { view, lowPart } = measured;
  const index = lowPart.lowestIndex;
  const intervalSd = Math.max(0.7, 0.6 * motion.medianIntervalS);
  const placeSd = Math.hypot(
    ALONG.driftSdM,
    view.strip.positionErrorM,
    intervalSd * view.forwardMps[index],
  );
  return {
    initiationTimeS: motion.hasHeight
      ? normalEstimate(initiation(motion, index), Math.max(1, intervalSd))
      : undetermined('the log has no heights'),
    lowestTimeS: motion.hasHeight
      ? normalEstimate(motion.timeS[index], intervalSd)
      : normalEstimate(motion.timeS[index], 5),
    lowestAboveM: lowest,
    lowestAlongM:
      view.stripId === null
        ? undetermined('no strip is known here')
        : motion.hasHeight
          ? normalEstimate(view.smoothAlongM[index], placeSd)
          : undetermined('the log has no heights'),
    contactProbability: lowPart.contactProbability,
  };
}

/** When the descent was broken: going back from the lowest point, the last time it sank at over half its steady rate. */
function initiation(motion: Motion, lowest: number): number {
  let steady = 0;
  for (let i = lowest; i >= 0 && motion.timeS[lowest] - motion.timeS[i] < 15; i--) {
    steady = Math.min(steady, motion.verticalSpeedMps[i]);
  }
  for (let i = lowest; i > 0 && motion.timeS[lowest] - motion.timeS[i] < 15; i--) {
    if (motion.verticalSpeedMps[i] <= 0.7 * steady) return motion.timeS[i];
  }
  return motion.timeS[lowest];
}

function thresholdCrossing(
  motion: Motion,
  view: StripView,
  pass: Pass,
  heights: Heights,
): ThresholdCrossing | Undetermined {
  if (view.stripId === null) return undetermined('no strip is known here');
  const timeS = crossingTime(motion, view, pass);
  if (timeS === null) return undetermined('the threshold was not crossed on this pass');
  const speed = valueAt(motion.timeS, view.forwardMps, timeS);
  const speedSd = valueAt(motion.timeS, motion.speedSdMps, timeS);
  const placeSd = Math.hypot(ALONG.driftSdM, view.strip.positionErrorM);
  return {
    timeS: normalEstimate(timeS, placeSd / Math.max(speed, 1)),
    aboveM: heights.aboveAt(timeS),
    crossM: normalEstimate(valueAt(motion.timeS, view.smoothCrossM, timeS), placeSd),
    groundSpeedMps: normalEstimate(speed, speedSd),
  };
}

function crossingTime(motion: Motion, view: StripView, pass: Pass): number | null {
  for (let i = Math.max(pass.from, 1); i < pass.to; i++) {
    const before = view.smoothAlongM[i - 1];
    const after = view.smoothAlongM[i];
    if (before < 0 && after >= 0) {
      const share = -before / (after - before);
      return motion.timeS[i - 1] + share * (motion.timeS[i] - motion.timeS[i - 1]);
    }
  }
  return null;
}

/** Heights in feet at which a final is looked at (definition). */
const GATE_HEIGHTS_FT = [500, 300, 200, 100, 50];

/** Gates passed on the way down, before the lowest point. */
function gates(
  motion: Motion,
  view: StripView,
  pass: Pass,
  heights: Heights,
  lowest: number,
): Gate[] {
  if (!motion.hasHeight || view.stripId === null) return [];
  const found: Gate[] = [];
  for (const heightFt of GATE_HEIGHTS_FT) {
    const heightM = heightFt * METRES_PER_FOOT;
    for (let i = lowest; i > pass.from; i--) {
      const after = heights.middleAt(i);
      const before = heights.middleAt(i - 1);
      if (!(before >= heightM && after < heightM)) continue;
      const share = (before - heightM) / (before - after);
      const timeS = motion.timeS[i - 1] + share * (motion.timeS[i] - motion.timeS[i - 1]);
      found.push(gateAt(motion, view, heights, heightFt, timeS));
      break;
    }
  }
  return found;
}

function gateAt(
  motion: Motion,
  view: StripView,
  heights: Heights,
  heightFt: number,
  timeS: number,
): Gate {
  const at = (column: Float64Array): number => valueAt(motion.timeS, column, timeS);
  const speed = at(view.forwardMps);
  const sink = -at(motion.verticalSpeedMps);
  const sinkSd = GATE_SINK_SD_MPS;
  const heightSd = heights.tiedAt(timeS).sdM;
  // A height off by dz moves the gate along the path by dz over its gradient.
  const gradient = Math.max(sink, 0.3) / Math.max(speed, 1);
  const placeSd = Math.hypot(ALONG.driftSdM, view.strip.positionErrorM, heightSd / gradient);
  const crossSd = Math.hypot(ALONG.driftSdM, view.strip.positionErrorM);
  const path = Math.atan2(sink, speed) * (180 / Math.PI);
  return {
    heightFt,
    timeS,
    alongM: normalEstimate(at(view.smoothAlongM), placeSd),
    crossM: normalEstimate(at(view.smoothCrossM), crossSd),
    groundSpeedMps: normalEstimate(speed, at(motion.speedSdMps)),
    descentRateMps: normalEstimate(sink, sinkSd),
    pathDeg: normalEstimate(path, (sinkSd / Math.max(speed, 1)) * (180 / Math.PI)),
  };
}

/** Error of a smoothed vertical speed from 1 Hz heights, m/s, one sd. */
const GATE_SINK_SD_MPS = 0.4;
