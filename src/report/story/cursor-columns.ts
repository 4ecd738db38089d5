/**
 * What the plumb line reads: time, place and speed along the flight, as seen from one strip.
 *
 * In: a flight and the view of the chosen event. Out: columns by time, and the stretch in which a
 * place along the strip says when it was.
 */
import type { Flight } from '../../debrief/debrief.ts';
import type { StripView } from '../../events/strip-view.ts';
import { crossingAt } from '../../numeric/crossing.ts';

/** Slots belong together. `alongM` is NaN throughout where no strip is known. */
export interface CursorColumns {
  readonly timeS: Float64Array;
  readonly alongM: Float64Array;
  readonly speedMps: Float64Array;
  /** The stretch of the chosen event, half open, in which alongM rises with time. */
  readonly from: number;
  readonly to: number;
}

/** Columns for one event: `from` and `to` are its fixes, half open. */
export function cursorColumns(
  { motion }: Flight,
  view: StripView | null,
  from: number,
  to: number,
): CursorColumns {
  return {
    timeS: motion.timeS.slice(),
    alongM: view ? view.smoothAlongM.slice() : new Float64Array(motion.length).fill(NaN),
    speedMps: motion.speedMps.slice(),
    from,
    to,
  };
}

/** The time at a place of the chosen stretch, between fixes; its nearest end where it lies outside. */
export function timeAtPlace({ timeS, alongM, from, to }: CursorColumns, atM: number): number {
  for (let i = from + 1; i < to; i++) {
    const before = alongM[i - 1];
    const here = alongM[i];
    if (!(before < here)) continue;
    const passedS = crossingAt(atM, [timeS[i - 1], before], [timeS[i], here]);
    if (passedS !== null) return passedS;
  }
  return atM < alongM[from] ? timeS[from] : timeS[Math.max(from, to - 1)];
}

/** Place and speed at a time, between fixes; NaN outside the log. */
export function readAtTime(
  { timeS, alongM, speedMps }: CursorColumns,
  atS: number,
): { readonly alongM: number; readonly speedMps: number } {
  const last = timeS.length - 1;
  if (!(atS >= timeS[0] && atS <= timeS[last])) return { alongM: NaN, speedMps: NaN };
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (timeS[middle] <= atS) low = middle;
    else high = middle;
  }
  const share = high === low ? 0 : (atS - timeS[low]) / (timeS[high] - timeS[low]);
  const between = (column: Float64Array): number =>
    column[low] + share * (column[high] - column[low]);
  return { alongM: between(alongM), speedMps: between(speedMps) };
}
