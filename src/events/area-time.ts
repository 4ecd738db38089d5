/**
 * How long, and how low, was the aircraft over an area to avoid?
 *
 * In: motion, the area, heights of the wheels above sea level with their bands. Out: seconds over
 * it with a band, and the lowest height there. A fix near the edge counts as in and as out, a height
 * near the area's limit as below and as above, the edge is crossed anywhere between two fixes, and a
 * hole may have been flown over it or not: the band of the time says so. It is lowest at a fix over it
 * or where its edge is crossed.
 */
import { createLocalFrame } from '../geo/local-frame.ts';
import { distanceToLineM, type PlaneLine } from '../geo/polyline-distance.ts';
import { isUndetermined, undetermined, Z90, type Measured, type Undetermined } from '../result.ts';
import { insideAvoidArea } from '../strips/avoid-area.ts';
import type { AvoidArea } from '../strips/strip.ts';
import type { Motion } from '../track/motion.ts';
import { ALONG } from './tuning.ts';

/** One area that was, or may have been, flown over. */
export interface AreaTime {
  readonly area: string;
  /** First time over it; null where it only may have been touched. */
  readonly firstTimeS: number | null;
  /** Seconds over it, and below its limit where it has one. */
  readonly insideS: Measured;
  /** Lowest height of the wheels above sea level while over it. */
  readonly lowestMslM: Measured;
}

/** An edge as drawn by hand may be off by this much, one standard deviation, metres. */
const EDGE_SD_M = 5;
/** In a hole of the log longer than this nobody knows where the aircraft was, seconds. */
const HOLE_S = 10;
/** The line over a hole is looked at once a second, but no oftener than this in all. */
const MOST_SHARES = 1000;

/**
 * Time over every area; areas that were surely not flown over are left out.
 *
 * Units: UTC seconds, metres above mean sea level. `mslAt` gives the wheels' height at a fix. Never
 * fails: without heights an area with a limit gets the reason.
 */
export function areaTimes(
  motion: Motion,
  areas: readonly AvoidArea[],
  mslAt: (fix: number) => Measured,
): AreaTime[] {
  return areas.flatMap((area) => {
    const found = areaTime(motion, area, mslAt);
    return found ? [found] : [];
  });
}

function areaTime(
  motion: Motion,
  area: AvoidArea,
  mslAt: (fix: number) => Measured,
): AreaTime | null {
  const inside = insideAvoidArea(area, motion.latDeg, motion.lonDeg);
  const edgeM = edgeDistances(motion, area);
  const doubtM = Z90 * Math.hypot(ALONG.driftSdM, EDGE_SD_M);
  const sum = { value: 0, low: 0, high: 0 };
  let firstTimeS: number | null = null;
  let lowest: Measured = undetermined('the log has no heights');
  let heightless: Undetermined | null = null;
  let perhapsLowM = Infinity;
  for (let i = 0; i < motion.length; i++) {
    const near = edgeM[i] < doubtM;
    if (inside[i] === 0 && !near) continue;
    const height = mslAt(i);
    if (isUndetermined(height)) heightless ??= height;
    const below = belowLimit(height, area.belowMslM);
    const shareS = secondsOf(motion, i);
    if (inside[i] === 1 && below.value) {
      sum.value += shareS;
      firstTimeS ??= motion.timeS[i];
      lowest = lowerOf(lowest, height, area);
    }
    if (inside[i] === 1 && !near && below.surely) sum.low += shareS;
    if (below.perhaps) sum.high += shareS;
  }
  for (let i = 1; i < motion.length; i++) {
    const stepS = motion.timeS[i] - motion.timeS[i - 1];
    if (stepS > HOLE_S) {
      const over = overHole(motion, area, mslAt, i);
      sum.value += over.valueS;
      sum.high += over.highS;
      if (over.valueS > 0) firstTimeS = Math.min(firstTimeS ?? Infinity, over.firstTimeS);
      lowest = lowerOf(lowest, over.lowest, area);
      if (!isUndetermined(over.lowest)) perhapsLowM = Math.min(perhapsLowM, over.lowest.low);
    } else if (inside[i] !== inside[i - 1]) {
      // The edge is where it was lowest on the way down, not the last fix before it.
      const share = crossingShare(motion, area, i, inside[i] === 1);
      lowest = lowerOf(lowest, between(mslAt(i - 1), mslAt(i), share), area);
    }
  }
  if (sum.high === 0) return null;
  const crossingS = Z90 * crossingSdS(motion, inside);
  sum.low = Math.max(0, Math.min(sum.low, sum.value - crossingS));
  sum.high = Math.max(sum.high, sum.value + crossingS);
  const { belowMslM } = area;
  const insideS: Measured =
    belowMslM !== null && !motion.hasHeight
      ? undetermined(`without heights nobody knows whether it was below ${belowMslM.toFixed(0)} m`)
      : sum;
  if (!isUndetermined(lowest)) {
    lowest = { ...lowest, low: Math.min(lowest.low, perhapsLowM) };
  } else if (heightless) {
    lowest = heightless;
  } else if (motion.hasHeight && firstTimeS === null) {
    lowest = undetermined('it may only have been touched');
  }
  return { area: area.name, firstTimeS, insideS, lowestMslM: lowest };
}

/** What may have been flown over an area in a hole of the log. */
interface OverHole {
  /** Seconds over it on the straight line over the hole, and at most. */
  readonly valueS: number;
  readonly highS: number;
  readonly firstTimeS: number;
  /** Lowest height there on that line; it may have been as low as at either end. */
  readonly lowest: Measured;
}

