/** Which figures stand when answers come late, in another order, from another tab, or not at all. */
import { describe, expect, test } from 'vitest';
import type { VisitRecord } from '../../src/logbook/entry.ts';
import type { LogbookStore } from '../../src/logbook/logbook-store.ts';
import { makeSettings } from '../../src/logbook/make-entry.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import { isUndetermined } from '../../src/result.ts';
import { slowStore, twoTabs, until, type SlowBench } from './slow-worker.ts';

/** A logbook with the demonstration's one flight in it, measured. */
async function bench(logbook: LogbookStore = createMemoryStore()): Promise<SlowBench> {
  return slowStore(logbook);
}

const visitOf = ({ store }: SlowBench): VisitRecord => store.state.visits[0];

/** The demo's visit with another wind. */
function windy(visit: VisitRecord, speedKt: number): VisitRecord {
  if (!visit.conditions?.wind) throw new Error('the demo entered a wind');
  const wind = { ...visit.conditions.wind, speedKt, gustKt: null };
  return { ...visit, conditions: { ...visit.conditions, wind } };
}

/** Measured over expected roll of the one landing. */
function ratio({ store }: SlowBench): number {
  const [analysis] = store.state.analyses.values();
  const landing = analysis.flights[0].events.find(({ kind }) => kind === 'approach');
  if (!landing || isUndetermined(landing.roll.ratio)) throw new Error('the demo is compared');
  return landing.roll.ratio.value;
}

/** The ratio with that wind, measured in peace. */
async function ratioWith(speedKt: number): Promise<number> {
  const quiet = await bench();
  await quiet.store.dispatch({ type: 'save-visit', visit: windy(visitOf(quiet), speedKt) });
  return ratio(quiet);
}

const save = ({ store }: SlowBench, visit: VisitRecord): Promise<void> =>
  store.dispatch({ type: 'save-visit', visit });

describe('answers of the worker', () => {
  test('[AS20] that come in the wrong order leave the figures of the last edit standing', async () => {
    const slow = await bench();
    const visit = visitOf(slow);
    slow.hold();
    const first = save(slow, windy(visit, 20));
    await slow.held(1);
    const second = save(slow, windy(visit, 2));
    await slow.held(2);
    slow.release(1);
    await second;
    slow.release(0);
    await first;
    expect(ratio(slow)).toBe(await ratioWith(2));
    const again = await bench(slow.store.around.logbook);
    expect(again.standIn.measured).toBe(0);
    expect(ratio(again)).toBe(ratio(slow));
  });

  test('[AS21] to an edit that was taken back at once change nothing', async () => {
    const slow = await bench();
    const visit = visitOf(slow);
    const before = ratio(slow);
    slow.hold();
    const first = save(slow, windy(visit, 20));
    await slow.held(1);
    const second = save(slow, visit);
    await slow.held(2);
    slow.release(1);
    slow.release(0);
    await Promise.all([first, second]);
    expect(ratio(slow)).toBe(before);
  });

  test('[AS22] about a log that was removed meanwhile leave nothing behind, and it can come back', async () => {
    const slow = await bench();
    const [log] = slow.store.state.logs;
    slow.hold();
    const edit = save(slow, windy(visitOf(slow), 20));
    await slow.held(1);
    const keys = [{ kind: 'log' as const, id: log.id }];
    await slow.store.dispatch({ type: 'remove', keys, words: 'The flight' });
    slow.release(0);
    await edit;
    const results = await slow.store.around.logbook.list('result');
    expect(results.ok && results.value).toEqual([]);
    expect(slow.store.state.analyses.size).toBe(0);
    const { deletion } = slow.store.state.messages.at(-1) ?? { deletion: null };
    const back = slow.store.dispatch({ type: 'undo', deletion: deletion ?? -1 });
    await slow.held(2);
    slow.release(1);
    await back;
    expect(slow.store.state.logs.map(({ id }) => id)).toEqual([log.id]);
    expect(ratio(slow)).toBe(await ratioWith(20));
  });

  test('[AS23] that were cancelled with an import are asked for again, and nobody is troubled', async () => {
    const slow = await bench();
    const said = slow.store.state.messages.length;
    slow.hold();
    const edit = save(slow, windy(visitOf(slow), 20));
    await slow.held(1);
    const file = new File(['no track'], 'letter.txt');
    const bringing = slow.store.dispatch({ type: 'import-files', files: [file] });
    await slow.store.dispatch({ type: 'cancel-imports' });
    await slow.held(2);
    slow.release(1);
    await Promise.all([edit, bringing]);
    expect(slow.store.state.toMeasure).toBe(0);
    expect(ratio(slow)).toBe(await ratioWith(20));
    expect(slow.store.state.messages.length).toBe(said);
  });

  test('[AS24] are shown as they were until the new ones are there', async () => {
    const slow = await bench();
    const before = ratio(slow);
    slow.hold();
    const edit = save(slow, windy(visitOf(slow), 20));
    await slow.held(1);
    expect(slow.store.state.toMeasure).toBe(1);
    expect(ratio(slow)).toBe(before);
    slow.release(0);
    await edit;
    expect(slow.store.state.toMeasure).toBe(0);
    expect(ratio(slow)).not.toBe(before);
  });
});

describe('two tabs', () => {
  test('[AS25] show the same after either of them wrote', async () => {
    const [hereBook, thereBook] = twoTabs(createMemoryStore());
    const here = await bench(hereBook);
    const there = await bench(thereBook);
    expect(there.standIn.measured).toBe(0);
    const before = ratio(there);
    await save(here, windy(visitOf(here), 20));
    await until(() => there.store.state.visits[0].conditions?.wind?.speedKt === 20);
    // A new round of either tab may begin when the other one writes: both come to rest.
    const isAtRest = ({ store }: SlowBench): boolean => store.state.toMeasure === 0;
    await until(() => isAtRest(here) && isAtRest(there) && ratio(here) !== before);
    expect(ratio(there)).toBe(ratio(here));
    expect(ratio(here)).toBe(await ratioWith(20));
    const settings = { ...makeSettings(0), theme: 'dark' as const };
    await there.store.dispatch({ type: 'save-settings', settings });
    await until(() => here.store.state.settings.theme === 'dark');
    // Neither measures for ever because the other did.
    const measured = here.standIn.measured + there.standIn.measured;
    await new Promise((done) => setTimeout(done, 40));
    expect(here.standIn.measured + there.standIn.measured).toBe(measured);
  });
});

describe('an event', () => {
  const { units } = makeSettings(0);
  const options = { units, ownRollFactor: null };

  test('[AS26] that the flight does not have (any more) is told as such, not as a mistake', async () => {
    const slow = await bench();
    const [log] = slow.store.state.logs;
    const { measured } = slow.standIn;
    for (const [flight, key] of [
      [0, 'approach-9'],
      [0, 'nonsense'],
      [7, null],
    ] as const) {
      const asked = await slow.store.event({ logId: log.id, flight, key, options });
      expect(asked.ok).toBe(false);
      expect(asked.problems.map(({ code }) => code)).toEqual(['no-event']);
      expect(asked.problems[0].message).toMatch(/found .*expected/);
    }
    expect(slow.standIn.measured).toBe(measured);
    const last = slow.store.state.analyses.get(log.id)?.flights[0].events.at(-1);
    const known = { logId: log.id, flight: 0, key: last?.key ?? '', options };
    expect((await slow.store.event(known)).ok).toBe(true);
  });
});
