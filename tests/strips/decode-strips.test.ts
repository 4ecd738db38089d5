import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeStrips } from '../../src/strips/decode-strips.ts';
import { expectNear } from '../expect-near.ts';
import { feature, readBook, readOneStrip, stripFeature, stripsFile } from './invented-strip.ts';

/** Problems of a text as "severity where: message". */
function problemsOf(text: string): string[] {
  return decodeStrips(text).problems.map(
    ({ severity, where, message }) => `${severity} ${where}: ${message}`,
  );
}

function expectRefused(text: string, ...messages: string[]) {
  expect(decodeStrips(text).ok).toBe(false);
  expect(problemsOf(text).filter((each) => each.startsWith('error'))).toEqual(
    messages.map((message) => `error ${message}`),
  );
}

describe('a plain strip', () => {
  const strip = readOneStrip();

  test('[ST1] has its properties and positions, longitude first in the file', () => {
    expect(strip).toMatchObject({
      id: 'sedge',
      name: 'Sedge Bank',
      latDeg: [54.7, 54.7],
      lonDeg: [2.3, 2.306],
      widthM: 12,
      surface: 'grass',
      elevationM: [10, 14],
      profile: null,
      positionErrorM: 5,
    });
  });

  test('[ST2] without directions gets both from the bearing, with every distance its length', () => {
    expect(strip.directions.map(({ designator, from, use }) => [designator, from, use])).toEqual([
      ['09', 'A', 'both'],
      ['27', 'B', 'both'],
    ]);
    for (const direction of strip.directions) {
      // 0.006 degrees of longitude at 54.7 north, by the radius of curvature: 386.83 m.
      for (const name of ['ldaM', 'toraM', 'todaM', 'asdaM'] as const) {
        expectNear(direction[name], 386.83, 0.01, name);
      }
      expect(direction.displacedM).toBe(0);
      expect(direction.circuit).toBeNull();
    }
  });

  test.each([
    [54.7035, 2.3, '36', '18'],
    [54.7035, 2.30049, '36', '18'],
    [54.7035, 2.3007, '01', '19'],
    [54.6965, 2.3, '18', '36'],
    [54.7, 2.295, '27', '09'],
  ])('[ST3] towards %d, %d it is called %s and %s', (lat, lon, there, back) => {
    const { directions } = readOneStrip({}, [
      [2.3, 54.7],
      [lon, lat],
    ]);
    expect(directions.map((each) => each.designator)).toEqual([there, back]);
  });
});

