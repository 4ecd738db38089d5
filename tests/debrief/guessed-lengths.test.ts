/** What a debrief does not tell, nor learn, where the ends of a strip are a guess; rule UP4 in docs/spec/measuring.md. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { debriefFile, type Flight } from '../../src/debrief/debrief.ts';
import type { LandingMarks } from '../../src/debrief/hand-corrections.ts';
import { shortLandings, shortLengths } from '../../src/debrief/short-lengths.ts';
import { isUndetermined } from '../../src/result.ts';
import { summariseFlight } from '../../src/report/flight-summary.ts';
import { loggedLengths, shortPairs } from '../../src/report/logged-lengths.ts';
import { demoContext } from './demo-flights.ts';

const FILE = '2025-09-21-last-dry-day-sedge.gpx';

async function flight(
  endsGuessed: boolean,
  landings: readonly LandingMarks[] = [],
): Promise<Flight> {
  const context = demoContext();
  const strips = context.strips.strips.map((strip) => ({ ...strip, endsGuessed }));
  const bytes = new Uint8Array(readFileSync(resolve('tracks-sample/flights', FILE)));
  const read = await debriefFile(bytes, FILE, {
    ...{ ...context, landings },
    strips: { ...context.strips, strips },
  });
  if (!read.ok) throw new Error('the demo flight is not read');
  return read.value.flights[0];
}

test.each([
  ['known', false],
  ['a guess', true],
] as const)(
  '[UP4] where ends are %s, a landing counts in a length needed or does not',
  async (_, endsGuessed) => {
    const found = await flight(endsGuessed);
    if (isUndetermined(found.aeroplane)) throw new Error(found.aeroplane.undetermined);
    const { id } = found.aeroplane;
    const logged = [{ id: FILE, flightIndex: 0, summary: summariseFlight(found) }];
    const counts = [
      shortLandings([found], id).length,
      shortLengths([found]).length,
      shortPairs(logged, id).length,
      loggedLengths(logged, id).length,
    ];
    expect(counts.map((count) => count > 0)).toEqual(counts.map(() => !endsGuessed));
  },
);

test.each([
  ['known', false],
  ['a guess', true],
] as const)(
  '[UP4] where ends are %s, a touchdown put by hand before them was short and teaches, or neither',
  async (_, endsGuessed) => {
    const landed = (await flight(endsGuessed)).events.approaches.map(({ touchdown }) => {
      if (isUndetermined(touchdown) || isUndetermined(touchdown.timeS)) throw new Error('landed');
      if (isUndetermined(touchdown.alongM)) throw new Error('the strip is kept');
      return { timeS: touchdown.timeS.value, alongM: touchdown.alongM.value };
    });
    expect(landed).toHaveLength(2);
    // The log rules out that the first was so short: it teaches nothing in either case.
    const put = landed.map(({ timeS, alongM }, k) => ({
      ...{ effort: null, rollEnd: null, aroundS: timeS },
      touchdown: { timeS, alongM: k === 0 ? -1 : alongM + 5 },
    }));
    const marked = await flight(endsGuessed, put);
    const [{ touchdown }] = marked.events.approaches;
    if (isUndetermined(touchdown)) throw new Error('it was put');
    expect(touchdown.alongM).toMatchObject({ value: -1 });
    expect(touchdown.shortProbability).toBe(endsGuessed ? 0 : 1);
    expect(marked.lessons.length).toBe(endsGuessed ? 0 : 1);
  },
);
