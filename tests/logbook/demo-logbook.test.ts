/**
 * The demonstration comes, goes and comes back. Rules: docs/spec/logbook.md, "The demonstration".
 */

import { beforeAll, describe, expect, test } from 'vitest';
import type { ChangeNotice } from '../../src/logbook/change-notices.ts';
import { decodeEntry } from '../../src/logbook/decode-logbook.ts';
import {
  demoRecords,
  loadDemo,
  removeDemo,
  type DemoFiles,
} from '../../src/logbook/demo-logbook.ts';
import { entryId, type Entry, type LogRecord, type VisitRecord } from '../../src/logbook/entry.ts';
import { logBytes } from '../../src/logbook/log-bytes.ts';
import { put, remove, type LogbookStore } from '../../src/logbook/logbook-store.ts';
import { makeResult } from '../../src/logbook/make-entry.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import { failure, problem } from '../../src/result.ts';
import { demoFiles } from './demo-files.ts';
import { everything, storeOf } from './filled-store.ts';
import {
  codesOf,
  inventedAeroplane,
  inventedLog,
  inventedLogbook,
  inventedVisit,
  NOW_S,
  valueOf,
} from './invented-entries.ts';

let files: DemoFiles;
let records: Entry[];
beforeAll(async () => {
  files = demoFiles();
  records = valueOf(await demoRecords(files, NOW_S));
});

const keyOf = ({ kind, id }: Entry) => `${kind} ${id}`;
const ofKind = (kind: Entry['kind']) => records.filter((each) => each.kind === kind);

describe("the demonstration's records", () => {
  test('[LB60] are all marked, fit, and hold every file', async () => {
    expect(records.every(({ demo }) => demo)).toBe(true);
    for (const record of records) expect(decodeEntry(record).ok, keyOf(record)).toBe(true);
    const { features } = JSON.parse(files.strips) as { features: unknown[] };
    expect(ofKind('strip')).toHaveLength(features.length);
    expect(ofKind('aeroplane')).toHaveLength(files.aeroplanes.length);
    expect(ofKind('visit')).toHaveLength(files.flights.length);
    const logs = ofKind('log') as LogRecord[];
    expect(logs.map(({ fileName }) => fileName)).toEqual(
      files.flights.map(({ fileName }) => fileName),
    );
    expect(valueOf(await logBytes(logs[3]))).toEqual(files.flights[3].bytes);
  });

  test('[LB60] have the same ids every time, whenever they are made', async () => {
    const later = valueOf(await demoRecords(demoFiles(), NOW_S + 1e6));
    expect(later.map(keyOf)).toEqual(records.map(keyOf));
    expect(new Set(records.map(keyOf)).size).toBe(records.length);
    expect(later.every(({ changedS }) => changedS === NOW_S + 1e6)).toBe(true);
  });

  test('[LB60] say what was noted about each flight, its own fields before those of all', () => {
    const log = (ofKind('log') as LogRecord[]).find(
      ({ fileName }) => fileName === '2024-05-12-first-visit-sedge.gpx',
    );
    const visit = (ofKind('visit') as VisitRecord[]).find(({ logId }) => logId === log?.id);
    // From tracks-sample/conditions.json: `flap` and `factorSet` for all, the rest for this flight.
    expect(visit?.conditions).toMatchObject({
      flap: 'full',
      factorSet: 'uk-leaflet',
      qnhHpa: 1021,
      tempC: 16,
    });
    expect(visit?.aeroplaneId).toBe('marram-160');
  });

  test('[LB60] are none at all where one file is wrong', async () => {
    const wrong: [Partial<DemoFiles>, string][] = [
      [{ strips: '{}' }, 'strips-file'],
      [{ aeroplanes: [...files.aeroplanes, 'no JSON'] }, 'aeroplane-not-json'],
      [{ conditions: '[]' }, 'conditions-field'],
    ];
    for (const [some, code] of wrong) {
      expect(codesOf(await demoRecords({ ...files, ...some }, NOW_S))).toContain(code);
    }
  });
});

