/**
 * How much would the distances change with a knot of wind, wet grass, ten kilograms, five degrees?
 *
 * In: the conditions, where the strip points, and a way to predict for other conditions. Out: for
 * each change the difference of the expected and of the planned whole distance, landing and take-off,
 * in metres. Each row is a prediction of its own: nothing is scaled.
 */
import { isUndetermined, type Undetermined } from '../result.ts';
import type { Conditions, EnteredWind, SurfaceState } from '../weather/conditions.ts';
import type { Figure, Prediction } from './prediction.ts';

/** Predictions of one visit; null: not planned. */
export interface BothPredictions {
  readonly landing: Prediction | Undetermined | null;
  readonly takeOff: Prediction | Undetermined | null;
}

/** Where the strip points in each use, degrees true; null: not planned. */
export interface Bearings {
  readonly landing: number | null;
  readonly takeOff: number | null;
}

/** Longer (positive) or shorter by so many metres; undetermined where either side has no figure. */
export interface DistanceChange {
  readonly expectedM: Figure;
  readonly plannedM: Figure;
}

/** One change and what it does; null: not planned, or no distance to begin with. */
export interface SensitivityChange {
  readonly id: ChangeId;
  readonly label: string;
  readonly landing: DistanceChange | null;
  readonly takeOff: DistanceChange | null;
}

/** What is tried. */
export type ChangeId =
  | 'headwind-1-less'
  | 'headwind-5-less'
  | 'headwind-5-more'
  | 'wet'
  | 'mass-10-more'
  | 'temp-5-more';

interface Tried {
  readonly id: ChangeId;
  readonly label: string;
  readonly change: (bearingDeg: number | null) => Conditions;
}

/**
 * Tries each change that means something here: five knots more headwind only for a wind reported
 * elsewhere, which may err either way; no headwind for a wind without a direction; wet only where it was entered as dry.
 *
 * Units: metres. Rows without any change to show are left out. Fails: a figure is undetermined where
 * the changed conditions have no prediction.
 */
export function sensitivity(
  conditions: Conditions,
  bearings: Bearings,
  predictFor: (landing: Conditions, takeOff: Conditions) => BothPredictions,
): SensitivityChange[] {
  const before = predictFor(conditions, conditions);
  return changesOf(conditions)
    .map(({ id, label, change }) => {
      const after = predictFor(change(bearings.landing), change(bearings.takeOff));
      const landing = difference(wholeIn(before.landing), wholeIn(after.landing));
      const takeOff = difference(wholeOut(before.takeOff), wholeOut(after.takeOff));
      return { id, label, landing, takeOff };
    })
    .filter(({ landing, takeOff }) => landing !== null || takeOff !== null);
}

function changesOf(conditions: Conditions): Tried[] {
  const { wind, surface, massKg, takeOffMassKg, tempC, windReportedAt } = conditions;
  const withHeadwind = (kt: number) => (bearingDeg: number | null) => ({
    ...conditions,
    wind: moreHeadwind(wind, bearingDeg, kt),
  });
  const wet = surface === null ? undefined : WET_FOR[surface];
  const isReported = typeof windReportedAt === 'string';
  const headwinds: readonly Tried[] = [
    { id: 'headwind-1-less', label: 'one knot less headwind', change: withHeadwind(-1) },
    { id: 'headwind-5-less', label: 'five knots less headwind', change: withHeadwind(-5) },
    { id: 'headwind-5-more', label: 'five knots more headwind', change: withHeadwind(5) },
  ];
  return [
    ...(hasNoDirection(wind) ? [] : headwinds.slice(0, isReported ? 3 : 2)),
    ...(wet
      ? [{ id: 'wet' as const, label: wet.label, change: () => ({ ...conditions, ...wet.to }) }]
      : []),
    {
      id: 'mass-10-more',
      label: 'ten kilograms more',
      change: () => ({
        ...conditions,
        massKg: plus(massKg, 10),
        takeOffMassKg: plus(takeOffMassKg, 10),
      }),
    },
    {
      id: 'temp-5-more',
      label: 'five degrees warmer',
      change: () => ({ ...conditions, tempC: plus(tempC, 5) }),
    },
  ];
}

const WET_FOR: Partial<
  Readonly<
    Record<
      SurfaceState,
      { readonly label: string; readonly to: { readonly surface: SurfaceState } }
    >
  >
> = {
  'grass-dry': { label: 'the grass wet', to: { surface: 'grass-wet' } },
  'hard-dry': { label: 'the surface wet', to: { surface: 'hard-wet' } },
};

/** True for a variable wind: it has no part along the strip that could be a knot less. */
function hasNoDirection(wind: EnteredWind | null): boolean {
  return wind !== null && wind.fromDeg === null && wind.speedKt > 0;
}

/**
 * The wind with so many knots more along the strip, the same across. The bearing is true and the wind may be magnetic: over a few knots the
 * variation between them does not show.
 */
function moreHeadwind(
  wind: EnteredWind | null,
  bearingDeg: number | null,
  kt: number,
): EnteredWind | null {
  if (!wind || bearingDeg === null) return wind;
  const off = (((wind.fromDeg ?? bearingDeg) - bearingDeg) * Math.PI) / 180;
  const along = wind.speedKt * Math.cos(off) + kt;
  const across = wind.speedKt * Math.sin(off);
  const fromDeg = (bearingDeg + (Math.atan2(across, along) * 180) / Math.PI + 720) % 360;
  // The gust stays as much over the mean as it was.
  const gustKt =
    wind.gustKt === null ? null : wind.gustKt - wind.speedKt + Math.hypot(along, across);
  return { ...wind, fromDeg, speedKt: Math.hypot(along, across), gustKt };
}

function plus(value: number | null, amount: number): number | null {
  return value === null ? null : value + amount;
}

/** Expected and planned whole distance. */
type Wholes = readonly [expected: Figure, planned: Figure];

function wholeIn(prediction: BothPredictions['landing']): Wholes | Undetermined | null {
  if (!prediction || isUndetermined(prediction)) return prediction;
  const { landing } = prediction;
  if (isUndetermined(landing)) return landing;
  return [landing.expectedFrom50FtM, landing.plannedFrom50FtM];
}

function wholeOut(prediction: BothPredictions['takeOff']): Wholes | Undetermined | null {
  if (!prediction || isUndetermined(prediction)) return prediction;
  const { takeOff } = prediction;
  if (isUndetermined(takeOff)) return takeOff;
  return [takeOff.expectedTo50FtM, takeOff.plannedTo50FtM];
}

function difference(
  before: Wholes | Undetermined | null,
  after: Wholes | Undetermined | null,
): DistanceChange | null {
  if (before === null || after === null || isUndetermined(before)) return null;
  if (before.every(isUndetermined)) return null;
  if (isUndetermined(after)) return { expectedM: after, plannedM: after };
  return { expectedM: less(after[0], before[0]), plannedM: less(after[1], before[1]) };
}

function less(after: Figure, before: Figure): Figure {
  if (isUndetermined(before)) return before;
  return isUndetermined(after) ? after : after - before;
}
