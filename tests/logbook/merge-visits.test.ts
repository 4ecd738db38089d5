/**
 * Two copies of one visit become one. Rules: docs/spec/logbook.md, LB46 to LB49.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { entryId, type Entry, type VisitRecord } from '../../src/logbook/entry.ts';
import { stampEntered } from '../../src/logbook/entered-fields.ts';
import { exportLogbook } from '../../src/logbook/export.ts';
import { importLogbook, type ImportReport } from '../../src/logbook/import-logbook.ts';
import {
  addCorrection,
  correctionInForce,
  landingNear,
  markEffort,
  takeBackCorrection,
} from '../../src/logbook/landing-entries.ts';
import { landingMarks } from '../../src/logbook/debrief-context.ts';
import { put, type LogbookStore } from '../../src/logbook/logbook-store.ts';
import { makeVisit } from '../../src/logbook/make-entry.ts';
import { meet } from '../../src/logbook/merge.ts';
import { mergeVisits, notTaken } from '../../src/logbook/merge-visits.ts';
import { addRemark, removeRemark } from '../../src/logbook/remarks.ts';
import { anyVisit } from './any-entry.ts';
import { everything, storeOf } from './filled-store.ts';
import {
  CONDITIONS,
  CORRECTION,
  FROZEN,
  inventedLog,
  inventedLogbook,
  inventedStrip,
  NOW_S,
  OWN,
  valueOf,
} from './invented-entries.ts';

const T = NOW_S - 900;
const log = await inventedLog();
const BARE: VisitRecord = makeVisit(entryId('visit', 'v'), log, OWN);

const remark = (id: string, writtenS: number, text = `said by ${id}`) => ({
  id,
  timeS: null,
  text,
  writtenS,
});
const entered = (visit: VisitRecord, tempC: number, nowS: number): VisitRecord =>
  stampEntered({ ...visit, changedS: nowS, conditions: { ...CONDITIONS, tempC } }, visit, nowS);
const ids = ({ remarks }: VisitRecord) => remarks.map(({ id }) => id).sort();
const moved = (alongM: number, madeS: number) => ({
  ...CORRECTION,
  corrected: { timeS: T + 2, alongM },
  madeS,
});
const touchdownM = (visit: VisitRecord, timeS = T) => {
  const landing = landingNear(visit, timeS);
  return landing && correctionInForce(landing, 'touchdown')?.corrected.alongM;
};

/** Both orders must come to the same. */
function merged(a: VisitRecord, b: VisitRecord): VisitRecord {
  const one = mergeVisits(a, b);
  expect(mergeVisits(b, a)).toEqual(one);
  return one;
}

