/** The page's store: the demonstration, files of every kind, edits, deletions, results out of date. */
import { describe, expect, test } from 'vitest';
import { entryId, type VisitRecord } from '../../src/logbook/entry.ts';
import { put } from '../../src/logbook/logbook-store.ts';
import { makeSettings, makeVisit } from '../../src/logbook/make-entry.ts';
import { addRemark } from '../../src/logbook/remarks.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import { isUndetermined } from '../../src/result.ts';
import type { Conditions } from '../../src/weather/conditions.ts';
import { openStore, sampleFile, sampleText, type Bench } from './page-store.ts';

const CIRCUITS = 'flights/2024-04-20-first-circuits-ternholm.gpx';
const CONDITIONS: Conditions = {
  wind: { fromDeg: 260, reference: 'true', speedKt: 8, gustKt: null },
  tempC: 11,
  qnhHpa: 1019,
  massKg: 930,
  takeOffMassKg: 945,
  surface: 'grass-dry',
  flap: null,
  aeroplane: 'marram-160',
  factorSet: null,
  effort: null,
};

/** A logbook with strips and an aeroplane and one log about which nothing was entered. */
async function benchWithLog(): Promise<Bench & { readonly visit: VisitRecord }> {
  const bench = await openStore();
  await bench.store.dispatch({ type: 'remove-demo' });
  await bench.store.dispatch({
    type: 'import-files',
    files: [
      sampleFile('strips.geojson'),
      sampleFile('aeroplanes/marram-160.json'),
      sampleFile(CIRCUITS),
    ],
  });
  const [log] = bench.store.state.logs;
  const visit = makeVisit(entryId('visit', 'mine'), log, { nowS: 0, demo: false });
  return { ...bench, visit };
}

function ratio({ store }: Bench): number | string {
  const [analysis] = store.state.analyses.values();
  const landing = analysis.flights[0].events.find(({ key }) => key === 'approach-2');
  if (!landing) return 'no landing';
  return isUndetermined(landing.roll.ratio)
    ? landing.roll.ratio.undetermined
    : landing.roll.ratio.value;
}

const texts = ({ store }: Bench): string[] => store.state.messages.map(({ text }) => text);

describe('the first opening', () => {
  test('[AS1] brings the demonstration once, measures it, and not again after it was taken away', async () => {
    const logbook = createMemoryStore();
    const first = await openStore(logbook);
    expect(first.store.state.hasDemo).toBe(true);
    expect(first.store.state.analyses.size).toBe(1);
    await first.store.dispatch({ type: 'remove-demo' });
    expect(first.store.state.logs).toEqual([]);
    const second = await openStore(logbook);
    expect(second.store.state.hasDemo).toBe(false);
    await second.store.dispatch({ type: 'load-demo' });
    expect(second.store.state.hasDemo).toBe(true);
  });

  test('[AS2] opens all the same where the demonstration cannot be had, and says so', async () => {
    const bench = await openStore(createMemoryStore(), () => Promise.reject(new Error('offline')));
    expect(bench.store.state.phase).toBe('ready');
    expect(texts(bench).join(' ')).toMatch(/found no demonstration to load \(offline\)/);
  });
});

