/**
 * A strip whose ends are a guess: what has a flight shown of them?
 *
 * Ends taken from where wheels were seen lie within the strip: others touched before and stopped
 * beyond them. In: the places of one flight's touchdowns and stops at strips with such ends. Out: a
 * note for each strip, with the furthest that wheels were seen beyond its ends as drawn, metres.
 */
import { isUndetermined, problem, type Measured, type Problem } from '../result.ts';
import type { Approach } from './flight-event.ts';
import type { StripView } from './strip-view.ts';

/** Nearer than this to an end as drawn wheels were at it, metres: what a place may be off by. */
const AT_END_M = 15;

/** Notes, in the order of the landings. Never fails. */
export function guessedEndsNotes(
  landings: readonly { readonly approach: Approach; readonly view: StripView }[],
): Problem[] {
  const beyond = new Map<string, Beyond>();
  for (const { approach, view } of landings) {
    if (view.stripId === null || !view.strip.endsGuessed) continue;
    const { touchdown, rollEnd } = approach;
    const seen = beyond.get(view.stripId) ?? { beforeM: new Map<string, number>() };
    beyond.set(view.stripId, seen);
    const { nearEndAlongM, farEndAlongM } = view.frame;
    const { directions } = view.strip;
    const near = view.direction.designator;
    const far = directions.find(({ from }) => from !== view.direction.from)?.designator ?? null;
    note(seen, near, nearEndAlongM - placeOf(touchdown));
    note(seen, far, placeOf(rollEnd) - farEndAlongM);
  }
  return [...beyond].map(([stripId, { beforeM }]) => {
    const ends = [...beforeM].map(([end, metres]) => `${metres.toFixed(0)} m before end ${end}`);
    const found = ends.length > 0 ? `; wheels were seen ${ends.join(' and ')} as drawn` : '';
    return problem(
      'ends-guessed',
      'note',
      `strip ${stripId}`,
      `its ends are guessed from where wheels were seen${found}; expected ends that somebody knows, to tell what counts from them`,
    );
  });
}

/** By the designator of an end: how far beyond it wheels were seen, metres. */
interface Beyond {
  readonly beforeM: Map<string, number>;
}

function note({ beforeM }: Beyond, end: string | null, metres: number): void {
  if (end === null || !(metres > AT_END_M)) return;
  beforeM.set(end, Math.max(metres, beforeM.get(end) ?? 0));
}

/** alongM, NaN where there is none. */
function placeOf(place: Approach['touchdown'] | Approach['rollEnd']): number {
  if (isUndetermined(place)) return NaN;
  const alongM: Measured = place.alongM;
  return isUndetermined(alongM) ? NaN : alongM.value;
}
