/**
 * Which strips does a track come near, and where in the track?
 *
 * In: strips; positions as columns of degrees; how near is near, metres. Out: the strips come
 * near, with the index ranges in which the track is within that distance of a circle about the
 * strip. A range is half-open, `from` to just before `to`.
 */

import { wrap180 } from '../geo/angles.ts';
import { createLocalFrame } from '../geo/local-frame.ts';
import type { LocalFrame } from '../geo/local-frame.ts';
import type { Strip } from './strip.ts';

/** Fixes `from` to just before `to`. */
export interface FixRange {
  readonly from: number;
  readonly to: number;
}

/** A strip that the track comes near. */
export interface NearStrip {
  readonly strip: Strip;
  /** Least distance from the strip's middle, metres. */
  readonly nearestM: number;
  /** Where the track is near, in order; a missing position does not end a range. */
  readonly ranges: readonly FixRange[];
}

/**
 * Finds the strips that a track comes within `reachM` of, nearest first.
 *
 * Units: degrees, metres. Shape: the columns have one length. Fails: throws on unequal lengths.
 * @example findNearStrips(book.strips, track.latDeg, track.lonDeg, 5000)
 */
export function findNearStrips(
  strips: readonly Strip[],
  latDeg: Float64Array,
  lonDeg: Float64Array,
  reachM: number,
): NearStrip[] {
  if (latDeg.length !== lonDeg.length) {
    throw new Error(`${latDeg.length} latitudes but ${lonDeg.length} longitudes`);
  }
  return strips
    .map((strip) => approachOf(strip, latDeg, lonDeg, reachM))
    .filter((near) => near.ranges.length > 0)
    .sort((left, right) => left.nearestM - right.nearestM);
}

function approachOf(
  strip: Strip,
  latDeg: Float64Array,
  lonDeg: Float64Array,
  reachM: number,
): NearStrip {
  const circle = circleAbout(strip);
  const limitM = circle.radiusM + reachM;
  const box = boxAbout(circle.frame, limitM);
  const ranges: FixRange[] = [];
  let nearestM = Infinity;
  let from = -1;
  let lastNear = -1;
  for (let i = 0; i < latDeg.length; i++) {
    if (Number.isNaN(latDeg[i]) || Number.isNaN(lonDeg[i])) continue;
    const distanceM = isInBox(box, latDeg[i], lonDeg[i])
      ? distanceTo(circle.frame, latDeg[i], lonDeg[i])
      : Infinity;
    if (distanceM <= limitM) {
      nearestM = Math.min(nearestM, distanceM);
      if (from < 0) from = i;
      lastNear = i;
    } else if (from >= 0) {
      ranges.push({ from, to: lastNear + 1 });
      from = -1;
    }
  }
  if (from >= 0) ranges.push({ from, to: lastNear + 1 });
  return { strip, nearestM, ranges };
}

/** A circle that holds the whole centreline. */
function circleAbout(strip: Strip): { frame: LocalFrame; radiusM: number } {
  const first = createLocalFrame(strip.latDeg[0], strip.lonDeg[0]);
  const { eastM, northM } = first.toEastNorth(
    Float64Array.from(strip.latDeg),
    Float64Array.from(strip.lonDeg),
  );
  const middle = first.toLatLon(middleOf(eastM), middleOf(northM));
  const frame = createLocalFrame(middle.latDeg, middle.lonDeg);
  const radii = strip.latDeg.map((lat, i) => distanceTo(frame, lat, strip.lonDeg[i]));
  return { frame, radiusM: Math.max(...radii) };
}

function middleOf(values: Float64Array): number {
  return (Math.min(...values) + Math.max(...values)) / 2;
}

function distanceTo(frame: LocalFrame, latDeg: number, lonDeg: number): number {
  const { eastM, northM } = frame.toEastNorthPoint(latDeg, lonDeg);
  return Math.hypot(eastM, northM);
}

/** A box in degrees that holds the circle with room to spare: it saves most of the trigonometry. */
interface Box {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly halfHeightDeg: number;
  readonly halfWidthDeg: number;
}

/** Fewest metres in a degree of latitude, with the plane's own shortening; the true least is 110 574. */
const LEAST_METRES_PER_DEGREE = 110_000;

function boxAbout(frame: LocalFrame, radiusM: number): Box {
  const halfHeightDeg = radiusM / LEAST_METRES_PER_DEGREE;
  const furthestLatDeg = Math.min(Math.abs(frame.latDeg) + halfHeightDeg, 90);
  const shrink = Math.cos((furthestLatDeg * Math.PI) / 180);
  const halfWidthDeg = shrink > 0.001 ? halfHeightDeg / shrink : 360;
  return { latDeg: frame.latDeg, lonDeg: frame.lonDeg, halfHeightDeg, halfWidthDeg };
}

function isInBox(box: Box, latDeg: number, lonDeg: number): boolean {
  return (
    Math.abs(latDeg - box.latDeg) <= box.halfHeightDeg &&
    Math.abs(wrap180(lonDeg - box.lonDeg)) <= box.halfWidthDeg
  );
}
