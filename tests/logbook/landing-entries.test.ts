/**
 * What was entered about one landing. Rules: docs/spec/logbook.md, LB4 to LB6.
 */

import { describe, expect, test } from 'vitest';
import { SAME_LANDING_S } from '../../src/debrief/landing-limits.ts';
import { entryId, type VisitRecord } from '../../src/logbook/entry.ts';
import {
  addCorrection,
  contactInForce,
  correctionInForce,
  landingNear,
  markEffort,
  sayContact,
  takeBackCorrection,
} from '../../src/logbook/landing-entries.ts';
import { makeVisit } from '../../src/logbook/make-entry.ts';
import { CORRECTION, FROZEN, inventedVisit, NOW_S, OWN } from './invented-entries.ts';

const T = NOW_S - 900;
const EMPTY = makeVisit(entryId('visit', 'v'), null, OWN);
const MARK = { mark: 'normal', markedS: NOW_S, ratioShown: true } as const;

function inForce(visit: VisitRecord, what: 'touchdown' | 'roll-end' = 'touchdown') {
  const landing = landingNear(visit, T);
  return landing && correctionInForce(landing, what);
}

const moved = (alongM: number, madeS: number) => ({
  ...CORRECTION,
  corrected: { timeS: T + 2, alongM },
  madeS,
});

describe('a correction by hand', () => {
  test('[LB4] keeps what was measured, and by which version', () => {
    const visit = addCorrection(EMPTY, T, CORRECTION);
    expect(visit.landings).toEqual([
      {
        aroundS: T,
        conditions: null,
        effort: null,
        unmarkedS: null,
        corrections: [{ ...CORRECTION, takenBackS: null }],
      },
    ]);
    expect(visit.changedS).toBe(CORRECTION.madeS);
    expect(EMPTY.landings).toEqual([]);
  });

  test('[LB4] can be taken back, and stays on record with the time', () => {
    const visit = takeBackCorrection(
      addCorrection(EMPTY, T, CORRECTION),
      T,
      'touchdown',
      NOW_S + 60,
    );
    expect(inForce(visit)).toBeNull();
    expect(visit.landings[0].corrections).toEqual([{ ...CORRECTION, takenBackS: NOW_S + 60 }]);
    expect(visit.changedS).toBe(NOW_S + 60);
    const again = takeBackCorrection(visit, T, 'touchdown', NOW_S + 70);
    expect(again).toBe(visit);
  });

  test('[LB4] of several the last that was not taken back is in force', () => {
    let visit = addCorrection(EMPTY, T, moved(100, NOW_S));
    visit = addCorrection(visit, T, moved(110, NOW_S + 1));
    visit = addCorrection(visit, T, { ...moved(400, NOW_S + 2), what: 'roll-end' });
    expect(inForce(visit)?.corrected.alongM).toBe(110);
    expect(inForce(visit, 'roll-end')?.corrected.alongM).toBe(400);
    visit = takeBackCorrection(visit, T, 'touchdown', NOW_S + 3);
    expect(inForce(visit)?.corrected.alongM).toBe(100);
    expect(inForce(visit, 'roll-end')?.corrected.alongM).toBe(400);
    visit = takeBackCorrection(visit, T, 'touchdown', NOW_S + 4);
    expect(inForce(visit)).toBeNull();
    expect(visit.landings[0].corrections.map(({ takenBackS }) => takenBackS)).toEqual([
      NOW_S + 4,
      NOW_S + 3,
      null,
    ]);
    visit = addCorrection(visit, T, moved(120, NOW_S + 5));
    expect(inForce(visit)?.corrected.alongM).toBe(120);
  });
});

