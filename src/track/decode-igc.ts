/**
 * What track does an IGC file hold?
 *
 * Inputs: the bytes of the file. Outputs: the track, its headers, notes (events, declared points)
 * and what was left out, line by line. One pass over the bytes; only lines that are not fixes
 * become text. Ground truth is the file: no fix is smoothed, moved or thrown away for looking odd.
 * Source: FAI Technical Specification for IGC-approved GNSS Flight Recorders, 2nd edition with
 * Amendment 8 (1 February 2023), appendix A.
 */

import type { Problem, Result } from '../result.ts';
import { problem, success } from '../result.ts';
import { TrackColumns } from './decode-columns.ts';
import { IgcCalendar } from './decode-igc-days.ts';
import type { ExtraFields, IgcFix } from './decode-igc-fix.ts';
import { readExtraFields, readExtras, readFix } from './decode-igc-fix.ts';
import {
  heightDatumOf,
  isDateRecord,
  keepHeader,
  lineText,
  pressureDatumOf,
  readDate,
  readEvent,
  readHeader,
} from './decode-igc-headers.ts';
import { LeftOutList } from './decode-left-out.ts';
import type { DecodedTrack, TrackNote } from './track.ts';

/** North-south metres of 0.001 arc-minute of latitude: a thousandth of a nautical mile, to 0.5 %. */
const THOUSANDTH_MINUTE_M = 1.852;
const MAX_NOTES = 10_000;
/** Longest line turned into text; the specification allows 99 bytes. */
const MAX_LINE_BYTES = 1000;

/**
 * Reads an IGC file.
 *
 * Shape: fixes in file order; a new segment at each date record that follows fixes. Heights as the
 * file declares them (HFALG, HFALP); a height column that is zero throughout is missing, not zero.
 * Without any date record the times stand on 1 January 1970 and a warning says so.
 * Fails: never; a file without a fix gives a track of length 0 and a problem.
 */
export function decodeIgc(bytes: Uint8Array): Result<DecodedTrack> {
  const reader = new IgcReader(bytes);
  reader.readLines();
  return reader.result();
}

