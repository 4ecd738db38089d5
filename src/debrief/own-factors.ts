/**
 * Which factors do all these flights together suggest, for each aeroplane on each kind of surface?
 *
 * In: debriefed flights of one pilot. Out: for each aeroplane, each kind of surface it was compared on and
 * each of the four distances an own factor, or why there are too few. Every factor leans on the pilot's
 * other aeroplanes and surfaces.
 */
import { type OwnFactor, type TooFew, whyTooFew } from '../calibration/calibrate.ts';
import type { ComparedQuantity, Comparison } from '../calibration/comparison.ts';
import { groupFactors, type GroupedComparison } from '../calibration/group-factors.ts';
import { SURFACE_CLASSES, surfaceClass, type SurfaceClass } from '../calibration/surface-class.ts';
import { isUndetermined, type Undetermined } from '../result.ts';
import type { SurfaceState } from '../weather/conditions.ts';
import type { Flight } from './debrief.ts';

/** Own factors of one aeroplane. */
export interface AeroplaneFactors {
  /** Its id. */
  readonly aeroplane: string;
  readonly name: string;
  /** Four for each kind of surface that anything was compared on; of one that is not known where nothing was. */
  readonly factors: readonly (OwnFactor | TooFew)[];
  /** Approaches broken off, in the same flights: landings broken off for being long are missing. */
  readonly goArounds: number;
}

/** The four distances, those that plan first. */
export const COMPARED_QUANTITIES: readonly ComparedQuantity[] = [
  'landing-from-50-ft',
  'landing-roll',
  'take-off-to-50-ft',
  'take-off-roll',
];

/** What a calibration needs of one flight. */
export interface ComparedFlight {
  readonly aeroplane: { readonly id: string; readonly name: string } | Undetermined;
  /** As entered for the flight; null: not entered. */
  readonly surface: SurfaceState | null;
  /** Of every take-off and approach; those without a ratio say nothing and may be in it. */
  readonly comparisons: readonly Comparison[];
  /** Approaches broken off. */
  readonly goArounds: number;
}

/** Calibrates every aeroplane that any flight names. */
export function ownFactors(flights: readonly Flight[]): AeroplaneFactors[] {
  return ownFactorsFrom(flights.map(comparedFlight));
}

/** The same from the comparisons alone, for flights whose tracks are not at hand. */
export function ownFactorsFrom(flights: readonly ComparedFlight[]): AeroplaneFactors[] {
  const names = new Map(
    flights.flatMap(({ aeroplane }) =>
      isUndetermined(aeroplane) ? [] : [[aeroplane.id, aeroplane.name] as const],
    ),
  );
  const all = flights.flatMap(groupedComparisons);
  const found = COMPARED_QUANTITIES.flatMap((quantity) => groupFactors(quantity, all));
  return [...names].map(([id, name]) => {
    const own = found.filter(({ aeroplane }) => aeroplane === id);
    const present = SURFACE_CLASSES.filter((each) => own.some(({ surface }) => surface === each));
    const surfaces: readonly SurfaceClass[] = present.length > 0 ? present : ['not known'];
    const goArounds = flights
      .filter(({ aeroplane }) => !isUndetermined(aeroplane) && aeroplane.id === id)
      .reduce((sum, flight) => sum + flight.goArounds, 0);
    const factors = surfaces.flatMap((surface) =>
      COMPARED_QUANTITIES.map(
        (quantity) =>
          own.map(({ result }) => result).find(isOf(quantity, surface)) ?? none(quantity, surface),
      ),
    );
    return { aeroplane: id, name, factors, goArounds };
  });
}

/** The factor of one distance on one kind of surface; null surface: where most of that distance count. */
export function factorOn(
  { factors }: AeroplaneFactors,
  quantity: ComparedQuantity,
  surface: SurfaceClass | null,
): OwnFactor | TooFew {
  if (surface !== null) return factors.find(isOf(quantity, surface)) ?? none(quantity, surface);
  const ofDistance = factors.filter((each) => each.quantity === quantity);
  return ofDistance.reduce(
    (best, each) => (each.counts.counted > best.counts.counted ? each : best),
    ofDistance.at(0) ?? none(quantity, 'not known'),
  );
}

function isOf(quantity: ComparedQuantity, surface: SurfaceClass) {
  return (factor: OwnFactor | TooFew): boolean =>
    factor.quantity === quantity && factor.surface === surface;
}

function none(quantity: ComparedQuantity, surface: SurfaceClass): TooFew {
  const counts = { counted: 0, upperBounds: 0, leftOut: 0, days: 0 };
  return { kind: 'too-few', quantity, surface, counts, reason: whyTooFew(counts) ?? '' };
}

/** Events whose distance was measured to its end and expected: the others say nothing. */
function groupedComparisons({
  aeroplane,
  surface,
  comparisons,
}: ComparedFlight): GroupedComparison[] {
  if (isUndetermined(aeroplane)) return [];
  return comparisons
    .filter((comparison) => !isUndetermined(comparison.ratio))
    .map((comparison) => ({
      comparison,
      aeroplane: aeroplane.id,
      surface: surfaceClass(surface),
    }));
}

function comparedFlight({ aeroplane, conditions, compared, events }: Flight): ComparedFlight {
  return {
    aeroplane,
    surface: isUndetermined(conditions) ? null : conditions.surface,
    comparisons: [...compared.approaches, ...compared.takeOffs].flatMap(({ roll, whole }) => [
      roll,
      whole,
    ]),
    goArounds: events.approaches.filter(({ outcome }) => outcome === 'go-around').length,
  };
}
