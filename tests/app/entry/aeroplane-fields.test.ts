/** An aeroplane in a form: what is typed becomes the document, what is not touched stays as it was. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  axisParts,
  fieldsFromAeroplane,
  withCorrection,
  withRemoved,
  withTable,
  type AeroplaneFields,
  type Document,
} from '../../../src/app/entry/aeroplane-fields.ts';
import { aeroplaneFromFields } from '../../../src/app/entry/aeroplane-from-fields.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import { decodeAeroplane } from '../../../src/performance/decode-aeroplane.ts';

const { units } = makeSettings(0);
const IMPERIAL = { ...units, mass: 'lb', speed: 'mph', length: 'ft', temperature: 'F' } as const;
const kept = (name: string): Document =>
  JSON.parse(readFileSync(`tracks-sample/aeroplanes/${name}.json`, 'utf8')) as Document;

function typed(fields: AeroplaneFields, texts: Record<string, string>): AeroplaneFields {
  return { ...fields, texts: { ...fields.texts, ...texts } };
}

/** A new aeroplane with one row of the whole landing distance, as typed from a handbook. */
function oneRow(): AeroplaneFields {
  const blank = withTable(fieldsFromAeroplane(null, units), 'landing-from-screen');
  const [{ key }] = blank.tables;
  return typed(blank, {
    name: 'Long Wing',
    'massKg.min': '350',
    'massKg.maxTakeOff': '600',
    'massKg.maxLanding': '600',
    'speeds.atMassKg': '600',
    'speeds.stallLandingKt': '40',
    'speeds.stallTakeOffKt': '42',
    gear: 'tail',
    brakes: 'yes',
    [`${key}.flap`]: 'full',
    [`${key}.surface`]: 'hard-dry',
    [`${key}.screenHeightM`]: '15.24',
    [`${key}.pressureAltitudeFt`]: '0',
    [`${key}.tempC`]: 'standard',
    [`${key}.massKg`]: '600',
    [`${key}.cell 0 | standard | 600`]: '420',
  });
}

