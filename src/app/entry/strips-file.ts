/**
 * What does a strips file bring, and how are all strips written into one?
 *
 * In: the text of a GeoJSON file; or records. Out: its features, or every reason why not; or the text
 * of a file. Features are kept whole, as they came.
 */
import type { Feature, StripRecord } from '../../logbook/entry.ts';
import { failure, problem, success, type Result } from '../../result.ts';
import { decodeStrips } from '../../strips/decode-strips.ts';
import { parseJson } from '../../units/json-text.ts';
import { versionAt } from './strip-list.ts';

/** Bytes that no pilot's strips reach; a larger file is not even read. */
export const MOST_FILE_BYTES = 20_000_000;

/** The features of a file in its order. Fails as the reader of strips files does, and where it has none. */
export function featuresOf(text: string): Result<readonly Feature[]> {
  const decoded = decodeStrips(text);
  if (!decoded.ok) return decoded;
  const { features } = parseJson(text) as { features: Feature[] };
  return success(features, decoded.problems);
}

/** Every feature as it lies at `nowS`, as the text of a GeoJSON file (RFC 7946). */
export function stripsFileText(records: readonly StripRecord[], nowS: number): string {
  const features = records.map((record) => versionAt(record, nowS).feature);
  return `${JSON.stringify({ type: 'FeatureCollection', features }, null, 2)}\n`;
}

/** What is said of a file over `MOST_FILE_BYTES`. */
export function tooLarge(bytes: number): Result<readonly Feature[]> {
  const message = `found ${bytes} bytes, expected at most ${MOST_FILE_BYTES}`;
  return failure([problem('strips-file', 'error', 'file', message)]);
}
