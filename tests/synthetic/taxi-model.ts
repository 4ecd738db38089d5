/**
 * Moving on the ground after the roll: turning round, backtracking, leaving the strip.
 *
 * In: places relative to the strip, a speed. The heading turns no faster than the nose wheel allows;
 * the wheels stay on the strip's profile.
 */
import { wrapRad, bearingToRad } from './air-guidance.ts';
import { clamp, groundSpeedMps, STEP_S, type Flight } from './flight.ts';
import { stepTaxi } from './ground-motion.ts';
import { standStill } from './roll-model.ts';
import { toEastNorth, type Runway } from './runway.ts';

/** A place to taxi to. */
export interface TaxiPlace {
  readonly alongM: number;
  readonly crossM: number;
  readonly speedMps: number;
}

/** Taxis over places one after the other and stops at the last. `headingRad` is where the nose points at first. */
export function taxi(
  flight: Flight,
  runway: Runway,
  places: readonly TaxiPlace[],
  headingRad: number,
): number {
  let heading = headingRad;
  places.forEach((place, i) => {
    const at = toEastNorth(runway, place.alongM, place.crossM);
    const isLast = i === places.length - 1;
    for (;;) {
      const leftM = Math.hypot(at.eastM - flight.eastM, at.northM - flight.northM);
      if (leftM < (isLast ? 1 : 3)) break;
      const off = wrapRad(bearingToRad(flight, at.eastM, at.northM) - heading);
      // Slow enough to stop, and to make the turn within a wing-span.
      const comfortable = isLast ? Math.sqrt(2 * 0.6 * leftM) + 0.3 : place.speedMps;
      const turning = Math.abs(off) > 0.4 ? 2.2 : place.speedMps;
      stepTaxi(flight, runway, heading, Math.min(place.speedMps, comfortable, turning));
      const mostTurn = groundSpeedMps(flight) / TURN_RADIUS_M;
      heading += clamp(off / 0.7, -mostTurn, mostTurn) * STEP_S;
      if (leftM < 2 * TURN_RADIUS_M && Math.abs(off) > 1.5 && !isLast) break;
      if (isLast && leftM < 3 && Math.abs(off) > 1.4) break;
    }
  });
  while (groundSpeedMps(flight) > 0.01) stepTaxi(flight, runway, heading, -1);
  flight.eastMps = 0;
  flight.northMps = 0;
  flight.upMps = 0;
  return heading;
}

/**
 * Taxis back along the strip, turns round behind the start and stands ready at a place.
 * `headingRad` is where the nose points at first: along the runway after a landing on it, the other
 * way after a landing on its opposite.
 */
export function backtrack(
  flight: Flight,
  runway: Runway,
  toAlongM: number,
  headingRad = runway.bearingRad,
): void {
  const turned = runway.bearingRad + Math.PI;
  const startM = (flight.eastM - runway.thresholdEastM) * runway.unitEast;
  const alongM = startM + (flight.northM - runway.thresholdNorthM) * runway.unitNorth;
  const halfWay = (alongM + toAlongM) / 2;
  const heading = taxi(
    flight,
    runway,
    [
      { alongM: alongM - 12, crossM: 3, speedMps: 2 },
      { alongM: halfWay, crossM: 1.5, speedMps: 6 },
      { alongM: toAlongM - 16, crossM: 2.5, speedMps: 6 },
    ],
    headingRad,
  );
  taxi(
    flight,
    runway,
    [
      { alongM: toAlongM - 18, crossM: -5, speedMps: 1.8 },
      { alongM: toAlongM, crossM: 0, speedMps: 1.8 },
    ],
    Math.abs(wrapRad(heading - turned)) < 1.6 ? heading : turned,
  );
  standStill(flight, runway, 8);
}

/** Leaves the strip to one side and parks beside it. */
export function vacate(flight: Flight, runway: Runway, side: 1 | -1): void {
  const ahead = (flight.eastM - runway.thresholdEastM) * runway.unitEast;
  const alongM = ahead + (flight.northM - runway.thresholdNorthM) * runway.unitNorth;
  taxi(
    flight,
    runway,
    [
      { alongM: alongM + 12, crossM: side * 25, speedMps: 3 },
      { alongM: alongM + 6, crossM: side * 45, speedMps: 2.5 },
    ],
    runway.bearingRad,
  );
}

const TURN_RADIUS_M = 6;
