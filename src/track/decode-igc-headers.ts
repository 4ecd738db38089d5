/**
 * What do the records of an IGC file other than fixes say?
 *
 * Inputs: single lines as text. Outputs: the date of an H date record, the reference of the
 * heights, header texts, declared points and events as notes.
 * Source: FAI Technical Specification for IGC-approved GNSS Flight Recorders, 2nd edition with
 * Amendment 8 (2023), A3 and A4.2; the older date form from the edition of 2010.
 */

import { daysSince1970 } from './decode-time.ts';
import type { HeightDatum, PressureDatum } from './track.ts';

/** Header texts and notes kept; more than any recorder writes, less than a hostile file could. */
const MAX_HEADERS = 500;
const MAX_HEADER_CHARS = 500;

/** True for a date record `H?DTE...` in any of its forms. */
export function isDateRecord(line: string): boolean {
  return /^H[A-Z]DTE/.test(line);
}

/**
 * Days since 1970 of a date record: `HFDTE160819` (2010), `HFDTEDATE:160819,02` (since then), and
 * with blanks in place of the punctuation, as the example of A9 prints it. Two-digit years from 80
 * on are 19xx (the satellites' own calendar begins in 1980).
 * Fails: NaN where the six digits are missing or no calendar day.
 */
export function readDate(line: string): number {
  const found = /^H[A-Z]DTE\s*(?:DATE)?\s*:?\s*(\d\d)\s*(\d\d)\s*(\d\d)(?!\d)/.exec(line);
  if (found === null) return NaN;
  const twoDigitYear = Number(found[3]);
  const year = twoDigitYear >= 80 ? 1900 + twoDigitYear : 2000 + twoDigitYear;
  return daysSince1970(year, Number(found[2]), Number(found[1]));
}

/** The key and text of an H record: five letters, then what follows its colon, or all that follows. */
export function readHeader(line: string): { key: string; text: string } {
  const rest = line.slice(5);
  const colon = rest.indexOf(':');
  return { key: line.slice(0, 5), text: (colon === -1 ? rest : rest.slice(colon + 1)).trim() };
}

/** Keeps a header; the first one of a key stays, because later ones repeat it for later flights. */
export function keepHeader(headers: Map<string, string>, key: string, text: string): void {
  if (headers.size < MAX_HEADERS && !headers.has(key)) {
    headers.set(key, text.slice(0, MAX_HEADER_CHARS));
  }
}

/**
 * What the satellite heights count from (A3.2.7.5: HFALG ELL, GEO, NKN, NIL; without the record the
 * ellipsoid, A4.1).
 */
export function heightDatumOf(headers: ReadonlyMap<string, string>): HeightDatum {
  const stated = headers.get('HFALG') ?? headers.get('HOALG') ?? headers.get('HPALG');
  if (stated === undefined) return 'ellipsoid';
  if (/GEO|MSL/i.test(stated)) return 'geoid';
  if (/ELL/i.test(stated)) return 'ellipsoid';
  return 'unstated';
}

/** What the pressure heights count from (A3.2.7.5: HFALP ISA, MSL, NKN, NIL; without it ISA, A4.1). */
export function pressureDatumOf(headers: ReadonlyMap<string, string>): PressureDatum {
  const stated = headers.get('HFALP') ?? headers.get('HOALP') ?? headers.get('HPALP');
  return stated === undefined || /ISA/i.test(stated) ? 'standard' : 'unstated';
}

/** An event record: time of day in seconds, three-letter code, text (A4.2). Fails: null. */
export function readEvent(line: string): { timeOfDayS: number; kind: string; text: string } | null {
  const found = /^E(\d\d)(\d\d)(\d\d)([A-Za-z0-9]{3})?(.*)$/.exec(line);
  if (found === null) return null;
  const [, hour, minute, second, kind = 'event', text] = found;
  const timeOfDayS = Number(hour) * 3600 + Number(minute) * 60 + Number(second);
  return { timeOfDayS, kind, text: text.trim() };
}

/**
 * The text of a line: UTF-8 where it is that, else Latin-1. The specification allows ASCII only;
 * names come in both.
 */
export function lineText(bytes: Uint8Array): string {
  let ascii = true;
  for (const byte of bytes) if (byte >= 0x80) ascii = false;
  if (!ascii) {
    try {
      return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    } catch {
      return new TextDecoder('latin1').decode(bytes);
    }
  }
  return String.fromCharCode(...bytes);
}