describe('declared distances', () => {
  test('[ST4] TODA and ASDA follow a given TORA, LDA loses the displacement', () => {
    const [direction] = readOneStrip({
      directions: [{ designator: '09', from: 'A', displacedM: 40, toraM: 350, circuit: 'left' }],
    }).directions;
    expect(direction).toMatchObject({ toraM: 350, todaM: 350, asdaM: 350, circuit: 'left' });
    expectNear(direction.ldaM, 346.83, 0.01, 'LDA');
  });

  test('[ST5] all that is given is kept: one-way, with a commit point', () => {
    const directions = [
      {
        designator: '09',
        from: 'A',
        use: 'landing',
        displacedM: 20,
        ldaM: 300,
        toraM: 310,
        todaM: 360,
        asdaM: 320,
        circuit: 'right',
        circuitHeightM: 240,
        commitM: -400,
      },
    ];
    expect(readOneStrip({ directions }).directions).toEqual(directions);
  });

  const directed = (...directions: unknown[]) => stripsFile(stripFeature({ directions }));
  const where = 'features[0] ("sedge")';

  test('[ST6] refuses a displacement as long as the strip', () => {
    expectRefused(
      directed({ designator: '09', from: 'A', displacedM: 400 }),
      `${where}: directions[0].displacedM: found 400 m, expected less than the length of 386.8 m`,
    );
  });

  test('[ST7] refuses LDA, TORA and commit point that the strip cannot hold', () => {
    expectRefused(
      directed({ designator: '09', from: 'A', displacedM: 40, ldaM: 380 }),
      `${where}: directions[0].ldaM: found 380 m, expected at most the rest of 346.8 m`,
    );
    expectRefused(
      directed({ designator: '09', from: 'A', ldaM: 500, toraM: 450, commitM: 390 }),
      `${where}: directions[0].ldaM: found 500 m, expected at most the length of 386.8 m`,
      `${where}: directions[0].toraM: found 450 m, expected at most the length of 386.8 m`,
      `${where}: directions[0].commitM: found 390 m, expected at most the far end, 386.8 m from the threshold`,
    );
  });

  test('[ST8] an excess within the error of the drawn ends is a warning', () => {
    const text = directed({ designator: '09', from: 'A', ldaM: 390 });
    expect(decodeStrips(text).ok).toBe(true);
    expect(problemsOf(text)).toEqual([
      `warning ${where}: directions[0].ldaM: found 390 m, expected at most the length of 386.8 m`,
    ]);
  });

  test('[ST9] refuses TODA or ASDA below TORA', () => {
    expectRefused(
      directed({ designator: '09', from: 'A', toraM: 380, todaM: 370, asdaM: 300 }),
      `${where}: directions[0].todaM: found 370 m, expected at least the TORA of 380.0 m`,
      `${where}: directions[0].asdaM: found 300 m, expected at least the TORA of 380.0 m`,
    );
  });

  test('[ST10] refuses two directions from one end or of one name', () => {
    expectRefused(
      directed({ designator: '09', from: 'A' }, { designator: '09', from: 'A' }),
      `${where}: directions[1].from: found a second direction from end A, expected one from each end`,
      `${where}: directions[1].designator: found "09" twice, expected two different ones`,
    );
  });

  test('[ST11] warns where the designator contradicts the bearing', () => {
    expect(problemsOf(directed({ designator: '27', from: 'A' }))).toEqual([
      `warning ${where}: directions[0].designator: found "27" from end A, expected one near the true bearing of 90 degrees; does this direction begin at the other end?`,
    ]);
    // Latitude and longitude swapped turn 05 (58 degrees) into 32 degrees, 17 into -80.
    expect(problemsOf(directed({ designator: '17L', from: 'A' }))).toEqual([
      `warning ${where}: directions[0].designator: found "17L" from end A, expected one near the true bearing of 90 degrees; are latitude and longitude swapped?`,
    ]);
    // 99 tens of degrees are two turns and 270 degrees, and still no bearing.
    for (const designator of ['99', '00', '37']) {
      expect(problemsOf(directed({ designator, from: 'B' }))).toEqual([
        `warning ${where}: directions[0].designator: found "${designator}", expected 01 to 36, tens of degrees`,
      ]);
    }
    expect(problemsOf(directed({ designator: 'North', from: 'A' }))).toEqual([]);
    expect(problemsOf(directed({ designator: '12', from: 'A' }))).toEqual([]);
  });
});