class IgcReader {
  private readonly bytes: Uint8Array;
  private readonly columns = new TrackColumns();
  private readonly leftOut = new LeftOutList();
  private readonly headers = new Map<string, string>();
  private readonly notes: TrackNote[] = [];
  private readonly problems: Problem[] = [];
  private readonly fix: IgcFix = {
    timeOfDayS: NaN,
    latDeg: NaN,
    lonDeg: NaN,
    valid: false,
    pressureHeightM: NaN,
    heightM: NaN,
  };
  private readonly dated: boolean;
  private readonly calendar: IgcCalendar;
  private extras: ExtraFields = new Map();
  private timeDecimals = 0;
  private positionDecimals = 0;
  private segment = 0;
  private segmentStart = 0;
  /** Where the fixes and notes under the date now stated begin. */
  private dateStart = { fix: 0, note: 0 };

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    const firstDay = firstDateOf(bytes);
    this.dated = !Number.isNaN(firstDay);
    this.calendar = new IgcCalendar(this.dated ? firstDay : 0);
  }

  readLines(): void {
    const { bytes } = this;
    const lineEnd = bytes.includes(LF) ? LF : CR;
    let line = 0;
    for (let from = 0; from < bytes.length;) {
      line += 1;
      const found = bytes.indexOf(lineEnd, from);
      const next = found === -1 ? bytes.length : found + 1;
      let to = found === -1 ? bytes.length : found;
      // CR LF, CR CR LF and the end mark of old systems all end a line.
      while (to > from && isLineEnd(bytes[to - 1])) to -= 1;
      if (to > from) {
        if (bytes[from] === LETTER_B) this.readB(from, to, line);
        else this.readOther(from, to, line);
      }
      from = next;
    }
  }

  result(): Result<DecodedTrack> {
    const { columns } = this;
    this.dropZeroColumns();
    const track = columns.finish({
      format: 'igc',
      heightDatum: heightDatumOf(this.headers),
      pressureDatum: pressureDatumOf(this.headers),
      timeStepS: 10 ** -this.timeDecimals,
      positionStepM: THOUSANDTH_MINUTE_M / 10 ** this.positionDecimals,
    });
    if (track.length === 0) {
      this.addProblem(
        'no-fixes',
        'warning',
        'file',
        'The IGC file holds no usable fix (B record).',
      );
    } else if (!this.dated) {
      this.addProblem(
        'igc-no-date',
        'warning',
        'file',
        'No date record (HFDTE) was found, so the day is unknown: the times of day are right, the date is shown as 1 January 1970.',
      );
    }
    return success(
      { track, headers: this.headers, leftOut: this.leftOut.list(), notes: this.notes },
      this.problems,
    );
  }

  private readB(from: number, to: number, line: number): void {
    const { columns, fix } = this;
    const reason = readFix(this.bytes, from, to, this.extras, fix);
    if (reason !== null) {
      this.leftOut.add(line, reason, columns.length);
      return;
    }
    const timeS = this.calendar.fix(fix.timeOfDayS);
    const takeBackS = fix.valid ? this.calendar.takeBackS() : 0;
    if (takeBackS > 0) this.takeBack(takeBackS);
    const i = columns.append(timeS - takeBackS, fix.latDeg, fix.lonDeg, this.segment, line);
    columns.valid[i] = fix.valid ? 1 : 0;
    columns.heightM[i] = fix.heightM;
    columns.pressureHeightM[i] = fix.pressureHeightM;
    if (this.extras.size > 0) readExtras(this.bytes, from, to, this.extras, columns, i);
  }

  /** Void fixes that crossed midnight before the first valid one were on the day before it. */
  private takeBack(seconds: number): void {
    const { columns, notes, dateStart } = this;
    for (let i = dateStart.fix; i < columns.length; i++) columns.timeS[i] -= seconds;
    for (let n = dateStart.note; n < notes.length; n++) {
      notes[n] = { ...notes[n], timeS: notes[n].timeS - seconds };
    }
  }

  private readOther(from: number, to: number, line: number): void {
    const letter = String.fromCharCode(this.bytes[from]);
    // Satellite lists, recorder data, comments and security lines say nothing that is measured here.
    if ('FKLGMNJD'.includes(letter)) return;
    if (!'AHICE'.includes(letter)) {
      this.leftOut.add(line, 'line begins with no letter of an IGC record', this.columns.length);
      return;
    }
    const text = lineText(this.bytes.subarray(from, Math.min(to, from + MAX_LINE_BYTES)));
    if (letter === 'A') keepHeader(this.headers, 'A', text.slice(1).trim());
    else if (letter === 'I') this.readI(text, line);
    else if (letter === 'C') this.note(line, NaN, 'declared-point', text.slice(1));
    else if (letter === 'E') this.readE(text, line);
    else if (isDateRecord(text)) this.readDateRecord(text, line);
    else {
      const header = readHeader(text);
      keepHeader(this.headers, header.key, header.text);
    }
  }

  private readDateRecord(text: string, line: number): void {
    const day = readDate(text);
    if (Number.isNaN(day)) {
      const found = `"${text.slice(0, 40)}"`;
      this.addProblem(
        'igc-bad-date',
        'warning',
        `line ${line}`,
        `The date record ${found} was found, but day, month and year (HFDTEDATE:DDMMYY,NN) were expected; it is ignored.`,
      );
      return;
    }
    keepHeader(this.headers, text.slice(0, 5), readHeader(text).text.replace(/^DATE/, ''));
    if (this.calendar.date(day)) {
      this.dateStart = { fix: this.columns.length, note: this.notes.length };
    }
    if (this.columns.length > this.segmentStart) {
      this.segment += 1;
      this.segmentStart = this.columns.length;
    }
  }

  private readI(text: string, line: number): void {
    const { fields, faulty } = readExtraFields(text);
    this.extras = fields;
    this.timeDecimals = Math.max(this.timeDecimals, fields.get('TDS')?.width ?? 0);
    this.positionDecimals = Math.max(this.positionDecimals, fields.get('LAD')?.width ?? 0);
    if (faulty.length > 0) {
      this.addProblem(
        'igc-bad-extension',
        'warning',
        `line ${line}`,
        `The I record announces "${faulty.slice(0, 5).join('", "')}", but two byte numbers from 36 on and a three-letter code were expected; these fields are ignored.`,
      );
    }
  }

  private readE(text: string, line: number): void {
    const event = readEvent(text);
    if (event === null) this.leftOut.add(line, 'event without HHMMSS', this.columns.length);
    else this.note(line, this.calendar.near(event.timeOfDayS), event.kind, event.text);
  }

  private note(line: number, timeS: number, kind: string, text: string): void {
    if (this.notes.length < MAX_NOTES) this.notes.push({ line, timeS, kind, text: text.trim() });
  }

  /** Recorders without a pressure sensor or without satellite height write zero throughout. */
  private dropZeroColumns(): void {
    const { columns } = this;
    for (const column of [columns.heightM, columns.pressureHeightM]) {
      let i = 0;
      while (i < columns.length && (column[i] === 0 || Number.isNaN(column[i]))) i += 1;
      if (i === columns.length) column.fill(NaN, 0, columns.length);
    }
  }

  private addProblem(
    code: string,
    severity: Problem['severity'],
    where: string,
    message: string,
  ): void {
    if (this.problems.length < 100) this.problems.push(problem(code, severity, where, message));
  }
}

const LF = 10;
const CR = 13;
const END_MARK = 0x1a;
const LETTER_B = 66;
const LETTER_H = 72;

function isLineEnd(byte: number): boolean {
  return byte === CR || byte === LF || byte === END_MARK;
}

/** Days since 1970 of the first readable date record, for fixes that stand before it; NaN without one. */
function firstDateOf(bytes: Uint8Array): number {
  for (let at = bytes.indexOf(LETTER_H); at !== -1; at = bytes.indexOf(LETTER_H, at + 1)) {
    const atLineStart = at === 0 || isLineEnd(bytes[at - 1]);
    if (!atLineStart || bytes[at + 2] !== 68) continue;
    const day = readDate(lineText(bytes.subarray(at, at + 40)).split(/[\r\n]/, 1)[0]);
    if (!Number.isNaN(day)) return day;
  }
  return NaN;
}
