/** Reading touchdowns that are known from outside the log. */
import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeTouchdowns } from '../../src/debrief/decode-touchdowns.ts';

const MARKED = { time: '2024-07-14T12:58:45Z', alongM: 142 };
const NOTED = { time: '2024-07-15T07:03:09.5Z', alongM: -3.5, note: 'two marks, paced twice' };

function document(touchdowns: unknown, more: object = {}): string {
  return JSON.stringify({ schema: 1, kind: 'touchdowns', touchdowns, ...more });
}

describe('[TDF1] reading touchdowns', () => {
  test('[TDF1] reads place, note and the UTC second of each, in order', () => {
    const result = decodeTouchdowns(document([MARKED, NOTED]));
    expect(result).toEqual({
      ok: true,
      value: [
        { timeS: Date.UTC(2024, 6, 14, 12, 58, 45) / 1000, alongM: 142, note: null },
        { timeS: Date.UTC(2024, 6, 15, 7, 3, 9, 500) / 1000, alongM: -3.5, note: NOTED.note },
      ],
      problems: [],
    });
  });

  test('[TDF1] an empty list is a list, and a place of zero an entry', () => {
    expect(decodeTouchdowns(document([]))).toEqual({ ok: true, value: [], problems: [] });
    const zero = decodeTouchdowns(document([{ ...MARKED, alongM: 0 }]));
    expect(zero.ok && zero.value[0].alongM).toBe(0);
  });

  test('[TDF2] an unknown field is a warning and everything else is read', () => {
    const result = decodeTouchdowns(document([MARKED, { ...NOTED, crossM: 2 }], { strip: 'x' }));
    expect(result.ok && result.value).toHaveLength(2);
    expect(result.problems.map(({ severity, where }) => [severity, where])).toEqual([
      ['warning', 'strip'],
      ['warning', 'touchdowns.1.crossM'],
    ]);
  });
});

const schema = JSON.parse(readFileSync('docs/schema/touchdowns.schema.json', 'utf8')) as object;
const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);

describe('[TDF3] slips get a message with the field, what was found and what was expected', () => {
  test.each([
    ['no time', { alongM: 142 }, 'touchdowns.0.time', 'this field is missing'],
    [
      'a time without its zone',
      { ...MARKED, time: '2024-07-14T12:58:45' },
      'touchdowns.0.time',
      'found "2024-07-14T12:58:45", expected a UTC time as "2024-07-14T12:58:45Z"',
    ],
    ['seconds since 1970', { ...MARKED, time: 1720961925 }, 'touchdowns.0.time', 'found 17209619'],
    ['no place', { time: MARKED.time }, 'touchdowns.0.alongM', 'this field is missing'],
    [
      'a place as text',
      { ...MARKED, alongM: '142 m' },
      'touchdowns.0.alongM',
      'found "142 m", expected a number from -5000 to 5000 m',
    ],
    [
      'a place beyond any strip',
      { ...MARKED, alongM: 5001 },
      'touchdowns.0.alongM',
      'found 5001, expected a number from -5000 to 5000 m',
    ],
    ['an empty note', { ...MARKED, note: '' }, 'touchdowns.0.note', 'expected a text of 1 to 300'],
    [
      'a number in place of a touchdown',
      142,
      'touchdowns.0',
      'expected an object with time and alongM',
    ],
  ])('[TDF3] %s, and the JSON Schema refuses it too', (_what, touchdown, where, message) => {
    const text = document([touchdown]);
    const result = decodeTouchdowns(text);
    expect(result.ok).toBe(false);
    expect(result.problems.map((problem) => problem.where)).toEqual([where]);
    expect(result.problems[0].message).toContain(message);
    expect(validate(JSON.parse(text))).toBe(false);
  });

  test.each(['2024-02-30T12:00:00Z', '2024-07-14T24:00:00Z', '2024-07-14T12:60:00Z'])(
    '[TDF3] a time that no clock shows: %s',
    (time) => {
      const result = decodeTouchdowns(document([{ ...MARKED, time }]));
      expect(result.problems.map(({ where }) => where)).toEqual(['touchdowns.0.time']);
      expect(result.problems[0].message).toContain(`found "${time}", expected a UTC time`);
    },
  );

  test.each([
    ['another kind', { kind: 'conditions' }, 'kind'],
    ['another schema', { schema: 2 }, 'schema'],
    ['no list', { touchdowns: MARKED }, 'touchdowns'],
  ])('[TDF3] %s', (_what, change, where) => {
    const text = document([MARKED], change);
    const result = decodeTouchdowns(text);
    expect(result.ok).toBe(false);
    expect(result.problems.map((problem) => problem.where)).toEqual([where]);
    expect(validate(JSON.parse(text))).toBe(false);
  });

  test('[TDF3] each slip of several is named by its place in the list', () => {
    const result = decodeTouchdowns(document([MARKED, { ...NOTED, alongM: null }, { time: 'x' }]));
    expect(result.problems.map(({ where }) => where).sort()).toEqual([
      'touchdowns.1.alongM',
      'touchdowns.2.alongM',
      'touchdowns.2.time',
    ]);
  });
});

