/**
 * Rounding of figures and of the ends of their bands.
 *
 * A band is rounded outwards, so that what is printed never holds less than what was measured to hold.
 */

/** To the nearest step, or to the one below or above. */
export type Rounding = 'near' | 'down' | 'up';

/** Ends of a band that are whole already must not move by a rounding error of a division. */
const SLACK = 1e-9;

/** A value in whole steps, in the value's own unit. Never fails. */
export function toStep(value: number, step: number, way: Rounding): number {
  if (way === 'down') return Math.floor(value / step + SLACK) * step;
  if (way === 'up') return Math.ceil(value / step - SLACK) * step;
  return Math.round(value / step) * step;
}
