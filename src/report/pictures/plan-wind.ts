/**
 * The wind on a plan whose landing direction is up.
 *
 * In: a flight with what was entered, the view of the direction, the pilot's units. Out: where it
 * blows to, in words too, or why there is no arrow.
 */
import type { Flight } from '../../debrief/debrief.ts';
import type { StripView } from '../../events/strip-view.ts';
import { magneticVariationDeg } from '../../geo/magnetic.ts';
import { isUndetermined } from '../../result.ts';
import type { PilotUnits } from '../figure-text.ts';
import { windText } from '../story/title-block.ts';

/** The wind as drawn, or the words in its place. */
export interface PlanWind {
  /** Where the wind blows to, degrees clockwise from the landing direction, and its words. */
  readonly wind: { readonly toDeg: number; readonly label: string } | null;
  readonly noWind: string | null;
}

/** Wind as entered, turned to the landing direction; a magnetic one by the World Magnetic Model. */
export function enteredWind(
  { conditions, motion }: Flight,
  { frame, strip }: StripView,
  units: PilotUnits,
): PlanWind {
  if (isUndetermined(conditions)) return { wind: null, noWind: conditions.undetermined };
  if (conditions.wind === null) return { wind: null, noWind: 'wind not entered' };
  const { fromDeg, reference, speedKt } = conditions.wind;
  // The same words as in the title block, in the pilot's unit.
  const label = windText(conditions.wind, units);
  if (speedKt === 0 || fromDeg === null) return { wind: null, noWind: label };
  const variation =
    reference === 'true'
      ? 0
      : magneticVariationDeg(strip.latDeg[0], strip.lonDeg[0], 0, motion.timeS[0]);
  if (isUndetermined(variation)) return { wind: null, noWind: variation.undetermined };
  return {
    wind: {
      toDeg: fromDeg + variation + 180 - frame.trueBearingDeg,
      label,
    },
    noWind: null,
  };
}
