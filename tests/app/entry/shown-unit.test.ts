import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  heightUnit,
  inTypedUnit,
  lengthUnit,
  massUnit,
  pressureUnit,
  readQuantity,
  sameUnit,
  showQuantity,
  speedUnit,
  temperatureUnit,
  type FieldUnit,
} from '../../../src/app/entry/shown-unit.ts';
import type { ShownUnits } from '../../../src/logbook/entry.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import { expectNear } from '../../expect-near.ts';

const usual = makeSettings(0).units;
const other = (change: Partial<ShownUnits>): ShownUnits => ({ ...usual, ...change });

const ALL: readonly FieldUnit[] = [
  ...(['kt', 'mph', 'km/h'] as const).map((speed) => speedUnit(other({ speed }))),
  ...(['C', 'F'] as const).map((temperature) => temperatureUnit(other({ temperature }))),
  ...(['hPa', 'inHg'] as const).map((pressure) => pressureUnit(other({ pressure }))),
  ...(['kg', 'lb'] as const).map((mass) => massUnit(other({ mass }))),
  ...(['m', 'ft'] as const).map((length) => lengthUnit(other({ length }))),
  ...(['m', 'ft'] as const).map((height) => heightUnit(other({ height }))),
  sameUnit('°'),
];

const kept = (text: string, unit: FieldUnit, before: number | null = null) => {
  const read = readQuantity(text, unit, before);
  return read.ok ? read.value : read.message;
};
const keptNumber = (text: string, unit: FieldUnit): number => {
  const value = kept(text, unit);
  if (typeof value !== 'number') throw new Error(`no number: ${value}`);
  return value;
};

describe('a quantity in the units of the pilot', () => {
  test('[EN10] converts by the definitions of the units', () => {
    // International foot 0.3048 m, nautical mile 1852 m, statute mile 1609.344 m, avoirdupois pound
    // 0.45359237 kg, water boils at 212 F (from memory); exact, so only rounding is left.
    expectNear(keptNumber('1.852', speedUnit(other({ speed: 'km/h' }))), 1, 1e-12);
    expectNear(keptNumber('1', speedUnit(other({ speed: 'mph' }))), 1609.344 / 1852, 1e-12);
    expectNear(keptNumber('212', temperatureUnit(other({ temperature: 'F' }))), 100, 1e-12);
    expectNear(keptNumber('-40', temperatureUnit(other({ temperature: 'F' }))), -40, 1e-12);
    expectNear(keptNumber('1000', massUnit(other({ mass: 'lb' }))), 453.59237, 1e-9);
    expectNear(keptNumber('1000', heightUnit(other({ height: 'ft' }))), 304.8, 1e-9);
    // One standard atmosphere: 1013.25 hPa is 29.92 inHg (ICAO Doc 7488, from memory).
    expectNear(keptNumber('29.92', pressureUnit(other({ pressure: 'inHg' }))), 1013.25, 0.1);
  });

  test('[EN11] an untouched field gives back exactly what was kept, whatever its decimals', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...ALL),
        fc.double({ min: -5000, max: 5000, noNaN: true }),
        (unit, value) => {
          expect(kept(showQuantity(value, unit), unit, value)).toBe(value);
        },
      ),
      { seed: 11 },
    );
  });

  test('[EN12] a figure typed with up to two decimals is shown again as it was typed', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...ALL),
        fc.integer({ min: -500_000, max: 500_000 }),
        (unit, hundredths) => {
          const typed = String(hundredths / 100);
          expect(showQuantity(keptNumber(typed, unit), unit)).toBe(typed);
        },
      ),
      { seed: 12 },
    );
  });

  test('[EN13] an emptied field is not entered, also where a number stood before', () => {
    for (const unit of ALL) expect(kept('', unit, 12)).toBeNull();
    expect(kept('', sameUnit('kg'), 0)).toBeNull();
  });

  test("[EN14] a reader's message names the figure as it was typed, and the one it was judged by", () => {
    const message = 'found 161.987, expected a number from 0 to 100 kt';
    expect(inTypedUnit(message, '300', speedUnit(other({ speed: 'km/h' })))).toBe(
      'found 300 km/h (162 kt), expected a number from 0 to 100 kt',
    );
    expect(inTypedUnit('found 162, expected less', '162', speedUnit(usual))).toBe(
      'found 162, expected less',
    );
  });
});
