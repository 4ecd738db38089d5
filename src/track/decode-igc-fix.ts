/**
 * What does one IGC B record say?
 *
 * Inputs: the bytes of one line and the extra fields that the I record announced. Outputs: time of
 * day, position, validity, two heights, and the extra measurements. Works on bytes because a log
 * has one such line a second and everything else in the file is rare.
 * Source: FAI Technical Specification for IGC-approved GNSS Flight Recorders, 2nd edition with
 * Amendment 8 (2023), A2.4, A3.3, A4.1 and A7.
 */

import { MPS_PER_KMH } from '../units/convert.ts';
import type { TrackColumns } from './decode-columns.ts';

/** Where an extra field stands: byte offset from the start of the line, and its width in bytes. */
export interface ExtraField {
  readonly offset: number;
  readonly width: number;
}

/** Extra fields of B records by three-letter code. */
export type ExtraFields = ReadonlyMap<string, ExtraField>;

/** One B record; a scratch object that the reader fills again for each line. */
export interface IgcFix {
  /** Seconds since midnight UTC, with the decimals of TDS where recorded. */
  timeOfDayS: number;
  latDeg: number;
  lonDeg: number;
  /** True for A (three-dimensional), false for V. */
  valid: boolean;
  /** As written, metres over 1013.25 hPa. */
  pressureHeightM: number;
  /** As written, metres; NaN where a void fix writes 00000. */
  heightM: number;
}

/** Length of a B record without extra fields (A4.1). */
const B_BYTES = 35;

/**
 * Reads the extra fields of an I record: `I` NN, then NN times first byte, last byte, code (A3.3).
 * Shape: byte numbers in the record count from 1 at the letter B.
 * Fails: fields that cannot be (no digits, before byte 36, backwards) are left out of the map and
 * returned as text in `faulty`.
 */
export function readExtraFields(line: string): { fields: ExtraFields; faulty: string[] } {
  const fields = new Map<string, ExtraField>();
  const faulty: string[] = [];
  for (let at = 3; at + 7 <= line.length; at += 7) {
    const piece = line.slice(at, at + 7);
    const found = /^(\d\d)(\d\d)([A-Z0-9]{3})$/i.exec(piece);
    const first = Number(found?.[1]);
    const last = Number(found?.[2]);
    if (found === null || first <= B_BYTES || last < first) faulty.push(piece);
    else fields.set(found[3].toUpperCase(), { offset: first - 1, width: last - first + 1 });
  }
  return { fields, faulty };
}

/**
 * Reads the B record in `bytes[from, to)` (line end excluded) into `fix`.
 *
 * Units: degrees and metres; positions take the further decimals LAD and LOD (A7) where announced.
 * Fails: returns the reason why the line cannot be used, and then `fix` holds rubbish; null when read.
 */
export function readFix(
  bytes: Uint8Array,
  from: number,
  to: number,
  extras: ExtraFields,
  fix: IgcFix,
): string | null {
  if (to - from < B_BYTES) return 'fix shorter than 35 bytes';
  const hour = digitsAt(bytes, from + 1, 2);
  const minute = digitsAt(bytes, from + 3, 2);
  const second = digitsAt(bytes, from + 5, 2);
  if (!(hour < 24 && minute < 60 && second <= 60)) return 'time of the fix is not HHMMSS';
  const validity = bytes[from + 24];
  if (validity !== LETTER_A && validity !== LETTER_V)
    return 'byte 25 of the fix is neither A nor V';
  fix.valid = validity === LETTER_A;
  fix.timeOfDayS =
    hour * 3600 + minute * 60 + second + fractionAt(bytes, from, to, extras.get('TDS'));

  const lat = angleAt(bytes, from + 7, 2) + fractionAt(bytes, from, to, extras.get('LAD')) / 60000;
  const lon = angleAt(bytes, from + 15, 3) + fractionAt(bytes, from, to, extras.get('LOD')) / 60000;
  if (!(lat <= 90 && lon <= 180)) return 'position of the fix is not DDMMmmm DDDMMmmm within range';
  const northSouth = bytes[from + 14];
  const eastWest = bytes[from + 23];
  if (northSouth !== LETTER_N && northSouth !== LETTER_S)
    return 'byte 15 of the fix is neither N nor S';
  if (eastWest !== LETTER_E && eastWest !== LETTER_W)
    return 'byte 24 of the fix is neither E nor W';
  fix.latDeg = northSouth === LETTER_N ? lat : -lat;
  fix.lonDeg = eastWest === LETTER_E && lon < 180 ? lon : -lon;

  const pressure = heightAt(bytes, from + 25);
  const height = heightAt(bytes, from + 30);
  if (Number.isNaN(pressure) || Number.isNaN(height)) return 'height of the fix is not five digits';
  fix.pressureHeightM = pressure;
  // A4.1: a recorder without satellite height writes V and 00000; that is no height of zero.
  fix.heightM = !fix.valid && height === 0 ? NaN : height;
  return null;
}

