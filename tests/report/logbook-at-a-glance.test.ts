/** How long ago, how many, where: the logbook's first sentence at its edges. */
import { describe, expect, test } from 'vitest';
import type { EventSummary, FlightSummary } from '../../src/report/flight-summary.ts';
import {
  daysUsedThisYear,
  inWords,
  landingsOf,
  logbookSentence,
  currencyOf,
} from '../../src/report/logbook-words.ts';
import type { LoggedFlight } from '../../src/report/logged-flight.ts';
import { undetermined } from '../../src/result.ts';

const DAY = 86_400;
const NOW = Date.UTC(2026, 5, 15, 12) / 1000;

/** One flight a touch, in any order. */
function logged(
  ...events: readonly Partial<Pick<EventSummary, 'stripId' | 'timeS' | 'outcome'>>[]
): LoggedFlight[] {
  return events.map((event, k) => ({
    id: String(k),
    flightIndex: 0,
    summary: {
      events: [{ stripId: 'a', timeS: NOW, outcome: 'full-stop', ...event }],
    } as unknown as FlightSummary,
  }));
}

const ago = (days: number): string => {
  const sentence = logbookSentence(logged({ timeS: NOW - days * DAY }), NOW);
  return sentence.replace('1 landing at one strip ', '').replace('.', '');
};

describe('the last landing', () => {
  test('[LW30] was so many days, months or years ago, never one of many', () => {
    expect([1, 2, 12, 13, 59].map(ago)).toEqual([
      'a day ago',
      'two days ago',
      'twelve days ago',
      '13 days ago',
      '59 days ago',
    ]);
    expect([60, 365, 700].map(ago)).toEqual([
      'two months ago',
      'twelve months ago',
      '23 months ago',
    ]);
    expect([731, 1095, 1096, 5000].map(ago)).toEqual([
      'two years ago',
      'two years ago',
      'three years ago',
      '13 years ago',
    ]);
    for (let days = 0; days < 1500; days++) {
      expect(ago(days), `${days} days`).not.toMatch(/\b(no|one|1) (days|months|years)/);
    }
  });

  test('[LW31] of yesterday evening was a day ago, by the date of the zone', () => {
    const evening = logged({ timeS: Date.UTC(2026, 5, 14, 20) / 1000 });
    const morning = Date.UTC(2026, 5, 15, 8) / 1000;
    expect(logbookSentence(evening, morning)).toMatch(/ a day ago\.$/);
    // In Auckland (UTC+12 in June, IANA database) both are on the fifteenth: 08:00 and 20:00.
    expect(logbookSentence(evening, morning, 'Pacific/Auckland')).toMatch(/ today\.$/);
  });

  test('[LW32] is the latest in time, wherever it stands in the list', () => {
    const flights = logged({ timeS: NOW - 2 * DAY }, { timeS: NOW - 40 * DAY });
    expect(logbookSentence(flights, NOW)).toMatch(/the last one two days ago/);
    expect(logbookSentence(flights.toReversed(), NOW)).toMatch(/the last one two days ago/);
    // A clock that is behind the log's must not say it has yet to come.
    expect(ago(-3)).toBe('today');
  });
});

describe('landings', () => {
  test('[LW33] are wheels on the ground: no pass, no take-off, nothing the log cannot tell', () => {
    const outcomes = [
      ...(['full-stop', 'touch-and-go', 'stop-and-go', 'go-around', 'low-pass'] as const),
      ...(['overflight', 'take-off', 'rejected'] as const),
    ];
    const flights = logged(...outcomes.map((outcome) => ({ outcome })), {
      outcome: undetermined('the log ends in the roll'),
    });
    expect(landingsOf(flights).map(({ outcome }) => outcome)).toEqual(outcomes.slice(0, 3));
    expect(currencyOf(flights, NOW).landingsIn90Days).toBe(3);
  });

  test('[LW34] at one place that is not kept are not at places', () => {
    expect(logbookSentence(logged({ stripId: null }), NOW)).toBe(
      '1 landing at a place not kept yet today.',
    );
    expect(logbookSentence(logged({}, { stripId: null }), NOW)).toBe(
      '2 landings at one strip and at a place not kept yet, the last one today.',
    );
    expect(logbookSentence(logged({ stripId: null }, { stripId: null }), NOW)).toMatch(
      /^2 landings at places not kept yet,/,
    );
  });

  test('[LW35] are counted in words up to twelve, then in figures', () => {
    expect([0, 1, 12, 13].map(inWords)).toEqual(['no', 'one', 'twelve', '13']);
  });
});

describe('days used', () => {
  test('[LW36] are of this year in the zone, each once, whatever was done there', () => {
    const at = (timeS: number, outcome: EventSummary['outcome'] = 'full-stop') => ({
      timeS,
      outcome,
    });
    const newYear = Date.UTC(2026, 0, 1) / 1000;
    const flights = logged(
      at(NOW),
      at(NOW + 60, 'take-off'),
      at(NOW - 5 * DAY, 'go-around'),
      at(newYear - 1800),
    );
    expect(daysUsedThisYear(flights, 'a', NOW, 'UTC')).toBe(2);
    // Half an hour before the year's end in UTC is the new year in Oslo (UTC+1, IANA database).
    expect(daysUsedThisYear(flights, 'a', NOW, 'Europe/Oslo')).toBe(3);
    expect(daysUsedThisYear(flights, 'a', NOW - 365 * DAY, 'UTC')).toBe(1);
  });

  test('[LW37] do not count a day on which it was only flown over', () => {
    expect(daysUsedThisYear(logged({ outcome: 'overflight' }), 'a', NOW, 'UTC')).toBe(0);
  });
});
