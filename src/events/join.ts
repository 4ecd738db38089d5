/**
 * How was a circuit joined?
 *
 * In: motion, the view, the legs flown from coming within reach of the strip to final. Out: the kind
 * of joining and when the turn on to the joined leg began.
 *
 * Source: definitions in docs/spec/measuring.md; an overhead join passes over the strip above
 * circuit height and comes down on the dead side (UK standard overhead join).
 */
import type { Motion } from '../track/motion.ts';
import { JOIN } from './circuit-tuning.ts';
import type { NamedLeg } from './leg-track.ts';
import type { StripView } from './strip-view.ts';

/** One joining. */
export interface Join {
  readonly strip: string | null;
  readonly direction: string | null;
  readonly kind: 'overhead' | 'crosswind' | 'downwind' | 'base' | 'straight-in';
  readonly timeS: number;
}

/**
 * The joining of one circuit from outside; null where no leg was flown.
 *
 * @param earliest fix from which the aircraft was on its way here.
 */
export function joinOf(
  motion: Motion,
  view: StripView,
  legs: readonly NamedLeg[],
  side: 'left' | 'right',
  earliest = 0,
): Join | null {
  if (legs.length === 0) return null;
  const first = legs[0];
  const timeS = first.stretch.fromS;
  const place = {
    strip: view.stripId,
    direction: view.stripId === null ? null : view.direction.designator,
    timeS,
  };
  if (first.leg === 'final') return { ...place, kind: 'straight-in' };
  if (first.leg === 'base') return { ...place, kind: 'base' };
  if (cameOverhead(motion, view, legs, side, earliest)) {
    const downwind = legs.find(({ leg }) => leg === 'downwind');
    return {
      ...place,
      kind: 'overhead',
      timeS: downwind ? downwind.stretch.fromS : timeS,
    };
  }
  return { ...place, kind: first.leg === 'downwind' ? 'downwind' : 'crosswind' };
}

/** Passed over the strip higher than downwind was flown, not long before it, and then was on the dead side. */
function cameOverhead(
  motion: Motion,
  view: StripView,
  legs: readonly NamedLeg[],
  side: 'left' | 'right',
  earliest: number,
): boolean {
  const downwind = legs.find(({ leg }) => leg === 'downwind')?.stretch;
  if (!downwind || !motion.hasHeight) return false;
  let level = -Infinity;
  for (let i = downwind.settled; i < downwind.to; i++) {
    level = Math.max(level, view.smoothAboveM[i]);
  }
  const dead = side === 'left' ? 1 : -1;
  let wasDead = false;
  for (let i = downwind.from; i >= earliest; i--) {
    if (motion.timeS[downwind.from] - motion.timeS[i] > JOIN.withinS) return false;
    if (view.smoothCrossM[i] * dead > JOIN.overheadM) wasDead = true;
    const along = view.smoothAlongM[i];
    const over =
      Math.abs(view.smoothCrossM[i]) < JOIN.overheadM &&
      along > view.beginsAlongM - JOIN.overheadM &&
      along < view.endsAlongM + JOIN.overheadM;
    if (over && wasDead && view.smoothAboveM[i] - level > JOIN.higherM) return true;
  }
  return false;
}
