/** Files on their way in: what they may not destroy, how they are cancelled, and how they fail. */
import { describe, expect, test } from 'vitest';
import type { Feature, StripRecord } from '../../src/logbook/entry.ts';
import type { LogbookStore } from '../../src/logbook/logbook-store.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import { openStore, sampleFile, type Bench } from './page-store.ts';
import { slowStore, until } from './slow-worker.ts';

const CIRCUITS = 'flights/2024-04-20-first-circuits-ternholm.gpx';
const THREE = 'flights/2024-08-04-three-strips.igc';

const said = ({ store }: Pick<Bench, 'store'>): string =>
  store.state.messages.map(({ text }) => text).join(' | ');

/** A file that is gone from the disk by the time it is read, as browsers report it. */
function lostFile(name: string): File {
  const file = new File(['x'], name);
  file.arrayBuffer = () => Promise.reject(new DOMException('gone', 'NotFoundError'));
  return file;
}

function strip({ store }: Bench, id: string): StripRecord {
  const found = store.state.strips.find((each) => each.id === id);
  if (!found) throw new Error(`no strip ${id}`);
  return found;
}

/** Ternholm with another width, in force from 2030. */
async function widenTernholm(bench: Bench): Promise<void> {
  const feature = structuredClone(strip(bench, 'ternholm').versions[0].feature);
  (feature.properties as Record<string, unknown>).widthM = 44;
  await bench.store.dispatch({
    type: 'save-features',
    features: [{ feature, recordId: null }],
    fromS: Date.UTC(2030, 0, 1) / 1000,
    words: 'Ternholm',
  });
}

const widthOf = ({ properties }: Feature): unknown => (properties as { widthM: number }).widthM;

describe('a strips file', () => {
  test('[AS30] over strips that are there replaces how they lie now, never how they lay', async () => {
    const bench = await openStore();
    const [{ feature: first }] = strip(bench, 'ternholm').versions;
    await widenTernholm(bench);
    expect(strip(bench, 'ternholm').versions.length).toBe(2);
    const files = [sampleFile('strips.geojson')];
    await bench.store.dispatch({ type: 'import-files', files });
    const { versions, demo } = strip(bench, 'ternholm');
    expect(versions.map(({ fromS }) => fromS)).toEqual([null, Date.UTC(2030, 0, 1) / 1000]);
    expect(versions[0].feature).toEqual(first);
    expect(widthOf(versions[1].feature)).toBe(widthOf(first));
    // The pilot brought it: it stays when the demonstration is taken away.
    expect(demo).toBe(false);
  });

  test('[AS31] dropped behind a log still gives the log its strip', async () => {
    const bench = await openStore();
    await bench.store.dispatch({ type: 'remove-demo' });
    const files = [sampleFile(CIRCUITS), sampleFile('strips.geojson')];
    await bench.store.dispatch({ type: 'import-files', files });
    const [analysis] = bench.store.state.analyses.values();
    expect(new Set(analysis.flights[0].events.map(({ stripId }) => stripId))).toEqual(
      new Set(['ternholm']),
    );
    expect(bench.store.state.toMeasure).toBe(0);
  });

  test('[AS32] that is wrong changes no strip and says what was expected', async () => {
    const bench = await openStore();
    const before = bench.store.state.strips;
    const feature = { type: 'Feature', properties: { kind: 'strip', id: 'x' }, geometry: null };
    const text = JSON.stringify({ type: 'FeatureCollection', features: [feature] });
    await bench.store.dispatch({ type: 'import-files', files: [new File([text], 'strips.json')] });
    expect(bench.store.state.strips).toEqual(before);
    const job = bench.store.state.imports.at(-1);
    expect(job?.stage).toBe('failed');
    expect(job?.problems[0].message).toMatch(/expected|missing/);
  });
});

