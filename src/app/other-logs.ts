/**
 * Which logs recorded the same flights?
 *
 * In: the flights of each log as last measured. Out: for each log that shares one the others, by id; and
 * what follows for what was entered about a log.
 */
import { sameFlights } from '../debrief/count-once.ts';
import type { OtherLogs } from '../logbook/debrief-context.ts';
import { entryId, type LogSummary, type VisitRecord } from '../logbook/entry.ts';
import { putUntilBack, remove, type Change } from '../logbook/logbook-store.ts';
import type { FlightSummary } from '../report/flight-summary.ts';
import type { AppState } from './app-state.ts';

/** By log id, of those that share a flight with another one. */
export function otherLogsOf(
  logs: readonly LogSummary[],
  flightsOf: (logId: string) => readonly FlightSummary[],
): ReadonlyMap<string, OtherLogs> {
  const flights = logs.flatMap(({ id }) => flightsOf(id).map(({ path }) => ({ id, path })));
  const found = new Map<string, { readonly flight: number; readonly other: string }[]>();
  for (const { pair, zoneS } of sameFlights(flights.map(({ path }) => path))) {
    if (zoneS !== 0) continue;
    for (const [flight, other] of [pair, pair.toReversed()]) {
      const { id } = flights[flight];
      found.set(id, [...(found.get(id) ?? []), { flight, other: flights[other].id }]);
    }
  }
  return new Map(
    [...found].map(([id, shared]) => {
      const ofLandings = [...new Set(shared.map(({ other }) => other))].sort();
      const sharedWith = (log: string): number =>
        new Set(shared.filter(({ other }) => other === log).map(({ flight }) => flight)).size;
      const ofWhole = ofLandings.filter((log) => sharedWith(log) === flightsOf(id).length);
      return [id, { ofLandings, ofWhole }] as const;
    }),
  );
}

/** Logs that recorded all flights of a log and no other ones: they may stand for each other. */
export function equalLogs({ otherLogs }: Pick<AppState, 'otherLogs'>, logId: string): string[] {
  const isWhole = (id: string): boolean => otherLogs.get(id)?.ofWhole.includes(logId) ?? false;
  return (otherLogs.get(logId)?.ofWhole ?? []).filter(isWhole);
}

/** What a message calls a flight whose log is removed, and what goes with it; `day` is said as it stands. */
export function flightRemovedWords(
  state: Pick<AppState, 'otherLogs'>,
  logId: string,
  day: string,
): string {
  return equalLogs(state, logId).length > 0
    ? `One log of the flight of ${day} (what was entered about it stays with the other log)`
    : `The flight of ${day}, with all that was entered about it,`;
}

/**
 * What happens to the records about logs that go. What was entered and measured about one goes with it, and
 * comes back with it; but where another log of the same flights stays, what was entered is about that one
 * until the log comes back, or for good where it was changed meanwhile.
 */
export function changesWithLogs(
  state: Pick<AppState, 'otherLogs' | 'logs' | 'visits'>,
  logIds: readonly string[],
): Change[] {
  return logIds.flatMap((logId) => {
    const heirs = equalLogs(state, logId);
    const heir = state.logs.find(({ id }) => heirs.includes(id) && !logIds.includes(id));
    const visits = state.visits.filter((visit) => visit.logId === logId);
    return [
      ...visits.map((visit) => (heir ? putUntilBack(handedOn(visit, heir), visit) : remove(visit))),
      remove({ kind: 'result', id: entryId('result', logId) }),
    ];
  });
}

/**
 * The record about another log. Nothing was entered anew, so it is no newer: what was entered later about
 * that log still wins. What is the pilot's own stays so, also where it is about a flight of the demonstration.
 */
function handedOn(visit: VisitRecord, { id, demo }: LogSummary): VisitRecord {
  return { ...visit, logId: id, demo: visit.demo && demo };
}
