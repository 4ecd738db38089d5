/**
 * What does the logbook say at first sight?
 *
 * In: its flights and the time now. Out: the sentence of the room, and the figures of its block.
 */
import { currencyOn, daysBetween, stripDaysIn, type Currency } from '../calibration/currency.ts';
import { isoDay, UTC } from './local-time.ts';
import type { EventSummary } from './flight-summary.ts';
import type { LoggedFlight } from './logged-flight.ts';

/** Landings anywhere: wheels on the ground, whatever came after. */
export function landingsOf(flights: readonly LoggedFlight[]): EventSummary[] {
  return flights
    .flatMap(({ summary }) => summary.events)
    .filter(({ outcome }) => isLanding(outcome));
}

function isLanding(outcome: EventSummary['outcome']): boolean {
  return outcome === 'full-stop' || outcome === 'touch-and-go' || outcome === 'stop-and-go';
}

/** `29 landings at four strips, the last one three days ago.` Days change at midnight of the zone. */
export function logbookSentence(
  flights: readonly LoggedFlight[],
  nowS: number,
  timeZone: string = UTC,
): string {
  const landings = landingsOf(flights);
  if (landings.length === 0) return 'No landings yet.';
  const kept = landings.flatMap(({ stripId }) => (stripId === null ? [] : [stripId]));
  const lastS = landings.reduce((last, { timeS }) => Math.max(last, timeS), -Infinity);
  const count = `${landings.length} ${landings.length === 1 ? 'landing' : 'landings'}`;
  const places = placesWords(new Set(kept).size, landings.length - kept.length);
  const last = landings.length === 1 ? '' : ', the last one';
  return `${count} at ${places}${last} ${agoWords(daysBetween(isoDay(lastS, timeZone), isoDay(nowS, timeZone)))}.`;
}

function placesWords(strips: number, landingsElsewhere: number): string {
  const known = `${inWords(strips)} ${strips === 1 ? 'strip' : 'strips'}`;
  if (landingsElsewhere === 0) return known;
  const elsewhere = landingsElsewhere === 1 ? 'a place not kept yet' : 'places not kept yet';
  return strips === 0 ? elsewhere : `${known} and at ${elsewhere}`;
}

/** How current the pilot is, by days of the zone. */
export function currencyOf(
  flights: readonly LoggedFlight[],
  nowS: number,
  timeZone: string = UTC,
): Currency {
  const landings = landingsOf(flights).map(({ timeS, stripId }) => ({
    day: isoDay(timeS, timeZone),
    stripId,
  }));
  return currencyOn(isoDay(nowS, timeZone), landings);
}

/** On how many days of the year of `nowS` one strip was used, in a time zone; flown over is not used. */
export function daysUsedThisYear(
  flights: readonly LoggedFlight[],
  stripId: string,
  nowS: number,
  timeZone: string,
): number {
  const uses = flights
    .flatMap(({ summary }) => summary.events)
    .filter((event) => event.stripId === stripId && event.outcome !== 'overflight')
    .map(({ timeS }) => ({ day: isoDay(timeS, timeZone), stripId }));
  return stripDaysIn(isoDay(nowS, timeZone).slice(0, 4), uses).at(0)?.days ?? 0;
}

const NUMBERS = [
  ...['no', 'one', 'two', 'three', 'four', 'five', 'six'],
  ...['seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'],
];

/** Small numbers in words, larger ones in figures. */
export function inWords(count: number): string {
  return NUMBERS[count] ?? String(count);
}

const DAYS_A_YEAR = 365.25;

function agoWords(days: number): string {
  if (days < 1) return 'today';
  if (days === 1) return 'a day ago';
  if (days < 60) return `${inWords(days)} days ago`;
  return days < 2 * DAYS_A_YEAR
    ? `${inWords(Math.round((12 * days) / DAYS_A_YEAR))} months ago`
    : `${inWords(Math.floor(days / DAYS_A_YEAR))} years ago`;
}
