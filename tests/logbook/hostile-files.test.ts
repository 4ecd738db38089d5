/**
 * Files that are cut off, damaged or made to do harm. Rules: docs/spec/logbook.md, LB43 and LB44.
 */

import { gunzipSync, gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, test } from 'vitest';
import { exportLogbook } from '../../src/logbook/export.ts';
import { importLogbook } from '../../src/logbook/import-logbook.ts';
import type { Entry } from '../../src/logbook/entry.ts';
import type { LogbookStore } from '../../src/logbook/logbook-store.ts';
import { everything, storeOf } from './filled-store.ts';
import { LOGBOOK_SEQUENCE } from '../../src/logbook/migrations.ts';
import {
  bytesOf,
  codesOf,
  inventedLogbook,
  inventedStrip,
  inventedVisit,
  valueOf,
} from './invented-entries.ts';

const OWN_STRIP = inventedStrip('own');
let store: LogbookStore;
let file: Uint8Array<ArrayBuffer>;
let writes = 0;

beforeAll(async () => {
  const own = await storeOf([OWN_STRIP]);
  store = {
    ...own,
    write: (changes) => {
      writes++;
      return own.write(changes);
    },
  };
  file = valueOf(await exportLogbook(await storeOf(await inventedLogbook())));
});

function pack(...lines: unknown[]): Uint8Array<ArrayBuffer> {
  const text = lines.map((each) => (typeof each === 'string' ? each : JSON.stringify(each)));
  return Uint8Array.from(gzipSync(text.join('\n'), { level: 1 }));
}

const header = (records: unknown, version: unknown = LOGBOOK_SEQUENCE.version) => ({
  kind: 'windrow-logbook',
  version,
  records,
});

/** Refused, without a throw, with nothing written; gives the problems. */
async function refused(bytes: Uint8Array<ArrayBuffer>) {
  const before = writes;
  const result = await importLogbook(bytes, store);
  const codes = codesOf(result);
  expect(codes.length).toBeGreaterThan(0);
  expect(writes, 'the store was not asked to write').toBe(before);
  expect(await everything(store)).toEqual([OWN_STRIP]);
  for (const { message } of result.problems) expect(message).toMatch(/expected|missing/);
  return result.problems;
}

describe('a file that is cut off or damaged', () => {
  test('[LB43] changes nothing, wherever it is cut', async () => {
    for (let length = 0; length < file.length; length += 7) {
      const [{ code }] = await refused(file.slice(0, length));
      expect(['logbook-file-kind', 'logbook-file-damaged']).toContain(code);
    }
    await refused(file.slice(0, -1));
  });

  test('[LB43] changes nothing, whichever byte is turned over', async () => {
    let refusals = 0;
    for (let at = 0; at < file.length; at += 5) {
      const flipped = file.slice();
      flipped[at] ^= 1 << (at % 8);
      const fresh = await storeOf([OWN_STRIP]);
      const result = await importLogbook(flipped, fresh);
      if (result.ok) {
        // Only gzip's own header (RFC 1952: time, system) may differ without harm, and the bits that
        // fill up the last byte of the packed data (RFC 1951), before checksum and length.
        expect(at < 10 || at === file.length - 9, `byte ${at} of ${file.length}`).toBe(true);
        expect(gunzipSync(flipped)).toEqual(gunzipSync(file));
      } else {
        refusals++;
        expect(await everything(fresh)).toEqual([OWN_STRIP]);
      }
    }
    expect(refusals).toBeGreaterThan(100);
  });

  test('[LB43] with something behind its end changes nothing', async () => {
    await refused(Uint8Array.from([...file, 0x41, 0x42]));
  });

  test('[LB43] that lacks a line, or has one too many or twice, changes nothing', async () => {
    const lines = gunzipSync(file).toString('utf8').trimEnd().split('\n');
    const [{ message: fewer }] = await refused(pack(...lines.slice(0, -1)));
    expect(fewer).toBe('found 6 records, expected 7');
    const [{ message: more }] = await refused(pack(...lines, inventedVisit('w')));
    expect(more).toBe('found more than 7 records, expected 7');
    const [twice] = await refused(pack(header(8), ...lines.slice(1), lines[3]));
    expect(twice.where).toBe('line 9, strip "sedge"');
    expect(twice.message).toContain('twice');
  });

  test('[LB43] with text that is no UTF-8 or a line that is no object changes nothing', async () => {
    const start = bytesOf(`${JSON.stringify(header(1))}\n`);
    const broken = Uint8Array.from([...start, 0x22, 0xc3, 0x28, 0x22]);
    const [{ code }] = await refused(Uint8Array.from(gzipSync(broken)));
    expect(code).toBe('logbook-file-damaged');
    const visit = JSON.stringify({ ...inventedVisit('v'), id: 'HERE' }).split('HERE');
    const parts = [start, bytesOf(visit[0]), Uint8Array.of(0xff), bytesOf(visit[1])];
    const hurt = Uint8Array.from(parts.flatMap((part) => [...part]));
    expect((await refused(Uint8Array.from(gzipSync(hurt))))[0].code).toBe('logbook-file-damaged');
    for (const line of ['[1]', 'null', '"x"', '{"kind":"visit"', '4', '']) {
      const [problem] = await refused(pack(header(1), line, ''));
      expect(problem.code).toBe('logbook-file-damaged');
    }
  });
});

