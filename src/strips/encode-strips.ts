/**
 * How is a book of strips written as a strips file?
 *
 * In: a StripBook, as decoded or as changed since. Out: GeoJSON text (RFC 7946) that decodes to the
 * same book. What the file said is written as it stood: only a property whose value has changed is
 * written anew, so that a default stays a default and unknown properties survive, and so do members
 * of the collection and of each feature that are no property.
 */

import type { Result } from '../result.ts';
import { asRecord } from './feature-checks.ts';
import { foreignAround, type Geometry } from './foreign-members.ts';
import type { RawFeature } from './feature-checks.ts';
import { readStrip } from './read-strip.ts';
import { readApproachPath, readAvoidArea, readObstacle } from './read-surroundings.ts';
import type { Strip, StripBook, StripDirection } from './strip.ts';

/**
 * Writes a book of strips.
 *
 * Units: as in the file format, degrees and metres. The order is strips, obstacles, avoid areas,
 * approach paths, then features of other kinds as they came.
 */
export function encodeStrips(book: StripBook): string {
  const features = [
    ...book.strips.map((strip) =>
      writeFeature('strip', lineString(strip), readStrip, strip, {
        id: strip.id,
        name: strip.name,
        widthM: strip.widthM,
        surface: strip.surface,
        elevationM: strip.elevationM,
        profile: strip.profile,
        positionErrorM: strip.positionErrorM,
        endsGuessed: strip.endsGuessed,
        directions: strip.directions,
      }),
    ),
    ...book.obstacles.map((obstacle) =>
      writeFeature('obstacle', pointOrLine(obstacle), readObstacle, obstacle, {
        strip: obstacle.strip,
        name: obstacle.name,
        topMslM: obstacle.topMslM,
        topAboveThresholdM: obstacle.topAboveThresholdM,
        heightM: obstacle.heightM,
      }),
    ),
    ...book.avoidAreas.map((area) => {
      const geometry = { type: 'Polygon', coordinates: area.rings };
      const known = { name: area.name, belowMslM: area.belowMslM };
      return writeFeature('avoid', geometry, readAvoidArea, area, known);
    }),
    ...book.approachPaths.map((path) => {
      const known = { strip: path.strip, designator: path.designator };
      return writeFeature('approach-path', lineString(path), readApproachPath, path, known);
    }),
    ...book.other,
  ];
  const collection = { ...book.foreign, type: 'FeatureCollection', features };
  return `${JSON.stringify(collection, null, 2)}\n`;
}

/** A record of the book that came from a feature. */
type Kept = Pick<Strip, 'properties' | 'foreign'>;

/**
 * One feature. `known` are the values that must be read back; each that the kept properties would
 * already give is left as it stands.
 */
function writeFeature<T extends Kept>(
  kind: string,
  geometry: Geometry,
  read: (feature: RawFeature) => Result<T>,
  record: T,
  known: Readonly<Record<string, unknown>>,
): object {
  const asKept: RawFeature = { where: '', properties: record.properties, geometry };
  const reread = read(asKept);
  const saysAlready = asRecord(reread.ok ? reread.value : null) ?? {};
  const changed = Object.entries(known).filter(
    ([key, value]) => JSON.stringify(saysAlready[key]) !== JSON.stringify(value),
  );
  const properties = new Map<string, unknown>([
    ['kind', kind],
    ...Object.entries(record.properties),
  ]);
  for (const [key, value] of changed) {
    if (key === 'directions') {
      properties.set(key, writeDirections(record.properties.directions, value));
    } else if (value === null) properties.delete(key);
    else properties.set(key, value);
  }
  properties.set('kind', kind);
  const written = { type: 'Feature', properties: Object.fromEntries(properties), geometry };
  return { ...foreignAround(record.foreign ?? {}, geometry), ...written };
}

/** Directions anew, each with the unknown properties of the one that began at the same end. */
function writeDirections(before: unknown, directions: unknown): object[] {
  const earlier = Array.isArray(before) ? before.map((each) => asRecord(each)) : [];
  return (directions as readonly StripDirection[]).map((direction) => {
    const same = earlier.find((each) => each?.from === direction.from);
    const entries = Object.entries({ ...same, ...direction });
    return Object.fromEntries(entries.filter(([, value]) => value !== null));
  });
}

function lineString(line: Pick<Strip, 'latDeg' | 'lonDeg'>): Geometry {
  return { type: 'LineString', coordinates: line.lonDeg.map((lon, i) => [lon, line.latDeg[i]]) };
}

function pointOrLine(line: Pick<Strip, 'latDeg' | 'lonDeg'>): Geometry {
  if (line.latDeg.length > 1) return lineString(line);
  return { type: 'Point', coordinates: [line.lonDeg[0], line.latDeg[0]] };
}
