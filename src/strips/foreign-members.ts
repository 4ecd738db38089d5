/**
 * What of a feature is neither its type, its place nor its properties, and is it still true?
 *
 * In: members of a GeoJSON feature. Out: those to keep: its `id`, members of the writer's own, and
 * its box while that holds its place.
 *
 * Source: RFC 7946 (GeoJSON), sections 5 (boxes), 6.1 (foreign members).
 */

import type { RawFeature } from './feature-checks.ts';

/** A geometry to be written. */
export interface Geometry {
  readonly type: string;
  readonly coordinates: unknown;
}

/** What a feature holds besides, for its record: nothing where it holds nothing. */
export function foreignOf({ foreign }: RawFeature): Pick<RawFeature, 'foreign'> {
  return foreign && Object.keys(foreign).length > 0 ? { foreign } : {};
}

/**
 * Members about a place in degrees: all of them, but no box that does not hold it (any more). One is
 * never made: RFC 7946 makes it optional.
 */
export function foreignAround<T>(
  members: Readonly<Record<string, T>>,
  { coordinates }: Partial<Geometry>,
): Readonly<Record<string, T>> {
  const { bbox, ...others } = members;
  return bbox === undefined || holds(bbox, coordinates) ? members : others;
}

/** Whether a box, west and south before east and north, holds every position (longitude first). */
function holds(bbox: unknown, coordinates: unknown): boolean {
  if (!Array.isArray(bbox) || !Array.isArray(coordinates)) return false;
  if (typeof coordinates[0] !== 'number') return coordinates.every((each) => holds(bbox, each));
  const edges = bbox as number[];
  return [0, 1].every((axis) => {
    const degrees = coordinates[axis] as number;
    const [from, to] = [edges[axis], edges[edges.length / 2 + axis]];
    // A box over the 180th meridian begins east of where it ends (RFC 7946, 5.2).
    const isOver180 = axis === 0 && from > to;
    return isOver180 ? degrees >= from || degrees <= to : from <= degrees && degrees <= to;
  });
}
