/** Which logs recorded the same flights, of those that are known by a third one and those in parts. */
import { expect, test } from 'vitest';
import { flightRemovedWords, otherLogsOf } from '../../src/app/other-logs.ts';
import type { LogSummary } from '../../src/logbook/entry.ts';
import type { FlightSummary } from '../../src/report/flight-summary.ts';
import { inventedLog } from '../logbook/invented-entries.ts';

/** Straight on at 40 m/s; `byM` beside it. Nothing else of a flight is asked for. */
function straight(fromS: number, toS: number, byM: number): FlightSummary {
  const timeS = Array.from({ length: (toS - fromS) / 5 + 1 }, (_, k) => fromS + 5 * k);
  const latDeg = timeS.map((each) => 54 + (40 * each) / 111_200);
  const lonDeg = timeS.map(() => 2.3 + byM / 65_400);
  return { path: { timeS, latDeg, lonDeg } } as unknown as FlightSummary;
}

/** What is found for logs with these flights, by the names of the logs. */
async function found(
  flights: Readonly<Record<string, readonly FlightSummary[]>>,
): Promise<unknown> {
  const names = Object.keys(flights);
  const logs: LogSummary[] = await Promise.all(names.map((name) => inventedLog(name, name)));
  const nameOf = (id: string): string => logs.find((log) => log.id === id)?.fileName ?? id;
  const others = otherLogsOf(logs, (id) => flights[nameOf(id)]);
  return Object.fromEntries(
    [...others].map(([id, { ofLandings, ofWhole }]) => [
      nameOf(id),
      [ofLandings, ofWhole].map((ids) => ids.map(nameOf).sort().join(' ')),
    ]),
  );
}

test('[TWICE7] what is entered about one of three holds for all, also where only the third joins two', async () => {
  const [a, b, c] = [0, 7, 14].map((byM) => [straight(0, 600, byM)]);
  expect(await found({ a, c })).toEqual({});
  const all = { a: ['b c', 'b c'], b: ['a c', 'a c'], c: ['a b', 'a b'] };
  expect(await found({ a, b, c })).toEqual(all);
  expect(await found({ c, a, b })).toEqual(all);
});

test('[TWICE7] parts of a flight in one log share landings with a log of the whole, not with each other', async () => {
  const parts = [straight(0, 250, 0), straight(260, 600, 0)];
  expect(await found({ parts, whole: [straight(0, 600, 7)] })).toEqual({
    parts: ['whole', 'whole'],
    whole: ['parts', 'parts'],
  });
});

test('[TWICE8] a flight is said to go with all that was entered only where no log of the same flights stays', () => {
  const shared = (id: string, isWhole: boolean) => ({
    ofLandings: [id],
    ofWhole: isWhole ? [id] : [],
  });
  const words = (otherLogs: Parameters<typeof flightRemovedWords>[0]['otherLogs']): string =>
    flightRemovedWords({ otherLogs }, 'a', '1 May 2025');
  const alone = 'The flight of 1 May 2025, with all that was entered about it,';
  expect(words(new Map())).toBe(alone);
  const [a, b] = [shared('b', true), shared('a', true)];
  expect(
    words(
      new Map([
        ['a', a],
        ['b', b],
      ]),
    ),
  ).toBe(
    'One log of the flight of 1 May 2025 (what was entered about it stays with the other log)',
  );
  // The other one holds only a part of it: nothing is handed on.
  expect(
    words(
      new Map([
        ['a', shared('b', false)],
        ['b', b],
      ]),
    ),
  ).toBe(alone);
});
