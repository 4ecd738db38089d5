/**
 * What length would 95 of 100 of the pilot's short landings need in one direction of a strip, in given
 * conditions?
 *
 * In: the place, with what to predict, landings meant to be short in the same aeroplane, and how far off
 * the wind along the strip may be. Out: the length, too few landings, or why no roll can be expected.
 *
 * A wind that is not as forecast acts as it does on every roll, v2 = 2 a s at the ground speed of the
 * touchdown, and not by a rule that gives a headwind little on purpose. The place of the touchdown is
 * taken to stay: the pilot aims at it.
 */
import type { LandingPair } from '../calibration/landing-pair.ts';
import { lengthNeeded, type LengthNeeded, type TooFewShort } from '../calibration/length-needed.ts';
import type { Prediction } from '../performance/prediction.ts';
import { isUndetermined, undetermined, type Undetermined } from '../result.ts';
import { ENDS_GUESSED } from '../strips/strip.ts';
import { predictAtStrip, type PredictWith } from './predict-at-strip.ts';
import type { StripPlace } from './strip-place.ts';

/**
 * The length needed there.
 *
 * `windSdMps`: standard deviation of the headwind before the flight (forecast-spread.ts); 0 for the
 * wind at the landing.
 *
 * Units: metres from the landing threshold. Fails: undetermined where nobody knows the strip's ends, where
 * the conditions give no expected roll, or no touchdown speed over the ground.
 */
export function lengthAtStrip(
  place: StripPlace,
  predictWith: PredictWith,
  landings: readonly LandingPair[],
  windSdMps: number,
): LengthNeeded | TooFewShort | Undetermined {
  if (place.strip.endsGuessed) return undetermined(ENDS_GUESSED);
  const prediction = predictAtStrip(place, predictWith);
  if (isUndetermined(prediction)) return prediction;
  const { landing } = prediction;
  if (isUndetermined(landing)) return landing;
  if (isUndetermined(landing.expectedRollM)) return landing.expectedRollM;
  const touchdownMps = touchdownGroundSpeed(prediction);
  if (typeof touchdownMps !== 'number') return touchdownMps;
  return lengthNeeded(landings, {
    ldaM: place.direction.ldaM,
    expectedRollM: landing.expectedRollM,
    forecastLogSd: (2 * windSdMps) / touchdownMps,
  });
}

/** Ground speed at touchdown that the expected roll rests on, m/s. */
export function touchdownGroundSpeed({ speeds, day }: Prediction): number | Undetermined {
  if (isUndetermined(speeds)) return speeds;
  if (isUndetermined(day.headwindMps)) return day.headwindMps;
  const groundMps = speeds.touchdownMps / Math.sqrt(day.densityRatio) - day.headwindMps;
  return groundMps > 0
    ? groundMps
    : undetermined('the expected touchdown speed over the ground is not positive');
}
