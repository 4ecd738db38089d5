/**
 * How many landings were made month by month?
 *
 * In: the logbook's flights, the time now, a time zone. Out: the last twenty-four months, each with
 * its landings at kept strips; months without one are there too.
 */
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
  const months = landingsOf(flights).map(({ timeS }) => isoDay(timeS, timeZone).slice(0, 7));
  if (months.length === 0) return [];
  const last = months.reduce((latest, month) => (month > latest ? month : latest));
  const now = isoDay(nowS, timeZone).slice(0, 7);
  const end = last < now ? last : now;
  return Array.from({ length: MONTHS_SHOWN }, (_, k) => {
    const month = monthsBefore(end, MONTHS_SHOWN - 1 - k);
    const [year, number] = month.split('-');
    return {
      month,
      name: `${NAMES[Number(number) - 1]} ${year}`,
      landings: months.filter((each) => each === month).length,
    };
  });
}

function monthsBefore(month: string, back: number): string {
  const [year, number] = month.split('-').map(Number);
  const count = 12 * year + number - 1 - back;
  return `${Math.floor(count / 12)}-${String((count % 12) + 1).padStart(2, '0')}`;
}
