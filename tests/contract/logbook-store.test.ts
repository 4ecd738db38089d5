/**
 * One suite for every logbook store. Rules: docs/spec/logbook.md.
 */

import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openIndexedDbStore } from '../../src/app/indexeddb-store.ts';
import type { ChangeNotice } from '../../src/logbook/change-notices.ts';
import {
  ENTRY_KINDS,
  entryId,
  type Entry,
  type EntryKey,
  type VisitRecord,
} from '../../src/logbook/entry.ts';
import { logBytes } from '../../src/logbook/log-bytes.ts';
import {
  put,
  putIf,
  putUntilBack,
  remove,
  type LogbookStore,
} from '../../src/logbook/logbook-store.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import {
  codesOf,
  inventedLog,
  inventedLogbook,
  inventedSettings,
  inventedStrip,
  inventedVisit,
  NOW_S,
  valueOf,
} from '../logbook/invented-entries.ts';

let databases = 0;

const STORES: [string, () => Promise<LogbookStore>][] = [
  ['in memory', () => Promise.resolve(createMemoryStore())],
  [
    'in IndexedDB',
    async () => valueOf(await openIndexedDbStore({ name: `contract-${databases++}` })),
  ],
];

function keyOf({ kind, id }: Entry): EntryKey {
  return { kind, id };
}

/** Everything in a store, logs with their bytes. */
async function everything(store: LogbookStore): Promise<Entry[]> {
  const all: Entry[] = [];
  for (const kind of ENTRY_KINDS) {
    for (const { id } of valueOf(await store.list(kind))) {
      const entry = valueOf(await store.get(kind, id as never));
      if (entry) all.push(entry);
    }
  }
  return all;
}

