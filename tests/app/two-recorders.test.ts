/** Two logs of one flight in the logbook: what counts, what is entered about either, what stays when one goes. */
import { describe, expect, test } from 'vitest';
import { visitOfLog, visitWith } from '../../src/app/entry/visit-of-log.ts';
import { loggedFlights, recordedTwiceNotes } from '../../src/app/logged-flights.ts';
import { entryId, type VisitRecord } from '../../src/logbook/entry.ts';
import {
  addCorrection,
  correctionInForce,
  landingNear,
  markEffort,
  takeBackCorrection,
} from '../../src/logbook/landing-entries.ts';
import { put, type LogbookStore } from '../../src/logbook/logbook-store.ts';
import type { EventSummary } from '../../src/report/flight-summary.ts';
import { landingsOf } from '../../src/report/logbook-words.ts';
import { failure, isUndetermined, problem } from '../../src/result.ts';
import { flyDemoFile, logText, recordFlight } from '../synthetic/recorders.ts';
import { demoOf, openStore, type Bench } from './page-store.ts';

const TABLET = '2025-09-21-last-dry-day-sedge.gpx';
const OTHER_DAY = '2024-06-02-wet-grass-ternholm.igc';
const RECORDER = 'recorder.igc';
// Worse in every way: the tablet's log is the one that counts.
const logged = recordFlight(flyDemoFile(TABLET), {
  ...{ format: 'igc', seed: 5, intervalS: 2, fromS: 30 },
});
const RECORDER_TEXT = logText(logged);

async function bench(): Promise<Bench> {
  const opened = await openStore(undefined, () => demoOf(TABLET, OTHER_DAY));
  const files = [new File([RECORDER_TEXT], RECORDER)];
  await opened.store.dispatch({ type: 'import-files', files });
  return opened;
}

const logId = ({ store }: Bench, fileName: string): string =>
  store.state.logs.find((log) => log.fileName === fileName)?.id ?? fileName;

function landing(opened: Bench, fileName: string): EventSummary {
  const { analyses } = opened.store.state;
  const events = analyses.get(logId(opened, fileName))?.flights[0].events ?? [];
  const found = events.find(({ outcome }) => outcome === 'full-stop');
  if (!found) throw new Error(`${fileName} ends on its wheels`);
  return found;
}

const landings = ({ store }: Bench): EventSummary[] => landingsOf(loggedFlights(store.state));
const save = ({ store }: Bench, visit: VisitRecord): Promise<void> =>
  store.dispatch({ type: 'save-visit', visit });

/** The touchdown of a log put by hand, further along, in what was entered about that log. */
function moved(opened: Bench, fileName: string, visit: VisitRecord, byM = 12): VisitRecord {
  const { timeS, placeM } = landing(opened, fileName);
  if (isUndetermined(placeM)) throw new Error('the touchdown is measured');
  return addCorrection(visit, timeS, {
    what: 'touchdown',
    measured: { timeS, alongM: placeM.value },
    algorithmVersion: 1,
    corrected: { timeS: timeS + byM / 20, alongM: placeM.value + byM },
    madeS: 1,
  });
}

/** A record of its own about the recorder's log, as another logbook that was taken in brings it. */
function ownVisit(opened: Bench): VisitRecord {
  const visit = visitOfLog(
    { ...opened.store.state, visits: [], otherLogs: new Map() },
    logId(opened, RECORDER),
  );
  return { ...visit, conditions: null };
}

