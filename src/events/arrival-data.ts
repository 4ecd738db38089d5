/**
 * The rows of one arrival that the touchdown models are fitted to.
 *
 * In: motion, strip view, pass and the moments between which data count. Out: positions along the
 * strip and heights over it, averaged in blocks where the log is fast, with their white noise.
 */
import type { Motion } from '../track/motion.ts';
import { thirdDifferenceSd } from '../track/white-noise.ts';
import { hasElevation, isKnownAtEndsAlone } from './ground-tie.ts';
import { heightLags, type HeightLag } from './height-lags.ts';
import type { HeightRows } from './height-stack.ts';
import { slopeSpan, type StripView } from './strip-view.ts';
import { TOUCHDOWN } from './tuning.ts';

/** Positions along the strip with the white noise of each. */
export interface AlongRows {
  readonly timeS: Float64Array;
  readonly alongM: Float64Array;
  readonly noiseSdM: Float64Array;
}

/** Rows of positions between two times (inclusive). Noise from the cross-track positions, which no braking bends. */
export function alongRows(motion: Motion, view: StripView, fromS: number, toS: number): AlongRows {
  const columns = [view.alongM, view.crossM, view.smoothAlongM, view.forwardMps];
  const rows = blockMeans(motion, columns.map(valuesOf), fromS, toS);
  const [alongM, crossM, smoothAlongM, forwardMps] = rows.columns;
  const noise = thirdDifferenceSd(rows.timeS, crossM, rows.intervalS);
  const sdM = Math.max(
    LEAST_NOISE_SD_M,
    motion.noise.quantumM,
    Number.isNaN(noise) ? motion.noise.horizontalSdM : noise,
  );
  const noiseSdM = noiseOfEach(alongM, smoothAlongM, sdM);
  const { timeSdS } = motion.noise;
  // A fix at another moment than stated lies elsewhere along the track.
  const late = noiseSdM.map((sd, i) => Math.hypot(sd, timeSdS * forwardMps[i]));
  return { timeS: rows.timeS, alongM, noiseSdM: late };
}

/**
 * White noise of every row: the same for all but those far off the smoothed track, which count as
 * that much less certain. A fix with a wrong place or time must not decide anything.
 */
function noiseOfEach(measured: Float64Array, smooth: Float64Array, sdM: number): Float64Array {
  const limitM = Math.max(OUTLIER_SDS * sdM, LEAST_OUTLIER_M);
  return measured.map((value, i) => sdM * Math.max(1, Math.abs(value - smooth[i]) / limitM));
}

/** Further off the smoothed track than so many standard deviations, and metres, a fix is doubted. */
const OUTLIER_SDS = 4;
const LEAST_OUTLIER_M = 1.5;

/** What a stretch of a log says of the height, and how late it may be. */
export interface Heights {
  readonly satellite: HeightRows | null;
  readonly pressure: HeightRows | null;
  /** Delays to average over, seconds. */
  readonly lags: readonly HeightLag[];
}

/** Heights over the strip's surface between two times (seconds, inclusive), or null where the log has none there. Never fails. */
export function heightsBetween(
  motion: Motion,
  view: StripView,
  fromS: number,
  toS: number,
): Heights | null {
  const satellite = satelliteRows(motion, view, fromS, toS);
  const pressure = pressureRows(motion, view, fromS, toS);
  if (!satellite && !pressure) return null;
  const has = { satellite: satellite !== null, pressure: pressure !== null };
  return { satellite, pressure, lags: heightLags(motion.noise.pressureDelay, has) };
}

/** Rows of satellite heights over the strip's surface between two times, or null where too few fixes have one. */
function satelliteRows(
  motion: Motion,
  view: StripView,
  fromS: number,
  toS: number,
): HeightRows | null {
  const { satelliteSdM } = motion.noise;
  const noise = { wholeLogSdM: satelliteSdM, leastSdM: LEAST_HEIGHT_NOISE_SD_M };
  return heightRows(motion, view, motion.heightM, fromS, toS, noise);
}

