/**
 * Two copies of one visit become one that says what both say.
 *
 * In: two records with one id. Out: one record, the same whichever comes first and however many are
 * merged in whatever order. Remarks, entries about landings and predictions are united one by one; the
 * fields about the whole flight follow the copy in which they were entered later.
 * Rules: docs/spec/logbook.md, LB46 to LB49.
 */
import type { Conditions } from '../weather/conditions.ts';
import type {
  ContactCorrection,
  EffortMark,
  LandingEntry,
  PlaceCorrection,
  Remark,
  VisitRecord,
} from './entry.ts';
import { conditionsOfLandings, enteredText } from './entered-fields.ts';
import {
  contactInForce,
  correctionInForce,
  correctionText,
  landingNear,
  uniteLandings,
} from './landing-entries.ts';
import { grouped } from './newest.ts';
import { canonicalText } from './plain-json.ts';
import { uniteRemarks } from './remarks.ts';

/** One thing that a copy of a visit said and that the merged visit does not say. */
export type NotTaken =
  | { readonly what: 'remark'; readonly was: Remark; readonly stands: Remark | null }
  | {
      readonly what: 'effort';
      readonly aroundS: number;
      readonly was: EffortMark;
      readonly stands: EffortMark | null;
    }
  | {
      readonly what: PlaceCorrection['what'];
      readonly aroundS: number;
      readonly was: PlaceCorrection;
      readonly stands: PlaceCorrection | null;
    }
  | {
      readonly what: 'contact';
      readonly aroundS: number;
      readonly was: ContactCorrection;
      readonly stands: ContactCorrection | null;
    }
  | {
      readonly what: 'flight-conditions';
      /** Null: of the whole flight. */
      readonly aroundS: number | null;
      readonly field: keyof Conditions;
      readonly was: Conditions;
      readonly stands: Conditions | null;
    }
  | {
      readonly what: 'plannedForS' | 'aeroplaneId' | 'logId';
      readonly was: string | number;
      readonly stands: string | number | null;
    };

/** The two copies as one; `changedS` is the later one's. */
export function mergeVisits(a: VisitRecord, b: VisitRecord): VisitRecord {
  const entered = enteredLater(a, b);
  return {
    ...entered,
    changedS: Math.max(a.changedS, b.changedS),
    // What belongs to the pilot in one copy does not go with the demonstration.
    demo: a.demo && b.demo,
    logId: joinedTo(a, b),
    landings: mergeLandings(a, b, conditionsOfLandings(entered)),
    ...uniteRemarks(a, b),
    predictions: unitePredictions(a, b),
  };
}

function enteredLater(a: VisitRecord, b: VisitRecord): VisitRecord {
  const [aS, bS] = [a.enteredS ?? -1, b.enteredS ?? -1];
  if (aS !== bS) return aS > bS ? a : b;
  return enteredText(a) > enteredText(b) ? a : b;
}

/** A flight once joined stays joined; to two logs, to the one whose id is greater. */
function joinedTo(a: VisitRecord, b: VisitRecord): VisitRecord['logId'] {
  if (a.logId === null || b.logId === null) return a.logId ?? b.logId;
  return a.logId > b.logId ? a.logId : b.logId;
}

function mergeLandings(
  a: VisitRecord,
  b: VisitRecord,
  own: ReadonlyMap<number, Conditions>,
): LandingEntry[] {
  return grouped([...a.landings, ...b.landings], ({ aroundS }) => aroundS)
    .map((same) => {
      const [{ aroundS }] = same;
      return { ...uniteLandings(same, aroundS), conditions: own.get(aroundS) ?? null };
    })
    .sort((one, other) => one.aroundS - other.aroundS);
}

/** The frozen predictions of both, each once. One never changes: what differs anywhere is another one. */
export function unitePredictions(a: VisitRecord, b: VisitRecord): VisitRecord['predictions'] {
  const byText = new Map(
    [...a.predictions, ...b.predictions].map((each) => [canonicalText(each), each]),
  );
  return [...byText]
    .sort(([aText, one], [bText, other]) => one.savedS - other.savedS || (aText < bText ? -1 : 1))
    .map(([, prediction]) => prediction);
}

/** What a copy said and the merged visit does not say. What a copy left open is nothing lost. */
export function notTaken(copy: VisitRecord, merged: VisitRecord): NotTaken[] {
  return [
    ...remarksNotTaken(copy, merged),
    ...fieldsNotTaken(copy, merged),
    ...conditionsNotTaken(copy.conditions, merged.conditions, null),
    ...copy.landings.flatMap((landing) => ofLandingNotTaken(landing, copy, merged)),
  ];
}

function remarksNotTaken(copy: VisitRecord, merged: VisitRecord): NotTaken[] {
  const standing = new Map(merged.remarks.map((remark) => [remark.id, remark]));
  return copy.remarks.flatMap((was): NotTaken[] => {
    const stands = standing.get(was.id) ?? null;
    const isSame = stands !== null && stands.text === was.text && stands.timeS === was.timeS;
    return isSame ? [] : [{ what: 'remark', was, stands }];
  });
}

function fieldsNotTaken(copy: VisitRecord, merged: VisitRecord): NotTaken[] {
  return (['plannedForS', 'aeroplaneId', 'logId'] as const).flatMap((what): NotTaken[] => {
    const [was, stands] = [copy[what], merged[what]];
    return was === null || was === stands ? [] : [{ what, was, stands }];
  });
}

function conditionsNotTaken(
  was: Conditions | null,
  stands: Conditions | null,
  aroundS: number | null,
): NotTaken[] {
  if (!was) return [];
  const fields = Object.keys(was) as (keyof Conditions)[];
  return fields
    .filter((field) => (was[field] ?? null) !== null)
    .filter((field) => canonicalText(was[field]) !== canonicalText(stands?.[field] ?? null))
    .map((field) => ({ what: 'flight-conditions', aroundS, field, was, stands }));
}

function ofLandingNotTaken(
  { aroundS, conditions, effort }: LandingEntry,
  copy: VisitRecord,
  merged: VisitRecord,
): NotTaken[] {
  const own = merged.landings.find((each) => each.aroundS === aroundS)?.conditions ?? null;
  const before = landingNear(copy, aroundS);
  const after = landingNear(merged, aroundS);
  const stands = after?.effort ?? null;
  const isMarked = effort !== null && effort.mark !== stands?.mark;
  return [
    ...conditionsNotTaken(conditions, own, aroundS),
    ...(isMarked ? [{ what: 'effort', aroundS, was: effort, stands } as const] : []),
    ...contactNotTaken(aroundS, before, after),
    ...(['touchdown', 'roll-end', 'lift-off'] as const).flatMap((what): NotTaken[] => {
      const was = before && correctionInForce(before, what);
      const now = after && correctionInForce(after, what);
      if (!was || (now && correctionText(now) === correctionText(was))) return [];
      return [{ what, aroundS, was, stands: now }];
    }),
  ];
}

function contactNotTaken(
  aroundS: number,
  before: LandingEntry | null,
  after: LandingEntry | null,
): NotTaken[] {
  const was = before && contactInForce(before);
  const stands = after && contactInForce(after);
  if (!was || was.corrected === stands?.corrected) return [];
  return [{ what: 'contact', aroundS, was, stands }];
}
