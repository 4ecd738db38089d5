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
  const { rollEnd } = approach;
  if (!mixture || isUndetermined(rollEnd) || isUndetermined(rollEnd.alongM)) return null;
  const fromM = tenPointsOfMixture(mixture);
  const toM = tenPointsOfBand(rollEnd.alongM);
  return { fromM, toM, extrapolatedToM: standstillPoints(approach, rollEnd.alongM.value, toM) };
}

/**
 * Ten points of the standstill that the braking implies, metres as `endM`, where the roll ended
 * otherwise at `endM` (its ten points `toM`); null where it was seen, or nothing implies one.
 */
export function standstillPoints(
  { rollEnd, fullStopRollM, groundRollM }: Approach,
  endM: number,
  toM: readonly number[],
): number[] | null {
  if (isUndetermined(rollEnd) || rollEnd.kind === 'stopped') return null;
  if (isUndetermined(fullStopRollM) || isUndetermined(groundRollM)) return null;
  const restM = fullStopRollM.value - groundRollM.value;
  if (restM <= 0) return null;
  // The standstill's own doubt: the band of the full roll less that of the touchdown's place.
  const middleM = endM + restM;
  const side = (full: number, part: number): number =>
    Math.sqrt(Math.max(full ** 2 - part ** 2, 0));
  const below = side(fullStopRollM.value - fullStopRollM.low, groundRollM.value - groundRollM.low);
  const above = side(
    fullStopRollM.high - fullStopRollM.value,
    groundRollM.high - groundRollM.value,
  );
  const standM = tenPointsOfBand({ value: middleM, low: middleM - below, high: middleM + above });
  return standM.map((at, i) => Math.max(at, toM[i]));
}
