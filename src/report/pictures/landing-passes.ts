/**
 * The ten passes of a landing roll.
 *
 * In: an approach with its touchdown posterior, its strip view. Out: passes from the touchdown to
 * the end of the roll, and on to the standstill that the braking implies where it was not seen.
 */
import type { Approach } from '../../events/flight-event.ts';
import type { StripView } from '../../events/strip-view.ts';
import type { Mixture } from '../../numeric/posterior.ts';
import { isUndetermined } from '../../result.ts';
import { placeSdM } from '../../strips/place-error.ts';
import { tenPointsOfBand, tenPointsOfMixture, type Passes } from './passes.ts';

/** Chance of the touchdown place, metres from the threshold, with the strip's own position error. */
export function touchdownMixture(approach: Approach, view: StripView): Mixture | null {
  const { posterior } = approach;
  if (!posterior || view.stripId === null) return null;
  return {
    weight: posterior.weight,
    mean: posterior.alongM,
    sd: posterior.alongSdM.map((sd) => Math.hypot(sd, placeSdM(view.strip))),
  };
}

/** Ten passes; null where touchdown or roll end is not known. */
export function landingPasses(approach: Approach, view: StripView): Passes | null {
  const mixture = touchdownMixture(approach, view);
  const { rollEnd, fullStopRollM, groundRollM } = approach;
  if (!mixture || isUndetermined(rollEnd) || isUndetermined(rollEnd.alongM)) return null;
  const fromM = tenPointsOfMixture(mixture);
  const toM = tenPointsOfBand(rollEnd.alongM);
  const isSeen = rollEnd.kind === 'stopped';
  const restM =
    isSeen || isUndetermined(fullStopRollM) || isUndetermined(groundRollM)
      ? null
      : fullStopRollM.value - groundRollM.value;
  if (restM === null || isUndetermined(fullStopRollM) || restM <= 0) {
    return { fromM, toM, extrapolatedToM: null };
  }
  // The standstill's own doubt: the band of the full roll less that of the touchdown's place.
  const middleM = rollEnd.alongM.value + restM;
  const side = (full: number, part: number): number =>
    Math.sqrt(Math.max(full ** 2 - part ** 2, 0));
  const rollBand = isUndetermined(groundRollM) ? null : groundRollM;
  const below = side(
    fullStopRollM.value - fullStopRollM.low,
    rollBand ? rollBand.value - rollBand.low : 0,
  );
  const above = side(
    fullStopRollM.high - fullStopRollM.value,
    rollBand ? rollBand.high - rollBand.value : 0,
  );
  const standM = tenPointsOfBand({ value: middleM, low: middleM - below, high: middleM + above });
  return { fromM, toM, extrapolatedToM: standM.map((at, i) => Math.max(at, toM[i])) };
}
