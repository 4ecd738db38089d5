/**
 * What length would 95 of 100 of the pilot's short landings need on a visit that is planned?
 *
 * In: the state, the place, with what it is predicted. Out: words, or why there are none. The wind is a
 * forecast: how far the pilot's forecasts were off along the strip, by visits that were kept and then
 * flown, is in the band; a stated spread stands in until there are five.
 */
import { forecastSpread, type ForecastPair } from '../../calibration/forecast-spread.ts';
import { lengthAtStrip } from '../../debrief/length-at-strip.ts';
import { predictAtStrip, type PredictWith } from '../../debrief/predict-at-strip.ts';
import { stripPlaceOf, type StripPlace } from '../../debrief/strip-place.ts';
import type { VisitRecord } from '../../logbook/entry.ts';
import { readFrozen } from '../../logbook/frozen-prediction.ts';
import {
  LENGTH_CAUTION,
  lengthRestsOn,
  lengthSentence,
  lengthTooFew,
} from '../../report/factor-length.ts';
import { shortPairs } from '../../report/logged-lengths.ts';
import { isUndetermined } from '../../result.ts';
import type { AppState } from '../app-state.ts';
import { loggedFlights, pilotUnits } from '../logged-flights.ts';
import { bookOf } from './kept-visit.ts';

/** The length in words. */
export type VisitLength =
  | {
      readonly kind: 'length';
      readonly sentence: string;
      readonly restsOn: string;
      readonly caution: string;
      /** True where the LDA is shorter. */
      readonly isShort: boolean;
    }
  | { readonly kind: 'none'; readonly reason: string };

/** See the file's head. */
export function visitLength(
  state: AppState,
  place: StripPlace,
  predictWith: PredictWith,
): VisitLength {
  const flights = loggedFlights(state);
  const { aeroplane, factorSet } = predictWith;
  const pairs = shortPairs(flights, aeroplane.id, factorSet.id);
  const spread = forecastSpread(forecastPairs(state, predictWith));
  const needed = lengthAtStrip(place, predictWith, pairs, spread.sdMps);
  if (isUndetermined(needed)) return { kind: 'none', reason: needed.undetermined };
  if (needed.kind === 'too-few') {
    const others = shortPairs(flights, aeroplane.id).length - pairs.length;
    return { kind: 'none', reason: `${lengthTooFew(needed)}${otherSetWords(others)}` };
  }
  return {
    kind: 'length',
    sentence: lengthSentence(needed, pilotUnits(state)),
    restsOn: lengthRestsOn(needed),
    caution: LENGTH_CAUTION,
    isShort: needed.leftM.value < 0,
  };
}

/** Landings compared with another factor set say how they went by that one. */
function otherSetWords(others: number): string {
  if (others === 0) return '';
  const were = others === 1 ? 'landing was' : 'landings were';
  return `; ${others} more short ${were} compared with another factor set`;
}

/** Headwinds as forecast and as entered after the flight, of visits that were joined to one. */
export function forecastPairs(state: AppState, predictWith: PredictWith): ForecastPair[] {
  return state.visits.flatMap((visit) => {
    const pair = pairOf(state, visit, predictWith);
    return pair === null ? [] : [pair];
  });
}

function pairOf(
  state: AppState,
  visit: VisitRecord,
  predictWith: PredictWith,
): ForecastPair | null {
  const frozen = visit.predictions.at(-1);
  const flown = visit.conditions;
  if (visit.logId === null || !frozen || !flown || flown.wind === null) return null;
  // A wind that was taken over from the plan is no second observation of it.
  if (JSON.stringify(flown.wind) === JSON.stringify(frozen.conditions.wind)) return null;
  const timeS = visit.plannedForS ?? visit.changedS;
  const strip = bookOf(state, timeS).strips.find(({ id }) => id === frozen.stripId);
  const place = strip ? stripPlaceOf(strip, frozen.designator) : null;
  const document = readFrozen(frozen);
  if (!place || !document) return null;
  const forecastMps = document.prediction.day.headwindMps;
  const actual = predictAtStrip(place, {
    ...predictWith,
    conditions: { ...predictWith.conditions, wind: flown.wind },
    timeS,
  });
  if (isUndetermined(actual) || isUndetermined(forecastMps)) return null;
  const actualMps = actual.day.headwindMps;
  return isUndetermined(actualMps) ? null : { forecastMps, actualMps };
}
