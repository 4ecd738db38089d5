/**
 * How rightly were circuits, joins, orbits and the wind of one simulated flight found?
 *
 * In: a drawn flight and what was found in its log. Out: one record a circuit, a join and a wind.
 * A circuit is right when its side and the order of its legs are, and every turn on to a leg begins
 * within `SLACK_S` and one interval of the truth; within `MIDDLE_SLACK_S` where two turns are flown
 * as one, whose middle has no moment of its own, and for the climb-out, which begins with lift-off. Where an orbit is flown in one go with a turn, the
 * borders are not judged: 450 degrees have no middle either. The first leg of a joined circuit begins where it
 * is joined, not with a turn: its beginning is not judged.
 */
import type { Circuit } from '../../src/events/circuit-figures.ts';
import type { Circuits } from '../../src/events/circuit.ts';
import type { WindEstimate } from '../../src/events/wind-from-track.ts';
import { isUndetermined, type Measured, type Undetermined } from '../../src/result.ts';
import { steepestBankDeg, type CircuitFlight } from './circuit-population.ts';
import type { CircuitShape } from './shaped-circuit.ts';
import type { CircuitTruth, LegName } from './truth.ts';

/** A turn may be found this much off, seconds, beside one logging interval. */
export const SLACK_S = 5;
/** The middle of two turns flown as one. */
export const MIDDLE_SLACK_S = 8;

/** A quantity against its truth. */
export interface Against {
  readonly error: number;
  readonly held: boolean;
  readonly width: number;
}

/** One true circuit. */
export interface CircuitScore {
  readonly right: boolean;
  readonly why: string;
  readonly borderErrorsS: readonly number[];
  readonly bank: Against | null;
}

/** Everything of one flight. */
export interface FlightScore {
  readonly circuits: readonly CircuitScore[];
  /** Circuits found where none was flown. */
  readonly invented: number;
  readonly joins: readonly { readonly kind: string; readonly found: string }[];
  readonly wind: WindScore;
}

/** The wind of one flight. `fourLegs`: a circuit with four legs or more was flown whole. */
export interface WindScore {
  readonly fourLegs: boolean;
  /** Length of the error as a vector; null where undetermined. */
  readonly errorMps: number | null;
  readonly speed: Against | null;
  readonly direction: Against | null;
}

/** Scores a flight. */
export function scoreCircuits(
  flight: CircuitFlight,
  found: Circuits,
  wind: WindEstimate | Undetermined,
  intervalS: number,
): FlightScore {
  const truths = flight.flown.truth.circuits
    .map((circuit, k) => ({ circuit, k }))
    .filter(({ circuit }) => circuit.legs.some(({ leg }) => leg === 'downwind'));
  const used = new Set<Circuit>();
  const circuits = truths.map(({ circuit, k }) => {
    const match = found.circuits.find((each) => !used.has(each) && overlaps(each, circuit));
    if (match) used.add(match);
    return scoreCircuit(flight, k, circuit, match, intervalS);
  });
  const trueJoins = flight.flown.truth.joins;
  const joins = Array.from({ length: Math.max(trueJoins.length, found.joins.length) }, (_, k) => ({
    kind: trueJoins.at(k)?.kind ?? 'none',
    found: found.joins.at(k)?.kind ?? 'none',
  }));
  const fourLegs = truths.some(({ circuit }) => legsWanted(flight, circuit).length >= 4);
  return {
    circuits,
    invented: found.circuits.length - used.size,
    joins,
    wind: scoreWind(flight, wind, fourLegs),
  };
}

/** Shares more than half of the true circuit's time. */
function overlaps(found: Circuit, { legs }: CircuitTruth): boolean {
  const from = legs[0].startTimeS;
  const to = legs[legs.length - 1].endTimeS;
  const both = Math.min(found.endTimeS, to) - Math.max(found.startTimeS, from);
  return both > (to - from) / 2;
}

/** The legs as they should be found: a crosswind or overhead join comes along crosswind. */
function legsWanted({ beginning, flown }: CircuitFlight, circuit: CircuitTruth): LegName[] {
  const named = circuit.legs.map(({ leg }) => leg);
  const joined = circuit === flown.truth.circuits[0] && beginning !== 'take-off';
  const alongCrosswind = beginning === 'overhead' || beginning === 'crosswind';
  return joined && alongCrosswind ? ['crosswind', ...named] : named;
}

