/**
 * Where is a position along and across a strip, in one of its directions, and how high is the
 * ground there?
 *
 * In: a strip and one of its directions; positions as columns of degrees. Out: alongM from the
 * landing threshold, positive into the strip, and crossM, positive right of the centreline when
 * facing that way; elevation of the surface, metres above mean sea level. Where the centreline
 * bends, alongM is counted along the line; beyond both ends it runs on straight.
 *
 * Source: the definitions of threshold and displaced threshold in ICAO Annex 14 volume I (from
 * memory); geometry of a point and a line of segments.
 */

import { DEG_PER_RAD, wrap360 } from '../geo/angles.ts';
import { createLocalFrame } from '../geo/local-frame.ts';
import type { Strip, StripDirection } from './strip.ts';

/** One direction of a strip, ready to measure in. */
export interface StripFrame {
  /** Length of the centreline from end to end, metres. */
  readonly lengthM: number;
  /** True bearing from the near end to the far end, degrees; where the line bends see `bearingAt`. */
  readonly trueBearingDeg: number;
  /** alongM of the end at which a landing begins: 0, or negative behind a displaced threshold. */
  readonly nearEndAlongM: number;
  /** alongM of the other end. */
  readonly farEndAlongM: number;
  /** Mean slope from end to end, up positive in the landing direction; NaN where no elevation is known. */
  readonly slopeRatio: number;
  /** Columns of degrees to columns of metres, slot by slot; NaN stays NaN. Throws on unequal lengths. */
  toAlongCross(
    latDeg: Float64Array,
    lonDeg: Float64Array,
  ): { alongM: Float64Array; crossM: Float64Array };
  /** Elevation of the surface above mean sea level; level beyond the ends; NaN where none is known. */
  elevationMslM(alongM: number): number;
  /** True bearing of the centreline there, degrees, facing the landing direction. */
  bearingAt(alongM: number): number;
  /** The position at alongM, crossM metres to the right of the centreline. */
  pointAt(alongM: number, crossM: number): { latDeg: number; lonDeg: number };
}

/**
 * Makes the frame of one direction of a strip.
 *
 * Accuracy: lengths on the strip within 1 cm. Positions are taken at the strip's elevation, with
 * mean sea level standing for the ellipsoid (50 m between them changes 1 km by 8 mm).
 * Fails: throws where the centreline has fewer than two positions or no length; a strips file has
 * been checked for that by then.
 */
export function createStripFrame(strip: Strip, direction: StripDirection): StripFrame {
  const line = centrelineOf(strip, direction.from);
  const heights = heightsOf(strip, direction.from, line.lengthM);
  const displacedM = direction.displacedM;

  const toAlongCross = (
    latDeg: Float64Array,
    lonDeg: Float64Array,
  ): { alongM: Float64Array; crossM: Float64Array } => {
    const { eastM, northM } = line.frame.toEastNorth(latDeg, lonDeg);
    const alongM = new Float64Array(eastM.length);
    const crossM = new Float64Array(eastM.length);
    for (let i = 0; i < eastM.length; i++) {
      const nearest = nearestOnLine(line.segments, eastM[i], northM[i]);
      alongM[i] = nearest.alongM - displacedM;
      crossM[i] = nearest.crossM;
    }
    return { alongM, crossM };
  };

  const pointAt = (alongM: number, crossM: number): { latDeg: number; lonDeg: number } => {
    const segment = segmentAt(line.segments, alongM + displacedM);
    const onM = alongM + displacedM - segment.startAlongM;
    return line.frame.toLatLon(
      segment.startEastM + onM * segment.east + crossM * segment.north,
      segment.startNorthM + onM * segment.north - crossM * segment.east,
    );
  };

  const elevationMslM = (alongM: number): number => heightAt(heights, alongM + displacedM);
  const riseM = heightAt(heights, line.lengthM) - heightAt(heights, 0);

  return {
    lengthM: line.lengthM,
    trueBearingDeg: line.bearingDeg,
    nearEndAlongM: 0 - displacedM,
    farEndAlongM: line.lengthM - displacedM,
    slopeRatio: riseM / line.lengthM,
    toAlongCross,
    elevationMslM,
    bearingAt: (alongM) =>
      Number.isNaN(alongM) ? NaN : bearingOf(segmentAt(line.segments, alongM + displacedM)),
    pointAt,
  };
}

/** A straight piece of the centreline: where it starts and the unit vector along it. */
interface Segment {
  readonly startEastM: number;
  readonly startNorthM: number;
  readonly startAlongM: number;
  readonly lengthM: number;
  readonly east: number;
  readonly north: number;
}

interface Centreline {
  readonly frame: ReturnType<typeof createLocalFrame>;
  readonly segments: readonly Segment[];
  readonly lengthM: number;
  readonly bearingDeg: number;
}

