/**
 * What kind of file was dropped?
 *
 * In: bytes and name. Out: a logbook file, a strips file, an aeroplane document, a factor set, JSON
 * that the page has no use for (with the reason), or anything else, which is then read as a track and
 * says itself what is wrong with it.
 */
import { problem, type Problem } from '../result.ts';
import { parseJson } from '../units/json-text.ts';

export type FileKind = 'track' | 'strips' | 'aeroplane' | 'factor-set' | 'logbook' | 'other-json';

/** A JSON document larger than this is none of ours, bytes. */
const MOST_JSON_BYTES = 20 * 2 ** 20;

/** A found word is quoted up to here, characters. */
const LONGEST_WORD = 40;

/** Documents of the command line, and where the page has what they say. */
const ENTERED_HERE: ReadonlyMap<unknown, string> = new Map([
  [
    'conditions',
    'found a conditions file, which is for the command line: here wind, temperature, mass and surface are entered in the debrief of their flight',
  ],
  [
    'touchdowns',
    'found a touchdowns file, which is for the command line: here a touchdown is put by hand in the debrief of its landing',
  ],
]);

/** Judged by content; the name only tells a logbook from a packed track. */
export function kindOfFile(bytes: Uint8Array, fileName: string): FileKind {
  if (bytes[0] === 0x1f && bytes[1] === 0x8b) {
    return /\.windrow$/i.test(fileName) ? 'logbook' : 'track';
  }
  const document = documentOf(bytes);
  if (document === null) return 'track';
  if (document.type === 'FeatureCollection') return 'strips';
  const { kind } = document;
  return kind === 'aeroplane' || kind === 'factor-set' ? kind : 'other-json';
}

/** Why a file of the kind `other-json` is not taken in: what it is, and what belongs where. */
export function otherJson(bytes: Uint8Array): Problem {
  const { kind, type } = documentOf(bytes) ?? {};
  const found =
    typeof kind === 'string'
      ? `"kind": ${quoted(kind)}`
      : typeof type === 'string'
        ? `"type": ${quoted(type)}`
        : 'no "kind"';
  const message =
    ENTERED_HERE.get(kind) ??
    `found JSON with ${found}, expected a strips file ("type": "FeatureCollection"), an aeroplane ("kind": "aeroplane") or a factor set ("kind": "factor-set")`;
  return problem('other-json', 'error', 'file', message);
}

/** The JSON object that the bytes hold, null where they hold none. */
function documentOf(
  bytes: Uint8Array,
): { readonly kind?: unknown; readonly type?: unknown } | null {
  if (bytes.length > MOST_JSON_BYTES || !beginsWithBrace(bytes)) return null;
  try {
    // What begins with a brace and can be read is an object.
    return parseJson(new TextDecoder().decode(bytes)) as object;
  } catch {
    return null;
  }
}

function quoted(word: string): string {
  return JSON.stringify(
    word.length <= LONGEST_WORD ? word : `${word.slice(0, LONGEST_WORD)}\u2026`,
  );
}

/** An opening brace after blanks and a byte order mark. */
function beginsWithBrace(bytes: Uint8Array): boolean {
  const head = new TextDecoder().decode(bytes.subarray(0, 64));
  return head
    .replace(/^\uFEFF/, '')
    .trimStart()
    .startsWith('{');
}
