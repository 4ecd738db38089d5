/** A store of the page without a browser: memory, a worker that runs at once, a clock of its own. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { AnalysisClient, type WorkerLike } from '../../src/app/analysis-client.ts';
import type { WorkAnswer, WorkRequest } from '../../src/app/analysis-messages.ts';
import { AppStore } from '../../src/app/app-store.ts';
import { measureLog, type MeasuredLog } from '../../src/app/measure-log.ts';
import { exportLogbook } from '../../src/logbook/export.ts';
import type { LogbookStore } from '../../src/logbook/logbook-store.ts';
import { put } from '../../src/logbook/logbook-store.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import { demoRecords } from '../../src/logbook/demo-logbook.ts';
import { eventDebrief } from '../../src/report/story/event-debrief.ts';

const SAMPLE = resolve('tracks-sample');

/** A file of the demo world as a file that is dropped. */
export function sampleFile(path: string, name = path.slice(path.lastIndexOf('/') + 1)): File {
  return new File([readFileSync(`${SAMPLE}/${path}`)], name);
}

/** Text of a file of the demo world. */
export function sampleText(path: string): string {
  return readFileSync(`${SAMPLE}/${path}`, 'utf8');
}

/** Counts what the stand-in worker is asked for, and can be told to forget or to wait. */
export interface StandIn {
  measured: number;
  started: number;
  /** Ends it as the browser would when memory runs out. */
  breakDown(): void;
  forget(): void;
}

/** A worker that does the real work on this thread. */
export function standInWorker(): { readonly standIn: StandIn; readonly make: () => WorkerLike } {
  let current: WorkerLike | null = null;
  const held = new Map<string, MeasuredLog>();
  const standIn: StandIn = {
    measured: 0,
    started: 0,
    breakDown: () => current?.onerror?.({ message: 'out of memory' } as ErrorEvent),
    forget: () => held.clear(),
  };
  const make = (): WorkerLike => {
    standIn.started++;
    let isEnded = false;
    const worker: WorkerLike = {
      onmessage: null,
      onerror: null,
      terminate: () => (isEnded = true),
      postMessage: (request) => void work(request),
    };
    const answer = (data: WorkAnswer): void => {
      if (!isEnded) worker.onmessage?.({ data: structuredClone(data) } as MessageEvent<WorkAnswer>);
    };
    const work = async (request: WorkRequest): Promise<void> => {
      const { number } = request;
      if (request.kind === 'event') {
        const log = held.get(request.logId);
        const flight = log?.debrief.flights.at(request.flight);
        await Promise.resolve();
        const event =
          log && flight ? eventDebrief(flight, request.key, log.strips, request.options) : null;
        answer({ kind: 'event', number, event });
        return;
      }
      standIn.measured++;
      answer({ kind: 'stage', number, stage: 'reading' });
      const { log, bytes, inputs } = structuredClone(request);
      const result = await measureLog(log, bytes, inputs);
      if (result.ok) held.set(log.id, result.value);
      answer({
        kind: 'measured',
        number,
        result: result.ok
          ? {
              ...result,
              value: {
                analysis: result.value.analysis,
                inputsSha256: result.value.inputsSha256,
              },
            }
          : result,
      });
    };
    current = worker;
    return worker;
  };
  return { standIn, make };
}

/** What a test works with. */
export interface Bench {
  readonly store: AppStore;
  readonly logbook: LogbookStore;
  readonly standIn: StandIn;
  readonly saved: { readonly name: string; readonly content: Blob }[];
}

/** A store, opened; the demonstration holds one flight, its strips and aeroplanes. */
export async function openStore(
  logbook: LogbookStore = createMemoryStore(),
  demo: () => Promise<Uint8Array<ArrayBuffer>> = smallDemo,
): Promise<Bench> {
  const { standIn, make } = standInWorker();
  const saved: { name: string; content: Blob }[] = [];
  let nowS = Date.UTC(2026, 0, 1) / 1000;
  const store = new AppStore({
    logbook,
    client: new AnalysisClient(make),
    clock: () => (nowS += 1),
    fetchDemo: demo,
    saveFile: (name, content) => saved.push({ name, content }),
  });
  await store.open();
  return { store, logbook, standIn, saved };
}

/** A demonstration of one flight as a logbook file. */
export function smallDemo(): Promise<Uint8Array<ArrayBuffer>> {
  return demoOf('2024-05-12-home-from-sedge.igc');
}

/** A demonstration of these flights as a logbook file. */
export async function demoOf(...fileNames: string[]): Promise<Uint8Array<ArrayBuffer>> {
  const records = await demoRecords(
    {
      strips: sampleText('strips.geojson'),
      aeroplanes: ['marram-160', 'eelgrass-450'].map((id) => sampleText(`aeroplanes/${id}.json`)),
      conditions: sampleText('conditions.json'),
      flights: fileNames.map((fileName) => ({
        fileName,
        bytes: new Uint8Array(readFileSync(`${SAMPLE}/flights/${fileName}`)),
      })),
    },
    1_600_000_000,
  );
  if (!records.ok) throw new Error(records.problems[0].message);
  const store = createMemoryStore();
  await store.write(records.value.map(put));
  const file = await exportLogbook(store);
  if (!file.ok) throw new Error(file.problems[0].message);
  return file.value;
}
