/**
 * The demonstration as records: loaded with one action, removed with one action, brought back.
 *
 * In: texts and bytes of the demonstration's files, fetched by the caller. Out: records marked
 * `demo`, with the same ids every time, so that loading twice makes nothing twice.
 */

import { success, type Problem, type Result } from '../result.ts';
import { conditionsFor, decodeConditions } from '../weather/decode-conditions.ts';
import { stampEntered } from './entered-fields.ts';
import { ENTRY_KINDS, entryId, type Entry, type EntryKey, type Listed } from './entry.ts';
import { putIf, remove, type LogbookStore } from './logbook-store.ts';
import { makeAeroplane, makeLog, makeStrips, makeVisit, type Making } from './make-entry.ts';

/** Another tab may load it at the same time; then it is looked again what is there. */
const ATTEMPTS = 3;

/** The demonstration's files. */
export interface DemoFiles {
  /** Text of the strips file. */
  readonly strips: string;
  /** Texts of the aeroplane documents. */
  readonly aeroplanes: readonly string[];
  /** Text of the conditions document, by file name. */
  readonly conditions: string;
  readonly flights: readonly {
    readonly fileName: string;
    readonly bytes: Uint8Array<ArrayBuffer>;
  }[];
}

/**
 * The records of the demonstration: every strip feature, every aeroplane, each flight's log and what
 * was noted about it.
 *
 * Fails: as the readers of the files do, with all their problems; no half demonstration.
 */
export async function demoRecords(files: DemoFiles, nowS: number): Promise<Result<Entry[]>> {
  const making: Making = { nowS, demo: true };
  const strips = await makeStrips(files.strips, making);
  const conditions = decodeConditions(files.conditions);
  const records: Entry[] = [];
  const problems: Problem[] = [];
  const take = (read: Result<readonly Entry[]>) => {
    problems.push(...read.problems);
    if (read.ok) records.push(...read.value);
  };
  take(strips);
  for (const text of files.aeroplanes) take(asList(makeAeroplane(text, making)));
  problems.push(...conditions.problems);
  for (const { fileName, bytes } of files.flights) {
    const log = await makeLog(fileName, bytes, making);
    take(asList(log));
    if (!log.ok || !conditions.ok) continue;
    const noted = conditionsFor(conditions.value, log.value.fileName);
    const id = entryId('visit', `demo-${log.value.sha256.slice(0, 32)}`);
    const visit = makeVisit(id, log.value, making);
    const aeroplaneId = noted?.aeroplane ? entryId('aeroplane', noted.aeroplane) : null;
    records.push(stampEntered({ ...visit, conditions: noted, aeroplaneId }, null, making.nowS));
  }
  const failed = problems.some(({ severity }) => severity === 'error');
  return failed ? { ok: false, problems } : success(records, problems);
}

/**
 * Writes the demonstration in one transaction. A record that is there already stays as it is: it may
 * be the pilot's own, or one that the pilot has changed.
 *
 * Out: the keys that were added. Fails: where the store does; then nothing was changed.
 */
export async function loadDemo(
  store: LogbookStore,
  records: readonly Entry[],
): Promise<Result<readonly EntryKey[]>> {
  for (let attempt = 1; ; attempt++) {
    const there = await listAll(store);
    if (!there.ok) return there;
    const taken = new Set(there.value.map(({ kind, id }) => `${kind} ${id}`));
    const added = records.filter(({ kind, id }) => !taken.has(`${kind} ${id}`));
    const written = await store.write(added.map((record) => putIf(record, null)));
    if (written.ok) return success(added.map(({ kind, id }) => ({ kind, id })));
    const clashes = written.problems.some(({ code }) => code === 'logbook-clash');
    if (!clashes || attempt === ATTEMPTS) return written;
  }
}

/**
 * Removes everything of the demonstration in one transaction: what is marked, and what was entered or
 * measured about a demonstration flight.
 *
 * Out: the number with which `putBack` brings it all back; null: there was nothing. Fails: where the
 * store does; then nothing was changed.
 */
export async function removeDemo(store: LogbookStore): Promise<Result<number | null>> {
  const there = await listAll(store);
  if (!there.ok) return there;
  const logs = new Set<string>(
    there.value.filter(({ kind, demo }) => kind === 'log' && demo).map(({ id }) => id),
  );
  const isOfDemo = (record: Listed) =>
    record.demo || ('logId' in record && record.logId !== null && logs.has(record.logId));
  const written = await store.write(there.value.filter(isOfDemo).map(remove));
  return written.ok ? success(written.value.deletion) : written;
}

async function listAll(store: LogbookStore): Promise<Result<readonly Listed[]>> {
  const all: Listed[] = [];
  const problems: Problem[] = [];
  for (const kind of ENTRY_KINDS) {
    const listing = await store.list(kind);
    if (!listing.ok) return listing;
    all.push(...listing.value);
    problems.push(...listing.problems);
  }
  return success(all, problems);
}

function asList<T>(read: Result<T>): Result<readonly T[]> {
  return read.ok ? success([read.value], read.problems) : read;
}
