/**
 * How many landings were made month by month?
 *
 * In: the logbook's flights, the time now, a time zone. Out: the last twenty-four months, each with
 * its landings at kept strips; months without one are there too.
 */
import { landingsByMonth } from '../calibration/currency.ts';
import type { LoggedFlight } from './logged-flight.ts';
import { landingsOf } from './logbook-words.ts';
import { isoDay } from './local-time.ts';

/** One month. */
export interface MonthCount {
  /** `2025-06`. */
  readonly month: string;
  /** `Jun 2025`. */
  readonly name: string;
  readonly landings: number;
}

const MONTHS_SHOWN = 24;
const NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** Oldest first, ending with the month of the last landing or of `nowS`, whichever is earlier. */
export function monthCounts(
  flights: readonly LoggedFlight[],
  nowS: number,
  timeZone: string,
): MonthCount[] {
  const days = landingsOf(flights).map(({ timeS }) => isoDay(timeS, timeZone));
  if (days.length === 0) return [];
  const last = days.reduce((latest, day) => (day > latest ? day : latest));
  const now = isoDay(nowS, timeZone);
  return landingsByMonth(days, last < now ? last : now, MONTHS_SHOWN).map((count) => {
    const [year, number] = count.month.split('-');
    return { ...count, name: `${NAMES[Number(number) - 1]} ${year}` };
  });
}
