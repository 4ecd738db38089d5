/**
 * How closely do touchdowns lie together, along and across the strip?
 *
 * In: touchdown places of one direction. Out: middle and spread both ways, and the ellipse within which
 * nine of ten next ones are to be expected. The measuring errors are in the scatter; how much of it they
 * can be stands beside it, and how well the middle is known.
 *
 * Source: prediction region of a two-dimensional normal sample by Hotelling's T2, a textbook result, from
 * memory; quantile of F with 2 and m degrees of freedom in closed form, (m/2)((1 - p)^(-2/m) - 1).
 */
import { studentTQuantile } from '../numeric/distributions.ts';
import { Z90, type Estimate } from '../result.ts';
import { commonVariance, COMMON_SHARES } from './repeated-error.ts';

/** One touchdown: alongM from the landing threshold, crossM right of the centreline. */
export interface TouchdownPlace {
  readonly alongM: Estimate;
  readonly crossM: Estimate;
}

/** One way: metres. */
export interface Spread {
  /** Mean, and the standard deviation of the places as found. */
  readonly mean: number;
  readonly sd: number;
  /** Root mean square of the measuring errors' standard deviations: so much of `sd` may be the log's. */
  readonly measuringSd: number;
  /** The mean with its 90 % band: the scatter of so many, and what the log gets wrong in the same way each time. */
  readonly middle: Estimate;
}

/** All touchdowns. Metres; the ellipse's long half lies `turnedRad` from the strip's axis, to the right positive. */
export interface Dispersion {
  readonly touchdowns: number;
  readonly along: Spread;
  readonly cross: Spread;
  /** -1 to 1: positive where late ones lie to the right. */
  readonly correlation: number;
  readonly nineOfTen: {
    readonly longHalfM: number;
    readonly shortHalfM: number;
    readonly turnedRad: number;
  };
}

/** Fewer touchdowns than this show no shape. */
export const FEWEST_TOUCHDOWNS = 5;
const NEXT_SHARE = 0.9;

/** The dispersion; null for fewer than five touchdowns. */
export function touchdownDispersion(places: readonly TouchdownPlace[]): Dispersion | null {
  const n = places.length;
  if (n < FEWEST_TOUCHDOWNS) return null;
  const alongs = places.map(({ alongM }) => alongM);
  const crosses = places.map(({ crossM }) => crossM);
  const along = spreadOf(alongs, COMMON_SHARES.along);
  const cross = spreadOf(crosses, COMMON_SHARES.cross);
  const product = places.reduce(
    (sum, { alongM, crossM }) => sum + (alongM.value - along.mean) * (crossM.value - cross.mean),
    0,
  );
  const covariance = product / (n - 1);
  const [a, b] = [along.sd ** 2, cross.sd ** 2];
  // The axes of a symmetric two by two matrix.
  const middle = (a + b) / 2;
  const reach = Math.hypot((a - b) / 2, covariance);
  const freedom = n - 2;
  const fQuantile = (freedom / 2) * ((1 - NEXT_SHARE) ** (-2 / freedom) - 1);
  const scale = Math.sqrt(((2 * (n - 1) * (n + 1)) / (n * freedom)) * fQuantile);
  return {
    touchdowns: n,
    along,
    cross,
    correlation: a > 0 && b > 0 ? covariance / Math.sqrt(a * b) : 0,
    nineOfTen: {
      longHalfM: scale * Math.sqrt(middle + reach),
      shortHalfM: scale * Math.sqrt(Math.max(middle - reach, 0)),
      turnedRad: Math.atan2(2 * covariance, a - b) / 2,
    },
  };
}

function spreadOf(values: readonly Estimate[], commonShare: number): Spread {
  const n = values.length;
  const mean = values.reduce((sum, { value }) => sum + value, 0) / n;
  const squares = values.reduce((sum, { value }) => sum + (value - mean) ** 2, 0);
  const variances = values.map(({ low, high }) => ((high - low) / (2 * Z90)) ** 2);
  const commonOf = (share: number): number =>
    commonVariance(variances.map((each) => ({ variance: each, commonShare: share })));
  const variance = squares / (n - 1);
  const half = Math.hypot(
    studentTQuantile(MIDDLE_UPPER, n - 1) * Math.sqrt(variance / n),
    Z90 * Math.sqrt(commonOf(commonShare)),
  );
  return {
    mean,
    sd: Math.sqrt(variance),
    measuringSd: Math.sqrt(commonOf(1)),
    middle: { value: mean, low: mean - half, high: mean + half },
  };
}

/** Upper end of a central 90 % band. */
const MIDDLE_UPPER = 0.95;
