/**
 * How far off is the wind along the strip that a visit is planned with?
 *
 * In: headwinds as forecast before visits, and as they were at the landings. Out: their spread, m/s.
 * The forecast's bias is in it, because the pilot plans with the forecast as it stands. Few pairs say
 * little of a spread: it is widened so that 95 of 100 are still within (Student t over normal).
 */
import { normalQuantile, studentTQuantile } from '../numeric/distributions.ts';
import { MPS_PER_KNOT } from '../units/convert.ts';

/** One visit: the headwind planned with, and the one at the landing. Tailwind is negative. */
export interface ForecastPair {
  readonly forecastMps: number;
  readonly actualMps: number;
}

/** The spread, and whether the pilot's own pairs gave it. */
export interface ForecastSpread {
  readonly sdMps: number;
  readonly pairs: number;
  /** False: too few pairs, the stated one holds. */
  readonly own: boolean;
}

/** Fewer pairs than this say nothing yet. */
export const FEWEST_PAIRS = 5;
/** What stands in for them, along the strip (stated in advance, ours). */
export const STATED_SPREAD_KT = 4;

/** The spread of forecasts. Fails: throws on a wind that is not a number. */
export function forecastSpread(pairs: readonly ForecastPair[]): ForecastSpread {
  const n = pairs.length;
  if (n < FEWEST_PAIRS) return { sdMps: STATED_SPREAD_KT * MPS_PER_KNOT, pairs: n, own: false };
  const squares = pairs.reduce((sum, pair) => sum + (pair.actualMps - pair.forecastMps) ** 2, 0);
  if (!Number.isFinite(squares)) throw new Error('a headwind must be a number');
  const widened = studentTQuantile(0.95, n) / normalQuantile(0.95);
  return { sdMps: widened * Math.sqrt(squares / n), pairs: n, own: true };
}
