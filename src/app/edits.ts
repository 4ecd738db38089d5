/**
 * Edits that come faster than the logbook is written.
 *
 * In: the record that an edit was made from, the one it became, the one that is stored. Out: what is to be
 * shown and written, so that of two edits neither undoes the other.
 */
import type { SettingsRecord, VisitRecord } from '../logbook/entry.ts';
import { mergeVisits } from '../logbook/merge-visits.ts';
import { canonicalText } from '../logbook/plain-json.ts';
import type { AppState } from './app-state.ts';

/** A record that a page edits in place. */
export type Edited = SettingsRecord | VisitRecord;

/** The record as it is on the screen, with edits that are not written yet; null: there is none. */
export function shownIn(
  { settings, visits }: Pick<AppState, 'settings' | 'visits'>,
  { kind, id }: Edited,
): Edited | null {
  return kind === 'settings' ? settings : (visits.find((each) => each.id === id) ?? null);
}

/** The visits, in the order of their ids, with one as it is now. */
export function withVisit(
  visits: readonly VisitRecord[],
  visit: VisitRecord,
): readonly VisitRecord[] {
  const others = visits.filter(({ id }) => id !== visit.id);
  return [...others, visit].sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** An edited visit with what came into the logbook after `from`, of which it was made. */
export function unitedWith(edited: Edited, from: Edited | null, known: Edited | null): Edited {
  if (edited.kind !== 'visit' || known?.kind !== 'visit') return edited;
  const isAsMade = from !== null && canonicalText(from) === canonicalText(known);
  return isAsMade ? edited : mergeVisits(edited, known);
}
