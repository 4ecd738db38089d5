/**
 * What do touchdowns put by hand teach, and which landings were measured by it?
 *
 * In: events as measured, what was entered about them. Out: a lesson for each known touchdown; events
 * whose notes say how many landings helped to measure them. Who teaches whom: who-teaches.ts.
 */
import type { FlightEvents } from '../events/detect-events.ts';
import { lessonOf, type Lesson } from '../events/manner.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Conditions } from '../weather/conditions.ts';
import { knowsEnds } from '../events/strip-view.ts';
import { viewOfEvent } from '../events/view-of-event.ts';
import type { ByHand } from './hand-corrections.ts';

/**
 * The lessons of one flight, measured by the common manner.
 *
 * @param effort as entered for the flight; what was entered for a landing goes before it.
 */
export function lessonsIn(
  events: FlightEvents,
  byHand: readonly ByHand[],
  effort: Conditions['effort'],
): readonly Lesson[] {
  return events.approaches.flatMap((approach, k) => {
    const { marks } = byHand[k];
    const known = marks?.touchdown;
    const view = viewOfEvent(events, approach);
    // Where the threshold is a guess, nobody has paced from it.
    if (!known || !approach.posterior || !view || !knowsEnds(view)) return [];
    const explained = lessonOf(approach.posterior, known.alongM, placeSdM(view.strip));
    return explained ? [{ ...explained, timeS: known.timeS, effort: marks.effort ?? effort }] : [];
  });
}

/** How many touchdowns of these flights were put by hand. */
export function touchdownsPut(flights: readonly { readonly byHand: readonly ByHand[] }[]): number {
  return flights.reduce(
    (sum, { byHand }) => sum + byHand.filter(({ marks }) => marks?.touchdown).length,
    0,
  );
}

/** The events, each touchdown with a note of how many known ones helped to measure it. */
export function taughtBy(lessons: readonly Lesson[], events: FlightEvents): FlightEvents {
  const n = lessons.length;
  if (n === 0) return events;
  const touchdowns = n === 1 ? 'one touchdown' : `${n} touchdowns`;
  const note = `${touchdowns} put by hand in other logs of this aeroplane helped to measure this one`;
  const approaches = events.approaches.map((approach) =>
    approach.posterior ? { ...approach, notes: [...approach.notes, note] } : approach,
  );
  return { ...events, approaches };
}
