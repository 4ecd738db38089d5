/** The title block in every unit, with everything and with nothing entered. */
import { describe, expect, test } from 'vitest';
import type { ShownUnits } from '../../../src/logbook/entry.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import { SURFACE_WORDS, titleBlock, windText } from '../../../src/report/story/title-block.ts';
import { undetermined } from '../../../src/result.ts';
import type { Conditions, EnteredWind } from '../../../src/weather/conditions.ts';
import { CONDITIONS } from '../../logbook/invented-entries.ts';

const { units } = makeSettings(0);
const plain = (text: string | null): string | null => text?.replaceAll('\u00a0', ' ') ?? null;

function block(
  conditions: Partial<Conditions>,
  phase: 'landing' | 'take-off' = 'landing',
  shown: Partial<ShownUnits> = {},
): Record<string, string | null> {
  const cells = titleBlock({ ...CONDITIONS, ...conditions }, phase, { ...units, ...shown });
  return Object.fromEntries(cells.map(({ label, value }) => [label, plain(value)]));
}

const wind = (part: Partial<EnteredWind>): string | null =>
  plain(
    windText(
      { fromDeg: 240, reference: 'true', speedKt: 9, gustKt: null, ...part },
      { speed: 'kt' },
    ),
  );

describe('the title block', () => {
  test('[ST20] stands in the usual units, zero degrees being a temperature', () => {
    expect(block({})).toEqual({
      Wind: '240°M 9 kt',
      Temp: '0 °C',
      QNH: '1009',
      Mass: '930 kg',
      Surface: 'grass, wet',
    });
  });

  test('[ST21] converts each figure to the unit of the pilot', () => {
    const other = { speed: 'mph', temperature: 'F', pressure: 'inHg', mass: 'lb' } as const;
    // 9 kt = 10.36 mph, 0 °C = 32 °F, 930 kg = 2050.3 lb: by the definitions of the units. Standard
    // pressure 1013.25 hPa = 29.92 inHg (ICAO Doc 7488, from memory).
    expect(block({ qnhHpa: 1013.25 }, 'landing', other)).toMatchObject({
      Wind: '240°M 10 mph',
      Temp: '32 °F',
      QNH: '29.92',
      Mass: '2050 lb',
    });
    expect(block({ tempC: -40 }, 'landing', other).Temp).toBe('\u221240 °F');
    expect(block({ tempC: -40 }).Temp).toBe('\u221240 °C');
  });

  test('[ST22] leaves out one by one what was not entered, and nothing else', () => {
    const cells = {
      Wind: { wind: null },
      Temp: { tempC: null },
      QNH: { qnhHpa: null },
      Mass: { massKg: null },
      Surface: { surface: null },
    };
    for (const [label, missing] of Object.entries(cells)) {
      expect(block(missing)).toEqual({ ...block({}), [label]: null });
    }
    const nothing = titleBlock(undetermined('nothing entered'), 'take-off', units);
    expect(nothing.every(({ value }) => value === null)).toBe(true);
    expect(nothing.map(({ label }) => label)).toEqual(Object.keys(cells));
  });

  test('[ST23] shows the mass of the take-off at a take-off, and that of the landing where no other is known', () => {
    expect(block({ takeOffMassKg: 955 }, 'take-off').Mass).toBe('955 kg');
    expect(block({ takeOffMassKg: 955 }, 'landing').Mass).toBe('930 kg');
    expect(block({ takeOffMassKg: null }, 'take-off').Mass).toBe('930 kg');
    expect(block({ takeOffMassKg: 955, massKg: null }, 'landing').Mass).toBeNull();
  });

  test('[ST24] has words for every state of the surface', () => {
    const words = Object.values(SURFACE_WORDS);
    expect(new Set(words).size).toBe(words.length);
    expect(words.length).toBe(9);
  });
});

describe('the wind', () => {
  test('[ST25] is calm only where nought was entered, and no gust', () => {
    expect(wind({ speedKt: 0 })).toBe('calm');
    expect(wind({ speedKt: 0, gustKt: 0 })).toBe('calm');
    expect(wind({ speedKt: 0, fromDeg: null })).toBe('calm');
    expect(wind({ speedKt: 0, gustKt: 12 })).toBe('240° 0 kt, gusts 12');
    expect(wind({ speedKt: 0.4 })).not.toBe('calm');
  });

  test('[ST26] says its reference where it is not the true one, in three figures', () => {
    expect(wind({ fromDeg: 5 })).toBe('005° 9 kt');
    expect(wind({ fromDeg: 0 })).toBe('000° 9 kt');
    expect(wind({ fromDeg: 360, reference: 'magnetic' })).toBe('360°M 9 kt');
    expect(wind({ fromDeg: null, gustKt: 15 })).toBe('variable 9 kt, gusts 15');
  });
});
