/**
 * The flights of the logbook in one list, from the analyses of its logs; and how the pilot reads them.
 */
import { lessonsOfLog, type LoggedLesson } from '../debrief/who-teaches.ts';
import { landingMarks, teaches } from '../logbook/debrief-context.ts';
import type { ShownUnits } from '../logbook/entry.ts';
import type { LoggedFlight } from '../report/logged-flight.ts';
import { problem, type Problem } from '../result.ts';
import type { EventQuestion } from './analysis-client.ts';
import type { AppState, LogAnalysis } from './app-state.ts';

/** All flights whose log was measured, in the order of the logs. */
export function loggedFlights({ logs, analyses }: AppState): LoggedFlight[] {
  return logs.flatMap(({ id }) =>
    (analyses.get(id)?.flights ?? []).map((summary, flightIndex) => ({ id, flightIndex, summary })),
  );
}

/** What touchdowns put by hand taught, in the order of the logs; nothing of one that was taken back since. */
export function keptLessons({ logs, analyses, visits }: AppState): LoggedLesson[] {
  const teachers = logs.filter((log) => teaches(landingMarks(visits, log)));
  return teachers.flatMap(({ id }) => lessonsOfLog(id, analyses.get(id)?.flights ?? []));
}

/** What is wrong with asking for an event that the analysis does not have; null: nothing. */
export function noSuchEvent(
  { flights }: LogAnalysis,
  { logId, flight, key }: Pick<EventQuestion, 'logId' | 'flight' | 'key'>,
): Problem | null {
  const events = flights.at(flight)?.events;
  if (events && (key === null || events.some((event) => event.key === key))) return null;
  const found = events ? `no event ${key ?? ''} in this flight` : `no flight ${flight + 1} in it`;
  const message = `found ${found}, expected one that was measured. It may have gone when the log was measured anew`;
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