describe('cancelling', () => {
  test('[AS33] ends what is being measured; what was kept stays, and new files are taken', async () => {
    const slow = await slowStore(createMemoryStore());
    const { store } = slow;
    const kept = store.state.logs.length;
    await store.dispatch({ type: 'import-files', files: [sampleFile(CIRCUITS)] });
    slow.hold();
    const bringing = store.dispatch({
      type: 'import-files',
      files: [sampleFile(THREE), sampleFile('strips.geojson')],
    });
    await slow.held(1);
    await store.dispatch({ type: 'cancel-imports' });
    slow.release(0);
    await bringing;
    const stages = store.state.imports.map(({ stage }) => stage);
    expect(stages).toEqual(['done', 'cancelled', 'cancelled']);
    expect(store.state.logs.length).toBe(kept + 1);
    const again = store.dispatch({ type: 'import-files', files: [sampleFile(THREE)] });
    await slow.held(2);
    slow.release(1);
    await again;
    expect(store.state.imports.at(-1)?.stage).toBe('done');
    expect(store.state.logs.length).toBe(kept + 2);
  });

  test('[AS34] a file that was being read keeps none of it', async () => {
    const bench = await openStore();
    await bench.store.dispatch({ type: 'remove-demo' });
    let goOn: () => void = () => undefined;
    const file = sampleFile('strips.geojson');
    const read = file.arrayBuffer.bind(file);
    file.arrayBuffer = () => new Promise((done) => (goOn = () => done(read())));
    const bringing = bench.store.dispatch({ type: 'import-files', files: [file] });
    await until(() => bench.store.state.imports.at(-1)?.stage === 'reading');
    await bench.store.dispatch({ type: 'cancel-imports' });
    goOn();
    await bringing;
    expect(bench.store.state.imports.at(-1)?.stage).toBe('cancelled');
    expect(bench.store.state.strips).toEqual([]);
  });

  test('[AS35] with nothing on its way leaves alone what is measured anew', async () => {
    const slow = await slowStore(createMemoryStore());
    const { store } = slow;
    const [visit] = store.state.visits;
    slow.hold();
    const edit = store.dispatch({ type: 'save-visit', visit: { ...visit, conditions: null } });
    await slow.held(1);
    await store.dispatch({ type: 'cancel-imports' });
    slow.release(0);
    await edit;
    expect(slow.standIn.started).toBe(1);
    expect(store.state.toMeasure).toBe(0);
    const [event] = [...store.state.analyses.values()][0].flights[0].events;
    expect(event.roll.ratio).toHaveProperty('undetermined');
  });
});

describe('a file that cannot be read', () => {
  test('[AS36] becomes a message, as a track and as a logbook', async () => {
    const bench = await openStore();
    await bench.store.dispatch({ type: 'import-files', files: [lostFile('lost.gpx')] });
    expect(bench.store.state.imports.at(-1)?.problems[0].message).toMatch(/gone.*expected/);
    await bench.store.dispatch({ type: 'import-logbook', file: lostFile('lost.windrow') });
    expect(said(bench)).toMatch(/lost\.windrow: found a file .*gone.*expected/);
  });

  test('[AS37] as a logbook that is damaged changes nothing', async () => {
    const bench = await openStore();
    await bench.store.dispatch({ type: 'export-logbook' });
    const whole = new Uint8Array(await bench.saved[0].content.arrayBuffer());
    const { logs, strips } = bench.store.state;
    await bench.store.dispatch({ type: 'remove-demo' });
    const file = new File([whole.subarray(0, whole.length / 2)], 'half.windrow');
    await bench.store.dispatch({ type: 'import-files', files: [file] });
    expect(bench.store.state.imports.at(-1)?.stage).toBe('failed');
    await bench.store.dispatch({ type: 'import-logbook', file });
    expect(said(bench)).toMatch(/damaged or cut off/);
    expect(bench.store.state.logs).toEqual([]);
    await bench.store.dispatch({ type: 'import-logbook', file: new File([whole], 'all.windrow') });
    expect(bench.store.state.logs).toEqual(logs);
    expect(bench.store.state.strips).toEqual(strips);
  });

  test('[AS38] does not stop the files behind it, not even where the logbook failed for once', async () => {
    let isBroken = false;
    const memory = createMemoryStore();
    const logbook: LogbookStore = {
      ...memory,
      list: (kind) =>
        isBroken ? Promise.reject(new Error('the disk fell over')) : memory.list(kind),
    };
    const bench = await openStore(logbook);
    isBroken = true;
    const letter = new File(['no track'], 'letter.txt');
    await bench.store.dispatch({ type: 'import-files', files: [letter] }).catch(() => undefined);
    isBroken = false;
    await bench.store.dispatch({ type: 'import-files', files: [sampleFile(CIRCUITS)] });
    expect(bench.store.state.imports.map(({ stage }) => stage)).toEqual(['failed', 'done']);
  });
});

describe('what is said', () => {
  test('[AS39] of a logbook counts in words that fit', async () => {
    const bench = await openStore();
    await bench.store.dispatch({ type: 'export-logbook' });
    const file = new File([bench.saved[0].content], 'mine.windrow');
    const [aeroplane] = bench.store.state.aeroplanes;
    await bench.store.dispatch({ type: 'remove', keys: [aeroplane], words: 'The Marram' });
    await bench.store.dispatch({ type: 'import-logbook', file });
    expect(said(bench)).toMatch(/mine\.windrow: 1 record added, \d+ there already\./);
    await bench.store.dispatch({ type: 'import-logbook', file });
    expect(said(bench)).toMatch(/mine\.windrow: 0 records added/);
  });
});
