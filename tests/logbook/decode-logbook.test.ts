/**
 * What a record may hold, and what is said where it does not fit. Rules: docs/spec/logbook.md, "Checks".
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeEntry, decodeListed } from '../../src/logbook/decode-logbook.ts';
import { listed, type Entry } from '../../src/logbook/entry.ts';
import { anyLogbook, entriesOf } from './any-entry.ts';
import {
  codesOf,
  inventedAeroplane,
  inventedLog,
  inventedLogbook,
  inventedSettings,
  inventedStrip,
  inventedVisit,
  NOW_S,
  valueOf,
} from './invented-entries.ts';

type Path = readonly (string | number)[];

/** A copy with one field set; `undefined` takes the field off. */
function spoil(entry: unknown, path: Path, value: unknown): unknown {
  const copy = apart(entry);
  let at = copy as Record<string | number, unknown>;
  for (const step of path.slice(0, -1)) at = at[step] as typeof at;
  const last = path[path.length - 1];
  if (value === undefined) Reflect.deleteProperty(at, last);
  else at[last] = value;
  return copy;
}

/** A deep copy in which nothing is shared, as two fields of one record may share their conditions. */
function apart(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || value instanceof Uint8Array) return value;
  if (Array.isArray(value)) return value.map(apart);
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, apart(inner)]));
}

/** Every way through lists and objects of our own; documents are kept whole and not gone into. */
function pathsOf(value: unknown, from: Path = []): Path[] {
  if (typeof value !== 'object' || value === null || value instanceof Uint8Array) return [];
  return Object.entries(value).flatMap(([key, inner]): Path[] => {
    const path = [...from, Array.isArray(value) ? Number(key) : key];
    const isWhole = ['feature', 'document', 'data', 'prediction'].includes(key);
    return [path, ...(isWhole ? [] : pathsOf(inner, path))];
  });
}

describe('a record that fits', () => {
  test('[LB12] comes back as it went in, whatever it holds', async () => {
    await fc.assert(
      fc.asyncProperty(anyLogbook, async (some) => {
        for (const entry of await entriesOf(some)) {
          expect(valueOf(decodeEntry(entry))).toStrictEqual(entry);
          expect(valueOf(decodeListed(listed(entry)))).toStrictEqual(listed(entry));
        }
      }),
      { seed: 12, numRuns: 60 },
    );
  });

  test('[LB6] has a saved prediction of any version and shape', () => {
    const predictions = [1, 2, 99].map((algorithmVersion) => ({
      ...inventedVisit().predictions[0],
      algorithmVersion,
      prediction: { shape: ['of', algorithmVersion] },
    }));
    const visit = { ...inventedVisit(), predictions };
    expect(valueOf(decodeEntry(visit))).toStrictEqual(visit);
  });
});

