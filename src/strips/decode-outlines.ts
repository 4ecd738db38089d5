/**
 * Which places, lines and areas did somebody draw in this GPX or KML file?
 *
 * For taking over strips, obstacles, areas to avoid and approach paths drawn in another program.
 * Input: bytes. Output: GeoJSON features (RFC 7946, degrees, longitude first) for the user to pick
 * from, and problems. Recorded tracks in the file are not outlines: they are taken out by the
 * streaming reader before any tree is built, and what remains may be 2 MB at most.
 * Source: GPX 1.1 schema (topografix.com/GPX/1/1), OGC KML 2.2 (from memory), read through
 * @tmcw/togeojson.
 */

import { gpx, kml } from '@tmcw/togeojson';
import { DOMParser, onErrorStopParsing } from '@xmldom/xmldom';
import type { Feature, FeatureCollection, Geometry } from 'geojson';
import type { Problem, Result } from '../result.ts';
import { failure, problem, success } from '../result.ts';
import type { XmlAttributes, XmlReading } from '../xml/xml-reader.ts';
import { readXml } from '../xml/xml-reader.ts';

/** A feature that has a place. */
export type OutlineFeature = Feature;

/** Largest text a tree is built from, characters; a drawn outline has some thousands. */
export const MAX_OUTLINE_CHARS = 2_000_000;
const NO_POSITION = 'it has no position';
/** Problems of single features that are told one by one. */
const PROBLEMS_TOLD = 20;
/** Recorded tracks, in GPX and in KML's extension. */
const TRACK_ELEMENTS: ReadonlySet<string> = new Set(['trk', 'Track', 'MultiTrack']);
const TRACK_POINTS: ReadonlySet<string> = new Set(['trkpt', 'coord']);

/**
 * Reads waypoints, routes and (KML) placemarks.
 *
 * Shape: one feature a waypoint, route or placemark, names and descriptions in its properties as
 * plain text of the file's author. Features whose positions are no numbers within range are left
 * out with a problem.
 * Fails: a failure where the bytes are not XML, the outermost element is neither gpx nor kml, the
 * XML is not well-formed (a half outline is worse than none), or more than 2 MB remain without the
 * tracks.
 */
export function decodeOutlines(bytes: Uint8Array): Result<readonly OutlineFeature[]> {
  const copy = new CopyWithoutTracks();
  let reading: XmlReading;
  try {
    reading = readXml(bytes, {
      open: (name, attributes) => copy.open(name, attributes),
      close: (name) => copy.close(name),
      text: (text) => copy.text(text),
    });
  } catch (stop) {
    if (stop instanceof TooLarge) return tooLarge();
    throw stop;
  }
  const { root } = reading;
  if (root !== 'gpx' && root !== 'kml') {
    const found = root === '' ? 'No element' : `An outermost element <${root.slice(0, 40)}>`;
    const message = `${found} was found; a GPX or KML file was expected.`;
    return failure([...reading.problems, problem('not-outlines', 'error', 'file', message)]);
  }
  if (reading.fault !== null) {
    return failure([...reading.problems, { ...reading.fault, severity: 'error' }]);
  }
  return readTree(copy, root, reading.problems);
}

