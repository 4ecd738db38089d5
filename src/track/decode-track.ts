/**
 * FRONT DOOR of decoding: what track do these bytes hold?
 *
 * Inputs: the bytes of a file and its name. Outputs: a Track with headers, notes and the list of
 * what was left out, and problems in plain words. The format is told by content, never by name.
 * Any bytes at all are safe to hand in: they cannot crash, hang or exhaust the machine.
 */

import type { Problem, Result } from '../result.ts';
import { failure, problem, success } from '../result.ts';
import { checkDate } from './decode-check-date.ts';
import { checkSpeedUnit, INSTEAD_OF_KMH, INSTEAD_OF_MPS } from './decode-check-speed.ts';
import { findFormat } from './decode-format.ts';
import { decodeGpx, scaleSpeeds, statedTimes } from './decode-gpx.ts';
import { MAX_UNPACKED_BYTES, unpackGzip } from './decode-gzip.ts';
import { decodeIgc } from './decode-igc.ts';
import type { DecodedTrack } from './track.ts';

/**
 * Decodes a track file: IGC, GPX 1.0 or 1.1, or either packed with gzip.
 *
 * `fileName` is used in messages and for a date in it, never to choose the format. Asynchronous
 * only because unpacking is.
 * Fails: a failure with a problem of severity error where no track format is found or the file
 * cannot be unpacked; a track of length 0 with a problem where the format is right but holds no
 * usable fix.
 * @example const decoded = await decodeTrack(bytes, 'visit.igc');
 */
export async function decodeTrack(
  bytes: Uint8Array,
  fileName: string,
): Promise<Result<DecodedTrack>> {
  if (findFormat(bytes).kind !== 'gzip') return decodeUnpacked(bytes, fileName);
  const unpacked = await unpackGzip(bytes as Uint8Array<ArrayBuffer>);
  if (!unpacked.ok) return unpacked;
  return withProblems(unpacked.problems, decodeUnpacked(unpacked.value, fileName));
}

/** The same for bytes that are not packed, at once. Fails: as decodeTrack, and for gzip bytes. */
export function decodeUnpacked(bytes: Uint8Array, fileName: string): Result<DecodedTrack> {
  if (bytes.length > MAX_UNPACKED_BYTES) {
    const message = `The file has ${bytes.length} bytes; a log of at most ${MAX_UNPACKED_BYTES} was expected.`;
    return failure([problem('file-too-large', 'error', 'file', message)]);
  }
  const format = findFormat(bytes);
  if (format.kind === 'igc') return checked(decodeIgc(bytes), fileName);
  if (format.kind === 'gpx') return checked(decodeGpx(bytes), fileName);
  const found = format.kind === 'other' ? format.found : 'packed twice with gzip';
  const message = `The file is ${found}. A track log in IGC or GPX format was expected.`;
  return failure([problem('unknown-format', 'error', 'file', message)]);
}

/** Adds what only the whole track can tell: a date off by 1,024 weeks, speeds in another unit. */
function checked(decoded: Result<DecodedTrack>, fileName: string): Result<DecodedTrack> {
  if (!decoded.ok) return decoded;
  const { track } = decoded.value;
  const problems: Problem[] = [...decoded.problems];
  if (!problems.some((p) => p.code === 'igc-no-date')) {
    problems.push(...checkDate(track, statedTimes(decoded.value), fileName));
  }
  const units = track.format === 'igc' ? INSTEAD_OF_KMH : INSTEAD_OF_MPS;
  const speed = checkSpeedUnit(track, units);
  problems.push(...speed.problems);
  const scaled = speed.factor === 1 ? track : scaleSpeeds(track, speed.factor);
  return success({ ...decoded.value, track: scaled }, problems);
}

function withProblems<T>(before: readonly Problem[], result: Result<T>): Result<T> {
  const problems = [...before, ...result.problems];
  return result.ok ? success(result.value, problems) : failure(problems);
}
