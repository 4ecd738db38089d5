/**
 * Where was the aircraft on final: over the threshold and at the gates?
 *
 * In: motion, strip view, an arriving pass, tied heights. Out: the threshold crossing, the gates at
 * 500, 300, 200, 100 and 50 ft, and where the landing distance is counted from.
 *
 * Source: definitions in docs/spec/measuring.md.
 */
import { crossingAt, type Reading } from '../numeric/crossing.ts';
import { normalEstimate, undetermined, type Undetermined } from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import { METRES_PER_FOOT } from '../units/convert.ts';
import { valueAt } from './arrival-data.ts';
import type { Gate, ThresholdCrossing } from './flight-event.ts';
import { FINAL } from './gate-tuning.ts';
import type { Pass } from './passes.ts';
import { changeWithin, speedErrors, type SpeedErrors } from './smoothed-speed.ts';
import { endsUnknown, type StripView } from './strip-view.ts';
import type { TiedHeights } from './tied-heights.ts';
import { ALONG } from './tuning.ts';

/** Passing alongM = 0, or why it was not passed. */
export function thresholdCrossing(
  motion: Motion,
  view: StripView,
  pass: Pass,
  heights: TiedHeights,
): ThresholdCrossing | Undetermined {
  const none = endsUnknown(view);
  if (none) return none;
  const timeS = crossingTime(motion, view, pass);
  if (timeS === null) return undetermined('the threshold was not crossed on this pass');
  const speed = valueAt(motion.timeS, view.forwardMps, timeS);
  const placeSd = Math.hypot(ALONG.driftSdM, placeSdM(view.strip));
  const lateSdS = placeSd / Math.max(speed, 1);
  const speedSd = Math.hypot(
    // In the round-out the speed changes as briskly as in a turn, or in one go: the throttle is closed.
    speedErrors(motion, view, pass).bentSdMps(timeS),
    changeWithin(motion, view.forwardMps, timeS, lateSdS),
  );
  return {
    timeS: normalEstimate(timeS, lateSdS),
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
      return crossingAt(0, [motion.timeS[i - 1], before], [motion.timeS[i], after]);
    }
  }
  return null;
}

/** Heights in feet at which a final is looked at (definition). */
const GATE_HEIGHTS_FT = [500, 300, 200, 100, 50];

/** Gates passed on the way down, before the lowest point. */
export function gates(
  motion: Motion,
  view: StripView,
  pass: Pass,
  heights: TiedHeights,
  lowest: number,
): Gate[] {
  if (!motion.hasHeight || view.stripId === null) return [];
  if (!heights.isLevelKnown(motion.timeS[lowest])) return [];
  const found: Gate[] = [];
  const errors = speedErrors(motion, view, pass);
  for (const heightFt of GATE_HEIGHTS_FT) {
    const heightM = heightFt * METRES_PER_FOOT;
    for (let i = lowest; i > pass.from; i--) {
      const after = heights.middleAt(i);
      if (!(after < heightM)) continue;
      const before: Reading = [motion.timeS[i - 1], heights.middleAt(i - 1)];
      const timeS = crossingAt(heightM, before, [motion.timeS[i], after]);
      if (timeS === null) continue;
      found.push(gateAt(motion, view, heights, errors, heightFt, timeS));
      break;
    }
  }
  return found;
}

function gateAt(
  motion: Motion,
  view: StripView,
  heights: TiedHeights,
  errors: SpeedErrors,
  heightFt: number,
  timeS: number,
): Gate {
  const at = (column: Float64Array, moment = timeS): number =>
    valueAt(motion.timeS, column, moment);
  const speed = at(view.forwardMps);
  const sink = -at(motion.verticalSpeedMps);
  const heightSd = heights.levelSdM(timeS);
  // A height off by dz moves the gate along the path by dz over its gradient, and in time.
  const lateSdS = heightSd / Math.max(sink, FINAL.leastSinkMps);
  const placeSd = Math.hypot(ALONG.driftSdM, placeSdM(view.strip), lateSdS * Math.max(speed, 1));
  const path = Math.atan2(sink, speed) * (180 / Math.PI);
  const changeSd = (column: Float64Array): number => changeWithin(motion, column, timeS, lateSdS);
  const crossSd = Math.hypot(ALONG.driftSdM, placeSdM(view.strip), changeSd(view.smoothCrossM));
  const speedSd = Math.hypot(errors.levelSdMps(timeS, FINAL.jerkShare), changeSd(view.forwardMps));
  const sinkSd = Math.hypot(errors.verticalSdMps(timeS), changeSd(motion.verticalSpeedMps));
  const pathSd = Math.hypot(sinkSd, (sink / Math.max(speed, 1)) * speedSd) / Math.max(speed, 1);
  return {
    heightFt,
    timeS,
    alongM: normalEstimate(at(view.smoothAlongM), placeSd),
    crossM: normalEstimate(at(view.smoothCrossM), crossSd),
    groundSpeedMps: normalEstimate(speed, speedSd),
    descentRateMps: normalEstimate(sink, sinkSd),
    pathDeg: normalEstimate(path, pathSd * (180 / Math.PI)),
  };
}
