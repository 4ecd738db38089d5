/**
 * What did the pilot enter about one landing, and which correction is in force?
 *
 * In: a visit and the time of a touchdown. Out: the entry about it, and the visit as it is after a
 * change. Nothing that was measured or corrected is ever lost: a correction that is taken back stays,
 * marked with the time.
 */
import { SAME_LANDING_S } from '../debrief/landing-limits.ts';
import type {
  ContactCorrection,
  Correction,
  EffortMark,
  LandingEntry,
  PlaceCorrection,
  VisitRecord,
} from './entry.ts';

/** The entry about the landing whose touchdown was found at `timeS`; null: nothing was entered. */
export function landingNear(visit: VisitRecord, timeS: number): LandingEntry | null {
  const near = visit.landings
    .filter(({ aroundS }) => Math.abs(aroundS - timeS) <= SAME_LANDING_S)
    .sort((a, b) => Math.abs(a.aroundS - timeS) - Math.abs(b.aroundS - timeS));
  return near.at(0) ?? null;
}

/** The last correction of a place that was not taken back; null: as measured. */
export function correctionInForce(
  { corrections }: LandingEntry,
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
  const added: Correction = { ...correction, takenBackS: null };
  return changeLanding(visit, timeS, correction.madeS, (landing) => ({
    ...landing,
    corrections: [...landing.corrections, added],
  }));
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
      each === last ? { ...each, takenBackS: nowS } : each,
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
  return changeLanding(visit, timeS, nowS, (landing) => ({ ...landing, effort }));
}

function changeLanding(
  visit: VisitRecord,
  timeS: number,
  changedS: number,
  change: (landing: LandingEntry) => LandingEntry,
): VisitRecord {
  const found = landingNear(visit, timeS);
  const empty: LandingEntry = { aroundS: timeS, conditions: null, effort: null, corrections: [] };
  const landings = found
    ? visit.landings.map((each) => (each === found ? change(each) : each))
    : [...visit.landings, change(empty)].sort((a, b) => a.aroundS - b.aroundS);
  return { ...visit, changedS, landings };
}