describe('a strip that cannot be', () => {
  const where = 'features[0] ("sedge")';

  test.each([
    [[[2.3, 54.7]], 'found 1 position, expected 2 or more'],
    [
      [
        [2.3, 54.7],
        [2.3, 54.7],
      ],
      'found a centreline of 0.0 m, expected 50 m to 5 km from end A to end B',
    ],
    [
      [
        [2.3, 54.7],
        [2.3, 54.7004],
      ],
      'found a centreline of 44.5 m, expected 50 m to 5 km from end A to end B',
    ],
    [
      [
        [2.3, 54.7],
        [2.3, 54.75],
      ],
      'found a centreline of 5565.9 m, expected 50 m to 5 km from end A to end B',
    ],
    [
      [
        [2.3, 54.7],
        [2.306, 54.7],
        [2.301, 54.7002],
      ],
      'found a bend of 176 degrees, expected at most 60',
    ],
  ])('[ST12] refuses the centreline %j', (coordinates, message) => {
    expectRefused(
      stripsFile(stripFeature({}, coordinates)),
      `${where}: geometry.coordinates: ${message}`,
    );
  });

  test('[ST13] refuses positions off the globe and asks whether they are swapped', () => {
    expectRefused(
      stripsFile(
        stripFeature({}, [
          [54.7, 102.3],
          [54.7, 102.306],
        ]),
      ),
      `${where}: geometry.coordinates[0]: found longitude 54.7, latitude 102.3, expected -180 to 180 and -90 to 90; are latitude and longitude swapped?`,
    );
    expectRefused(
      stripsFile(stripFeature({}, [[2.3, 54.7], '2.3,54.7'])),
      `${where}: geometry.coordinates[1]: found "2.3,54.7", expected [longitude, latitude] in degrees`,
    );
  });

  test('[ST14] names every property that does not fit, with what was found and expected', () => {
    const properties = {
      widthM: '12',
      surface: 'mud',
      elevationM: [1],
      positionErrorM: -1,
      directions: [{ designator: 9, from: 'C', toraM: 5 }],
    };
    expectRefused(
      stripsFile(stripFeature(properties)),
      `${where}: widthM: found "12", expected a number from 1 to 300 metres`,
      `${where}: surface: found "mud", expected "grass", "hard", "gravel" or "earth"`,
      `${where}: elevationM[1]: found nothing, expected a number from -500 to 6000 metres`,
      `${where}: positionErrorM: found -1, expected a number from 0 to 200 metres`,
      `${where}: directions[0].designator: found 9, expected a designator such as "09" or "27L", as text`,
      `${where}: directions[0].from: found "C", expected "A" or "B"`,
      `${where}: directions[0].toraM: found 5, expected a number from 20 to 6000 metres`,
    );
  });

  test('[ST15] refuses a missing id and an id given twice', () => {
    expectRefused(
      stripsFile(stripFeature({ id: undefined, name: undefined })),
      'features[0]: id: found nothing, expected an id, as text',
    );
    expectRefused(
      stripsFile(stripFeature(), stripFeature({ name: 'Other' })),
      `features[1] ("sedge"): id: found "sedge" again, expected one that differs from ${where}`,
    );
  });

  test('[ST16] refuses a profile that does not rise in distance or runs past end B', () => {
    const profiled = (...profile: number[][]) => stripsFile(stripFeature({ profile }));
    expectRefused(
      profiled([0, 10], [200, 11], [200, 12]),
      `${where}: profile[2]: found 200 m after 200 m, expected distances from A that rise`,
    );
    expectRefused(
      profiled([0, 10], [420, 14]),
      `${where}: profile: found 420 m from A, expected at most the length of 386.8 m`,
    );
  });

  test('[ST17] warns of feet for metres and of a profile that contradicts the ends', () => {
    expect(problemsOf(stripsFile(stripFeature({ elevationM: [30, 330] })))).toEqual([
      `warning ${where}: elevationM: found a slope of 78 %, expected at most 20 %; are the elevations in metres?`,
    ]);
    const profile = [
      [0, 10],
      [386.9, 18],
    ];
    expect(problemsOf(stripsFile(stripFeature({ profile })))).toEqual([
      `warning ${where}: profile: found 18.0 m at end B, expected the 14 m of elevationM`,
    ]);
  });
});

