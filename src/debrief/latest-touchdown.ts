/**
 * How far before or past the latest touchdown point did the wheels touch?
 *
 * In: an approach and what was predicted for it. Out: metres past the point, negative before it.
 * The point is LDA less the planned roll: touching down later leaves less than the planned roll.
 */
import type { Approach } from '../events/flight-event.ts';
import { isUndetermined, undetermined, type Measured } from '../result.ts';
import type { ComparedEvent } from './compare-events.ts';

/**
 * Touchdown less the latest touchdown point, metres, with the touchdown's own band.
 *
 * Fails: undetermined without contact, without a touchdown place or without a planned roll.
 */
export function pastLatestTouchdown(approach: Approach, { prediction }: ComparedEvent): Measured {
  const { touchdown, outcome } = approach;
  if (outcome === 'go-around' || outcome === 'low-pass' || outcome === 'overflight') {
    return undetermined('the wheels did not touch');
  }
  if (isUndetermined(touchdown)) return touchdown;
  if (isUndetermined(touchdown.alongM)) return touchdown.alongM;
  if (isUndetermined(prediction)) return prediction;
  if (isUndetermined(prediction.landing)) return prediction.landing;
  const latest = prediction.landing.latestTouchdownAlongM;
  if (isUndetermined(latest)) return latest;
  const { value, low, high } = touchdown.alongM;
  return { value: value - latest, low: low - latest, high: high - latest };
}