function scoreCircuit(
  flight: CircuitFlight,
  k: number,
  circuit: CircuitTruth,
  found: Circuit | undefined,
  intervalS: number,
): CircuitScore {
  const none = { right: false, borderErrorsS: [], bank: null };
  if (!found) return { ...none, why: 'missed' };
  if (found.side !== circuit.side) return { ...none, why: 'side' };
  const wanted = legsWanted(flight, circuit);
  const names = found.legs.map(({ leg }) => leg);
  if (names.join() !== wanted.join()) {
    return { ...none, why: `${wanted.join('-')} found as ${names.join('-')}` };
  }
  const shape = flight.shapes[k];
  const joined = k === 0 && flight.beginning !== 'take-off';
  const errors: number[] = [];
  let late = '';
  for (const { leg, startTimeS } of circuit.legs) {
    const at = found.legs.find((each) => each.leg === leg);
    if (!at || (joined && leg === found.legs[0].leg)) continue;
    const off = at.startTimeS - startTimeS;
    const middle = leg === 'climb-out' || isMiddle(circuit, leg, shape);
    if (isOneGo(flight, k, circuit)) continue;
    errors.push(off);
    if (Math.abs(off) > (middle ? MIDDLE_SLACK_S : SLACK_S) + intervalS) {
      late = `${leg} ${off.toFixed(0)} s off`;
    }
  }
  const orbits = orbitsDiffer(flight, k, circuit, found);
  return {
    right: late === '' && orbits === '',
    why: late === '' ? orbits : late,
    borderErrorsS: errors,
    bank: bankAgainst(flight, circuit, found.steepestBankDeg),
  };
}

/** The leg before has no straight part: two turns flown as one. */
function isMiddle({ legs }: CircuitTruth, leg: LegName, shape: CircuitShape): boolean {
  if (leg === 'final' && shape.roundedToFinal) return true;
  if (leg === 'downwind' && shape.roundedToDownwind) return true;
  const before = legs.findLast((_, k) => legs[k + 1]?.leg === leg);
  return before !== undefined && before.endTimeS - before.startTimeS < NO_STRAIGHT_S;
}

/** An orbit flown in one go with a turn of the circuit: nobody can say which of the two came first. */
function isOneGo(flight: CircuitFlight, k: number, { legs }: CircuitTruth): boolean {
  return flight.orbits[k].some((orbit) =>
    legs.some(
      ({ startTimeS }) =>
        startTimeS > orbit.startTimeS - NO_STRAIGHT_S && startTimeS < orbit.endTimeS + 6,
    ),
  );
}

/** A quarter turn takes some ten seconds; a shorter leg is all turn. */
const NO_STRAIGHT_S = 15;

function orbitsDiffer(
  flight: CircuitFlight,
  k: number,
  circuit: CircuitTruth,
  found: Circuit,
): string {
  const truth = flight.orbits[k];
  const oneGo = isOneGo(flight, k, circuit);
  const text = (list: readonly { leg: string; side: string }[]): string =>
    list.map(({ leg, side }) => (oneGo ? side : `${side} on ${leg}`)).join();
  if (text(truth) !== text(found.orbits)) {
    return `orbits ${text(truth)} found as ${text(found.orbits)}`;
  }
  return '';
}

function bankAgainst(
  flight: CircuitFlight,
  circuit: CircuitTruth,
  found: Measured,
): Against | null {
  const base = circuit.legs.find(({ leg }) => leg === 'base');
  const final = circuit.legs.find(({ leg }) => leg === 'final');
  if (!base || !final || isUndetermined(found)) return null;
  // From base to final: the turn on to base is not in it.
  const fromS = Math.min(
    final.startTimeS,
    base.startTimeS + 0.6 * (final.startTimeS - base.startTimeS),
  );
  return against(found, steepestBankDeg(flight.flown, fromS, final.endTimeS));
}

function scoreWind(
  flight: CircuitFlight,
  wind: WindEstimate | Undetermined,
  fourLegs: boolean,
): WindScore {
  const none = { fourLegs, errorMps: null, speed: null, direction: null };
  if (isUndetermined(wind) || isUndetermined(wind.speedMps)) return none;
  const { windEastMps, windNorthMps } = flight;
  const trueSpeed = Math.hypot(windEastMps, windNorthMps);
  const trueFrom = (Math.atan2(-windEastMps, -windNorthMps) * 180) / Math.PI;
  const speed = against(wind.speedMps, trueSpeed);
  const { fromDeg } = wind;
  if (isUndetermined(fromDeg)) {
    // No direction: the error is at most the length of both.
    return { ...none, errorMps: Math.max(trueSpeed, wind.speedMps.value), speed };
  }
  const off = ((((fromDeg.value - trueFrom) % 360) + 540) % 360) - 180;
  const turn = fromDeg.value - off;
  const errorMps = Math.sqrt(
    trueSpeed ** 2 +
      wind.speedMps.value ** 2 -
      2 * trueSpeed * wind.speedMps.value * Math.cos((off * Math.PI) / 180),
  );
  return { fourLegs, errorMps, speed, direction: against(fromDeg, turn) };
}

function against(found: Measured, truth: number): Against | null {
  if (isUndetermined(found)) return null;
  return {
    error: found.value - truth,
    held: found.low <= truth && truth <= found.high,
    width: found.high - found.low,
  };
}
