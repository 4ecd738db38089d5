/**
 * What length would 95 of 100 of the pilot's short landings need in one direction of a strip, in given
 * conditions?
 *
 * In: the place, with what to predict, landings meant to be short in the same aeroplane, and how far off
 * the wind along the strip may be. Out: the length, too few landings, or why no roll can be expected.
 */
import type { LandingPair } from '../calibration/landing-pair.ts';
import { lengthNeeded, type LengthNeeded, type TooFewShort } from '../calibration/length-needed.ts';
import { withMoreHeadwind } from '../performance/sensitivity.ts';
import { isUndetermined, type Undetermined } from '../result.ts';
import { MPS_PER_KNOT } from '../units/convert.ts';
import { predictAtStrip, type PredictWith } from './predict-at-strip.ts';
import type { StripPlace } from './strip-place.ts';
import type { Figure } from '../performance/prediction.ts';

/**
 * The length needed there.
 *
 * `windSdMps`: standard deviation of the headwind before the flight (forecast-spread.ts); 0 for the
 * wind at the landing.
 *
 * Units: metres from the landing threshold. Fails: undetermined where the conditions give no expected
 * roll, also with so much less headwind.
 */
export function lengthAtStrip(
  place: StripPlace,
  predictWith: PredictWith,
  landings: readonly LandingPair[],
  windSdMps: number,
): LengthNeeded | TooFewShort | Undetermined {
  const expectedRollM = expectedRoll(place, predictWith);
  if (isUndetermined(expectedRollM)) return expectedRollM;
  const ldaM = place.direction.ldaM;
  if (windSdMps === 0) return lengthNeeded(landings, { ldaM, expectedRollM, forecastLogSd: 0 });
  const conditions = withMoreHeadwind(
    predictWith.conditions,
    place.frame.trueBearingDeg,
    -windSdMps / MPS_PER_KNOT,
  );
  const lessWindRollM = expectedRoll(place, { ...predictWith, conditions });
  if (isUndetermined(lessWindRollM)) return lessWindRollM;
  const forecastLogSd = Math.abs(Math.log(lessWindRollM / expectedRollM));
  return lengthNeeded(landings, { ldaM, expectedRollM, forecastLogSd });
}

function expectedRoll(place: StripPlace, predictWith: PredictWith): Figure {
  const prediction = predictAtStrip(place, predictWith);
  if (isUndetermined(prediction)) return prediction;
  return isUndetermined(prediction.landing) ? prediction.landing : prediction.landing.expectedRollM;
}
