/** The logbook at first sight, days and clocks in a zone, months. */
import { describe, expect, test } from 'vitest';
import type { FlightSummary } from '../../src/report/flight-summary.ts';
import {
  clockSecondsText,
  clockText,
  dayText,
  isoDay,
  longDay,
  yearOf,
  zoneWords,
} from '../../src/report/local-time.ts';
import { daysUsedThisYear, logbookSentence, currencyOf } from '../../src/report/logbook-words.ts';
import { monthCounts } from '../../src/report/season-counts.ts';
import { unitsLine } from '../../src/report/units-line.ts';
import { makeSettings } from '../../src/logbook/make-entry.ts';

const DAY = 86_400;
const NOW = Date.UTC(2026, 5, 15, 12) / 1000;

/** Flights with a landing each: at a strip (null: not kept) so many days before now. */
function landings(...made: readonly (readonly [strip: string | null, daysAgo: number])[]) {
  return made.map(([stripId, daysAgo], k) => ({
    id: String(k),
    flightIndex: 0,
    summary: {
      events: [{ stripId, timeS: NOW - daysAgo * DAY, outcome: 'full-stop' }],
    } as unknown as FlightSummary,
  }));
}

describe('the sentence of the logbook', () => {
  test('[LW1] counts landings and strips, and says when the last one was', () => {
    expect(logbookSentence([], NOW)).toBe('No landings yet.');
    expect(logbookSentence(landings(['a', 0]), NOW)).toBe('1 landing at one strip today.');
    expect(logbookSentence(landings(['a', 3], ['b', 40], ['a', 41]), NOW)).toBe(
      '3 landings at two strips, the last one three days ago.',
    );
    expect(logbookSentence(landings(['a', 1], ['a', 2]), NOW)).toMatch(/a day ago\.$/);
    expect(logbookSentence(landings(['a', 400], ['a', 500]), NOW)).toMatch(/13 months ago\.$/);
    expect(logbookSentence(landings(['a', 1100], ['a', 1200]), NOW)).toMatch(/three years ago\.$/);
  });

  test('[LW2] does not lose landings at places not kept yet', () => {
    expect(logbookSentence(landings([null, 2], [null, 3]), NOW)).toMatch(
      /^2 landings at places not kept yet,/,
    );
    expect(logbookSentence(landings(['a', 2], [null, 3]), NOW)).toMatch(
      /^2 landings at one strip and at a place not kept yet,/,
    );
  });

  test('[LW3] counts the last 90 days by the dates of the zone, the ninetieth before included', () => {
    expect(
      currencyOf(landings(['a', 0], ['a', 90], ['a', 90.01], ['a', 91]), NOW).landingsIn90Days,
    ).toBe(3);
  });

  test('[LW4] counts days of use by the date of the zone', () => {
    // 23:30 and 00:30 UTC: two days in UTC, one in a zone two hours ahead (Athens in June is UTC+3).
    const flights = landings(['a', 0.5 + 0.5 / 24], ['a', 0.5 - 0.5 / 24]);
    expect(daysUsedThisYear(flights, 'a', NOW, 'UTC')).toBe(2);
    expect(daysUsedThisYear(flights, 'a', NOW, 'Europe/Athens')).toBe(1);
    expect(daysUsedThisYear(flights, 'b', NOW, 'UTC')).toBe(0);
  });
});

describe('days and clocks', () => {
  test('[LW5] are UTC where nothing else was chosen', () => {
    const timeS = Date.UTC(2025, 8, 6, 9, 3, 7) / 1000;
    expect(clockText(timeS)).toBe('09:03');
    expect(clockSecondsText(timeS)).toBe('09:03:07');
    expect(dayText(timeS)).toBe('6 Sep');
    expect(longDay(timeS)).toBe('Saturday 6 September 2025');
    expect(isoDay(timeS)).toBe('2025-09-06');
    expect(zoneWords()).toBe('UTC');
  });

  test('[LW6] follow the zone, over midnight and the turn of a year', () => {
    // Auckland is UTC+13 in January (IANA database): 11:30 UTC is half past midnight there.
    const timeS = Date.UTC(2025, 11, 31, 11, 30) / 1000;
    expect(clockText(timeS, 'Pacific/Auckland')).toBe('00:30');
    expect(dayText(timeS, 'Pacific/Auckland')).toBe('1 Jan');
    expect(yearOf(timeS, 'Pacific/Auckland')).toBe(2026);
    expect(yearOf(timeS)).toBe(2025);
  });

  test('[LW7] in a zone that this machine does not know are UTC', () => {
    expect(clockText(0, 'Doggerland/Ternholm')).toBe('00:00');
  });

  test('[LW8] stand in the head with the units', () => {
    expect(unitsLine(makeSettings(0))).toBe('m · kt · UTC');
  });
});

describe('months', () => {
  test('[LW9] are twenty-four to the last landing, empty ones among them', () => {
    const months = monthCounts(landings(['a', 20], ['a', 21], [null, 80]), NOW, 'UTC');
    expect(months.length).toBe(24);
    expect(months.at(-1)).toEqual({ month: '2026-05', name: 'May 2026', landings: 2 });
    expect(months.at(-3)).toEqual({ month: '2026-03', name: 'Mar 2026', landings: 1 });
    expect(months[0].month).toBe('2024-06');
    expect(months.reduce((sum, each) => sum + each.landings, 0)).toBe(3);
    expect(monthCounts([], NOW, 'UTC')).toEqual([]);
  });
});
