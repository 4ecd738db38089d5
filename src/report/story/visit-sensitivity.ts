/**
 * How much would the plan change with a little less wind, wet grass, a little more mass?
 *
 * In: the prediction as made, and a way to make it for other conditions. Out: rows with the change of
 * the planned whole distance, landing and take-off. Each row is a prediction of its own: nothing is
 * scaled.
 */
import type { Figure, Prediction } from '../../performance/prediction.ts';
import { isUndetermined, type Undetermined } from '../../result.ts';
import type { Conditions, EnteredWind } from '../../weather/conditions.ts';
import { figureValue, lengthFigure, type PilotUnits } from '../figure-text.ts';

/** Predictions of one visit; null: not planned. */
export interface BothPredictions {
  readonly landing: Prediction | Undetermined | null;
  readonly takeOff: Prediction | Undetermined | null;
}

/** The change of a planned distance, or why there is none. */
export interface PlanChange {
  readonly text: string;
  readonly isReason: boolean;
}

/** One row; null: not planned. */
export interface SensitivityRow {
  readonly label: string;
  readonly landing: PlanChange | null;
  readonly takeOff: PlanChange | null;
}

/** Where the strip points in each use, degrees true; null: not planned. */
export interface Bearings {
  readonly landing: number | null;
  readonly takeOff: number | null;
}

/** The rows, those without any change left out. */
export function visitSensitivity(
  conditions: Conditions,
  bearings: Bearings,
  predictFor: (landing: Conditions, takeOff: Conditions) => BothPredictions,
  units: PilotUnits,
): SensitivityRow[] {
  const before = predictFor(conditions, conditions);
  const lessWind = (kt: number) => (bearing: number | null) => ({
    ...conditions,
    wind: lessHeadwind(conditions.wind, bearing, kt),
  });
  const wet = (): Conditions => ({ ...conditions, surface: 'grass-wet' });
  const heavier = (): Conditions => ({
    ...conditions,
    massKg: plus(conditions.massKg, 10),
    takeOffMassKg: plus(conditions.takeOffMassKg, 10),
  });
  const tried: readonly (readonly [string, (bearing: number | null) => Conditions])[] = [
    ['one knot less headwind', lessWind(1)],
    ['five knots less headwind', lessWind(5)],
    ...(conditions.surface === 'grass-dry' ? [['the grass wet', wet] as const] : []),
    ['ten kilograms more', heavier],
  ];
  return tried
    .map(([label, change]) => {
      const after = predictFor(change(bearings.landing), change(bearings.takeOff));
      return {
        label,
        landing: changeText(plannedIn(before.landing), plannedIn(after.landing), units),
        takeOff: changeText(plannedOut(before.takeOff), plannedOut(after.takeOff), units),
      };
    })
    .filter(({ landing, takeOff }) => landing !== null || takeOff !== null);
}

/**
 * The wind with so many knots less along the strip, the same across; as it was where it has no
 * direction but a speed. The bearing is true and the wind may be magnetic: over a few knots the
 * variation between them does not show.
 */
function lessHeadwind(
  wind: EnteredWind | null,
  bearingDeg: number | null,
  kt: number,
): EnteredWind | null {
  if (!wind || bearingDeg === null || (wind.fromDeg === null && wind.speedKt > 0)) return wind;
  const off = (((wind.fromDeg ?? bearingDeg) - bearingDeg) * Math.PI) / 180;
  const along = wind.speedKt * Math.cos(off) - kt;
  const across = wind.speedKt * Math.sin(off);
  const fromDeg = (bearingDeg + (Math.atan2(across, along) * 180) / Math.PI + 720) % 360;
  // The gust stays as much over the mean as it was.
  const gustKt =
    wind.gustKt === null ? null : wind.gustKt - wind.speedKt + Math.hypot(along, across);
  return { ...wind, fromDeg, speedKt: Math.hypot(along, across), gustKt };
}

function plus(massKg: number | null, kg: number): number | null {
  return massKg === null ? null : massKg + kg;
}

function plannedIn(prediction: BothPredictions['landing']): Figure | null {
  if (!prediction || isUndetermined(prediction)) return prediction;
  const { landing } = prediction;
  return isUndetermined(landing) ? landing : landing.plannedFrom50FtM;
}

function plannedOut(prediction: BothPredictions['takeOff']): Figure | null {
  if (!prediction || isUndetermined(prediction)) return prediction;
  const { takeOff } = prediction;
  return isUndetermined(takeOff) ? takeOff : takeOff.plannedTo50FtM;
}

function changeText(
  before: Figure | null,
  after: Figure | null,
  units: PilotUnits,
): PlanChange | null {
  if (typeof before !== 'number' || after === null) return null;
  if (typeof after !== 'number') {
    return { text: `no prediction: ${after.undetermined}`, isReason: true };
  }
  const text = figureValue(lengthFigure(after - before, units));
  return { text: after > before ? `+${text}` : text, isReason: false };
}