describe('remarks', () => {
  test('[LB46] of two people on one flight both survive', () => {
    const pilot = addRemark(BARE, remark('pilot', NOW_S + 20));
    const instructor = addRemark(BARE, remark('instructor', NOW_S + 10));
    const both = merged(pilot, instructor);
    expect(ids(both)).toEqual(['instructor', 'pilot']);
    expect(notTaken(pilot, both)).toEqual([]);
    expect(notTaken(instructor, both)).toEqual([]);
  });

  test('[LB46] in two wordings: the one written later stands, and the other is told', () => {
    const early = addRemark(BARE, remark('r', NOW_S, 'long'));
    // The record with the earlier wording was changed last of all.
    const late = addRemark(BARE, remark('r', NOW_S + 1, 'long, I think'));
    const both = merged({ ...early, changedS: NOW_S + 99 }, late);
    expect(both.remarks.map(({ text }) => text)).toEqual(['long, I think']);
    expect(notTaken(early, both)).toEqual([
      { what: 'remark', was: early.remarks[0], stands: late.remarks[0] },
    ]);
    expect(notTaken(late, both)).toEqual([]);
  });

  test('[LB46] pinned to another moment: the one written later stands, and the other is told', () => {
    const old = addRemark(BARE, { ...remark('r', NOW_S + 1, 'same words'), timeS: T });
    const later = addRemark(BARE, { ...remark('r', NOW_S + 2, 'same words'), timeS: T + 60 });
    const both = merged(old, later);
    expect(both.remarks).toEqual(later.remarks);
    expect(notTaken(old, both)).toMatchObject([{ what: 'remark', was: { timeS: T } }]);
  });

  test('[LB47] one that was removed does not come back from an old copy, and is told', () => {
    const old = addRemark(BARE, remark('r', NOW_S));
    const clean = removeRemark(old, 'r', NOW_S + 5);
    expect(clean.removedRemarks).toEqual([{ id: 'r', removedS: NOW_S + 5 }]);
    const copy = addRemark(old, remark('later', NOW_S + 50));
    const both = merged(clean, copy);
    expect(ids(both)).toEqual(['later']);
    expect(notTaken(copy, both)).toEqual([{ what: 'remark', was: old.remarks[0], stands: null }]);
    expect(ids(merged(merged(both, old), copy))).toEqual(['later']);
  });

  test('[LB47] removed on one side and changed on the other: what was done later stands', () => {
    const old = addRemark(BARE, remark('r', NOW_S));
    const removed = removeRemark(old, 'r', NOW_S + 5);
    const changed = (writtenS: number) => addRemark(BARE, remark('r', writtenS, 'changed'));
    expect(ids(merged(removed, changed(NOW_S + 4)))).toEqual([]);
    expect(ids(merged(removed, changed(NOW_S + 6)))).toEqual(['r']);
    // In one instant nothing that was written is lost.
    expect(ids(merged(removed, changed(NOW_S + 5)))).toEqual(['r']);
  });

  test('[LB47] a removal holds also by a clock that is behind the writer of the remark', () => {
    const old = addRemark(BARE, remark('r', NOW_S + 3600));
    expect(ids(merged(removeRemark(old, 'r', NOW_S), old))).toEqual([]);
  });
});

describe('what was entered about a flight', () => {
  test('[LB48] follows the copy in which it was entered later, whoever wrote a remark after that', () => {
    const first = entered(BARE, 10, NOW_S);
    const pilot = entered(first, 15, NOW_S + 10);
    const instructor = addRemark(first, remark('instructor', NOW_S + 500));
    const both = merged(pilot, instructor);
    expect(both.conditions?.tempC).toBe(15);
    expect(ids(both)).toEqual(['instructor']);
    expect(both.changedS).toBe(NOW_S + 500);
    expect(notTaken(pilot, both)).toEqual([]);
    const told = notTaken(instructor, both);
    expect(told).toEqual([
      {
        what: 'flight-conditions',
        aroundS: null,
        field: 'tempC',
        was: first.conditions,
        stands: pilot.conditions,
      },
    ]);
  });

  test('[LB48] a copy in which nothing was ever entered takes nothing away', () => {
    const pilot = entered(BARE, 10, NOW_S);
    const instructor = addRemark(BARE, remark('instructor', NOW_S + 500));
    expect(merged(pilot, instructor).conditions?.tempC).toBe(10);
    expect(instructor.enteredS).toBeNull();
  });

  test('[LB48] what was taken out again is told', () => {
    const first = entered(BARE, 10, NOW_S);
    const cleared = stampEntered({ ...first, conditions: null }, first, NOW_S + 1);
    const both = merged(first, cleared);
    expect(both.conditions).toBeNull();
    const told = notTaken(first, both).map((each) => 'field' in each && each.field);
    const fields = ['wind', 'tempC', 'qnhHpa', 'massKg', 'surface', 'flap', 'aeroplane'];
    expect(told.sort()).toEqual(fields.sort());
    expect(notTaken(cleared, both)).toEqual([]);
  });

  test("[LB48] what is the pilot's own in one copy is not the demonstration's", () => {
    const ofDemo = { ...BARE, demo: true };
    expect(merged(ofDemo, { ...BARE, demo: false }).demo).toBe(false);
    expect(merged(ofDemo, ofDemo).demo).toBe(true);
  });

  test('[LB48] another aeroplane and day entered later stand, and those of the old copy are told', () => {
    const stamped = (name: string, nowS: number): VisitRecord => {
      const aeroplaneId = entryId('aeroplane', name);
      return stampEntered({ ...BARE, aeroplaneId, plannedForS: nowS }, BARE, nowS);
    };
    const [old, later] = [stamped('old', NOW_S + 1), stamped('new', NOW_S + 2)];
    const both = merged(old, later);
    expect(both).toMatchObject({ aeroplaneId: later.aeroplaneId, plannedForS: NOW_S + 2 });
    expect(notTaken(later, both)).toEqual([]);
    expect(notTaken(old, both)).toEqual([
      { what: 'plannedForS', was: NOW_S + 1, stands: NOW_S + 2 },
      { what: 'aeroplaneId', was: old.aeroplaneId, stands: later.aeroplaneId },
    ]);
  });

  test('[LB48] conditions of a single landing that do not stand are told with its time', () => {
    const ofLanding = (tempC: number, nowS: number): VisitRecord => {
      const landing = { aroundS: T, conditions: { ...CONDITIONS, tempC } };
      const landings = [{ ...landing, effort: null, unmarkedS: null, corrections: [] }];
      return stampEntered({ ...BARE, landings }, BARE, nowS);
    };
    const [old, later] = [ofLanding(3, NOW_S + 1), ofLanding(4, NOW_S + 2)];
    const both = merged(old, later);
    expect(notTaken(later, both)).toEqual([]);
    expect(notTaken(old, both)).toMatchObject([
      { what: 'flight-conditions', aroundS: T, field: 'tempC', was: { tempC: 3 } },
    ]);
  });

  test('[LB48] a flight joined to its log stays joined', () => {
    const planned = { ...BARE, logId: null };
    const changed = entered(planned, 3, NOW_S + 90);
    expect(merged(changed, BARE).logId).toBe(log.id);
  });

  test('[LB46] every prediction stays, in the order saved', () => {
    const [one, two, three] = [0, 1, 2].map((k) => ({ ...FROZEN, savedS: NOW_S + k }));
    const both = merged(
      { ...BARE, predictions: [one, three] },
      { ...BARE, changedS: NOW_S + 9, predictions: [one, two] },
    );
    expect(both.predictions).toEqual([one, two, three]);
  });
});

