/**
 * What does the simulated aeroplane do with its weight, its wing and its engine?
 *
 * A point mass: thrust and drag as accelerations, lift limited by the wing, rolling friction and
 * brakes. Outputs are accelerations in m/s2; mass cancels.
 * Source: drag as a part growing with the square of the speed and a part falling with it, as in any
 * flight mechanics text (from memory); rolling friction 0.05-0.10 and braked friction 0.2-0.5 on
 * grass, as aircraft design texts give them (from memory). Nothing describes a type.
 */
import { GRAVITY_MPS2 } from '../../src/units/convert.ts';

/** One invented aeroplane at one mass. Speeds are true airspeeds, m/s. */
export interface AeroplaneModel {
  /** Stall with landing flap. */
  readonly stallMps: number;
  /** Lift over drag at 1.3 times the stall, engine idle, with and without landing flap. */
  readonly glideFlap: number;
  readonly glideClean: number;
  /** Thrust over mass at rest, and the speed at which it would be gone. */
  readonly staticThrustMps2: number;
  readonly thrustGoneMps: number;
  readonly idleThrustMps2: number;
  readonly liftOffMps: number;
  readonly climbMps: number;
  readonly cruiseMps: number;
  /** Coefficients of friction on today's surface: free rolling, and the most the braked wheels add. */
  readonly rollingFriction: number;
  readonly brakeFriction: number;
  /** Antenna over the uncompressed wheels with the aeroplane level, and how much higher in the hold-off. */
  readonly antennaM: number;
  readonly noseUpM: number;
  /** Time constant with which the nose comes down after touchdown, s. */
  readonly noseDownS: number;
}

/** A light single with landing flap, for tests that need just one. Stall 47 kt. */
export const FOUR_SEATER: AeroplaneModel = {
  stallMps: 24.2,
  glideFlap: 8.6,
  glideClean: 10.8,
  staticThrustMps2: 2.35,
  thrustGoneMps: 115,
  idleThrustMps2: 0.2,
  liftOffMps: 28.6,
  climbMps: 34,
  cruiseMps: 50,
  rollingFriction: 0.06,
  brakeFriction: 0.4,
  antennaM: 1.5,
  noseUpM: 0.16,
  noseDownS: 1.2,
};

/** A tail-wheel microlight. Stall 33 kt. */
export const MICROLIGHT: AeroplaneModel = {
  stallMps: 17,
  glideFlap: 7.6,
  glideClean: 10,
  staticThrustMps2: 3.3,
  thrustGoneMps: 85,
  idleThrustMps2: 0.15,
  liftOffMps: 19.5,
  climbMps: 24,
  cruiseMps: 36,
  rollingFriction: 0.065,
  brakeFriction: 0.3,
  antennaM: 1.2,
  noseUpM: 0,
  noseDownS: 1,
};

/** Drag over mass. `loadFactor` is lift over weight; `flap` runs from 0 (clean) to 1 (landing). */
export function dragMps2(
  aeroplane: AeroplaneModel,
  airspeedMps: number,
  loadFactor: number,
  flap: number,
): number {
  const reference = 1.3 * aeroplane.stallMps;
  const ratio = Math.max(airspeedMps, 1) / reference;
  const clean = 1 / aeroplane.glideClean;
  const extra = 1 / aeroplane.glideFlap - clean;
  const parasitic = (PARASITIC_SHARE * clean + extra * flap) * ratio * ratio;
  const induced = ((1 - PARASITIC_SHARE) * clean * loadFactor * loadFactor) / (ratio * ratio);
  return GRAVITY_MPS2 * (parasitic + induced);
}

/** Most thrust over mass at an airspeed. */
export function fullThrustMps2(aeroplane: AeroplaneModel, airspeedMps: number): number {
  return aeroplane.staticThrustMps2 * Math.max(0, 1 - airspeedMps / aeroplane.thrustGoneMps);
}

/** Thrust over mass with the engine idling: a fixed propeller drags when driven by the air. */
export function idleThrustMps2(aeroplane: AeroplaneModel, airspeedMps: number): number {
  return aeroplane.idleThrustMps2 * (1 - airspeedMps / (1.5 * aeroplane.stallMps));
}

/** Most lift over weight that the wing gives at an airspeed. */
export function largestLoadFactor(aeroplane: AeroplaneModel, airspeedMps: number): number {
  return (airspeedMps / aeroplane.stallMps) ** 2;
}

/** Share of the clean drag at 1.3 times the stall that is not induced by lift (typical of light singles). */
const PARASITIC_SHARE = 0.5;
