/**
 * The logbook in the browser's own database: the same store over IndexedDB.
 *
 * Two object stores: `entries`, every record by [kind, id], and `bytes`, the packed bytes of a log by
 * its id, so that listing logs does not read their files. The database's version is that of the
 * records' migrations. What another tab writes is told by a BroadcastChannel.
 *
 * Source: W3C Indexed Database API 3.0 (upgrade, versionchange and blocked events, error names), from
 * memory.
 */

import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { createNotices, type ChangedKey } from '../logbook/change-notices.ts';
import { nameOf, type EntryKind, type LogRecord } from '../logbook/entry.ts';
import {
  createStore,
  DiskFault,
  isStill,
  type Change,
  type Committed,
  type Disk,
  type LogbookStore,
} from '../logbook/logbook-store.ts';
import {
  bringUpToDate,
  LOGBOOK_SEQUENCE,
  type MigrationSequence,
  type RawRecord,
} from '../logbook/migrations.ts';
import { failure, success, type Problem, type Result } from '../result.ts';
import { diskFault, openFault } from './storage-faults.ts';

/** A record as it lies on disk; a log's bytes lie apart. */
type Stored = RawRecord & { readonly kind: EntryKind; readonly id: string };

interface LogbookSchema extends DBSchema {
  entries: { key: [string, string]; value: Stored };
  bytes: { key: string; value: Uint8Array<ArrayBuffer> };
}

type Database = IDBPDatabase<LogbookSchema>;
type Stores = ('entries' | 'bytes')[];
type Upgrade = IDBPTransaction<LogbookSchema, Stores, 'versionchange'>;

/** How the page opens its logbook. */
export interface OpenOptions {
  /** Name of the database. */
  readonly name?: string;
  readonly sequence?: MigrationSequence;
  /** An older tab still holds the logbook and delays the upgrade: ask the pilot to close it. */
  readonly onBlocked?: () => void;
  /** The logbook was closed from outside: a newer Windrow needs it, or the browser lost it. */
  readonly onClosed?: (reason: 'newer-version' | 'lost') => void;
}

const BOTH: Stores = ['entries', 'bytes'];

/**
 * Opens the logbook, bringing its records up to date where an older Windrow wrote them.
 *
 * Fails: `logbook-too-new` where a newer Windrow wrote it; a migration's problem, with the database left
 * as it was; `logbook-no-storage` where the browser allows no storage; `logbook-full` and
 * `logbook-storage` where opening failed otherwise.
 */
export async function openIndexedDbStore(options: OpenOptions = {}): Promise<Result<LogbookStore>> {
  const { name = 'windrow-logbook', sequence = LOGBOOK_SEQUENCE } = options;
  const notices = createNotices();
  const wrong: Problem[] = [];
  let database: Database;
  let channel: BroadcastChannel | null = null;
  const closed = (reason: 'newer-version' | 'lost') => {
    channel?.close();
    channel = null;
    options.onClosed?.(reason);
  };
  try {
    database = await openDB<LogbookSchema>(name, sequence.version, {
      upgrade: (db, oldVersion, _newVersion, transaction) => {
        if (oldVersion === 0) {
          db.createObjectStore('entries', { keyPath: ['kind', 'id'] });
          db.createObjectStore('bytes');
          return;
        }
        // An aborted upgrade leaves the database as it was, and makes opening fail: enough said there.
        transaction.done.catch(() => undefined);
        const refuse = (found: readonly Problem[]) => {
          wrong.push(...found);
          if (found.length > 0) abortQuietly(transaction);
        };
        migrate(transaction, oldVersion, sequence).then(refuse, (error: unknown) =>
          refuse([openFault(error, sequence.version)]),
        );
      },
      blocked: () => options.onBlocked?.(),
      blocking: (_current, _blocked, event) => {
        // Holding on to the old version would keep the other tab waiting for ever.
        (event.target as IDBDatabase).close();
        closed('newer-version');
      },
      terminated: () => closed('lost'),
    });
  } catch (error) {
    return failure(wrong.length > 0 ? wrong : [openFault(error, sequence.version)]);
  }
  if (typeof BroadcastChannel !== 'undefined') {
    channel = new BroadcastChannel(name);
    channel.onmessage = ({ data }: MessageEvent<unknown>) => {
      if (isChanged(data)) notices.tell({ changed: data, from: 'elsewhere' });
    };
    notices.subscribe(({ changed, from }) => {
      if (from === 'here') channel?.postMessage(changed);
    });
  }
  const disk = createIndexedDbDisk(database, () => {
    channel?.close();
    channel = null;
  });
  return success(createStore(disk, notices));
}

