/**
 * What UTC second does a written date and time mean?
 *
 * Inputs: calendar fields, or ISO 8601 text as GPX writes it. Output: seconds since 1970 UTC, NaN
 * where the text is no time. Hand-written because it runs once a fix and because the built-in
 * reader takes text without a zone as local time.
 * Source: the calendar rule is that of the proleptic Gregorian calendar; text forms after
 * W3C XML Schema part 2, dateTime (from memory).
 */

const DAY_S = 86400;
const DAYS_PER_ERA = 146097;
const DAYS_0000_03_01_TO_1970 = 719468;

/**
 * Days from 1 January 1970 to a Gregorian date; month 1-12, day 1-31.
 * Fails: NaN for a date that does not exist, such as 31 April.
 */
export function daysSince1970(year: number, month: number, day: number): number {
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return NaN;
  // Years begin in March, so that the leap day comes last.
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const dayOfEra =
    yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * DAYS_PER_ERA + dayOfEra - DAYS_0000_03_01_TO_1970;
}

/** The UTC date of a time as `2026-06-07`; time in seconds since 1970. Fails: `unknown` for NaN. */
export function isoDate(timeS: number): string {
  const date = new Date(timeS * 1000);
  return Number.isNaN(date.getTime()) ? 'unknown' : date.toISOString().slice(0, 10);
}

/** Reads many times of one file and remembers how finely they were written. */
export class IsoTimeReader {
  /** Most decimals of a second that were not all zero. */
  finestDecimals = 0;
  /** How many times carried no zone and were taken as UTC. */
  withoutZone = 0;

  /**
   * UTC seconds since 1970 of `2026-06-07T10:00:00.25Z`, `...+02:00` or a time without zone, which
   * counts as UTC (GPX times are UTC by definition). A leap second 60 counts as the next second.
   * Fails: NaN for anything else.
   */
  read(text: string): number {
    const t = text.trim();
    const year = digits(t, 0, 4);
    const days = daysSince1970(year, digits(t, 5, 2), digits(t, 8, 2));
    const hour = digits(t, 11, 2);
    const minute = digits(t, 14, 2);
    const second = digits(t, 17, 2);
    const joint = t.charCodeAt(10) | 0x20;
    const punctuated =
      t.charCodeAt(4) === DASH &&
      t.charCodeAt(7) === DASH &&
      (joint === LOWER_T || joint === SPACE) &&
      t.charCodeAt(13) === COLON &&
      t.charCodeAt(16) === COLON;
    if (!punctuated || !(hour < 24 && minute < 60 && second <= 60)) return NaN;
    let timeS = days * DAY_S + hour * 3600 + minute * 60 + second;
    let at = 19;
    const mark = t.charCodeAt(at);
    if (mark === POINT || mark === COMMA) {
      const end = digitsEnd(t, at + 1);
      if (end === at + 1) return NaN;
      timeS += this.fraction(t, at + 1, end);
      at = end;
    }
    return timeS - this.zone(t, at);
  }

  private fraction(t: string, from: number, to: number): number {
    let lastNonZero = to;
    while (lastNonZero > from && t.charCodeAt(lastNonZero - 1) === ZERO) lastNonZero -= 1;
    if (lastNonZero === from) return 0;
    const decimals = Math.min(lastNonZero - from, 9);
    if (decimals > this.finestDecimals) this.finestDecimals = decimals;
    return digits(t, from, decimals) / 10 ** decimals;
  }

  /** Seconds that the zone written at `at` is ahead of UTC. */
  private zone(t: string, at: number): number {
    if (at === t.length) {
      this.withoutZone += 1;
      return 0;
    }
    const first = t.charCodeAt(at);
    if ((first === UPPER_Z || first === UPPER_Z + 0x20) && at + 1 === t.length) return 0;
    const found = /^([+-])(\d\d)(?::?(\d\d))?$/.exec(t.slice(at));
    if (found === null) return NaN;
    const [, sign, hours, minutes = '0'] = found;
    const ahead = Number(hours) * 3600 + Number(minutes) * 60;
    return sign === '-' ? -ahead : ahead;
  }
}

const ZERO = 48;
const DASH = 45;
const COLON = 58;
const POINT = 46;
const COMMA = 44;
const SPACE = 32;
const LOWER_T = 0x74;
const UPPER_Z = 0x5a;

function digits(t: string, from: number, count: number): number {
  let value = 0;
  for (let i = from; i < from + count; i++) {
    const digit = t.charCodeAt(i) - ZERO;
    // Beyond the end charCodeAt gives NaN, which fails this test too.
    if (!(digit >= 0 && digit <= 9)) return NaN;
    value = value * 10 + digit;
  }
  return value;
}

function digitsEnd(t: string, from: number): number {
  let end = from;
  while (t.charCodeAt(end) >= ZERO && t.charCodeAt(end) <= ZERO + 9) end += 1;
  return end;
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}