describe('around the strip', () => {
  const around = (...features: unknown[]) => stripsFile(stripFeature(), ...features);
  const ring = [
    [2.3, 54.7],
    [2.4, 54.7],
    [2.4, 54.8],
    [2.3, 54.7],
  ];

  test('[ST18] reads obstacles, avoid areas and approach paths', () => {
    const book = readBook(
      around(
        feature(
          { kind: 'obstacle', strip: 'sedge', topAboveThresholdM: 9 },
          'Point',
          [2.299, 54.7],
        ),
        feature({ kind: 'obstacle', name: 'Hedge', heightM: 2 }, 'LineString', ring),
        feature({ kind: 'avoid', name: 'Saltcote', belowMslM: 300 }, 'Polygon', [ring]),
        feature({ kind: 'approach-path', strip: 'sedge', designator: '27' }, 'LineString', ring),
      ),
    );
    expect(book.obstacles).toMatchObject([
      { strip: 'sedge', name: 'obstacle', topMslM: null, topAboveThresholdM: 9, heightM: null },
      { strip: null, name: 'Hedge', topMslM: null, topAboveThresholdM: null, heightM: 2 },
    ]);
    expect(book.obstacles[0].latDeg).toEqual([54.7]);
    expect(book.avoidAreas).toMatchObject([{ name: 'Saltcote', belowMslM: 300, rings: [ring] }]);
    expect(book.approachPaths).toMatchObject([
      { strip: 'sedge', designator: '27', lonDeg: [2.3, 2.4, 2.4, 2.3] },
    ]);
  });

  test('[ST19] a top above sea level goes before the other heights, with a warning', () => {
    const text = around(
      feature({ kind: 'obstacle', heightM: 8, topMslM: 30 }, 'Point', [2.299, 54.7]),
    );
    expect(readBook(text).obstacles).toMatchObject([{ topMslM: 30, heightM: null }]);
    expect(problemsOf(text)).toEqual([
      'warning features[1]: found topMslM and heightM, expected one height; topMslM is used',
    ]);
  });

  test('[ST20] refuses an obstacle without height or without the strip it counts from', () => {
    expectRefused(
      around(
        feature({ kind: 'obstacle' }, 'Point', [2.299, 54.7]),
        feature({ kind: 'obstacle', topAboveThresholdM: 4 }, 'Point', [2.299, 54.7]),
      ),
      'features[1]: found no height, expected topMslM, topAboveThresholdM or heightM',
      'features[2]: strip: found nothing, expected the id of the strip that topAboveThresholdM counts from',
    );
  });

  test('[ST21] refuses an open ring and a wrong geometry', () => {
    expectRefused(
      around(
        feature({ kind: 'avoid' }, 'Polygon', [[...ring.slice(0, 3), [2.31, 54.7]]]),
        feature({ kind: 'avoid' }, 'Point', [2.3, 54.7]),
        feature({ kind: 'obstacle', heightM: 3 }, 'Polygon', [ring]),
      ),
      'features[1]: geometry.coordinates[0]: the last position differs from the first, expected the same',
      'features[2]: geometry: found Point, expected Polygon',
      'features[3]: geometry: found Polygon, expected Point or LineString',
    );
  });

  test('[ST105] warns of an area drawn over the 180th meridian as one, and takes it as two', () => {
    const box = (west: number, east: number) => [
      [
        [west, -17],
        [east, -17],
        [east, -16],
        [west, -16],
        [west, -17],
      ],
    ];
    const area = (west: number, east: number) =>
      feature({ kind: 'avoid' }, 'Polygon', box(west, east));
    expect(problemsOf(around(area(-179.9, 179.9)))).toEqual([
      'warning features[1]: geometry: found 359.8 degrees of longitude from edge to edge, expected at most 180; give an area over the 180th meridian as two',
    ]);
    expect(problemsOf(around(area(179.9, 180), area(-180, -179.9)))).toEqual([]);
  });

  test('[ST22] warns of a strip or direction that the file does not hold', () => {
    const path = (strip: string, designator: string) =>
      feature({ kind: 'approach-path', strip, designator }, 'LineString', ring);
    expect(problemsOf(around(path('oyster', '09'), path('sedge', '36')))).toEqual([
      'warning features[1]: strip: found "oyster", expected the id of a strip in this file',
      'warning features[2]: designator: found "36", expected "09" or "27"',
    ]);
  });

  test('[ST23] keeps a feature of another kind as it is, with a note', () => {
    const pond = feature({ kind: 'pond', depth: { atM: 3 } }, 'Point', [2.3, 54.7]);
    expect(readBook(around(pond)).other).toEqual([pond]);
    expect(problemsOf(around(pond))).toEqual([
      'note features[1]: kind: found "pond", expected "strip", "obstacle", "avoid" or "approach-path"; it is kept but not used',
    ]);
  });
});