function readTree(
  copy: CopyWithoutTracks,
  root: 'gpx' | 'kml',
  before: readonly Problem[],
): Result<readonly OutlineFeature[]> {
  const problems = [...before];
  if (copy.trackPoints > 0) {
    const message = `${copy.trackPoints} points of recorded tracks were left out; outlines come from waypoints, routes, lines and areas.`;
    problems.push(problem('outline-tracks', 'note', 'file', message));
  }
  let collection: FeatureCollection<Geometry | null>;
  try {
    const parser = new DOMParser({ onError: onErrorStopParsing });
    const document = parser.parseFromString(copy.result(), 'text/xml');
    collection = root === 'gpx' ? gpx(document) : kml(document, { skipNullGeometry: true });
  } catch (error) {
    const found = error instanceof Error ? error.message.slice(0, 200) : String(error);
    const message = `The ${root.toUpperCase()} file could not be read as outlines: ${found}`;
    return failure([...problems, problem('outlines-unreadable', 'error', 'file', message)]);
  }
  const features: OutlineFeature[] = [];
  let refused = 0;
  collection.features.forEach((feature, index) => {
    const { geometry } = feature;
    const wrong = geometry === null ? NO_POSITION : wrongPosition(geometry);
    if (geometry !== null && wrong === null) {
      features.push({ ...feature, geometry });
      return;
    }
    refused += 1;
    if (refused > PROBLEMS_TOLD) return;
    const name: unknown = feature.properties?.['name'];
    const called = typeof name === 'string' ? ` "${name.slice(0, 60)}"` : '';
    const message = `Feature ${index + 1}${called} was left out: ${wrong ?? ''}.`;
    problems.push(problem('outline-position', 'warning', `feature ${index + 1}`, message));
  });
  if (features.length === 0) {
    const message = `The ${root.toUpperCase()} file holds no usable waypoint, route, line or area.`;
    problems.push(problem('no-outlines', 'warning', 'file', message));
  }
  return success(features, problems);
}

function tooLarge(): Result<never> {
  const message = `More than ${MAX_OUTLINE_CHARS} characters remain without the recorded tracks; drawn outlines have some thousands.`;
  return failure([problem('outlines-too-large', 'error', 'file', message)]);
}

/** Thrown to leave the reader early; never leaves this file. */
class TooLarge extends Error {}

/** Writes the document again without tracks and prefixes of elements, every text escaped anew. */
class CopyWithoutTracks {
  trackPoints = 0;
  private pieces: string[] = [];
  private length = 0;
  private depthInTrack = 0;

  open(name: string, attributes: XmlAttributes): void {
    if (this.depthInTrack > 0 || TRACK_ELEMENTS.has(name)) {
      this.depthInTrack += 1;
      if (TRACK_POINTS.has(name)) this.trackPoints += 1;
      return;
    }
    let tag = `<${name}`;
    for (const [key, value] of Object.entries(attributes)) {
      tag += ` ${key}="${escaped(value)}"`;
    }
    this.add(`${tag}>`);
  }

  close(name: string): void {
    if (this.depthInTrack > 0) this.depthInTrack -= 1;
    else this.add(`</${name}>`);
  }

  text(text: string): void {
    if (this.depthInTrack === 0) this.add(escaped(text));
  }

  result(): string {
    return this.pieces.join('');
  }

  private add(piece: string): void {
    this.length += piece.length;
    if (this.length > MAX_OUTLINE_CHARS) throw new TooLarge();
    this.pieces.push(piece);
  }
}

function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/** What is wrong with the first bad position of a geometry; null where all are right. */
function wrongPosition(geometry: Geometry): string | null {
  if (geometry.type === 'GeometryCollection') {
    for (const part of geometry.geometries) {
      const wrong = wrongPosition(part);
      if (wrong !== null) return wrong;
    }
    return geometry.geometries.length === 0 ? NO_POSITION : null;
  }
  return wrongIn(geometry.coordinates);
}

type Nested = number | readonly Nested[];

function wrongIn(coordinates: readonly Nested[]): string | null {
  if (coordinates.length === 0) return NO_POSITION;
  const [lonDeg, latDeg] = coordinates;
  if (typeof lonDeg === 'number' || typeof latDeg === 'number') {
    const numbers = typeof lonDeg === 'number' && typeof latDeg === 'number';
    if (!numbers || !Number.isFinite(lonDeg) || !Number.isFinite(latDeg)) {
      return 'a latitude or longitude is missing or not a number';
    }
    const inRange = Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 180;
    return inRange ? null : 'a latitude is beyond 90 or a longitude beyond 180 degrees';
  }
  for (const part of coordinates) {
    const wrong = typeof part === 'number' ? 'a position is not a pair' : wrongIn(part);
    if (wrong !== null) return wrong;
  }
  return null;
}
