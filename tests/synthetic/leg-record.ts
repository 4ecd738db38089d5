/** Which leg of the circuit is being flown: the truth's record of it, opened and closed leg by leg. */
import type { Flight } from './flight.ts';
import type { Runway } from './runway.ts';
import type { LegName } from './truth.ts';

/** Begins a leg now and ends the one before. The first leg opens the circuit. */
export function beginLeg(flight: Flight, runway: Runway, side: 1 | -1, leg: LegName): void {
  if (flight.openCircuit === null) {
    flight.openCircuit = {
      strip: runway.stripId,
      direction: runway.designator,
      side: side === 1 ? 'right' : 'left',
      legs: [],
    };
    flight.truth.circuits.push(flight.openCircuit);
  }
  closeLeg(flight);
  const startTimeS = leg === 'climb-out' ? flight.climbSinceS : flight.timeS;
  flight.openCircuit.legs.push({ leg, startTimeS, endTimeS: flight.timeS });
}

/** Ends the circuit now: at the threshold, at contact or at a go-around. */
export function endCircuit(flight: Flight): void {
  closeLeg(flight);
  flight.openCircuit = null;
}

function closeLeg(flight: Flight): void {
  const last = flight.openCircuit?.legs.at(-1);
  if (last) last.endTimeS = flight.timeS;
}