/**
 * Rows of pressure heights over the strip's surface, or null where the log has none of its own: a
 * column that is constant or repeats the satellite height says nothing new.
 */
function pressureRows(
  motion: Motion,
  view: StripView,
  fromS: number,
  toS: number,
): HeightRows | null {
  if (!isOwnPressure(motion)) return null;
  const { pressureSdM } = motion.noise;
  const noise = { wholeLogSdM: pressureSdM, leastSdM: LEAST_PRESSURE_NOISE_SD_M };
  return heightRows(motion, view, motion.pressureHeightM, fromS, toS, noise);
}

const LEAST_NOISE_SD_M = 0.1;
const LEAST_HEIGHT_NOISE_SD_M = 0.12;
const LEAST_PRESSURE_NOISE_SD_M = 0.3;

function heightRows(
  motion: Motion,
  view: StripView,
  heightM: Float64Array,
  fromS: number,
  toS: number,
  { wholeLogSdM, leastSdM }: { readonly wholeLogSdM: number; readonly leastSdM: number },
): HeightRows | null {
  const smoothed = heightM === motion.sourceHeightM ? motion.smoothHeightM : null;
  // Beside a hole, and for the other kind of height, nothing smoothed says how far off it is.
  const offM = (i: number): number => {
    const off = smoothed ? heightM[i] - smoothed[i] : 0;
    return Number.isNaN(off) && !Number.isNaN(heightM[i]) ? 0 : off;
  };
  const aboveM = (i: number): number => heightM[i] - view.groundM[i];
  const slope = slopeSpan(view);
  const { nearEndAlongM, farEndAlongM, lengthM } = view.frame;
  const within = (i: number, fromM: number, toM: number): number =>
    Math.min(toM, Math.max(fromM, view.smoothAlongM[i]));
  const overM = (i: number): number => within(i, slope.fromM, slope.toM);
  const bow = (i: number): number => {
    const onM = within(i, nearEndAlongM, farEndAlongM) - nearEndAlongM;
    return Math.sin((Math.PI * onM) / lengthM) ** 2;
  };
  const columns = [aboveM, valuesOf(view.forwardMps), offM, overM, bow];
  const rows = blockMeans(motion, columns, fromS, toS);
  const present = rows.columns[0].filter((value) => !Number.isNaN(value)).length;
  if (present < LEAST_ROWS || present < rows.timeS.length * 0.6) return null;
  const noise = thirdDifferenceSd(rows.timeS, rows.columns[0], rows.intervalS);
  const fast = motion.medianIntervalS < TOUCHDOWN.blockS;
  const chosen = fast || Number.isNaN(wholeLogSdM) ? noise : wholeLogSdM;
  const kept = rows.columns[0].map((value, i) => (Number.isNaN(value) ? NaN : i));
  const index = kept.filter((i) => !Number.isNaN(i));
  const pick = (column: Float64Array): Float64Array => index.map((i) => column[i]);
  const sdM = Math.max(leastSdM, Number.isNaN(chosen) ? motion.noise.verticalSdM : chosen);
  const off = pick(rows.columns[2]);
  return {
    timeS: pick(rows.timeS),
    heightM: pick(rows.columns[0]),
    speedMps: pick(rows.columns[1]),
    noiseSdM: noiseOfEach(off, new Float64Array(off.length), sdM),
    tiltedM: hasElevation(view.strip) ? null : pick(rows.columns[3]),
    bow: isKnownAtEndsAlone(view.strip) ? pick(rows.columns[4]) : null,
  };
}

const LEAST_ROWS = 6;

function isOwnPressure(motion: Motion): boolean {
  let present = 0;
  let lowest = Infinity;
  let highest = -Infinity;
  let leastGap = Infinity;
  let mostGap = -Infinity;
  for (let i = 0; i < motion.length; i++) {
    const value = motion.pressureHeightM[i];
    if (Number.isNaN(value)) continue;
    present++;
    lowest = Math.min(lowest, value);
    highest = Math.max(highest, value);
    const gap = value - motion.heightM[i];
    if (Number.isNaN(gap)) continue;
    leastGap = Math.min(leastGap, gap);
    mostGap = Math.max(mostGap, gap);
  }
  // Without satellite heights beside it there is nothing that it could repeat.
  const repeats = mostGap >= leastGap && mostGap - leastGap <= 0.5;
  return present > motion.length / 2 && highest - lowest > 3 && !repeats;
}

