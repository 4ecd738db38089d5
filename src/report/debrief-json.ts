/**
 * The debrief as the JSON document of the command line: fixed names, see docs/schema/debrief.schema.json.
 */
import type { Debrief, Flight } from '../debrief/debrief.ts';
import type { Approach, TakeOff } from '../events/flight-event.ts';
import type { Problem } from '../result.ts';

/** The whole document for several files, in the order given. */
export function debriefDocument(
  debriefs: readonly { debrief: Debrief; problems: readonly Problem[] }[],
  unread: readonly { file: string; problems: readonly Problem[] }[],
): unknown {
  return {
    schema: 1,
    flights: debriefs.flatMap(({ debrief, problems }) =>
      debrief.flights.map((flight) => flightJson(flight, problems)),
    ),
    files: [
      ...debriefs.map(({ debrief, problems }) => ({
        file: debrief.source.file,
        read: true,
        flights: debrief.flights.length,
        problems,
        leftOut: debrief.leftOut,
      })),
      ...unread.map(({ file, problems }) => ({ file, read: false, flights: 0, problems, leftOut: [] })),
    ],
  };
}

function flightJson(flight: Flight, problems: readonly Problem[]): unknown {
  return {
    source: flight.source,
    problems,
    takeOffs: flight.events.takeOffs.map(takeOffJson),
    approaches: flight.events.approaches.map(approachJson),
  };
}

function takeOffJson(takeOff: TakeOff): unknown {
  const { from: _from, to: _to, ...rest } = takeOff;
  return rest;
}

function approachJson(approach: Approach): unknown {
  const { from: _from, to: _to, posterior: _posterior, ...rest } = approach;
  return rest;
}
