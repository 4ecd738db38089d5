/**
 * Which planned visits may a flight have been?
 *
 * In: visits, the flight's day, the strips it used, its aeroplane. Out: visits without a log, planned
 * for that day at one of those strips and, where the aeroplane is known, in it. Offered, never joined
 * by themselves.
 */
import type { VisitRecord } from '../../logbook/entry.ts';
import { isUndetermined } from '../../result.ts';
import type { FlightSummary } from '../flight-summary.ts';
import { isoDay } from '../local-time.ts';

/** The visits that a flight may have been; the day is that of the pilot's zone. */
export function plannedVisitsFor(
  visits: readonly VisitRecord[],
  flight: FlightSummary,
  timeZone: string,
): VisitRecord[] {
  const day = isoDay(flight.startS, timeZone);
  const strips = new Set(flight.events.map(({ stripId }) => stripId));
  const flown = isUndetermined(flight.aeroplane) ? null : flight.aeroplane.id;
  return visits.filter(
    ({ logId, plannedForS, aeroplaneId, predictions }) =>
      logId === null &&
      plannedForS !== null &&
      isoDay(plannedForS) === day &&
      predictions.some(({ stripId }) => strips.has(stripId)) &&
      (flown === null || aeroplaneId === null || aeroplaneId === flown),
  );
}
