/** The page's side of the worker: every question gets an answer, whatever becomes of the worker. */
import { describe, expect, test } from 'vitest';
import { AnalysisClient } from '../../src/app/analysis-client.ts';
import { makeLog } from '../../src/logbook/make-entry.ts';
import { sampleFile, standInWorker } from './page-store.ts';

const NOTHING = { strips: [], aeroplanes: [], visits: [] };

async function logAndBytes() {
  const file = sampleFile('flights/2024-05-12-home-from-sedge.igc');
  const bytes = new Uint8Array(await file.arrayBuffer());
  const log = await makeLog(file.name, bytes, { nowS: 0, demo: false });
  if (!log.ok) throw new Error('a log');
  return { log: log.value, bytes };
}

describe('the client of the worker', () => {
  test('[AC1] measures, says its stages, and starts one worker only', async () => {
    const { standIn, make } = standInWorker();
    const client = new AnalysisClient(make);
    const { log, bytes } = await logAndBytes();
    const stages: string[] = [];
    const first = await client.measure(log, bytes, NOTHING, (stage) => stages.push(stage));
    expect(first.ok && first.value.analysis.flights.length).toBe(1);
    expect(stages).toContain('reading');
    await client.measure(log, bytes, NOTHING);
    expect(standIn.started).toBe(1);
  });

  test('[AC2] cancelled: everything that waits is told, and the next question starts anew', async () => {
    const { standIn, make } = standInWorker();
    const client = new AnalysisClient(make);
    const { log, bytes } = await logAndBytes();
    const waiting = [client.measure(log, bytes, NOTHING), client.measure(log, bytes, NOTHING)];
    client.cancelAll();
    for (const each of await Promise.all(waiting)) {
      expect(!each.ok && each.problems[0].code).toBe('cancelled');
    }
    expect((await client.measure(log, bytes, NOTHING)).ok).toBe(true);
    expect(standIn.started).toBe(2);
  });

  test('[AC3] a worker that breaks down answers what waits, and the next question starts anew', async () => {
    const { standIn, make } = standInWorker();
    const client = new AnalysisClient(make);
    const { log, bytes } = await logAndBytes();
    const waiting = client.measure(log, bytes, NOTHING);
    standIn.breakDown();
    const told = await waiting;
    expect(!told.ok && told.problems[0].message).toMatch(/out of memory.*expected it to finish/);
    expect((await client.measure(log, bytes, NOTHING)).ok).toBe(true);
  });

  test('[AC4] an event of a log that was never measured is null, not a fault', async () => {
    const { make } = standInWorker();
    const client = new AnalysisClient(make);
    const question = { logId: 'none', flight: 0, key: null, options: {} as never };
    expect(await client.event(question)).toEqual({ ok: true, value: null, problems: [] });
  });
});
