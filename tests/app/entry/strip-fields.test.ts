import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { idFromName } from '../../../src/app/entry/id-from-name.ts';
import { directionDefaults } from '../../../src/app/entry/strip-defaults.ts';
import { stripFromFields } from '../../../src/app/entry/strip-from-fields.ts';
import { draftFromEnds } from '../../../src/app/entry/strip-draft.ts';
import { fieldsFromStrip } from '../../../src/app/entry/strip-fields.ts';
import type { Feature, Json } from '../../../src/logbook/entry.ts';
import { expectNear } from '../../expect-near.ts';
import {
  demoFeatures,
  demoStrip,
  enter,
  entered,
  FEET,
  messagesOf,
  NEW_STRIP,
  UNITS,
} from './strip-form-texts.ts';

const strips = demoFeatures.filter(
  ({ properties }) => (properties as { kind: string }).kind === 'strip',
);
const propertiesIn = ({ properties }: Feature) => properties as Record<string, Json>;

describe('an untouched form of a strip', () => {
  test.each(strips.map((each) => [propertiesIn(each).id as string, each] as const))(
    '[SE1] gives %s back exactly, in metres and in feet, and nothing is said to have moved',
    (_, feature) => {
      for (const units of [UNITS, FEET]) {
        const read = entered({}, feature, { units });
        expect(JSON.stringify(read.feature)).toBe(JSON.stringify(feature));
        expect(read.isMoved).toBe(false);
      }
    },
  );

  const metres = (min: number, max: number) =>
    fc.option(fc.double({ min, max, noNaN: true }), { nil: undefined });
  const direction = (designator: string, from: string) =>
    fc.record(
      {
        designator: fc.constant(designator),
        from: fc.constant(from),
        use: fc.constantFrom('both', 'landing', 'take-off', null),
        displacedM: metres(0, 100),
        circuit: fc.constantFrom('left', 'right', null),
        circuitHeightM: metres(30, 3000),
        commitM: metres(-2000, 100),
        remark: fc.string(),
      },
      { requiredKeys: ['designator', 'from'] },
    );
  const invented = fc.record(
    {
      kind: fc.constant('strip'),
      id: fc.constant('long-flat'),
      widthM: fc.double({ min: 1, max: 300, noNaN: true }),
      surface: fc.constantFrom('grass', 'hard', 'gravel', 'earth'),
      name: fc.constantFrom('Long Flat', null),
      elevationM: fc.tuple(
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
      ),
      positionErrorM: metres(0, 200),
      directions: fc.oneof(
        fc.tuple(direction('09', 'A')),
        fc.tuple(direction('27', 'B'), direction('09', 'A')),
        fc.constant(null),
      ),
      owner: fc.jsonValue(),
    },
    { requiredKeys: ['kind', 'id', 'widthM', 'surface'] },
  );

  test('[SE2] changes no figure, no order and no property that it does not know', () => {
    let taken = 0;
    fc.assert(
      fc.property(invented, fc.double({ min: 2.3056, max: 2.31, noNaN: true }), (raw, lon) => {
        const feature = JSON.parse(
          JSON.stringify({
            type: 'Feature',
            bbox: [2, 54, 3, 55],
            properties: raw,
            geometry: {
              type: 'LineString',
              coordinates: [
                [2.3, 54.7, 11],
                [2.303, 54.7001],
                [lon, 54.7],
              ],
            },
          }),
        ) as Feature;
        const read = enter({}, feature);
        // Declared figures that contradict each other are refused with their reasons, never mended.
        if (!read.ok) return;
        taken++;
        expect(read.feature).toEqual(feature);
      }),
      { seed: 2, numRuns: 300 },
    );
    expect(taken).toBeGreaterThan(150);
  });
});