describe('a file that is no strips file', () => {
  test.each([
    ['', 'found text that is not JSON'],
    ['{"type": "FeatureColl', 'found text that is not JSON'],
    ['[]', 'type: found nothing, expected "FeatureCollection"'],
    ['null', 'type: found nothing, expected "FeatureCollection"'],
    ['{"type":"Feature"}', 'type: found "Feature", expected "FeatureCollection"'],
    ['{"type":"FeatureCollection","features":{}}', 'features: found {}, expected a list'],
    ['<gpx/>', 'found text that is not JSON'],
    ['['.repeat(200_000), 'found text that is not JSON'],
    ['['.repeat(1000) + ']'.repeat(1000), 'found over 40 levels'],
    [' '.repeat(20_000_001), 'found 20000001 characters, expected at most 20000000'],
    [stripsFile(5), 'type: found nothing, expected "Feature"'],
    [stripsFile({ type: 'Feature', properties: { kind: 'strip' } }), 'geometry: found none'],
  ])('[ST24] refuses case %# with a reason', (text, reason) => {
    const read = decodeStrips(text);
    expect(read.ok).toBe(false);
    expect(read.problems[0].message).toContain(reason);
  });

  test('[ST25] takes a byte order mark, and an empty collection with a warning', () => {
    expect(decodeStrips(`\uFEFF${stripsFile(stripFeature())}`).ok).toBe(true);
    expect(problemsOf(stripsFile())).toEqual([
      'warning file: found no feature with "kind": "strip", expected one or more',
    ]);
  });
});

test('[ST26] whatever stands in a feature, it gives a book or a reason, and never throws', () => {
  const odd = fc.oneof(
    fc.jsonValue({ maxDepth: 2 }),
    fc.double(),
    fc.constantFrom('A', '09', 'grass', 'Polygon', 1e308, -0, 5e-324),
  );
  const place = fc.oneof(
    fc.tuple(fc.double({ min: -180, max: 180 }), fc.double({ min: -90, max: 90 })),
    fc.tuple(fc.double({ min: 2.3, max: 2.301 }), fc.double({ min: 54.7, max: 54.71 })),
    odd,
  );
  const features = fc.array(
    fc.record({
      type: fc.constantFrom('Feature', 'Feature', 'feature'),
      properties: fc.record(
        {
          kind: fc.constantFrom('strip', 'obstacle', 'avoid', 'approach-path'),
          id: fc.oneof(fc.constant('sedge'), odd),
          strip: fc.oneof(fc.constant('sedge'), odd),
          designator: odd,
          widthM: fc.oneof(fc.constant(10), odd),
          surface: fc.oneof(fc.constant('grass'), odd),
          elevationM: fc.oneof(fc.constant([1, 2]), odd),
          profile: fc.array(fc.tuple(odd, odd)),
          directions: fc.oneof(fc.array(fc.record({ designator: odd, from: odd, ldaM: odd })), odd),
          heightM: odd,
        },
        { requiredKeys: ['kind'] },
      ),
      geometry: fc.record({
        type: fc.constantFrom('LineString', 'Point', 'Polygon'),
        coordinates: fc.oneof(fc.array(place), place, fc.array(fc.array(place))),
      }),
    }),
    { maxLength: 4 },
  );
  let read = 0;
  fc.assert(
    fc.property(features, (list) => {
      const book = decodeStrips(stripsFile(...list));
      if (book.ok) read += list.length > 0 ? 1 : 0;
      else expect(book.problems.some((each) => each.severity === 'error')).toBe(true);
    }),
    { seed: 31, numRuns: 2000 },
  );
  // Some get through, so that the depths are reached as well.
  expect(read).toBeGreaterThan(0);
});
