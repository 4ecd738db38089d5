/** Edits of one visit that come faster than the logbook is written. Rules: docs/spec/logbook.md, LB45 and LB46. */
import { expect, test } from 'vitest';
import type { VisitRecord } from '../../src/logbook/entry.ts';
import { landingNear, markEffort } from '../../src/logbook/landing-entries.ts';
import { put } from '../../src/logbook/logbook-store.ts';
import { addRemark, removeRemark } from '../../src/logbook/remarks.ts';
import { openStore } from './page-store.ts';

async function openVisit() {
  const { store, logbook } = await openStore();
  const [{ id }] = store.state.visits;
  const shown = (): VisitRecord => {
    const visit = store.state.visits.find((each) => each.id === id);
    if (!visit) throw new Error('the visit went');
    return visit;
  };
  const save = (visit: VisitRecord) => store.dispatch({ type: 'save-visit', visit });
  const ids = (): string[] => shown().remarks.map((each) => each.id);
  return { shown, save, ids, logbook, nowS: store.state.nowS };
}

const remark = (id: string, writtenS: number) => ({ id, timeS: null, text: id, writtenS });

test('both of two remarks stay', async () => {
  const { shown, save, ids, nowS } = await openVisit();
  const first = save(addRemark(shown(), remark('one', nowS)));
  await Promise.all([first, save(addRemark(shown(), remark('two', nowS)))]);
  expect(ids()).toEqual(expect.arrayContaining(['one', 'two']));
});

test('of two remarks taken out neither comes back', async () => {
  const { shown, save, ids, nowS } = await openVisit();
  await save(addRemark(addRemark(shown(), remark('one', nowS)), remark('two', nowS)));
  const first = save(removeRemark(shown(), 'one', nowS));
  await Promise.all([first, save(removeRemark(shown(), 'two', nowS))]);
  expect(ids()).not.toContain('one');
  expect(ids()).not.toContain('two');
});

test('a mark and conditions stay under a remark', async () => {
  const { shown, save, ids, nowS } = await openVisit();
  const aroundS = nowS - 900;
  const mark = { mark: 'full', markedS: nowS, ratioShown: false } as const;
  const { conditions } = shown();
  if (!conditions) throw new Error('the demonstration has conditions');
  const marked = save(markEffort(shown(), aroundS, mark, nowS));
  const entered = save({ ...shown(), conditions: { ...conditions, tempC: 33 } });
  await Promise.all([marked, entered, save(addRemark(shown(), remark('one', nowS)))]);
  expect(landingNear(shown(), aroundS)?.effort?.mark).toBe('full');
  expect(shown().conditions?.tempC).toBe(33);
  expect(ids()).toContain('one');
});

test('what another tab wrote stays under the second of them', async () => {
  const { shown, save, ids, logbook, nowS } = await openVisit();
  await logbook.write([put(addRemark(shown(), remark('elsewhere', nowS)))]);
  const first = save(addRemark(shown(), remark('one', nowS)));
  await Promise.all([first, save(addRemark(shown(), remark('two', nowS)))]);
  expect(ids()).toEqual(expect.arrayContaining(['elsewhere', 'one', 'two']));
});
