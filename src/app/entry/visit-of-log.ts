/**
 * What was entered about a log's flight: the newest record, or one still to be kept.
 *
 * In: the state, the id of a log. Out: a visit record.
 */
import { entryId, type VisitRecord } from '../../logbook/entry.ts';
import { makeVisit } from '../../logbook/make-entry.ts';
import type { AppState } from '../app-state.ts';

/** See the file's head. */
export function visitOfLog({ visits, logs, nowS }: AppState, logId: string): VisitRecord {
  const own = visits
    .filter((visit) => visit.logId === logId)
    .toSorted((a, b) => b.changedS - a.changedS);
  if (own.length > 0) return own[0];
  const log = logs.find(({ id }) => id === logId) ?? null;
  const id = entryId('visit', `of-${logId.slice(0, 32)}`);
  return makeVisit(id, log, { nowS, demo: log?.demo ?? false });
}