/** The centreline in landing order, in metres about the end where a landing begins. */
function centrelineOf(strip: Strip, from: 'A' | 'B'): Centreline {
  const lat = Float64Array.from(from === 'A' ? strip.latDeg : strip.latDeg.toReversed());
  const lon = Float64Array.from(from === 'A' ? strip.lonDeg : strip.lonDeg.toReversed());
  if (lat.length < 2) throw new Error(`strip ${strip.id} has ${lat.length} positions, not 2`);
  const frame = createLocalFrame(lat[0], lon[0], groundHeightM(strip));
  const { eastM, northM } = frame.toEastNorth(lat, lon);
  const segments: Segment[] = [];
  let alongM = 0;
  for (let i = 1; i < eastM.length; i++) {
    const stepEastM = eastM[i] - eastM[i - 1];
    const stepNorthM = northM[i] - northM[i - 1];
    const lengthM = Math.hypot(stepEastM, stepNorthM);
    if (lengthM === 0) continue;
    segments.push({
      startEastM: eastM[i - 1],
      startNorthM: northM[i - 1],
      startAlongM: alongM,
      lengthM,
      east: stepEastM / lengthM,
      north: stepNorthM / lengthM,
    });
    alongM += lengthM;
  }
  if (!(alongM > 0)) throw new Error(`the centreline of strip ${strip.id} has no length`);
  const last = eastM.length - 1;
  const bearingDeg = wrap360(Math.atan2(eastM[last], northM[last]) * DEG_PER_RAD);
  return { frame, segments, lengthM: alongM, bearingDeg };
}

/** One height for the whole strip, for its lengths only; sea level where none is known. */
function groundHeightM(strip: Strip): number {
  if (strip.elevationM) return (strip.elevationM[0] + strip.elevationM[1]) / 2;
  if (strip.profile && strip.profile.length > 0) return strip.profile[0][1];
  return 0;
}

/** Foot of the perpendicular on the line; its first and last pieces run on beyond the ends. */
function nearestOnLine(
  segments: readonly Segment[],
  eastM: number,
  northM: number,
): { alongM: number; crossM: number } {
  let best = { alongM: NaN, crossM: NaN };
  let bestSquare = Infinity;
  for (let i = 0; i < segments.length; i++) {
    const segment = segments[i];
    const offEastM = eastM - segment.startEastM;
    const offNorthM = northM - segment.startNorthM;
    const freeM = offEastM * segment.east + offNorthM * segment.north;
    const lowest = i === 0 ? -Infinity : 0;
    const highest = i === segments.length - 1 ? Infinity : segment.lengthM;
    const onM = Math.min(Math.max(freeM, lowest), highest);
    const rightM = offEastM * segment.north - offNorthM * segment.east;
    const pastM = freeM - onM;
    const square = rightM * rightM + pastM * pastM;
    if (square < bestSquare) {
      bestSquare = square;
      // On the outside of a bend the nearest place is the corner, and the distance is to it.
      const crossM = pastM === 0 ? rightM : Math.sign(rightM) * Math.sqrt(square);
      best = { alongM: segment.startAlongM + onM, crossM };
    }
  }
  return best;
}

/** The piece on which a distance from the near end lies; the first and last serve beyond the ends. */
function segmentAt(segments: readonly Segment[], fromEndM: number): Segment {
  let found = segments[0];
  for (const segment of segments) {
    if (segment.startAlongM <= fromEndM) found = segment;
  }
  return found;
}

function bearingOf(segment: Segment): number {
  return wrap360(Math.atan2(segment.east, segment.north) * DEG_PER_RAD);
}

/** Known heights in landing order: distance from the near end and elevation, rising in distance. */
type Heights = readonly (readonly [number, number])[];

/** The profile, with the ends' own elevations where it stops short of them. */
function heightsOf(strip: Strip, from: 'A' | 'B', lengthM: number): Heights {
  const fromA: [number, number][] = (strip.profile ?? []).map(([atM, heightM]) => [atM, heightM]);
  if (strip.elevationM) {
    const [elevationAM, elevationBM] = strip.elevationM;
    if (fromA.length === 0 || fromA[0][0] > 0) fromA.unshift([0, elevationAM]);
    if (fromA[fromA.length - 1][0] < lengthM) fromA.push([lengthM, elevationBM]);
  }
  if (from === 'A') return fromA;
  return fromA.map(([atM, heightM]): [number, number] => [lengthM - atM, heightM]).reverse();
}

function heightAt(heights: Heights, fromEndM: number): number {
  if (heights.length === 0 || Number.isNaN(fromEndM)) return NaN;
  let before = heights[0];
  if (fromEndM <= before[0]) return before[1];
  for (const after of heights) {
    if (fromEndM < after[0]) {
      const share = (fromEndM - before[0]) / (after[0] - before[0]);
      return before[1] + share * (after[1] - before[1]);
    }
    before = after;
  }
  return before[1];
}
