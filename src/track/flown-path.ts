/**
 * Where was the aircraft, at moments that every log of the same flight shares?
 *
 * In: motion. Out: smoothed positions at whole multiples of five seconds UTC, as plain data (what JSON
 * can hold). Nothing where the fixes on both sides lie too far apart to tell.
 */
import { createLocalFrame } from '../geo/local-frame.ts';
import type { Motion } from './motion.ts';

/** Columns of equal length, times rising; WGS 84 degrees. */
export interface FlownPath {
  /** UTC seconds since 1970, whole multiples of `PATH_STEP_S`. */
  readonly timeS: readonly number[];
  readonly latDeg: readonly number[];
  readonly lonDeg: readonly number[];
}

/** Between two moments of a path, seconds. */
export const PATH_STEP_S = 5;

/** Fixes further apart do not tell a turn between them to some metres, seconds; ours. */
const MOST_APART_S = 12;

/** The path of a motion. Never fails: of one too sparse it is empty. */
export function flownPath(motion: Motion): FlownPath {
  const path = { timeS: [] as number[], latDeg: [] as number[], lonDeg: [] as number[] };
  for (let i = 1; i < motion.length; i++) {
    const [fromS, toS] = [motion.timeS[i - 1], motion.timeS[i]];
    if (toS - fromS > MOST_APART_S) continue;
    // Half open, so that a fix at a moment gives it once.
    for (let k = Math.ceil(fromS / PATH_STEP_S); k * PATH_STEP_S < toS; k++) {
      const { latDeg, lonDeg } = placeBetween(motion, i, k * PATH_STEP_S);
      path.timeS.push(k * PATH_STEP_S);
      path.latDeg.push(tenthOfAMetre(latDeg));
      path.lonDeg.push(tenthOfAMetre(lonDeg));
    }
  }
  return path;
}

/** Between fix `i` - 1 and fix `i`, in the plane about the first: the cubic with their places and velocities. */
function placeBetween(
  motion: Motion,
  i: number,
  timeS: number,
): { readonly latDeg: number; readonly lonDeg: number } {
  const frame = createLocalFrame(motion.latDeg[i - 1], motion.lonDeg[i - 1]);
  const to = frame.toEastNorthPoint(motion.latDeg[i], motion.lonDeg[i]);
  const stepS = motion.timeS[i] - motion.timeS[i - 1];
  const u = (timeS - motion.timeS[i - 1]) / stepS;
  const along = (toM: number, offM: Float64Array, mps: Float64Array): number =>
    (1 + 2 * u) * (1 - u) ** 2 * offM[i - 1] +
    u ** 2 * (3 - 2 * u) * (toM + offM[i]) +
    stepS * u * (1 - u) * ((1 - u) * mps[i - 1] - u * mps[i]);
  return frame.toLatLon(
    along(to.eastM, motion.smoothEastOffM, motion.velocityEastMps),
    along(to.northM, motion.smoothNorthOffM, motion.velocityNorthMps),
  );
}

const tenthOfAMetre = (deg: number): number => Math.round(deg * 1e6) / 1e6;
