/**
 * What was entered about a log's flight: the newest record, or one still to be kept.
 *
 * In: the state, the id of a log. Out: a visit record.
 */
import { entryId, type VisitRecord } from '../../logbook/entry.ts';
import { makeVisit } from '../../logbook/make-entry.ts';
import type { AppState } from '../app-state.ts';

/** See the file's head. */
export function visitOfLog(state: AppState, logId: string): VisitRecord {
  const newest = visitsOfLog(state, logId).at(0);
  if (newest) return newest;
  const { logs, nowS } = state;
  const log = logs.find(({ id }) => id === logId) ?? null;
  const id = entryId('visit', `of-${logId.slice(0, 32)}`);
  return makeVisit(id, log, { nowS, demo: log?.demo ?? false });
}

/**
 * All records about a log's flight, the newest first. There are two where one of two people had planned
 * the visit and the other had not, and their logbooks were merged.
 */
export function visitsOfLog({ visits }: Pick<AppState, 'visits'>, logId: string): VisitRecord[] {
  return visits
    .filter((visit) => visit.logId === logId)
    .toSorted((a, b) => b.changedS - a.changedS);
}
