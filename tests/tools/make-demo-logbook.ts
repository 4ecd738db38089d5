/**
 * Writes the demonstration as a logbook file: records of tracks-sample with their measured results.
 *
 *   make-demo-logbook SAMPLE_FOLDER OUT_FILE
 */
import { readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { measureLog } from '../../src/app/measure-log.ts';
import { demoRecords } from '../../src/logbook/demo-logbook.ts';
import type { Json } from '../../src/logbook/entry.ts';
import { exportLogbook } from '../../src/logbook/export.ts';
import { put } from '../../src/logbook/logbook-store.ts';
import { makeResult } from '../../src/logbook/make-entry.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import type { Result } from '../../src/result.ts';

/** Older than any change a pilot makes, so that the pilot's own always counts as newer. */
const MADE_S = Date.UTC(2025, 9, 1) / 1000;

const [, , sample, outFile] = process.argv;
const text = (path: string): string => readFileSync(join(sample, path), 'utf8');
const names = (folder: string): string[] => readdirSync(join(sample, folder)).sort();
const flights = names('flights').map((fileName) => ({
  fileName,
  bytes: new Uint8Array(readFileSync(join(sample, 'flights', fileName))),
}));
const records = done(
  await demoRecords(
    {
      strips: text('strips.geojson'),
      aeroplanes: names('aeroplanes').map((name) => text(`aeroplanes/${name}`)),
      conditions: text('conditions.json'),
      flights,
    },
    MADE_S,
  ),
);
const store = createMemoryStore();
done(await store.write(records.map(put)));
// As the page lists them, so that it finds the same fingerprint.
const inputs = {
  strips: done(await store.list('strip')),
  aeroplanes: done(await store.list('aeroplane')),
  visits: done(await store.list('visit')),
};
for (const log of done(await store.list('log'))) {
  const found = flights.find(({ fileName }) => fileName === log.fileName);
  if (!found) throw new Error(`no bytes of ${log.fileName}`);
  const { analysis, inputsSha256 } = done(await measureLog(log, found.bytes, inputs));
  const result = makeResult(log, analysis as unknown as Json, inputsSha256, MADE_S);
  done(await store.write([put(result)]));
}
writeFileSync(`${outFile}.unfinished`, done(await exportLogbook(store)));
renameSync(`${outFile}.unfinished`, outFile);

/** The value, or the end of the program with what was wrong. */
function done<T>(result: Result<T>): T {
  if (result.ok) return result.value;
  for (const { where, message } of result.problems) console.error(`${where}: ${message}`);
  process.exit(1);
}
