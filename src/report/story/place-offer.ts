/**
 * A landing at a place nobody has kept: which strip do its rolls draw?
 *
 * In: a flight and which of its approaches or take-offs. Out: both ends as positions: the line of
 * the place, from 50 m before the first wheel on it to 50 m after the last; the page asks for the
 * rest (name, width, elevation), which no log can tell.
 */
import type { Flight } from '../../debrief/debrief.ts';
import { valueAt } from '../../events/arrival-data.ts';
import type { Approach, TakeOff } from '../../events/flight-event.ts';
import { isUndetermined, type Measured, type Undetermined } from '../../result.ts';
import { unkeptView } from '../pictures/unkept-line.ts';

/** Ends of the proposed centreline, WGS 84 degrees; A is where the landing began. */
export interface PlaceOffer {
  readonly latDegA: number;
  readonly lonDegA: number;
  readonly latDegB: number;
  readonly lonDegB: number;
}

/** A strip goes on beyond the rolls seen on it: by so much at either end it is offered longer, metres. */
export const BEYOND_WHEELS_M = 50;
/** Wheels so far beside the line were on another one, metres. */
const BESIDE_M = 60;

/** The offer; null at a known strip, and where nothing is known to have been on the ground. */
export function placeOffer(
  { events, motion }: Flight,
  { strip, from, to }: Approach | TakeOff,
): PlaceOffer | null {
  if (strip !== null) return null;
  const view = unkeptView(events, { from, to });
  if (!view) return null;
  const { frame, smoothAlongM, smoothCrossM } = view;
  const alongM = onGroundS(events)
    .filter((timeS) => Math.abs(valueAt(motion.timeS, smoothCrossM, timeS)) < BESIDE_M)
    .map((timeS) => valueAt(motion.timeS, smoothAlongM, timeS))
    .filter((each) => each > frame.nearEndAlongM && each < frame.farEndAlongM);
  if (alongM.length === 0) return null;
  const a = frame.pointAt(Math.min(...alongM) - BEYOND_WHEELS_M, 0);
  const b = frame.pointAt(Math.max(...alongM) + BEYOND_WHEELS_M, 0);
  return { latDegA: a.latDeg, lonDegA: a.lonDeg, latDegB: b.latDeg, lonDegB: b.lonDeg };
}

/** First and last moments at which wheels were on the ground at places nobody knows, bands and all. */
function onGroundS({ approaches, takeOffs }: Flight['events']): number[] {
  const here = ({ strip }: Approach | TakeOff): boolean => strip === null;
  const moments = [
    ...approaches.filter(here).flatMap(({ touchdown, rollEnd }) => [touchdown, rollEnd]),
    ...takeOffs.filter(here).flatMap(({ brakeRelease, liftOff }) => [brakeRelease, liftOff]),
  ];
  return moments.flatMap((moment: Undetermined | { readonly timeS: Measured }) => {
    if (isUndetermined(moment) || isUndetermined(moment.timeS)) return [];
    return [moment.timeS.low, moment.timeS.high];
  });
}