interface Blocks {
  readonly timeS: Float64Array;
  readonly columns: Float64Array[];
  readonly intervalS: number;
}

/** A fix's value of one kind. */
type ValueAtFix = (i: number) => number;

function valuesOf(column: Float64Array): ValueAtFix {
  return (i) => column[i];
}

/** Means over blocks of `TOUCHDOWN.blockS` where the log is faster; the fixes themselves otherwise. */
function blockMeans(
  motion: Motion,
  values: readonly ValueAtFix[],
  fromS: number,
  toS: number,
): Blocks {
  const perBlock =
    motion.medianIntervalS < TOUCHDOWN.blockS * 0.75
      ? Math.round(TOUCHDOWN.blockS / motion.medianIntervalS)
      : 1;
  const times: number[] = [];
  const means: number[][] = values.map(() => []);
  let i = firstAtOrAfter(motion.timeS, fromS);
  while (i < motion.length && motion.timeS[i] <= toS) {
    const end = Math.min(motion.length, i + perBlock);
    let count = 0;
    let time = 0;
    const sums = values.map(() => 0);
    for (; i < end && motion.timeS[i] <= toS; i++) {
      time += motion.timeS[i];
      for (let c = 0; c < values.length; c++) sums[c] += values[c](i);
      count++;
    }
    times.push(time / count);
    for (let c = 0; c < values.length; c++) means[c].push(sums[c] / count);
  }
  return {
    timeS: new Float64Array(times),
    columns: means.map((each) => new Float64Array(each)),
    intervalS: perBlock * motion.medianIntervalS,
  };
}

/** Index of the first time at or after `atS`; the length where there is none. Times rise. */
export function firstAtOrAfter(timeS: Float64Array, atS: number): number {
  let low = 0;
  let high = timeS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[middle] < atS) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A column's value at a time, by a straight line between fixes; the end values beyond them. */
export function valueAt(timeS: Float64Array, column: Float64Array, atS: number): number {
  const after = firstAtOrAfter(timeS, atS);
  if (after === 0) return column[0];
  if (after >= timeS.length) return column[timeS.length - 1];
  const share = (atS - timeS[after - 1]) / (timeS[after] - timeS[after - 1]);
  return column[after - 1] + share * (column[after] - column[after - 1]);
}

/**
 * A column's mean over a span of time, by straight lines between fixes: fixes that lie close together
 * count for no more than their time. Where the span has no length, the value there.
 */
export function meanBetween(
  timeS: Float64Array,
  column: Float64Array,
  fromS: number,
  toS: number,
): number {
  if (!(toS > fromS)) return valueAt(timeS, column, fromS);
  let sum = 0;
  let [beforeS, before] = [fromS, valueAt(timeS, column, fromS)];
  const add = (atS: number, value: number): void => {
    sum += ((atS - beforeS) * (before + value)) / 2;
    [beforeS, before] = [atS, value];
  };
  for (let i = firstAtOrAfter(timeS, fromS); i < timeS.length && timeS[i] < toS; i++) {
    add(timeS[i], column[i]);
  }
  add(toS, valueAt(timeS, column, toS));
  return sum / (toS - fromS);
}

/** Seconds between the fixes before and after a moment, or between those and their neighbours where that is more. */
export function stepAt(timeS: Float64Array, atS: number): number {
  const { length } = timeS;
  const after = Math.min(length - 1, Math.max(1, firstAtOrAfter(timeS, atS)));
  let longest = 0;
  for (let i = Math.max(1, after - 1); i <= Math.min(length - 1, after + 1); i++) {
    longest = Math.max(longest, timeS[i] - timeS[i - 1]);
  }
  return longest;
}
