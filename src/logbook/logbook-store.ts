/**
 * How are records read, written, deleted and put back, wherever they lie?
 *
 * The interface that the page and the command line work with, and the one store that keeps its
 * rules over any disk: checks before writing, all or nothing, notices after, deletions that can be
 * put back. A disk only reads and commits. Rules: docs/spec/logbook.md.
 */

import { failure, problem, success, type Problem, type Result } from '../result.ts';
import type { ChangedKey, Notices, NoticeListener } from './change-notices.ts';
import { decodeEntry, decodeListed } from './decode-logbook.ts';
import {
  listed,
  nameOf,
  type Entry,
  type EntryId,
  type EntryKey,
  type EntryKind,
  type EntryOf,
  type Listed,
  type ListedOf,
} from './entry.ts';
import { canonicalText } from './plain-json.ts';

/**
 * One change of a transaction. With `ifStill` the record is only put where the stored one still says
 * what that one said (null: where there is none), so that two tabs do not overwrite each other unseen.
 * With `before` it says that when what this write removes is put back, so: the record as it was.
 */
export type Change =
  | { readonly put: Entry; readonly ifStill?: Listed | null; readonly before?: Entry }
  | { readonly remove: EntryKey };

/** What a transaction did. `deletion` is the number to put back what it removed; null: nothing was. */
export interface Written {
  readonly changed: readonly ChangedKey[];
  readonly deletion: number | null;
}

/** Records removed together, recoverable until the session ends. */
export interface Deletion {
  readonly number: number;
  readonly keys: readonly EntryKey[];
}

/** A logbook. Results fail where the place of storage fails; a wrong record is named with its field. */
export interface LogbookStore {
  /** The record, whole; null where there is none. Fails where the stored record is damaged. */
  get<K extends EntryKind>(kind: K, id: EntryId<K>): Promise<Result<EntryOf<K> | null>>;
  /**
   * All records of a kind in the order of their ids, logs without their bytes. A damaged record is
   * left out with a problem that names it; it stays where it is.
   */
  list<K extends EntryKind>(kind: K): Promise<Result<readonly ListedOf<K>[]>>;
  /** All changes or none. Removing what is not there is no failure. */
  write(changes: readonly Change[]): Promise<Result<Written>>;
  /** What was deleted in this session and not yet put back, oldest first. */
  deletions(): readonly Deletion[];
  /**
   * Puts back whole what one transaction removed, and what it changed with a `before` where that was
   * not changed again. Fails where one of the ids is in use again.
   */
  putBack(deletion: number): Promise<Result<Written>>;
  /** Calls `listener` once after each transaction, of this store or of another tab's. */
  subscribe(listener: NoticeListener): () => void;
  /** Ends the session: what was deleted is gone, and every later call fails. */
  close(): void;
}

/** Writes a record, over what may be there. */
export function put(entry: Entry): Change {
  return { put: entry };
}

/** Writes a record only where the stored one is still `known`, as it was read; null: only a new one. */
export function putIf(entry: Entry, known: Listed | null): Change {
  return { put: entry, ifStill: known && listed(known) };
}

/** Writes a record in place of `before`, which comes back with what the same write removes. */
export function putUntilBack(entry: Entry, before: Entry): Change {
  return { put: entry, before };
}

/** Removes a record. */
export function remove({ kind, id }: EntryKey): Change {
  return { remove: { kind, id } };
}

/**
 * True where what a disk holds, without `gzip`, is still what the writer knew. The whole content
 * counts and not its time: two tabs can write within one second. A damaged record is known to nobody.
 */
export function isStill(stored: unknown, known: Listed | null): boolean {
  if (stored === undefined || known === null) return stored === undefined && known === null;
  const there = decodeListed(stored);
  return there.ok && canonicalText(there.value) === canonicalText(known);
}

/** What a disk made of a commit: the removed records as they lay there, or what stood in the way. */
export type Committed =
  | { readonly ok: true; readonly removed: readonly unknown[] }
  | { readonly ok: false; readonly clash: EntryKey };

/** A place where records lie. Its methods reject with a DiskFault where the place fails. */
export interface Disk {
  /** The record, or undefined. */
  read(key: EntryKey): Promise<unknown>;
  /** All records of a kind by id in code units, logs without `gzip`. */
  readAll(kind: EntryKind): Promise<readonly unknown[]>;
  /** All changes or none; each key occurs once. */
  commit(changes: readonly Change[]): Promise<Committed>;
  close(): void;
}

/** The place of storage failed; `problem` says how, for people. */
export class DiskFault extends Error {
  readonly problem: Problem;
  constructor(code: string, message: string) {
    super(message);
    this.problem = problem(code, 'error', 'logbook', message);
  }
}

/** What one transaction removed, as it lay there, and what it changed until that is put back. */
interface Binned {
  readonly removed: readonly unknown[];
  readonly changed: readonly { readonly put: Entry; readonly before: Entry }[];
}

