/**
 * What bytes are packed in this gzip file?
 *
 * Input: gzip bytes. Output: the unpacked bytes, as far as they go. Guards against files that
 * unpack to more than any log: by size, and much earlier by ratio.
 */

import type { Result } from '../result.ts';
import { failure, problem, success } from '../result.ts';

/** Largest unpacked size, bytes: some 400 hours of the widest GPX at 5 fixes a second. */
export const MAX_UNPACKED_BYTES = 512 * 2 ** 20;
/** Text of logs packs to between a fifth and a thirtieth; gzip's limit is near 1030. */
export const MAX_RATIO = 200;
/** The ratio is only judged beyond this size, bytes: small repetitive files are harmless. */
const RATIO_FROM_BYTES = 16 * 2 ** 20;

/**
 * Unpacks gzip.
 *
 * Fails: a failure where nothing could be unpacked or the limits are passed. A damaged or cut-off
 * file gives what could be unpacked, with a warning.
 */
export async function unpackGzip(packed: Uint8Array<ArrayBuffer>): Promise<Result<Uint8Array>> {
  const reader = new Blob([packed])
    .stream()
    .pipeThrough(new DecompressionStream('gzip'))
    .getReader();
  const pieces: Uint8Array[] = [];
  let size = 0;
  let damaged = false;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      pieces.push(value);
      size += value.length;
      const tooWide = size > RATIO_FROM_BYTES && size > MAX_RATIO * packed.length;
      if (size > MAX_UNPACKED_BYTES || tooWide) {
        await reader.cancel();
        return tooLarge(packed.length, size);
      }
    }
  } catch {
    damaged = true;
  }
  if (damaged && size === 0) {
    const message =
      'The file begins like gzip, but nothing could be unpacked; it is damaged or cut off.';
    return failure([problem('gzip-damaged', 'error', 'file', message)]);
  }
  const message = `The gzip file is damaged or cut off; ${size} bytes could be unpacked and were read.`;
  return success(
    joined(pieces, size),
    damaged ? [problem('gzip-damaged', 'warning', 'file', message)] : [],
  );
}

function tooLarge(packedBytes: number, size: number): Result<Uint8Array> {
  return failure([
    problem(
      'gzip-too-large',
      'error',
      'file',
      `The gzip file of ${packedBytes} bytes unpacks to more than ${size} bytes; a log of at most ${MAX_UNPACKED_BYTES} bytes and ${MAX_RATIO} times its packed size was expected.`,
    ),
  ]);
}

function joined(pieces: readonly Uint8Array[], size: number): Uint8Array {
  const whole = new Uint8Array(size);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
