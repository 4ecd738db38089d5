import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeAeroplane } from '../../src/performance/decode-aeroplane.ts';
import type { Problem } from '../../src/result.ts';

const SAMPLES = ['marram-160', 'eelgrass-450'];

function sampleText(id: string): string {
  return readFileSync(`tracks-sample/aeroplanes/${id}.json`, 'utf8');
}

/** The four-seater's document with one change, as text. */
function changed(change: (document: Record<string, unknown>) => void): string {
  const document = JSON.parse(sampleText('marram-160')) as Record<string, unknown>;
  change(document);
  return JSON.stringify(document);
}

function problemsOf(text: string): readonly Problem[] {
  const result = decodeAeroplane(text);
  expect(result.ok).toBe(false);
  return result.problems;
}

interface LooseTable {
  massKg: number[];
  tempC: number[];
  screenHeightM: number | null;
  distanceM: number[][][];
}

const tablesOf = (document: Record<string, unknown>): LooseTable[] =>
  document.tables as LooseTable[];

describe('[AER1] the invented aeroplanes', () => {
  test.each(SAMPLES)('[AER1] %s is read without a problem and is marked as invented', (id) => {
    const result = decodeAeroplane(sampleText(id));
    expect(result.problems).toEqual([]);
    if (!result.ok) throw new Error('not read');
    expect(result.value.id).toBe(id);
    expect(result.value.invented).toBe(true);
    expect(result.value.tables.length).toBeGreaterThan(0);
  });

  test.each(SAMPLES)('[AER2] %s fits the JSON Schema', (id) => {
    const schema = JSON.parse(readFileSync('docs/schema/aeroplane.schema.json', 'utf8')) as object;
    const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);
    validate(JSON.parse(sampleText(id)));
    expect(validate.errors).toBeNull();
  });

  test('[AER2] the JSON Schema and the reader refuse the same slips', () => {
    const schema = JSON.parse(readFileSync('docs/schema/aeroplane.schema.json', 'utf8')) as object;
    const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);
    const slips = [
      changed((d) => delete d.speeds),
      changed((d) => (d.gear = 'skids')),
      changed((d) => (d.brakes = 'yes')),
      changed((d) => (d.massKg = { min: 0, maxTakeOff: 1100, maxLanding: 1100 })),
      changed((d) => (tablesOf(d)[0].tempC[2] = 200)),
      changed((d) => (tablesOf(d)[0].distanceM[0][0][0] = 0)),
    ];
    for (const text of slips) {
      expect(validate(JSON.parse(text)), text.slice(0, 80)).toBe(false);
      expect(decodeAeroplane(text).ok).toBe(false);
    }
  });
});