describe('a file of another kind', () => {
  test.each([
    ['nothing', new Uint8Array()],
    ['a track', bytesOf('AXWR001\r\nHFDTE230525\r\n')],
    ['plain JSON', bytesOf(JSON.stringify(header(0)))],
    ['a zip', bytesOf('PK\u0003\u0004')],
    ['gzip of nothing', pack('')],
    ['gzip of a track', pack('AXWR001')],
    ['gzip of other JSON', pack({ kind: 'conditions', version: 1, records: 0 })],
    ['gzip of a list', pack('[]')],
  ])('[LB43] is refused: %s', async (_what, bytes) => {
    const problems = await refused(bytes);
    expect(problems.map(({ code }) => code)).toEqual(['logbook-file-kind']);
  });

  test('[LB33] is refused by name where it is of a newer version, or one that never was', async () => {
    const newer = await refused(pack(header(1, LOGBOOK_SEQUENCE.version + 1), { kind: 'balloon' }));
    expect(newer.map(({ code }) => code)).toEqual(['logbook-too-new']);
    expect(newer[0].message).toContain('a newer Windrow');
    for (const never of [0, 1.5, '1', null, undefined]) {
      const problems = await refused(pack({ ...header(0), version: never }));
      expect(problems.map(({ code }) => code)).toEqual(['logbook-too-old']);
    }
  });

  test.each([-1, 1.5, '1', null, [1]])('[LB43] is refused with %j records', async (records) => {
    const [{ code }] = await refused(pack(header(records)));
    expect(code).toBe('logbook-file-damaged');
  });
});

describe('a record that does not fit', () => {
  const withOne = (record: unknown) => pack(header(2), inventedVisit('good'), record);

  test('[LB43] keeps all others out; line, record and field are named', async () => {
    const problems = await refused(withOne({ ...inventedVisit('bad'), plannedForS: 'noon' }));
    expect(problems.map(({ where }) => where)).toEqual(['line 3, visit "bad": plannedForS']);
  });

  test('[LB43] is also one whose log has not the bytes of its digest', async () => {
    const [log] = gunzipSync(file).toString('utf8').split('\n').slice(1);
    const record = JSON.parse(log) as Entry & { gzip: string };
    const gzip = gzipSync('other bytes').toString('base64');
    const [{ code }] = await refused(withOne({ ...record, gzip }));
    expect(code).toBe('logbook-bytes');
    for (const none of ['%%%', 7, null, undefined, [1]]) {
      const [problem] = await refused(withOne({ ...record, gzip: none }));
      expect(problem.where).toMatch(/^line 3, log ".*: gzip$/);
    }
  });

  test.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty'])(
    '[LB11] is also one with a field called %s',
    async (name) => {
      const text = JSON.stringify(inventedVisit('bad')).replace('{', `{"${name}":{"x":1},`);
      const [{ code }] = await refused(withOne(text));
      expect(code).toBe('logbook-field');
    },
  );

  test('[LB43] a thousand of them give a list that can be read', async () => {
    const bad = Array.from({ length: 1000 }, (_, i) => ({ kind: 'visit', id: `${i}` }));
    const problems = await refused(pack(header(1000), ...bad));
    expect(problems.length).toBeGreaterThanOrEqual(20);
    expect(problems.length).toBeLessThan(60);
  });
});

describe('a file made to exhaust the page', () => {
  test('[LB44] is refused by what it claims: 200 001 records', async () => {
    const problems = await refused(pack(header(200_001), 'not', 'read', 'any more'));
    expect(problems.map(({ message }) => message)).toEqual([
      'found 200001 records, expected at most 200000 records',
    ]);
  });

  test('[LB44] is stopped when it holds more records than it claims', async () => {
    const many = Array.from({ length: 50_000 }, () => '{}');
    const problems = await refused(pack(header(3), ...many));
    expect(problems.length).toBeLessThan(60);
  });

  test('[LB44] is stopped when it unpacks to more than 200 times its size', async () => {
    const bomb = Uint8Array.from(gzipSync(Buffer.alloc(300 * 2 ** 20, 0x20)));
    expect(bomb.length).toBeLessThan(2 ** 20);
    const [{ code, message }] = await refused(bomb);
    expect(code).toBe('logbook-file-large');
    expect(message).toContain('200 times');
  });

  test('[LB44] is refused when deep in lists or objects', async () => {
    const deepList = '['.repeat(100_000) + ']'.repeat(100_000);
    const deepObject = '{"a":'.repeat(100_000) + '1' + '}'.repeat(100_000);
    await refused(pack(header(1), deepList));
    await refused(pack(header(1), deepObject));
    for (const [field, value] of [
      ['landings', deepList],
      ['conditions', deepObject],
      ['id', deepObject],
      ['kind', deepList],
    ]) {
      const text = JSON.stringify({ ...inventedVisit('v'), [field]: 'HERE' });
      await refused(pack(header(1), text.replace('"HERE"', value)));
    }
    const strip = JSON.stringify(inventedStrip('s')).replace('"alder"', deepObject);
    const [{ message }] = await refused(pack(header(1), strip));
    expect(message).toContain('over 64 levels');
    // Of an older version it is not brought up to date, and that does not throw either.
    const [{ code }] = await refused(pack(header(1, 1), strip));
    expect(code).toBe('logbook-migration');
    await refused(pack(deepObject));
  });

  test('[LB44] is refused when a log inside unpacks to more than it says', async () => {
    const [log] = gunzipSync(file).toString('utf8').split('\n').slice(1);
    const gzip = gzipSync(Buffer.alloc(64 * 2 ** 20)).toString('base64');
    const record = { ...(JSON.parse(log) as object), gzip };
    const [{ code, message }] = await refused(pack(header(1), record));
    expect(code).toBe('logbook-bytes');
    expect(message).toContain('unpacks to more than 46 bytes');
  });
});
