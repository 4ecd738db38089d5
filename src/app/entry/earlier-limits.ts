/**
 * Which limits for a final did the pilot last enter for an aeroplane?
 *
 * In: the visits of the logbook, the aeroplane, the visit that is being entered. Out: the limits, or
 * null. Limits belong to a pilot in an aeroplane, so those of another aeroplane are never offered.
 */
import type { VisitRecord } from '../../logbook/entry.ts';
import type { GateLimits } from '../../weather/gate-limits.ts';

/** See the file's head; `aeroplaneId` is empty where none is chosen. */
export function earlierLimits(
  visits: readonly VisitRecord[],
  aeroplaneId: string,
  exceptId: string | null,
): GateLimits | null {
  if (aeroplaneId === '') return null;
  return (
    visits
      .filter(({ id }) => id !== exceptId)
      .filter((visit) => (visit.aeroplaneId ?? visit.conditions?.aeroplane) === aeroplaneId)
      .toSorted((a, b) => b.changedS - a.changedS)
      .map(({ conditions }) => conditions?.gateLimits ?? null)
      .find((limits) => limits !== null) ?? null
  );
}
