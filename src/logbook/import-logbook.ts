/**
 * A logbook file comes in: what is new, what was known, and what differs?
 *
 * In: bytes of a logbook file (export.ts says its shape) and a store. Out: the store with everything
 * of both, and a report. The whole file is read and checked before the first record is written, and
 * all is written in one transaction: a bad file changes nothing.
 */

import { success, type Problem, type Result } from '../result.ts';
import { ENTRY_KINDS, type Entry, type EntryKey, type Listed } from './entry.ts';
import { putIf, type Change, type LogbookStore } from './logbook-store.ts';
import { meet, type Conflict } from './merge.ts';
import { readLogbookFile } from './read-logbook-file.ts';

/** What an import did. */
export interface ImportReport {
  readonly added: readonly EntryKey[];
  /** Records that the logbook had, as it had them. */
  readonly unchanged: readonly EntryKey[];
  /** Records that the logbook had, and to which the file brought something. */
  readonly completed: readonly EntryKey[];
  /** Of what differed, what was not taken. */
  readonly conflicts: readonly Conflict[];
}

/** Another tab may write between reading and writing; then everything is compared anew. */
const ATTEMPTS = 3;

/**
 * Takes in a logbook file without loss or duplicates.
 *
 * Fails: the file is no logbook, damaged, cut off, too large, of a newer version, or holds a record that
 * is not usable; each problem names the line, the record and the field. Or the store fails. In every
 * case nothing was changed.
 */
export async function importLogbook(
  bytes: Uint8Array<ArrayBuffer>,
  store: LogbookStore,
): Promise<Result<ImportReport>> {
  const file = await readLogbookFile(bytes);
  if (!file.ok) return file;
  for (let attempt = 1; ; attempt++) {
    const merged = await mergeOnce(file.value, store);
    const again = !merged.ok && merged.problems.some(({ code }) => code === 'logbook-clash');
    if (!again || attempt === ATTEMPTS) return merged;
  }
}

async function mergeOnce(
  entries: readonly Entry[],
  store: LogbookStore,
): Promise<Result<ImportReport>> {
  const there = new Map<string, Listed>();
  const problems: Problem[] = [];
  for (const kind of ENTRY_KINDS) {
    const listing = await store.list(kind);
    if (!listing.ok) return listing;
    problems.push(...listing.problems.map(asWarning));
    for (const record of listing.value) there.set(`${kind} ${record.id}`, record);
  }
  const changes: Change[] = [];
  const keys = {
    added: [] as EntryKey[],
    unchanged: [] as EntryKey[],
    completed: [] as EntryKey[],
  };
  const conflicts: Conflict[] = [];
  for (const entry of entries) {
    const known = there.get(`${entry.kind} ${entry.id}`) ?? null;
    const meeting = meet(known, entry);
    if (meeting.write) changes.push(putIf(meeting.write, known));
    keys[meeting.outcome].push({ kind: entry.kind, id: entry.id });
    conflicts.push(...meeting.conflicts);
  }
  const written = await store.write(changes);
  if (!written.ok) return written;
  return success({ ...keys, conflicts }, problems);
}

/** A record of the logbook that is damaged is no fault of the file. */
function asWarning(found: Problem): Problem {
  return { ...found, severity: 'warning' };
}