describe('an aeroplane in its form', () => {
  test.each(['marram-160', 'eelgrass-450'])(
    '[AF1] %s comes back exactly where nothing was touched',
    (name) => {
      const document = { ...kept(name), owner: 'kept too' };
      for (const shown of [units, IMPERIAL]) {
        const read = aeroplaneFromFields(fieldsFromAeroplane(document, shown), shown, document, []);
        expect(read).toEqual({ ok: true, document });
      }
    },
  );

  test('[AF2] one row typed from the handbook makes an aeroplane that its reader takes', () => {
    const read = aeroplaneFromFields(oneRow(), units, null, []);
    if (!read.ok) throw new Error(JSON.stringify(read.messages));
    const judged = decodeAeroplane(JSON.stringify(read.document));
    if (!judged.ok) throw new Error(judged.problems[0].message);
    expect(judged.value.id).toBe('long-wing');
    expect(judged.value.tables).toEqual([
      {
        quantity: 'landing-from-screen',
        flap: 'full',
        surface: 'hard-dry',
        screenHeightM: 15.24,
        pressureAltitudeFt: [0],
        tempC: 'standard',
        massKg: [600],
        distanceM: [[[420]]],
      },
    ]);
    expect(judged.value.speeds.touchdownKt).toBeNull();
  });

  test('[AF3] masses, speeds and distances are typed in the units of the pilot', () => {
    // A pound is 0.45359237 kg exactly (definition).
    const right = aeroplaneFromFields(
      typed(oneRow(), {
        'massKg.min': '800',
        'massKg.maxTakeOff': '1300',
        'massKg.maxLanding': '1300',
        'speeds.atMassKg': '1300',
        'tables-1.massKg': '1300',
        'tables-1.cell 0 | standard | 1300': '420',
      }),
      { ...units, mass: 'lb' },
      null,
      [],
    );
    if (!right.ok) throw new Error(JSON.stringify(right.messages));
    expect((right.document.massKg as { maxTakeOff: number }).maxTakeOff).toBeCloseTo(589.670081, 6);
  });

  test('[AF4] every wrong field gets a message of its own, and nothing is lost', () => {
    const fields = typed(oneRow(), {
      name: '',
      'massKg.min': 'light',
      'speeds.stallLandingKt': '400',
      'tables-1.flap': '',
      'tables-1.cell 0 | standard | 600': '99999',
    });
    const read = aeroplaneFromFields(fields, units, null, []);
    if (read.ok) throw new Error('refused');
    expect(Object.keys(read.messages)).toEqual(
      expect.arrayContaining([
        ...['name', 'massKg.min', 'speeds.stallLandingKt'],
        ...['tables-1.flap', 'tables-1.cell 0 | standard | 600'],
      ]),
    );
    expect(read.messages['massKg.min']).toMatch(/found "light", expected a number/);
  });

  test('[AF5] axes grow the grid; a removed table is gone, and comes back as it was', () => {
    expect(axisParts('850; 975;1100')).toEqual(['850', '975', '1100']);
    expect(axisParts(' 0, 2000 4000 ')).toEqual(['0', '2000', '4000']);
    expect(axisParts('')).toEqual([]);
    const document = kept('marram-160');
    const fields = fieldsFromAeroplane(document, units);
    const without = withRemoved(fields, fields.tables[0].key, true);
    const read = aeroplaneFromFields(without, units, document, []);
    if (!read.ok) throw new Error(JSON.stringify(read.messages));
    expect(read.document.tables).toEqual((document.tables as unknown[]).slice(1));
    const undone = withRemoved(without, fields.tables[0].key, false);
    const again = aeroplaneFromFields(undone, units, document, []);
    expect(again.ok && again.document).toEqual(document);
  });

  test('[AF6] a correction is added with its words', () => {
    const blank = withCorrection(oneRow());
    const [{ key }] = blank.corrections;
    const fields = typed(blank, {
      [`${key}.condition`]: 'grass-dry',
      [`${key}.percent`]: '15',
      [`${key}.of`]: 'ground-roll',
      [`${key}.text`]: 'On dry grass add 15 % of the ground roll.',
    });
    const read = aeroplaneFromFields(fields, units, null, []);
    if (!read.ok) throw new Error(JSON.stringify(read.messages));
    expect(read.document.corrections).toEqual([
      {
        phase: 'landing',
        condition: 'grass-dry',
        percent: 15,
        of: 'ground-roll',
        text: 'On dry grass add 15 % of the ground roll.',
      },
    ]);
  });

  test('[AF7] an id that another aeroplane has is refused, a made one steps aside', () => {
    const taken = aeroplaneFromFields(typed(oneRow(), { id: 'mine' }), units, null, ['mine']);
    expect(!taken.ok && taken.messages.id).toMatch(/expected one of its own/);
    const made = aeroplaneFromFields(oneRow(), units, null, ['long-wing']);
    expect(made.ok && made.document.id).toBe('long-wing-2');
  });

  test('[AF8] a distance stays with its mass, altitude and temperature when an axis changes', () => {
    const document = kept('marram-160');
    const fields = fieldsFromAeroplane(document, units);
    const [{ key }] = fields.tables;
    const change = (texts: Record<string, string>) =>
      aeroplaneFromFields(typed(fields, texts), units, document, []);
    const distances = (read: ReturnType<typeof change>): number[][][] => {
      if (!read.ok) throw new Error(JSON.stringify(read.messages));
      return (read.document.tables as { distanceM: number[][][] }[])[0].distanceM;
    };
    const before = (document.tables as { distanceM: number[][][] }[])[0].distanceM;
    expect(distances(change({ [`${key}.massKg`]: '975; 1100' }))).toEqual(
      before.map((rows) => rows.map((row) => row.slice(1))),
    );
    expect(distances(change({ [`${key}.pressureAltitudeFt`]: '1500; 4000' }))).toEqual(
      before.slice(1),
    );
    // Nothing was typed for standard temperatures: every distance is asked for, none is guessed.
    const asked = change({ [`${key}.tempC`]: 'Standard' });
    expect(!asked.ok && Object.keys(asked.messages).length).toBe(9);
    expect(!asked.ok && Object.values(asked.messages)[0]).toMatch(/found nothing, expected/);
  });

  test('[AF9] what is wrong with an axis is said beside it, in the unit it was typed in', () => {
    const wrong = aeroplaneFromFields(
      typed(oneRow(), {
        'tables-1.massKg': '600 kg; 550 kg',
        'tables-1.cell 0 | standard | 550': '400',
      }),
      units,
      null,
      [],
    );
    expect(!wrong.ok && wrong.messages['tables-1.massKg']).toMatch(/expected/);
    const fast = aeroplaneFromFields(
      typed(oneRow(), { 'speeds.stallLandingKt': '900' }),
      { ...units, speed: 'mph' },
      null,
      [],
    );
    expect(!fast.ok && fast.messages['speeds.stallLandingKt']).toMatch(
      /^found 900 mph \(782.1 kt\)/,
    );
  });

  test('[AF10] assumes nothing: gear and brakes are asked for', () => {
    const read = aeroplaneFromFields(typed(oneRow(), { gear: '', brakes: '' }), units, null, []);
    expect(!read.ok && Object.keys(read.messages)).toEqual(
      expect.arrayContaining(['gear', 'brakes']),
    );
  });
});