describe('files', () => {
  test('[AS3] are known by their content: track, strips, aeroplane', async () => {
    const { store } = await benchWithLog();
    expect(store.state.imports.map(({ stage }) => stage)).toEqual(['done', 'done', 'done']);
    expect(store.state.strips.length).toBeGreaterThan(4);
    expect(store.state.aeroplanes.map(({ id }) => id)).toEqual(['marram-160']);
    const [analysis] = store.state.analyses.values();
    expect(analysis.flights[0].events.every(({ stripId }) => stripId === 'ternholm')).toBe(true);
  });

  test('[AS4] that are no track are not kept, and say what was expected', async () => {
    const bench = await openStore();
    const before = bench.store.state.logs.length;
    await bench.store.dispatch({
      type: 'import-files',
      files: [new File(['nothing'], 'letter.txt'), new File([''], 'empty.gpx')],
    });
    expect(bench.store.state.logs.length).toBe(before);
    for (const job of bench.store.state.imports) {
      expect(job.stage).toBe('failed');
      expect(job.problems.map(({ message }) => message).join(' ')).toMatch(/expected/);
    }
  });

  test('[AS5] that are there already are not measured twice', async () => {
    const bench = await benchWithLog();
    const { measured } = bench.standIn;
    const again = sampleFile(CIRCUITS, 'other-name.gpx');
    await bench.store.dispatch({ type: 'import-files', files: [again] });
    expect(bench.standIn.measured).toBe(measured);
    expect(bench.store.state.logs.length).toBe(1);
    expect(bench.store.state.imports.at(-1)?.problems[0].code).toBe('log-known');
  });

  test('[AS6] can be cancelled: what waits is not taken in', async () => {
    const bench = await openStore();
    const before = bench.store.state.logs.length;
    const files = [sampleFile(CIRCUITS), sampleFile('flights/2024-08-04-three-strips.igc')];
    const done = bench.store.dispatch({ type: 'import-files', files });
    await bench.store.dispatch({ type: 'cancel-imports' });
    await done;
    expect(bench.store.state.imports.map(({ stage }) => stage)).toEqual(['cancelled', 'cancelled']);
    expect(bench.store.state.logs.length).toBe(before);
  });
});

describe('edits', () => {
  test('[AS7] of the conditions lead to new figures, which are kept', async () => {
    const bench = await benchWithLog();
    expect(ratio(bench)).toMatch(/conditions|aeroplane|wind/);
    const visit = { ...bench.visit, conditions: CONDITIONS };
    await bench.store.dispatch({ type: 'save-visit', visit });
    const found = ratio(bench);
    expect(found).toBeGreaterThan(0.5);
    const { measured } = bench.standIn;
    const again = await openStore(bench.logbook);
    expect(ratio(again)).toBe(found);
    expect(again.standIn.measured).toBe(0);
    expect(measured).toBeGreaterThan(0);
  });

  test('[AS8] made quickly one after the other leave the last one standing', async () => {
    const bench = await benchWithLog();
    const windy = { ...CONDITIONS, wind: { ...CONDITIONS.wind, speedKt: 20 } } as Conditions;
    const first = bench.store.dispatch({
      type: 'save-visit',
      visit: { ...bench.visit, conditions: windy },
    });
    const second = bench.store.dispatch({
      type: 'save-visit',
      visit: { ...bench.visit, conditions: CONDITIONS },
    });
    await Promise.all([first, second]);
    const quick = ratio(bench);
    const calm = await benchWithLog();
    await calm.store.dispatch({
      type: 'save-visit',
      visit: { ...calm.visit, conditions: CONDITIONS },
    });
    expect(quick).toBe(ratio(calm));
    expect(bench.store.state.visits[0].conditions?.wind?.speedKt).toBe(8);
  });

  test('[AS8b] of the settings made one right after the other both stand', async () => {
    const { store } = await openStore();
    const { settings } = store.state;
    const first = store.dispatch({
      type: 'save-settings',
      settings: { ...settings, units: { ...settings.units, length: 'ft' } },
    });
    // As a page does it: from the state as it is on show.
    const second = store.dispatch({
      type: 'save-settings',
      settings: { ...store.state.settings, timeZone: 'Europe/Athens' },
    });
    await Promise.all([first, second]);
    expect(store.state.settings.units.length).toBe('ft');
    expect(store.state.settings.timeZone).toBe('Europe/Athens');
    expect(store.state.messages).toEqual([]);
  });

  test('[AS9] never overwrite unseen what another tab wrote meanwhile', async () => {
    const bench = await benchWithLog();
    await bench.store.dispatch({
      type: 'save-visit',
      visit: { ...bench.visit, conditions: CONDITIONS },
    });
    const [kept] = bench.store.state.visits;
    const other = { ...kept, changedS: kept.changedS + 10, aeroplaneId: null };
    const known = bench.store.state;
    await bench.logbook.write([put(other)]);
    // The page still shows the old record: as if the other tab's notice were on its way.
    bench.store.state = known;
    await bench.store.dispatch({ type: 'save-visit', visit: { ...kept, plannedForS: 1 } });
    expect(bench.store.state.visits[0].plannedForS).toBeNull();
    expect(texts(bench).join(' ')).toMatch(/expected/);
  });

  test('[AS10] of a strip that moved keep the old line for earlier flights', async () => {
    const bench = await benchWithLog();
    const before = ratio(bench);
    const strip = bench.store.state.strips.find(({ id }) => id === 'ternholm');
    if (!strip) throw new Error('Ternholm');
    const feature = structuredClone(strip.versions[0].feature) as Record<string, unknown>;
    (feature.properties as Record<string, unknown>).widthM = 30;
    await bench.store.dispatch({
      type: 'save-features',
      features: [{ feature: feature as (typeof strip.versions)[0]['feature'], recordId: null }],
      fromS: Date.UTC(2030, 0, 1) / 1000,
      words: 'Ternholm',
    });
    expect(bench.store.state.strips.find(({ id }) => id === 'ternholm')?.versions.length).toBe(2);
    expect(ratio(bench)).toBe(before);
    expect(texts(bench)).toContain('Ternholm was kept.');
  });
});

