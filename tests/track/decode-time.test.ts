/** Times as text against the language's own calendar. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { daysSince1970, isoDate, IsoTimeReader } from '../../src/track/decode-time.ts';
import { expectNear } from '../expect-near.ts';
import { seconds } from './fixture-file.ts';

describe('times as text', () => {
  test('[TIM1] agrees with the built-in reader on any time from 1900 to 2100, in any zone', () => {
    const zones = fc.constantFrom('Z', '+02:00', '-09:30', '+05:45');
    const instants = fc.date({
      min: new Date('1900-01-01T00:00:00Z'),
      max: new Date('2100-01-01T00:00:00Z'),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(instants, zones, (date, zone) => {
        const text = date.toISOString().replace('Z', zone);
        expectNear(new IsoTimeReader().read(text), seconds(text), 1e-6, text);
      }),
      { seed: 11, numRuns: 2000 },
    );
  });

  test('[TIM2] counts days as the built-in calendar does, and no day that does not exist', () => {
    for (let day = -40_000; day < 60_000; day += 37) {
      const date = new Date(day * 86_400_000);
      const counted = daysSince1970(
        date.getUTCFullYear(),
        date.getUTCMonth() + 1,
        date.getUTCDate(),
      );
      expectNear(counted, day, 0, isoDate(day * 86_400));
    }
    for (const [y, m, d] of [
      [2026, 2, 29],
      [1900, 2, 29],
      [2026, 4, 31],
      [2026, 13, 1],
      [2026, 0, 1],
      [2026, 1, 0],
    ]) {
      expect(daysSince1970(y, m, d)).toBeNaN();
    }
    expect(daysSince1970(2024, 2, 29)).toBe(Date.UTC(2024, 1, 29) / 86_400_000);
  });

  const wrong = [
    '',
    'yesterday',
    '2026-06-07',
    '2026-06-07T10:00Z',
    '2026-06-07T24:00:00Z',
    '2026-06-07T10:60:00Z',
    '2026-02-29T10:00:00Z',
    '2026-06-07T10:00:00.Z',
    '2026-06-07T10:00:00+2',
    '2026-06-07T10:00:00 UTC',
    '07.06.2026 10:00:00',
  ];
  for (const text of wrong) {
    test(`[TIM3] finds no time in "${text}"`, () => {
      expect(new IsoTimeReader().read(text)).toBeNaN();
    });
  }

  test('[TIM4] remembers the finest decimals that say something', () => {
    const reader = new IsoTimeReader();
    reader.read('2026-06-07T10:00:00.000Z');
    expect(reader.finestDecimals).toBe(0);
    reader.read('2026-06-07T10:00:00.500Z');
    expect(reader.finestDecimals).toBe(1);
    reader.read('2026-06-07T10:00:00.123Z');
    expect(reader.finestDecimals).toBe(3);
  });
});