describe('a second log of a flight', () => {
  test('[TWICE6] moves no count, and each debrief says which log counts', async () => {
    const alone = await openStore(undefined, () => demoOf(TABLET, OTHER_DAY));
    const before = landings(alone);
    const opened = await bench();
    expect(opened.store.state.logs).toHaveLength(3);
    expect(landings(opened)).toEqual(before);
    expect(loggedFlights(opened.store.state).map(({ id }) => id)).toEqual(
      loggedFlights(alone.store.state).map(({ id }) => id),
    );
    const said = (name: string): string =>
      recordedTwiceNotes(opened.store.state, logId(opened, name))
        .map(({ message }) => message)
        .join();
    expect(said(RECORDER)).toContain(`also recorded by ${TABLET}, which counts`);
    expect(said(TABLET)).toContain(`also recorded by ${RECORDER}, which does not count`);
    expect(said(OTHER_DAY)).toBe('');
    expect(landing(opened, RECORDER).stripId).toBe('sedge');
  });

  test('[TWICE7] is expected in the conditions entered about the other one', async () => {
    const opened = await bench();
    const { surface, aeroplane } =
      opened.store.state.analyses.get(logId(opened, RECORDER))?.flights[0] ?? {};
    expect(surface).toBe('grass-dry');
    expect(aeroplane).toMatchObject({ id: 'marram-160' });
    expect(landing(opened, RECORDER).expectedRollM).not.toBeNull();
    // Its form shows them, and changes them for both.
    const visit = visitOfLog(opened.store.state, logId(opened, RECORDER));
    expect(visit.logId).toBe(logId(opened, TABLET));
    await save(opened, {
      ...visit,
      conditions: visit.conditions && { ...visit.conditions, surface: 'grass-wet' },
    });
    for (const name of [TABLET, RECORDER]) {
      expect(opened.store.state.analyses.get(logId(opened, name))?.flights[0].surface).toBe(
        'grass-wet',
      );
    }
  });

  test('[TWICE7] needs no measuring when the page is opened again', async () => {
    const opened = await bench();
    const again = await openStore(opened.logbook);
    expect(again.standIn.measured).toBe(0);
    expect(landings(again)).toEqual(landings(opened));
  });

  test('[TWICE7] hands on a touchdown put by hand on it, and takes it back from either', async () => {
    const opened = await bench();
    const measured = landing(opened, TABLET).placeM;
    const put = moved(opened, RECORDER, ownVisit(opened));
    await save(opened, put);
    const alongM = correctionInForce(put.landings[0], 'touchdown')?.corrected.alongM;
    for (const name of [TABLET, RECORDER]) {
      expect(landing(opened, name).placeM).toEqual({ value: alongM, low: alongM, high: alongM });
    }
    expect(landings(opened).map(({ placeM }) => placeM)).toContainEqual(
      landing(opened, TABLET).placeM,
    );
    const { timeS } = landing(opened, TABLET);
    const holder = visitWith(opened.store.state, logId(opened, TABLET), (visit) => {
      const entry = landingNear(visit, timeS);
      return entry !== null && correctionInForce(entry, 'touchdown') !== null;
    });
    expect(holder.logId).toBe(logId(opened, RECORDER));
    await save(opened, takeBackCorrection(holder, timeS, 'touchdown', 5));
    expect(landing(opened, TABLET).placeM).toEqual(measured);
  });

  test('[TWICE7] a mark on one and a touchdown on the other are about one landing', async () => {
    const opened = await bench();
    const { timeS } = landing(opened, TABLET);
    const own = visitOfLog(opened.store.state, logId(opened, TABLET));
    const mark = { mark: 'coasted', markedS: 1, ratioShown: false } as const;
    await save(opened, markEffort(own, timeS, mark, 2));
    await save(opened, moved(opened, RECORDER, ownVisit(opened)));
    const counted = landing(opened, TABLET);
    expect(counted.roll.role).toBe('upper-bound');
    expect(isUndetermined(counted.placeM) ? NaN : counted.placeM.high - counted.placeM.low).toBe(0);
  });

  test('[TWICE7] teaches other flights once', async () => {
    const once = await openStore(undefined, () => demoOf(TABLET, OTHER_DAY));
    const put = moved(once, TABLET, visitOfLog(once.store.state, logId(once, TABLET)));
    await save(once, put);
    const opened = await bench();
    await save(opened, put);
    expect(landing(opened, RECORDER).placeM).toEqual(landing(opened, TABLET).placeM);
    expect(landing(opened, OTHER_DAY).placeM).toEqual(landing(once, OTHER_DAY).placeM);
    const again = await openStore(opened.logbook);
    expect(again.standIn.measured).toBe(0);
    expect(landing(again, OTHER_DAY).placeM).toEqual(landing(once, OTHER_DAY).placeM);
  });
});

test('[TWICE6] a log that is known as a second one by an old result, and cannot be measured, is tried once', async () => {
  const { logbook, store } = await bench();
  const log = store.state.logs.find(({ fileName }) => fileName === RECORDER);
  const results = await logbook.list('result');
  const old = results.ok ? results.value.find(({ logId: of }) => of === log?.id) : undefined;
  if (!log || !old) throw new Error('the recorder was measured');
  await logbook.write([put({ ...old, inputsSha256: '0'.repeat(64) })]);
  let reads = 0;
  const damaged: LogbookStore = {
    ...logbook,
    get: (kind, id) => {
      if (kind !== 'log' || id !== entryId('log', log.id)) return logbook.get(kind, id);
      if (++reads > 5) throw new Error('measured without end');
      return Promise.resolve(failure([problem('damaged', 'error', 'log', 'found no bytes')]));
    },
  };
  const again = await openStore(damaged);
  expect(reads).toBe(1);
  expect(again.store.state.otherLogs.size).toBe(2);
  expect(again.store.state.messages.map(({ text }) => text)).toEqual(['log: found no bytes']);
});

