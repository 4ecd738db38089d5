/**
 * The whole logbook as one file.
 *
 * Shape: gzip (RFC 1952) of UTF-8 lines of JSON. The first line is
 * `{ "kind": "windrow-logbook", "version": 1, "records": n }`, each of the n others one record; a
 * log's bytes stand in it as base64 of their gzip. The same logbook gives the same text every time.
 * Reading it back: import-logbook.ts.
 */

import { failure, problem, success, type Problem, type Result } from '../result.ts';
import { toBase64 } from './base64.ts';
import { ENTRY_KINDS, type Entry, type LogId, type LogRecord } from './entry.ts';
import { logBytes, packGzip } from './log-bytes.ts';
import type { LogbookStore } from './logbook-store.ts';
import { LOGBOOK_SEQUENCE } from './migrations.ts';

/** What the first line says of the file's kind. */
export const LOGBOOK_FILE_KIND = 'windrow-logbook';

/** Bounds of a logbook file. What would pass them is not written, because it could not be read. */
export const LOGBOOK_LIMITS = {
  packedBytes: 512 * 2 ** 20,
  unpackedBytes: 2 ** 30,
  records: 200_000,
  /** Text packs to between a fifth and a thirtieth, packed logs hardly at all. */
  ratio: 200,
  /** The ratio is only judged beyond this size: small repetitive logbooks are harmless. */
  ratioFromBytes: 16 * 2 ** 20,
} as const;

/** What a damaged record gives; any other failure is one of the place of storage, and ends an export. */
const DAMAGE = ['logbook-kind', 'logbook-field', 'logbook-bytes'];

/**
 * Writes every record into one file. The bytes of every log are proved first: one log that is not what
 * its digest promises would make the whole file unreadable.
 *
 * Fails: where the store does, and `logbook-file-large` beyond the limits. A damaged record cannot be
 * written: the file holds all the others, and an error among the problems names it.
 */
export async function exportLogbook(store: LogbookStore): Promise<Result<Uint8Array<ArrayBuffer>>> {
  const problems: Problem[] = [];
  const lines: string[] = [];
  let characters = 0;
  for (const kind of ENTRY_KINDS) {
    const listing = await store.list(kind);
    problems.push(...listing.problems);
    if (!listing.ok) return failure(problems);
    for (const each of listing.value) {
      const entry = each.kind === 'log' ? await provenLog(store, each.id) : success(each);
      problems.push(...entry.problems);
      if (!entry.ok && entry.problems.some(({ code }) => !DAMAGE.includes(code))) return entry;
      // One that another tab has just removed is left out.
      if (!entry.ok || !entry.value) continue;
      const line = recordLine(entry.value);
      characters += line.length;
      lines.push(line);
      const tooLarge = whyTooLarge(LOGBOOK_LIMITS.packedBytes, characters, lines.length);
      if (tooLarge) return failure([tooLarge]);
    }
  }
  const header = { kind: LOGBOOK_FILE_KIND, version: LOGBOOK_SEQUENCE.version };
  const first = `${JSON.stringify({ ...header, records: lines.length })}\n`;
  const text = new Blob([first, ...lines]);
  const packed = await packGzip(text);
  const tooLarge = whyTooLarge(packed.length, text.size, lines.length);
  return tooLarge ? failure([tooLarge]) : success(packed, problems);
}

async function provenLog(store: LogbookStore, id: LogId): Promise<Result<LogRecord | null>> {
  const log = await store.get('log', id);
  if (!log.ok || !log.value) return log;
  const bytes = await logBytes(log.value);
  return bytes.ok ? log : bytes;
}

function recordLine(entry: Entry): string {
  const plain = entry.kind === 'log' ? { ...entry, gzip: toBase64(entry.gzip) } : entry;
  return `${JSON.stringify(plain)}\n`;
}

/** Why a file of these sizes would not be read back, or null. */
export function whyTooLarge(
  packedBytes: number,
  unpackedBytes: number,
  records: number,
): Problem | null {
  const limits = LOGBOOK_LIMITS;
  const refuse = (found: string, expected: string) =>
    problem('logbook-file-large', 'error', 'file', `found ${found}, expected at most ${expected}`);
  if (packedBytes > limits.packedBytes) {
    return refuse(`a logbook file of ${packedBytes} bytes`, `${limits.packedBytes} bytes`);
  }
  if (unpackedBytes > limits.unpackedBytes) {
    return refuse(`over ${limits.unpackedBytes} bytes when unpacked`, 'that many');
  }
  if (records > limits.records) return refuse(`${records} records`, `${limits.records} records`);
  const judged = unpackedBytes > limits.ratioFromBytes;
  if (judged && unpackedBytes > limits.ratio * packedBytes) {
    return refuse(`text of over ${limits.ratio} times the packed size`, 'that many times');
  }
  return null;
}
