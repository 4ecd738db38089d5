/**
 * How are a file's bytes kept, and are they still the same?
 *
 * In: bytes as they came. Out: gzip and SHA-256, and back. Packing saves some nine tenths of a text
 * log; the digest of the unpacked bytes proves that nothing was lost on the way.
 *
 * Source: RFC 1952 (gzip) and FIPS 180-4 (SHA-256), both by the platform's own implementation.
 */

import { failure, problem, success, type Result } from '../result.ts';
import { nameOf, type LogRecord } from './entry.ts';

/**
 * Largest file that is kept, bytes. Ours: far beyond any log, and small enough that its base64 is one
 * text of an export (texts end at 2^29 characters in the engines we know).
 */
export const MOST_LOG_BYTES = 256 * 2 ** 20;

/** Packs bytes with gzip. The packed bytes may differ between platforms, the unpacked ones never. */
export async function packGzip(bytes: BlobPart): Promise<Uint8Array<ArrayBuffer>> {
  const packed = new Blob([bytes]).stream().pipeThrough(new CompressionStream('gzip'));
  return new Uint8Array(await new Response(packed).arrayBuffer());
}

/**
 * The pieces of unpacked gzip in order, stopping after `mostBytes`.
 *
 * Fails: throws `TypeError` or `Error` from the platform where the gzip is damaged or cut off, and
 * `TooMuchUnpacked` beyond the limit.
 */
export async function* unpackedPieces(
  packed: Uint8Array<ArrayBuffer>,
  mostBytes: number,
): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  const reader = new Blob([packed])
    .stream()
    .pipeThrough(new DecompressionStream('gzip'))
    .getReader();
  let size = 0;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      size += value.length;
      if (size > mostBytes) throw new TooMuchUnpacked(mostBytes);
      yield value;
    }
  } finally {
    // Stops the unpacking where the caller stops asking; a stream that failed is over already.
    await reader.cancel().catch(() => undefined);
  }
}

/** Gzip that unpacks to more than was allowed. */
export class TooMuchUnpacked extends Error {
  readonly mostBytes: number;
  constructor(mostBytes: number) {
    super(`the gzip unpacks to more than ${mostBytes} bytes`);
    this.mostBytes = mostBytes;
  }
}

/** SHA-256 of bytes, hexadecimal in lower case. */
export async function sha256Hex(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/**
 * The file of a log as it came, byte for byte.
 *
 * Fails: the gzip is damaged, or the bytes are not those that the log's size and digest promise.
 */
export async function logBytes(log: LogRecord): Promise<Result<Uint8Array<ArrayBuffer>>> {
  // Room is made for what comes, not for what the record claims.
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  try {
    for await (const piece of unpackedPieces(log.gzip, log.sizeBytes)) pieces.push(piece);
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    return damaged(log, `found gzip that cannot be unpacked (${words})`);
  }
  const bytes = new Uint8Array(await new Blob(pieces).arrayBuffer());
  if (bytes.length !== log.sizeBytes) return damaged(log, `found ${bytes.length} bytes`);
  const found = await sha256Hex(bytes);
  if (found !== log.sha256) return damaged(log, `found bytes with the SHA-256 ${found}`);
  return success(bytes);
}

function damaged(log: LogRecord, found: string): Result<never> {
  const expected = `expected the ${log.sizeBytes} bytes of ${log.fileName} with the SHA-256 ${log.sha256}`;
  return failure([
    problem('logbook-bytes', 'error', `${nameOf(log)}: gzip`, `${found}, ${expected}`),
  ]);
}
