/**
 * What does the classical one-sided tolerance bound say about the same landings?
 *
 * Inputs: log ratios. Output: the ratio below which a share of all landings lies (the content),
 * with a confidence. It knows neither days nor measuring errors and stands beside the own factor
 * as a check that anyone can make with a table.
 * Source: mean + k sd with k from the non-central t distribution, NIST/SEMATECH e-Handbook of
 * Statistical Methods, 7.2.6.3.
 */

import { toleranceFactor } from '../numeric/distributions.ts';
import { undetermined, type Undetermined } from '../result.ts';

/** Share of landings that the bound covers. */
export const TOLERANCE_CONTENT = 0.95;
/** Confidence that it does. */
export const TOLERANCE_CONFIDENCE = 0.95;

/**
 * One-sided upper tolerance bound of the ratios, content 95 %, confidence 95 %.
 *
 * Units: natural logarithms of ratios in, a plain ratio out. Fails: undetermined for fewer than
 * three landings.
 */
export function toleranceBound(logRatios: readonly number[]): number | Undetermined {
  const n = logRatios.length;
  if (n < 3) return undetermined('fewer than three landings');
  const mean = logRatios.reduce((sum, value) => sum + value, 0) / n;
  const squares = logRatios.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const sd = Math.sqrt(squares / (n - 1));
  return Math.exp(mean + toleranceK(n) * sd);
}

/** Standard deviations above the mean for n landings: a fixed number, found once. */
const toleranceKs = new Map<number, number>();

function toleranceK(n: number): number {
  const k = toleranceKs.get(n) ?? toleranceFactor(n, TOLERANCE_CONTENT, TOLERANCE_CONFIDENCE);
  toleranceKs.set(n, k);
  return k;
}
