/**
 * A kept visit told from what was frozen, and the strips as they lay on its day.
 *
 * In: the state and the visit. Out: its story, nothing in it worked out again.
 */
import { stripPlaceOf } from '../../debrief/strip-place.ts';
import { stripBookAt } from '../../logbook/debrief-context.ts';
import type { VisitRecord } from '../../logbook/entry.ts';
import { readFrozen, type FrozenDocument } from '../../logbook/frozen-prediction.ts';
import { visitStory, type VisitStory, type VisitUse } from '../../report/story/visit-story.ts';
import { EMPTY_STRIP_BOOK, type StripBook } from '../../strips/strip.ts';
import type { AppState } from '../app-state.ts';
import { pilotUnits } from '../logged-flights.ts';

/** A kept visit told from its frozen predictions, as they stood; null where none can be read. */
export function storyOfKept(state: AppState, visit: VisitRecord): VisitStory | null {
  const book = bookOf(state, visit.plannedForS ?? visit.changedS);
  const read = visit.predictions.flatMap((frozen) => {
    const document = readFrozen(frozen);
    return document ? [{ frozen, document }] : [];
  });
  if (read.length === 0) return null;
  const frozenUse = (use: FrozenDocument['uses'][number]): VisitUse | null => {
    const found = read.findLast(({ document }) => document.uses.includes(use));
    const strip = found && book.strips.find(({ id }) => id === found.frozen.stripId);
    const place = strip ? stripPlaceOf(strip, found.frozen.designator) : null;
    return place && found ? { place, prediction: found.document.prediction } : null;
  };
  const last = read[read.length - 1];
  const landing = frozenUse('landing');
  const takeOff = frozenUse('take-off');
  // Its strip went: there is nothing to hold the distances against.
  if (!landing && !takeOff) return null;
  return visitStory({
    landing,
    takeOff,
    own: last.document.own,
    book,
    conditions: last.frozen.conditions,
    units: pilotUnits(state),
  });
}

/** The strips as they lie at a time; none where they do not go together. */
export function bookOf({ strips }: AppState, timeS: number): StripBook {
  const book = stripBookAt(strips, Number.isFinite(timeS) ? timeS : 0);
  return book.ok ? book.value : EMPTY_STRIP_BOOK;
}
