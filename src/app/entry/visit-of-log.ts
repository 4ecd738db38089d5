/**
 * What was entered about a log's flight: the newest record, or one still to be kept.
 *
 * In: the state, the id of a log. Out: a visit record. Where another log recorded the same flight, what was
 * entered about that one stands for both, so that it can be changed and taken back from either.
 */
import { laterFirst } from '../../logbook/debrief-context.ts';
import { entryId, type VisitId, type VisitRecord } from '../../logbook/entry.ts';
import { makeVisit } from '../../logbook/make-entry.ts';
import type { AppState } from '../app-state.ts';
import { equalLogs } from '../other-logs.ts';

/** See the file's head. */
export function visitOfLog(state: AppState, logId: string): VisitRecord {
  const { logs, nowS } = state;
  const known =
    visitsOfLogs(state, [logId]).at(0) ?? visitsOfLogs(state, equalLogs(state, logId)).at(0);
  if (known) return known;
  const log = logs.find(({ id }) => id === logId) ?? null;
  return makeVisit(freeId(state, logId), log, { nowS, demo: log?.demo ?? false });
}

/**
 * The id that everybody gives the first record about a log. Where a record has it already it is about
 * another log by now, to which it was handed on: then the next id that is free.
 */
function freeId({ visits }: AppState, logId: string): VisitId {
  const first = `of-${logId.slice(0, 32)}`;
  const isTaken = (text: string): boolean => visits.some(({ id }) => id === entryId('visit', text));
  let text = first;
  for (let k = 2; isTaken(text); k++) text = `${first}-${k}`;
  return entryId('visit', text);
}

/** The record about a log, or about another one of the same flights, in which something stands; else as `visitOfLog`. */
export function visitWith(
  state: AppState,
  logId: string,
  holds: (visit: VisitRecord) => boolean,
): VisitRecord {
  const others = state.otherLogs.get(logId)?.ofLandings ?? [];
  const all = [...visitsOfLogs(state, [logId]), ...visitsOfLogs(state, others)];
  return all.find(holds) ?? visitOfLog(state, logId);
}

/**
 * All records about the flights of some logs, the newest first. There are two about one log where one of
 * two people had planned the visit and the other had not, and their logbooks were merged.
 */
export function visitsOfLogs(
  { visits }: Pick<AppState, 'visits'>,
  logIds: readonly string[],
): VisitRecord[] {
  return visits
    .filter(({ logId }) => logId !== null && logIds.includes(logId))
    .toSorted(laterFirst);
}
