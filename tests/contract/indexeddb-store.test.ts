/**
 * What only the logbook in the browser's database does. Rules: docs/spec/logbook.md, "In the browser".
 */

import 'fake-indexeddb/auto';
import { deleteDB, openDB } from 'idb';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { openIndexedDbStore, type OpenOptions } from '../../src/app/indexeddb-store.ts';
import { diskFault, openFault } from '../../src/app/storage-faults.ts';
import type { ChangeNotice } from '../../src/logbook/change-notices.ts';
import { entryId, listed, type Entry, type LogSummary } from '../../src/logbook/entry.ts';
import { logBytes } from '../../src/logbook/log-bytes.ts';
import {
  DiskFault,
  put,
  putIf,
  remove,
  type LogbookStore,
} from '../../src/logbook/logbook-store.ts';
import {
  LOGBOOK_SEQUENCE,
  migrationSequence,
  type RawRecord,
} from '../../src/logbook/migrations.ts';
import {
  codesOf,
  inventedLog,
  inventedLogbook,
  inventedStrip,
  inventedVisit,
  valueOf,
} from '../logbook/invented-entries.ts';

let databases = 0;
const newName = () => `indexeddb-${databases++}`;

const open: LogbookStore[] = [];
async function opened(options: OpenOptions): Promise<LogbookStore> {
  const store = valueOf(await openIndexedDbStore(options));
  open.push(store);
  return store;
}
afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
  for (const store of open.splice(0)) store.close();
});

/** The step after today's last. */
const NEXT_ID = `logbook/${LOGBOOK_SEQUENCE.version + 1}`;
const NEXT = migrationSequence('logbook', [
  ...LOGBOOK_SEQUENCE.steps,
  {
    id: NEXT_ID,
    change: (record) =>
      record.kind === 'log'
        ? { ...record, fileName: `${String(record.fileName)}, ${bytesIn(record)} packed bytes` }
        : { ...record, demo: true },
  },
]);

function bytesIn(record: RawRecord): number {
  return record.gzip instanceof Uint8Array ? record.gzip.length : Number.NaN;
}

/** Puts something on the disk past all checks. */
async function putRaw(name: string, record: object): Promise<void> {
  const database = await openDB(name);
  await database.put('entries', record);
  database.close();
}

/** Lets `put` fail: `request` is the true one, not yet made. */
function mockPut(
  instead: (request: () => IDBRequest<IDBValidKey>, value: Entry, on: IDBObjectStore) => unknown,
): void {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own object below
  const honest = IDBObjectStore.prototype.put;
  vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
    this: IDBObjectStore,
    value: Entry,
    key?: IDBValidKey,
  ) {
    return instead(() => honest.call(this, value, key), value, this) as IDBRequest<IDBValidKey>;
  });
}

