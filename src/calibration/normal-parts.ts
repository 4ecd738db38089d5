/**
 * Where does a sum of normal distributions reach a probability?
 *
 * In: the parts of a posterior. Out: a quantile, by fewer steps than halving takes: a posterior has
 * thousands of parts.
 */
import { normalCdf } from '../numeric/distributions.ts';
import type { Estimate } from '../result.ts';

/** One part; `weight` is its share of the whole. */
export interface NormalPart {
  readonly weight: number;
  readonly mean: number;
  readonly sd: number;
}

/**
 * Where the sum of the parts reaches a probability: Newton steps inside a bracket.
 *
 * Weights add up to 1, standard deviations are positive. Units: those of the means, found to 1e-10.
 */
export function normalPartsQuantile(parts: readonly NormalPart[], probability: number): number {
  let low = Infinity;
  let high = -Infinity;
  for (const { mean, sd } of parts) {
    low = Math.min(low, mean - 9 * sd);
    high = Math.max(high, mean + 9 * sd);
  }
  let x = parts.reduce((sum, { weight, mean }) => sum + weight * mean, 0);
  for (let round = 0; round < 100 && high - low > 1e-12; round++) {
    let cdf = 0;
    let density = 0;
    for (const { weight, mean, sd } of parts) {
      const z = (x - mean) / sd;
      cdf += weight * normalCdf(z);
      density += (weight * Math.exp(-0.5 * z * z)) / (sd * Math.sqrt(2 * Math.PI));
    }
    if (cdf < probability) low = x;
    else high = x;
    const step = (probability - cdf) / density;
    const next = x + step;
    if (Math.abs(step) < 1e-10) return next;
    x = next > low && next < high ? next : (low + high) / 2;
  }
  return x;
}

/** Median and 90 % interval of the parts. */
export function normalPartsEstimate(parts: readonly NormalPart[]): Estimate {
  return {
    value: normalPartsQuantile(parts, 0.5),
    low: normalPartsQuantile(parts, 0.05),
    high: normalPartsQuantile(parts, 0.95),
  };
}
