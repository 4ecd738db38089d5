/**
 * What kind of file was dropped?
 *
 * In: bytes and name. Out: a logbook file, a strips file, an aeroplane document, a factor set, or
 * anything else, which is then read as a track and says itself what is wrong with it.
 */
import { parseJson } from '../units/json-text.ts';

export type FileKind = 'track' | 'strips' | 'aeroplane' | 'factor-set' | 'logbook';

/** A JSON document larger than this is none of ours, bytes. */
const MOST_JSON_BYTES = 20 * 2 ** 20;

/** Judged by content; the name only tells a logbook from a packed track. */
export function kindOfFile(bytes: Uint8Array, fileName: string): FileKind {
  if (bytes[0] === 0x1f && bytes[1] === 0x8b) {
    return /\.windrow$/i.test(fileName) ? 'logbook' : 'track';
  }
  if (bytes.length > MOST_JSON_BYTES || !beginsWithBrace(bytes)) return 'track';
  try {
    const document: unknown = parseJson(new TextDecoder().decode(bytes));
    const isCollection =
      typeof document === 'object' &&
      document !== null &&
      'type' in document &&
      document.type === 'FeatureCollection';
    if (isCollection) return 'strips';
    const isFactorSet =
      typeof document === 'object' &&
      document !== null &&
      'kind' in document &&
      document.kind === 'factor-set';
    return isFactorSet ? 'factor-set' : 'aeroplane';
  } catch {
    return 'track';
  }
}

/** An opening brace after blanks and a byte order mark. */
function beginsWithBrace(bytes: Uint8Array): boolean {
  const head = new TextDecoder().decode(bytes.subarray(0, 64));
  return head
    .replace(/^\uFEFF/, '')
    .trimStart()
    .startsWith('{');
}