describe('entries about a landing', () => {
  const put20 = addCorrection(BARE, T, moved(20, NOW_S + 20));
  const put10 = addCorrection(BARE, T, moved(10, NOW_S + 10));

  test('[LB49] of two touchdowns put by hand the later is in force, the other stays under it and is told', () => {
    const both = merged(put20, put10);
    expect(touchdownM(both)).toBe(20);
    expect(touchdownM(takeBackCorrection(both, T, 'touchdown', NOW_S + 30))).toBe(10);
    expect(notTaken(put10, both).map(({ what }) => what)).toEqual(['touchdown']);
    expect(notTaken(put20, both)).toEqual([]);
  });

  test('[LB49] one made under a clock that was put back is the last made', () => {
    const early = addCorrection(BARE, T, moved(20, NOW_S + 100));
    const late = addCorrection(early, T, moved(30, NOW_S));
    expect(touchdownM(late, T)).toBe(30);
    const remarked = { ...late, changedS: late.changedS + 1 };
    expect(touchdownM(merged(late, remarked), T)).toBe(30);
    expect(touchdownM(merged(remarked, early), T)).toBe(30);
    // The same place put again in the second in which it was taken back is a correction of its own.
    const back = takeBackCorrection(early, T, 'touchdown', NOW_S + 100);
    const again = addCorrection(back, T, moved(20, NOW_S + 100));
    expect(touchdownM(merged(again, again), T)).toBe(20);
    expect(touchdownM(merged(again, back), T)).toBe(20);
  });

  test('[LB49] of two words about the contact the later is in force, and the other is told', () => {
    const says = (corrected: 'touched' | 'not-touched', madeS: number): VisitRecord => {
      const word = { what: 'contact', measured: 0.4, algorithmVersion: 1 } as const;
      return addCorrection(BARE, T, { ...word, corrected, madeS });
    };
    const [old, later] = [says('touched', NOW_S + 1), says('not-touched', NOW_S + 2)];
    const both = merged(old, later);
    expect(notTaken(later, both)).toEqual([]);
    expect(notTaken(old, both)).toMatchObject([
      { what: 'contact', was: { corrected: 'touched' }, stands: { corrected: 'not-touched' } },
    ]);
  });

  test('[LB49] one that was taken back stays so', () => {
    const back = takeBackCorrection(put20, T, 'touchdown', NOW_S + 30);
    const both = merged(back, put20);
    expect(touchdownM(both)).toBeUndefined();
    expect(notTaken(put20, both)).toHaveLength(1);
  });

  test('[LB49] of two marks the later stands; one taken off does not come back from an old copy', () => {
    const marked = (mark: 'full' | 'coasted', markedS: number) =>
      markEffort(BARE, T, { mark, markedS, ratioShown: false }, markedS);
    const [early, late] = [marked('full', NOW_S), marked('coasted', NOW_S + 1)];
    const both = merged({ ...early, changedS: NOW_S + 99 }, late);
    expect(landingNear(both, T)?.effort?.mark).toBe('coasted');
    expect(notTaken(early, both).map(({ what }) => what)).toEqual(['effort']);
    const off = markEffort(late, T, null, NOW_S + 2);
    expect(landingNear(merged(off, late), T)?.effort).toBeNull();
    const again = markEffort(off, T, { mark: 'full', markedS: NOW_S, ratioShown: false }, NOW_S);
    expect(landingNear(merged(again, merged(off, late)), T)?.effort?.mark).toBe('full');
  });

  test('[LB49] a mark made in place of another is the later, also by a clock that is behind', () => {
    const mark = (visit: VisitRecord, of: 'full' | 'coasted', markedS: number): VisitRecord =>
      markEffort(visit, T, { mark: of, markedS, ratioShown: false }, markedS);
    const ahead = mark(BARE, 'full', NOW_S + 3600);
    const instead = mark(ahead, 'coasted', NOW_S);
    expect(landingNear(merged(instead, ahead), T)?.effort?.mark).toBe('coasted');
  });

  test('[LB49] entries of two people some seconds apart count as one landing, in the debrief too', () => {
    const pilot = addCorrection(BARE, T, moved(20, NOW_S + 20));
    const instructor = markEffort(
      addCorrection(BARE, T + 4, moved(30, NOW_S + 30)),
      T + 4,
      { mark: 'full', markedS: NOW_S, ratioShown: false },
      NOW_S + 31,
    );
    const both = merged(pilot, instructor);
    for (const atS of [T - 2, T, T + 2, T + 4]) {
      expect(touchdownM(both, atS)).toBe(30);
      expect(landingNear(both, atS)?.effort?.mark).toBe('full');
    }
    const marks = landingMarks([both], log);
    expect(
      marks.map(({ touchdown }) => touchdown && 'timeS' in touchdown && touchdown.alongM),
    ).toEqual([30]);
    expect(marks.map(({ effort }) => effort)).toEqual(['full']);
    // Edited after that, it is one entry, and merging with what it came from brings no other.
    const edited = takeBackCorrection(both, T, 'touchdown', NOW_S + 60);
    expect(edited.landings).toHaveLength(1);
    expect(touchdownM(merged(merged(edited, pilot), instructor), T + 4)).toBe(20);
  });
});

