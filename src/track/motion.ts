/**
 * How did the aircraft move? Smoothed position, velocity and acceleration with their errors.
 *
 * In: columns of a cleaned track, times rising. Out: the same fixes in metres about the first one,
 * as measured and as smoothed. The noise of the log is learned from the log itself.
 *
 * Source: fixed-interval smoothing (numeric/smoother.ts); noise from third differences, whose
 * variance for white noise is twenty times that of one value (binomial coefficients 1 3 3 1).
 */
import { RAD_PER_DEG, wrap180 } from '../geo/angles.ts';
import { createLocalFrame } from '../geo/local-frame.ts';
import { smoothAxes } from '../numeric/smoother.ts';
import { smoothHeights, type HeightNoise, type MotionHeights } from './motion-heights.ts';
import { timeNoiseSdS } from './time-noise.ts';
import { MOST_NOISE_SD_M, numberOr, thirdDifferenceSd } from './white-noise.ts';
import type { Track } from './track.ts';

/** Columns of motion; all have `length` slots; NaN where the log gives nothing. */
export interface Motion extends MotionHeights {
  readonly length: number;
  readonly timeS: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  /** Measured position in metres east and north of the first fix. */
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  /** Smoothed position less the measured one, metres. */
  readonly smoothEastOffM: Float64Array;
  readonly smoothNorthOffM: Float64Array;
  readonly velocityEastMps: Float64Array;
  readonly velocityNorthMps: Float64Array;
  /** Ground speed, m/s, and its standard deviation on one axis. */
  readonly speedMps: Float64Array;
  readonly speedSdMps: Float64Array;
  readonly accelerationEastMps2: Float64Array;
  readonly accelerationNorthMps2: Float64Array;
  readonly noise: MotionNoise;
  readonly medianIntervalS: number;
}

/** White noise of the log, standard deviations of one fix in metres; that of heights stands in HeightNoise. */
export interface MotionNoise extends HeightNoise {
  readonly horizontalSdM: number;
  /** Standard deviation that the rounding of recorded positions adds. */
  readonly quantumM: number;
  /** What the recorded times are off by, seconds; 0 where nothing shows that they are. */
  readonly timeSdS: number;
}

/** Power of the white jerk that drives the smoother, m2/s5: an aircraft's changes of acceleration within a second. */
export const JERK_POWER = 0.35;
/** The same of the height: aeroplanes change their vertical speed half as briskly. */
export const VERTICAL_JERK_POWER = JERK_POWER / 4;

/** Least white noise believed of a log, metres: no receiver is better, and a zero would break the smoother. */
const LEAST_HORIZONTAL_SD_M = 0.12;

/** White noise taken where a log is too short or too uneven to show its own, metres: a usual consumer receiver's. */
const UNKNOWN_HORIZONTAL_SD_M = 0.5;
/**
 * Smooths a cleaned track.
 *
 * @param track at least 2 fixes with rising times; throws otherwise.
 */
export function computeMotion(track: Track): Motion {
  const n = track.length;
  if (n < 2) throw new Error(`motion needs two fixes, the track has ${n}`);
  const frame = createLocalFrame(track.latDeg[0], track.lonDeg[0]);
  const { eastM, northM } = frame.toEastNorth(track.latDeg, track.lonDeg);
  const medianIntervalS = medianInterval(track.timeS);
  const quantumM = track.positionStepM / Math.sqrt(12);
  const noiseOf = (column: Float64Array): number =>
    thirdDifferenceSd(track.timeS, column, medianIntervalS);
  const horizontalSdM = Math.max(
    LEAST_HORIZONTAL_SD_M,
    quantumM,
    Math.min(
      MOST_NOISE_SD_M,
      numberOr(Math.min(noiseOf(eastM), noiseOf(northM)), UNKNOWN_HORIZONTAL_SD_M),
    ),
  );
  const timeSdS = timeNoiseSdS(track.timeS, track.timeStepS, eastM, northM, medianIntervalS);
  const smoothed = smoothAxes(track.timeS, [eastM, northM], {
    jerkPower: JERK_POWER,
    positionSdM: Math.hypot(horizontalSdM, timeSdS * meanSpeed(track.timeS, eastM, northM)),
    robustPasses: 1,
  });

  const speedMps = new Float64Array(n);
  const smoothEastOffM = new Float64Array(n);
  const smoothNorthOffM = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    speedMps[i] = Math.hypot(smoothed.velocityMps[0][i], smoothed.velocityMps[1][i]);
    smoothEastOffM[i] = smoothed.positionM[0][i] - eastM[i];
    smoothNorthOffM[i] = smoothed.positionM[1][i] - northM[i];
  }
  turnToTrue(track, [
    smoothed.velocityMps,
    smoothed.accelerationMps2,
    [smoothEastOffM, smoothNorthOffM],
  ]);
  const heights = smoothHeights(track, speedMps, medianIntervalS, VERTICAL_JERK_POWER);
  return {
    length: n,
    timeS: track.timeS,
    latDeg: track.latDeg,
    lonDeg: track.lonDeg,
    eastM,
    northM,
    smoothEastOffM,
    smoothNorthOffM,
    velocityEastMps: smoothed.velocityMps[0],
    velocityNorthMps: smoothed.velocityMps[1],
    speedMps,
    speedSdMps: smoothed.velocitySdMps,
    accelerationEastMps2: smoothed.accelerationMps2[0],
    accelerationNorthMps2: smoothed.accelerationMps2[1],
    ...heights.columns,
    noise: {
      horizontalSdM,
      ...heights.noise,
      quantumM,
      timeSdS,
    },
    medianIntervalS,
  };
}

/**
 * Turns vectors of the plane about the first fix to true east and north where each fix lies, in place:
 * 200 km to the east the meridians lean 2.5 degrees at 55 N.
 *
 * @param vectors pairs of columns, towards east and towards north.
 */
function turnToTrue(
  { latDeg, lonDeg }: Track,
  vectors: readonly (readonly Float64Array[])[],
): void {
  const [lat0, lon0] = [latDeg[0] * RAD_PER_DEG, lonDeg[0]];
  for (let i = 0; i < latDeg.length; i++) {
    const lat = latDeg[i] * RAD_PER_DEG;
    const turn = wrap180(lonDeg[i] - lon0) * RAD_PER_DEG;
    // The way north of there, seen in the plane: west of it where the fix lies in the east.
    const west = Math.sin(lat) * Math.sin(turn);
    const ahead = Math.cos(lat0) * Math.cos(lat) + Math.sin(lat0) * Math.sin(lat) * Math.cos(turn);
    const size = Math.hypot(west, ahead);
    const [sin, cos] = [west / size, ahead / size];
    for (const [east, north] of vectors) {
      const eastward = east[i];
      east[i] = eastward * cos + north[i] * sin;
      north[i] = north[i] * cos - eastward * sin;
    }
  }
}

/** Length of the path over its time, m/s. */
function meanSpeed(timeS: Float64Array, eastM: Float64Array, northM: Float64Array): number {
  let pathM = 0;
  for (let i = 1; i < timeS.length; i++) {
    pathM += Math.hypot(eastM[i] - eastM[i - 1], northM[i] - northM[i - 1]);
  }
  return pathM / (timeS[timeS.length - 1] - timeS[0]);
}

/** Median step between consecutive times, seconds. */
export function medianInterval(timeS: Float64Array): number {
  if (timeS.length < 2) return NaN;
  const steps = new Float64Array(timeS.length - 1);
  for (let i = 1; i < timeS.length; i++) steps[i - 1] = timeS[i] - timeS[i - 1];
  steps.sort();
  return steps[steps.length >> 1];
}
