/**
 * Days and clocks as the pilot reads them: in UTC, or in a time zone of their own.
 *
 * In: UTC seconds since 1970, the name of a zone in the IANA time zone database. Out: text. A zone
 * that this machine does not know is read as UTC: a logbook may come from a machine that knows more.
 */

/** Shown where no zone was chosen. */
export const UTC = 'UTC';

/** Hours and minutes: `09:53`. */
export function clockText(timeS: number, timeZone: string = UTC): string {
  return formats(timeZone).clock.format(timeS * 1000);
}

/** Hours, minutes and seconds: `09:53:45`. */
export function clockSecondsText(timeS: number, timeZone: string = UTC): string {
  return formats(timeZone).seconds.format(timeS * 1000);
}

/** `14 Jun`. */
export function dayText(timeS: number, timeZone: string = UTC): string {
  // British English writes September with four letters; a list wants three.
  return formats(timeZone)
    .day.format(timeS * 1000)
    .replace('Sept', 'Sep');
}

/** 2025. */
export function yearOf(timeS: number, timeZone: string = UTC): number {
  return Number(isoDay(timeS, timeZone).slice(0, 4));
}

/** Day and clock, as lists of approaches have them: `14 Jun 2025 09:53`. */
export function whenText(timeS: number, timeZone: string = UTC): string {
  return `${dayText(timeS, timeZone)} ${yearOf(timeS, timeZone)} ${clockText(timeS, timeZone)}`;
}

/** `Saturday 14 June 2025`. */
export function longDay(timeS: number, timeZone: string = UTC): string {
  return formats(timeZone)
    .long.format(timeS * 1000)
    .replace(',', '');
}

/** `2025-06-14` (ISO 8601). */
export function isoDay(timeS: number, timeZone: string = UTC): string {
  return formats(timeZone).iso.format(timeS * 1000);
}

/** What stands behind a clock: `UTC`, or `local time` in any other zone. */
export function zoneWords(timeZone: string = UTC): string {
  return timeZone === UTC ? 'UTC' : 'local time';
}

interface Formats {
  readonly clock: Intl.DateTimeFormat;
  readonly seconds: Intl.DateTimeFormat;
  readonly day: Intl.DateTimeFormat;
  readonly long: Intl.DateTimeFormat;
  readonly iso: Intl.DateTimeFormat;
}

/** True where this machine knows the zone. */
export function isKnownZone(timeZone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en-GB', { timeZone }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

/** Making a format costs more than using it a thousand times. */
const made = new Map<string, Formats>();

function formats(timeZone: string): Formats {
  const known = made.get(timeZone);
  if (known) return known;
  let found: Formats;
  try {
    found = makeFormats(timeZone);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    found = makeFormats(UTC);
  }
  made.set(timeZone, found);
  return found;
}

function makeFormats(timeZone: string): Formats {
  const hours = { timeZone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const;
  return {
    clock: new Intl.DateTimeFormat('en-GB', hours),
    seconds: new Intl.DateTimeFormat('en-GB', { ...hours, second: '2-digit' }),
    day: new Intl.DateTimeFormat('en-GB', { timeZone, day: 'numeric', month: 'short' }),
    long: new Intl.DateTimeFormat('en-GB', {
      timeZone,
      weekday: 'long',
      day: 'numeric',
      month: 'long',
      year: 'numeric',
    }),
    // The Swedish style of dates is the one of ISO 8601.
    iso: new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short' }),
  };
}