describe('[TWICE8] when one of two logs is removed', () => {
  const remark = { id: 'r', timeS: null, text: 'Sheep by the gate.', writtenS: 1 };
  const removeLog = (opened: Bench, fileName: string): Promise<void> => {
    const log = opened.store.state.logs.find((each) => each.fileName === fileName);
    if (!log) throw new Error(`no ${fileName}`);
    return opened.store.dispatch({
      type: 'remove',
      keys: [{ kind: 'log', id: log.id }],
      words: fileName,
    });
  };
  const undo = ({ store }: Bench): Promise<void> => {
    const offer = store.state.messages.findLast((each) => each.deletion !== null);
    return store.dispatch({ type: 'undo', deletion: offer?.deletion ?? NaN });
  };

  test('the other one counts, with all that was entered about the flight', async () => {
    const opened = await bench();
    const put = moved(opened, TABLET, visitOfLog(opened.store.state, logId(opened, TABLET)));
    await save(opened, put);
    const count = landings(opened).length;
    const placeM = landing(opened, TABLET).placeM;
    await removeLog(opened, TABLET);
    expect(landings(opened)).toHaveLength(count);
    expect(landing(opened, RECORDER).placeM).toEqual(placeM);
    expect(landing(opened, RECORDER).expectedRollM).not.toBeNull();
    expect(recordedTwiceNotes(opened.store.state, logId(opened, RECORDER))).toEqual([]);
  });

  test('and brought back, it is as before, with what was entered about it', async () => {
    const opened = await bench();
    await save(opened, { ...ownVisit(opened), remarks: [remark] });
    const before = landings(opened);
    const { visits } = opened.store.state;
    for (const name of [TABLET, RECORDER]) {
      await removeLog(opened, name);
      expect(opened.store.state.visits).not.toEqual(visits);
      await undo(opened);
      expect(landings(opened)).toEqual(before);
      expect(opened.store.state.visits).toEqual(visits);
    }
  });

  test('and brought back, what was changed meanwhile stays with the other one', async () => {
    const opened = await bench();
    await save(opened, { ...ownVisit(opened), remarks: [remark] });
    await removeLog(opened, RECORDER);
    const [handed] = opened.store.state.visits.filter(({ remarks }) => remarks.length > 0);
    expect(handed.logId).toBe(logId(opened, TABLET));
    await save(opened, { ...handed, remarks: [...handed.remarks, { ...remark, id: 'q' }] });
    await undo(opened);
    const now = opened.store.state.visits.find(({ id }) => id === handed.id);
    expect([now?.logId, now?.remarks.length]).toEqual([logId(opened, TABLET), 2]);
  });

  test('what was entered is no newer for it: what the other one says itself, and later, wins', async () => {
    const opened = await bench();
    const demos = visitOfLog(opened.store.state, logId(opened, TABLET));
    if (!demos.conditions) throw new Error('the demo entered conditions');
    const conditions = { ...demos.conditions, surface: 'grass-wet' as const };
    await save(opened, { ...ownVisit(opened), conditions });
    await save(opened, demos);
    const surface = (): unknown =>
      opened.store.state.analyses.get(logId(opened, TABLET))?.flights[0].surface;
    expect(surface()).toBe('grass-dry');
    await removeLog(opened, RECORDER);
    expect(surface()).toBe('grass-dry');
  });

  test("the pilot's own remark does not become the demonstration's", async () => {
    const opened = await bench();
    await save(opened, { ...ownVisit(opened), remarks: [remark] });
    await removeLog(opened, RECORDER);
    const own = opened.store.state.visits.filter(({ remarks }) => remarks.length > 0);
    expect(own.map(({ demo }) => demo)).toEqual([false]);
    await undo(opened);
    await opened.store.dispatch({ type: 'remove-demo' });
    const left = opened.store.state.visits;
    expect(left.map(({ remarks }) => remarks)).toEqual([[remark]]);
    expect(left.map((visit) => visit.logId)).toEqual([logId(opened, RECORDER)]);
  });

  test('the demonstration goes with what was entered about its flights, and leaves none of it', async () => {
    const opened = await bench();
    await opened.store.dispatch({ type: 'remove-demo' });
    expect(opened.store.state.logs.map(({ fileName }) => fileName)).toEqual([RECORDER]);
    expect(opened.store.state.visits).toEqual([]);
  });

  test('a remark that was handed on is not overwritten when the log comes again', async () => {
    const opened = await bench();
    await save(opened, { ...ownVisit(opened), remarks: [remark] });
    await removeLog(opened, RECORDER);
    await opened.store.dispatch({
      type: 'import-files',
      files: [new File([RECORDER_TEXT], RECORDER)],
    });
    // Made before the page knew that the two logs are one flight.
    const fresh = visitOfLog(
      { ...opened.store.state, otherLogs: new Map() },
      logId(opened, RECORDER),
    );
    await save(opened, { ...fresh, remarks: [{ ...remark, id: 'q', text: 'Long grass.' }] });
    const texts = opened.store.state.visits.flatMap(({ remarks }) => remarks.map((r) => r.text));
    expect(texts.sort()).toEqual(['Long grass.', 'Sheep by the gate.']);
  });

  test('a log that stands alone takes with it what was entered', async () => {
    const opened = await bench();
    const visits = opened.store.state.visits.length;
    await removeLog(opened, OTHER_DAY);
    expect(opened.store.state.visits).toHaveLength(visits - 1);
  });
});
