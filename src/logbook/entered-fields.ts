/**
 * What was entered about a whole flight, as one value, and when.
 *
 * The planned day, the aeroplane and all conditions belong together: a wind typed by one and a mass
 * typed by another at another time are no conditions of one flight. They have a time of their own,
 * because a remark written later into an old copy must not bring an old wind back.
 */
import type { Conditions } from '../weather/conditions.ts';
import type { SettingsRecord, VisitRecord } from './entry.ts';
import { canonicalText } from './plain-json.ts';

/** A time that is surely after another, whatever the clock says, UTC seconds. */
export function surelyAfter(nowS: number, thanS: number | null): number {
  return thanS === null ? nowS : Math.max(nowS, thanS + 0.001);
}

/** Conditions of single landings by the time of the landing's entry; of one time the greater text. */
export function conditionsOfLandings(visit: VisitRecord): Map<number, Conditions> {
  const own = new Map<number, Conditions>();
  for (const { aroundS, conditions } of visit.landings) {
    const there = own.get(aroundS);
    if (!conditions || (there && canonicalText(there) > canonicalText(conditions))) continue;
    own.set(aroundS, conditions);
  }
  return own;
}

/** The fields as text: equal where they say the same. Where nothing was entered, an empty text. */
export function enteredText(visit: VisitRecord): string {
  const { plannedForS, aeroplaneId, conditions } = visit;
  const landings = [...conditionsOfLandings(visit)].sort(([a], [b]) => a - b);
  const isNone = plannedForS === null && aeroplaneId === null && conditions === null;
  if (isNone && landings.length === 0) return '';
  return canonicalText({ plannedForS, aeroplaneId, conditions, landings });
}

/**
 * A visit with the time of its plain fields: `nowS` where they differ from those of `before` (null:
 * a visit that is new), else the time they had.
 */
export function stampEntered(
  visit: VisitRecord,
  before: VisitRecord | null,
  nowS: number,
): VisitRecord {
  const wasS = before ? before.enteredS : null;
  const isSame = enteredText(visit) === (before ? enteredText(before) : '');
  return { ...visit, enteredS: isSame ? wasS : surelyAfter(nowS, wasS) };
}

/** A record edited from `known`: of a visit with the time of its plain fields; settings as they are. */
export function stampEdited(
  record: SettingsRecord | VisitRecord,
  known: SettingsRecord | VisitRecord | null,
): SettingsRecord | VisitRecord {
  if (record.kind !== 'visit') return record;
  return stampEntered(record, known?.kind === 'visit' ? known : null, record.changedS);
}
