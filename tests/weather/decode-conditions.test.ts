import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ConditionsBook } from '../../src/weather/conditions.ts';
import { conditionsFor, decodeConditions } from '../../src/weather/decode-conditions.ts';

const FULL = {
  wind: { fromDeg: 240, reference: 'magnetic', speedKt: 9, gustKt: 15 },
  tempC: 18,
  qnhHpa: 1009,
  massKg: 980,
  takeOffMassKg: 995,
  surface: 'grass-dry',
  flap: 'full',
  aeroplane: 'marram-160',
  factorSet: 'uk-leaflet',
  effort: 'normal',
};

function document(all: unknown, flights: unknown = {}): string {
  return JSON.stringify({ schema: 1, kind: 'conditions', all, flights });
}

function read(text: string): ConditionsBook {
  const result = decodeConditions(text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

describe('[CON1] reading conditions', () => {
  test('[CON1] reads every field as entered', () => {
    expect(read(document(FULL)).all).toEqual(FULL);
  });

  test('[CON2] absent and null both mean not entered, and nothing is filled in', () => {
    const absent = read(document({})).all;
    const explicit = read(document({ wind: null, tempC: null, surface: null })).all;
    expect(absent).toEqual(explicit);
    expect(Object.values(absent ?? { x: 0 }).every((value) => value === null)).toBe(true);
    expect(read('{"schema":1,"kind":"conditions"}')).toEqual({ all: null, byFile: new Map() });
  });

  test('[CON3] fields of one flight win over those for all, and the rest is kept', () => {
    const book = read(document(FULL, { 'a.igc': { tempC: 4, effort: 'coasted' } }));
    expect(conditionsFor(book, 'a.igc')).toEqual({ ...FULL, tempC: 4, effort: 'coasted' });
    expect(conditionsFor(book, 'b.igc')).toEqual(FULL);
  });

  test('[CON3] a temperature of zero for one flight is an entry, not a gap', () => {
    const book = read(document(FULL, { 'a.igc': { tempC: 0 } }));
    expect(conditionsFor(book, 'a.igc')?.tempC).toBe(0);
  });

  test('[CON10] limits of a final are read as entered, and those of one flight win whole', () => {
    const none = { groundSpeedKt: null, descentRateFpm: null, pathDeg: null, crossM: null };
    const all = { fromFt: 300, airspeedKt: [50, 62], ...none } as const;
    const own = { ...all, fromFt: 200, airspeedKt: null, crossM: [-20, 20] } as const;
    const book = read(
      document(
        { ...FULL, gateLimits: { fromFt: 300, airspeedKt: [50, 62] } },
        {
          'a.igc': { gateLimits: { fromFt: 200, crossM: [-20, 20] } },
          'b.igc': { tempC: 4 },
        },
      ),
    );
    expect(book.all).toEqual({ ...FULL, gateLimits: all });
    expect(conditionsFor(book, 'a.igc')).toEqual({ ...FULL, gateLimits: own });
    expect(conditionsFor(book, 'b.igc')).toEqual({ ...FULL, tempC: 4, gateLimits: all });
  });

  test('[CON3] without anything entered there are no conditions', () => {
    expect(conditionsFor(read(document(null)), 'a.igc')).toBeNull();
  });
});

describe('[CON4] slips get a message with the field, what was found and what was expected', () => {
  test.each([
    [
      'wind 500 kt',
      { wind: { ...FULL.wind, speedKt: 500, gustKt: null } },
      'all.wind.speedKt',
      'found 500, expected a number from 0 to 100 kt',
    ],
    [
      'true or magnetic not said',
      { wind: { fromDeg: 240, speedKt: 9 } },
      'all.wind.reference',
      'this field is missing',
    ],
    [
      'gust below the wind',
      { wind: { ...FULL.wind, gustKt: 5 } },
      'all.wind',
      'the gust is below the wind speed',
    ],
    ['temperature 200', { tempC: 200 }, 'all.tempC', 'found 200, expected a number from -50 to 60'],
    [
      'QNH in inches',
      { qnhHpa: 29.92 },
      'all.qnhHpa',
      'found 29.92, expected a number from 850 to 1100 hPa',
    ],
    ['mass zero', { massKg: 0 }, 'all.massKg', 'found 0, expected a number from 50 to 10000 kg'],
    ['mass as text', { massKg: '980' }, 'all.massKg', 'found "980"'],
    ['surface mud', { surface: 'mud' }, 'all.surface', 'found "mud", expected one of hard-dry'],
    [
      'limits without a height',
      { gateLimits: { pathDeg: [2, 5] } },
      'all.gateLimits.fromFt',
      'this field is missing',
    ],
    [
      'least above the most',
      { gateLimits: { fromFt: 300, airspeedKt: [62, 50] } },
      'all.gateLimits.airspeedKt',
      'expected the least first',
    ],
    [
      'one number for two',
      { gateLimits: { fromFt: 300, crossM: 20 } },
      'all.gateLimits.crossM',
      'found 20, expected a pair of numbers, least and most, in m',
    ],
    ['effort 11', { effort: 11 }, 'all.effort', 'found 11, expected one of full, normal, coasted'],
  ])('[CON4] %s', (_what, all, where, message) => {
    const result = decodeConditions(document(all));
    expect(result.ok).toBe(false);
    expect(result.problems.map((problem) => problem.where)).toEqual([where]);
    expect(result.problems[0].message).toContain(message);
  });

  test('[CON5] a slip in one flight names the flight', () => {
    const result = decodeConditions(document(null, { 'a.igc': { tempC: 99 } }));
    expect(result.ok).toBe(false);
    expect(result.problems[0].where).toBe('flights.a.igc.tempC');
  });

  test('[CON6] an unknown field is a warning and everything else is read', () => {
    const result = decodeConditions(document({ ...FULL, temperature: 3 }));
    expect(result.ok).toBe(true);
    expect(result.problems.map((problem) => problem.where)).toEqual(['all.temperature']);
  });

  test('[CON7] a very long wrong text is quoted short', () => {
    const result = decodeConditions(document({ surface: 'x'.repeat(5000) }));
    expect(result.problems[0].message.length).toBeLessThan(300);
  });

  test('[CON8] no JSON value makes the reader throw', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (all, flights) => {
        const result = decodeConditions(document(all, flights));
        expect(result.ok || result.problems.length > 0).toBe(true);
      }),
      { numRuns: 300, seed: 20260403 },
    );
    expect(decodeConditions('not json').problems[0].code).toBe('conditions-not-json');
  });
});

describe('[CON9] the JSON Schema', () => {
  const schema = JSON.parse(readFileSync('docs/schema/conditions.schema.json', 'utf8')) as object;
  const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);

  test('[CON9] accepts what the reader accepts', () => {
    for (const text of [
      document(FULL),
      document(null, { 'a.igc': FULL }),
      document({ wind: null }),
      document({ gateLimits: { fromFt: 300, airspeedKt: [50, 62], crossM: null } }),
    ]) {
      validate(JSON.parse(text));
      expect(validate.errors).toBeNull();
      expect(decodeConditions(text).ok).toBe(true);
    }
  });

  test.each([
    [{ wind: { speedKt: 5 } }],
    [{ wind: { reference: 'true', speedKt: 500 } }],
    [{ tempC: 200 }],
    [{ surface: 'mud' }],
    [{ massKg: 0 }],
    [{ flap: '' }],
  ])('[CON9] refuses what the reader refuses: %j', (all) => {
    expect(validate(JSON.parse(document(all)))).toBe(false);
    expect(decodeConditions(document(all)).ok).toBe(false);
  });
});
