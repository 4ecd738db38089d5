/**
 * A store with records in it, and everything that is in a store.
 */

import { ENTRY_KINDS, type Entry } from '../../src/logbook/entry.ts';
import { put, type LogbookStore } from '../../src/logbook/logbook-store.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import { valueOf } from './invented-entries.ts';

/** A logbook in memory that holds these records. */
export async function storeOf(entries: readonly Entry[]): Promise<LogbookStore> {
  const store = createMemoryStore();
  valueOf(await store.write(entries.map(put)));
  return store;
}

/** Everything in a store by kind and id, logs with their bytes. */
export async function everything(store: LogbookStore): Promise<Entry[]> {
  const all: Entry[] = [];
  for (const kind of ENTRY_KINDS) {
    for (const { id } of valueOf(await store.list(kind))) {
      const entry = valueOf(await store.get(kind, id as never));
      if (entry) all.push(entry);
    }
  }
  return all;
}
