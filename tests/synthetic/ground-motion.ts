/**
 * How does the aeroplane move on its wheels in one step?
 *
 * Along the strip: thrust, drag, rolling friction, brakes and slope. Across: it is steered to a
 * slowly wandering line. Off the strip's axis: taxiing by heading and speed. The wheels are always
 * exactly on the strip's profile.
 * Source: equations of the ground roll as in any performance text (from memory).
 */
import { GRAVITY_MPS2 } from '../../src/units/convert.ts';
import { dragMps2, type AeroplaneModel } from './aeroplane-model.ts';
import { alongOf, alongSpeedMps, clamp, endStep, STEP_S, type Flight } from './flight.ts';
import { slopeAt, toAlongCross, toEastNorth, type Runway } from './runway.ts';

/** What the pilot wants on the roll. `brakeMps2` is the slowing asked of the brakes at full weight on the wheels. */
export interface RollWish {
  readonly thrustMps2: number;
  readonly brakeMps2: number;
  readonly crossM: number;
  /** True while the nose is raised for lift-off. */
  readonly rotating?: boolean;
}

/** One step along the runway's axis. */
export function stepRoll(flight: Flight, runway: Runway, wish: RollWish): void {
  flight.air.advance();
  const place = toAlongCross(runway, flight.eastM, flight.northM);
  const speed = alongSpeedMps(flight, runway);
  const crossSpeed = flight.eastMps * runway.unitNorth - flight.northMps * runway.unitEast;
  const windAlong =
    flight.air.windEastMps(2) * runway.unitEast + flight.air.windNorthMps(2) * runway.unitNorth;
  flight.airspeedMps = Math.abs(speed - windAlong);
  flight.thrustMps2 += (wish.thrustMps2 - flight.thrustMps2) * (STEP_S / THRUST_LAG_S);
  flight.brakeMps2 += (wish.brakeMps2 - flight.brakeMps2) * (STEP_S / BRAKE_LAG_S);
  const wantedLift = wish.rotating === true ? ROTATED_LIFT : restingLift(flight);
  flight.loadFactor += ((wantedLift - flight.loadFactor) * STEP_S) / flight.aeroplane.noseDownS;

  const slope = slopeAt(runway, place.alongM);
  const accel = rollAccelerationMps2(flight.aeroplane, {
    airspeedMps: speed - windAlong,
    thrustMps2: flight.thrustMps2,
    loadFactor: flight.loadFactor,
    brakeMps2: flight.brakeMps2,
    slope,
    flap: flight.flap,
  });
  // Friction holds a standing aeroplane; it never pushes it backwards.
  const newSpeed = Math.max(0, speed + accel * STEP_S);
  flight.groundMps2 = (newSpeed - speed) / STEP_S;
  const wantedCross = clamp((wish.crossM - place.crossM) * 0.3, -0.06 * speed, 0.06 * speed);
  let newCrossSpeed = crossSpeed + ((wantedCross - crossSpeed) * STEP_S) / 0.8;
  newCrossSpeed = clamp(newCrossSpeed, -0.3 * newSpeed, 0.3 * newSpeed);

  const alongM = place.alongM + ((speed + newSpeed) / 2) * STEP_S;
  const crossM = place.crossM + ((crossSpeed + newCrossSpeed) / 2) * STEP_S;
  putOnGround(flight, runway, alongM, crossM, newSpeed, newCrossSpeed);
  endStep(flight, flight.aeroplane.noseDownS);
}

/** Everything that slows or speeds a roll. */
export interface RollForces {
  /** Airspeed along the strip, negative in a tail wind that overtakes. */
  readonly airspeedMps: number;
  readonly thrustMps2: number;
  readonly loadFactor: number;
  readonly brakeMps2: number;
  readonly slope: number;
  readonly flap: number;
}

/** Acceleration along the strip on the wheels, m/s2. */
export function rollAccelerationMps2(aeroplane: AeroplaneModel, forces: RollForces): number {
  const weight = GRAVITY_MPS2 * Math.max(0, 1 - forces.loadFactor);
  const brake = Math.min(
    (forces.brakeMps2 * weight) / GRAVITY_MPS2,
    aeroplane.brakeFriction * weight,
  );
  // Almost no lift on the wheels, so almost none of the drag that comes with it.
  const drag =
    dragMps2(aeroplane, forces.airspeedMps, 0, forces.flap) *
    Math.sign(forces.airspeedMps) *
    (Math.abs(forces.airspeedMps) < 1 ? Math.abs(forces.airspeedMps) : 1);
  return (
    forces.thrustMps2 -
    drag -
    aeroplane.rollingFriction * weight -
    brake -
    GRAVITY_MPS2 * forces.slope
  );
}

/** Lift over weight once the nose is down: a little, growing with the square of the airspeed. */
export function restingLift(flight: Flight): number {
  return RESTING_LIFT * Math.min(1, (flight.airspeedMps / flight.aeroplane.stallMps) ** 2);
}

/** One step of taxiing by heading: speed and turn follow the wish within gentle limits. */
export function stepTaxi(
  flight: Flight,
  runway: Runway,
  headingRad: number,
  speedMps: number,
): void {
  flight.air.advance();
  const speed = Math.hypot(flight.eastMps, flight.northMps);
  const wanted = clamp((speedMps - speed) / 1.5, -1, 0.6);
  flight.groundMps2 += ((wanted - flight.groundMps2) * STEP_S) / BRAKE_LAG_S;
  const newSpeed = Math.max(0, speed + flight.groundMps2 * STEP_S);
  const along = (flight.eastM - runway.thresholdEastM) * runway.unitEast;
  const alongM = along + (flight.northM - runway.thresholdNorthM) * runway.unitNorth;
  flight.airspeedMps = speed;
  flight.eastMps = newSpeed * Math.sin(headingRad);
  flight.northMps = newSpeed * Math.cos(headingRad);
  flight.eastM += flight.eastMps * STEP_S;
  flight.northM += flight.northMps * STEP_S;
  const newAlongM = alongOf(flight, runway);
  flight.wheelMslM = runway.groundMslM(newAlongM);
  flight.upMps = slopeAt(runway, newAlongM) * ((newAlongM - alongM) / STEP_S);
  flight.thrustMps2 = 0;
  flight.loadFactor = 0;
  endStep(flight, flight.aeroplane.noseDownS);
}

/** Puts the wheels on the strip with a velocity along and across it. */
export function putOnGround(
  flight: Flight,
  runway: Runway,
  alongM: number,
  crossM: number,
  alongMps: number,
  crossMps: number,
): void {
  const place = toEastNorth(runway, alongM, crossM);
  flight.eastM = place.eastM;
  flight.northM = place.northM;
  flight.wheelMslM = runway.groundMslM(alongM);
  flight.groundMslM = flight.wheelMslM;
  flight.eastMps = alongMps * runway.unitEast + crossMps * runway.unitNorth;
  flight.northMps = alongMps * runway.unitNorth - crossMps * runway.unitEast;
  flight.upMps = alongMps * slopeAt(runway, alongM);
  flight.bankRad = 0;
  flight.bankRateRadps = 0;
}

const THRUST_LAG_S = 0.7;
const BRAKE_LAG_S = 0.4;
const RESTING_LIFT = 0.3;
/** Lift over weight towards which the raised nose brings the wing before lift-off. */
const ROTATED_LIFT = 1.1;
