import { describe, expect, test } from 'vitest';
import {
  listStrips,
  namedStrip,
  stripsSentence,
  versionAt,
} from '../../../src/app/entry/strip-list.ts';
import {
  aroundWords,
  directionWords,
  groundWords,
  lengthWords,
  stripSentence,
  surroundWords,
} from '../../../src/app/entry/strip-words.ts';
import { featuresOf, stripsFileText, tooLarge } from '../../../src/app/entry/strips-file.ts';
import { entryId, type Feature, type StripRecord } from '../../../src/logbook/entry.ts';
import { makeStrips } from '../../../src/logbook/make-entry.ts';
import { demoFeatures, demoStrip, demoText, FEET, UNITS } from './strip-form-texts.ts';

const made = await makeStrips(demoText, { nowS: 0, demo: true });
if (!made.ok) throw new Error('the demonstration has no readable strips');
const records = made.value;
const list = listStrips(records, 0);
const stripOf = (id: string) => {
  const row = list.strips.find((each) => each.id === id);
  if (!row?.strip) throw new Error(`no strip ${id}`);
  return { ...row, strip: row.strip };
};
const metres = (lengthM: number) => lengthWords(lengthM, UNITS);
const recordOf = (id: string, feature: Feature): StripRecord => ({
  kind: 'strip',
  id: entryId('strip', id),
  changedS: 0,
  demo: false,
  versions: [{ fromS: null, feature }],
});

describe('the list of strips', () => {
  test('[SL1] has the shortest first, with the lengths that the demonstration states', () => {
    expect(list.strips.map(({ id }) => id)).toEqual([
      'sedge',
      'hollowmere',
      'mereling',
      'ternholm',
    ]);
    expect(list.strips.map(({ lengthM }) => Math.round(lengthM ?? 0))).toEqual([
      355, 410, 430, 560,
    ]);
    expect(Math.round(list.longestM)).toBe(560);
  });

  test('[SL2] begins with a sentence', () => {
    expect(stripsSentence(list, metres)).toBe('4 strips, the shortest 355\u00a0m.');
    expect(stripsSentence(listStrips([], 0), metres)).toBe('No strips yet.');
    const one = listStrips([recordOf('sedge', demoStrip('sedge'))], 0);
    expect(stripsSentence(one, (lengthM) => lengthWords(lengthM, FEET))).toBe(
      // Its ends are 326.9 m north and 139.4 m east of each other: 355.4 m, 1166 ft.
      'One strip, 1166\u00a0ft long.',
    );
    const sedge = demoStrip('sedge');
    const properties = { ...(sedge.properties as object), endsGuessed: true };
    const guess: Feature = { ...sedge, properties };
    const guessed = listStrips([recordOf('sedge', guess)], 0);
    expect(stripsSentence(guessed, metres)).toBe('One strip.');
    expect(stripSentence(guessed.strips[0], UNITS)).toBe(
      'Sedgeholt, 355\u00a0m of grass, where it ends a guess.',
    );
  });

  test('[SL3] sets with each strip what names it, or else lies nearest', () => {
    expect(aroundWords(stripOf('hollowmere').around)).toBe('1 obstacle, 1 approach path');
    expect(aroundWords(stripOf('ternholm').around)).toBe('1 obstacle, 1 avoid area');
    const village = stripOf('ternholm').around.find(({ kind }) => kind === 'avoid');
    expect(village && namedStrip(village)).toBeNull();
    expect(list.others).toEqual([]);
  });

  test('[SL4] keeps apart what is far from every strip, and what names a strip that is not there', () => {
    const far: Feature = {
      type: 'Feature',
      properties: { kind: 'obstacle', name: 'Mast', heightM: 40 },
      geometry: { type: 'Point', coordinates: [3.5, 54.7] },
    };
    const lost: Feature = { ...far, properties: { kind: 'obstacle', strip: 'gone', heightM: 4 } };
    const { others } = listStrips([...records, recordOf('x', far), recordOf('y', lost)], 0);
    expect(others.map(({ name }) => name)).toEqual(['Mast', 'obstacle']);
  });

  test('[SL5] shows a record that cannot be read, with the reason, and counts it', () => {
    const broken: Feature = { ...demoStrip('sedge'), geometry: null };
    const { strips } = listStrips([recordOf('sedge', broken)], 0);
    expect(strips[0]).toMatchObject({ name: 'Sedgeholt', strip: null, lengthM: null });
    expect(stripSentence(strips[0], UNITS)).toBe('Sedgeholt, which cannot be read.');
    expect(strips[0].fault).toContain('found none, expected LineString');
    expect(stripsSentence({ strips, others: [], longestM: 0 }, metres)).toBe('One strip.');
  });

  test('[SL6] shows the line that lies there now', () => {
    const moved = demoStrip('mereling');
    const record: StripRecord = {
      ...recordOf('sedge', demoStrip('sedge')),
      versions: [
        { fromS: null, feature: demoStrip('sedge') },
        { fromS: 1000, feature: moved },
      ],
    };
    expect(versionAt(record, 999).fromS).toBeNull();
    expect(versionAt(record, 1000).feature).toBe(moved);
  });
});