describe.each(STORES)('a logbook %s', (_where, open) => {
  let store: LogbookStore;
  beforeEach(async () => {
    store = await open();
  });
  afterEach(() => store.close());

  test('[LB12] gives back every kind of record as it was put', async () => {
    const records = await inventedLogbook();
    valueOf(await store.write(records.map(put)));
    expect(records.map(({ kind }) => kind).sort()).toEqual([...ENTRY_KINDS].sort());
    for (const record of records) {
      expect(valueOf(await store.get(record.kind, record.id as never))).toEqual(record);
    }
  });

  test('[LB1] gives back the bytes of a log', async () => {
    const log = await inventedLog('a.igc', 'A\0\u00ff\r\nB');
    valueOf(await store.write([put(log)]));
    const kept = valueOf(await store.get('log', log.id));
    if (!kept) throw new Error('the log is missing');
    const bytes = valueOf(await logBytes(kept));
    expect([...bytes]).toEqual([0x41, 0, 0xc3, 0xbf, 13, 10, 0x42]);
  });

  test('[LB20] has nothing under an id that was never put, nor under that id of another kind', async () => {
    valueOf(await store.write([put(inventedStrip('x'))]));
    expect(valueOf(await store.get('strip', entryId('strip', 'y')))).toBeNull();
    expect(valueOf(await store.get('visit', entryId('visit', 'x')))).toBeNull();
    expect(valueOf(await store.list('visit'))).toEqual([]);
  });

  test('[LB21] lists in the order of ids, whatever the order of writing', async () => {
    const ids = ['b', 'a10', 'Z', 'a9', '\u00e9', 'a', '\u{1F411}', '\uffff', 'a\0'];
    valueOf(await store.write(ids.map((id) => put(inventedVisit(id)))));
    const listed = valueOf(await store.list('visit')).map(({ id }) => id as string);
    expect(listed).toEqual(['Z', 'a', 'a\0', 'a10', 'a9', 'b', '\u00e9', '\u{1F411}', '\uffff']);
  });

  test('[LB21] lists logs without their bytes', async () => {
    const log = await inventedLog();
    valueOf(await store.write([put(log)]));
    const { gzip, ...summary } = log;
    expect(gzip.length).toBeGreaterThan(0);
    expect(valueOf(await store.list('log'))).toEqual([summary]);
  });

  test('[LB20] writes all or nothing: one record that does not fit keeps the others out', async () => {
    const before = inventedStrip('kept');
    valueOf(await store.write([put(before)]));
    const bad = { ...inventedVisit('bad'), plannedForS: 'tomorrow' } as unknown as VisitRecord;
    const result = await store.write([put(inventedStrip('new')), remove(before), put(bad)]);
    expect(codesOf(result)).toEqual(['logbook-field']);
    expect(result.problems[0].where).toBe('visit "bad": plannedForS');
    expect(await everything(store)).toEqual([before]);
  });

  test('[LB20] writes several kinds in one go, and a second put replaces the first', async () => {
    const visit = inventedVisit('v');
    valueOf(await store.write([put(visit), put(inventedStrip('s'))]));
    const changed = { ...visit, changedS: NOW_S + 1, remarks: [] };
    valueOf(await store.write([put(changed), remove(inventedStrip('s'))]));
    expect(await everything(store)).toEqual([changed]);
  });

  test('[LB22] keeps copies: a hand on what was given or taken changes nothing', async () => {
    const log = await inventedLog();
    const visit = inventedVisit('v');
    valueOf(await store.write([put(log), put(visit)]));
    const byteBefore = log.gzip[12];
    log.gzip[12] ^= 0xff;
    (visit.remarks as unknown[]).length = 0;
    const kept = valueOf(await store.get('log', log.id));
    expect(kept?.gzip[12]).toBe(byteBefore);
    const given = valueOf(await store.get('visit', visit.id));
    expect(given?.remarks).toHaveLength(2);
    (given?.remarks as unknown[]).length = 0;
    (valueOf(await store.list('visit'))[0].landings as unknown[]).length = 0;
    valueOf(await store.write([put(inventedStrip('s'))]));
    const [strip] = valueOf(await store.list('strip'));
    (strip.versions[0].feature.properties as { name: string }).name = 'spoilt';
    expect(valueOf(await store.list('strip'))).toEqual([inventedStrip('s')]);
    const again = valueOf(await store.get('visit', visit.id));
    expect(again?.remarks).toHaveLength(2);
    expect(again?.landings).toHaveLength(1);
  });

  test('[LB22] writes what it was given at the call, not what a hand makes of it meanwhile', async () => {
    const strip = inventedStrip('s');
    const first = inventedVisit('a');
    const log = await inventedLog();
    const byteBefore = log.gzip[12];
    const writing = store.write([putIf(first, null), put(log), put(strip)]);
    log.gzip[12] ^= 0xff;
    const { feature } = strip.versions[0];
    (feature.properties as { name: string }).name = 'spoilt';
    valueOf(await writing);
    expect(valueOf(await store.list('strip'))).toEqual([inventedStrip('s')]);
    expect(valueOf(await store.get('log', log.id))?.gzip[12]).toBe(byteBefore);
  });

  describe('tells its listeners', () => {
    test('[LB23] once after a write, with every key that changed', async () => {
      valueOf(await store.write([put(inventedStrip('old'))]));
      const heard: ChangeNotice[] = [];
      store.subscribe((notice) => heard.push(notice));
      const visit = inventedVisit('v');
      valueOf(await store.write([put(visit), remove(inventedStrip('old'))]));
      expect(heard).toEqual([
        {
          from: 'here',
          changed: [
            { kind: 'visit', id: 'v', what: 'put' },
            { kind: 'strip', id: 'old', what: 'removed' },
          ],
        },
      ]);
    });

    test('[LB23] after the change can be read', async () => {
      let seen: unknown = 'not told';
      const told = new Promise<void>((resolve) => {
        store.subscribe(() => {
          void store.get('visit', entryId('visit', 'v')).then((result) => {
            seen = valueOf(result)?.id;
            resolve();
          });
        });
      });
      valueOf(await store.write([put(inventedVisit('v'))]));
      await told;
      expect(seen).toBe('v');
    });

    test('[LB23] nothing where nothing changed, where it failed, or after they left', async () => {
      const heard: ChangeNotice[] = [];
      const leave = store.subscribe((notice) => heard.push(notice));
      valueOf(await store.write([]));
      valueOf(await store.write([remove(inventedVisit('never there'))]));
      codesOf(await store.write([put({ ...inventedVisit('v'), changedS: Number.NaN })]));
      codesOf(await store.write([putIf(inventedVisit('v'), inventedVisit('v'))]));
      expect(heard).toEqual([]);
      leave();
      valueOf(await store.write([put(inventedVisit('v'))]));
      expect(heard).toEqual([]);
    });
  });

  describe('keeps what was removed', () => {
    test('[LB24] and puts it back whole, together', async () => {
      const records = await inventedLogbook();
      valueOf(await store.write(records.map(put)));
      const before = await everything(store);
      const { deletion } = valueOf(await store.write(records.map(remove)));
      if (deletion === null) throw new Error('nothing was removed');
      expect(await everything(store)).toEqual([]);
      expect(store.deletions()).toEqual([{ number: deletion, keys: records.map(keyOf) }]);
      const { changed } = valueOf(await store.putBack(deletion));
      expect(changed).toEqual(records.map((each) => ({ ...keyOf(each), what: 'put' })));
      expect(await everything(store)).toEqual(before);
      expect(store.deletions()).toEqual([]);
    });

    test('[LB24] each write by itself, oldest first', async () => {
      valueOf(await store.write([put(inventedVisit('a')), put(inventedVisit('b'))]));
      const first = valueOf(await store.write([remove(inventedVisit('a'))])).deletion;
      const second = valueOf(await store.write([remove(inventedVisit('b'))])).deletion;
      expect(store.deletions().map(({ number }) => number)).toEqual([first, second]);
      valueOf(await store.putBack(first ?? -1));
      expect(valueOf(await store.list('visit')).map(({ id }) => id)).toEqual(['a']);
      expect(store.deletions().map(({ number }) => number)).toEqual([second]);
    });

    test('[LB24] and refuses to put it back over a record that took its place, or twice', async () => {
      const [a, b] = [inventedVisit('a'), inventedVisit('b')];
      valueOf(await store.write([put(a), put(b)]));
      const deletion = valueOf(await store.write([remove(a), remove(b)])).deletion ?? -1;
      const usurper = { ...b, remarks: [] };
      valueOf(await store.write([put(usurper)]));
      expect(codesOf(await store.putBack(deletion))).toEqual(['logbook-clash']);
      expect(await everything(store)).toEqual([usurper]);
      valueOf(await store.write([remove(usurper)]));
      valueOf(await store.putBack(deletion));
      expect(await everything(store)).toEqual([a, b]);
      expect(codesOf(await store.putBack(deletion))).toEqual(['logbook-no-deletion']);
    });

    test('[LB24] with what was changed until then, where it was not changed again', async () => {
      const [a, b, c] = [inventedVisit('a'), inventedVisit('b'), inventedVisit('c')];
      const [newB, newC] = [b, c].map((each) => ({ ...each, remarks: [] }));
      valueOf(await store.write([put(a), put(b), put(c)]));
      const changes = [remove(a), putUntilBack(newB, b), putUntilBack(newC, c)];
      const deletion = valueOf(await store.write(changes)).deletion ?? -1;
      expect(await everything(store)).toEqual([newB, newC]);
      expect(store.deletions()).toEqual([{ number: deletion, keys: [keyOf(a)] }]);
      const again = { ...newC, aeroplaneId: null };
      valueOf(await store.write([put(again)]));
      const { changed } = valueOf(await store.putBack(deletion));
      expect(changed.map(({ id }) => id)).toEqual(['a', 'b']);
      expect(await everything(store)).toEqual([a, b, again]);
    });

    test('[LB24] and what would come back is checked like what is put', async () => {
      const visit = inventedVisit('a');
      const wrong = { ...visit, changedS: NaN };
      expect((await store.write([putUntilBack(visit, wrong)])).ok).toBe(false);
      expect(await everything(store)).toEqual([]);
    });

    test('[LB24] and removing what is not there is no failure and no deletion', async () => {
      const written = valueOf(await store.write([remove(inventedVisit('ghost'))]));
      expect(written).toEqual({ changed: [], deletion: null });
      expect(store.deletions()).toEqual([]);
    });
  });

  test('[LB25] writes on condition that the record is as it was read', async () => {
    const visit = inventedVisit('v');
    valueOf(await store.write([putIf(visit, null)]));
    expect(codesOf(await store.write([putIf(visit, null)]))).toEqual(['logbook-clash']);
    const later = { ...visit, changedS: NOW_S + 5, remarks: [] };
    valueOf(await store.write([putIf(later, visit)]));
    const stale = { ...visit, changedS: NOW_S + 9 };
    const both = await store.write([put(inventedStrip('s')), putIf(stale, visit)]);
    expect(codesOf(both)).toEqual(['logbook-clash']);
    expect(both.problems[0].where).toBe('visit "v"');
    expect(await everything(store)).toEqual([later]);
  });

  test('[LB25] takes a record of the same second that says something else for another', async () => {
    const visit = inventedVisit('v');
    valueOf(await store.write([put(visit)]));
    const meanwhile = { ...visit, remarks: [] };
    valueOf(await store.write([put(meanwhile)]));
    const mine = { ...visit, landings: [] };
    expect(codesOf(await store.write([putIf(mine, visit)]))).toEqual(['logbook-clash']);
    valueOf(await store.write([putIf(mine, meanwhile)]));
    expect(await everything(store)).toEqual([mine]);
  });

  test('[LB25] knows a log by what is listed of it', async () => {
    const log = await inventedLog();
    valueOf(await store.write([put(log)]));
    const [summary] = valueOf(await store.list('log'));
    const renamed = { ...log, fileName: 'new name.igc', changedS: NOW_S + 1 };
    valueOf(await store.write([putIf(renamed, summary)]));
    expect(codesOf(await store.write([putIf(log, log)]))).toEqual(['logbook-clash']);
    expect(await everything(store)).toEqual([renamed]);
  });

  test('[LB26] fails after closing, and forgets what was removed', async () => {
    valueOf(await store.write([put(inventedSettings())]));
    const deletion = valueOf(await store.write([remove(inventedSettings())])).deletion ?? -1;
    store.close();
    expect(codesOf(await store.list('visit'))).toEqual(['logbook-closed']);
    expect(codesOf(await store.get('visit', entryId('visit', 'v')))).toEqual(['logbook-closed']);
    expect(codesOf(await store.write([put(inventedVisit())]))).toEqual(['logbook-closed']);
    expect(codesOf(await store.putBack(deletion))).toEqual(['logbook-closed']);
    expect(store.deletions()).toEqual([]);
  });

  test('[LB28] takes two changes of one record in one write for a mistake of the program', async () => {
    const visit = inventedVisit('v');
    await expect(store.write([put(visit), remove(visit)])).rejects.toThrow('twice');
    expect(await everything(store)).toEqual([]);
  });
});

