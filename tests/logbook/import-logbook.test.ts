/**
 * A logbook file meets a logbook. Rules: docs/spec/logbook.md, LB42 and LB45.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ChangeNotice } from '../../src/logbook/change-notices.ts';
import type { Entry } from '../../src/logbook/entry.ts';
import { exportLogbook } from '../../src/logbook/export.ts';
import { importLogbook, type ImportReport } from '../../src/logbook/import-logbook.ts';
import { put, type LogbookStore } from '../../src/logbook/logbook-store.ts';
import { notTaken } from '../../src/logbook/merge-visits.ts';
import { canonicalText } from '../../src/logbook/plain-json.ts';
import type { Result } from '../../src/result.ts';
import { anyLogbook, entriesOf } from './any-entry.ts';
import { everything, storeOf } from './filled-store.ts';
import {
  codesOf,
  inventedLog,
  inventedLogbook,
  inventedStrip,
  inventedVisit,
  NOW_S,
  valueOf,
} from './invented-entries.ts';

async function fileOf(entries: readonly Entry[]): Promise<Uint8Array<ArrayBuffer>> {
  return valueOf(await exportLogbook(await storeOf(entries)));
}

async function take(entries: readonly Entry[], store: LogbookStore): Promise<Result<ImportReport>> {
  return importLogbook(await fileOf(entries), store);
}

/** One and the same remark in several wordings. */
const remarked = (text: string, changedS: number) => ({
  ...inventedVisit('v'),
  changedS,
  remarks: [{ id: 'r', timeS: null, text, writtenS: changedS }],
});

const strip = (name: string, changedS: number) => ({ ...inventedStrip('s', name), changedS });

describe('taking in a file', () => {
  test('[LB42] adds what the logbook does not have', async () => {
    const store = await storeOf([inventedStrip('own')]);
    const { added, unchanged } = valueOf(await take([inventedVisit('v')], store));
    expect(added).toEqual([{ kind: 'visit', id: 'v' }]);
    expect(unchanged).toEqual([]);
    expect(await everything(store)).toEqual([inventedVisit('v'), inventedStrip('own')]);
  });

  test('[LB42] a second time changes nothing and tells nobody', async () => {
    const entries = await inventedLogbook();
    const store = await storeOf(entries);
    const before = await everything(store);
    const heard: ChangeNotice[] = [];
    store.subscribe((notice) => heard.push(notice));
    const report = valueOf(await take(entries, store));
    expect(report.unchanged).toHaveLength(entries.length);
    expect(report.added).toEqual([]);
    expect(report.conflicts).toEqual([]);
    expect(heard).toEqual([]);
    expect(await everything(store)).toEqual(before);
  });

  test('[LB42] keeps the newer of two that differ, and lists the other whole', async () => {
    const [older, newer] = [strip('before lunch', NOW_S), strip('after lunch', NOW_S + 60)];
    for (const [mine, theirs, otherFrom] of [
      [older, newer, 'logbook'],
      [newer, older, 'file'],
    ] as const) {
      const store = await storeOf([mine]);
      const report = valueOf(await take([theirs], store));
      expect(report.conflicts).toEqual([{ kept: newer, other: older, otherFrom }]);
      const key = { kind: 'strip', id: 's' };
      expect(report.completed).toEqual(otherFrom === 'logbook' ? [key] : []);
      expect(report.unchanged).toEqual(otherFrom === 'file' ? [key] : []);
      expect(await everything(store)).toEqual([newer]);
    }
  });

  test('[LB42] takes a log that was added at another time for the same', async () => {
    const log = await inventedLog();
    const later = { ...log, addedS: NOW_S + 500, changedS: NOW_S + 500 };
    const store = await storeOf([log]);
    expect(valueOf(await take([later], store)).unchanged).toEqual([{ kind: 'log', id: log.id }]);
    const renamed = { ...later, fileName: 'other-name.igc' };
    const { conflicts } = valueOf(await take([renamed], await storeOf([log])));
    const { gzip, ...summary } = log;
    expect(gzip.length).toBeGreaterThan(0);
    expect(conflicts.map(({ other }) => other)).toEqual([summary]);
  });

  test('[LB42] two logbooks that take in each other end up the same, whichever was first', async () => {
    await fc.assert(
      fc.asyncProperty(anyLogbook, anyLogbook, async (some, others) => {
        const [a, b] = [await entriesOf(some), await entriesOf(others)];
        const [ab, ba] = [await storeOf(a), await storeOf(b)];
        const reports = [valueOf(await take(b, ab)), valueOf(await take(a, ba))];
        const [there, here] = [await everything(ab), await everything(ba)];
        expect(there).toEqual(here);
        // Nothing is lost: each record is in the logbook or listed in a report; of a visit all it says.
        for (const report of reports) {
          const listed = report.conflicts.map(({ other }) => other);
          const texts = new Set([...there, ...listed].map(saying));
          for (const entry of [...a, ...b]) {
            if (texts.has(saying(entry))) continue;
            const kept = there.find(({ kind, id }) => kind === entry.kind && id === entry.id);
            if (entry.kind !== 'visit' || kept?.kind !== 'visit') throw new Error(saying(entry));
            expect(notTaken(entry, kept)).toEqual([]);
          }
        }
        // And a third time there is nothing new.
        const again = valueOf(await importLogbook(valueOf(await exportLogbook(ba)), ab));
        expect(again.added).toEqual([]);
        expect(again.completed).toEqual([]);
        expect(again.conflicts).toEqual([]);
      }),
      { seed: 42, numRuns: 80 },
    );
  });

  test('[LB42] gives the same whatever the order of three files', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(anyLogbook, { minLength: 3, maxLength: 3 }), async (three) => {
        const files = await Promise.all(three.map(async (some) => fileOf(await entriesOf(some))));
        const orders = [
          [0, 1, 2],
          [2, 1, 0],
          [1, 2, 0],
        ];
        const outcomes = [];
        for (const order of orders) {
          const store = await storeOf([]);
          for (const i of order) valueOf(await importLogbook(files[i], store));
          outcomes.push(await everything(store));
        }
        expect(outcomes[1]).toEqual(outcomes[0]);
        expect(outcomes[2]).toEqual(outcomes[0]);
      }),
      { seed: 43, numRuns: 40 },
    );
  });
});

