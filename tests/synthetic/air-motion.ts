/**
 * How does the aeroplane move through the air in one step?
 *
 * In: the pilot's wishes for thrust, rate of climb and bank. Each is followed with the lag of an
 * engine, a wing and a pair of hands, so speed and acceleration never jump. Turns are coordinated:
 * the lift is tilted, and there is no more lift than the wing has at that airspeed.
 * Source: point-mass equations of motion over a flat earth (any flight mechanics text, from memory).
 */
import { GRAVITY_MPS2 } from '../../src/units/convert.ts';
import {
  dragMps2,
  fullThrustMps2,
  idleThrustMps2,
  largestLoadFactor,
  type AeroplaneModel,
} from './aeroplane-model.ts';
import { clamp, endStep, STEP_S, type Flight } from './flight.ts';

/** What the pilot wants: thrust over mass (side-slip counts as negative), climb, bank (right positive). */
export interface AirWish {
  readonly thrustMps2: number;
  readonly climbMps: number;
  readonly bankRad: number;
}

/** One step in the air. */
export function stepAir(flight: Flight, wish: AirWish): void {
  flight.air.advance();
  const heightM = flight.wheelMslM - flight.groundMslM;
  const airEast = flight.eastMps - flight.air.windEastMps(heightM);
  const airNorth = flight.northMps - flight.air.windNorthMps(heightM);
  const level = Math.hypot(airEast, airNorth);
  const speed = Math.hypot(level, flight.upMps);
  flight.airspeedMps = speed;

  flight.thrustMps2 += (wish.thrustMps2 - flight.thrustMps2) * (STEP_S / THRUST_LAG_S);
  const wantedClimbMps2 = clamp((wish.climbMps - flight.upMps) / CLIMB_LAG_S, -2.5, 3);
  flight.climbMps2 += (wantedClimbMps2 - flight.climbMps2) * (STEP_S / WING_LAG_S);
  moveBank(flight, wish.bankRad);

  const sinPath = flight.upMps / speed;
  const cosPath = level / speed;
  const drag = airDragMps2(flight.aeroplane, speed, flight.loadFactor, flight.flap, heightM);
  const along = flight.thrustMps2 - drag;
  const upright = Math.cos(flight.bankRad) * cosPath;
  const bump = (BUMP * GRAVITY_MPS2 * flight.air.updraughtMps(heightM)) / speed;
  const wantedLift = (flight.climbMps2 + GRAVITY_MPS2 + bump - along * sinPath) / upright;
  const lift = Math.min(wantedLift, GRAVITY_MPS2 * largestLoadFactor(flight.aeroplane, speed));
  flight.loadFactor = lift / GRAVITY_MPS2;

  const forward = along * cosPath - lift * Math.cos(flight.bankRad) * sinPath;
  const rightward = lift * Math.sin(flight.bankRad);
  const headEast = airEast / level;
  const headNorth = airNorth / level;
  move(
    flight,
    forward * headEast + rightward * headNorth,
    forward * headNorth - rightward * headEast,
    lift * upright + along * sinPath - GRAVITY_MPS2,
  );
  endStep(flight, NOSE_UP_S);
}

/** Thrust that holds a speed while climbing as wished, within what engine and side-slip allow. */
export function thrustForSpeed(flight: Flight, wishMps: number, climbMps: number): number {
  const speed = flight.airspeedMps;
  const heightM = flight.wheelMslM - flight.groundMslM;
  const drag = airDragMps2(flight.aeroplane, speed, flight.loadFactor, flight.flap, heightM);
  const wanted =
    drag + (GRAVITY_MPS2 * climbMps) / Math.max(speed, 5) + clamp((wishMps - speed) / 3, -1.2, 1.2);
  const least = idleThrustMps2(flight.aeroplane, speed) - SLIP_MPS2;
  return clamp(wanted, least, fullThrustMps2(flight.aeroplane, speed));
}

/** Rate of climb with a given thrust that brings the speed to the wished one within a few seconds. */
export function climbWithThrustMps(flight: Flight, thrustMps2: number, wishMps: number): number {
  const speed = flight.airspeedMps;
  const heightM = flight.wheelMslM - flight.groundMslM;
  const drag = airDragMps2(flight.aeroplane, speed, flight.loadFactor, flight.flap, heightM);
  const excess = thrustMps2 - drag - clamp((wishMps - speed) / 4, -0.6, 0.6);
  return (excess * speed) / GRAVITY_MPS2;
}

/** Drag in flight; the ground below weakens the part that comes from lift. */
export function airDragMps2(
  aeroplane: AeroplaneModel,
  airspeedMps: number,
  loadFactor: number,
  flap: number,
  heightM: number,
): number {
  const nearGround = 1 - 0.4 * Math.exp(-Math.max(heightM, 0) / (aeroplane.stallMps / 6));
  return dragMps2(aeroplane, airspeedMps, loadFactor * Math.sqrt(nearGround), flap);
}

/** Position by the mean of the old and the new velocity: exact while the acceleration is constant. */
function move(flight: Flight, eastMps2: number, northMps2: number, upMps2: number): void {
  const half = (STEP_S * STEP_S) / 2;
  flight.eastM += flight.eastMps * STEP_S + eastMps2 * half;
  flight.northM += flight.northMps * STEP_S + northMps2 * half;
  flight.wheelMslM += flight.upMps * STEP_S + upMps2 * half;
  flight.eastMps += eastMps2 * STEP_S;
  flight.northMps += northMps2 * STEP_S;
  flight.upMps += upMps2 * STEP_S;
}

function moveBank(flight: Flight, wishRad: number): void {
  const wantedRate = clamp((wishRad - flight.bankRad) / 0.6, -MOST_ROLL_RADPS, MOST_ROLL_RADPS);
  flight.bankRateRadps += ((wantedRate - flight.bankRateRadps) * STEP_S) / 0.25;
  flight.bankRad += flight.bankRateRadps * STEP_S;
}

const THRUST_LAG_S = 0.7;
const CLIMB_LAG_S = 0.7;
const WING_LAG_S = 0.25;
const NOSE_UP_S = 1.5;
const MOST_ROLL_RADPS = 0.35;
/** Extra drag that a side-slip gives at most. */
const SLIP_MPS2 = 0.35;
/** Lift change over weight for an updraught of one airspeed: lift slope over lift coefficient, half of it flown out. */
const BUMP = 3;
