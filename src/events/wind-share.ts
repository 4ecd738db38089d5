/**
 * How does the wind grow with height?
 *
 * In: a height over the ground. Out: the wind there as a share of that at the reference height.
 * Source: power law of the wind over open country with an exponent near 1/7, as wind engineering
 * texts give it (from memory).
 */
import { WIND } from './circuit-tuning.ts';

/** Share of the wind at a height, metres over the ground; 1 where no height is known. */
export function windShare(aboveM: number): number {
  if (Number.isNaN(aboveM)) return 1;
  return (Math.max(aboveM, WIND.lowestM) / WIND.referenceM) ** WIND.exponent;
}