describe('deletions', () => {
  test('[AS11] take with a log what was entered about it, and bring both back', async () => {
    const bench = await benchWithLog();
    await bench.store.dispatch({
      type: 'save-visit',
      visit: { ...bench.visit, conditions: CONDITIONS },
    });
    const [log] = bench.store.state.logs;
    const before = ratio(bench);
    await bench.store.dispatch({
      type: 'remove',
      keys: [{ kind: 'log', id: log.id }],
      words: 'The flight',
    });
    expect(bench.store.state.logs).toEqual([]);
    expect(bench.store.state.visits).toEqual([]);
    const message = bench.store.state.messages.findLast(({ deletion }) => deletion !== null);
    expect(message?.text).toBe('The flight was taken out of the logbook.');
    await bench.store.dispatch({ type: 'undo', deletion: message?.deletion ?? -1 });
    expect(bench.store.state.logs.length).toBe(1);
    expect(ratio(bench)).toBe(before);
  });

  test('[AS11] asked for twice before the first is done take it once, with one way back', async () => {
    const bench = await benchWithLog();
    const keys = [{ kind: 'log', id: bench.store.state.logs[0].id }] as const;
    const remove = () => bench.store.dispatch({ type: 'remove', keys, words: 'The flight' });
    await Promise.all([remove(), remove()]);
    const [message, ...more] = bench.store.state.messages.filter(({ text }) =>
      /taken out/.test(text),
    );
    expect(more).toEqual([]);
    expect(bench.store.state.logs).toEqual([]);
    await bench.store.dispatch({ type: 'undo', deletion: message.deletion ?? -1 });
    expect(bench.store.state.logs.length).toBe(1);
    expect(bench.store.state.messages.filter(({ text }) => /taken out/.test(text))).toEqual([]);
  });
});

describe('results', () => {
  test('[AS12] of another version, or of another shape, are measured anew', async () => {
    const bench = await benchWithLog();
    const [result] = (await list(bench)) ?? [];
    expect((await bench.logbook.write([put({ ...result, algorithmVersion: 999 })])).ok).toBe(true);
    expect((await openStore(bench.logbook)).standIn.measured).toBe(1);
    const shapeless = { ...result, data: { flights: 'many' } };
    expect((await bench.logbook.write([put(shapeless)])).ok).toBe(true);
    const again = await openStore(bench.logbook);
    expect(again.standIn.measured).toBe(1);
    expect(again.store.state.analyses.size).toBe(1);
  });

  test('[AS13] of an event are measured first where the worker holds them no longer', async () => {
    const bench = await benchWithLog();
    bench.standIn.forget();
    const [log] = bench.store.state.logs;
    const { units } = makeSettings(0);
    const options = { units, ownRollFactor: null };
    const event = await bench.store.event({ logId: log.id, flight: 0, key: null, options });
    expect(event.ok && event.value.key).toBe('approach-2');
    const missing = await bench.store.event({ logId: 'none', flight: 0, key: null, options });
    expect(missing.ok).toBe(false);
  });
});

