/**
 * Rounding of figures and of the ends of their bands, and of shares that must add up as they are shown.
 *
 * A band is rounded outwards, so that what is printed never holds less than what was measured to hold.
 */

/** To the nearest step, or to the one below or above. */
export type Rounding = 'near' | 'down' | 'up';

/** Ends of a band that are whole already must not move by a rounding error of a division. */
const SLACK = 1e-9;

/**
 * Whole numbers near the shares that add up to `total`: each share to the nearest, then what is lacking
 * or too much goes one by one to where the rounding went furthest the other way (largest remainder).
 * `total` is a whole number, within one for each share of their sum. Never fails.
 */
export function wholeShares(shares: readonly number[], total: number): number[] {
  const whole = shares.map((share) => Math.round(share) + 0);
  for (let lacking = total - sum(whole); lacking !== 0; lacking = total - sum(whole)) {
    const step = Math.sign(lacking);
    const given = shares.map((share, k) => step * (share - whole[k]));
    whole[given.indexOf(Math.max(...given))] += step;
  }
  return whole;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** A value in whole steps, in the value's own unit. Never fails. */
export function toStep(value: number, step: number, way: Rounding): number {
  if (way === 'down') return Math.floor(value / step + SLACK) * step;
  if (way === 'up') return Math.ceil(value / step - SLACK) * step;
  return Math.round(value / step) * step;
}