describe('a record from a file', () => {
  test('[LB42] that is older completes nothing where all it says is there, and is told where it differs', () => {
    const old = entered(BARE, 3, NOW_S + 1);
    const later = entered(BARE, 4, NOW_S + 2);
    const found = meet(later, old);
    expect(found).toMatchObject({ write: null, outcome: 'unchanged' });
    expect(found.conflicts).toHaveLength(1);
    expect(meet(old, later)).toMatchObject({ outcome: 'completed' });
    // Only looked at later: the time goes on, and nothing is said of it.
    const touched = meet(later, { ...later, changedS: NOW_S + 9 });
    expect(touched).toMatchObject({ outcome: 'unchanged', conflicts: [] });
  });

  test('[LB42] of a strip the newer one stays, whatever its text', () => {
    const strip = (name: string, changedS: number) => ({ ...inventedStrip('s', name), changedS });
    for (const [older, newer] of [
      ['Ahle', 'Zwole'],
      ['Zwole', 'Ahle'],
    ]) {
      const [old, late] = [strip(older, NOW_S + 1), strip(newer, NOW_S + 2)];
      expect(meet(old, late)).toMatchObject({ write: late, outcome: 'completed' });
      expect(meet(late, old)).toMatchObject({ write: null, outcome: 'unchanged' });
    }
  });
});

