/**
 * Which factor for each aeroplane on each kind of surface, leaning on the pilot's other landings?
 *
 * In: comparisons of one quantity with the groups they belong to. Out: an own factor for each group, or
 * why there are too few.
 */
import { calibrateGroup, gatherGroup, type OwnFactor, type TooFew } from './calibrate.ts';
import type { ComparedQuantity, Comparison } from './comparison.ts';
import { SURFACE_CLASSES, type SurfaceClass } from './surface-class.ts';

/** A comparison with its group. */
export interface GroupedComparison {
  readonly comparison: Comparison;
  readonly aeroplane: string;
  readonly surface: SurfaceClass;
}

/** The factor of one aeroplane on one kind of surface. */
export interface GroupFactor {
  readonly aeroplane: string;
  readonly surface: SurfaceClass;
  readonly result: OwnFactor | TooFew;
}

/**
 * Factors of every group that has a comparison of this quantity, by aeroplane in the order met, then by surface.
 *
 * Units: plain ratios. Fails: `too-few` where the group itself has fewer than five landings that count
 * or fewer than three days: others may narrow what a group says, never speak in its place.
 */
export function groupFactors(
  quantity: ComparedQuantity,
  all: readonly GroupedComparison[],
): GroupFactor[] {
  const own = all.filter(({ comparison }) => comparison.quantity === quantity);
  const aeroplanes = [...new Set(own.map(({ aeroplane }) => aeroplane))];
  const groups = aeroplanes.flatMap((aeroplane) =>
    SURFACE_CLASSES.flatMap((surface) => {
      const members = own.filter(
        (each) => each.aeroplane === aeroplane && each.surface === surface,
      );
      if (members.length === 0) return [];
      const landings = gatherGroup(members.map(({ comparison }) => comparison));
      return [{ aeroplane, surface, landings }];
    }),
  );
  return groups.map(({ aeroplane, surface, landings }, k) => {
    const others = groups.filter((_, other) => other !== k).map((group) => group.landings);
    return { aeroplane, surface, result: calibrateGroup(quantity, landings, others, surface) };
  });
}
