/** Which approaches are laid over each other, and how they stand in an address. */
import { describe, expect, test } from 'vitest';
import {
  candidatesOf,
  chosenApproaches,
  MOST_APPROACHES,
  remarksOf,
} from '../../../src/app/entry/approach-refs.ts';
import { entryId } from '../../../src/logbook/entry.ts';
import { makeVisit } from '../../../src/logbook/make-entry.ts';
import type { EventSummary } from '../../../src/report/flight-summary.ts';
import type { LoggedFlight } from '../../../src/report/logged-flight.ts';
import { undetermined } from '../../../src/result.ts';

const event = (key: string, timeS: number, change: object = {}): EventSummary =>
  ({
    key,
    timeS,
    kind: key.startsWith('approach') ? 'approach' : 'take-off',
    stripId: 'sedge',
    stripName: 'Sedgeholt',
    designator: '20',
    outcome: 'full-stop',
    ...change,
  }) as EventSummary;

const AEROPLANE = { id: 'plain', name: 'Plain' };
const flight = (
  id: string,
  events: readonly EventSummary[],
  aeroplane: object = AEROPLANE,
): LoggedFlight =>
  ({
    id: id.padEnd(64, '0'),
    flightIndex: 0,
    summary: { events, aeroplane },
  }) as unknown as LoggedFlight;

const CIRCUITS = flight('aaaa', [
  event('take-off-0', 100),
  event('approach-0', 200, { outcome: 'go-around' }),
  event('approach-1', 300),
  event('approach-2', 400, { designator: '02' }),
]);
const ONE = flight('bbbb', [
  event('approach-0', 900),
  event('approach-1', 950, { outcome: 'overflight' }),
  event('approach-2', 960, { stripId: null, designator: null }),
]);

describe('candidates', () => {
  test('[SB1] are the approaches at kept strips, go-arounds among them, newest first', () => {
    const found = candidatesOf([CIRCUITS, ONE]);
    expect(found.map(({ ref }) => ref)).toEqual([
      'bbbb00000000.0.0',
      'aaaa00000000.0.2',
      'aaaa00000000.0.1',
      'aaaa00000000.0.0',
    ]);
  });
});

describe('the chosen ones', () => {
  const all = candidatesOf([CIRCUITS, ONE]);
  const keys = (refs: readonly string[]) => chosenApproaches(all, refs).map(({ ref }) => ref);

  test('[SB15] say in which aeroplane they were flown, where that is known', () => {
    const unsaid = flight('cccc', [event('approach-0', 1000)], undetermined('nobody said'));
    expect(candidatesOf([unsaid, ONE]).map(({ aeroplane }) => aeroplane)).toEqual([null, 'Plain']);
  });

  test('[SB2] are those of the address, in the order flown, all in the direction of the first', () => {
    const refs = ['bbbb00000000.0.0', 'aaaa00000000.0.0', 'aaaa00000000.0.2', 'nothing'];
    expect(keys(refs)).toEqual(['aaaa00000000.0.0', 'bbbb00000000.0.0']);
  });

  test('[SB3] are else those of the newest flight with several in one direction', () => {
    expect(keys([])).toEqual(['aaaa00000000.0.0', 'aaaa00000000.0.1']);
    expect(chosenApproaches(candidatesOf([ONE]), [])).toHaveLength(1);
    expect(chosenApproaches([], [])).toEqual([]);
  });

  test('[SB4] are never more than can be told apart', () => {
    const many = flight(
      'cccc',
      Array.from({ length: 9 }, (_, k) => event(`approach-${k}`, k)),
    );
    expect(chosenApproaches(candidatesOf([many]), [])).toHaveLength(MOST_APPROACHES);
  });
});

test('[SB5] a remark pinned to an approach is said of that one alone', () => {
  const [late, early] = candidatesOf([
    flight('dddd', [event('approach-0', 1000), event('approach-1', 2000)]),
  ]);
  const visit = {
    ...makeVisit(entryId('visit', 'v'), null, { nowS: 0, demo: false }),
    logId: entryId('log', early.logId),
    remarks: [
      { id: '1', timeS: 1060, text: 'broken off for a hare', writtenS: 0 },
      { id: '2', timeS: null, text: 'a good day', writtenS: 0 },
    ],
  };
  expect(remarksOf(early, [visit])).toEqual(['broken off for a hare']);
  expect(remarksOf(late, [visit])).toEqual([]);
});
