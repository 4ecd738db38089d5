/**
 * What did the pilot enter about one landing, and which correction is in force?
 *
 * In: a visit and the time of a touchdown. Out: the entry about it, and the visit as it is after a
 * change. Nothing that was measured or corrected is ever lost: a correction that is taken back stays,
 * marked with the time.
 *
 * Two people whose versions found a touchdown some seconds apart leave two entries about one landing.
 * They are merged by their exact times, because "near" joins differently in another order; where they
 * are read, all that are near count as one.
 */
import { SAME_LANDING_S } from '../debrief/landing-limits.ts';
import { surelyAfter } from './entered-fields.ts';
import type {
  ContactCorrection,
  Correction,
  EffortMark,
  LandingEntry,
  PlaceCorrection,
  VisitRecord,
} from './entry.ts';
import { grouped, newestOf } from './newest.ts';
import { canonicalText } from './plain-json.ts';

/** The entry about the landing whose touchdown was found at `timeS`; null: nothing was entered. */
export function landingNear(
  { landings }: Pick<VisitRecord, 'landings'>,
  timeS: number,
): LandingEntry | null {
  const near = landings
    .filter((landing) => isNear(landing, timeS))
    .sort((a, b) => Math.abs(a.aroundS - timeS) - Math.abs(b.aroundS - timeS));
  return near.length > 1 ? uniteLandings(near, near[0].aroundS) : (near.at(0) ?? null);
}

function isNear({ aroundS }: LandingEntry, timeS: number): boolean {
  return Math.abs(aroundS - timeS) <= SAME_LANDING_S;
}

/**
 * Entries about one landing as one: every correction once, in the order made, taken back where it was in
 * one of them; of marks the later, unless one was taken off after it. Conditions are the first's.
 */
export function uniteLandings(entries: readonly LandingEntry[], aroundS: number): LandingEntry {
  const unmarked = entries.flatMap(({ unmarkedS }) => (unmarkedS === null ? [] : [unmarkedS]));
  const unmarkedS = unmarked.length === 0 ? null : Math.max(...unmarked);
  const marks = entries.flatMap(({ effort }) => (effort ? [effort] : []));
  const mark = grouped(marks, () => 0)
    .map((all) => newestOf(all, ({ markedS }) => markedS))
    .at(0);
  return {
    aroundS,
    conditions: entries.find(({ conditions }) => conditions)?.conditions ?? null,
    effort: mark && mark.markedS >= (unmarkedS ?? 0) ? mark : null,
    unmarkedS,
    corrections: uniteCorrections(entries.flatMap(({ corrections }) => corrections)),
  };
}

function uniteCorrections(corrections: readonly Correction[]): Correction[] {
  return grouped(corrections, correctionText)
    .map((same): Correction => {
      const backS = same.flatMap(({ takenBackS }) => (takenBackS === null ? [] : [takenBackS]));
      return { ...same[0], takenBackS: backS.length === 0 ? null : Math.min(...backS) };
    })
    .sort((a, b) => a.madeS - b.madeS || (correctionText(a) < correctionText(b) ? -1 : 1));
}

/** What makes a correction the one it is: all but whether it was taken back. */
export function correctionText(correction: Correction): string {
  return canonicalText({ ...correction, takenBackS: null });
}

/** The last correction of a place that was not taken back; null: as measured. */
export function correctionInForce(
  { corrections }: Pick<LandingEntry, 'corrections'>,
  what: PlaceCorrection['what'],
): PlaceCorrection | null {
  const places = corrections.filter((each) => each.what !== 'contact');
  return places.findLast((each) => each.what === what && each.takenBackS === null) ?? null;
}

/** The pilot's last word about the contact that was not taken back; null: as measured. */
export function contactInForce({ corrections }: LandingEntry): ContactCorrection | null {
  const words = corrections.filter((each) => each.what === 'contact');
  return words.findLast(({ takenBackS }) => takenBackS === null) ?? null;
}

