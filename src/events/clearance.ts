/**
 * How near did the aircraft come to the obstacles recorded for a strip?
 *
 * In: motion, the strip's view, one approach or take-off, the flight's tied heights. Out: for each
 * obstacle of that strip that was passed, when the aircraft was nearest beside it, how high the
 * wheels were over its top then, and the slant distance, each with a band.
 *
 * The ground beyond the strip counts as level with the strip's end, unless the obstacle's top is
 * given above sea level or above the nearer threshold (definition). The band holds the log's errors and
 * the strip's own; how exactly the obstacle itself was entered nobody knows.
 */
import { distanceToLineM, type PlaneLine } from '../geo/polyline-distance.ts';
import { isUndetermined, undetermined, Z90, type Measured } from '../result.ts';
import { nearerThresholdM, standsAlongM } from '../strips/nearer-threshold.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Obstacle } from '../strips/strip.ts';
import type { Motion } from '../track/motion.ts';
import { valueAt } from './arrival-data.ts';
import type { StripView } from './strip-view.ts';
import type { TiedHeights } from './tied-heights.ts';
import { ALONG } from './tuning.ts';

/** One obstacle passed on one approach or take-off. */
export interface Clearance {
  readonly obstacle: string;
  readonly timeS: number;
  /** Height of the wheels over the top where the path came nearest beside it; negative below it. */
  readonly verticalM: Measured;
  /** From the wheels to the nearest place of the top, there. */
  readonly slantM: Measured;
}

/** An obstacle further than this beside the path was not passed, metres. */
const BESIDE_M = 300;
/** The path is looked at in steps of at most this, metres. */
const STEP_M = 4;
/** Across a hole in the log longer than this nobody knows the path, seconds. */
const HOLE_S = 10;

/**
 * Clearances over the fixes from `from` to `to` (exclusive), in the order passed.
 *
 * Units: metres, UTC seconds. Obstacles of other strips, those of no strip, and those that lay behind
 * all the time or were not reached, are left out. Never fails: heights that cannot be had are
 * undetermined with the reason.
 */
export function clearancesOf(
  motion: Motion,
  view: StripView,
  heights: TiedHeights,
  span: { readonly from: number; readonly to: number },
  obstacles: readonly Obstacle[],
): Clearance[] {
  if (view.stripId === null) return [];
  return obstacles
    .filter(({ strip }) => strip === view.stripId)
    .flatMap((obstacle) => {
      const passed = nearest(motion, view, lineOf(view, obstacle), span);
      return passed ? [clearance(motion, view, heights, obstacle, passed)] : [];
    })
    .sort((a, b) => a.timeS - b.timeS);
}

/** Where the path came nearest beside an obstacle. */
interface Nearest {
  readonly timeS: number;
  readonly besideM: number;
}

/** The obstacle's line in the strip's own metres: along for east, across for north. */
function lineOf(view: StripView, { latDeg, lonDeg }: Obstacle): PlaneLine {
  const { alongM, crossM } = view.frame.toAlongCross(
    Float64Array.from(latDeg),
    Float64Array.from(lonDeg),
  );
  return { eastM: [...alongM], northM: [...crossM] };
}

function nearest(
  motion: Motion,
  view: StripView,
  line: PlaneLine,
  { from, to }: { readonly from: number; readonly to: number },
): Nearest | null {
  let best: Nearest | null = null;
  const look = (timeS: number, alongM: number, crossM: number): void => {
    const besideM = distanceToLineM(line, alongM, crossM);
    if (besideM <= (best?.besideM ?? BESIDE_M)) best = { timeS, besideM };
  };
  for (let i = from + 1; i < to; i++) {
    const stepS = motion.timeS[i] - motion.timeS[i - 1];
    if (stepS > HOLE_S) continue;
    const alongM = view.smoothAlongM[i - 1];
    const crossM = view.smoothCrossM[i - 1];
    const gainM = view.smoothAlongM[i] - alongM;
    const driftM = view.smoothCrossM[i] - crossM;
    const parts = Math.max(1, Math.ceil(Math.hypot(gainM, driftM) / STEP_M));
    for (let k = 0; k <= parts; k++) {
      const share = k / parts;
      look(motion.timeS[i - 1] + share * stepS, alongM + share * gainM, crossM + share * driftM);
    }
  }
  // Nearest at an end of the span: behind the aircraft all the time, or not reached.
  const ends = [motion.timeS[from], motion.timeS[to - 1]];
  const found = best as Nearest | null;
  return found && !ends.includes(found.timeS) ? found : null;
}

function clearance(
  motion: Motion,
  view: StripView,
  heights: TiedHeights,
  obstacle: Obstacle,
  { timeS, besideM }: Nearest,
): Clearance {
  const verticalM = verticalOf(motion, view, heights, obstacle, timeS);
  const sdM = Math.hypot(ALONG.driftSdM, placeSdM(view.strip));
  return {
    obstacle: obstacle.name,
    timeS,
    verticalM,
    slantM: slantOf(besideM, Z90 * sdM, verticalM),
  };
}

function verticalOf(
  motion: Motion,
  view: StripView,
  heights: TiedHeights,
  obstacle: Obstacle,
  timeS: number,
): Measured {
  const above = heights.aboveAt(timeS);
  if (isUndetermined(above)) return above;
  const hereM = view.frame.elevationMslM(valueAt(motion.timeS, view.smoothAlongM, timeS));
  const topOverM = topOverSurface(view, obstacle, hereM);
  if (Number.isNaN(topOverM)) return undetermined("the strip's elevation is not known");
  return {
    value: above.value - topOverM,
    low: above.low - topOverM,
    high: above.high - topOverM,
  };
}

/** Top of the obstacle over the surface from which the heights count there, metres; NaN where no elevation tells. */
function topOverSurface(view: StripView, obstacle: Obstacle, hereM: number): number {
  const { frame } = view;
  const level = Number.isNaN(hereM);
  if (obstacle.topMslM !== null) return obstacle.topMslM - hereM;
  const alongM = standsAlongM(frame, obstacle);
  if (obstacle.topAboveThresholdM !== null) {
    const riseM = level ? 0 : frame.elevationMslM(nearerThresholdM(view, alongM)) - hereM;
    return obstacle.topAboveThresholdM + riseM;
  }
  const footM = level ? 0 : frame.elevationMslM(alongM) - hereM;
  return (obstacle.heightM ?? NaN) + footM;
}

/** The slant distance; its band spans the corners of both bands, so it holds at least as often as they do. */
function slantOf(besideM: number, doubtM: number, vertical: Measured): Measured {
  if (isUndetermined(vertical)) return vertical;
  const { value, low, high } = vertical;
  const nearestUp = low > 0 ? low : high < 0 ? -high : 0;
  return {
    value: Math.hypot(besideM, value),
    low: Math.hypot(Math.max(0, besideM - doubtM), nearestUp),
    high: Math.hypot(besideM + doubtM, Math.max(Math.abs(low), Math.abs(high))),
  };
}