describe('the logbook as a file', () => {
  test('[AS14] goes out and comes back, also through the drop zone', async () => {
    const bench = await benchWithLog();
    await bench.store.dispatch({ type: 'export-logbook' });
    const [file] = bench.saved;
    expect(file.name).toMatch(/^windrow-logbook-2026-01-01\.windrow$/);
    const other = await openStore();
    await other.store.dispatch({ type: 'remove-demo' });
    await other.store.dispatch({
      type: 'import-files',
      files: [new File([file.content], file.name)],
    });
    expect(other.store.state.logs).toEqual(bench.store.state.logs);
    expect(texts(other).join(' ')).toMatch(/records added/);
  });

  test('[AS47] remarks of pilot and instructor both survive; what is not taken is listed until it is closed', async () => {
    const pilot = await benchWithLog();
    const instructor = await openStore();
    const hand = async (from: Bench, to: Bench): Promise<void> => {
      await from.store.dispatch({ type: 'export-logbook' });
      const { content, name } = from.saved[from.saved.length - 1];
      await to.store.dispatch({ type: 'import-logbook', file: new File([content], name) });
    };
    const mine = ({ store }: Bench): VisitRecord => {
      const found = store.state.visits.find(({ id }) => id === pilot.visit.id);
      if (!found) throw new Error('the visit went');
      return found;
    };
    const write = (bench: Bench, visit: VisitRecord, id: string): Promise<void> => {
      const remark = { id, timeS: null, text: `said by ${id}`, writtenS: 1 };
      return bench.store.dispatch({ type: 'save-visit', visit: addRemark(visit, remark) });
    };
    await pilot.store.dispatch({
      type: 'save-visit',
      visit: { ...pilot.visit, conditions: CONDITIONS },
    });
    const { enteredS } = mine(pilot);
    expect(enteredS).not.toBeNull();
    await hand(pilot, instructor);
    await write(instructor, mine(instructor), 'instructor');
    // A remark enters no conditions.
    expect(mine(instructor).enteredS).toBe(enteredS);
    await write(pilot, mine(pilot), 'pilot');
    await pilot.store.dispatch({
      type: 'save-visit',
      visit: { ...mine(pilot), conditions: { ...CONDITIONS, tempC: 12 } },
    });
    await hand(instructor, pilot);
    expect(mine(pilot).remarks.map(({ id }) => id)).toEqual(['instructor', 'pilot']);
    expect(mine(pilot).conditions?.tempC).toBe(12);
    const [{ conflicts }] = pilot.store.state.notTaken;
    expect(conflicts.map(({ otherFrom }) => otherFrom)).toEqual(['file']);
    expect(texts(pilot).join(' ')).toContain('what was not taken is listed');
    await pilot.store.dispatch({ type: 'clear-not-taken' });
    expect(pilot.store.state.notTaken).toEqual([]);
  });

  test('[AS15] an aeroplane document goes through its reader', async () => {
    const bench = await openStore();
    const document = JSON.parse(sampleText('aeroplanes/eelgrass-450.json')) as Record<
      string,
      never
    >;
    await bench.store.dispatch({ type: 'save-aeroplane', document });
    expect(bench.store.state.aeroplanes.map(({ id }) => id)).toContain('eelgrass-450');
    await bench.store.dispatch({ type: 'save-aeroplane', document: { id: 'x' } });
    expect(texts(bench).length).toBeGreaterThan(0);
    expect(bench.store.state.aeroplanes.map(({ id }) => id)).not.toContain('x');
  });
});

async function list({ logbook }: Bench) {
  const results = await logbook.list('result');
  return results.ok ? results.value : null;
}