describe('a record that does not fit', () => {
  test('[LB10] is refused for every field that is missing, and the field is named', async () => {
    let tried = 0;
    for (const entry of await inventedLogbook()) {
      for (const path of pathsOf(entry)) {
        // Conditions that were not entered may be missing; a shorter list is a list.
        const isOptional =
          path.includes('conditions') &&
          path.at(-1) !== 'conditions' &&
          !['reference', 'speedKt'].includes(String(path.at(-1)));
        if (isOptional || typeof path.at(-1) === 'number' || path.at(-1) === 'kind') continue;
        const result = decodeEntry(spoil(entry, path, undefined));
        expect(codesOf(result), path.join('.')).toContain('logbook-field');
        expect(result.problems[0].where).toContain(
          path.slice(0, path.indexOf('conditions') + 1 || undefined).join('.'),
        );
        expect(result.problems[0].message).toContain('missing');
        tried++;
      }
    }
    expect(tried).toBeGreaterThan(60);
  });

  test('[LB11] is refused for a field that is not known, at every level, and the field is named', async () => {
    let tried = 0;
    for (const entry of await inventedLogbook()) {
      const objects = [[], ...pathsOf(entry)].filter((path) => {
        const inner = path.reduce<unknown>(
          (at, step) => (at as Record<string | number, unknown>)[step],
          entry,
        );
        const isWhole = ['feature', 'document', 'data', 'prediction'].includes(String(path.at(-1)));
        return (
          typeof inner === 'object' &&
          inner !== null &&
          !Array.isArray(inner) &&
          !(inner instanceof Uint8Array) &&
          !isWhole
        );
      });
      for (const path of objects) {
        for (const name of ['windKts', 'constructor', 'toString']) {
          const result = decodeEntry(spoil(entry, [...path, name], 1));
          expect(codesOf(result), [...path, name].join('.')).toEqual(['logbook-field']);
          tried++;
        }
      }
    }
    expect(tried).toBeGreaterThan(40);
  });

  test('[LB11] is refused for a number that is not finite, wherever it stands', async () => {
    let tried = 0;
    for (const entry of await inventedLogbook()) {
      for (const path of pathsOf(entry)) {
        const inner = path.reduce<unknown>(
          (at, step) => (at as Record<string | number, unknown>)[step],
          entry,
        );
        if (typeof inner !== 'number') continue;
        for (const wrong of [Number.NaN, Infinity, -Infinity, '7']) {
          expect(codesOf(decodeEntry(spoil(entry, path, wrong))), path.join('.')).toEqual([
            'logbook-field',
          ]);
          tried++;
        }
      }
    }
    expect(tried).toBeGreaterThan(80);
    const strip = spoil(
      inventedStrip(),
      ['versions', 0, 'feature', 'properties', 'widthM'],
      Number.NaN,
    );
    const { problems } = decodeEntry(strip);
    expect(problems.map(({ where }) => where)).toEqual(['strip "sedge": versions.0.feature']);
    expect(problems[0].message).toBe('found NaN at properties.widthM, expected plain JSON');
  });

  test('[LB10] says what was found and what was expected', () => {
    const wrong: [unknown, string, RegExp][] = [
      [
        spoil(inventedVisit(), ['plannedForS'], 1.7e12),
        'plannedForS',
        /^found 1700000000000, expected a number from 0 to 100000000000 seconds since 1970$/,
      ],
      [
        spoil(inventedVisit(), ['landings', 0, 'effort', 'mark'], 'hard'),
        'landings.0.effort.mark',
        /^found "hard", expected one of full, normal, coasted$/,
      ],
      [
        spoil(inventedVisit(), ['conditions', 'tempC'], 300),
        'conditions',
        /^tempC: found 300, expected a number from -50 to 60/,
      ],
      [
        spoil(inventedVisit(), ['remarks', 0, 'text'], ''),
        'remarks.0.text',
        /^found 0, expected a text of 1 to 20000 characters$/,
      ],
      [
        spoil(inventedSettings(), ['units', 'length'], 'yd'),
        'units.length',
        /^found "yd", expected one of m, ft$/,
      ],
      [
        spoil(inventedVisit(), ['id'], ''),
        'id',
        /^found 0, expected a text of 1 to 200 characters$/,
      ],
      [
        spoil(inventedStrip(), ['versions'], []),
        'versions',
        /^found 0, expected one version or more$/,
      ],
      [spoil(inventedAeroplane(), ['document'], [1]), 'document', /expected an object$/],
    ];
    for (const [record, field, message] of wrong) {
      const result = decodeEntry(record);
      expect(codesOf(result)).toEqual(['logbook-field']);
      expect(result.problems[0].where.split(': ')[1]).toBe(field);
      expect(result.problems[0].message).toMatch(message);
    }
  });

  test('[LB10] has one problem for each wrong field', () => {
    const record = spoil(spoil(inventedVisit('v'), ['demo'], 'no'), ['remarks', 1, 'writtenS'], -1);
    expect(decodeEntry(record).problems.map(({ where }) => where)).toEqual([
      'visit "v": demo',
      'visit "v": remarks.1.writtenS',
    ]);
  });

  test.each([
    null,
    undefined,
    7,
    'visit',
    [],
    {},
    { kind: 'balloon' },
    { kind: 'toString' },
    { kind: ['visit'] },
  ])('[LB10] is none at all where it has no known kind: %j', (raw) => {
    expect(codesOf(decodeEntry(raw))).toEqual(['logbook-kind']);
  });

  test('[LB5] is refused for an effort mark that does not say whether the ratio was shown', () => {
    for (const value of [undefined, null, 'yes']) {
      const result = decodeEntry(
        spoil(inventedVisit(), ['landings', 0, 'effort', 'ratioShown'], value),
      );
      expect(result.problems.map(({ where }) => where)).toEqual([
        'visit "visit-1": landings.0.effort.ratioShown',
      ]);
    }
  });
});

describe('fields that must go together', () => {
  const wheres = (raw: unknown) =>
    decodeEntry(raw).problems.map(({ where }) => where.split(': ')[1]);

  test("[LB1] a log's id is its digest, and its list entry has no bytes", async () => {
    const log = await inventedLog();
    expect(wheres({ ...log, id: 'mine' })).toEqual(['id']);
    expect(wheres({ ...log, sha256: log.sha256.toUpperCase() })).toEqual(['sha256']);
    expect(wheres(listed(log))).toEqual(['gzip']);
    expect(codesOf(decodeListed(log))).toEqual(['logbook-field']);
  });

  test("[LB2] a strip's record has the strip's id in every version, and versions rise", () => {
    const [version] = inventedStrip().versions;
    const other = inventedStrip('other').versions[0].feature;
    expect(wheres({ ...inventedStrip(), id: 'x' })).toEqual(['id']);
    expect(
      wheres({ ...inventedStrip(), versions: [version, { fromS: 5, feature: other }] }),
    ).toEqual(['id']);
    const at = (...times: (number | null)[]) => ({
      ...inventedStrip(),
      versions: times.map((fromS) => ({ ...version, fromS })),
    });
    expect(decodeEntry(at(null, 5, 6)).ok).toBe(true);
    expect(decodeEntry(at(0, 5)).ok).toBe(true);
    expect(wheres(at(null, 5, 5))).toEqual(['versions.2.fromS']);
    expect(wheres(at(5, 4))).toEqual(['versions.1.fromS']);
    expect(wheres(at(5, null))).toEqual(['versions.1.fromS']);
    expect(wheres(at(null, null))).toEqual(['versions.1.fromS']);
  });

  test("[LB3] an aeroplane's record has the document's id", () => {
    expect(wheres({ ...inventedAeroplane(), id: 'x' })).toEqual(['id']);
    expect(wheres(spoil(inventedAeroplane(), ['document', 'id'], 7))).toEqual(['id']);
  });

  test('[LB7] a result has the id of its log', async () => {
    const result = (await inventedLogbook()).find(({ kind }) => kind === 'result') as Entry;
    expect(wheres({ ...result, id: 'x' })).toEqual(['logId']);
  });

  test('[LB10] there is one record of settings, and ids of remarks differ', () => {
    expect(wheres({ ...inventedSettings(), id: 'mine' })).toEqual(['id']);
    const remark = { id: 'r', timeS: null, text: 'twice', writtenS: NOW_S };
    expect(wheres({ ...inventedVisit(), remarks: [remark, remark] })).toEqual(['remarks.1.id']);
  });
});
