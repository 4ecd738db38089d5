/**
 * Circuits, joins and the wind that the track implies, for people.
 *
 * In: a flight. Out: a table of circuits, a line an orbit, a line a join, a line for the wind.
 */
import type { Flight } from '../debrief/debrief.ts';
import type { Circuit } from '../events/circuit-figures.ts';
import { isUndetermined } from '../result.ts';
import { placeText } from './event-table.ts';
import { angle, degrees, duration, knots, metres, utcTime } from './format-quantity.ts';
import { textTable } from './text-table.ts';

const HEADING = [
  'UTC',
  'circuit',
  'strip',
  'from',
  'downwind spacing',
  'base turn past threshold',
  'final',
  'steepest bank',
  'time',
];

/** All of it; no lines where nothing was found. */
export function circuitLines({ circuits, wind }: Flight): string[] {
  const joins = circuits.joins.map(
    (join) => `  ${utcTime(join.timeS)}  joined ${placeText(join)}: ${join.kind.replace('-', ' ')}`,
  );
  const orbits = circuits.circuits.flatMap((circuit) =>
    circuit.orbits.map(
      ({ startTimeS, side, leg, endTimeS }) =>
        `  ${utcTime(startTimeS)}  orbit to the ${side} on ${leg}, ${duration(endTimeS - startTimeS)}`,
    ),
  );
  return [
    ...textTable(HEADING, circuits.circuits.map(circuitRow)),
    ...orbits,
    ...joins,
    ...windLines(wind),
  ];
}

function circuitRow(circuit: Circuit): string[] {
  return [
    utcTime(circuit.startTimeS),
    `${circuit.side}-hand`,
    placeText(circuit),
    circuit.legs[0].leg,
    metres(circuit.downwindSpacingM),
    metres(circuit.baseTurnPastThresholdM),
    metres(circuit.finalLengthM),
    angle(circuit.steepestBankDeg),
    duration(circuit.endTimeS - circuit.startTimeS),
  ];
}

function windLines(wind: Flight['wind']): string[] {
  if (isUndetermined(wind)) return [];
  const from = isUndetermined(wind.fromDeg) ? '' : `from ${degrees(wind.fromDeg)} true, `;
  const speed = knots(wind.speedMps);
  return [`  wind that the track implies, at the heights flown: ${from}${speed}`];
}
