/** Days since a strip landing, recent landings, days a strip was used. */
import { describe, expect, test } from 'vitest';
import {
  currencyOn,
  daysBetween,
  landingsByMonth,
  stripDaysIn,
} from '../../src/calibration/currency.ts';

const at = (day: string, stripId: string | null = 'a') => ({ day, stripId });

describe('currency', () => {
  test('[CUR1] counts from the last landing at a kept strip, also over a leap day', () => {
    // 2028 is a leap year (Gregorian rule): 28 February to 1 March are two days.
    expect(daysBetween('2028-02-28', '2028-03-01')).toBe(2);
    const landings = [at('2028-02-20'), at('2028-02-28'), at('2028-02-29', null)];
    expect(currencyOn('2028-03-01', landings).lastStripLanding).toEqual({
      day: '2028-02-28',
      daysAgo: 2,
    });
    expect(currencyOn('2028-03-01', [at('2028-02-29', null)]).lastStripLanding).toBeNull();
  });

  test('[CUR2] counts landings of the ninetieth day before, none of the ninety-first, none to come', () => {
    // 90 days before 30 June 2026 is 1 April: 30 + 31 + 29 days.
    const landings = ['2026-03-31', '2026-04-01', '2026-06-30', '2026-07-01'].map((day) => at(day));
    expect(currencyOn('2026-06-30', landings).landingsIn90Days).toBe(2);
  });

  test('[CUR3] counts a day of a strip once, by year and strip', () => {
    const uses = [
      ...[at('2026-05-01'), at('2026-05-01'), at('2026-05-02'), at('2025-12-31')],
      ...[at('2026-05-02', 'b'), at('2026-05-02', null)],
    ];
    expect(stripDaysIn('2026', uses)).toEqual([
      { stripId: 'a', days: 2 },
      { stripId: 'b', days: 1 },
    ]);
  });

  test('[CUR4] has a month without landings as a month, over the turn of a year', () => {
    expect(landingsByMonth(['2025-11-30', '2026-01-01', '2026-01-31'], '2026-01-31', 3)).toEqual([
      { month: '2025-11', landings: 1 },
      { month: '2025-12', landings: 0 },
      { month: '2026-01', landings: 2 },
    ]);
  });

  test('[CUR5] refuses what is no day', () => {
    expect(() => daysBetween('2026-02-30x', '2026-03-01')).toThrow('YYYY-MM-DD');
  });
});
