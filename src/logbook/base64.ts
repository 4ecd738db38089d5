/**
 * Bytes as text for JSON, and back.
 *
 * Source: RFC 4648, section 4 (base64 with padding), by the platform's `btoa` and `atob`.
 */

/** Bytes at a time: fewer than the arguments a function call takes. */
const CHUNK = 0x6000;

/** Bytes as base64. */
export function toBase64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let from = 0; from < bytes.length; from += CHUNK) {
    // CHUNK is a multiple of three, so the pieces join without padding between them.
    pieces.push(btoa(String.fromCharCode(...bytes.subarray(from, from + CHUNK))));
  }
  return pieces.join('');
}

/** The bytes of a base64 text, or null where it is none. */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> | null {
  try {
    const binary = atob(text);
    const bytes = new Uint8Array(binary.length);
    for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
    return bytes;
  } catch {
    return null;
  }
}
