/**
 * What do touchdowns put by hand teach, which logs are measured by it, and which landings were?
 *
 * In: events as measured, what was entered about them. Out: a lesson for each known touchdown; of the
 * lessons of many logs those for one; events whose notes say how many landings helped to measure them.
 */
import type { FlightEvents } from '../events/detect-events.ts';
import { lessonOf, type Lesson } from '../events/manner.ts';
import type { Aeroplane } from '../performance/aeroplane.ts';
import { isUndetermined, type Undetermined } from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import { viewOf, type ByHand } from './hand-corrections.ts';

/** A lesson, and where it is from. */
export interface LoggedLesson {
  readonly logId: string;
  /** Id of the aeroplane flown. */
  readonly aeroplane: string;
  readonly lesson: Lesson;
}

/** A log, as far as it matters for who teaches whom. */
export interface TaughtLog {
  readonly logId: string;
  readonly aeroplane: Pick<Aeroplane, 'id'> | Undetermined;
  /** Whether a touchdown of its own was put by hand. */
  readonly teaches: boolean;
}

/** A flight, as far as it may teach. */
interface Flown {
  readonly aeroplane: Pick<Aeroplane, 'id'> | Undetermined;
  readonly byHand: readonly ByHand[];
  readonly lessons: readonly Lesson[];
}

/** The lessons of one flight, measured by the common manner. */
export function lessonsIn(events: FlightEvents, byHand: readonly ByHand[]): readonly Lesson[] {
  return events.approaches.flatMap((approach, k) => {
    const known = byHand[k].marks?.touchdown;
    const view = viewOf(events, approach);
    if (!known || !approach.posterior || !view) return [];
    return lessonOf(approach.posterior, known.alongM, placeSdM(view.strip)) ?? [];
  });
}

/** What the flights of one log teach; nothing where nobody knows the aeroplane. */
export function lessonsOfLog(logId: string, flights: readonly Flown[]): LoggedLesson[] {
  return flights.flatMap(({ aeroplane, lessons }) =>
    isUndetermined(aeroplane)
      ? []
      : lessons.map((lesson) => ({ logId, aeroplane: aeroplane.id, lesson })),
  );
}

/** How many touchdowns of these flights were put by hand. */
export function touchdownsPut(flights: readonly Pick<Flown, 'byHand'>[]): number {
  return flights.reduce(
    (sum, { byHand }) => sum + byHand.filter(({ marks }) => marks?.touchdown).length,
    0,
  );
}

/**
 * The lessons that a log is measured by: those of the other logs of its aeroplane. None where it teaches
 * itself, so that no two logs teach each other, or where nobody knows the aeroplane.
 */
export function lessonsFor(lessons: readonly LoggedLesson[], log: TaughtLog): readonly Lesson[] {
  const { logId, aeroplane, teaches } = log;
  if (teaches || isUndetermined(aeroplane)) return [];
  return lessons
    .filter((each) => each.logId !== logId && each.aeroplane === aeroplane.id)
    .map(({ lesson }) => lesson);
}

/** The events, each touchdown with a note of how many known ones helped to measure it. */
export function taughtBy(lessons: readonly Lesson[], events: FlightEvents): FlightEvents {
  const n = lessons.length;
  if (n === 0) return events;
  const landings = n === 1 ? 'one landing' : `${n} landings`;
  const note = `measured with how ${landings} in this aeroplane went whose touchdown was put by hand`;
  const approaches = events.approaches.map((approach) =>
    approach.posterior ? { ...approach, notes: [...approach.notes, note] } : approach,
  );
  return { ...events, approaches };
}
