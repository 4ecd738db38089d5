/**
 * Which records does a logbook file hold, and is every one of them usable?
 *
 * In: bytes from anywhere. Out: all records of today's version, each log's bytes proved by their
 * digest; or every reason why not. Unpacked piece by piece within limits, so that no file exhausts
 * the page.
 */

import { failure, problem, success, type Problem, type Result } from '../result.ts';
import { fromBase64 } from './base64.ts';
import { decodeEntry } from './decode-logbook.ts';
import { nameOf, type Entry } from './entry.ts';
import { LOGBOOK_FILE_KIND, LOGBOOK_LIMITS, whyTooLarge } from './export.ts';
import { logBytes, TooMuchUnpacked, unpackedPieces } from './log-bytes.ts';
import { bringUpToDate, checkVersion, type RawRecord } from './migrations.ts';

/** More problems than anybody reads. */
const MOST_PROBLEMS = 20;

/**
 * Reads a logbook file.
 *
 * Fails: `logbook-file-kind` where it is no logbook file; `logbook-file-damaged` where it is cut off or
 * broken; `logbook-file-large` beyond the limits; `logbook-too-new` and the other failures of a
 * version; and what is wrong with a record, `where` beginning with its line.
 */
export async function readLogbookFile(bytes: Uint8Array<ArrayBuffer>): Promise<Result<Entry[]>> {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) {
    const message = `found a file of ${bytes.length} bytes that is not gzip, expected a logbook written by Windrow`;
    return refuse('logbook-file-kind', 'file', message);
  }
  const tooLarge = whyTooLarge(bytes.length, 0, 0);
  if (tooLarge) return failure([tooLarge]);
  const reading = new Reading();
  try {
    for await (const line of lines(bytes)) {
      reading.take(line);
      if (reading.isHopeless()) break;
    }
  } catch (error) {
    return failure([whyUnread(error, bytes.length)]);
  }
  const entries = reading.finish();
  return entries.ok ? proveLogs(entries.value) : entries;
}

/** The lines of the unpacked file; throws where the gzip or the UTF-8 is broken, or beyond the limits. */
async function* lines(bytes: Uint8Array<ArrayBuffer>): AsyncGenerator<string> {
  const { unpackedBytes, ratio, ratioFromBytes } = LOGBOOK_LIMITS;
  const most = Math.min(unpackedBytes, Math.max(ratioFromBytes, ratio * bytes.length));
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let begun: string[] = [];
  for await (const piece of unpackedPieces(bytes, most)) {
    const parts = decoder.decode(piece, { stream: true }).split('\n');
    for (const part of parts.slice(0, -1)) {
      yield [...begun, part].join('');
      begun = [];
    }
    begun.push(parts[parts.length - 1]);
  }
  const last = [...begun, decoder.decode()].join('');
  if (last !== '') yield last;
}

function whyUnread(error: unknown, packedBytes: number): Problem {
  if (error instanceof TooMuchUnpacked) {
    const large = whyTooLarge(packedBytes, error.mostBytes + 1, 0);
    if (large) return large;
  }
  const words = error instanceof Error ? error.message : String(error);
  const message = `found a file that is damaged or cut off (${words}), expected a whole logbook; nothing was taken in`;
  return problem('logbook-file-damaged', 'error', 'file', message);
}

/** Reads line after line: the first says what the file is, each other is a record. */
class Reading {
  private line = 0;
  private version = 0;
  private expected = 0;
  private readonly entries = new Map<string, Entry>();
  private readonly problems: Problem[] = [];
  private isOther = false;

  take(text: string): void {
    this.line++;
    const parsed = parseObject(text);
    if (this.line === 1) this.takeHeader(parsed);
    else if (parsed) this.takeRecord(parsed);
    else this.wrong('logbook-file-damaged', 'found text that is no JSON object, expected a record');
  }

  /** Nothing further would change the answer, or nobody would read it. */
  isHopeless(): boolean {
    const tooMany = this.line - 1 > Math.min(this.expected, LOGBOOK_LIMITS.records);
    return this.isOther || tooMany || this.problems.length >= MOST_PROBLEMS;
  }

  finish(): Result<Entry[]> {
    const found = this.line - 1;
    if (this.line === 0) this.takeHeader(null);
    else if (this.problems.length === 0 && found !== this.expected) {
      const more = found > this.expected ? 'more than ' : '';
      const records = found > this.expected ? this.expected : found;
      this.wrong(
        'logbook-file-damaged',
        `found ${more}${records} records, expected ${this.expected}`,
      );
    }
    return this.problems.length > 0 ? failure(this.problems) : success([...this.entries.values()]);
  }

  private takeHeader(header: RawRecord | null): void {
    if (header?.kind !== LOGBOOK_FILE_KIND) {
      this.isOther = true;
      const message = `found a gzip file of another kind, expected the first line to say "${LOGBOOK_FILE_KIND}"`;
      this.problems.push(problem('logbook-file-kind', 'error', 'file', message));
      return;
    }
    const version = checkVersion(header.version);
    const { records } = header;
    if (!version.ok) {
      this.isOther = true;
      this.problems.push(...version.problems);
    } else if (typeof records !== 'number' || !Number.isInteger(records) || records < 0) {
      this.isOther = true;
      this.wrong('logbook-file-damaged', 'found no number of records, expected one');
    } else {
      const tooMany = whyTooLarge(0, 0, records);
      if (tooMany) this.problems.push(tooMany);
      this.isOther = tooMany !== null;
      this.version = version.value;
      this.expected = records;
    }
  }

  private takeRecord(raw: RawRecord): void {
    const current = bringUpToDate(withBytes(raw), this.version);
    const decoded = current.ok ? decodeEntry(current.value) : current;
    if (!decoded.ok) {
      for (const each of decoded.problems) this.wrong(each.code, each.message, each.where);
      return;
    }
    const entry = decoded.value;
    const key = `${entry.kind} ${entry.id}`;
    if (this.entries.has(key)) {
      this.wrong('logbook-file-damaged', 'found this record twice, expected once', nameOf(entry));
    }
    this.entries.set(key, entry);
  }

  private wrong(code: string, message: string, what = ''): void {
    const where = what === '' ? `line ${this.line}` : `line ${this.line}, ${what}`;
    this.problems.push(problem(code, 'error', where, message));
  }
}

function parseObject(text: string): RawRecord | null {
  try {
    const parsed: unknown = JSON.parse(text);
    const isObject = typeof parsed === 'object' && parsed !== null && !Array.isArray(parsed);
    return isObject ? (parsed as RawRecord) : null;
  } catch {
    return null;
  }
}

/** A log's bytes as bytes; text that is no base64 stays text, which the check of the record refuses. */
function withBytes(raw: RawRecord): RawRecord {
  if (raw.kind !== 'log' || typeof raw.gzip !== 'string') return raw;
  return { ...raw, gzip: fromBase64(raw.gzip) ?? raw.gzip };
}

/** A log whose bytes are not those its digest promises is not taken in. */
async function proveLogs(entries: Entry[]): Promise<Result<Entry[]>> {
  const problems: Problem[] = [];
  for (const entry of entries) {
    if (entry.kind !== 'log' || problems.length >= MOST_PROBLEMS) continue;
    problems.push(...(await logBytes(entry)).problems);
  }
  return problems.length > 0 ? failure(problems) : success(entries);
}

function refuse(code: string, where: string, message: string): Result<never> {
  return failure([problem(code, 'error', where, message)]);
}
