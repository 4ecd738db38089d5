/**
 * How current is the pilot, and on how many days was a strip used?
 *
 * In: days (ISO 8601, `2026-05-14`) in the pilot's own zone, so that midnight is where the pilot's
 * midnight is. Out: counts. Nothing here judges: what is enough is set by the pilot and by the rules.
 */

/** A landing or another use of a place; null: not at a kept strip. */
export interface UsedDay {
  readonly day: string;
  readonly stripId: string | null;
}

/** How long ago and how often. */
export interface Currency {
  /** Day of the last landing at a kept strip, and how many days ago; null: none yet. */
  readonly lastStripLanding: { readonly day: string; readonly daysAgo: number } | null;
  /** Landings anywhere, today and on the 90 days before. */
  readonly landingsIn90Days: number;
}

/** A strip and on how many days of a year it was used. */
export interface StripDays {
  readonly stripId: string;
  readonly days: number;
}

/** Landings in one month, `2026-05`. */
export interface MonthLandings {
  readonly month: string;
  readonly landings: number;
}

/** The stretch in which landings count as recent, days: common practice in rules of recency. */
export const RECENT_DAYS = 90;

/** Currency on a day; landings after it count for nothing. Fails: throws on what is no ISO day. */
export function currencyOn(today: string, landings: readonly UsedDay[]): Currency {
  const flown = landings.filter(({ day }) => day <= today);
  const last = flown
    .filter(({ stripId }) => stripId !== null)
    .reduce<string | null>(
      (latest, { day }) => (latest === null || day > latest ? day : latest),
      null,
    );
  return {
    lastStripLanding: last === null ? null : { day: last, daysAgo: daysBetween(last, today) },
    landingsIn90Days: flown.filter(({ day }) => daysBetween(day, today) <= RECENT_DAYS).length,
  };
}

/** Days on which each strip was used in a year, `2026`, in the order of their ids. */
export function stripDaysIn(year: string, uses: readonly UsedDay[]): StripDays[] {
  const days = new Map<string, Set<string>>();
  for (const { day, stripId } of uses) {
    if (stripId === null || !day.startsWith(`${year}-`)) continue;
    const ofStrip = days.get(stripId);
    if (ofStrip) ofStrip.add(day);
    else days.set(stripId, new Set([day]));
  }
  return [...days]
    .map(([stripId, ofStrip]) => ({ stripId, days: ofStrip.size }))
    .sort((a, b) => (a.stripId < b.stripId ? -1 : 1));
}

/** Landings month by month, `months` of them, ending with the month of `lastDay`; empty months are in it. */
export function landingsByMonth(
  days: readonly string[],
  lastDay: string,
  months: number,
): MonthLandings[] {
  return Array.from({ length: months }, (_, k) => {
    const month = monthsBefore(lastDay.slice(0, 7), months - 1 - k);
    return { month, landings: days.filter((day) => day.startsWith(month)).length };
  });
}

/** Whole days from one day to another; negative where the second is earlier. Fails: throws on what is no ISO day. */
export function daysBetween(from: string, to: string): number {
  const days = (Date.parse(`${to}T00:00Z`) - Date.parse(`${from}T00:00Z`)) / DAY_MS;
  if (Number.isNaN(days)) throw new Error(`"${from}" and "${to}" must be days, YYYY-MM-DD`);
  return days;
}

const DAY_MS = 86_400_000;

function monthsBefore(month: string, back: number): string {
  const [year, number] = month.split('-').map(Number);
  const count = 12 * year + number - 1 - back;
  return `${Math.floor(count / 12)}-${String((count % 12) + 1).padStart(2, '0')}`;
}
