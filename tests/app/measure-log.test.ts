/** From bytes and records to figures: with what a log is measured, and that the page finds the same again. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { decodeAnalysis } from '../../src/app/decode-analysis.ts';
import { measureLog } from '../../src/app/measure-log.ts';
import { contextFor, fingerprint, type KeptInputs } from '../../src/logbook/debrief-context.ts';
import { entryId, type LogRecord } from '../../src/logbook/entry.ts';
import { makeAeroplane, makeLog, makeStrips, makeVisit } from '../../src/logbook/make-entry.ts';
import { addVersion } from '../../src/logbook/strip-versions.ts';
import { isUndetermined } from '../../src/result.ts';
import { decodeConditions } from '../../src/weather/decode-conditions.ts';
import { demoTruth, DEMO_FILES, debriefDemo, demoContext } from '../debrief/demo-flights.ts';
import { summariseFlight } from '../../src/report/flight-summary.ts';
import { valueOf } from '../logbook/invented-entries.ts';
import { sampleText } from './page-store.ts';

const OWN = { nowS: 1_700_000_000, demo: false };
const FILE = '2024-05-12-home-from-sedge.igc';
/** The flight is of 12 May 2024. */
const FLOWN_S = Date.UTC(2024, 4, 12) / 1000;

async function logOf(file: string) {
  const bytes = new Uint8Array(readFileSync(resolve('tracks-sample/flights', file)));
  return { log: valueOf(await makeLog(file, bytes, OWN)), bytes };
}

/** The demo's strips and aeroplanes as records, and what was entered about one flight. */
async function inputsFor(log: LogRecord): Promise<KeptInputs> {
  const book = valueOf(decodeConditions(sampleText('conditions.json')));
  const conditions = book.byFile.get(log.fileName) ?? book.all;
  const aeroplane = (id: string) =>
    valueOf(makeAeroplane(sampleText(`aeroplanes/${id}.json`), OWN));
  return {
    strips: valueOf(await makeStrips(sampleText('strips.geojson'), OWN)),
    aeroplanes: [aeroplane('marram-160'), aeroplane('eelgrass-450')],
    visits: [{ ...makeVisit(entryId('visit', 'v'), log, OWN), conditions }],
  };
}

describe('a measured log', () => {
  test('[AS50] is what a debrief of the same file gives, as plain data that passes its own check', async () => {
    const stages: string[] = [];
    for (const file of DEMO_FILES.slice(0, 6)) {
      const { log, bytes } = await logOf(file);
      const measured = await measureLog(log, bytes, await inputsFor(log), () => stages.push(file));
      const { analysis } = valueOf(measured);
      const { flights } = await debriefDemo(file, demoContext());
      expect(analysis.flights).toEqual(flights.map(summariseFlight));
      expect(decodeAnalysis(JSON.parse(JSON.stringify(analysis)))).toEqual(analysis);
    }
    expect(stages).toEqual(DEMO_FILES.slice(0, 6));
  });

  test('[AS51] carries the fingerprint that the page finds again from its records', async () => {
    const { log, bytes } = await logOf(FILE);
    const inputs = await inputsFor(log);
    const { analysis, inputsSha256 } = valueOf(await measureLog(log, bytes, inputs));
    const again = valueOf(contextFor(structuredClone(inputs), log, analysis.flights[0].startS));
    expect(inputsSha256).toBe(await fingerprint(again));
    const other = valueOf(contextFor({ ...inputs, visits: [] }, log, analysis.flights[0].startS));
    expect(inputsSha256).not.toBe(await fingerprint(other));
  });

  test('[AS52] lies at the strip as it was on the day, whatever was drawn later', async () => {
    const { log, bytes } = await logOf(FILE);
    const inputs = await inputsFor(log);
    const placeOf = async (fromS: number): Promise<number> => {
      const strips = inputs.strips.map((strip) => {
        if (strip.id !== entryId('strip', 'ternholm')) return strip;
        const feature = structuredClone(strip.versions[0].feature);
        const { directions } = feature.properties as { directions: { displacedM: number }[] };
        // Both thresholds 40 m further in than before.
        for (const direction of directions) direction.displacedM += 40;
        for (const direction of directions) Object.assign(direction, { ldaM: 460 });
        return addVersion(strip, fromS, feature, 0);
      });
      const { analysis } = valueOf(await measureLog(log, bytes, { ...inputs, strips }));
      const landing = analysis.flights[0].events.find(({ kind }) => kind === 'approach');
      if (!landing || isUndetermined(landing.placeM)) throw new Error('a landing');
      return landing.placeM.value;
    };
    const [later, before] = [await placeOf(FLOWN_S + 30 * 86_400), await placeOf(FLOWN_S)];
    // 40 m less from a threshold 40 m further in; the touchdown is found within a few metres of that.
    expect(Math.abs(later - before - 40)).toBeLessThan(5);
    expect(demoTruth()[FILE].approaches.length).toBe(1);
  });

  test('[AS53] that is no track fails with what was found and expected, before any measuring', async () => {
    const bytes = new TextEncoder().encode('no track at all');
    const log = valueOf(await makeLog('letter.gpx', bytes, OWN));
    let begun = 0;
    const failed = await measureLog(log, bytes, await inputsFor(log), () => begun++);
    expect(failed.ok).toBe(false);
    expect(failed.problems[0].message).toMatch(/expected/);
    expect(begun).toBe(0);
  });

  test('[AS54] says which record it was measured without', async () => {
    const { log, bytes } = await logOf(FILE);
    const inputs = await inputsFor(log);
    const broken = { ...inputs.aeroplanes[1], document: { schema: 1, kind: 'aeroplane' } };
    const aeroplanes = [inputs.aeroplanes[0], broken];
    const { analysis } = valueOf(await measureLog(log, bytes, { ...inputs, aeroplanes }));
    const said = analysis.problems.filter(({ code }) => code === 'logbook-left-out');
    expect(said.length).toBeGreaterThan(0);
    expect(said[0].where).toMatch(/eelgrass-450/);
    expect(analysis.flights.length).toBe(1);
  });
});
