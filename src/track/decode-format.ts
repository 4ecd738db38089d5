/**
 * Which format are these bytes, whatever the file is called?
 *
 * Input: the beginning of the bytes. Output: a format that can be decoded, or a description of what
 * was found instead, in words that finish the sentence "The file is ...".
 * Source: first bytes of common formats from memory; IGC record layout as in decode-igc-fix.ts.
 */

import { detectXmlEncoding } from '../xml/xml-encoding.ts';

/** What the bytes are. `found` completes "The file is ...". */
export type FoundFormat =
  | { readonly kind: 'igc' }
  | { readonly kind: 'gpx' }
  | { readonly kind: 'gzip' }
  | { readonly kind: 'other'; readonly found: string };

/** Bytes looked at: comments and a licence may stand before the first element or record. */
const LOOK_BYTES = 1 << 16;

/** First bytes that give a format away, and what to call it. */
const SIGNATURES: readonly (readonly [readonly number[], string])[] = [
  [[0x50, 0x4b, 0x03, 0x04], 'a zip archive (a KMZ file or a folder of logs); unpack it first'],
  [[0x42, 0x5a, 0x68], 'a bzip2 archive; unpack it first'],
  [[0xfd, 0x37, 0x7a, 0x58], 'an xz archive; unpack it first'],
  [[0x37, 0x7a, 0xbc, 0xaf], 'a 7z archive; unpack it first'],
  [[0x25, 0x50, 0x44, 0x46], 'a PDF document'],
  [[0x89, 0x50, 0x4e, 0x47], 'a PNG picture'],
  [[0xff, 0xd8, 0xff], 'a JPEG picture'],
];

/** Names the format by content. Fails: never; `other` says what was found. */
export function findFormat(bytes: Uint8Array): FoundFormat {
  if (bytes.length === 0) return other('empty (0 bytes)');
  if (bytes[0] === 0x1f && bytes[1] === 0x8b) return { kind: 'gzip' };
  for (const [signature, found] of SIGNATURES) {
    if (signature.every((byte, i) => bytes[i] === byte)) return other(found);
  }
  const encoding = detectXmlEncoding(bytes);
  const start = bytes.subarray(encoding.skip, LOOK_BYTES);
  const text = new TextDecoder(encoding.label).decode(start).trimStart();
  if (text.startsWith('<')) return markup(text);
  if (looksLikeIgc(text)) return { kind: 'igc' };
  return other(plainText(bytes, text));
}

function markup(text: string): FoundFormat {
  const bare = text
    .replace(/<!--[\s\S]*?-->/g, '')
    .replace(/<\?[\s\S]*?\?>/g, '')
    .replace(/<!DOCTYPE[^[>]*(?:\[[\s\S]*?\]\s*)?>/i, '');
  const root = /<(?:[\p{L}_][\p{L}\d_.-]*:)?([\p{L}_][\p{L}\d_.-]*)/u.exec(bare)?.[1];
  if (root === 'gpx') return { kind: 'gpx' };
  if (root === undefined) return other('marked-up text in which no first element was found');
  if (/^html$/i.test(root) || /<!DOCTYPE\s+html/i.test(text.slice(0, 1000))) {
    return other('a web page (HTML), perhaps a login or error page saved in place of the log');
  }
  if (/^kml$/i.test(root)) return other('a KML file');
  return other(`XML whose outermost element is <${root.slice(0, 40)}>`);
}

/** A date record, or a fix, on some line near the start. */
function looksLikeIgc(text: string): boolean {
  return /(?:^|[\r\n])H[A-Z]DTE/.test(text) || /(?:^|[\r\n])B\d{13}[NS]\d{8}[EW][AV]/.test(text);
}

function plainText(bytes: Uint8Array, text: string): string {
  if (text === '') return 'blank: nothing but white space';
  if (String.fromCharCode(...bytes.subarray(8, 12)) === '.FIT') return 'a FIT activity file';
  const odd = bytes.subarray(0, 1000).filter((b) => b === 0 || (b < 32 && b !== 26 && !isBlank(b)));
  if (odd.length > 0) return 'binary data of an unknown kind';
  if (/^(?:[$!][A-Z]{2,5},|\$G[A-Z]{4},)/m.test(text)) return 'a list of NMEA sentences';
  if (/^[[{]/.test(text)) return 'JSON text';
  if (/^A[A-Z0-9]{3}/.test(text) || /(?:^|[\r\n])H[FOP][A-Z]{3}/.test(text)) {
    return 'text that begins like an IGC file, but has neither a date record (HFDTE) nor a fix (B record)';
  }
  return 'text, but not in a format of track logs';
}

function isBlank(byte: number): boolean {
  return byte >= 9 && byte <= 13;
}

function other(found: string): FoundFormat {
  return { kind: 'other', found };
}
