/**
 * Figures of the demo's flights stay where they were reviewed.
 *
 * tests/golden/<sample>.expected.json holds them in whole metres. They are no truth (that is
 * demo-truth.test.ts): a change here must be wanted, reviewed and named in docs/CHANGELOG.md.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { expectNear } from '../expect-near.ts';
import { debriefDemo, demoContext, DEMO_FILES } from './demo-flights.ts';
import { HOW_TO_RENEW, summarise, type Golden, type GoldenEvent } from './golden-summary.ts';

const FOLDER = 'tests/golden';
const context = demoContext();

function expectEvents(found: readonly GoldenEvent[], expected: readonly GoldenEvent[]): void {
  const words = ({ what, strip, direction }: GoldenEvent): string =>
    `${what} ${strip} ${direction}`;
  expect(found.map(words)).toEqual(expected.map(words));
  found.forEach(({ what, metres }, k) => {
    expect(Object.keys(metres)).toEqual(Object.keys(expected[k].metres));
    for (const [name, value] of Object.entries(metres)) {
      const wanted = expected[k].metres[name];
      // Rounding may fall the other way on another machine; one metre is the unit of the file.
      if (value === null || wanted === null) expect(value, `${what} ${name}`).toBe(wanted);
      else expectNear(value, wanted, 1, `${what} ${name}`);
    }
  });
}

describe('[GOLD1] the reviewed figures of each demo flight', () => {
  test.each(DEMO_FILES)('[GOLD1] %s', async (file) => {
    const text = readFileSync(`${FOLDER}/${file}.expected.json`, 'utf8');
    const expected = JSON.parse(text) as readonly Golden[];
    const { flights } = await debriefDemo(file, context);
    expect(flights).toHaveLength(expected.length);
    flights.map(summarise).forEach((found, k) => {
      expect(expected[k].about).toBe(HOW_TO_RENEW);
      expect(expected[k].takeOffs.length + expected[k].approaches.length).toBeGreaterThan(1);
      expectEvents(found.takeOffs, expected[k].takeOffs);
      expectEvents(found.approaches, expected[k].approaches);
      expect(found.circuits).toEqual(expected[k].circuits);
      expect(found.joins).toEqual(expected[k].joins);
    });
  });

  test('[GOLD1] every golden file has its flight', () => {
    expect(readdirSync(FOLDER).sort()).toEqual(DEMO_FILES.map((file) => `${file}.expected.json`));
  });
});
