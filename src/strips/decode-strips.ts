/**
 * FRONT DOOR: which strips, obstacles, avoid areas and approach paths does a strips file hold?
 *
 * In: the text of a GeoJSON file (RFC 7946). Out: a StripBook, or every reason why not. A strips
 * file is taken whole or not at all: a strip that is silently missing would turn its landings into
 * landings at an unknown place.
 */

import { failure, problem, success } from '../result.ts';
import type { Problem, Result } from '../result.ts';
import { asRecord, doubt, show } from './feature-checks.ts';
import type { RawFeature } from './feature-checks.ts';
import { readStrip } from './read-strip.ts';
import { readApproachPath, readAvoidArea, readObstacle } from './read-surroundings.ts';
import type { ApproachPath, AvoidArea, Obstacle, Strip, StripBook } from './strip.ts';
import { parseJson } from '../units/json-text.ts';

/** Characters and features that no pilot's strips reach; beyond them the file is something else. */
const MAX_CHARACTERS = 20_000_000;
const MAX_FEATURES = 20_000;
/** Levels of lists and objects within each other; a deeper file is made to exhaust a program. */
const MAX_DEPTH = 40;

/**
 * Decodes a strips file.
 *
 * Units: WGS 84 degrees in the file's positions (longitude first), metres elsewhere.
 * Fails: not JSON, not a FeatureCollection, a feature that breaks a rule, a strip id given twice.
 * Warnings come along with the book; a feature of another kind is kept as it is, with a note.
 * @example decodeStrips('{"type":"FeatureCollection","features":[]}').ok // true
 */
export function decodeStrips(text: string): Result<StripBook> {
  const parsed = parse(text);
  if (!parsed.ok) return parsed;
  const strips: Strip[] = [];
  const obstacles: Obstacle[] = [];
  const avoidAreas: AvoidArea[] = [];
  const approachPaths: ApproachPath[] = [];
  const other: unknown[] = [];
  const problems: Problem[] = [];
  const whereOf = new Map<object, string>();

  const { features, foreign } = parsed.value;
  for (const [index, item] of features.entries()) {
    const record = asRecord(item);
    const properties = asRecord(record?.properties) ?? {};
    const feature: RawFeature = {
      where: name(index, properties),
      properties,
      geometry: record?.geometry,
      foreign: membersBut(record ?? {}, FEATURE_MEMBERS),
    };
    const keep = <T extends object>(list: T[], read: Result<T>) => {
      problems.push(...read.problems);
      if (!read.ok) return;
      list.push(read.value);
      whereOf.set(read.value, feature.where);
    };
    if (record?.type !== 'Feature') {
      const message = `type: found ${show(record?.type)}, expected "Feature"`;
      problems.push(problem('strips-file', 'error', feature.where, message));
    } else if (properties.kind === 'strip') keep(strips, readStrip(feature));
    else if (properties.kind === 'obstacle') keep(obstacles, readObstacle(feature));
    else if (properties.kind === 'avoid') keep(avoidAreas, readAvoidArea(feature));
    else if (properties.kind === 'approach-path') keep(approachPaths, readApproachPath(feature));
    else {
      other.push(item);
      problems.push(unknownKind(feature));
    }
  }

  const book: StripBook = { strips, obstacles, avoidAreas, approachPaths, other, foreign };
  problems.push(...checkReferences(book, whereOf));
  if (problems.some((each) => each.severity === 'error')) return failure(problems);
  if (strips.length === 0) {
    const message = 'found no feature with "kind": "strip", expected one or more';
    problems.push(problem('strips-none', 'warning', 'file', message));
  }
  return success(book, problems);
}

/** The features, still of unknown shape, and what stands beside them. */
interface Collection {
  readonly features: readonly unknown[];
  readonly foreign: Readonly<Record<string, unknown>>;
}

function parse(text: string): Result<Collection> {
  const refuse = (message: string) =>
    failure<Collection>([problem('strips-file', 'error', 'file', message)]);
  if (text.length > MAX_CHARACTERS) {
    return refuse(`found ${text.length} characters, expected at most ${MAX_CHARACTERS}`);
  }
  let json: unknown;
  try {
    json = parseJson(text);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return refuse(`found text that is not JSON (${reason}), expected GeoJSON`);
  }
  if (isDeeper(json, MAX_DEPTH)) {
    return refuse(`found over ${MAX_DEPTH} levels of lists and objects, expected GeoJSON`);
  }
  const collection = asRecord(json);
  if (collection?.type !== 'FeatureCollection') {
    return refuse(`type: found ${show(collection?.type)}, expected "FeatureCollection"`);
  }
  const { features } = collection;
  if (!Array.isArray(features)) {
    return refuse(`features: found ${show(features)}, expected a list`);
  }
  if (features.length > MAX_FEATURES) {
    return refuse(`features: found ${features.length}, expected at most ${MAX_FEATURES}`);
  }
  // A bounding box would be wrong as soon as a strip is added; RFC 7946 makes it optional.
  return success({ features, foreign: membersBut(collection, ['type', 'features', 'bbox']) });
}

/** Members of a feature that its record holds otherwise. */
const FEATURE_MEMBERS = ['type', 'geometry', 'properties'];

function membersBut(
  record: Readonly<Record<string, unknown>>,
  known: readonly string[],
): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(record).filter(([name]) => !known.includes(name)));
}

function isDeeper(value: unknown, levels: number): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return levels === 0 || Object.values(value).some((each) => isDeeper(each, levels - 1));
}

function name(index: number, properties: Readonly<Record<string, unknown>>): string {
  const known = properties.id ?? properties.name;
  return known === undefined ? `features[${index}]` : `features[${index}] (${show(known)})`;
}

function unknownKind(feature: RawFeature): Problem {
  const found = `kind: found ${show(feature.properties.kind)}`;
  const expected = 'expected "strip", "obstacle", "avoid" or "approach-path"';
  const message = `${found}, ${expected}; it is kept but not used`;
  return problem('strips-kind', 'note', feature.where, message);
}

/** Ids given twice, and strips or directions named that are not in the file. */
function checkReferences(book: StripBook, whereOf: ReadonlyMap<object, string>): Problem[] {
  const problems: Problem[] = [];
  const byId = new Map<string, Strip>();
  for (const strip of book.strips) {
    const first = byId.get(strip.id);
    if (first) {
      const message = `id: found "${strip.id}" again, expected one that differs from ${whereOf.get(first) ?? ''}`;
      problems.push(problem('strip-id', 'error', whereOf.get(strip) ?? '', message));
    } else byId.set(strip.id, strip);
  }
  for (const user of [...book.obstacles, ...book.approachPaths]) {
    if (user.strip === null) continue;
    const strip = byId.get(user.strip);
    const feature = { where: whereOf.get(user) ?? '', properties: {}, geometry: null };
    if (!strip) {
      const message = `strip: found "${user.strip}", expected the id of a strip in this file`;
      problems.push(doubt(feature, 'strip-unknown', message));
    } else if (
      'designator' in user &&
      !strip.directions.some((each) => each.designator === user.designator)
    ) {
      const listed = strip.directions.map((each) => `"${each.designator}"`).join(' or ');
      const message = `designator: found "${user.designator}", expected ${listed}`;
      problems.push(doubt(feature, 'direction-unknown', message));
    }
  }
  return problems;
}
