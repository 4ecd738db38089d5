/**
 * Whose lessons is a log measured by?
 *
 * In: what the touchdowns put by hand in many logs teach. Out: the lessons for one log. A log that teaches
 * is not taught: no two logs teach each other, whatever their order.
 */
import { SAME_LANDING_S } from './landing-limits.ts';
import type { Lesson } from '../events/manner.ts';
import type { Aeroplane } from '../performance/aeroplane.ts';
import { isUndetermined, type Undetermined } from '../result.ts';

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
  readonly lessons: readonly Lesson[];
}

/** What the flights of one log teach; nothing where nobody knows the aeroplane. */
export function lessonsOfLog(logId: string, flights: readonly Flown[]): LoggedLesson[] {
  return flights.flatMap(({ aeroplane, lessons }) =>
    isUndetermined(aeroplane)
      ? []
      : lessons.map((lesson) => ({ logId, aeroplane: aeroplane.id, lesson })),
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
    .map(({ lesson }) => lesson)
    .filter((lesson, k, all) => all.findIndex((other) => isSame(lesson, other)) === k);
}

/** One landing recorded twice teaches once. */
function isSame(one: Lesson, other: Lesson): boolean {
  return Math.abs(one.timeS - other.timeS) <= SAME_LANDING_S;
}
