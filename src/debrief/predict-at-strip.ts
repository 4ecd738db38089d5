/**
 * What will this aeroplane need in one direction of a kept strip?
 *
 * In: a strip, its direction, the frame of both, the aeroplane, the conditions, the factor set, the
 * time. Out: the prediction, with the magnetic variation of the place and the time. Asked by the
 * debrief for the conditions at a landing, and before a flight for a visit.
 */
import { magneticVariationDeg } from '../geo/magnetic.ts';
import type { EdgeRule } from '../numeric/interpolate.ts';
import type { Aeroplane } from '../performance/aeroplane.ts';
import type { FactorSet } from '../performance/factor-sets/factor-set.ts';
import { predict } from '../performance/predict.ts';
import type { Prediction } from '../performance/prediction.ts';
import { isUndetermined, type Undetermined } from '../result.ts';
import type { DirectionUse } from '../strips/strip.ts';
import type { Conditions } from '../weather/conditions.ts';
import type { StripPlace } from './strip-place.ts';

/** With what a prediction is made. */
export interface PredictWith {
  readonly aeroplane: Aeroplane;
  readonly conditions: Conditions;
  readonly factorSet: FactorSet;
  /** UTC seconds: for the magnetic variation. */
  readonly timeS: number;
  /** Outside the handbook's table: refuse (default), or read it at its nearest edge. */
  readonly edge?: EdgeRule;
}

/**
 * Predicts landing and take-off in one direction, as the strip lists it or for any use.
 *
 * Fails: as `predict` does.
 */
export function predictAtStrip(
  { strip, direction, frame }: StripPlace,
  { aeroplane, conditions, factorSet, timeS, edge = 'refuse' }: PredictWith,
  use: DirectionUse = direction.use,
): Prediction | Undetermined {
  const elevationMslM = frame.elevationMslM(0);
  const variation = magneticVariationDeg(
    strip.latDeg[0],
    strip.lonDeg[0],
    Number.isNaN(elevationMslM) ? 0 : elevationMslM,
    timeS,
  );
  return predict({
    aeroplane,
    conditions,
    factorSet,
    edge,
    variationDeg: isUndetermined(variation) ? null : variation,
    direction: {
      use,
      trueBearingDeg: frame.trueBearingDeg,
      elevationMslM: Number.isNaN(elevationMslM) ? null : elevationMslM,
      slopeRatio: Number.isNaN(frame.slopeRatio) ? null : frame.slopeRatio,
      surface: strip.surface,
      ldaM: direction.ldaM,
      toraM: direction.toraM,
      todaM: direction.todaM,
      endsGuessed: strip.endsGuessed,
    },
  });
}
