/**
 * Invented strips for the tests of this folder, in Doggerland.
 */

import { decodeStrips } from '../../src/strips/decode-strips.ts';
import { createStripFrame } from '../../src/strips/strip-frame.ts';
import type { StripFrame } from '../../src/strips/strip-frame.ts';
import type { Strip, StripBook } from '../../src/strips/strip.ts';

type Json = Readonly<Record<string, unknown>>;

/** A feature of a strips file; the properties given go over those of a plain 387 m strip. */
export function stripFeature(
  properties: Json = {},
  coordinates: readonly unknown[] = [
    [2.3, 54.7],
    [2.306, 54.7],
  ],
): Json & { readonly properties: Json } {
  return {
    type: 'Feature',
    properties: {
      kind: 'strip',
      id: 'sedge',
      name: 'Sedge Bank',
      widthM: 12,
      surface: 'grass',
      elevationM: [10, 14],
      ...properties,
    },
    geometry: { type: 'LineString', coordinates },
  };
}

/** A feature of another kind. */
export function feature(properties: Json, type: string, coordinates: unknown): Json {
  return { type: 'Feature', properties, geometry: { type, coordinates } };
}

/** The text of a strips file. */
export function stripsFile(...features: readonly unknown[]): string {
  return JSON.stringify({ type: 'FeatureCollection', features });
}

/** The book of a file that must be readable. */
export function readBook(text: string): StripBook {
  const book = decodeStrips(text);
  if (!book.ok) throw new Error(book.problems.map((each) => each.message).join('\n'));
  return book.value;
}

/** The strip of `stripFeature` with the same arguments. */
export function readOneStrip(...args: Parameters<typeof stripFeature>): Strip {
  return readBook(stripsFile(stripFeature(...args))).strips[0];
}

/** The frame of the strip's direction from an end. */
export function frameFrom(strip: Strip, from: 'A' | 'B'): StripFrame {
  const direction = strip.directions.find((each) => each.from === from);
  if (!direction) throw new Error(`no direction from ${from}`);
  return createStripFrame(strip, direction);
}