describe('words', () => {
  test('[SL7] tell one-way use, ground and heights in the units of the pilot', () => {
    const { strip, around } = stripOf('hollowmere');
    expect(stripSentence(stripOf('hollowmere'), UNITS)).toBe(
      'Hollowmere Bank, 410\u00a0m of grass.',
    );
    expect(stripSentence(null, UNITS)).toBe('A new strip.');
    expect(directionWords(strip)).toBe('33 landing only, 15 take-off only');
    // 14 m and 28.5 m are 45.9 ft and 93.5 ft.
    expect(groundWords(strip, UNITS)).toBe('grass, 46 to 94\u00a0ft above the sea');
    expect(groundWords({ ...strip, elevationM: null }, UNITS)).toBe('grass, elevation not entered');
    expect(groundWords({ ...strip, elevationM: [3, 3] }, UNITS)).toBe(
      'grass, 10\u00a0ft above the sea',
    );
    const guessed = { ...strip, elevationM: null, endsGuessed: true };
    expect(groundWords(guessed, UNITS)).toBe('grass, elevation not entered, ends guessed');
    const path = around.find(({ kind }) => kind === 'approach-path');
    expect(path && surroundWords(path, UNITS)).toBe('approach path to 33');
  });

  test('[SL8] tell from where the height of an obstacle counts', () => {
    const height = { ...UNITS, height: 'm' as const };
    const words = list.strips.flatMap(({ around }) =>
      around.map((row) => surroundWords(row, height)),
    );
    expect(words).toContain('obstacle, 3\u00a0m above the nearer threshold');
    expect(words).toContain('obstacle, 2\u00a0m above the ground');
    expect(words.some((each) => /above the sea$/.test(each))).toBe(true);
  });
});

describe('a strips file', () => {
  test('[SL9] that is saved brings every feature back as it was', () => {
    const read = featuresOf(stripsFileText(records, 0));
    expect(read.ok && read.value).toEqual(demoFeatures);
    const marked = featuresOf(`\uFEFF${demoText}`);
    expect(marked.ok && marked.value).toEqual(demoFeatures);
  });

  test('[SL10] that is no such file is refused whole, with its reasons', () => {
    const broken = demoText.replace('"widthM": 14', '"widthM": 1400');
    expect(broken).not.toBe(demoText);
    const read = featuresOf(broken);
    expect(read.ok).toBe(false);
    expect(read.problems.map(({ where, message }) => `${where} ${message}`).join()).toMatch(
      /sedge.*found 1400, expected a number from 1 to 300 metres/,
    );
    expect(featuresOf('{').ok).toBe(false);
    expect(tooLarge(3e7).problems[0].message).toBe(
      'found 30000000 bytes, expected at most 20000000',
    );
  });
});
