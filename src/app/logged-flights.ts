/**
 * The flights of the logbook in one list, from the analyses of its logs, each landing once; and how the
 * pilot reads them.
 */
import { lessonsOfLog, type LoggedLesson } from '../debrief/who-teaches.ts';
import { landingMarks, teaches } from '../logbook/debrief-context.ts';
import type { LogSummary, ShownUnits } from '../logbook/entry.ts';
import type { LoggedFlight } from '../report/logged-flight.ts';
import { countingSummary, recordedTwice, type RecordedTwice } from '../report/recorded-twice.ts';
import { problem, type Problem } from '../result.ts';
import type { EventQuestion } from './analysis-client.ts';
import type { AppState, LogAnalysis } from './app-state.ts';

/** A flight as measured, and what of it counts. */
interface RecordedFlight extends LoggedFlight {
  readonly twice: RecordedTwice;
}

/** What was found for a state's analyses, as long as somebody holds them: every room asks for it. */
const found = new WeakMap<AppState['analyses'], Recorded>();

interface Recorded {
  readonly logs: readonly LogSummary[];
  readonly flights: readonly RecordedFlight[];
}

function recordedFlights({
  logs,
  analyses,
}: Pick<AppState, 'logs' | 'analyses'>): Recorded['flights'] {
  const before = found.get(analyses);
  if (before?.logs === logs) return before.flights;
  const all = logs.flatMap(({ id, fileName }) =>
    (analyses.get(id)?.flights ?? []).map((summary, flightIndex) => ({
      ...{ id, flightIndex, summary },
      name: fileName,
    })),
  );
  const twice = recordedTwice(all);
  const flights = all.map(({ id, flightIndex, summary }, k) => ({
    ...{ id, flightIndex, summary },
    twice: twice[k],
  }));
  found.set(analyses, { logs, flights });
  return flights;
}

/**
 * All flights whose log was measured, in the order of the logs, with the take-offs and approaches that
 * count: none of a flight all of which counts in another log.
 */
export function loggedFlights(state: Pick<AppState, 'logs' | 'analyses'>): LoggedFlight[] {
  return recordedFlights(state)
    .filter(({ summary, twice }) => summary.events.length === 0 || twice.counting.size > 0)
    .map(({ id, flightIndex, summary, twice }) => ({
      ...{ id, flightIndex },
      summary: countingSummary(summary, twice.counting),
    }));
}

/** What is said of the flights of a log that other logs recorded too. */
export function recordedTwiceNotes(
  state: Pick<AppState, 'logs' | 'analyses'>,
  logId: string,
): Problem[] {
  return recordedFlights(state).flatMap(({ id, twice }) => (id === logId ? twice.notes : []));
}

/** What touchdowns put by hand taught, in the order of the logs; nothing of one that was taken back since. */
export function keptLessons(state: AppState): LoggedLesson[] {
  const { logs, visits, otherLogs } = state;
  const teachers = new Set<string>(
    logs
      .filter((log) => teaches(landingMarks(visits, log, otherLogs.get(log.id)?.ofLandings)))
      .map(({ id }) => id),
  );
  return loggedFlights(state)
    .filter(({ id }) => teachers.has(id))
    .flatMap(({ id, summary }) => lessonsOfLog(id, [summary]));
}

/** What is wrong with asking for an event that the analysis does not have; null: nothing. */
export function noSuchEvent(
  { flights }: LogAnalysis,
  { logId, flight, key }: Pick<EventQuestion, 'logId' | 'flight' | 'key'>,
): Problem | null {
  const events = flights.at(flight)?.events;
  if (events && (key === null || events.some((event) => event.key === key))) return null;
  const what = events ? `no event ${key ?? ''} in this flight` : `no flight ${flight + 1} in it`;
  const message = `found ${what}, expected one that was measured. It may have gone when the log was measured anew`;
  return problem('no-event', 'error', `log ${logId.slice(0, 12)}`, message);
}

/** What is wrong with asking for a log that went. */
export function notThere(id: string): Problem {
  const message = 'found no such log in the logbook, expected it there';
  return problem('no-log', 'error', `log ${id.slice(0, 12)}`, message);
}

/** Units and time zone of the settings. */
export function pilotUnits({ settings }: AppState): ShownUnits & { readonly timeZone: string } {
  return { ...settings.units, timeZone: settings.timeZone };
}