test('[TDF6] two touchdowns at one time are refused: one of them is about another landing', () => {
  const at = (time: string, alongM: number) => ({ time, alongM });
  const twice = [at('2025-06-01T10:00:00Z', 31), at('2025-06-01T10:00:00.000Z', 60)];
  const result = decodeTouchdowns(document(twice));
  expect(result.ok).toBe(false);
  expect(result.problems[0].where).toBe('touchdowns');
  expect(result.problems[0].message).toContain('expected one touchdown at each time');
  expect(decodeTouchdowns(document([twice[0], at('2025-06-01T10:05:00Z', 60)])).ok).toBe(true);
});

describe('[TDF4] whatever the file holds', () => {
  test('[TDF4] any text gives touchdowns or messages', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const result = decodeTouchdowns(text);
        expect(result.ok).toBe(false);
        expect(result.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 300, seed: 20260410 },
    );
    expect(decodeTouchdowns('[oops').problems[0].code).toBe('touchdowns-not-json');
  });

  test('[TDF4] any JSON value in its fields gives touchdowns or messages', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), fc.jsonValue(), (time, alongM, whole) => {
        for (const text of [document([{ time, alongM }]), document(whole), JSON.stringify(whole)]) {
          const result = decodeTouchdowns(text);
          expect(result.ok || result.problems.length > 0).toBe(true);
        }
      }),
      { numRuns: 300, seed: 20260411 },
    );
  });

  test('[TDF5] what the reader takes, the JSON Schema takes', () => {
    const seconds = fc.integer({ min: 946_684_800, max: 4_102_444_799 });
    const touchdown = fc.record(
      {
        time: seconds.map((timeS) => new Date(timeS * 1000).toISOString()),
        alongM: fc.double({ min: -5000, max: 5000, noNaN: true }),
        note: fc.option(fc.string({ minLength: 1, maxLength: 300, unit: 'grapheme-ascii' })),
      },
      { requiredKeys: ['time', 'alongM'] },
    );
    fc.assert(
      fc.property(
        fc.uniqueArray(touchdown, { maxLength: 4, selector: ({ time }) => time }),
        (touchdowns) => {
          const text = document(touchdowns);
          validate(JSON.parse(text));
          expect(validate.errors).toBeNull();
          const result = decodeTouchdowns(text);
          if (!result.ok) throw new Error(result.problems[0].message);
          // Written again from what was read, it says the same.
          const again = result.value.map(({ timeS, alongM, note }) => ({
            time: new Date(timeS * 1000).toISOString(),
            alongM,
            note,
          }));
          expect(decodeTouchdowns(document(again))).toEqual(result);
        },
      ),
      { numRuns: 200, seed: 20260412 },
    );
  });
});
