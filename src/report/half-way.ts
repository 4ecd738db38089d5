/**
 * Where is half of the take-off run available, and had the aeroplane left the ground by then?
 *
 * In: a take-off, the strip as seen in its direction. Out: a place along it, metres; yes or no.
 */
import type { TakeOff } from '../events/flight-event.ts';
import type { StripView } from '../events/strip-view.ts';
import { isUndetermined } from '../result.ts';

/** Where half of the TORA lies, metres along. */
export function halfwayAlongM({ frame, direction }: StripView): number {
  return frame.nearEndAlongM + direction.toraM / 2;
}

/**
 * True where the lift-off as it is shown lies before a place along the strip, metres. The share of the
 * lift-off speed is still measured there, because the band of the lift-off reaches past it; told as a
 * share of a run it would be read as a check that this run passed.
 */
export function isOffBy({ liftOff, halfway }: TakeOff, placeM: number | null): boolean {
  if (placeM === null || isUndetermined(halfway) || isUndetermined(liftOff)) return false;
  if (isUndetermined(halfway.shareOfLiftOff)) return false;
  return !isUndetermined(liftOff.alongM) && liftOff.alongM.value < placeM;
}
