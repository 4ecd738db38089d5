/**
 * The flights of the logbook in one list, from the analyses of its logs; and how the pilot reads them.
 */
import type { ShownUnits } from '../logbook/entry.ts';
import type { LoggedFlight } from '../report/logged-flight.ts';
import type { AppState } from './app-state.ts';

/** All flights whose log was measured, in the order of the logs. */
export function loggedFlights({ logs, analyses }: AppState): LoggedFlight[] {
  return logs.flatMap(({ id }) =>
    (analyses.get(id)?.flights ?? []).map((summary, flightIndex) => ({ id, flightIndex, summary })),
  );
}

/** Units and time zone of the settings. */
export function pilotUnits({ settings }: AppState): ShownUnits & { readonly timeZone: string } {
  return { ...settings.units, timeZone: settings.timeZone };
}