/**
 * Sets the extra measurements of the B record in `bytes[from, to)` in slot `i` of the columns.
 *
 * Units: speeds are km/h with three digits before the point; digits beyond the third of a wider
 * field are decimals (A2.4 for the unit; the decimals are common practice of recorders that
 * announce five bytes). FXA and VXA are metres, TRT degrees true, ENL 0-999.
 * Fails: never; a field that is absent, cut off or not all digits stays NaN.
 */
export function readExtras(
  bytes: Uint8Array,
  from: number,
  to: number,
  extras: ExtraFields,
  columns: TrackColumns,
  i: number,
): void {
  for (const [code, field] of extras) {
    const at = from + field.offset;
    const value = at + field.width <= to ? digitsAt(bytes, at, field.width) : NaN;
    if (Number.isNaN(value)) continue;
    const scaled = field.width > 3 ? value / 10 ** (field.width - 3) : value;
    if (code === 'FXA') columns.accuracyM[i] = value;
    else if (code === 'VXA') columns.verticalAccuracyM[i] = value;
    else if (code === 'ENL') columns.engineNoise[i] = value;
    else if (code === 'GSP') columns.groundSpeedMps[i] = scaled * MPS_PER_KMH;
    else if (code === 'TAS') columns.trueAirspeedMps[i] = scaled * MPS_PER_KMH;
    else if (code === 'IAS') columns.indicatedAirspeedMps[i] = scaled * MPS_PER_KMH;
    else if (code === 'TRT' && scaled <= 360) columns.courseDeg[i] = scaled % 360;
  }
}

const LETTER_A = 65;
const LETTER_E = 69;
const LETTER_N = 78;
const LETTER_S = 83;
const LETTER_V = 86;
const LETTER_W = 87;
const MINUS = 45;

/** Whole number of `count` digits at `at`; NaN where a byte is no digit. */
function digitsAt(bytes: Uint8Array, at: number, count: number): number {
  let value = 0;
  for (let i = at; i < at + count; i++) {
    const digit = bytes[i] - 48;
    if (!(digit >= 0 && digit <= 9)) return NaN;
    value = value * 10 + digit;
  }
  return value;
}

/** Degrees of DDMMmmm or DDDMMmmm; 60.000 minutes, which some recorders round up to, are the next degree. */
function angleAt(bytes: Uint8Array, at: number, degreeDigits: number): number {
  const thousandths = digitsAt(bytes, at + degreeDigits, 5);
  return thousandths <= 60000 ? digitsAt(bytes, at, degreeDigits) + thousandths / 60000 : NaN;
}

/** The digits of a field as a fraction below 1; 0 where the field is absent or not all digits. */
function fractionAt(
  bytes: Uint8Array,
  from: number,
  to: number,
  field: ExtraField | undefined,
): number {
  if (field === undefined || from + field.offset + field.width > to) return 0;
  const value = digitsAt(bytes, from + field.offset, field.width);
  return Number.isNaN(value) ? 0 : value / 10 ** field.width;
}

/** Five digits, the first of which may be a minus (A4.1). */
function heightAt(bytes: Uint8Array, at: number): number {
  return bytes[at] === MINUS ? -digitsAt(bytes, at + 1, 4) : digitsAt(bytes, at, 5);
}
