/** A pilot's own factor set as data. */
import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CLASS_B } from '../../src/performance/factor-sets/class-b.ts';
import { decodeFactorSet } from '../../src/performance/factor-sets/decode-factor-set.ts';
import { factorFor, type FactorSet } from '../../src/performance/factor-sets/factor-set.ts';
import { PUBLISHED_SETS } from '../../src/performance/factor-sets/published.ts';
import { UK_LEAFLET } from '../../src/performance/factor-sets/uk-leaflet.ts';
import { METRES_PER_FOOT } from '../../src/units/convert.ts';
import { expectNear } from '../expect-near.ts';
import { landing, metres, oneRow, predicted, reasonOf, takeOff } from './invented-aeroplane.ts';

type Loose = Record<string, unknown>;

/** The leaflet's set under a name of one's own, with a change, as text. */
function own(change: (document: Loose) => void = () => undefined, base = UK_LEAFLET): string {
  const document = structuredClone(base) as unknown as Loose;
  Object.assign(document, { schema: 1, kind: 'factor-set', id: 'mine', name: 'Mine' });
  change(document);
  return JSON.stringify(document);
}

function read(text: string): FactorSet {
  const result = decodeFactorSet(text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

const at = (document: Loose, ...path: string[]): Loose =>
  path.reduce((inner, key) => inner[key] as Loose, document);

describe('[FAC1] an own set', () => {
  test('[FAC1] every published set can be written as such a document and predicts the same', () => {
    for (const base of PUBLISHED_SETS) {
      const set = read(own(undefined, base));
      expect({ ...set, id: base.id, name: base.name }).toMatchObject(
        JSON.parse(JSON.stringify(base)),
      );
    }
    const conditions = { surface: 'grass-wet', tempC: 25, massKg: 1100 } as const;
    const mine = landing({ set: read(own()), conditions });
    expect(mine.chain).toEqual(landing({ conditions }).chain);
  });

  test('[FAC2] part steps in proportion or as powers: the 390 m example is 791 m or 790 m', () => {
    // UK CAA Safety Sense Leaflet 7c, worked example (from memory): 500 ft at 10 % for 1,000 ft.
    const example = (set: FactorSet): number =>
      metres(
        takeOff({
          set,
          aeroplane: { tables: [oneRow('take-off-to-screen', 390, { tempC: [10] })] },
          direction: { elevationMslM: 500 * METRES_PER_FOOT, slopeRatio: 0.02 },
          conditions: { tempC: 20 },
        }).plannedTo50FtM,
      );
    expectNear(example(read(own())), 790.81, 0.01);
    const power = own((d) => (at(d, 'takeOff', 'altitudeFt').scaling = 'power'));
    expectNear(example(read(power)), 390 * 1.1 ** 0.5 * 1.1 * 1.1 * 1.2 * 1.33, 0.01);
    expect(Math.round(example(read(power)))).toBe(790);
  });

  test('[FAC2] several steps: twice 10 % is 20 % in proportion and 21 % as powers', () => {
    const factor = { step: 10, factor: 1.1, source: 'x', reading: 'read', why: 'x' } as const;
    expectNear(factorFor(factor, 20), 1.2, 1e-12);
    expectNear(factorFor({ ...factor, scaling: 'power' }, 20), 1.21, 1e-12);
  });

  test('[FAC3] a slope credit that the set gives is taken by the plan too; without it by none', () => {
    const credit = { step: 0.02, factor: 0.95, source: 'a note', reading: 'read', why: 'Uphill.' };
    const set = read(own((d) => (at(d, 'landing').slopeCredit = credit)));
    const uphill = { direction: { slopeRatio: 0.02 } };
    const found = landing({ ...uphill, set });
    expectNear(metres(found.plannedFrom50FtM), 450 * 0.95 * 1.15 * 1.43, 1e-9);
    expectNear(metres(found.expectedFrom50FtM), 450 * 0.95 * 1.15, 1e-9);
    expectNear(metres(landing(uphill).plannedFrom50FtM), 450 * 1.15 * 1.43, 1e-9);
    const steep = landing({
      set: {
        ...set,
        landing: {
          ...set.landing,
          slopeCredit: { ...credit, reading: 'read', step: 0.001, factor: 0.5 },
        },
      },
      ...uphill,
    });
    expect(reasonOf(steep.plannedFrom50FtM)).toContain("beyond what the set's credit can mean");
  });

  test('[FAC4] the working says of each figure whether it was read or is from memory', () => {
    const sources = (set: FactorSet) =>
      landing({ set, conditions: { surface: 'grass-wet' } }).chain.planned.map(
        ({ source }) => source,
      );
    expect(sources(UK_LEAFLET).filter((source) => source.endsWith('(from memory)'))).toHaveLength(
      2,
    );
    expect(sources(CLASS_B).at(-2)).toContain('(read)');
    const set = read(
      own((d) =>
        Object.assign(at(d, 'landing', 'safety'), {
          source: 'Club rules, 3rd edition',
          reading: 'read',
        }),
      ),
    );
    expect(sources(set)).toContain('Club rules, 3rd edition (read)');
  });

  test('[FAC5] long grass has a factor where the set gives one, with its caution', () => {
    const long = {
      factor: 1.6,
      source: 'x',
      reading: 'read',
      why: 'x',
      caution: 'Look at it first.',
    };
    const set = read(own((d) => (at(d, 'landing', 'surface')['grass-long'] = long)));
    const changes = { set, conditions: { surface: 'grass-long' } } as const;
    expectNear(metres(landing(changes).expectedFrom50FtM), 720, 1e-9);
    expect(predicted(changes).notes.map(({ text }) => text)).toContain('Look at it first.');
    expect(reasonOf(takeOff(changes).expectedTo50FtM)).toContain('no published factor');
  });
});

const SLIPS: readonly (readonly [string, (d: Loose) => void, string, string])[] = [
  [
    'a factor of 0.9',
    (d) => (at(d, 'landing', 'massShare').factor = 0.9),
    'landing.massShare.factor',
    'found 0.9, expected a number from 1 to 5',
  ],
  [
    'a step of 0',
    (d) => (at(d, 'takeOff', 'altitudeFt').step = 0),
    'takeOff.altitudeFt.step',
    'found 0, expected a number from 100 to 10000 ft',
  ],
  [
    'a step in per cent',
    (d) => (at(d, 'landing', 'slopeRatio').step = 2),
    'landing.slopeRatio.step',
    'found 2, expected a number from 0.001 to 0.1 rise over run',
  ],
  [
    'NaN, which JSON writes as null',
    (d) => (at(d, 'landing', 'safety').factor = NaN),
    'landing.safety.factor',
    'found null, expected a number from 1 to 3',
  ],
  [
    'text',
    (d) => (at(d, 'landing', 'safety').factor = '1.43'),
    'landing.safety.factor',
    'found "1.43"',
  ],
  [
    'no source',
    (d) => delete at(d, 'landing', 'safety').source,
    'landing.safety.source',
    'this field is missing',
  ],
  [
    'a hearsay',
    (d) => (at(d, 'landing', 'safety').reading = 'hearsay'),
    'landing.safety.reading',
    'expected one of read, quoted, from memory',
  ],
  [
    'another scaling',
    (d) => (at(d, 'landing', 'tempC').scaling = 'cubic'),
    'landing.tempC.scaling',
    'expected one of linear, power',
  ],
  [
    'a bonus for wet grass',
    (d) => (at(d, 'landing', 'surface', 'grass-wet').factor = 0.5),
    'landing.surface.grass-wet.factor',
    'found 0.5, expected a number from 0.8 to 5',
  ],
  ['no landing', (d) => delete d.landing, 'landing', 'this field is missing'],
];

describe('[FAC6] slips get a message with the field, what was found and what was expected', () => {
  const schema = JSON.parse(readFileSync('docs/schema/factor-set.schema.json', 'utf8')) as object;
  const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);

  test.each(SLIPS)('[FAC6] %s', (_what, change, where, message) => {
    const result = decodeFactorSet(own(change));
    expect(result.ok).toBe(false);
    expect(result.problems.map((problem) => problem.where)).toEqual([where]);
    expect(result.problems[0].message).toContain(message);
    expect(validate(JSON.parse(own(change)))).toBe(false);
  });

  test('[FAC7] the JSON Schema takes what the reader takes', () => {
    for (const base of PUBLISHED_SETS) {
      validate(JSON.parse(own(undefined, base)));
      expect(validate.errors).toBeNull();
    }
  });

  test('[FAC8] a set may not take the name of a published one; unknown fields are warned of', () => {
    const taken = decodeFactorSet(own((d) => (d.id = 'uk-leaflet')));
    expect(taken.ok).toBe(false);
    expect(taken.problems[0].message).toContain('the id of a published set');
    const misspelt = decodeFactorSet(own((d) => (at(d, 'landing', 'surface').grasdry = 1)));
    expect(misspelt.ok).toBe(true);
    expect(misspelt.problems.map(({ where }) => where)).toEqual(['landing.surface.grasdry']);
  });

  test('[FAC9] no JSON value makes the reader throw', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (phase, safety) => {
        const result = decodeFactorSet(
          own((d) => Object.assign(d, { landing: phase, takeOff: { safety, surface: {} } })),
        );
        expect(result.problems.length > 0).toBe(true);
      }),
      { numRuns: 200, seed: 20260407 },
    );
    expect(decodeFactorSet('no json').problems[0].code).toBe('factor-set-not-json');
  });
});
