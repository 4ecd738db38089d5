/**
 * Where is a strip direction on the simulator's flat map, and how high is its surface?
 *
 * In: a strip, one of its designators and the plane the whole flight is flown in. Out: along and
 * cross metres to east and north and back, ground elevation. Truth is counted in these metres.
 * Only straight strips: the simulator's wheels know one axis.
 *
 * Accuracy: within 20 km of the plane's origin a 500 m strip is right to a centimetre.
 * Source: definitions of threshold and displaced threshold in ICAO Annex 14 volume I (from memory).
 */
import { createLocalFrame, type LocalFrame } from '../../src/geo/local-frame.ts';
import type { Strip, StripDirection } from '../../src/strips/strip.ts';

/** One direction of a strip as the simulated pilot uses it. Along counts from the landing threshold. */
export interface Runway {
  readonly stripId: string;
  readonly designator: string;
  readonly thresholdEastM: number;
  readonly thresholdNorthM: number;
  /** Unit vector of the landing direction. */
  readonly unitEast: number;
  readonly unitNorth: number;
  readonly bearingRad: number;
  /** Along of the end behind the threshold (0 or negative) and of the far end. */
  readonly nearEndAlongM: number;
  readonly farEndAlongM: number;
  /** +1 where the circuit lies right of the strip, -1 where it lies left. */
  readonly circuitSide: 1 | -1;
  readonly circuitHeightM: number;
  /** Elevation above mean sea level; level beyond the ends. */
  readonly groundMslM: (alongM: number) => number;
}

/** The flat map of the demo country and of every invented strip: metres about this point. */
export const MAP_ORIGIN = { latDeg: 54.7, lonDeg: 2.3 };

/** Makes the flat map; heights of 40 m geoid and 20 m ground are allowed for. */
export function createMap(): LocalFrame {
  return createLocalFrame(MAP_ORIGIN.latDeg, MAP_ORIGIN.lonDeg, 60);
}

/** Places a strip direction on the map. Throws where the strip bends or lacks the designator. */
export function createRunway(strip: Strip, designator: string, map: LocalFrame): Runway {
  if (strip.latDeg.length !== 2) throw new Error(`strip ${strip.id} is not one straight line`);
  const direction = strip.directions.find((candidate) => candidate.designator === designator);
  if (direction === undefined) throw new Error(`strip ${strip.id} has no direction ${designator}`);
  const [near, far] = direction.from === 'A' ? [0, 1] : [1, 0];
  const from = map.toEastNorthPoint(strip.latDeg[near], strip.lonDeg[near]);
  const to = map.toEastNorthPoint(strip.latDeg[far], strip.lonDeg[far]);
  const lengthM = Math.hypot(to.eastM - from.eastM, to.northM - from.northM);
  const unitEast = (to.eastM - from.eastM) / lengthM;
  const unitNorth = (to.northM - from.northM) / lengthM;
  return {
    stripId: strip.id,
    designator,
    thresholdEastM: from.eastM + unitEast * direction.displacedM,
    thresholdNorthM: from.northM + unitNorth * direction.displacedM,
    unitEast,
    unitNorth,
    bearingRad: Math.atan2(unitEast, unitNorth),
    nearEndAlongM: 0 - direction.displacedM,
    farEndAlongM: lengthM - direction.displacedM,
    circuitSide: direction.circuit === 'right' ? 1 : -1,
    circuitHeightM: direction.circuitHeightM ?? 200,
    groundMslM: groundOf(strip, direction, lengthM),
  };
}

/** Metres along and right of the centreline of a place on the map. */
export function toAlongCross(
  runway: Runway,
  eastM: number,
  northM: number,
): { alongM: number; crossM: number } {
  const east = eastM - runway.thresholdEastM;
  const north = northM - runway.thresholdNorthM;
  return {
    alongM: east * runway.unitEast + north * runway.unitNorth,
    crossM: east * runway.unitNorth - north * runway.unitEast,
  };
}

/** The place on the map at metres along and right of the centreline. */
export function toEastNorth(
  runway: Runway,
  alongM: number,
  crossM: number,
): { eastM: number; northM: number } {
  return {
    eastM: runway.thresholdEastM + alongM * runway.unitEast + crossM * runway.unitNorth,
    northM: runway.thresholdNorthM + alongM * runway.unitNorth - crossM * runway.unitEast,
  };
}

/** Rise of the surface under a wheel moving along, metres a metre. */
export function slopeAt(runway: Runway, alongM: number): number {
  return (runway.groundMslM(alongM + 0.5) - runway.groundMslM(alongM - 0.5)) / 1;
}

function groundOf(
  strip: Strip,
  direction: StripDirection,
  lengthM: number,
): (alongM: number) => number {
  const ends = strip.elevationM ?? [0, 0];
  const profile = strip.profile ?? [
    [0, ends[0]],
    [lengthM, ends[1]],
  ];
  const last = profile.length - 1;
  return (alongM) => {
    const fromNearM = alongM + direction.displacedM;
    const fromAM = direction.from === 'A' ? fromNearM : lengthM - fromNearM;
    if (fromAM <= profile[0][0]) return profile[0][1];
    if (fromAM >= profile[last][0]) return profile[last][1];
    let i = 1;
    while (profile[i][0] < fromAM) i++;
    const share = (fromAM - profile[i - 1][0]) / (profile[i][0] - profile[i - 1][0]);
    return profile[i - 1][1] + share * (profile[i][1] - profile[i - 1][1]);
  };
}