describe('opening', () => {
  test('[LB50] finds what an earlier session wrote', async () => {
    const name = newName();
    const records = await inventedLogbook();
    const before = await opened({ name });
    valueOf(await before.write(records.map(put)));
    before.close();
    const after = await opened({ name });
    for (const { kind, id } of records) {
      const expected = records.find((each) => each.kind === kind);
      expect(valueOf(await after.get(kind, id as never))).toEqual(expected);
    }
  });

  test('[LB50] brings every record up to date, a log together with its bytes', async () => {
    const name = newName();
    const log = await inventedLog();
    const before = await opened({ name });
    valueOf(await before.write([put(log), put(inventedVisit('v')), put(inventedStrip('s'))]));
    before.close();
    const after = await opened({ name, sequence: NEXT });
    const kept = valueOf(await after.get('log', log.id));
    expect(kept).toEqual({ ...log, fileName: `${log.fileName}, ${log.gzip.length} packed bytes` });
    if (kept) expect(valueOf(await logBytes(kept)).length).toBe(log.sizeBytes);
    expect(valueOf(await after.get('visit', entryId('visit', 'v')))).toEqual({
      ...inventedVisit('v'),
      demo: true,
    });
    expect(valueOf(await after.list('strip')).map(({ demo }) => demo)).toEqual([true]);
  });

  test("[LB50] keeps a log's bytes when the result of the same id is brought up to date", async () => {
    const name = newName();
    const records = await inventedLogbook();
    const before = await opened({ name });
    valueOf(await before.write(records.map(put)));
    before.close();
    const after = await opened({ name, sequence: NEXT });
    expect(valueOf(await after.list('result')).map(({ id }) => id as string)).toEqual([
      records[0].id,
    ]);
    const kept = valueOf(await after.get('log', entryId('log', records[0].id)));
    if (!kept) throw new Error('the log is missing');
    expect(valueOf(await logBytes(kept))).toHaveLength(kept.sizeBytes);
  });

  test('[LB50] leaves all as it was where one record cannot be brought up to date', async () => {
    const name = newName();
    const before = await opened({ name });
    valueOf(await before.write([put(inventedStrip('a')), put(inventedVisit('b'))]));
    before.close();
    const failing = migrationSequence('logbook', [
      ...LOGBOOK_SEQUENCE.steps,
      {
        id: NEXT_ID,
        change: (record) => {
          if (record.id === 'b') throw new Error('no such thing');
          return { ...record, demo: true };
        },
      },
    ]);
    const result = await openIndexedDbStore({ name, sequence: failing });
    expect(codesOf(result)).toEqual(['logbook-migration']);
    expect(result.problems[0].where).toBe(`visit "b": ${NEXT_ID}`);
    const after = await opened({ name });
    expect(valueOf(await after.list('strip'))).toEqual([inventedStrip('a')]);
    expect(valueOf(await after.list('visit'))).toEqual([inventedVisit('b')]);
  });

  test('[LB51] refuses a logbook of a newer Windrow and leaves it as it is', async () => {
    const name = newName();
    const newer = await opened({ name, sequence: NEXT });
    valueOf(await newer.write([put(inventedStrip('a'))]));
    newer.close();
    expect(codesOf(await openIndexedDbStore({ name }))).toEqual(['logbook-too-new']);
    const again = await opened({ name, sequence: NEXT });
    expect(valueOf(await again.list('strip'))).toEqual([inventedStrip('a')]);
  });

  test('[LB52] an older tab gives way to a newer Windrow, and says so', async () => {
    const name = newName();
    const closed = vi.fn();
    const blocked = vi.fn();
    const older = await opened({ name, onClosed: closed });
    valueOf(await older.write([put(inventedStrip('a'))]));
    const newer = await opened({ name, sequence: NEXT, onBlocked: blocked });
    expect(closed.mock.calls).toEqual([['newer-version']]);
    expect(blocked).not.toHaveBeenCalled();
    expect(valueOf(await newer.list('strip')).map(({ id }) => id)).toEqual(['a']);
    expect(codesOf(await older.list('strip'))).toEqual(['logbook-closed']);
    expect(codesOf(await older.write([put(inventedStrip('b'))]))).toEqual(['logbook-closed']);
  });

  test('[LB52] says that it waits where a tab does not give way, and opens when it does', async () => {
    const name = newName();
    valueOf(await openIndexedDbStore({ name })).close();
    const stubborn = await openDB(name);
    let waits: (value: undefined) => void = () => undefined;
    const waiting = new Promise<undefined>((resolve) => (waits = resolve));
    const opening = openIndexedDbStore({
      name,
      sequence: NEXT,
      onBlocked: () => waits(undefined),
    });
    await waiting;
    stubborn.close();
    const store = valueOf(await opening);
    expect(valueOf(await store.list('strip'))).toEqual([]);
    store.close();
  });

  test('[LB52] gives way to its own deletion', async () => {
    const name = newName();
    const closed = vi.fn();
    await opened({ name, onClosed: closed });
    await deleteDB(name);
    expect(closed).toHaveBeenCalledTimes(1);
  });

  test.each([
    ['without IndexedDB', () => vi.stubGlobal('indexedDB', undefined), 'logbook-no-storage'],
    [
      'in a private window',
      () =>
        vi.spyOn(indexedDB, 'open').mockImplementation(() => {
          throw new DOMException('not in private', 'InvalidStateError');
        }),
      'logbook-no-storage',
    ],
    [
      'that forbids storage',
      () =>
        vi.spyOn(indexedDB, 'open').mockImplementation(() => {
          throw new DOMException('not here', 'SecurityError');
        }),
      'logbook-no-storage',
    ],
  ])('[LB53] a browser %s gives a plain message', async (_what, spoil, code) => {
    spoil();
    const result = await openIndexedDbStore({ name: newName() });
    expect(codesOf(result)).toEqual([code]);
    expect(result.problems[0].message).toContain('expected IndexedDB');
  });
});

