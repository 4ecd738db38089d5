/**
 * How did the aircraft move? Smoothed position, velocity and acceleration with their errors.
 *
 * In: columns of a cleaned track, times rising. Out: the same fixes in metres about the first one,
 * as measured and as smoothed. The noise of the log is learned from the log itself.
 *
 * Source: fixed-interval smoothing (numeric/smoother.ts); noise from third differences, whose
 * variance for white noise is twenty times that of one value (binomial coefficients 1 3 3 1).
 */
import { createLocalFrame } from '../geo/local-frame.ts';
import { smoothAxes } from '../numeric/smoother.ts';
import type { Track } from './track.ts';

/** Columns of motion; all have `length` slots; NaN where the log gives nothing. */
export interface Motion {
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
  /** Satellite height as recorded, metres over the track's datum. */
  readonly heightM: Float64Array;
  /** Height, smoothed: from the satellite height, or the pressure height where there is none. */
  readonly smoothHeightM: Float64Array;
  /** Rate of the smoothed height, and its standard deviation as the smoother has it. */
  readonly verticalSpeedMps: Float64Array;
  readonly verticalSpeedSdMps: Float64Array;
  readonly pressureHeightM: Float64Array;
  readonly hasHeight: boolean;
  readonly noise: MotionNoise;
  readonly medianIntervalS: number;
}

/** White noise of the log, standard deviations of one fix in metres. */
export interface MotionNoise {
  readonly horizontalSdM: number;
  readonly verticalSdM: number;
  /** Of the satellite and of the pressure heights as their third differences say, unbounded; NaN where they cannot tell. */
  readonly satelliteSdM: number;
  readonly pressureSdM: number;
  /** Standard deviation that the rounding of recorded positions adds. */
  readonly quantumM: number;
}

/** Power of the white jerk that drives the smoother, m2/s5: an aircraft's changes of acceleration within a second. */
export const JERK_POWER = 0.35;
/** The same of the height: aeroplanes change their vertical speed half as briskly. */
export const VERTICAL_JERK_POWER = JERK_POWER / 4;

/** Least white noise believed of a log, metres: no receiver is better, and a zero would break the smoother. */
const LEAST_HORIZONTAL_SD_M = 0.12;
const LEAST_VERTICAL_SD_M = 0.15;

/** White noise taken where a log is too short or too uneven to show its own, metres: a usual consumer receiver's. */
const UNKNOWN_HORIZONTAL_SD_M = 0.5;
const UNKNOWN_VERTICAL_SD_M = 1;
/** Most white noise believed, metres: beyond it the third differences of a slow log are the flight's own turns. */
const MOST_NOISE_SD_M = 5;

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
  const smoothed = smoothAxes(track.timeS, [eastM, northM], {
    jerkPower: JERK_POWER,
    positionSdM: horizontalSdM,
    robustPasses: 1,
  });

  const heightSource = bestHeight(track);
  const satelliteSdM = noiseOf(track.heightM);
  const pressureSdM = noiseOf(track.pressureHeightM);
  const sourceSdM = heightSource === track.heightM ? satelliteSdM : pressureSdM;
  const heightSd = heightSource
    ? Math.max(
        LEAST_VERTICAL_SD_M,
        Math.min(MOST_NOISE_SD_M, numberOr(sourceSdM, UNKNOWN_VERTICAL_SD_M)),
      )
    : NaN;
  const vertical = heightSource
    ? smoothAxes(track.timeS, [heightSource], {
        jerkPower: VERTICAL_JERK_POWER,
        positionSdM: heightSd,
        robustPasses: 1,
      })
    : null;
  const speedMps = new Float64Array(n);
  const smoothEastOffM = new Float64Array(n);
  const smoothNorthOffM = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    speedMps[i] = Math.hypot(smoothed.velocityMps[0][i], smoothed.velocityMps[1][i]);
    smoothEastOffM[i] = smoothed.positionM[0][i] - eastM[i];
    smoothNorthOffM[i] = smoothed.positionM[1][i] - northM[i];
  }
  const missing = (): Float64Array => new Float64Array(n).fill(NaN);
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
    heightM: track.heightM,
    smoothHeightM: vertical ? vertical.positionM[0] : missing(),
    verticalSpeedMps: vertical ? vertical.velocityMps[0] : missing(),
    verticalSpeedSdMps: vertical ? vertical.velocitySdMps : missing(),
    pressureHeightM: track.pressureHeightM,
    hasHeight: vertical !== null,
    noise: { horizontalSdM, verticalSdM: heightSd, satelliteSdM, pressureSdM, quantumM },
    medianIntervalS,
  };
}

/** The satellite height where most fixes have one, else the pressure height, else none. */
function bestHeight(track: Track): Float64Array | null {
  for (const column of [track.heightM, track.pressureHeightM]) {
    let present = 0;
    for (const value of column) if (!Number.isNaN(value)) present++;
    if (present > track.length / 2) return column;
  }
  return null;
}

function numberOr(value: number, otherwise: number): number {
  return Number.isNaN(value) ? otherwise : value;
}

/** Median step between consecutive times, seconds. */
export function medianInterval(timeS: Float64Array): number {
  if (timeS.length < 2) return NaN;
  const steps = new Float64Array(timeS.length - 1);
  for (let i = 1; i < timeS.length; i++) steps[i - 1] = timeS[i] - timeS[i - 1];
  steps.sort();
  return steps[steps.length >> 1];
}

/**
 * White noise of an evenly sampled column from its third differences, in the column's unit.
 *
 * Mean absolute third difference with the largest tenth left out, scaled to a standard deviation
 * for normal noise: whole-metre steps do not make it jump as a median would.
 * @returns NaN where fewer than 12 even runs of four values exist.
 */
export function thirdDifferenceSd(
  timeS: Float64Array,
  column: Float64Array,
  intervalS: number,
): number {
  const differences: number[] = [];
  for (let i = 3; i < column.length; i++) {
    if (Math.abs(timeS[i] - timeS[i - 3] - 3 * intervalS) > 0.1 * intervalS) continue;
    const d = column[i] - 3 * column[i - 1] + 3 * column[i - 2] - column[i - 3];
    if (!Number.isNaN(d)) differences.push(Math.abs(d));
  }
  if (differences.length < 12) return NaN;
  const sorted = Float64Array.from(differences).sort();
  const used = Math.floor(sorted.length * KEPT_SHARE);
  let sum = 0;
  for (let i = 0; i < used; i++) sum += sorted[i];
  return sum / used / TRIMMED_MEAN_OF_NORMAL / Math.sqrt(20);
}

const KEPT_SHARE = 0.9;
/** Mean of |z| over the smallest nine tenths of |z| for a standard normal z: 2 (phi(0) - phi(1.645)) / 0.9. */
const TRIMMED_MEAN_OF_NORMAL = 0.65735;