const NOT_OVER: OverHole = {
  valueS: 0,
  highS: 0,
  firstTimeS: Infinity,
  lowest: undetermined('the line over the hole does not meet it'),
};

/** The hole before fix `i`: nothing where the straight line over it does not meet the area. */
function overHole(
  motion: Motion,
  area: AvoidArea,
  mslAt: (fix: number) => Measured,
  i: number,
): OverHole {
  const holeS = motion.timeS[i] - motion.timeS[i - 1];
  const count = Math.min(MOST_SHARES, Math.ceil(holeS));
  const shares = Float64Array.from({ length: count + 1 }, (_, k) => k / count);
  const line = (column: Float64Array): Float64Array =>
    shares.map((share) => column[i - 1] + share * (column[i] - column[i - 1]));
  const inside = insideAvoidArea(area, line(motion.latDeg), line(motion.lonDeg));
  if (!inside.includes(1)) return NOT_OVER;
  const [before, after] = [mslAt(i - 1), mslAt(i)];
  let valueS = 0;
  let highS = 0;
  let firstTimeS = Infinity;
  let { lowest } = NOT_OVER;
  for (let k = 0; k <= count; k++) {
    const height = between(before, after, shares[k]);
    const below = belowLimit(height, area.belowMslM);
    if (inside[k] === 0 || !below.perhaps) continue;
    highS = holeS;
    lowest = lowerOf(lowest, height, area);
    if (!below.value) continue;
    valueS += ((k === 0 || k === count ? 0.5 : 1) * holeS) / count;
    firstTimeS = Math.min(firstTimeS, motion.timeS[i - 1] + shares[k] * holeS);
  }
  if (!isUndetermined(lowest) && !isUndetermined(before) && !isUndetermined(after)) {
    lowest = { ...lowest, low: Math.min(before.low, after.low) };
  }
  return { valueS, highS, firstTimeS, lowest };
}

/** The lower of a height so far and another that counts only below the area's limit. */
function lowerOf(soFar: Measured, height: Measured, { belowMslM }: AvoidArea): Measured {
  if (isUndetermined(height) || !belowLimit(height, belowMslM).value) return soFar;
  return isUndetermined(soFar) || height.value < soFar.value ? height : soFar;
}

/** A height between two others, by the straight line; undetermined where one is. */
function between(a: Measured, b: Measured, share: number): Measured {
  if (isUndetermined(a) || isUndetermined(b)) return isUndetermined(a) ? a : b;
  const at = (x: number, y: number): number => x + share * (y - x);
  return { value: at(a.value, b.value), low: at(a.low, b.low), high: at(a.high, b.high) };
}

/** At which share of the step before fix `i` the edge was crossed, by halving the straight line. */
function crossingShare(motion: Motion, area: AvoidArea, i: number, entered: boolean): number {
  let [low, high] = [0, 1];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    const at = (column: Float64Array): Float64Array =>
      Float64Array.of(column[i - 1] + middle * (column[i] - column[i - 1]));
    const isIn = insideAvoidArea(area, at(motion.latDeg), at(motion.lonDeg))[0] === 1;
    if (isIn === entered) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/** A step of ten seconds to a twentieth. */
const HALVINGS = 8;

/** What the fixes leave open about the moments at the edge, seconds (one sd): each lies evenly between two of them. */
function crossingSdS(motion: Motion, inside: Uint8Array): number {
  let variance = 0;
  for (let i = 1; i < motion.length; i++) {
    const stepS = motion.timeS[i] - motion.timeS[i - 1];
    if (inside[i] !== inside[i - 1] && stepS <= HOLE_S) variance += stepS ** 2 / 12;
  }
  return Math.sqrt(variance);
}

/** Half the time to the fix before and half to the fix after; nothing across a hole. */
function secondsOf(motion: Motion, i: number): number {
  const half = (stepS: number): number => (stepS <= HOLE_S ? stepS / 2 : 0);
  const before = i > 0 ? half(motion.timeS[i] - motion.timeS[i - 1]) : 0;
  const after = i + 1 < motion.length ? half(motion.timeS[i + 1] - motion.timeS[i]) : 0;
  return before + after;
}

function belowLimit(
  height: Measured,
  limitM: number | null,
): { readonly value: boolean; readonly surely: boolean; readonly perhaps: boolean } {
  if (limitM === null) return { value: true, surely: true, perhaps: true };
  if (isUndetermined(height)) return { value: false, surely: false, perhaps: true };
  return {
    value: height.value < limitM,
    surely: height.high < limitM,
    perhaps: height.low < limitM,
  };
}

/** Distance of every fix from the area's edges, metres. */
function edgeDistances(motion: Motion, area: AvoidArea): Float64Array {
  const [lon0, lat0] = area.rings[0][0];
  const frame = createLocalFrame(lat0, lon0);
  const fixes = frame.toEastNorth(motion.latDeg, motion.lonDeg);
  const rings: PlaneLine[] = area.rings.map((ring) => {
    const corners = frame.toEastNorth(
      Float64Array.from(ring, ([, lat]) => lat),
      Float64Array.from(ring, ([lon]) => lon),
    );
    return { eastM: [...corners.eastM], northM: [...corners.northM] };
  });
  return motion.timeS.map((_, i) =>
    Math.min(...rings.map((ring) => distanceToLineM(ring, fixes.eastM[i], fixes.northM[i]))),
  );
}