describe('[AER3] hostile and mistaken numbers get a message that names the field and the range', () => {
  test.each([
    [
      'mass zero',
      changed((d) => (d.massKg = { min: 0, maxTakeOff: 1100, maxLanding: 1100 })),
      'massKg.min',
      'found 0, expected a number from 50 to 10000 kg',
    ],
    [
      'temperature 200',
      changed((d) => (tablesOf(d)[0].tempC[2] = 200)),
      'tables.0.tempC.2',
      'found 200, expected a number from -50 to 60 degrees Celsius',
    ],
    [
      'text for a number',
      changed((d) => (tablesOf(d)[1].distanceM[0][0][0] = '310 m' as never)),
      'tables.1.distanceM.0.0.0',
      'found "310 m", expected a number from 5 to 5000 m',
    ],
    [
      'NaN, which JSON writes as null',
      changed((d) => (tablesOf(d)[1].distanceM[0][0][0] = Number.NaN)),
      'tables.1.distanceM.0.0.0',
      'found null, expected a number from 5 to 5000 m',
    ],
    [
      'infinity',
      sampleText('eelgrass-450').replace('[[[220]]]', '[[[1e999]]]'),
      'tables.0.distanceM.0.0.0',
      'found Infinity, expected a number from 5 to 5000 m',
    ],
    [
      'a distance that shrinks with mass',
      changed((d) => (tablesOf(d)[0].distanceM[0][0] = [125, 145, 140])),
      'tables.0.distanceM.0.0.2',
      'found 140 m after 145 m, expected a distance that does not shrink',
    ],
    [
      'masses that fall',
      changed((d) => (tablesOf(d)[0].massKg = [850, 1100, 975])),
      'tables.0.massKg.2',
      'found 975 after 1100, expected rising values',
    ],
    [
      'a row too few',
      changed((d) => tablesOf(d)[0].distanceM.pop()),
      'tables.0.distanceM',
      'expected 3 altitudes of 3 temperatures of 3 masses',
    ],
    [
      'a screen of 35 ft',
      changed((d) => (tablesOf(d)[1].screenHeightM = 10.7)),
      'tables.1.screenHeightM',
      'found 10.7, expected 15 or 15.24 (50 ft)',
    ],
    [
      'a ground roll over a screen',
      changed((d) => (tablesOf(d)[0].screenHeightM = 15)),
      'tables.0.screenHeightM',
      'none for a ground roll',
    ],
    [
      'a second table of the same',
      changed((d) => tablesOf(d).push(tablesOf(d)[0])),
      'tables.4',
      'a second table of landing-roll with flap full',
    ],
    [
      'a landing mass above the take-off mass',
      changed((d) => (d.massKg = { min: 680, maxTakeOff: 1100, maxLanding: 1150 })),
      'massKg',
      'expected them to rise',
    ],
    ['another kind', changed((d) => (d.kind = 'strip')), 'kind', 'expected "aeroplane"'],
    ['a newer schema', changed((d) => (d.schema = 2)), 'schema', 'found 2, expected 1'],
    ['a missing field', changed((d) => delete d.gear), 'gear', 'this field is missing'],
  ])('[AER3] %s', (_what, text, where, message) => {
    const problems = problemsOf(text);
    const found = problems.find((problem) => problem.where === where);
    expect(found?.message, JSON.stringify(problems)).toContain(message);
    expect(found?.severity).toBe('error');
  });

  test('[AER4] corrections with a wrong sign or a missing unit are refused', () => {
    const withCorrection = (correction: object): string =>
      changed(
        (d) => (d.corrections = [{ phase: 'landing', of: 'distance', text: 'x', ...correction }]),
      );
    const where = (correction: object): string[] =>
      problemsOf(withCorrection(correction)).map((problem) => problem.where);
    expect(where({ condition: 'headwind', percent: 10, per: 9 })).toEqual([
      'corrections.0.percent',
    ]);
    expect(where({ condition: 'tailwind', percent: 10 })).toEqual(['corrections.0.per']);
    expect(where({ condition: 'grass-wet', percent: 45, per: 2 })).toEqual(['corrections.0.per']);
    expect(decodeAeroplane(withCorrection({ condition: 'upslope', percent: -5, per: 1 })).ok).toBe(
      true,
    );
  });

  test('[AER5] an unknown field is a warning, so that a misspelt one is noticed', () => {
    const result = decodeAeroplane(changed((d) => (d.corections = [])));
    expect(result.ok).toBe(true);
    expect(result.problems.map((problem) => [problem.severity, problem.where])).toEqual([
      ['warning', 'corections'],
    ]);
  });

  test('[AER6] text that is not JSON says so', () => {
    expect(problemsOf('{"schema": 1,')[0].code).toBe('aeroplane-not-json');
    expect(problemsOf('')[0].code).toBe('aeroplane-not-json');
  });

  test('[AER7] no JSON value makes the reader throw, and each refusal carries a message', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (tables, speeds) => {
        const text = changed((d) => {
          d.tables = tables;
          d.speeds = speeds;
        });
        const result = decodeAeroplane(text);
        expect(result.ok || result.problems.every((problem) => problem.message.length > 5)).toBe(
          true,
        );
      }),
      { numRuns: 200, seed: 20260402 },
    );
  });
});
