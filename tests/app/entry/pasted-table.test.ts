/** A table out of a spreadsheet in the aeroplane's form: its distances stand as if typed. */
import { describe, expect, test } from 'vitest';
import {
  axesOf,
  fieldsFromAeroplane,
  withTable,
  type AeroplaneFields,
} from '../../../src/app/entry/aeroplane-fields.ts';
import { aeroplaneFromFields } from '../../../src/app/entry/aeroplane-from-fields.ts';
import { withPastedTable } from '../../../src/app/entry/pasted-table.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';

const { units } = makeSettings(0);
const IMPERIAL = { ...units, mass: 'lb', length: 'ft', temperature: 'F' } as const;
const KEY = 'tables-1';
const TEXT = `pressure altitude (ft);temperature (°C);850 kg;975 kg
0;0;310;345
0;20;330;365,5
2000;0;340;380
2000;20;365;405
`;

function blank(texts: Record<string, string> = {}): AeroplaneFields {
  const fields = withTable(fieldsFromAeroplane(null, units), 'landing-roll');
  return { ...fields, texts: { ...fields.texts, ...texts } };
}

function paste(fields: AeroplaneFields, text: string, shown = units) {
  const pasted = withPastedTable(fields, KEY, text, shown);
  if (!pasted.ok) throw new Error(JSON.stringify(pasted.problems));
  return pasted;
}

describe('a pasted table', () => {
  test('[PF1] gives axes and distances as if typed', () => {
    const { fields, count } = paste(blank(), TEXT);
    expect(count).toBe(8);
    expect(axesOf(fields.texts, KEY)).toEqual([
      ['0', '2000'],
      ['0', '20'],
      ['850', '975'],
    ]);
    expect(fields.texts[`${KEY}.cell 0 | 20 | 975`]).toBe('365.5');
  });

  test('[PF2] with the rest of the form makes the document of the same figures', () => {
    const { fields } = paste(blank(), TEXT);
    const read = aeroplaneFromFields(
      {
        ...fields,
        texts: {
          ...fields.texts,
          ...{ name: 'Blue Heron', gear: 'nose', brakes: 'yes', [`${KEY}.flap`]: 'full' },
          ...{ 'massKg.min': '600', 'massKg.maxTakeOff': '975', 'massKg.maxLanding': '975' },
          ...{ 'speeds.atMassKg': '975', 'speeds.stallLandingKt': '45' },
          ...{ 'speeds.stallTakeOffKt': '48', [`${KEY}.surface`]: 'hard-dry' },
        },
      },
      units,
      null,
      [],
    );
    if (!read.ok) throw new Error(JSON.stringify(read.messages));
    expect(read.document.tables).toEqual([
      expect.objectContaining({
        pressureAltitudeFt: [0, 2000],
        tempC: [0, 20],
        massKg: [850, 975],
        distanceM: [
          [
            [310, 345],
            [330, 365.5],
          ],
          [
            [340, 380],
            [365, 405],
          ],
        ],
      }),
    ]);
  });

  test('[PF3] holds at the value typed above for what has no column', () => {
    const fields = blank({
      [`${KEY}.pressureAltitudeFt`]: '0',
      [`${KEY}.tempC`]: 'standard',
      [`${KEY}.massKg`]: '975',
    });
    const pasted = paste(fields, 'pressure altitude (ft)\tdistance (m)\n0\t345\n2000\t380\n');
    expect(axesOf(pasted.fields.texts, KEY)).toEqual([['0', '2000'], ['standard'], ['975']]);
    const without = withPastedTable(
      blank({ [`${KEY}.pressureAltitudeFt`]: '0', [`${KEY}.tempC`]: 'standard' }),
      KEY,
      'pressure altitude (ft)\tdistance (m)\n0\t345\n',
      units,
    );
    expect(without.ok).toBe(false);
  });

  test('[PF4] a wrong cell is named by line and column, and nothing changes', () => {
    const pasted = withPastedTable(blank(), KEY, TEXT.replace('380', 'about 380'), units);
    expect(pasted.ok).toBe(false);
    if (pasted.ok) return;
    expect(pasted.problems.map(({ where, message }) => `${where}: ${message}`)).toEqual([
      'line 4, column 4: found "about 380", expected a number',
    ]);
  });

  test('[PF5] whole feet and pounds stay whole', () => {
    const text = 'altitude (ft),temp (F),2150 lb\n0,59,1115\n';
    const { fields } = paste(blank(), text, IMPERIAL);
    expect(axesOf(fields.texts, KEY)).toEqual([['0'], ['59'], ['2150']]);
    expect(fields.texts[`${KEY}.cell 0 | 59 | 2150`]).toBe('1115');
  });
});
