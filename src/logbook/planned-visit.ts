/**
 * A visit that is planned, and what becomes of it when its flight's log is there.
 *
 * In: frozen predictions and what they were made with; later the log. Out: visit records, ready to be
 * written. A frozen prediction is never changed: joining only says which flight it was.
 */
import type { AeroplaneId, FrozenPrediction, LogSummary, VisitId, VisitRecord } from './entry.ts';
import type { Conditions } from '../weather/conditions.ts';
import { put, remove, type Change } from './logbook-store.ts';
import { stampEntered } from './entered-fields.ts';
import { makeVisit, type Making } from './make-entry.ts';
import { unitePredictions } from './merge-visits.ts';
import { uniteRemarks } from './remarks.ts';

/** Seconds from midnight UTC at which a planned day is written down: its noon, the same day anywhere near. */
const NOON_S = 12 * 3600;

/** The moment that stands for a planned day, `2025-06-14`: its noon, UTC seconds; NaN for no day. */
export function plannedMomentS(isoDay: string): number {
  // The browser's own reader takes far more than ISO 8601.
  if (!/^\d{4}-\d{2}-\d{2}$/.test(isoDay)) return NaN;
  return Date.parse(`${isoDay}T00:00:00Z`) / 1000 + NOON_S;
}

/** A visit before its flight. */
export function planVisit(
  id: VisitId,
  plan: {
    readonly isoDay: string;
    readonly aeroplaneId: AeroplaneId;
    readonly conditions: Conditions;
    readonly predictions: readonly FrozenPrediction[];
  },
  making: Making,
): VisitRecord {
  const { isoDay, aeroplaneId, conditions, predictions } = plan;
  const plannedForS = plannedMomentS(isoDay);
  const blank = makeVisit(id, null, making);
  const planned = { ...blank, plannedForS, aeroplaneId, conditions, predictions };
  return stampEntered(planned, blank, making.nowS);
}

/**
 * Joins a planned visit to its log. What was entered about the flight stays; where nothing was, the
 * planned conditions are taken over only when `asPlanned` says that they were so.
 */
export function joinVisit(
  planned: VisitRecord,
  existing: VisitRecord | null,
  log: LogSummary,
  { asPlanned, nowS }: { readonly asPlanned: boolean; readonly nowS: number },
): Change[] {
  const conditions = asPlanned ? planned.conditions : null;
  if (!existing) {
    const flown = { ...planned, changedS: nowS, logId: log.id, demo: log.demo, conditions };
    return [put(stampEntered(flown, planned, nowS))];
  }
  const joined: VisitRecord = {
    ...existing,
    changedS: nowS,
    plannedForS: planned.plannedForS,
    aeroplaneId: existing.aeroplaneId ?? planned.aeroplaneId,
    conditions: existing.conditions ?? conditions,
    ...uniteRemarks(planned, existing),
    // A visit that came back from a file may be joined for the second time.
    predictions: unitePredictions(existing, planned),
  };
  return [put(stampEntered(joined, existing, nowS)), remove(planned)];
}
