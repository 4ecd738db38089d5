/**
 * Files and entries become records. Rules: docs/spec/logbook.md, LB1 to LB3 and LB7.
 */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { ALGORITHM_VERSION } from '../../src/debrief/algorithm-version.ts';
import { decodeEntry } from '../../src/logbook/decode-logbook.ts';
import { entryId } from '../../src/logbook/entry.ts';
import { MOST_LOG_BYTES } from '../../src/logbook/log-bytes.ts';
import {
  isCurrent,
  makeAeroplane,
  makeLog,
  makeResult,
  makeSettings,
  makeStrips,
  makeVisit,
} from '../../src/logbook/make-entry.ts';
import { bytesOf, codesOf, inventedLog, NOW_S, OWN, valueOf } from './invented-entries.ts';

const sample = (file: string) =>
  readFileSync(new URL(`../../tracks-sample/${file}`, import.meta.url), 'utf8');
const STRIPS = sample('strips.geojson');
const FEATURES = (
  JSON.parse(STRIPS) as { features: { properties: { kind: string; id?: string } }[] }
).features;

describe('a log', () => {
  test('[LB1] is one and the same under any name, at any time', async () => {
    const one = valueOf(await makeLog('a.igc', bytesOf('same'), OWN));
    const other = valueOf(await makeLog('b.gpx', bytesOf('same'), { nowS: NOW_S + 9, demo: true }));
    expect(other.id).toBe(one.id);
    expect(valueOf(await makeLog('a.igc', bytesOf('other'), OWN)).id).not.toBe(one.id);
    expect([other.fileName, other.addedS, other.changedS, other.demo]).toEqual([
      'b.gpx',
      NOW_S + 9,
      NOW_S + 9,
      true,
    ]);
  });

  test.each([
    ['logs/2025/a.igc', 'a.igc'],
    ['C:\\logs\\a.igc', 'a.igc'],
    ['a b.igc', 'a b.igc'],
  ])('[LB1] called %j has its own name without folders', async (path, name) => {
    expect(valueOf(await makeLog(path, bytesOf('x'), OWN)).fileName).toBe(name);
  });

  test('[LB1] of no bytes and of no format is kept as well', async () => {
    for (const bytes of [new Uint8Array(), Uint8Array.of(0, 255, 10)]) {
      const log = valueOf(await makeLog('odd', bytes, OWN));
      expect(log.sizeBytes).toBe(bytes.length);
      expect(valueOf(decodeEntry(log))).toEqual(log);
    }
  });

  test('[LB1] that is larger than any log is refused before it is read', async () => {
    const huge = { length: MOST_LOG_BYTES + 1 } as Uint8Array<ArrayBuffer>;
    const result = await makeLog('huge.igc', huge, OWN);
    expect(codesOf(result)).toEqual(['logbook-too-large']);
    expect(result.problems[0].message).toContain(`at most ${MOST_LOG_BYTES}`);
  });
});

describe('a strips file', () => {
  test('[LB2] becomes one record a feature, each feature whole', async () => {
    const records = valueOf(await makeStrips(STRIPS, OWN));
    expect(records).toHaveLength(FEATURES.length);
    expect(records.map(({ versions }) => versions)).toEqual(
      FEATURES.map((feature) => [{ fromS: null, feature }]),
    );
    for (const record of records) expect(valueOf(decodeEntry(record))).toEqual(record);
  });

  test('[LB2] gives a strip its own id, and every other feature one made of its content', async () => {
    const ids = async (text: string) =>
      valueOf(await makeStrips(text, OWN)).map(({ id }) => id as string);
    const first = await ids(STRIPS);
    for (const [i, { properties }] of FEATURES.entries()) {
      if (properties.kind === 'strip') expect(first[i]).toBe(properties.id);
      else expect(first[i]).toMatch(/^feature-[0-9a-f]{32}$/);
    }
    expect(new Set(first).size).toBe(first.length);
    // The same features, written with other spaces and a byte order mark.
    expect(await ids(`\ufeff${JSON.stringify(JSON.parse(STRIPS), null, 4)}`)).toEqual(first);
    const moved = await ids(STRIPS.replace('Osier row', 'Osier hedge'));
    expect(moved.filter((id, i) => id !== first[i])).toHaveLength(1);
  });

  test('[LB2] keeps the same feature once', async () => {
    const obstacle = FEATURES.find(({ properties }) => properties.kind === 'obstacle');
    const strip = FEATURES[0];
    const text = JSON.stringify({
      type: 'FeatureCollection',
      features: [strip, obstacle, obstacle],
    });
    expect(valueOf(await makeStrips(text, OWN))).toHaveLength(2);
  });

  test('[LB2] that its reader refuses becomes nothing', async () => {
    expect(codesOf(await makeStrips('{"type":"Feature"}', OWN))).toContain('strips-file');
  });
});

describe('an aeroplane document', () => {
  test('[LB3] becomes a record with its id and all of its text', () => {
    const text = sample('aeroplanes/marram-160.json');
    const more = JSON.stringify({ ...(JSON.parse(text) as object), 'our own note': ['kept', 1] });
    const record = valueOf(makeAeroplane(more, OWN));
    expect(record.id).toBe('marram-160');
    expect(record.document).toEqual(JSON.parse(more));
    expect(valueOf(decodeEntry(record))).toEqual(record);
  });

  test('[LB3] that its reader refuses becomes nothing', () => {
    expect(codesOf(makeAeroplane('{"kind":"aeroplane"}', OWN))).toContain('aeroplane-field');
  });
});

describe('a result', () => {
  test('[LB7] stands while the version and the fingerprint are the same', async () => {
    const result = makeResult(await inventedLog(), { any: 'thing' }, 'a'.repeat(64), NOW_S);
    expect(result.algorithmVersion).toBe(ALGORITHM_VERSION);
    expect(isCurrent(result, 'a'.repeat(64))).toBe(true);
    expect(isCurrent(result, 'b'.repeat(64))).toBe(false);
    for (const algorithmVersion of [ALGORITHM_VERSION - 1, ALGORITHM_VERSION + 1]) {
      expect(isCurrent({ ...result, algorithmVersion }, 'a'.repeat(64))).toBe(false);
    }
  });

  test('[LB7] stands under the id of its log, marked as it is', async () => {
    const log = { ...(await inventedLog()), demo: true };
    const result = makeResult(log, null, 'a'.repeat(64), NOW_S + 1);
    expect([result.id, result.logId, result.demo, result.changedS]).toEqual([
      log.id,
      log.id,
      true,
      NOW_S + 1,
    ]);
    expect(valueOf(decodeEntry(result))).toEqual(result);
  });
});

test('[LB10] a blank visit and untouched settings are records that fit', async () => {
  const log = await inventedLog();
  const visit = makeVisit(entryId('visit', 'v'), log, OWN);
  expect(visit.logId).toBe(log.id);
  for (const entry of [visit, makeSettings(NOW_S)])
    expect(valueOf(decodeEntry(entry))).toEqual(entry);
});
