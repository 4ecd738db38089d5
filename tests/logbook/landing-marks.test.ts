/** Which entries about single landings count in a debrief. */
import { describe, expect, test } from 'vitest';
import { contextFor, fingerprint, landingMarks } from '../../src/logbook/debrief-context.ts';
import { entryId, type VisitRecord } from '../../src/logbook/entry.ts';
import {
  addCorrection,
  markEffort,
  sayContact,
  takeBackCorrection,
} from '../../src/logbook/landing-entries.ts';
import { makeLog, makeVisit } from '../../src/logbook/make-entry.ts';
import { CORRECTION, NOW_S, OWN } from './invented-entries.ts';

const made = await makeLog('flight.gpx', new TextEncoder().encode('<gpx/>'), OWN);
if (!made.ok) throw new Error('no log');
const log = made.value;
const second = await makeLog('other.igc', new TextEncoder().encode('A'), OWN);
if (!second.ok) throw new Error('no log');
const other = second.value;
const VISIT = makeVisit(entryId('visit', 'v'), log, OWN);
const AT_S = NOW_S - 3600;

async function printOf(visit: VisitRecord): Promise<string> {
  const context = contextFor({ strips: [], aeroplanes: [], visits: [visit] }, log, NOW_S);
  if (!context.ok) throw new Error('no context');
  return fingerprint(context.value);
}

const marked = (ratioShown: boolean): VisitRecord =>
  markEffort(VISIT, AT_S, { mark: 'coasted', markedS: NOW_S, ratioShown }, NOW_S);

test('[LB77] an effort marked with the ratio on screen does not count, one made without it does', async () => {
  expect(landingMarks([marked(true)], log)).toEqual([]);
  expect(await printOf(marked(true))).toBe(await printOf(VISIT));
  expect(landingMarks([marked(false)], log)).toEqual([
    { aroundS: AT_S, effort: 'coasted', touchdown: null, rollEnd: null },
  ]);
  expect(await printOf(marked(false))).not.toBe(await printOf(VISIT));
});

test('[LB77] a correction counts until it is taken back', async () => {
  const put = addCorrection(VISIT, AT_S, { ...CORRECTION, what: 'touchdown' });
  const [mark] = landingMarks([put], log);
  expect(mark.touchdown).toEqual(CORRECTION.corrected);
  expect(await printOf(put)).not.toBe(await printOf(VISIT));
  const back = takeBackCorrection(put, AT_S, 'touchdown', NOW_S);
  expect(landingMarks([back], log)).toEqual([]);
  expect(await printOf(back)).toBe(await printOf(VISIT));
});

test('[LB77] a word about the contact and a lift-off count until they are taken back', async () => {
  const word = {
    measured: null,
    algorithmVersion: 10,
    corrected: 'not-touched',
    madeS: NOW_S,
  } as const;
  const said = sayContact(VISIT, AT_S, word, NOW_S);
  const both = addCorrection(said, AT_S + 20, { ...CORRECTION, what: 'lift-off' });
  expect(landingMarks([both], log)).toEqual([
    {
      ...{ aroundS: AT_S, effort: null, touchdown: null, rollEnd: null },
      contact: false,
      liftOff: CORRECTION.corrected,
    },
  ]);
  expect(await printOf(said)).not.toBe(await printOf(VISIT));
  expect(await printOf(both)).not.toBe(await printOf(said));
  const back = takeBackCorrection(sayContact(both, AT_S, null, NOW_S), AT_S, 'lift-off', NOW_S);
  expect(await printOf(back)).toBe(await printOf(VISIT));
});

describe('[TWICE7] of two records about one landing', () => {
  const touchdown = (visit: VisitRecord, alongM: number, madeS: number, atS = AT_S): VisitRecord =>
    addCorrection(visit, atS, {
      ...{ ...CORRECTION, what: 'touchdown', corrected: { timeS: atS, alongM }, madeS },
    });
  const bare = (id: string, of = log): VisitRecord => makeVisit(entryId('visit', id), of, OWN);
  const alongM = (visits: VisitRecord[], of = log, others: string[] = []): unknown[] =>
    landingMarks(visits, of, others).map((marks) => marks.touchdown?.alongM);

  test("the log's own goes first, whenever the other was made, and undone, the other's counts", () => {
    const own = touchdown(bare('a'), 10, NOW_S);
    const others = touchdown(bare('b', other), 99, NOW_S + 5, AT_S + 3);
    expect(alongM([own, others], log, [other.id])).toEqual([10]);
    expect(alongM([own, others], other, [log.id])).toEqual([99]);
    const back = takeBackCorrection(own, AT_S, 'touchdown', NOW_S + 9);
    expect(alongM([back, others], log, [other.id])).toEqual([99]);
  });

  test('field by field: a mark on screen in one hides no mark in the other', () => {
    const own = markEffort(bare('a'), AT_S, { mark: 'full', markedS: 1, ratioShown: false }, NOW_S);
    const shown = { mark: 'coasted', markedS: 9, ratioShown: true } as const;
    const others = markEffort(touchdown(bare('b', other), 99, 5), AT_S, shown, NOW_S + 9);
    expect(landingMarks([own, others], log, [other.id])).toEqual([
      { aroundS: AT_S, effort: 'full', touchdown: { timeS: AT_S, alongM: 99 }, rollEnd: null },
    ]);
  });

  test('where both are about one log, the record changed later goes first, whatever was made later', () => {
    const early = touchdown(bare('a'), 10, NOW_S + 5);
    const late = touchdown(bare('b'), 99, NOW_S);
    expect(alongM([early, { ...late, changedS: NOW_S + 9 }])).toEqual([99]);
    expect(
      alongM([
        { ...early, changedS: NOW_S + 19 },
        { ...late, changedS: NOW_S + 9 },
      ]),
    ).toEqual([10]);
  });
});
