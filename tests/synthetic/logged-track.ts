/**
 * Fixes as a recorder writes them down: rounded, and with a file's small faults.
 *
 * In: fixes as received. Out: rounded columns that the writers print and that stand as a Track at
 * once, without going through text, so that thousands of flights cost little.
 * Source of the rounding: FAI technical specification for IGC-approved flight recorders, 2nd
 * edition with Amendment 8, A2.4 and A4.1 (minutes to three decimals, whole metres and seconds).
 */
import type { Track } from '../../src/track/track.ts';
import type { Fixes } from './receiver-model.ts';

/** Rounded columns and what the file says of them. */
export interface LoggedTrack extends Fixes {
  readonly format: 'gpx' | 'igc';
  readonly timeDecimals: number;
  readonly positionStepM: number;
  /** GPX: decimals of a degree. */
  readonly positionDecimals: number;
  /** Index of the first fix of every segment after the first (GPX). */
  readonly breaks: readonly number[];
}

/** How a GPX recorder rounds. */
export interface GpxRounding {
  readonly positionDecimals?: number;
  readonly heightDecimals?: number;
  /** A hole longer than this starts a new segment. */
  readonly breakAfterS?: number;
}

/** Rounds as a GPX recorder does: seven decimals of a degree, a tenth of a metre. */
export function logAsGpx(fixes: Fixes, rounding: GpxRounding = {}): LoggedTrack {
  const positionDecimals = rounding.positionDecimals ?? 7;
  const heightDecimals = rounding.heightDecimals ?? 1;
  const timeDecimals = Number.isInteger(fixes.intervalS) ? 0 : 3;
  const breaks: number[] = [];
  for (let i = 1; i < fixes.length; i++) {
    if (fixes.timeS[i] - fixes.timeS[i - 1] > (rounding.breakAfterS ?? Infinity)) breaks.push(i);
  }
  return {
    ...fixes,
    format: 'gpx',
    timeDecimals,
    positionDecimals,
    positionStepM: 111_300 / 10 ** positionDecimals,
    breaks,
    timeS: rounded(fixes.timeS, 10 ** timeDecimals),
    latDeg: rounded(fixes.latDeg, 10 ** positionDecimals),
    lonDeg: rounded(fixes.lonDeg, 10 ** positionDecimals),
    heightM: rounded(fixes.heightM, 10 ** heightDecimals),
    pressureHeightM: new Float64Array(fixes.length).fill(NaN),
    groundSpeedMps: rounded(fixes.groundSpeedMps, 100),
    courseDeg: rounded(fixes.courseDeg, 10),
    accuracyM: new Float64Array(fixes.length).fill(NaN),
  };
}

/** Rounds as an IGC recorder does: a thousandth of a minute, whole metres, km/h. */
export function logAsIgc(fixes: Fixes): LoggedTrack {
  const timeDecimals = Number.isInteger(fixes.intervalS) ? 0 : 1;
  return {
    ...fixes,
    format: 'igc',
    timeDecimals,
    positionDecimals: 0,
    positionStepM: 1.855,
    breaks: [],
    timeS: rounded(fixes.timeS, 10 ** timeDecimals),
    latDeg: rounded(fixes.latDeg, 60_000),
    lonDeg: rounded(fixes.lonDeg, 60_000),
    heightM: rounded(fixes.heightM, 1),
    pressureHeightM: rounded(fixes.pressureHeightM, 1),
    groundSpeedMps: rounded(
      fixes.groundSpeedMps.map((speed) => speed * 3.6),
      1,
    ).map((kmh) => kmh / 3.6),
    courseDeg: new Float64Array(fixes.length).fill(NaN),
    accuracyM: rounded(fixes.accuracyM, 1),
  };
}

/** The log as the project's own Track. `line` counts fixes from 1, for there is no file. */
export function toTrack(logged: LoggedTrack): Track {
  const missing = (): Float64Array => new Float64Array(logged.length).fill(NaN);
  const segment = new Int32Array(logged.length);
  for (const start of logged.breaks) segment.fill(segment[start - 1] + 1, start);
  const igcDatum = logged.heights === 'geoid' ? 'geoid' : 'ellipsoid';
  return {
    format: logged.format,
    length: logged.length,
    timeS: logged.timeS,
    latDeg: logged.latDeg,
    lonDeg: logged.lonDeg,
    heightM: logged.heightM,
    heightDatum: logged.format === 'igc' ? igcDatum : 'unstated',
    geoidHeightM: missing(),
    pressureHeightM: logged.pressureHeightM,
    pressureDatum: logged.format === 'igc' ? 'standard' : 'unstated',
    groundSpeedMps: logged.groundSpeedMps,
    courseDeg: logged.courseDeg,
    trueAirspeedMps: missing(),
    indicatedAirspeedMps: missing(),
    accuracyM: logged.accuracyM,
    verticalAccuracyM: missing(),
    engineNoise: missing(),
    segment,
    valid: new Uint8Array(logged.length).fill(1),
    line: Int32Array.from({ length: logged.length }, (_, i) => i + 1),
    timeStepS: 10 ** -logged.timeDecimals,
    positionStepM: logged.positionStepM,
  };
}

/** The same log with every fix of a range written twice, the second time as a copy. */
export function withDoubledFixes(logged: LoggedTrack, from: number, to: number): LoggedTrack {
  const order: number[] = [];
  for (let i = 0; i < logged.length; i++) {
    order.push(i);
    if (i >= from && i < to) order.push(i);
  }
  const pick = (column: Float64Array): Float64Array => Float64Array.from(order, (i) => column[i]);
  return {
    ...logged,
    length: order.length,
    breaks: logged.breaks.map((start) => order.indexOf(start)),
    timeS: pick(logged.timeS),
    latDeg: pick(logged.latDeg),
    lonDeg: pick(logged.lonDeg),
    heightM: pick(logged.heightM),
    pressureHeightM: pick(logged.pressureHeightM),
    groundSpeedMps: pick(logged.groundSpeedMps),
    courseDeg: pick(logged.courseDeg),
    accuracyM: pick(logged.accuracyM),
  };
}

/** Rounds to parts of one, half away from zero as printing does; NaN stays NaN. */
function rounded(column: Float64Array, parts: number): Float64Array {
  return column.map((value) => (Math.sign(value) * Math.round(Math.abs(value) * parts)) / parts);
}
