/**
 * What will be needed in each direction of a strip, and what would a small change do to it?
 *
 * In: a strip, a direction or none for all, and with what to predict. Out: one plan a direction, in
 * the order in which the strip lists them.
 */
import type { Prediction } from '../performance/prediction.ts';
import { sensitivity, type SensitivityChange } from '../performance/sensitivity.ts';
import type { Undetermined } from '../result.ts';
import type { Strip } from '../strips/strip.ts';
import { predictAtStrip, type PredictWith } from './predict-at-strip.ts';
import { stripPlaceOf, type StripPlace } from './strip-place.ts';

/** One direction, predicted. */
export interface DirectionPlan {
  readonly place: StripPlace;
  readonly prediction: Prediction | Undetermined;
  readonly changes: readonly SensitivityChange[];
}

/** Plans of one direction, or of all where `designator` is null; none where the strip lists no such direction. */
export function planDirections(
  strip: Strip,
  designator: string | null,
  predictWith: PredictWith,
): DirectionPlan[] {
  return strip.directions
    .filter((direction) => designator === null || direction.designator === designator)
    .flatMap((direction) => {
      const place = stripPlaceOf(strip, direction.designator);
      return place ? [planOf(place, predictWith)] : [];
    });
}

function planOf(place: StripPlace, predictWith: PredictWith): DirectionPlan {
  const bearing = place.frame.trueBearingDeg;
  const { conditions } = predictWith;
  const predict = (changed: typeof conditions): Prediction | Undetermined =>
    predictAtStrip(place, { ...predictWith, conditions: changed });
  return {
    place,
    prediction: predict(conditions),
    changes: sensitivity(conditions, { landing: bearing, takeOff: bearing }, (into, out) => ({
      landing: predict(into),
      takeOff: predict(out),
    })),
  };
}
