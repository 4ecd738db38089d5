/**
 * The backtracks that belong to an event, as measured rows.
 *
 * In: the events of a flight, an approach or a take-off of it, the pilot's units. Out: one row for
 * each backtrack after that landing or before that take-off.
 */
import type { FlightEvents } from '../../events/detect-events.ts';
import type { Approach, Backtrack, TakeOff } from '../../events/flight-event.ts';
import {
  figureLine,
  hasFigure,
  lengthFigure,
  speedFigure,
  type PilotUnits,
} from '../figure-text.ts';
import type { MeasuredRow } from './measured-rows.ts';

/** Rows of the backtracks that followed a landing. */
export function backtracksAfter(
  { approaches, backtracks }: FlightEvents,
  landing: Approach,
  units: PilotUnits,
): MeasuredRow[] {
  const next = approaches.find(({ from }) => from > landing.from)?.from ?? Infinity;
  return backtracks
    .filter(({ afterLanding, from }) => afterLanding && from > landing.from && from < next)
    .map((backtrack) => rowOf(backtrack, units));
}

/** Rows of the backtracks that came before a take-off and followed no landing of the flight. */
export function backtracksBefore(
  { backtracks }: FlightEvents,
  takeOff: TakeOff,
  units: PilotUnits,
): MeasuredRow[] {
  return backtracks
    .filter(({ afterLanding, to }) => !afterLanding && to <= takeOff.from + 1)
    .map((backtrack) => rowOf(backtrack, units));
}

function rowOf({ lengthM, fastestMps }: Backtrack, units: PilotUnits): MeasuredRow {
  const fastest = speedFigure(fastestMps, units);
  return {
    label: 'backtrack',
    figure: lengthFigure(lengthM, units),
    beside: hasFigure(fastest) ? `at most ${figureLine(fastest)}` : '',
    how: 'Taxied along the strip against its direction, between turning round and turning round again or leaving it.',
  };
}