describe('the demonstration', () => {
  test('[LB61] is loaded in one write, and a second time changes nothing', async () => {
    const store = createMemoryStore();
    const heard: ChangeNotice[] = [];
    store.subscribe((notice) => heard.push(notice));
    expect(valueOf(await loadDemo(store, records))).toHaveLength(records.length);
    expect(heard).toHaveLength(1);
    const later = valueOf(await demoRecords(demoFiles(), NOW_S + 500));
    expect(valueOf(await loadDemo(store, later))).toEqual([]);
    expect(heard).toHaveLength(1);
    expect(new Set(await everything(store))).toEqual(new Set(records));
  });

  test('[LB61] leaves a record that is there already as it is', async () => {
    const own = inventedAeroplane('marram-160');
    const store = await storeOf([own]);
    const added = valueOf(await loadDemo(store, records));
    expect(added).toHaveLength(records.length - 1);
    expect(valueOf(await store.get('aeroplane', own.id))).toEqual(own);
  });

  test('[LB61] is loaded once where two tabs load it at the same time', async () => {
    const store = createMemoryStore();
    let isFirst = true;
    const tab: LogbookStore = {
      ...store,
      write: async (changes) => {
        if (isFirst) valueOf(await loadDemo(store, records));
        isFirst = false;
        return store.write(changes);
      },
    };
    expect(valueOf(await loadDemo(tab, records))).toEqual([]);
    expect(await everything(store)).toHaveLength(records.length);
  });

  test('[LB61] that cannot be written changes nothing and says why', async () => {
    const full = problem('logbook-full', 'error', 'logbook', 'found no room, expected some');
    const store = { ...createMemoryStore(), write: () => Promise.resolve(failure<never>([full])) };
    expect(codesOf(await loadDemo(store, records))).toEqual(['logbook-full']);
  });

  test('[LB62] goes in one write with all that was entered or measured about its flights, and comes back whole', async () => {
    const own = await inventedLogbook();
    const [first, second] = ofKind('log') as LogRecord[];
    const about: Entry[] = [
      { ...inventedVisit('my notes on a demonstration flight', first), demo: false },
      { ...makeResult(second, { measured: true }, 'c'.repeat(64), NOW_S), demo: false },
    ];
    const store = await storeOf(own.filter(({ kind }) => kind !== 'aeroplane'));
    valueOf(await loadDemo(store, records));
    valueOf(await store.write(about.map(put)));
    const before = await everything(store);
    const heard: ChangeNotice[] = [];
    store.subscribe((notice) => heard.push(notice));

    const deletion = valueOf(await removeDemo(store));
    if (deletion === null) throw new Error('nothing was removed');
    expect(heard).toHaveLength(1);
    const left = (await everything(store)).map(keyOf).sort();
    // The strip `sedge` was the pilot's own before the demonstration came.
    expect(left).toEqual(
      own
        .filter(({ kind }) => kind !== 'aeroplane')
        .map(keyOf)
        .sort(),
    );

    valueOf(await store.putBack(deletion));
    expect(await everything(store)).toEqual(before);
  });

  test('[LB62] that was never loaded is removed without a word', async () => {
    const visit = inventedVisit('before a flight');
    const store = await storeOf([await inventedLog(), visit]);
    expect(valueOf(await removeDemo(store))).toBeNull();
    expect(await everything(store)).toHaveLength(2);
    expect(store.deletions()).toEqual([]);
  });

  test('[LB62] can be loaded anew after it was removed', async () => {
    const store = createMemoryStore();
    valueOf(await loadDemo(store, records));
    const deletion = valueOf(await removeDemo(store)) ?? -1;
    expect(valueOf(await loadDemo(store, records))).toHaveLength(records.length);
    expect(codesOf(await store.putBack(deletion))).toEqual(['logbook-clash']);
    valueOf(
      await store.write([remove({ kind: 'aeroplane', id: entryId('aeroplane', 'marram-160') })]),
    );
    expect(await everything(store)).toHaveLength(records.length - 1);
  });
});
