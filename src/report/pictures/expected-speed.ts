/**
 * What speed was to be expected: on the approach, and along the roll?
 *
 * In: the prediction for the conditions entered, the approach. Out: a guide on final and a curve for
 * the roll, or null where nothing was predicted.
 *
 * The guide is 1.3 times the stall speed at the day's mass (indicated), turned into a true airspeed
 * by the day's density, less the headwind entered; half the gust is added at its upper edge. The
 * curve brakes evenly from the measured touchdown to the end of the expected roll: it shows where
 * the expected roll ends, not how the handbook's pilot braked.
 */
import type { Approach } from '../../events/flight-event.ts';
import type { Prediction } from '../../performance/prediction.ts';
import { isUndetermined, type Undetermined } from '../../result.ts';
import { bandText, hasFigure, NBSP, speedFigure, type PilotUnits } from '../figure-text.ts';

/** Ground speeds to hold on final, m/s. */
export interface SpeedGuide {
  readonly lowMps: number;
  readonly highMps: number;
  readonly label: string;
}

/** A speed along the strip; slots belong together. */
export interface SpeedCurve {
  readonly alongM: Float64Array;
  readonly speedMps: Float64Array;
}

/** The guide on final. */
export function speedGuide(
  prediction: Prediction | Undetermined,
  units: PilotUnits,
): SpeedGuide | null {
  if (isUndetermined(prediction) || isUndetermined(prediction.speeds)) return null;
  const { headwindMps, densityRatio } = prediction.day;
  if (isUndetermined(headwindMps)) return null;
  const { approachMps, gustAdditionMps } = prediction.speeds;
  const over = (indicatedMps: number): number =>
    indicatedMps / Math.sqrt(densityRatio) - headwindMps;
  const lowMps = over(approachMps);
  const highMps = over(approachMps + gustAdditionMps);
  const low = speedFigure(lowMps, units);
  const high = speedFigure(highMps, units);
  if (!hasFigure(low) || !hasFigure(high)) return null;
  const band = bandText(low.value, high.value);
  const ends = band === '' ? low.value : band;
  return { lowMps, highMps, label: `1.3 Vs today, less the wind: ${ends}${NBSP}${low.unit}` };
}

const CURVE_POINTS = 24;

/** Even braking from the measured touchdown over the expected roll. */
export function expectedBraking(
  approach: Approach,
  prediction: Prediction | Undetermined,
): SpeedCurve | null {
  const { touchdown } = approach;
  if (isUndetermined(touchdown) || isUndetermined(prediction)) return null;
  const { alongM, groundSpeedMps } = touchdown;
  if (isUndetermined(alongM) || isUndetermined(groundSpeedMps)) return null;
  const { landing } = prediction;
  if (isUndetermined(landing) || isUndetermined(landing.expectedRollM)) return null;
  const rollM = landing.expectedRollM;
  // Equal steps of speed, not of place, so that the steep end stays smooth.
  const share = Float64Array.from({ length: CURVE_POINTS + 1 }, (_, i) => 1 - i / CURVE_POINTS);
  return {
    alongM: share.map((v) => alongM.value + rollM * (1 - v * v)),
    speedMps: share.map((v) => groundSpeedMps.value * v),
  };
}
