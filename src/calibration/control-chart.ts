/**
 * Does what a pilot does drift, and is one landing unlike the others?
 *
 * In: values in the order flown, or days. Out: limits of an individuals chart, a weighted course with
 * its limits, a test for drift, currency. Plain data; drawings and words are made elsewhere.
 * Sources: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 and 6.3.2.4 (limits quoted, the
 * constants from memory); the rank test for trend of Mann (1945) and Kendall, from memory.
 */
import { normalCdf } from '../numeric/distributions.ts';

/** Limits of an individuals chart, in the unit of the values. */
export interface IndividualsChart {
  readonly middle: number;
  readonly lower: number;
  readonly upper: number;
  readonly meanRange: number;
  /** A step between neighbours above this is unlike the others. */
  readonly rangeLimit: number;
}

/** Mean of the range of two normal values, in standard deviations. */
const D2_OF_TWO = 1.128;
/** Upper limit of the range of two, in mean ranges. */
const D4_OF_TWO = 3.267;

/** Individuals chart with moving range. Fails: throws on fewer than two values. */
export function individualsChart(values: readonly number[]): IndividualsChart {
  if (values.length < 2) throw new Error('limits need two values or more');
  const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
  let steps = 0;
  for (let i = 1; i < values.length; i++) steps += Math.abs(values[i] - values[i - 1]);
  const meanRange = steps / (values.length - 1);
  const reach = (3 * meanRange) / D2_OF_TWO;
  const [lower, upper] = [middle - reach, middle + reach];
  return { middle, lower, upper, meanRange, rangeLimit: D4_OF_TWO * meanRange };
}

/** A course in which each value counts `lambda` and what came before the rest. */
export interface WeightedCourse {
  readonly values: readonly number[];
  readonly lower: number;
  readonly upper: number;
}

/**
 * Exponentially weighted moving average from a start, with its steady-state limits.
 *
 * Units: those of the values; `sd` is the standard deviation of one value. Limits lie three standard
 * deviations of the average to either side of the start. Fails: throws unless 0 < lambda <= 1.
 */
export function weightedCourse(
  values: readonly number[],
  { start, sd, lambda = 0.3 }: { start: number; sd: number; lambda?: number },
): WeightedCourse {
  if (!(lambda > 0 && lambda <= 1)) throw new Error(`lambda must be in (0, 1], not ${lambda}`);
  let course = start;
  const reach = 3 * sd * Math.sqrt(lambda / (2 - lambda));
  return {
    values: values.map((value) => (course = lambda * value + (1 - lambda) * course)),
    lower: start - reach,
    upper: start + reach,
  };
}

/** Rank test for a drift. */
export interface DriftTest {
  /** Pairs that rise less pairs that fall. */
  readonly score: number;
  /** Chance of a score at least as far from nought where nothing drifts, both sides. */
  readonly chance: number;
  /** Middle of the slopes of all pairs: change from one landing to the next. */
  readonly slopePerStep: number;
}

/**
 * Mann-Kendall test of values in the order flown.
 *
 * By ranks, because one odd landing must not make a drift and ratios need not be normal. The chance
 * is by the normal approximation with continuity correction, allowing for ties. Values of one day are
 * not independent: give one value a day (its middle). Fails: throws on fewer than eight values, where
 * the approximation is poor.
 */
export function driftTest(values: readonly number[]): DriftTest {
  const n = values.length;
  if (n < FEWEST_FOR_DRIFT) throw new Error(`a drift test needs ${FEWEST_FOR_DRIFT} values`);
  let score = 0;
  const slopes: number[] = [];
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      score += Math.sign(values[j] - values[i]);
      slopes.push((values[j] - values[i]) / (j - i));
    }
  }
  const tied = new Map<number, number>();
  for (const value of values) tied.set(value, (tied.get(value) ?? 0) + 1);
  const term = (m: number): number => m * (m - 1) * (2 * m + 5);
  const ties = [...tied.values()].reduce((sum, m) => sum + term(m), 0);
  const variance = (term(n) - ties) / 18;
  const z = variance === 0 ? 0 : Math.max(Math.abs(score) - 1, 0) / Math.sqrt(variance);
  slopes.sort((a, b) => a - b);
  const half = slopes.length / 2;
  const slopePerStep = (slopes[Math.ceil(half) - 1] + slopes[Math.floor(half)]) / 2;
  return { score, chance: Math.min(1, 2 * normalCdf(-z)), slopePerStep };
}

/** Fewer values than this are not tested for a drift. */
export const FEWEST_FOR_DRIFT = 8;