describe('a new strip', () => {
  test('[SE3] needs name, surface, width and two ends; everything else stays a default', () => {
    const { feature, strip } = entered(NEW_STRIP);
    expect(feature).toEqual({
      type: 'Feature',
      properties: {
        kind: 'strip',
        id: 'long-flat',
        name: 'Long Flat',
        surface: 'grass',
        widthM: 18,
      },
      geometry: {
        type: 'LineString',
        coordinates: [
          [2.3, 54.7],
          [2.3062, 54.7],
        ],
      },
    });
    expect(strip.directions.map(({ designator, use }) => `${designator} ${use}`)).toEqual([
      '09 both',
      '27 both',
    ]);
    // 0.0062 degrees of longitude at 54.7 N: 0.0062 pi/180 x 6378137 cos(54.7)/sqrt(1 - e2 sin2) = 399.7 m.
    expectNear(strip.directions[0].ldaM, 399.7, 0.2);
  });

  test('[SE4] says of each field that is missing what was expected', () => {
    expect(messagesOf({})).toEqual({
      name: 'found nothing, expected a name',
      surface: 'found nothing, expected what it is made of',
      width: 'found nothing, expected the width',
      'a.lat': 'found nothing, expected the latitude',
      'a.lon': 'found nothing, expected the longitude',
      'b.lat': 'found nothing, expected the latitude',
      'b.lon': 'found nothing, expected the longitude',
    });
  });

  test('[SE5] gets an id of its own from its name, or the one that was typed', () => {
    const others = { otherIds: ['long-flat'] };
    expect(entered(NEW_STRIP, null, others).strip.id).toBe('long-flat-2');
    expect(entered({ ...NEW_STRIP, id: 'lf' }, null, others).strip.id).toBe('lf');
    expect(messagesOf({ ...NEW_STRIP, id: 'long-flat' }, null, others).id).toBe(
      'found "long-flat", which another strip has, expected one of its own',
    );
    expect(idFromName('  Älvängen / Süd 2 ', [])).toBe('alvangen-sud-2');
    expect(idFromName('\u2014', [])).toBe('');
  });

  test('[SE6] takes lengths and heights in the units of the pilot', () => {
    const change = { ...NEW_STRIP, width: '60', 'a.elevation': '100', 'b.elevation': '110 ft' };
    const properties = propertiesIn(entered(change, null, { units: FEET }).feature);
    expectNear(properties.widthM as number, 18.288, 1e-9);
    expectNear((properties.elevationM as number[])[0], 30.48, 1e-9);
    expectNear((properties.elevationM as number[])[1], 33.528, 1e-9);
  });

  test('[SE7] may begin with the ends of a roll, as an address carries them', () => {
    const draft = draftFromEnds(['54.7,2.3', '54.7,2.3062']);
    const fields = fieldsFromStrip(draft, UNITS);
    expect(fields).toMatchObject({ 'a.lat': '54.7', 'a.lon': '2.3', 'b.lon': '2.3062', name: '' });
    for (const ends of [[], ['54.7,2.3'], ['54.7', '2.3'], ['a,b', 'c,d'], ['1,2,3', '1,2']]) {
      expect(draftFromEnds(ends)).toBeNull();
    }
  });

  test('[SE19] ends that a roll drew stay a guess until the pilot says that they are known', () => {
    const draft = draftFromEnds(['54.7,2.3', '54.7,2.3062']);
    const typed = { ...fieldsFromStrip(draft, UNITS), name: 'Home', surface: 'grass', width: '20' };
    expect(typed.ends).toBe('guessed');
    const kept = stripFromFields(typed, UNITS, { feature: null, otherIds: [] });
    if (!kept.ok) throw new Error(JSON.stringify(kept.messages));
    expect(kept.strip.endsGuessed).toBe(true);
    const again = fieldsFromStrip(kept.feature, UNITS);
    expect(again.ends).toBe('guessed');
    const before = { feature: kept.feature, otherIds: [] };
    const known = stripFromFields({ ...again, ends: 'known' }, UNITS, before);
    if (!known.ok) throw new Error(JSON.stringify(known.messages));
    expect(known.strip.endsGuessed).toBe(false);
    expect(known.isMoved).toBe(false);
    expect(fieldsFromStrip(known.feature, UNITS).ends).toBe('known');
    const drawn = stripFromFields({ ...typed, ends: 'known' }, UNITS, {
      feature: null,
      otherIds: [],
    });
    expect(drawn.ok && drawn.feature.properties).not.toHaveProperty('endsGuessed');
  });
});

describe('directions', () => {
  test('[SE8] a direction that is entered is written with the designator of its bearing', () => {
    const { feature } = entered({ ...NEW_STRIP, 'a.circuit': 'left', 'b.displaced': '30' });
    expect(propertiesIn(feature).directions).toEqual([
      { from: 'A', designator: '09', circuit: 'left' },
      { from: 'B', designator: '27', displacedM: 30 },
    ]);
  });

  test('[SE9] one that is not used is not listed, and one has to be', () => {
    const oneWay = entered({ ...NEW_STRIP, 'b.use': 'none' });
    expect(propertiesIn(oneWay.feature).directions).toEqual([{ from: 'A', designator: '09' }]);
    expect(fieldsFromStrip(oneWay.feature, UNITS)).toMatchObject({
      'a.use': 'both',
      'b.use': 'none',
    });
    const neither = messagesOf({ ...NEW_STRIP, 'a.use': 'none', 'b.use': 'none' });
    expect(neither['a.use']).toBe('found neither direction in use, expected one or both');
  });

  test('[SE10] the defaults beside empty fields are those that the reader takes', () => {
    const change = { ...NEW_STRIP, 'a.displaced': '40', 'a.tora': '350' };
    const { strip } = entered(change);
    const fields = { ...fieldsFromStrip(null, UNITS), ...change };
    const shown = directionDefaults(fields, 'a', UNITS, null);
    const [a] = strip.directions;
    expect(shown).toMatchObject({
      designator: '09',
      lda: a.ldaM.toFixed(0),
      toda: a.todaM.toFixed(0),
      asda: a.asdaM.toFixed(0),
      tora: '400',
    });
    expect(a.todaM).toBe(350);
    expect(directionDefaults(fieldsFromStrip(null, UNITS), 'a', UNITS, null).lda).toBe('');
  });

  test('[SE11] a figure taken out leaves no trace, so that the default counts again', () => {
    const { feature } = entered({ 'a.lda': '', 'a.commit': '' }, demoStrip('hollowmere'));
    const [first] = propertiesIn(feature).directions as Record<string, Json>[];
    expect(Object.keys(first)).not.toContain('ldaM');
    expect(Object.keys(first)).not.toContain('commitM');
  });
});