/** A store over a disk. Notices go out by `notices`. */
export function createStore(disk: Disk, notices: Notices): LogbookStore {
  const bin = new Map<number, Binned>();
  let lastDeletion = 0;
  let isOpen = true;

  const commit = async (changes: readonly Change[]): Promise<Result<Written>> => {
    const committed = await disk.commit(changes);
    if (!committed.ok) return failure([clash(committed.clash)]);
    const removed = committed.removed.map((raw) => keyOf(raw as EntryKey));
    const changed = [
      ...changes.flatMap((each): ChangedKey[] =>
        'put' in each ? [{ ...keyOf(each.put), what: 'put' }] : [],
      ),
      ...removed.map((key): ChangedKey => ({ ...key, what: 'removed' })),
    ];
    if (removed.length > 0) lastDeletion++;
    if (removed.length > 0 && isOpen) {
      const until = changes.flatMap((each) =>
        'put' in each && each.before ? [{ put: each.put, before: each.before }] : [],
      );
      bin.set(lastDeletion, { removed: committed.removed, changed: until });
    }
    if (changed.length > 0) notices.tell({ changed, from: 'here' });
    return success({ changed, deletion: removed.length > 0 ? lastDeletion : null });
  };

  const guarded = async <T>(work: () => Promise<Result<T>>): Promise<Result<T>> => {
    if (!isOpen) return failure([closed()]);
    try {
      return await work();
    } catch (error) {
      if (error instanceof DiskFault) return failure([error.problem]);
      throw error;
    }
  };

  /** What was changed until it is put back, as it was; not what was changed again, or removed. */
  const stillAsPut = async ({ changed }: Binned): Promise<Change[]> => {
    const back: Change[] = [];
    for (const { put: known, before } of changed) {
      if (isStill(await disk.read(known), listed(known))) back.push(putIf(before, known));
    }
    return back;
  };

  return {
    get: <K extends EntryKind>(kind: K, id: EntryId<K>) =>
      guarded(async () => {
        const raw = await disk.read({ kind, id });
        return raw === undefined ? success(null) : (decodeEntry(raw) as Result<EntryOf<K>>);
      }),

    list: <K extends EntryKind>(kind: K) =>
      guarded(async () => {
        const decoded = (await disk.readAll(kind)).map(decodeListed);
        const good = decoded.flatMap((each): Listed[] => (each.ok ? [each.value] : []));
        const problems = decoded.flatMap((each) => (each.ok ? [] : each.problems));
        return success(good as ListedOf<K>[], problems);
      }),

    write: (changes) =>
      guarded(async () => {
        refuseTwice(changes);
        const decoded = changes.map(checked);
        const problems = decoded.flatMap((each) => (each.ok ? [] : each.problems));
        if (problems.length > 0) return failure(problems);
        return commit(decoded.flatMap((each) => (each.ok ? [each.value] : [])));
      }),

    deletions: () =>
      [...bin].map(([number, { removed }]) => ({
        number,
        keys: removed.map((each) => keyOf(each as EntryKey)),
      })),

    putBack: (number) =>
      guarded(async () => {
        const binned = bin.get(number);
        if (!binned) return failure([goneForGood(number)]);
        const back = await commit([
          ...binned.removed.map((raw) => putIf(raw as Entry, null)),
          ...(await stillAsPut(binned)),
        ]);
        if (back.ok) bin.delete(number);
        return back;
      }),

    subscribe: (listener) => notices.subscribe(listener),

    close: () => {
      isOpen = false;
      bin.clear();
      disk.close();
    },
  };
}

function checked(change: Change): Result<Change> {
  if ('remove' in change) return success(change);
  const entry = decodeEntry(change.put);
  if (!entry.ok) return entry;
  const before = change.before && decodeEntry(change.before);
  if (before && !before.ok) return before;
  // Copies: the caller's hand stays out of what a disk has yet to write.
  const copy = { ...change, put: structuredClone(entry.value) };
  return success(before ? { ...copy, before: structuredClone(before.value) } : copy);
}

function keyOf({ kind, id }: EntryKey): EntryKey {
  return { kind, id };
}

/** Two changes of one record in one transaction have no meaning of their own. */
function refuseTwice(changes: readonly Change[]): void {
  const seen = new Set<string>();
  for (const change of changes) {
    const { kind, id } = 'put' in change ? change.put : change.remove;
    const key = `${kind} ${id}`;
    if (seen.has(key)) throw new Error(`${nameOf({ kind, id })} is changed twice in one write`);
    seen.add(key);
  }
}

function clash(key: EntryKey): Problem {
  const message =
    'found a record that was written in the meantime, or a damaged one in its place; expected it as it was last read. Nothing was changed';
  return problem('logbook-clash', 'error', nameOf(key), message);
}

function closed(): Problem {
  const message = 'found the logbook closed, expected it open; open the page again';
  return problem('logbook-closed', 'error', 'logbook', message);
}

function goneForGood(number: number): Problem {
  const message = `found no deletion ${number} of this session, expected one that was not yet put back`;
  return problem('logbook-no-deletion', 'error', 'logbook', message);
}
