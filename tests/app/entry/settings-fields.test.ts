import { describe, expect, test } from 'vitest';
import {
  currencyFields,
  factorSetChoices,
  keptFactorSet,
  settingsSentence,
  shownFactorSet,
  UNIT_CHOICES,
  withCurrency,
} from '../../../src/app/entry/settings-fields.ts';
import { dayOf, dayStartS, timeZoneChoices } from '../../../src/app/entry/time-zones.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import { decodeEntry } from '../../../src/logbook/decode-logbook.ts';

const settings = makeSettings(0);

describe('settings', () => {
  test('[SG1] offer every unit that the logbook takes, and no other', () => {
    expect(UNIT_CHOICES.map(({ name }) => name).sort()).toEqual(Object.keys(settings.units).sort());
    for (const { name, options } of UNIT_CHOICES) {
      for (const { value } of options) {
        const changed = { ...settings, units: { ...settings.units, [name]: value } };
        expect(decodeEntry(changed).ok).toBe(true);
      }
    }
  });

  test('[SG2] are said in a sentence', () => {
    expect(settingsSentence(settings)).toBe(
      'Shown in metres of strip, feet of height and knots, times in UTC.',
    );
    const abroad = {
      ...settings,
      timeZone: 'America/New_York',
      units: { ...settings.units, length: 'ft' as const, speed: 'mph' as const },
    };
    expect(settingsSentence(abroad)).toBe(
      'Shown in feet and miles an hour, times as in America/New York.',
    );
  });

  test('[SG3] keep the default factor set as none chosen, and any other by its id', () => {
    expect(factorSetChoices([]).map(({ value }) => keptFactorSet(value))).toEqual([
      null,
      'class-b',
      'handbook-only',
    ]);
    expect(shownFactorSet(null)).toBe('uk-leaflet');
    expect(shownFactorSet('class-b')).toBe('class-b');
  });

  test('[SG4] take limits as whole numbers, and none where a field is empty', () => {
    const read = withCurrency(settings, { landingsIn90Days: '6', daysSinceStripLanding: '' });
    expect(read.ok && read.settings.currency).toEqual({
      landingsIn90Days: 6,
      daysSinceStripLanding: null,
    });
    expect(read.ok && currencyFields(read.settings)).toEqual({
      landingsIn90Days: '6',
      daysSinceStripLanding: '',
    });
  });

  test('[SG5] say what is wrong with a limit beside it', () => {
    const messages = (landingsIn90Days: string, daysSinceStripLanding: string) => {
      const read = withCurrency(settings, { landingsIn90Days, daysSinceStripLanding });
      return read.ok ? {} : read.messages;
    };
    expect(messages('six', '2.5')).toEqual({
      landingsIn90Days: 'found "six", expected a number of landings',
      daysSinceStripLanding: 'found 2.5, expected a whole number of days',
    });
    expect(messages('-1', '99999')).toEqual({
      landingsIn90Days: 'found -1, expected a number from 0 to 10000 landings',
      daysSinceStripLanding: 'found 99999, expected a number from 0 to 10000 days',
    });
  });
});

describe('time zones', () => {
  test('[TZ1] UTC stands first, and a kept zone that the browser lacks is not lost', () => {
    const values = timeZoneChoices('Doggerland/Ternholm').map(({ value }) => value);
    expect(values[0]).toBe('UTC');
    expect(values).toContain('Doggerland/Ternholm');
    expect(values).toContain('Europe/London');
    expect(new Set(values).size).toBe(values.length);
  });

  test('[TZ2] a day begins at midnight of the zone, also when the clocks change', () => {
    const iso = (day: string, zone: string) => {
      const s = dayStartS(day, zone);
      return s === null ? null : new Date(s * 1000).toISOString();
    };
    expect(iso('2025-06-14', 'UTC')).toBe('2025-06-14T00:00:00.000Z');
    // Summer time in the European Union: UTC + 2 in Berlin from the last Sunday of March at 01:00 UTC
    // (directive 2000/84/EC, from memory).
    expect(iso('2025-03-30', 'Europe/Berlin')).toBe('2025-03-29T23:00:00.000Z');
    expect(iso('2025-03-31', 'Europe/Berlin')).toBe('2025-03-30T22:00:00.000Z');
    expect(iso('2025-10-26', 'Europe/Berlin')).toBe('2025-10-25T22:00:00.000Z');
    expect(iso('2025-10-27', 'Europe/Berlin')).toBe('2025-10-26T23:00:00.000Z');
    // New Zealand goes to UTC + 13 at 14:00 UTC on the 27th (last Sunday of September, from memory):
    // its midnight lies before the change, midnight of UTC after it.
    expect(iso('2025-09-28', 'Pacific/Auckland')).toBe('2025-09-27T12:00:00.000Z');
    expect(iso('2025-06-14', 'Pacific/Auckland')).toBe('2025-06-13T12:00:00.000Z');
  });

  test('[TZ3] the day of the moment a day begins is that day, in every zone of the browser', () => {
    for (const { value: zone } of timeZoneChoices('UTC')) {
      const startS = dayStartS('2025-06-14', zone);
      expect(startS === null ? null : dayOf(startS, zone)).toBe('2025-06-14');
      expect(startS === null ? null : dayOf(startS - 1, zone)).toBe('2025-06-13');
    }
  });

  test.each(['', '14.06.2025', '2025-6-14', '2025-02-30', 'today'])(
    '[TZ4] %j is no day',
    (text) => {
      expect(dayStartS(text, 'UTC')).toBeNull();
    },
  );
});