/** What a record says, without the times of taking in, and bytes as their digest. */
function saying(entry: object): string {
  const left = { ...entry } as Record<string, unknown>;
  for (const field of ['changedS', 'addedS', 'gzip']) Reflect.deleteProperty(left, field);
  return canonicalText(left);
}

describe('another tab that writes meanwhile', () => {
  /** A store to which something happens after each of the first `times` lists of visits. */
  function disturbed(
    store: LogbookStore,
    times: number,
    happen: (nth: number) => Promise<unknown>,
  ) {
    let nth = 0;
    const list: LogbookStore['list'] = async (kind) => {
      const listing = await store.list(kind);
      if (kind === 'visit' && nth < times) await happen(nth++);
      return listing;
    };
    return { ...store, list };
  }

  test('[LB45] is not overwritten unseen: all is compared anew', async () => {
    const store = await storeOf([remarked('old', NOW_S)]);
    const mine = remarked('written meanwhile', NOW_S + 90);
    const tab = disturbed(store, 1, () => store.write([put(mine)]));
    const theirs = remarked('from the file', NOW_S + 60);
    const { conflicts } = valueOf(await take([theirs], tab));
    expect(conflicts).toEqual([{ kept: mine, other: theirs, otherFrom: 'file' }]);
    expect(await everything(store)).toEqual([mine]);
  });

  test('[LB45] also within the same second', async () => {
    const store = await storeOf([remarked('old', NOW_S)]);
    const mine = remarked('written meanwhile', NOW_S);
    const tab = disturbed(store, 1, () => store.write([put(mine)]));
    const theirs = remarked('from the file', NOW_S + 60);
    const { conflicts } = valueOf(await take([theirs], tab));
    expect(conflicts).toEqual([{ kept: theirs, other: mine, otherFrom: 'logbook' }]);
  });

  test('[LB45] again and again makes it fail, with nothing changed', async () => {
    const store = await storeOf([remarked('old', NOW_S)]);
    const tab = disturbed(store, 99, (nth) => store.write([put(remarked(`again ${nth}`, NOW_S))]));
    const result = await take([remarked('from the file', NOW_S + 60), inventedVisit('w')], tab);
    expect(codesOf(result)).toEqual(['logbook-clash']);
    expect(await everything(store)).toEqual([remarked('again 2', NOW_S)]);
  });
});
