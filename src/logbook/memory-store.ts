/**
 * A logbook in memory: the reference for every other, and the one for tests and for browsers
 * without storage.
 */

import { createNotices } from './change-notices.ts';
import { ENTRY_KINDS, listed, type Entry, type EntryKey, type EntryKind } from './entry.ts';
import {
  createStore,
  isStill,
  type Change,
  type Disk,
  type LogbookStore,
} from './logbook-store.ts';

/** An empty logbook in memory. Its records are gone with it. */
export function createMemoryStore(): LogbookStore {
  return createStore(createMemoryDisk(), createNotices());
}

const summaryOf = (entry: Entry | undefined) => entry && listed(entry);

function createMemoryDisk(): Disk {
  const tables = new Map<EntryKind, Map<string, Entry>>(
    ENTRY_KINDS.map((kind) => [kind, new Map<string, Entry>()]),
  );
  const table = (kind: EntryKind) => tables.get(kind) ?? new Map<string, Entry>();
  const isAsKnown = (change: Change) =>
    !('put' in change) ||
    change.ifStill === undefined ||
    isStill(summaryOf(table(change.put.kind).get(change.put.id)), change.ifStill);

  // Copies on the way out; the store hands in copies already.
  return {
    read: ({ kind, id }: EntryKey) => Promise.resolve(structuredClone(table(kind).get(id))),

    readAll: (kind) => {
      const byId = [...table(kind).values()].sort((a, b) => (a.id < b.id ? -1 : 1));
      return Promise.resolve(byId.map((entry) => structuredClone(listed(entry))));
    },

    commit: (changes) => {
      const clash = changes.find((change) => !isAsKnown(change));
      if (clash && 'put' in clash) {
        return Promise.resolve({ ok: false, clash: { kind: clash.put.kind, id: clash.put.id } });
      }
      const removed: Entry[] = [];
      for (const change of changes) {
        if ('put' in change) {
          table(change.put.kind).set(change.put.id, change.put);
          continue;
        }
        const { kind, id } = change.remove;
        const before = table(kind).get(id);
        if (before) removed.push(before);
        table(kind).delete(id);
      }
      return Promise.resolve({ ok: true, removed });
    },

    close: () => {
      for (const each of tables.values()) each.clear();
    },
  };
}
