/**
 * How high did a log say the aircraft was, and where does it say so?
 *
 * In: a cleaned track. Out: the heights as recorded, smoothed, and missing wherever the log has none
 * within a moment: what a smoother draws across a hole is no height.
 */
import { smoothAxes } from '../numeric/smoother.ts';
import { heightDelay, type HeightDelay } from './height-lag.ts';
import type { HeightDatum, Track } from './track.ts';
import { MOST_NOISE_SD_M, numberOr, thirdDifferenceSd } from './white-noise.ts';

/** What heights count from: the datum of the satellite heights, or the surface of 1013.25 hPa. */
export type HeightReference = HeightDatum | 'pressure';

/** Columns of heights, a slot a fix; NaN where the log tells none. */
export interface MotionHeights {
  /** Satellite height as recorded, metres over the track's datum; missing throughout where it never changes. */
  readonly heightM: Float64Array;
  readonly pressureHeightM: Float64Array;
  /** The column that heights are read from, as recorded: satellite heights, or pressure heights where most of those are missing. */
  readonly sourceHeightM: Float64Array;
  /** What `sourceHeightM` counts from. */
  readonly heightDatum: HeightReference;
  /** `sourceHeightM` smoothed, metres, and its change, m/s. */
  readonly smoothHeightM: Float64Array;
  readonly verticalSpeedMps: Float64Array;
  /** Standard deviation of that change as the smoother has it. */
  readonly verticalSpeedSdMps: Float64Array;
  /** False where the log tells no heights, or too few in the stretch that is looked at (height-gaps.ts). */
  readonly hasHeight: boolean;
}

/** White noise of the heights, standard deviations of one fix in metres. */
export interface HeightNoise {
  readonly verticalSdM: number;
  /** Of the satellite and of the pressure heights as their third differences say, unbounded; NaN where they cannot tell. */
  readonly satelliteSdM: number;
  readonly pressureSdM: number;
  /** How long after the satellite height the pressure height follows; null where the log does not show it. */
  readonly pressureDelay: HeightDelay | null;
}

/** Least white noise believed of heights, metres: no receiver is better, and a zero would break the smoother. */
const LEAST_VERTICAL_SD_M = 0.15;
/** The same of a pressure height: it is recorded in whole metres. */
const LEAST_PRESSURE_SD_M = 0.3;
/** Taken where a log is too short or too uneven to show its own, metres: a usual consumer receiver's. */
const UNKNOWN_VERTICAL_SD_M = 1;
/** An aircraft that was slow and fast, by this share, was on the ground and in the air: heights that differ by no more than this, metres, were then never measured; nor were those that are all nought. */
const SLOW_SHARE = 0.4;
const LEAST_RANGE_M = 1;
/**
 * Heights rounded to steps of more than the first hide their own noise: a third of the step is added, somewhat
 * more than an even spread has, because the same rounding lasts from fix to fix. Beyond the second they tell
 * nothing of a round-out. Metres.
 */
const FINEST_M = 2;
const COARSEST_M = 12;
/** A log with fewer heights than this share of its fixes, and than this many, tells none. */
const LEAST_SHARE = 0.05;
const LEAST_HEIGHTS = 12;
/** No further than this from a recorded height there is a smoothed one, seconds; in a slower log than one of its steps. */
const MOMENT_S = 2.5;

/**
 * Heights of a track.
 *
 * @param speedMps ground speed at each fix; @param intervalS usual step of the log, seconds;
 * @param jerkPower drives the smoother, m2/s5. Never fails.
 */
