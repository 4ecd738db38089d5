/**
 * Older records become records of today. Rules: docs/spec/logbook.md, "Migrations".
 */

import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { fromBase64 } from '../../src/logbook/base64.ts';
import { ENTRY_KINDS } from '../../src/logbook/entry.ts';
import { importLogbook } from '../../src/logbook/import-logbook.ts';
import { logBytes } from '../../src/logbook/log-bytes.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import {
  bringUpToDate,
  checkVersion,
  LOGBOOK_SEQUENCE,
  migrationSequence,
  type RawRecord,
} from '../../src/logbook/migrations.ts';
import { readLogbookFile } from '../../src/logbook/read-logbook-file.ts';
import { codesOf, valueOf } from './invented-entries.ts';

const SAMPLES = fileURLToPath(new URL('./samples/', import.meta.url));

/** SHA-256 of each frozen sample: a sample is never made anew. */
const FROZEN: Record<string, string> = {
  'version-1.gz': '10a10ff7c2938e4fd346b0001ddbe0437feac14ec710285ed856661f391b32d8',
  'version-2.gz': 'bb682eb50182f4dafe09c30a643e0ecea0dacb397edac391705cf92b5384bfaa',
};

const same = (record: RawRecord) => record;
const step = (n: number, change: (record: RawRecord) => RawRecord = same) => ({
  id: `logbook/${n}`,
  change,
});

describe('the sequence of migrations', () => {
  test.each([
    ['nothing', []],
    ['another start', ['logbook/2']],
    ['a start at nought', ['logbook/0', 'logbook/1']],
    ['a gap', ['logbook/1', 'logbook/3']],
    ['a repetition', ['logbook/1', 'logbook/1']],
    ['the wrong order', ['logbook/2', 'logbook/1']],
    ['another name', ['logbook/1', 'flights/2']],
    ['a number written otherwise', ['logbook/01']],
  ])('[LB30] throws at %s', (_what, ids) => {
    expect(() =>
      migrationSequence(
        'logbook',
        ids.map((id) => ({ id, change: same })),
      ),
    ).toThrow('logbook/');
  });

  test('[LB30] has the number of its last step as version', () => {
    expect(migrationSequence('logbook', [step(1), step(2), step(3)]).version).toBe(3);
    expect(LOGBOOK_SEQUENCE.version).toBe(LOGBOOK_SEQUENCE.steps.length);
  });

  test('[LB30] runs the steps after the version of the record, in order', () => {
    const marks = (n: number) =>
      step(n, (record) => ({ ...record, ran: [...((record.ran ?? []) as number[]), n] }));
    const sequence = migrationSequence('logbook', [marks(1), marks(2), marks(3), marks(4)]);
    expect(valueOf(bringUpToDate({}, 1, sequence))).toEqual({ ran: [2, 3, 4] });
    expect(valueOf(bringUpToDate({}, 3, sequence))).toEqual({ ran: [4] });
    expect(valueOf(bringUpToDate({}, 4, sequence))).toEqual({});
  });

  test('[LB32] leaves what it is given as it was, also where a step is careless', () => {
    const careless = step(2, (record) => {
      (record.list as number[]).push(2);
      (record as { name: string }).name = 'spoilt';
      return record;
    });
    const given = { name: 'given', list: [1] };
    const sequence = migrationSequence('logbook', [step(1), careless]);
    expect(valueOf(bringUpToDate(given, 1, sequence))).toEqual({ name: 'spoilt', list: [1, 2] });
    expect(given).toEqual({ name: 'given', list: [1] });
  });

  test('[LB33] refuses a newer version, a version that never was, and a step that throws, each by name', () => {
    const sequence = migrationSequence('logbook', [
      step(1),
      step(2, () => {
        throw new Error('no wind in it');
      }),
    ]);
    expect(codesOf(bringUpToDate({}, 3, sequence))).toEqual(['logbook-too-new']);
    for (const never of [0, -1, 1.5, Number.NaN, Infinity, '1', null, undefined]) {
      expect(codesOf(checkVersion(never, sequence))).toEqual(['logbook-too-old']);
    }
    const threw = bringUpToDate({}, 1, sequence);
    expect(codesOf(threw)).toEqual(['logbook-migration']);
    expect(threw.problems[0].where).toBe('logbook/2');
    expect(threw.problems[0].message).toContain('no wind in it');
  });

  test('[LB33] refuses a record too deep to be copied, and does not throw', () => {
    let deep: RawRecord = {};
    for (let i = 0; i < 200_000; i++) deep = { deep };
    const sequence = migrationSequence('logbook', [step(1), step(2)]);
    expect(codesOf(bringUpToDate(deep, 1, sequence))).toEqual(['logbook-migration']);
  });
});

describe('the frozen samples', () => {
  const read = (file: string) => Uint8Array.from(readFileSync(`${SAMPLES}${file}`));

  test('[LB31] are there for every version, and nobody has touched them', () => {
    const versions = LOGBOOK_SEQUENCE.steps.map((_, i) => `version-${i + 1}`);
    const files = versions.flatMap((name) => [`${name}.expected.json`, `${name}.gz`]);
    expect(readdirSync(SAMPLES).sort()).toEqual(files.sort());
    expect(Object.keys(FROZEN)).toEqual(versions.map((name) => `${name}.gz`));
    for (const [file, digest] of Object.entries(FROZEN)) {
      expect(createHash('sha256').update(read(file)).digest('hex'), file).toBe(digest);
    }
  });

  test.each(Object.keys(FROZEN))('[LB31] %s is read whole by this Windrow', async (file) => {
    const entries = valueOf(await readLogbookFile(read(file)));
    const json = readFileSync(`${SAMPLES}${file.replace('.gz', '.expected.json')}`, 'utf8');
    const expected = (JSON.parse(json) as RawRecord[]).map((record) =>
      typeof record.gzip === 'string' ? { ...record, gzip: fromBase64(record.gzip) } : record,
    );
    expect(entries).toEqual(expected);
    // Factor sets came after the first sample; the later ones hold every kind.
    const kinds = ENTRY_KINDS.filter((kind) => kind !== 'factor-set' || file !== 'version-1.gz');
    expect([...new Set(entries.map(({ kind }) => kind))]).toEqual(kinds);
    for (const entry of entries) {
      if (entry.kind === 'log') expect((await logBytes(entry)).ok).toBe(true);
    }
    const report = valueOf(await importLogbook(read(file), createMemoryStore()));
    expect(report.added).toHaveLength(expected.length);
  });
});
