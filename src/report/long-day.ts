/**
 * A day as it stands over a sentence.
 *
 * In: UTC seconds. Out: `Saturday 14 June 2025`, UTC.
 */

const LONG_DAY = new Intl.DateTimeFormat('en-GB', {
  timeZone: 'UTC',
  weekday: 'long',
  day: 'numeric',
  month: 'long',
  year: 'numeric',
});

/** The day at `timeS`, in words. */
export function longDay(timeS: number): string {
  return LONG_DAY.format(timeS * 1000).replace(',', '');
}