describe('merging at random', () => {
  const three = fc
    .tuple(anyVisit, anyVisit, anyVisit)
    .map((copies) => copies.map((copy): VisitRecord => ({ ...copy, id: BARE.id })));

  test('[LB46] is the same in every order and grouping, and with itself nothing new', () => {
    fc.assert(
      fc.property(three, ([a, b, c]) => {
        const all = mergeVisits(mergeVisits(a, b), c);
        expect(mergeVisits(a, mergeVisits(b, c))).toEqual(all);
        expect(mergeVisits(mergeVisits(c, a), b)).toEqual(all);
        expect(mergeVisits(mergeVisits(b, a), c)).toEqual(all);
        expect(mergeVisits(all, all)).toEqual(all);
        for (const each of [a, b, c]) expect(mergeVisits(all, each)).toEqual(all);
      }),
      { seed: 46, numRuns: 1500 },
    );
  });

  test('[LB46] keeps every remark that nobody removed, every correction and prediction', () => {
    fc.assert(
      fc.property(three, ([a, b]) => {
        const both = mergeVisits(a, b);
        const removed = new Set([...a.removedRemarks, ...b.removedRemarks].map(({ id }) => id));
        for (const side of [a, b]) {
          for (const { id } of side.remarks) {
            if (!removed.has(id)) expect(both.remarks.map((each) => each.id)).toContain(id);
          }
          expect(both.predictions).toEqual(expect.arrayContaining([...side.predictions]));
          for (const { aroundS, corrections } of side.landings) {
            const kept = both.landings.find((each) => each.aroundS === aroundS)?.corrections ?? [];
            const made = kept.map(({ madeS, what }) => [what, madeS]);
            for (const { what, madeS } of corrections) expect(made).toContainEqual([what, madeS]);
          }
        }
      }),
      { seed: 47, numRuns: 500 },
    );
  });
});

describe('an exchange between pilot and instructor', () => {
  const KEY = ['visit', BARE.id] as const;
  async function edit(store: LogbookStore, change: (visit: VisitRecord) => VisitRecord) {
    const visit = valueOf(await store.get(...KEY));
    if (!visit) throw new Error('the visit went');
    valueOf(await store.write([put(change(visit))]));
  }
  async function hand(from: LogbookStore, to: LogbookStore): Promise<ImportReport> {
    return valueOf(await importLogbook(valueOf(await exportLogbook(from)), to));
  }

  test('[LB46] there and back and there keeps everything, and both end the same', async () => {
    const pilot = await storeOf([log, entered(BARE, 10, NOW_S)]);
    const instructor = await storeOf([]);
    expect((await hand(pilot, instructor)).conflicts).toEqual([]);
    await edit(instructor, (visit) => addRemark(visit, remark('instructor', NOW_S + 10)));
    await edit(instructor, (visit) => addCorrection(visit, T, moved(20, NOW_S + 11)));
    await edit(pilot, (visit) => addRemark(visit, remark('pilot', NOW_S + 20)));
    const home = await hand(instructor, pilot);
    expect(home.conflicts).toEqual([]);
    expect(home.completed).toEqual([{ kind: 'visit', id: BARE.id }]);
    await edit(pilot, (visit) => removeRemark(visit, 'pilot', NOW_S + 30));
    await edit(instructor, (visit) => addRemark(visit, remark('second', NOW_S + 40)));
    await hand(pilot, instructor);
    await hand(instructor, pilot);
    expect(await everything(pilot)).toEqual(await everything(instructor));
    const visit = valueOf(await pilot.get(...KEY));
    if (!visit) throw new Error('the visit went');
    expect(ids(visit)).toEqual(['instructor', 'second']);
    expect(touchdownM(visit)).toBe(20);
    expect(visit.conditions?.tempC).toBe(10);
  });

  test("[LB46] taking in one's own export changes nothing and tells nothing", async () => {
    const entries: Entry[] = await inventedLogbook();
    const store = await storeOf(entries);
    const before = await everything(store);
    const report = await hand(store, store);
    expect(report.unchanged).toHaveLength(entries.length);
    expect([report.added, report.completed, report.conflicts]).toEqual([[], [], []]);
    expect(await everything(store)).toEqual(before);
  });
});
