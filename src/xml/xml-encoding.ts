/**
 * In which encoding are these bytes of XML written?
 *
 * Input: the bytes of the file. Output: a label that TextDecoder knows, the length of the byte order
 * mark, and a remark where the declared encoding could not be used.
 * Source: XML 1.0 (W3C recommendation, 5th ed.) appendix F, and the WHATWG Encoding Standard's
 * labels; both from memory.
 */

/** How to decode the bytes. `doubt` says what was found where the declared encoding is not used. */
export interface XmlEncoding {
  /** Label for TextDecoder. */
  readonly label: string;
  /** Bytes to skip before the text: the length of the byte order mark. */
  readonly skip: number;
  readonly doubt: string | null;
}

/** How many bytes may stand before the end of the XML declaration. */
const DECLARATION_BYTES = 512;

/**
 * Finds the encoding: a byte order mark wins, then the pattern of the first four bytes, then the
 * XML declaration, then UTF-8. An encoding that nobody can decode falls back to UTF-8 with a doubt.
 * Fails: never.
 */
export function detectXmlEncoding(bytes: Uint8Array): XmlEncoding {
  const [b0, b1, b2, b3] = [bytes[0], bytes[1], bytes[2], bytes[3]];
  if (b0 === 0xef && b1 === 0xbb && b2 === 0xbf) return { label: 'utf-8', skip: 3, doubt: null };
  if (b0 === 0xff && b1 === 0xfe) return { label: 'utf-16le', skip: 2, doubt: null };
  if (b0 === 0xfe && b1 === 0xff) return { label: 'utf-16be', skip: 2, doubt: null };
  if (b0 === 0x3c && b1 === 0 && b3 === 0) return { label: 'utf-16le', skip: 0, doubt: null };
  if (b0 === 0 && b1 === 0x3c && b2 === 0) return { label: 'utf-16be', skip: 0, doubt: null };
  return declaredEncoding(asciiStart(bytes));
}

function declaredEncoding(start: string): XmlEncoding {
  const found = /^\s*<\?xml[^>]*?encoding\s*=\s*["']([^"']*)["']/.exec(start);
  const declared = found?.[1] ?? 'utf-8';
  // The bytes just read as single-byte text, so a declaration of a wider code cannot be true.
  if (/^(utf-?16|utf-?32|ucs-?[24]|iso-10646)/i.test(declared)) {
    return fallBack(`declares the encoding "${declared}", but the bytes are single-byte text`);
  }
  try {
    return { label: new TextDecoder(declared).encoding, skip: 0, doubt: null };
  } catch {
    return fallBack(`declares the unknown encoding "${declared.slice(0, 40)}"`);
  }
}

function fallBack(found: string): XmlEncoding {
  return { label: 'utf-8', skip: 0, doubt: `The file ${found}; it was read as UTF-8.` };
}

function asciiStart(bytes: Uint8Array): string {
  let text = '';
  const end = Math.min(bytes.length, DECLARATION_BYTES);
  for (let i = 0; i < end; i++) text += String.fromCharCode(bytes[i] ?? 0);
  return text;
}