describe('[LB20] any run of writes, removals and returns leaves what a plain list of records would hold', () => {
  interface Step {
    readonly writes: readonly { id: string; text: string | null; ifKnown: boolean }[];
    readonly back: boolean;
  }
  const steps = fc.array(
    fc.record({
      writes: fc.uniqueArray(
        fc.record({
          id: fc.constantFrom('a', 'b', 'c', 'd'),
          text: fc.option(fc.string({ minLength: 1, maxLength: 5 })),
          ifKnown: fc.boolean(),
        }),
        { selector: ({ id }) => id, maxLength: 4 },
      ),
      back: fc.boolean(),
    }),
    { maxLength: 12 },
  );

  async function run(store: LogbookStore, todo: readonly Step[]): Promise<void> {
    const model = new Map<string, VisitRecord>();
    const bin = new Map<number, VisitRecord[]>();
    let clock = NOW_S;
    for (const { writes, back } of todo) {
      clock++;
      const puts = writes.flatMap(({ id, text, ifKnown }) => {
        if (text === null) return [];
        const remarks = [{ id: 'r', timeS: null, text, writtenS: clock }];
        return [{ ifKnown, entry: { ...inventedVisit(id), changedS: clock, remarks } }];
      });
      const removals = writes
        .filter(({ text }) => text === null)
        .map(({ id }) => inventedVisit(id));
      // A condition that asks for a new record clashes where there is one.
      const clashes = puts.some(({ ifKnown, entry }) => ifKnown && model.has(entry.id));
      const result = await store.write([
        ...puts.map(({ ifKnown, entry }) => (ifKnown ? putIf(entry, null) : put(entry))),
        ...removals.map(remove),
      ]);
      expect(result.ok).toBe(!clashes);
      if (result.ok) {
        for (const { entry } of puts) model.set(entry.id, entry);
        const removed = removals.flatMap(({ id }) => model.get(id) ?? []);
        for (const { id } of removed) model.delete(id);
        expect(result.value.deletion !== null).toBe(removed.length > 0);
        if (result.value.deletion !== null) bin.set(result.value.deletion, removed);
      }
      const oldest = [...bin].at(0);
      if (back && oldest) {
        const [number, removed] = oldest;
        const free = removed.every(({ id }) => !model.has(id));
        expect((await store.putBack(number)).ok).toBe(free);
        if (free) {
          for (const entry of removed) model.set(entry.id, entry);
          bin.delete(number);
        }
      }
      const expected = [...model.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
      expect(valueOf(await store.list('visit'))).toEqual(expected);
      expect(store.deletions().map(({ number }) => number)).toEqual([...bin.keys()]);
    }
  }

  test.each(STORES)('%s', async (_where, open) => {
    await fc.assert(
      fc.asyncProperty(steps, async (todo) => {
        const store = await open();
        await run(store, todo);
        store.close();
      }),
      { numRuns: 60, seed: 20_250_523 },
    );
  });
});
