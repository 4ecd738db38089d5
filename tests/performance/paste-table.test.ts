/** Handbook tables pasted from spreadsheets. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { HandbookTable } from '../../src/performance/aeroplane.ts';
import { decodeAeroplane } from '../../src/performance/decode-aeroplane.ts';
import { cellNumber } from '../../src/performance/paste-cells.ts';
import { pasteTable, type PasteFrame } from '../../src/performance/paste-table.ts';
import type { Result } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';

const FRAME: PasteFrame = {
  quantity: 'landing-from-screen',
  flap: 'full',
  surface: 'hard-dry',
  screenHeightM: 15.24,
  distanceUnit: 'm',
  holdsAt: { pressureAltitudeFt: null, tempC: null, massKg: null },
};
const ONE_ROW = { pressureAltitudeFt: 0, tempC: 15, massKg: 450 };

function read(result: Result<HandbookTable>): HandbookTable {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

function marram(): HandbookTable {
  const decoded = decodeAeroplane(readFileSync('tracks-sample/aeroplanes/marram-160.json', 'utf8'));
  const table = decoded.ok ? decoded.value.tables[1] : undefined;
  if (!table) throw new Error('no table');
  return table;
}

/** The demo aeroplane's table as a spreadsheet would hold it: a row for each altitude and temperature. */
function asGrid(table: HandbookTable, separator: string, decimal = '.'): string {
  const temps = table.tempC === 'standard' ? [] : table.tempC;
  const heading = ['pressure altitude (ft)', 'OAT [°C]', ...table.massKg.map((kg) => `${kg} kg`)];
  const rows = table.pressureAltitudeFt.flatMap((ft, a) =>
    temps.map((tempC, t) => [
      String(ft),
      String(tempC),
      ...table.distanceM[a][t].map((m) => m.toFixed(1).replace('.', decimal)),
    ]),
  );
  return [heading, ...rows].map((cells) => cells.join(separator)).join('\n');
}

describe('[PAS1] grids and lists', () => {
  test.each([
    ['tabs', '\t', '.'],
    ['tabs and decimal commas', '\t', ','],
    ['semicolons and decimal commas', ';', ','],
    ['commas', ',', '.'],
  ])(
    '[PAS1] a table of three variables, parted by %s, is the one that was copied',
    (_w, sep, dec) => {
      expect(read(pasteTable(asGrid(marram(), sep, dec), FRAME))).toEqual(marram());
    },
  );

  test('[PAS2] a list with a row for each distance, in any order, is the same table', () => {
    const table = marram();
    const temps = table.tempC as readonly number[];
    const rows = table.distanceM.flatMap((byTemp, a) =>
      byTemp.flatMap((byMass, t) =>
        byMass.map((m, k) =>
          [m, table.massKg[k], temps[t], table.pressureAltitudeFt[a]].join('\t'),
        ),
      ),
    );
    const text = ['landing distance (m)\tmass (kg)\ttemp °C\televation ft', ...rows.reverse()];
    expect(read(pasteTable(text.join('\r\n'), FRAME))).toEqual(table);
  });

  test('[PAS3] a manual of one row: what has no column holds at the value given for it', () => {
    const table = read(pasteTable('distance (m)\n220', { ...FRAME, holdsAt: ONE_ROW }));
    expect(table).toMatchObject({
      pressureAltitudeFt: [0],
      tempC: [15],
      massKg: [450],
      distanceM: [[[220]]],
    });
    const standard = { ...ONE_ROW, tempC: 'standard' } as const;
    // Zero degrees are a temperature, not the standard one.
    const frozen = read(
      pasteTable('temp (°C)\tdistance (m)\n0\t200', { ...FRAME, holdsAt: standard }),
    );
    expect(frozen.tempC).toEqual([0]);
    const rows = 'altitude ft\troll ft\n0\t445\n2500\t470';
    const book = read(pasteTable(rows, { ...FRAME, holdsAt: standard }));
    expect(book.tempC).toBe('standard');
    expect(book.pressureAltitudeFt).toEqual([0, 2500]);
    expectNear(book.distanceM[0][0][0], 445 * 0.3048, 0.05);
  });

  test('[PAS4] feet, pounds, degrees Fahrenheit and metres of altitude are turned by the headings', () => {
    const text = 'altitude (m);59 °F;86 °F\n0;1 075;1 250,5';
    const holdsAt = { pressureAltitudeFt: null, tempC: null, massKg: 726 };
    const table = read(pasteTable(text, { ...FRAME, distanceUnit: 'ft', holdsAt }));
    expect(table.tempC).toEqual([15, 30]);
    expectNear(table.distanceM[0][0][0], 1075 * 0.3048, 0.05);
    expectNear(table.distanceM[0][1][0], 1250.5 * 0.3048, 0.05);
    const heavy = read(
      pasteTable('weight lbs\tlanding m\n1600\t327', { ...FRAME, holdsAt: ONE_ROW }),
    );
    expectNear(heavy.massKg[0], 1600 * 0.45359237, 0.05);
  });
});