export function smoothHeights(
  track: Track,
  speedMps: Float64Array,
  intervalS: number,
  jerkPower: number,
): { readonly columns: MotionHeights; readonly noise: HeightNoise } {
  const { timeS, length } = track;
  const [slowest, fastest] = range(speedMps);
  const [lowest, highest] = range(track.heightM);
  const wasOnGround = slowest < SLOW_SHARE * fastest;
  const isNought = lowest === 0 && highest === 0;
  const isMadeUp = isNought || (wasOnGround && highest - lowest <= LEAST_RANGE_M);
  const steps = { satelliteM: stepOf(track.heightM), pressureM: stepOf(track.pressureHeightM) };
  const isCoarse = steps.satelliteM > COARSEST_M;
  const heightM = isMadeUp || isCoarse ? missing(length) : track.heightM;
  const pressureHeightM = steps.pressureM > COARSEST_M ? missing(length) : track.pressureHeightM;
  const present = [presentIn(heightM), presentIn(pressureHeightM)];
  const isPressure = present[0] <= length / 2 && present[1] > present[0];
  const sourceHeightM = isPressure ? pressureHeightM : heightM;
  const noiseOf = (column: Float64Array, stepM: number): number =>
    Math.hypot(thirdDifferenceSd(timeS, column, intervalS), stepM > FINEST_M ? stepM / 3 : 0);
  const satelliteSdM = noiseOf(heightM, steps.satelliteM);
  const pressureSdM = noiseOf(pressureHeightM, steps.pressureM);
  const enough = Math.min(length / 2, Math.max(LEAST_HEIGHTS, LEAST_SHARE * length));
  const hasHeight = Math.max(...present) > enough;
  const ownSdM = numberOr(isPressure ? pressureSdM : satelliteSdM, UNKNOWN_VERTICAL_SD_M);
  const verticalSdM = hasHeight
    ? Math.max(LEAST_VERTICAL_SD_M, Math.min(MOST_NOISE_SD_M, ownSdM))
    : NaN;
  const smoothed = hasHeight
    ? smoothAxes(timeS, [sourceHeightM], {
        jerkPower,
        positionSdM: verticalSdM,
        robustPasses: 1,
      })
    : null;
  const isNear = nearHeights(timeS, sourceHeightM, Math.max(MOMENT_S, 1.05 * intervalS));
  const told = (column: Float64Array | undefined): Float64Array =>
    column ? column.map((value, i) => (isNear[i] === 1 ? value : NaN)) : missing(length);
  const verticalSpeedMps = told(smoothed?.velocityMps[0]);
  return {
    columns: {
      heightM,
      pressureHeightM,
      sourceHeightM,
      heightDatum: isPressure ? 'pressure' : track.heightDatum,
      smoothHeightM: told(smoothed?.positionM[0]),
      verticalSpeedMps,
      verticalSpeedSdMps: told(smoothed?.velocitySdMps),
      hasHeight,
    },
    noise: {
      verticalSdM,
      satelliteSdM,
      pressureSdM,
      // Beside few satellite heights no delay shows.
      pressureDelay: isPressure
        ? null
        : heightDelay({
            timeS,
            satelliteM: heightM,
            pressureM: pressureHeightM,
            speedMps,
            verticalSpeedMps,
            noiseSdM: Math.hypot(
              Math.max(LEAST_VERTICAL_SD_M, satelliteSdM),
              Math.max(LEAST_PRESSURE_SD_M, pressureSdM),
            ),
          }),
    },
  };
}

function missing(length: number): Float64Array {
  return new Float64Array(length).fill(NaN);
}

function presentIn(column: Float64Array): number {
  return column.reduce((present, value) => present + (Number.isNaN(value) ? 0 : 1), 0);
}

/** Least and greatest of a column; infinite, and the wrong way round, where it says nothing. */
function range(column: Float64Array): [number, number] {
  let lowest = Infinity;
  let highest = -Infinity;
  for (const value of column) {
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  return [lowest, highest];
}

/** The step to which a column was rounded: the least by which two heights in turn differ, metres; 0 where none do. */
function stepOf(column: Float64Array): number {
  let least = Infinity;
  for (let i = 1; i < column.length; i++) {
    const change = Math.abs(column[i] - column[i - 1]);
    if (change > 1e-6 && change < least) least = change;
  }
  return Number.isFinite(least) ? least : 0;
}

/** 1 for every fix within `reachS` of one that has a height. */
function nearHeights(timeS: Float64Array, column: Float64Array, reachS: number): Uint8Array {
  const near = new Uint8Array(timeS.length);
  let lastS = -Infinity;
  for (let i = 0; i < timeS.length; i++) {
    if (!Number.isNaN(column[i])) lastS = timeS[i];
    if (timeS[i] - lastS <= reachS) near[i] = 1;
  }
  let nextS = Infinity;
  for (let i = timeS.length - 1; i >= 0; i--) {
    if (!Number.isNaN(column[i])) nextS = timeS[i];
    if (nextS - timeS[i] <= reachS) near[i] = 1;
  }
  return near;
}
