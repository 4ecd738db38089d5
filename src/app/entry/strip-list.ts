/**
 * Which strips are kept, how long are they, and what belongs to each?
 *
 * In: records as listed and the time. Out: rows for the list, the shortest first, each with what stands
 * around it; what belongs to no strip that is kept; the room's sentence. A record that the reader of
 * strips files refuses stays in the list with the reason.
 */
import type { Feature, FeatureVersion, StripRecord } from '../../logbook/entry.ts';
import { shortLine } from '../../geo/local-frame.ts';
import { createStripFrame } from '../../strips/strip-frame.ts';
import { decodeStrips } from '../../strips/decode-strips.ts';
import type { ApproachPath, AvoidArea, Obstacle, Strip } from '../../strips/strip.ts';
import { propertiesOf, textIn } from './feature-parts.ts';

/** What stands around a strip. */
export interface SurroundRow {
  readonly record: StripRecord;
  readonly feature: Feature;
  readonly version: FeatureVersion;
  readonly kind: 'obstacle' | 'avoid' | 'approach-path' | 'other';
  readonly name: string;
  readonly obstacle: Obstacle | null;
  readonly avoid: AvoidArea | null;
  readonly path: ApproachPath | null;
  /** Why it cannot be read; empty where it can. */
  readonly fault: string;
}

/** One strip. */
export interface StripRow {
  readonly record: StripRecord;
  /** The feature that lies there now. */
  readonly feature: Feature;
  readonly version: FeatureVersion;
  readonly id: string;
  readonly name: string;
  /** Null where the feature cannot be read. */
  readonly strip: Strip | null;
  readonly lengthM: number | null;
  readonly fault: string;
  readonly around: readonly SurroundRow[];
}

/** Everything the room lists. */
export interface StripList {
  readonly strips: readonly StripRow[];
  /** Obstacles and areas of no strip that is kept. */
  readonly others: readonly SurroundRow[];
  readonly longestM: number;
}

/** Lists the records as they lie at `nowS`. */
export function listStrips(records: readonly StripRecord[], nowS: number): StripList {
  const around = records.filter((each) => !isStrip(each)).map((each) => surroundRow(each, nowS));
  const bare = records.filter(isStrip).map((record) => stripRow(record, nowS));
  const owners = new Map(around.map((each) => [each, ownerOf(each, bare)]));
  const strips = bare
    .map((row) => ({ ...row, around: around.filter((each) => owners.get(each) === row.id) }))
    .sort((a, b) => (a.lengthM ?? 0) - (b.lengthM ?? 0) || (a.name < b.name ? -1 : 1));
  const owned = new Set(strips.flatMap((row) => row.around));
  return {
    strips,
    others: around.filter((each) => !owned.has(each)),
    longestM: Math.max(0, ...strips.map(({ lengthM }) => lengthM ?? 0)),
  };
}

/** The room in a sentence; lengths by the caller's formatter. */
export function stripsSentence({ strips }: StripList, show: (metres: number) => string): string {
  if (strips.length === 0) return 'No strips yet.';
  // A length that is a guess is none to say aloud.
  const shortest = strips
    .filter(({ strip }) => !strip?.endsGuessed)
    .flatMap(({ lengthM }) => (lengthM === null ? [] : [lengthM]))
    .at(0);
  if (strips.length === 1) {
    return shortest === undefined ? 'One strip.' : `One strip, ${show(shortest)} long.`;
  }
  const count = `${strips.length} strips`;
  return shortest === undefined ? `${count}.` : `${count}, the shortest ${show(shortest)}.`;
}

/** The version that lies there at a time, as flights of that day see it. */
export function versionAt({ versions }: StripRecord, timeS: number): FeatureVersion {
  return versions.filter(({ fromS }) => fromS === null || fromS <= timeS).at(-1) ?? versions[0];
}

function isStrip({ versions }: StripRecord): boolean {
  return propertiesOf(versions[0].feature).kind === 'strip';
}

function decodeAlone(feature: Feature) {
  return decodeStrips(JSON.stringify({ type: 'FeatureCollection', features: [feature] }));
}

/** The id of the strip that a feature names; null where it names none. */
export function namedStrip({ obstacle, path }: SurroundRow): string | null {
  return obstacle?.strip ?? path?.strip ?? null;
}

/** The strip that a feature names, else the nearest one. */
function ownerOf(row: SurroundRow, strips: readonly StripRow[]): string | null {
  const named = namedStrip(row);
  if (named !== null) return named;
  const place = placeOf(row);
  if (place === null) return null;
  const distances = strips.flatMap(({ id, strip }) =>
    strip
      ? [{ id, m: shortLine(place.latDeg, place.lonDeg, strip.latDeg[0], strip.lonDeg[0]).lengthM }]
      : [],
  );
  const near = distances.filter(({ m }) => m <= NEAR_M).sort((a, b) => a.m - b.m);
  return near.length > 0 ? near[0].id : null;
}

/** An area or an obstacle that names no strip belongs to one as near as a wide circuit (ours). */
const NEAR_M = 5000;

function placeOf({ obstacle, avoid }: SurroundRow): { latDeg: number; lonDeg: number } | null {
  if (obstacle) return { latDeg: obstacle.latDeg[0], lonDeg: obstacle.lonDeg[0] };
  if (avoid) return { latDeg: avoid.rings[0][0][1], lonDeg: avoid.rings[0][0][0] };
  return null;
}

function stripRow(record: StripRecord, nowS: number): StripRow {
  const version = versionAt(record, nowS);
  const { feature } = version;
  const decoded = decodeAlone(feature);
  const strip = decoded.ok ? decoded.value.strips[0] : null;
  const properties = propertiesOf(feature);
  return {
    record,
    feature,
    version,
    id: record.id,
    name: strip?.name ?? (textIn(properties.name) || record.id),
    strip,
    lengthM: strip ? createStripFrame(strip, strip.directions[0]).lengthM : null,
    fault: decoded.ok ? '' : decoded.problems.map(({ message }) => message).join('; '),
    around: [],
  };
}

function surroundRow(record: StripRecord, nowS: number): SurroundRow {
  const version = versionAt(record, nowS);
  const { feature } = version;
  const decoded = decodeAlone(feature);
  const book = decoded.ok ? decoded.value : null;
  const [obstacle = null] = book?.obstacles ?? [];
  const [avoid = null] = book?.avoidAreas ?? [];
  const [path = null] = book?.approachPaths ?? [];
  const properties = propertiesOf(feature);
  const kinds = ['obstacle', 'avoid', 'approach-path'] as const;
  const kind = kinds.find((each) => each === properties.kind) ?? 'other';
  const name = textIn(properties.name) || (path ? `path to ${path.designator}` : NAMES[kind]);
  const fault = decoded.ok ? '' : decoded.problems.map(({ message }) => message).join('; ');
  return { record, feature, version, kind, name, obstacle, avoid, path, fault };
}

const NAMES: Readonly<Record<SurroundRow['kind'], string>> = {
  obstacle: 'obstacle',
  avoid: 'avoid area',
  'approach-path': 'approach path',
  other: 'another feature',
};
