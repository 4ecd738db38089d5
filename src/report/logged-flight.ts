/**
 * A flight as the logbook keeps it: which log it came from, and what was measured.
 */
import type { FlightSummary } from './flight-summary.ts';

/** One flight of the logbook. */
export interface LoggedFlight {
  /** Id of its log. */
  readonly id: string;
  /** Its place among the flights of that log. */
  readonly flightIndex: number;
  readonly summary: FlightSummary;
}

/** Where an event stands in the logbook. */
export interface EventAddress {
  readonly logId: string;
  readonly flightIndex: number;
  /** The event's key in its flight's summary. */
  readonly key: string;
}