describe('an entry about a landing', () => {
  test('[LB4] belongs to the landing within 30 s of the touchdown it was made for', () => {
    const visit = addCorrection(EMPTY, T, CORRECTION);
    expect(SAME_LANDING_S).toBe(30);
    for (const near of [-30, 0, 30]) expect(landingNear(visit, T + near)).toBe(visit.landings[0]);
    for (const far of [-30.1, 30.1, 600]) expect(landingNear(visit, T + far)).toBeNull();
  });

  test('[LB4] is the nearest where two are near, and the entries stay in order of time', () => {
    let visit = markEffort(EMPTY, T + 40, MARK, NOW_S);
    visit = markEffort(visit, T, MARK, NOW_S);
    expect(visit.landings.map(({ aroundS }) => aroundS)).toEqual([T, T + 40]);
    expect(landingNear(visit, T + 19)?.aroundS).toBe(T);
    expect(landingNear(visit, T + 21)?.aroundS).toBe(T + 40);
  });

  test('[LB4] found again by a later version goes on where it was', () => {
    const first = addCorrection(EMPTY, T, CORRECTION);
    const later = addCorrection(first, T + 1.5, moved(90, NOW_S + 9));
    expect(later.landings).toHaveLength(1);
    expect(later.landings[0].aroundS).toBe(T);
    expect(later.landings[0].corrections).toHaveLength(2);
  });

  test('[LB5] keeps with the effort mark whether the ratio stood on the screen', () => {
    const blind = markEffort(EMPTY, T, { ...MARK, ratioShown: false }, NOW_S + 5);
    expect(landingNear(blind, T)?.effort).toEqual({ ...MARK, ratioShown: false });
    expect(blind.changedS).toBe(NOW_S + 5);
    const seen = markEffort(blind, T + 3, MARK, NOW_S + 6);
    expect(seen.landings.map(({ effort }) => effort?.ratioShown)).toEqual([true]);
  });

  test('[LB5] loses the mark and nothing else when the mark is taken off', () => {
    const marked = markEffort(addCorrection(EMPTY, T, CORRECTION), T, MARK, NOW_S + 1);
    const bare = markEffort(marked, T, null, NOW_S + 2);
    const [before] = addCorrection(EMPTY, T, CORRECTION).landings;
    expect(bare.landings).toEqual([{ ...before, unmarkedS: NOW_S + 2 }]);
    expect(markEffort(bare, T, null, NOW_S + 3)).toBe(bare);
    expect(markEffort(EMPTY, T, null, NOW_S + 3)).toBe(EMPTY);
  });
});

test('[LB6] a saved prediction stays as it was, whatever is marked or corrected later', () => {
  const before = inventedVisit();
  const saved = structuredClone(before.predictions);
  expect(saved).toEqual([FROZEN]);
  let visit = addCorrection(before, T, moved(200, NOW_S + 1));
  visit = takeBackCorrection(visit, T, 'touchdown', NOW_S + 2);
  visit = markEffort(visit, T + 5000, MARK, NOW_S + 3);
  expect(visit.predictions).toEqual(saved);
  expect(before).toEqual(inventedVisit());
});

describe('what is said of the contact', () => {
  const word = (corrected: 'touched' | 'not-touched', madeS: number) =>
    ({ measured: 0.4, algorithmVersion: 10, corrected, madeS }) as const;
  const said = (visit: VisitRecord) => {
    const landing = landingNear(visit, T);
    return landing && contactInForce(landing)?.corrected;
  };

  test('[LB13] stands beside the places put by hand, and the last word counts', () => {
    const put = addCorrection(EMPTY, T, CORRECTION);
    const first = sayContact(put, T, word('touched', NOW_S + 1), NOW_S + 1);
    expect(said(first)).toBe('touched');
    expect(inForce(first)?.corrected).toEqual(CORRECTION.corrected);
    const second = sayContact(first, T + 3, word('not-touched', NOW_S + 2), NOW_S + 2);
    expect(said(second)).toBe('not-touched');
    expect(second.landings).toHaveLength(1);
  });

  test('[LB13] taken back, what was measured counts again, not the word before; all stay on record', () => {
    const first = sayContact(EMPTY, T, word('touched', NOW_S + 1), NOW_S + 1);
    const second = sayContact(first, T, word('not-touched', NOW_S + 2), NOW_S + 2);
    const back = sayContact(second, T, null, NOW_S + 9);
    expect(said(back)).toBeUndefined();
    expect(back.landings[0].corrections.map(({ takenBackS }) => takenBackS)).toEqual([
      NOW_S + 2,
      NOW_S + 9,
    ]);
    expect(sayContact(back, T, null, NOW_S + 10)).toBe(back);
  });
});
