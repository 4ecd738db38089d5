/**
 * Joins a planned visit to the flight it was: the action of the page.
 *
 * In: the store and which visit, which log. Out: the logbook written, or what went wrong.
 */
import { joinVisit } from '../logbook/planned-visit.ts';
import { failure, problem, type Result } from '../result.ts';
import type { AppAction } from './app-state.ts';
import type { PageStore } from './page-store.ts';

/** Said when it is done. */
export const JOINED_WORDS = 'The prediction now stands in the debrief of its flight.';

/** Writes it. Fails: where the visit or the log went meanwhile, or the logbook cannot be written. */
export async function joinPlannedVisit(
  { state, around }: PageStore,
  { visitId, logId, asPlanned }: Extract<AppAction, { readonly type: 'join-visit' }>,
): Promise<Result<unknown>> {
  const planned = state.visits.find(({ id }) => id === visitId);
  const log = state.logs.find(({ id }) => id === logId);
  if (!planned || !log) {
    const message = 'found no such planned visit or flight, expected both in the logbook';
    return failure([problem('no-visit', 'error', 'visit', message)]);
  }
  const existing = state.visits
    .filter((visit) => visit.logId === log.id)
    .toSorted((a, b) => b.changedS - a.changedS);
  const nowS = Math.max(around.clock(), planned.changedS + 0.001);
  const changes = joinVisit(planned, existing.at(0) ?? null, log, { asPlanned, nowS });
  return around.logbook.write(changes);
}
