/**
 * The whole logbook goes out as one file and comes back. Rules: docs/spec/logbook.md, "The file".
 */

import { gunzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ENTRY_KINDS, type Entry } from '../../src/logbook/entry.ts';
import { exportLogbook, LOGBOOK_LIMITS, whyTooLarge } from '../../src/logbook/export.ts';
import { importLogbook } from '../../src/logbook/import-logbook.ts';
import { packGzip } from '../../src/logbook/log-bytes.ts';
import { put, type LogbookStore } from '../../src/logbook/logbook-store.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import { failure, problem, success } from '../../src/result.ts';
import { anyLogbook, entriesOf } from './any-entry.ts';
import { everything, storeOf } from './filled-store.ts';
import {
  bytesOf,
  codesOf,
  inventedLog,
  inventedLogbook,
  inventedVisit,
  valueOf,
} from './invented-entries.ts';

const textOf = (file: Uint8Array) => gunzipSync(file).toString('utf8');

describe('a logbook as a file', () => {
  test('[LB40] comes back exactly: any records, every byte', async () => {
    await fc.assert(
      fc.asyncProperty(anyLogbook, async (some) => {
        const entries = await entriesOf(some);
        const from = await storeOf(entries);
        const into = createMemoryStore();
        const report = valueOf(await importLogbook(valueOf(await exportLogbook(from)), into));
        expect(report.added).toHaveLength(entries.length);
        expect(report.unchanged).toEqual([]);
        expect(report.conflicts).toEqual([]);
        const there = await everything(into);
        expect(there).toStrictEqual(await everything(from));
        expect(new Set(there)).toEqual(new Set(entries));
      }),
      { seed: 2025_05_23, numRuns: 150 },
    );
  });

  test('[LB12] loses the sign of zero and nothing else', async () => {
    const visit = {
      ...inventedVisit('v'),
      predictions: [{ ...inventedVisit().predictions[0], prediction: [-0, 0.1] }],
    };
    const into = createMemoryStore();
    valueOf(await importLogbook(valueOf(await exportLogbook(await storeOf([visit]))), into));
    const back = (await everything(into))[0] as typeof visit;
    expect(Object.is(back.predictions[0].prediction[0], 0)).toBe(true);
    expect(back.predictions[0].prediction[1]).toBe(0.1);
  });

  test('[LB40] is gzip of lines: what it is, then one record a line', async () => {
    const entries = await inventedLogbook();
    const lines = textOf(valueOf(await exportLogbook(await storeOf(entries)))).split('\n');
    expect(JSON.parse(lines[0])).toEqual({ kind: 'windrow-logbook', version: 2, records: 7 });
    expect(lines).toHaveLength(9);
    expect(lines[8]).toBe('');
    const records = lines.slice(1, 8).map((line) => JSON.parse(line) as Entry);
    expect(records.map(({ kind }) => kind)).toEqual([...ENTRY_KINDS]);
    const log = entries.find(({ kind }) => kind === 'log');
    expect(records[0]).toEqual({
      ...log,
      gzip: Buffer.from((log as { gzip: Uint8Array }).gzip).toString('base64'),
    });
  });

  test('[LB41] has the same text whatever the order of writing, and after going out and in', async () => {
    const entries = await inventedLogbook();
    const one = await storeOf(entries);
    const other = await storeOf([...entries].reverse());
    const file = valueOf(await exportLogbook(one));
    expect(textOf(valueOf(await exportLogbook(other)))).toBe(textOf(file));
    const third = createMemoryStore();
    valueOf(await importLogbook(file, third));
    expect(textOf(valueOf(await exportLogbook(third)))).toBe(textOf(file));
  });

  test('[LB40] of nothing comes back as nothing', async () => {
    const file = valueOf(await exportLogbook(createMemoryStore()));
    const report = valueOf(await importLogbook(file, createMemoryStore()));
    expect(report).toEqual({ added: [], unchanged: [], completed: [], conflicts: [] });
  });
});

