/**
 * A landing at a place nobody has kept: which strip does its roll draw?
 *
 * In: a flight and which of its approaches or take-offs. Out: both ends as positions, taken from the roll
 * and 50 m beyond; the page asks for the rest (name, width, elevation), which no log can tell.
 */
import type { Flight } from '../../debrief/debrief.ts';
import type { Approach, TakeOff } from '../../events/flight-event.ts';
import { PLACE } from '../../events/place-tuning.ts';

/** Ends of the proposed centreline, WGS 84 degrees; A is where the landing began. */
export interface PlaceOffer {
  readonly latDegA: number;
  readonly lonDegA: number;
  readonly latDegB: number;
  readonly lonDegB: number;
}

/** A strip goes on beyond the rolls seen on it: by so much at either end it is offered longer, metres. */
const MARGIN_M = 50;

/** The offer; null at a known strip. */
export function placeOffer(
  { events }: Flight,
  { strip, from, to }: Approach | TakeOff,
): PlaceOffer | null {
  if (strip !== null) return null;
  const unknown = events.views.filter(({ stripId, direction }) => stripId === null && direction);
  let best: { readonly view: (typeof unknown)[number]; readonly awayM: number } | null = null;
  for (const view of unknown) {
    let awayM = Infinity;
    let forward = 0;
    for (let i = from; i < to; i++) {
      if (Math.abs(view.smoothCrossM[i]) < awayM) awayM = Math.abs(view.smoothCrossM[i]);
      forward += view.forwardMps[i];
    }
    if (forward > 0 && (best === null || awayM < best.awayM)) best = { view, awayM };
  }
  if (!best) return null;
  const { frame } = best.view;
  const inwardsM = PLACE.beyondM - MARGIN_M;
  const a = frame.pointAt(frame.nearEndAlongM + inwardsM, 0);
  const b = frame.pointAt(frame.farEndAlongM - inwardsM, 0);
  return { latDegA: a.latDeg, lonDegA: a.lonDeg, latDegB: b.latDeg, lonDegB: b.lonDeg };
}
