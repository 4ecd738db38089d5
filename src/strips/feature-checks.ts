/**
 * What is wrong with one feature of a strips file, said so that a pilot can mend it?
 *
 * In: parsed JSON of unknown shape. Out: typed properties and positions, or problems that name the
 * feature, the property, what was found and what was expected.
 *
 * Source: RFC 7946 (GeoJSON), sections 3.1 (positions: longitude first) and 3.1.6 (rings).
 */

import * as v from 'valibot';
import { failure, problem, success } from '../result.ts';
import type { Problem, Result } from '../result.ts';

/** A feature as found: its place in the file, its two halves, and what else it holds. */
export interface RawFeature {
  /** Names the feature in problems: `features[3] (id "mill-lane")`. */
  readonly where: string;
  readonly properties: Readonly<Record<string, unknown>>;
  readonly geometry: unknown;
  readonly foreign?: Readonly<Record<string, unknown>>;
}

/** Positions as columns, WGS 84 degrees. */
export interface Positions {
  readonly latDeg: readonly number[];
  readonly lonDeg: readonly number[];
}

/** More positions than any centreline or obstacle line needs; a bound on work, not on strips. */
const MAX_POSITIONS = 5000;

/**
 * Checks properties against a schema whose messages say what was expected.
 *
 * Fails: one problem for each property that does not fit. Absent properties are null in the output
 * where the schema allows it.
 */
export function checkProperties<S extends v.ObjectSchema<v.ObjectEntries, undefined>>(
  schema: S,
  feature: RawFeature,
): Result<v.InferOutput<S>> {
  // As null an absent property gets its own schema's message.
  const listed = Object.keys(schema.entries).map((key) => [key, feature.properties[key] ?? null]);
  const checked = v.safeParse(schema, Object.fromEntries(listed));
  if (checked.success) return success(checked.output);
  return failure(
    checked.issues.map((issue) => {
      const path = (issue.path ?? [])
        .map((step) => (typeof step.key === 'number' ? `[${step.key}]` : `.${String(step.key)}`))
        .join('')
        .slice(1);
      const message = `${path}: found ${show(issue.input)}, expected ${issue.message}`;
      return problem('strip-property', 'error', feature.where, message);
    }),
  );
}

/**
 * The positions of a Point or LineString.
 *
 * Shape: two or more positions in a LineString. Fails: another geometry than those in `types`, too
 * few positions, a position that is not on the globe; where latitude and longitude look swapped, the
 * message says so.
 */
export function readLine(feature: RawFeature, types: readonly string[]): Result<Positions> {
  const geometry = asRecord(feature.geometry);
  const type = geometry?.type;
  if (!geometry || typeof type !== 'string' || !types.includes(type)) {
    return wrong(feature, `geometry: found ${showType(geometry)}, expected ${types.join(' or ')}`);
  }
  const path = 'geometry.coordinates';
  if (type === 'Point') return readPositions(feature, [geometry.coordinates], path, 1);
  return readPositions(feature, geometry.coordinates, path, 2);
}

/**
 * The rings of a Polygon, outer first, each closed.
 *
 * Shape: rings of [longitude, latitude]. Fails as `readLine` does, and on a ring that is not closed.
 */
export function readRings(
  feature: RawFeature,
): Result<readonly (readonly (readonly [number, number])[])[]> {
  const geometry = asRecord(feature.geometry);
  if (geometry?.type !== 'Polygon') {
    return wrong(feature, `geometry: found ${showType(geometry)}, expected Polygon`);
  }
  const list = geometry.coordinates;
  if (!Array.isArray(list) || list.length === 0) {
    return wrong(feature, `geometry.coordinates: found ${show(list)}, expected a list of rings`);
  }
  const rings: (readonly [number, number])[][] = [];
  for (const [index, each] of list.entries()) {
    const path = `geometry.coordinates[${index}]`;
    const ring = readPositions(feature, each, path, 4);
    if (!ring.ok) return ring;
    const { latDeg, lonDeg } = ring.value;
    if (latDeg[0] !== latDeg.at(-1) || lonDeg[0] !== lonDeg.at(-1)) {
      return wrong(feature, `${path}: the last position differs from the first, expected the same`);
    }
    rings.push(lonDeg.map((lon, i): readonly [number, number] => [lon, latDeg[i]]));
  }
  return success(rings);
}

/** A failure with one problem about a feature. */
export function wrong(
  feature: RawFeature,
  message: string,
  code = 'strip-geometry',
): Result<never> {
  return failure([problem(code, 'error', feature.where, message)]);
}

/** A problem about a feature that costs accuracy, not the file. */
export function doubt(feature: RawFeature, code: string, message: string): Problem {
  return problem(code, 'warning', feature.where, message);
}

/** An object's entries, or null where the value is no object. */
export function asRecord(value: unknown): Readonly<Record<string, unknown>> | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return null;
  return value as Readonly<Record<string, unknown>>;
}

/** A value as text short enough for a message. */
export function show(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  const text = JSON.stringify(value);
  return text.length <= 60 ? text : `${text.slice(0, 57)}...`;
}

function readPositions(
  feature: RawFeature,
  list: unknown,
  path: string,
  least: number,
): Result<Positions> {
  if (!Array.isArray(list)) {
    return wrong(feature, `${path}: found ${show(list)}, expected a list of positions`);
  }
  if (list.length < least || list.length > MAX_POSITIONS) {
    const expected = list.length < least ? `${least} or more` : `at most ${MAX_POSITIONS}`;
    const positions = list.length === 1 ? 'position' : 'positions';
    return wrong(feature, `${path}: found ${list.length} ${positions}, expected ${expected}`);
  }
  const latDeg: number[] = [];
  const lonDeg: number[] = [];
  for (const [index, position] of list.entries()) {
    const [lon, lat] = Array.isArray(position) ? (position as unknown[]) : [];
    if (typeof lon !== 'number' || typeof lat !== 'number') {
      const found = `${path}[${index}]: found ${show(position)}`;
      return wrong(feature, `${found}, expected [longitude, latitude] in degrees`);
    }
    if (Math.abs(lat) > 90 || Math.abs(lon) > 180) {
      const swapped = Math.abs(lon) <= 90 && Math.abs(lat) <= 180;
      const hint = swapped ? '; are latitude and longitude swapped?' : '';
      const found = `${path}[${index}]: found longitude ${lon}, latitude ${lat}`;
      return wrong(feature, `${found}, expected -180 to 180 and -90 to 90${hint}`);
    }
    latDeg.push(lat);
    lonDeg.push(lon);
  }
  return success({ latDeg, lonDeg });
}

function showType(geometry: Readonly<Record<string, unknown>> | null): string {
  if (!geometry) return 'none';
  return typeof geometry.type === 'string' ? geometry.type : 'a geometry without type';
}