describe('what cannot be written', () => {
  const logs = async () => [
    await inventedLog('good.igc', 'good'),
    await inventedLog('hurt.igc', 'hurt'),
  ];

  test('[LB44] a log whose bytes are damaged is left out and named, so that the file can be read', async () => {
    const [good, hurt] = await logs();
    const spoilt = { ...hurt, gzip: await packGzip(bytesOf('hurl')) };
    const store = await storeOf([good, spoilt, inventedVisit('v')]);
    const exported = await exportLogbook(store);
    expect(exported.problems.map(({ code, severity }) => `${code} ${severity}`)).toEqual([
      'logbook-bytes error',
    ]);
    expect(exported.problems[0].message).toContain('hurt.igc');
    const into = createMemoryStore();
    valueOf(await importLogbook(valueOf(exported), into));
    expect(await everything(into)).toEqual([good, inventedVisit('v')]);
  });

  test('[LB44] a storage that fails half-way gives no half file', async () => {
    const store = await storeOf(await logs());
    let asked = 0;
    const failing: LogbookStore = {
      ...store,
      get: (kind, id) => {
        if (asked++ === 0) return store.get(kind, id);
        const fault = problem('logbook-storage', 'error', 'logbook', 'found the disk gone');
        return Promise.resolve(failure([fault]));
      },
    };
    expect(codesOf(await exportLogbook(failing))).toEqual(['logbook-storage']);
    expect(
      codesOf(
        await exportLogbook({
          ...store,
          list: () => Promise.resolve(failure([problem('logbook-closed', 'error', 'logbook', '')])),
        }),
      ),
    ).toEqual(['logbook-closed']);
  });

  test('[LB40] a log that another tab has just removed is no failure', async () => {
    const [good, gone] = await logs();
    const store = await storeOf([good, gone]);
    const exported = await exportLogbook({
      ...store,
      get: (kind, id) =>
        String(id) === gone.id ? Promise.resolve(success(null)) : store.get(kind, id),
    });
    expect(exported.problems).toEqual([]);
    expect(textOf(valueOf(exported))).toContain('"records":1}');
  });

  test('[LB44] a logbook of more records than can be read back is not written', async () => {
    const one = inventedVisit('v');
    const many = { length: LOGBOOK_LIMITS.records + 1 };
    const store: LogbookStore = {
      ...createMemoryStore(),
      list: ((kind: string) =>
        Promise.resolve(
          success(kind === 'visit' ? Array.from(many, () => one) : []),
        )) as LogbookStore['list'],
    };
    const result = await exportLogbook(store);
    expect(codesOf(result)).toEqual(['logbook-file-large']);
    expect(result.problems[0].message).toBe(
      'found 200001 records, expected at most 200000 records',
    );
  });

  test('[LB44] has these limits', () => {
    const MIB = 2 ** 20;
    expect(whyTooLarge(512 * MIB, 1024 * MIB, 200_000)).toBeNull();
    expect(whyTooLarge(512 * MIB + 1, 0, 0)?.message).toContain('536870913 bytes');
    expect(whyTooLarge(512 * MIB, 1024 * MIB + 1, 0)?.message).toContain('1073741824 bytes');
    expect(whyTooLarge(0, 0, 200_001)?.message).toContain('200001 records');
    expect(whyTooLarge(1, 16 * MIB, 0)).toBeNull();
    expect(whyTooLarge(1, 16 * MIB + 1, 0)?.message).toContain('200 times');
    expect(whyTooLarge(MIB, 200 * MIB, 0)).toBeNull();
    expect(whyTooLarge(MIB, 200 * MIB + 1, 0)?.code).toBe('logbook-file-large');
  });
});

test('[LB43] what was exported is a file of its own: changing it changes no record', async () => {
  const store = await storeOf([inventedVisit('v')]);
  const file = valueOf(await exportLogbook(store));
  file.fill(0);
  expect(await everything(store)).toEqual([inventedVisit('v')]);
  valueOf(await store.write([put(inventedVisit('w'))]));
});
