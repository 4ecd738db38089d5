/**
 * What wind along the strip was each flight planned with, and what was met?
 *
 * In: debriefed flights with the conditions entered for each, and the conditions that they were planned
 * with, by file name. Out: a pair of headwinds for every flight that landed at a kept strip and was
 * planned with another wind than was entered after it.
 */
import type { ForecastPair } from '../calibration/forecast-spread.ts';
import { windComponents } from '../atmosphere/wind.ts';
import type { Approach } from '../events/flight-event.ts';
import type { StripView } from '../events/strip-view.ts';
import { magneticVariationDeg } from '../geo/magnetic.ts';
import { solarDay } from '../geo/solar-day.ts';
import { trueWindFrom } from '../performance/predict.ts';
import { isUndetermined } from '../result.ts';
import { MPS_PER_KNOT } from '../units/convert.ts';
import type { ConditionsBook, EnteredWind } from '../weather/conditions.ts';
import { conditionsFor } from '../weather/decode-conditions.ts';
import { baseName, type Flight } from './debrief.ts';

/** The pair of one flight, and where it was met. */
export interface FlownForecast extends ForecastPair {
  readonly file: string;
  /** ISO day at the strip. */
  readonly day: string;
  readonly strip: string;
  readonly direction: string;
}

/** Pairs in the order of the flights; the first landing at a kept strip stands for a flight. Never fails. */
export function forecastPairs(
  flights: readonly Flight[],
  planned: ConditionsBook,
): FlownForecast[] {
  return flights.flatMap((flight): FlownForecast[] => {
    const { source, conditions, events, track } = flight;
    const forecast = conditionsFor(planned, baseName(source.file))?.wind ?? null;
    if (forecast === null || isUndetermined(conditions) || conditions.wind === null) return [];
    // A wind that was taken over from the plan is no second observation of it.
    if (isSameWind(forecast, conditions.wind)) return [];
    const landing = events.approaches.find((each) => each.strip !== null && isLanding(each));
    const view = events.views.find(
      (each) => each.stripId === landing?.strip && each.direction.designator === landing.direction,
    );
    if (!view || view.stripId === null) return [];
    const timeS = touchdownTime(landing) ?? track.timeS[0];
    const forecastMps = headwindAt(view, forecast, timeS);
    const actualMps = headwindAt(view, conditions.wind, timeS);
    if (forecastMps === null || actualMps === null) return [];
    return [
      {
        file: source.file,
        day: solarDay(timeS, view.strip.lonDeg[0]),
        strip: view.stripId,
        direction: view.direction.designator,
        forecastMps,
        actualMps,
      },
    ];
  });
}

/** Metres a second, positive a headwind; null where the wind has no direction along this strip. */
function headwindAt({ strip, frame }: StripView, wind: EnteredWind, timeS: number): number | null {
  const elevationM = frame.elevationMslM(0);
  const heightM = Number.isNaN(elevationM) ? 0 : elevationM;
  const variation = magneticVariationDeg(strip.latDeg[0], strip.lonDeg[0], heightM, timeS);
  const fromTrueDeg = trueWindFrom(wind, isUndetermined(variation) ? null : variation);
  if (isUndetermined(fromTrueDeg)) return null;
  return windComponents(fromTrueDeg, wind.speedKt * MPS_PER_KNOT, frame.trueBearingDeg).headwindMps;
}

function isSameWind(a: EnteredWind, b: EnteredWind): boolean {
  return (
    a.fromDeg === b.fromDeg &&
    a.reference === b.reference &&
    a.speedKt === b.speedKt &&
    a.gustKt === b.gustKt
  );
}

/** When the wheels first touched, UTC seconds; null where that is not known. */
function touchdownTime(landing: Approach | undefined): number | null {
  if (!landing || isUndetermined(landing.touchdown)) return null;
  const { timeS } = landing.touchdown;
  return isUndetermined(timeS) ? null : timeS.value;
}

function isLanding({ outcome }: Approach): boolean {
  return outcome === 'full-stop' || outcome === 'touch-and-go' || outcome === 'stop-and-go';
}
