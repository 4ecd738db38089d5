import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { encodeStrips } from '../../src/strips/encode-strips.ts';
import type { StripBook } from '../../src/strips/strip.ts';
import { feature, readBook, stripFeature, stripsFile } from './invented-strip.ts';

interface Written {
  readonly features: readonly {
    readonly properties: Readonly<Record<string, unknown>>;
    readonly geometry: unknown;
  }[];
}

function written(book: StripBook): Written {
  return JSON.parse(encodeStrips(book)) as Written;
}

const ring = [
  [2.3, 54.7],
  [2.4, 54.7],
  [2.4, 54.8],
  [2.3, 54.7],
];
const rich = stripsFile(
  stripFeature({ briefing: { ask: 'first' }, surfaceNote: 'ridge at B', name: undefined }),
  stripFeature(
    {
      id: 'oyster',
      profile: [
        [0, 3],
        [200, 4],
      ],
      directions: [{ designator: '18', from: 'A', use: 'landing', remark: 'geese' }],
    },
    [
      [2.5, 54.804],
      [2.5, 54.8],
    ],
  ),
  feature({ kind: 'obstacle', strip: 'sedge', topMslM: 30, heightM: 8 }, 'Point', [2.29, 54.7]),
  feature({ kind: 'avoid', colour: 3 }, 'Polygon', [ring]),
  feature({ kind: 'approach-path', strip: 'sedge', designator: '09' }, 'LineString', ring),
  feature({ kind: 'pond' }, 'Point', [2.3, 54.7]),
);

describe('writing a strips file', () => {
  test('[SE1] writes what the file said, no more and no less', () => {
    expect(written(readBook(rich))).toEqual(JSON.parse(rich));
  });

  test('[SE1] keeps what the collection holds besides its features, but no box around them', () => {
    const text = JSON.stringify({
      ...(JSON.parse(rich) as object),
      survey: { by: 'tape', year: 2025 },
      bbox: [2, 54, 3, 55],
    });
    expect(written(readBook(text))).toEqual({
      ...(JSON.parse(rich) as object),
      survey: { by: 'tape', year: 2025 },
    });
  });

  describe('members of a feature that are no property', () => {
    const surveyed = { id: 7, survey: { by: 'tape', year: 2025 }, bbox: [2, 54, 3, 55] };
    const { features } = JSON.parse(rich) as { features: object[] };
    const text = stripsFile(...features.map((each) => ({ ...each, ...surveyed })));

    test('[SE6] survive on every kind of feature, also where a property has changed', () => {
      const book = readBook(text);
      expect(written(book)).toEqual(JSON.parse(text));
      const wider = { ...book, strips: book.strips.map((strip) => ({ ...strip, widthM: 9 })) };
      for (const each of written(wider).features) expect(each).toMatchObject(surveyed);
    });

    test('[SE6] stay when a strip is moved, but no box that does not hold it any more', () => {
      const book = readBook(text);
      const moved = { ...book.strips[0], lonDeg: [3.1, 3.106] };
      const [strip] = written({ ...book, strips: [moved] }).features;
      expect(strip).toMatchObject({ id: 7, survey: surveyed.survey });
      expect(strip).not.toHaveProperty('bbox');
      const near = { ...book.strips[0], lonDeg: [2.31, 2.316] };
      expect(written({ ...book, strips: [near] }).features[0]).toMatchObject(surveyed);
    });

    test('[SE6] a box over the 180th meridian, and one with heights, hold what is in them', () => {
      const book = readBook(text);
      const [strip] = book.strips;
      const boxed = (bbox: number[], lonDeg: [number, number]) => {
        const foreign = { ...strip.foreign, bbox };
        return written({ ...book, strips: [{ ...strip, lonDeg, foreign }] }).features[0];
      };
      // RFC 7946, 5.2: the western edge is then the greater number.
      expect(boxed([177, 50, -178, 60], [179.99, -179.99])).toHaveProperty('bbox');
      expect(boxed([177, 50, -178, 60], [170, 170.006])).not.toHaveProperty('bbox');
      expect(boxed([2, 50, 0, 3, 60, 90], [2.3, 2.306])).toHaveProperty('bbox');
      expect(boxed([2, 50, 0, 3, 60, 90], [3.3, 3.306])).not.toHaveProperty('bbox');
    });

    test('[SE6] count for nothing else: a feature without any has none', () => {
      for (const strip of readBook(rich).strips) expect(strip).not.toHaveProperty('foreign');
    });
  });

  test('[SE2] writes only what has changed, and keeps the rest', () => {
    const book = readBook(rich);
    const [sedge] = book.strips;
    const moved = { ...sedge, widthM: 9, elevationM: null, lonDeg: [2.3, 2.3055] };
    const [strip] = written({ ...book, strips: [moved] }).features;
    expect(strip.properties).toMatchObject({ widthM: 9, briefing: { ask: 'first' } });
    expect(strip.properties).not.toHaveProperty('elevationM');
    expect(strip.properties).not.toHaveProperty('name');
    // The declared distances were those of the longer line, so they are written now.
    expect(strip.properties.directions).toMatchObject([
      { designator: '09', ldaM: sedge.directions[0].ldaM },
      { designator: '27' },
    ]);
    expect(strip.geometry).toMatchObject({
      coordinates: [
        [2.3, 54.7],
        [2.3055, 54.7],
      ],
    });
  });

  test('[SE3] a changed direction keeps its unknown properties', () => {
    const book = readBook(rich);
    const oyster = book.strips[1];
    const directions = oyster.directions.map((each) => ({ ...each, displacedM: 30, ldaM: 400 }));
    const [strip] = written({ ...book, strips: [{ ...oyster, directions }] }).features;
    expect(strip.properties.directions).toMatchObject([
      { designator: '18', use: 'landing', remark: 'geese', displacedM: 30, ldaM: 400 },
    ]);
  });

  test('[SE4] a book made in the program, without kept properties, is read back the same', () => {
    const book = readBook(rich);
    const bare = {
      ...book,
      strips: book.strips.map((strip) => ({ ...strip, properties: {} })),
      obstacles: book.obstacles.map((obstacle) => ({ ...obstacle, properties: {} })),
    };
    const back = readBook(encodeStrips(bare));
    const withoutProperties = (list: readonly object[]) =>
      list.map((each) => ({ ...each, properties: {} }));
    expect(withoutProperties(back.strips)).toEqual(bare.strips);
    expect(withoutProperties(back.obstacles)).toEqual(bare.obstacles);
  });

  test('[SE5] a property named __proto__ is data like any other', () => {
    const text = stripsFile(stripFeature()).replace('"kind"', '"__proto__":{"widthM":1},"kind"');
    const book = readBook(text);
    expect(book.strips[0].widthM).toBe(12);
    expect(encodeStrips(book)).toContain('"__proto__"');
  });
});