describe('[PAS5] numbers', () => {
  test.each([
    ['450', 450],
    ['450.5', 450.5],
    ['450,5', 450.5],
    ['−10', -10],
    ['1 115', 1115],
    ['1\u00a0115,5', 1115.5],
    ['1,115.5', 1115.5],
    ['1.115,5', 1115.5],
    ['0.125', 0.125],
    ['1,000,000', 1_000_000],
  ])('[PAS5] %s', (text, value) => {
    expect(cellNumber(text)).toEqual({ value });
  });

  test.each([
    ['1,115', 'which may mean 1115 or 1.115'],
    ['1.115', 'which may mean 1115 or 1.115'],
    ['1,11,5', 'expected a number'],
    ['12.5.5', 'expected a number'],
    ['450 m', 'expected a number'],
    ['1e3', 'expected a number'],
    ['NaN', 'expected a number'],
    ['-', 'expected a number'],
  ])('[PAS5] %s is not guessed', (text, message) => {
    expect(cellNumber(text)).toMatchObject({ why: expect.stringContaining(message) as string });
  });
});

const GRID = 'altitude (ft)\t850 kg\t975 kg\n0\t310\t340\n2000\t330\t365';
const AT_15 = { ...FRAME, holdsAt: { pressureAltitudeFt: null, tempC: 15, massKg: null } };

describe('[PAS6] slips get a message with line and column, what was found and what was expected', () => {
  test.each([
    ['no rows', 'altitude (ft)\t850 kg', 'text', 'found no rows'],
    ['nothing', '', 'text', 'found no rows'],
    [
      'a heading of no meaning',
      GRID.replace('altitude (ft)', 'colour'),
      'line 1, column 1',
      'found "colour", expected "pressure altitude (ft)"',
    ],
    [
      'a heading without unit',
      GRID.replace('(ft)', ''),
      'line 1, column 1',
      'without its unit, expected ft or m',
    ],
    ['a bare value', GRID.replace('850 kg', '850'), 'line 1, column 2', 'found "850", expected'],
    [
      'a mass in feet',
      GRID.replace('850 kg', '850 ft'),
      'line 1',
      'found columns under values of altitude and of mass, expected one kind',
    ],
    ['a word', GRID.replace('310', 'long'), 'line 2, column 2', 'found "long", expected a number'],
    ['an empty cell', GRID.replace('310', ''), 'line 2, column 2', 'found an empty cell'],
    [
      'a number of two meanings',
      GRID.replace('365', '1,365'),
      'line 3, column 3',
      'may mean 1365 or 1.365',
    ],
    ['a cell too many', `${GRID}\t400`, 'line 3', 'found 4 cells, expected 3'],
    [
      'a row twice',
      `${GRID}\n2000\t330\t365`,
      'line 4, column 2',
      'a second distance beside that of line 3, column 2',
    ],
    [
      'a digit that slipped',
      GRID.replace('365', '635').replace('340', '640'),
      '2000 ft, 15 °C, 975 kg',
      'found 635 m after 640 m',
    ],
    [
      'a distance of 3 m',
      GRID.replace('310', '3'),
      '0 ft, 15 °C, 850 kg',
      'found 3, expected a number from 5 to 5000 m',
    ],
    [
      'a mass of 9 kg',
      GRID.replace('850 kg', '9 kg'),
      'massKg.0',
      'found 9, expected a number from 50',
    ],
  ])('[PAS6] %s', (_what, text, where, message) => {
    const result = pasteTable(text, AT_15);
    expect(result.ok).toBe(false);
    expect(result.problems[0].where).toBe(where);
    expect(result.problems[0].message).toContain(message);
  });

  test('[PAS7] a combination that is missing, or a variable that is nowhere, is named', () => {
    const list = 'altitude ft\tmass kg\tdistance m\n0\t850\t310\n0\t975\t340\n2000\t850\t330';
    expect(pasteTable(list, AT_15).problems[0]).toMatchObject({
      where: '2000 ft, 15 °C, 975 kg',
      message: 'no distance was found, expected one',
    });
    expect(pasteTable(GRID, FRAME).problems[0].message).toContain('found no temperature, expected');
  });

  test('[PAS8] no text makes the reader throw, and a table that it gives is one an aeroplane may have', () => {
    const cell = fc.constantFrom(
      'altitude (ft)',
      '850 kg',
      '975 kg',
      '15 °C',
      'm',
      'distance (m)',
      '0',
      '340',
      '1,5',
      '"',
      '',
    );
    const text = fc.array(fc.array(cell, { maxLength: 4 }), { maxLength: 5 });
    fc.assert(
      fc.property(text, fc.constantFrom('\t', ';', ','), fc.string(), (rows, separator, tail) => {
        const drawn = rows.map((cells) => cells.join(separator)).join('\n') + tail;
        const result = pasteTable(drawn, { ...FRAME, holdsAt: ONE_ROW });
        if (result.ok) expect(result.value.distanceM.flat(2).every(Number.isFinite)).toBe(true);
        else expect(result.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 500, seed: 20260408 },
    );
    expect(pasteTable('x'.repeat(300_000), FRAME).problems[0].message).toContain('characters');
  });
});