/** Every record of the old version, brought up to date one by one; problems instead where one cannot be. */
async function migrate(
  transaction: Upgrade,
  oldVersion: number,
  sequence: MigrationSequence,
): Promise<Problem[]> {
  const entries = transaction.objectStore('entries');
  const bytes = transaction.objectStore('bytes');
  for (const key of await entries.getAllKeys()) {
    const [kind, id] = key;
    const old = await entries.get(key);
    if (!old) continue;
    const gzip = kind === 'log' ? await bytes.get(id) : undefined;
    const changed = bringUpToDate(gzip ? { ...old, gzip } : old, oldVersion, sequence);
    if (!changed.ok) {
      const name = nameOf({ kind, id });
      return changed.problems.map((each) => ({ ...each, where: `${name}: ${each.where}` }));
    }
    await entries.delete(key);
    // The result of a log has the log's id: only the log's own bytes go with it.
    if (kind === 'log') await bytes.delete(id);
    await putStored(entries, bytes, changed.value as Stored);
  }
  return [];
}

interface Puts<K, V> {
  put(value: V, key?: K): Promise<unknown>;
}

/** A record on disk: a log's bytes apart from the rest. */
async function putStored(
  entries: Puts<[string, string], Stored>,
  bytes: Puts<string, Uint8Array<ArrayBuffer>>,
  record: Stored,
): Promise<void> {
  if (record.kind !== 'log') {
    await entries.put(record);
    return;
  }
  const { gzip, ...summary } = record as unknown as LogRecord;
  await Promise.all([entries.put(summary as unknown as Stored), bytes.put(gzip, summary.id)]);
}

function createIndexedDbDisk(database: Database, onClose: () => void): Disk {
  return {
    read: ({ kind, id }) =>
      withFaults(async () => {
        const transaction = database.transaction(BOTH);
        const [record, gzip] = await Promise.all([
          transaction.objectStore('entries').get([kind, id]),
          kind === 'log' ? transaction.objectStore('bytes').get(id) : undefined,
        ]);
        return record && gzip ? { ...record, gzip } : record;
      }),

    // An empty list sorts behind every text: the range holds all ids of the kind.
    readAll: (kind) =>
      withFaults(() => database.getAll('entries', IDBKeyRange.bound([kind], [kind, []]))),

    commit: (changes) => withFaults(() => commit(database, changes)),

    close: () => {
      onClose();
      database.close();
    },
  };
}

async function commit(database: Database, changes: readonly Change[]): Promise<Committed> {
  // Strict: a landing that was said to be kept is on the disk, not in a cache.
  const transaction = database.transaction(BOTH, 'readwrite', { durability: 'strict' });
  // Whatever fails below also ends the transaction; its own rejection would be nobody's.
  const done = transaction.done;
  done.catch(() => undefined);
  const entries = transaction.objectStore('entries');
  const bytes = transaction.objectStore('bytes');
  try {
    const removed: unknown[] = [];
    for (const change of changes) {
      const key = 'put' in change ? change.put : change.remove;
      if ('put' in change) {
        if (change.ifStill !== undefined) {
          const there = await entries.get([key.kind, key.id]);
          if (!isStill(there, change.ifStill)) {
            transaction.abort();
            return { ok: false, clash: { kind: key.kind, id: key.id } };
          }
        }
        await putStored(entries, bytes, change.put as unknown as Stored);
        continue;
      }
      const before = await entries.get([key.kind, key.id]);
      if (!before) continue;
      const gzip = key.kind === 'log' ? await bytes.get(key.id) : undefined;
      removed.push(gzip ? { ...before, gzip } : before);
      await entries.delete([key.kind, key.id]);
      if (key.kind === 'log') await bytes.delete(key.id);
    }
    await done;
    return { ok: true, removed };
  } catch (error) {
    abortQuietly(transaction);
    throw await causeOf(error, done);
  }
}

/** A request that ends with its transaction only says so; why, the transaction knows. */
async function causeOf(error: unknown, done: Promise<void>): Promise<unknown> {
  const isAborted = error instanceof DOMException && error.name === 'AbortError';
  return isAborted ? await done.catch((cause: unknown) => cause) : error;
}

function abortQuietly(transaction: { abort(): void }): void {
  try {
    transaction.abort();
  } catch {
    // It has ended by itself already.
  }
}

async function withFaults<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw error instanceof DiskFault ? error : diskFault(error);
  }
}

/** Messages come from the same origin, but perhaps from another version of the page. */
function isChanged(data: unknown): data is ChangedKey[] {
  return (
    Array.isArray(data) &&
    data.every(
      (each: Partial<ChangedKey> | null) =>
        typeof each?.kind === 'string' &&
        typeof each.id === 'string' &&
        (each.what === 'put' || each.what === 'removed'),
    )
  );
}