/** Any strips file that can be read, with unknown properties and features strewn in. */
const anyFile = fc
  .record({
    bearing: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
    size: fc.double({ min: 0.001, max: 0.02, noNaN: true }),
    known: fc.record(
      {
        widthM: fc.double({ min: 1, max: 300, noNaN: true }),
        surface: fc.constantFrom('grass', 'hard', 'gravel', 'earth'),
        elevationM: fc.option(fc.tuple(fc.integer({ max: 900, min: 0 }), fc.constant(3))),
        positionErrorM: fc.option(fc.double({ min: 0, max: 200, noNaN: true })),
        name: fc.option(fc.constantFrom('Sedge', ' padded ', '\u00e6\u00f8')),
      },
      { requiredKeys: [] },
    ),
    unknown: fc.dictionary(
      fc.string().filter((key) => !(key in stripFeature({}))),
      fc.jsonValue({ maxDepth: 3 }),
    ),
    other: fc.array(fc.dictionary(fc.string(), fc.jsonValue({ maxDepth: 3 })), { maxLength: 2 }),
  })
  .map(({ bearing, size, known, unknown, other }) => {
    const end = [2.3 + size * Math.sin(bearing), 54.7 + size * Math.cos(bearing)];
    const strip = stripFeature({ ...withoutKnown(unknown), ...known }, [[2.3, 54.7], end]);
    const rest = other.map((each) => feature({ ...withoutKnown(each) }, 'Point', [1, 2]));
    return stripsFile(strip, ...rest);
  });

function withoutKnown(properties: Readonly<Record<string, unknown>>) {
  const named = ['kind', 'id', 'profile', 'directions'];
  return Object.fromEntries(Object.entries(properties).filter(([key]) => !named.includes(key)));
}

test('[SE6] any readable file comes back the same, unknown properties and features too', () => {
  fc.assert(
    fc.property(anyFile, (text) => {
      const book = readBook(text);
      const again = encodeStrips(book);
      expect(JSON.parse(again)).toEqual(JSON.parse(text));
      expect(readBook(again)).toEqual(book);
      expect(encodeStrips(readBook(again))).toBe(again);
    }),
    { seed: 21, numRuns: 300 },
  );
});