describe('what is wrong', () => {
  test.each([
    ['width', '900', 'found 900, expected a number from 1 to 300 metres'],
    ['positionError', '500', 'found 500, expected a number from 0 to 200 metres'],
    ['a.lda', '900', 'found 900 m, expected at most the length of 560.4 m'],
    ['a.commit', 'no', 'found "no", expected a number of m'],
    ['b.lda', '20', null],
    ['b.toda', '100', 'found 100 m, expected at least the TORA of 560.0 m'],
    ['b.designator', '07', 'found "07" twice, expected two different ones'],
    ['a.elevation', '', 'found nothing, expected both elevations or none'],
    ['a.lat', '54.7 E', 'found "54.7 E", expected a latitude with N or S'],
  ] as const)('[SE12] %s with %j is told beside that field: %s', (field, text, message) => {
    expect(messagesOf({ [field]: text }, demoStrip('ternholm'))).toEqual(
      message === null ? {} : { [field]: message },
    );
  });

  test('[SE13] is told in the unit that was typed', () => {
    expect(messagesOf({ 'a.circuitHeight': '20000' }, demoStrip('ternholm'))).toEqual({
      'a.circuitHeight': 'found 20000 ft (6096 m), expected a number from 30 to 3000 metres',
    });
  });

  test('[SE14] a centreline that is none is told at its far end', () => {
    expect(messagesOf({ ...NEW_STRIP, 'b.lon': '2.3001' })['b.lat']).toMatch(
      /^found a centreline of 6\.\d m, expected 50 m to 5 km/,
    );
  });

  test('[SE15] what only looks odd is a warning with its field, and the strip is taken', () => {
    const { warnings } = entered({ ...NEW_STRIP, 'a.designator': '27', 'b.designator': '09' });
    expect(warnings.map(({ field }) => field)).toEqual(['a.designator', 'b.designator']);
    expect(warnings[0].text).toMatch(/does this direction begin at the other end\?$/);
  });
});

describe('a line that moves', () => {
  test('[SE18] keeps what the feature holds besides, but no box that it lies outside of', () => {
    const plain = demoStrip('ternholm');
    const { coordinates } = plain.geometry as { coordinates: [number, number][] };
    const [lons, lats] = [0, 1].map((axis) => coordinates.map((each) => each[axis]));
    const box = [Math.min(...lons), Math.min(...lats), Math.max(...lons), Math.max(...lats)];
    const before: Feature = { ...plain, id: 'tern', survey: { by: 'tape' }, bbox: box };
    const wider = entered({ width: '20' }, before).feature;
    expect(wider).toMatchObject({ id: 'tern', survey: { by: 'tape' }, bbox: box });
    const outwards = 0.0005 * Math.sign(lats[0] - lats[lats.length - 1]);
    const moved = entered({ 'a.lat': (lats[0] + outwards).toFixed(6) }, before).feature;
    expect(moved).toMatchObject({ id: 'tern', survey: { by: 'tape' } });
    expect(moved).not.toHaveProperty('bbox');
  });

  test('[SE16] is noticed where an end or a threshold lies elsewhere, and only there', () => {
    const before = demoStrip('ternholm');
    expect(entered({ 'a.lat': '54 42.001 N' }, before).isMoved).toBe(true);
    expect(entered({ 'b.displaced': '55', 'b.lda': '505' }, before).isMoved).toBe(true);
    expect(entered({ width: '20', name: 'Ternholm West', 'a.circuit': '' }, before).isMoved).toBe(
      false,
    );
  });

  test('[SE17] keeps what lies between its ends and behind their two figures', () => {
    const before: Feature = {
      ...demoStrip('ternholm'),
      geometry: {
        type: 'LineString',
        coordinates: [
          [2.3, 54.7, 11],
          [2.304, 54.7009, 12],
          [2.308219, 54.7016387],
        ],
      },
    };
    const { feature } = entered({ 'b.lon': '2.3083' }, before);
    expect(feature.geometry).toEqual({
      type: 'LineString',
      coordinates: [
        [2.3, 54.7, 11],
        [2.304, 54.7009, 12],
        [2.3083, 54.7016387],
      ],
    });
  });
});
