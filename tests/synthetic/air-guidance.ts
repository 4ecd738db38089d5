/**
 * Where does the simulated pilot point the aeroplane?
 *
 * In: a line or a point on the map, a height, a speed. Out: the wishes that the motion follows
 * (bank, climb, thrust). Banks stay within a limit, so turns have the radius their speed asks for.
 * Source: intercept angle growing with the distance off the line, common practice in guidance (no source).
 */
import { GRAVITY_MPS2 } from '../../src/units/convert.ts';
import { climbWithThrustMps, stepAir, thrustForSpeed } from './air-motion.ts';
import { fullThrustMps2 } from './aeroplane-model.ts';
import { clamp, groundSpeedMps, type Flight } from './flight.ts';

/** A line on the map: through a point, towards a bearing. */
export interface GuideLine {
  readonly eastM: number;
  readonly northM: number;
  readonly bearingRad: number;
}

/** Metres right of a line, and along it from its point. */
export function offLine(flight: Flight, line: GuideLine): { rightM: number; aheadM: number } {
  const east = flight.eastM - line.eastM;
  const north = flight.northM - line.northM;
  const sin = Math.sin(line.bearingRad);
  const cos = Math.cos(line.bearingRad);
  return { rightM: east * cos - north * sin, aheadM: east * sin + north * cos };
}

/** Bank that brings the track on to a line and holds it there. `patienceS`: how far ahead the line is met. */
export function bankForLine(
  flight: Flight,
  line: GuideLine,
  mostBankRad: number,
  patienceS = 9,
): number {
  const speed = groundSpeedMps(flight);
  const { rightM } = offLine(flight, line);
  const intercept = clamp(Math.atan(-rightM / (patienceS * speed)), -1, 1);
  return bankForTrack(flight, line.bearingRad + intercept, mostBankRad);
}

/** Bank that turns the track over the ground to a bearing, the shorter way round. */
export function bankForTrack(flight: Flight, bearingRad: number, mostBankRad: number): number {
  const speed = groundSpeedMps(flight);
  const off = wrapRad(bearingRad - Math.atan2(flight.eastMps, flight.northMps));
  return clamp(Math.atan((speed * off) / (2.5 * GRAVITY_MPS2)), -mostBankRad, mostBankRad);
}

/** Bearing from the aeroplane to a point. */
export function bearingToRad(flight: Flight, eastM: number, northM: number): number {
  return Math.atan2(eastM - flight.eastM, northM - flight.northM);
}

/** How far before the next line a turn of so much must begin, m. */
export function turnLeadM(flight: Flight, turnRad: number, bankRad: number): number {
  const speed = groundSpeedMps(flight);
  const radiusM = speed ** 2 / (GRAVITY_MPS2 * Math.tan(bankRad));
  return radiusM * Math.tan(Math.min(Math.abs(turnRad), 2) / 2) + 1.3 * speed;
}

/** One step towards a height and a speed with a given bank; climbs first, at climb speed, and then speeds up. */
export function stepTowards(
  flight: Flight,
  wish: {
    bankRad: number;
    heightMslM: number;
    speedMps: number;
    mostSinkMps: number;
    /** The aeroplane's own where not given. */
    climbSpeedMps?: number;
  },
): void {
  const { aeroplane, airspeedMps } = flight;
  const climbing = wish.heightMslM - flight.wheelMslM > 15;
  const climbSpeedMps = wish.climbSpeedMps ?? aeroplane.climbMps;
  const speedMps = climbing ? Math.min(wish.speedMps, climbSpeedMps) : wish.speedMps;
  const best = climbWithThrustMps(flight, fullThrustMps2(aeroplane, airspeedMps), speedMps);
  const climbMps = clamp(
    (wish.heightMslM - flight.wheelMslM) / 5,
    -wish.mostSinkMps,
    clamp(best, 0, 5),
  );
  stepAir(flight, {
    bankRad: wish.bankRad,
    climbMps,
    thrustMps2: thrustForSpeed(flight, speedMps, climbMps),
  });
}

/** One step of climbing away at full throttle. Never sinks: near the ground it flies level until fast enough. */
export function stepClimb(
  flight: Flight,
  wish: { bankRad: number; speedMps: number; leastClimbMps: number },
): void {
  const climbMps = clamp(
    climbWithThrustMps(flight, flight.thrustMps2, wish.speedMps),
    wish.leastClimbMps,
    6,
  );
  stepAir(flight, {
    bankRad: wish.bankRad,
    climbMps,
    thrustMps2: fullThrustMps2(flight.aeroplane, flight.airspeedMps),
  });
}

/** An angle between -pi and pi. */
export function wrapRad(angleRad: number): number {
  return Math.atan2(Math.sin(angleRad), Math.cos(angleRad));
}