/** A correction as it is made: in force. */
export type NewCorrection =
  Omit<PlaceCorrection, 'takenBackS'> | Omit<ContactCorrection, 'takenBackS'>;

/** The visit with one more correction of the landing at `timeS`. */
export function addCorrection(
  visit: VisitRecord,
  timeS: number,
  correction: NewCorrection,
): VisitRecord {
  return changeLanding(visit, timeS, correction.madeS, (landing) => {
    const before = landing.corrections.filter(({ what }) => what === correction.what);
    const lastS = before.length === 0 ? null : Math.max(...before.map(({ madeS }) => madeS));
    // Surely the last, whatever the clock says: copies that are merged go by the time.
    const madeS = surelyAfter(correction.madeS, lastS);
    const added: Correction = { ...correction, madeS, takenBackS: null };
    return { ...landing, corrections: [...landing.corrections, added] };
  });
}

/**
 * The visit with the correction in force taken back: the one before it, or what was measured, counts
 * again. Without a correction in force the visit is as it was.
 */
export function takeBackCorrection(
  visit: VisitRecord,
  timeS: number,
  what: Correction['what'],
  nowS: number,
): VisitRecord {
  const landing = landingNear(visit, timeS);
  const isLast = (each: Correction): boolean => each.what === what && each.takenBackS === null;
  const last = landing?.corrections.findLast(isLast);
  if (!last) return visit;
  return changeLanding(visit, timeS, nowS, (old) => ({
    ...old,
    corrections: old.corrections.map((each) =>
      correctionText(each) === correctionText(last) ? { ...each, takenBackS: nowS } : each,
    ),
  }));
}

function wordNear(visit: VisitRecord, timeS: number): ContactCorrection | null {
  const landing = landingNear(visit, timeS);
  return landing && contactInForce(landing);
}

/**
 * The visit with what the pilot says of the contact near `timeS`, in place of what was said before;
 * null: as measured.
 */
export function sayContact(
  visit: VisitRecord,
  timeS: number,
  word: Omit<ContactCorrection, 'what' | 'takenBackS'> | null,
  nowS: number,
): VisitRecord {
  // Of two logbooks brought together there may be more than one.
  let silent = visit;
  while (wordNear(silent, timeS)) silent = takeBackCorrection(silent, timeS, 'contact', nowS);
  return word ? addCorrection(silent, timeS, { ...word, what: 'contact' }) : silent;
}

/**
 * The visit with the pilot's mark of the landing at `timeS`; null takes the mark off. Where there is
 * none to take off the visit is as it was.
 */
export function markEffort(
  visit: VisitRecord,
  timeS: number,
  effort: EffortMark | null,
  nowS: number,
): VisitRecord {
  if (!effort && !landingNear(visit, timeS)?.effort) return visit;
  return changeLanding(visit, timeS, nowS, (landing) => {
    if (!effort) {
      const unmarkedS = surelyAfter(nowS, landing.effort?.markedS ?? null);
      return { ...landing, effort, unmarkedS };
    }
    // Surely after the mark before it and after one was taken off, whatever the clock says.
    const afterMarkS = surelyAfter(effort.markedS, landing.effort?.markedS ?? null);
    const markedS = Math.max(afterMarkS, landing.unmarkedS ?? 0);
    return { ...landing, effort: { ...effort, markedS } };
  });
}

function changeLanding(
  visit: VisitRecord,
  timeS: number,
  changedS: number,
  change: (landing: LandingEntry) => LandingEntry,
): VisitRecord {
  const found = landingNear(visit, timeS) ?? emptyLanding(timeS);
  const others = visit.landings.filter((landing) => !isNear(landing, timeS));
  const landings = [...others, change(found)].sort((a, b) => a.aroundS - b.aroundS);
  return { ...visit, changedS, landings };
}

function emptyLanding(aroundS: number): LandingEntry {
  return { aroundS, conditions: null, effort: null, unmarkedS: null, corrections: [] };
}
