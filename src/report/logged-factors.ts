/**
 * Which factors do the flights of the logbook suggest, for each aeroplane?
 *
 * In: summaries of flights. Out: what a debrief of the same flights would have found, without their
 * tracks.
 */
import { ownFactorsFrom, type AeroplaneFactors } from '../debrief/own-factors.ts';
import type { LoggedFlight } from './logged-flight.ts';

/** Own factors of every aeroplane that any of the flights names. */
export function ownFactorsOf(flights: readonly LoggedFlight[]): AeroplaneFactors[] {
  return ownFactorsFrom(
    flights.map(({ summary: { aeroplane, surface, events } }) => ({
      ...{ aeroplane, surface },
      comparisons: events.flatMap(({ roll, whole }) => [roll, whole]),
      goArounds: events.filter(({ outcome }) => outcome === 'go-around').length,
    })),
  );
}
