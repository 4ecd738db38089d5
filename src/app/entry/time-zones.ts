/**
 * In which time zones can dates be shown, and when does a day begin there?
 *
 * In: names of the IANA time zone database. Out: choices, and UTC seconds. The browser's own list and
 * rules are used.
 */

/** A time zone to choose. */
export interface TimeZoneChoice {
  readonly value: string;
  readonly words: string;
}

/** UTC, the machine's own zone, and every other that the browser knows; a kept one is never missing. */
export function timeZoneChoices(kept: string): readonly TimeZoneChoice[] {
  const own = new Intl.DateTimeFormat().resolvedOptions().timeZone;
  const known = Intl.supportedValuesOf('timeZone');
  const others = [...new Set([...known, kept])].filter((zone) => zone !== 'UTC' && zone !== own);
  const choice = (value: string): TimeZoneChoice => ({ value, words: value.replaceAll('_', ' ') });
  return [
    choice('UTC'),
    ...(own === 'UTC'
      ? []
      : [{ value: own, words: `${own.replaceAll('_', ' ')}, as this machine` }]),
    ...others.sort().map(choice),
  ];
}

/**
 * When a day begins, UTC seconds; null where the text is no day.
 *
 * @param day as a date field gives it, `2025-06-14`
 * @param timeZone `UTC` or an IANA name
 */
export function dayStartS(day: string, timeZone: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(day)) return null;
  const utcS = Date.parse(`${day}T00:00:00Z`) / 1000;
  if (Number.isNaN(utcS) || new Date(utcS * 1000).toISOString().slice(0, 10) !== day) return null;
  // The offset at midnight is that of the moment found with it; a change of clocks needs a second look.
  const guessS = utcS - offsetS(utcS, timeZone);
  return utcS - offsetS(guessS, timeZone);
}

/** The day of a moment in a zone, `2025-06-14`. */
export function dayOf(timeS: number, timeZone: string): string {
  return new Date((timeS + offsetS(timeS, timeZone)) * 1000).toISOString().slice(0, 10);
}

/** How far a zone's clocks are ahead of UTC at a moment, seconds. */
function offsetS(timeS: number, timeZone: string): number {
  const parts = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    hourCycle: 'h23',
    ...{ year: 'numeric', month: '2-digit', day: '2-digit' },
    ...{ hour: '2-digit', minute: '2-digit', second: '2-digit' },
  }).formatToParts(timeS * 1000);
  const part = (type: string) => parts.find((each) => each.type === type)?.value ?? '';
  const clock = `${part('year')}-${part('month')}-${part('day')}T${part('hour')}:${part('minute')}:${part('second')}Z`;
  return Date.parse(clock) / 1000 - Math.floor(timeS);
}