describe('a disk that fails', () => {
  test('[LB53] a full storage changes nothing and says what can be done', async () => {
    const store = await opened({ name: newName() });
    valueOf(await store.write([put(inventedStrip('before'))]));
    const heard: ChangeNotice[] = [];
    store.subscribe((notice) => heard.push(notice));
    mockPut((request, value) => {
      if (value.kind === 'visit') throw new DOMException('full', 'QuotaExceededError');
      return request();
    });
    const result = await store.write([
      remove(inventedStrip('before')),
      put(inventedStrip('new')),
      put(inventedVisit('v')),
    ]);
    expect(codesOf(result)).toEqual(['logbook-full']);
    expect(result.problems[0].message).toMatch(/no room left.*Nothing was changed.*Export/);
    expect(valueOf(await store.list('strip'))).toEqual([inventedStrip('before')]);
    expect(heard).toEqual([]);
    expect(store.deletions()).toEqual([]);
  });

  test('[LB53] a storage that fills up only when the transaction ends is full all the same', async () => {
    const store = await opened({ name: newName() });
    mockPut((request, _value, { transaction }) => {
      const begun = request();
      // As a browser does: the transaction ends by itself, and only it knows why.
      const full = new DOMException('full', 'QuotaExceededError');
      Object.defineProperty(transaction, 'error', { get: () => full, set: () => undefined });
      transaction.abort();
      return begun;
    });
    const result = await store.write([put(inventedVisit('v'))]);
    expect(codesOf(result)).toEqual(['logbook-full']);
    vi.restoreAllMocks();
    expect(valueOf(await store.list('visit'))).toEqual([]);
  });

  test('[LB53] a fault of ours is not taken for one of the storage', () => {
    const ours = new RangeError('ours');
    expect(diskFault(ours)).toBe(ours);
    const theirs = diskFault(new DOMException('read failed', 'UnknownError'));
    expect(theirs).toBeInstanceOf(DiskFault);
    expect((theirs as DiskFault).problem.code).toBe('logbook-storage');
    expect(openFault(new DOMException('', 'UnknownError'), 1).code).toBe('logbook-storage');
    expect(openFault(new DOMException('', 'QuotaExceededError'), 1).code).toBe('logbook-full');
  });

  test('[LB27] names a damaged record, leaves it out of lists, and lets it be removed', async () => {
    const name = newName();
    const store = await opened({ name });
    valueOf(await store.write([put(inventedVisit('good'))]));
    await putRaw(name, { ...inventedVisit('hurt'), remarks: 'gone' });
    const listing = await store.list('visit');
    expect(valueOf(listing).map(({ id }) => id)).toEqual(['good']);
    expect(listing.problems.map(({ where }) => where)).toEqual(['visit "hurt": remarks']);
    const hurt = entryId('visit', 'hurt');
    expect(codesOf(await store.get('visit', hurt))).toEqual(['logbook-field']);
    const deletion = valueOf(await store.write([remove({ kind: 'visit', id: hurt })])).deletion;
    expect((await store.list('visit')).problems).toEqual([]);
    valueOf(await store.putBack(deletion ?? -1));
    expect((await store.list('visit')).problems).toHaveLength(1);
  });

  test('[LB27] names a log whose bytes are missing', async () => {
    const name = newName();
    const store = await opened({ name });
    const summary = listed(await inventedLog()) as LogSummary;
    await putRaw(name, summary);
    expect(valueOf(await store.list('log'))).toEqual([summary]);
    const result = await store.get('log', summary.id);
    expect(codesOf(result)).toEqual(['logbook-field']);
    expect(result.problems[0].where).toMatch(/: gzip$/);
  });
});

describe('two tabs', () => {
  test('[LB25] that change one record at the same time and within one second lose nothing unseen', async () => {
    const name = newName();
    const [here, there] = [await opened({ name }), await opened({ name })];
    const visit = inventedVisit('v');
    valueOf(await here.write([put(visit)]));
    const mine = { ...visit, remarks: [] };
    const theirs = { ...visit, landings: [] };
    const outcomes = await Promise.all([
      here.write([putIf(mine, visit)]),
      there.write([putIf(theirs, visit)]),
    ]);
    expect(outcomes.map(({ ok }) => ok)).toEqual([true, false]);
    expect(codesOf(outcomes[1])).toEqual(['logbook-clash']);
    expect(valueOf(await there.get('visit', visit.id))).toEqual(mine);
  });

  test('[LB25] never write over a damaged record unseen', async () => {
    const name = newName();
    const store = await opened({ name });
    const { kind, id } = inventedVisit('hurt');
    await putRaw(name, { kind, id, left: 'nothing else' });
    expect(codesOf(await store.write([putIf(inventedVisit('hurt'), null)]))).toEqual([
      'logbook-clash',
    ]);
    expect((await store.list('visit')).problems.length).toBeGreaterThan(0);
  });

  test('[LB54] one is told of what the other wrote, and can read it', async () => {
    const name = newName();
    const [here, there] = [await opened({ name }), await opened({ name })];
    const mine: ChangeNotice[] = [];
    here.subscribe((notice) => mine.push(notice));
    const told = new Promise<ChangeNotice>((resolve) => there.subscribe(resolve));
    valueOf(await here.write([put(inventedVisit('v'))]));
    const changed = [{ kind: 'visit', id: 'v', what: 'put' }];
    expect(await told).toEqual({ from: 'elsewhere', changed });
    expect(mine).toEqual([{ from: 'here', changed }]);
    expect(valueOf(await there.list('visit'))).toEqual([inventedVisit('v')]);
  });

  test('[LB54] a message that is no notice is passed over', async () => {
    const name = newName();
    const store = await opened({ name });
    const heard: ChangeNotice[] = [];
    const channel = new BroadcastChannel(name);
    const changed = [{ kind: 'strip', id: 's', what: 'removed' as const }];
    const told = new Promise<void>((resolve) => {
      store.subscribe((notice) => {
        heard.push(notice);
        resolve();
      });
    });
    const noWord = [{ kind: 'strip', id: 's' }];
    for (const message of [null, 'hello', [null], [{ kind: 4 }], { kind: 's' }, noWord, changed]) {
      channel.postMessage(message);
    }
    await told;
    channel.close();
    expect(heard).toEqual([{ from: 'elsewhere', changed }]);
  });

  test('[LB54] a browser without channels still keeps a logbook', async () => {
    vi.stubGlobal('BroadcastChannel', undefined);
    const store = await opened({ name: newName() });
    valueOf(await store.write([put(inventedVisit('v'))]));
    expect(valueOf(await store.list('visit'))).toHaveLength(1);
  });
});
