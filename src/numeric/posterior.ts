/**
 * From weights over a grid of candidates to medians and intervals.
 *
 * A mixture is a list of normal components given as three equal-length columns: weight, mean and
 * standard deviation (0 allowed: a point). Weights need not add up to one. The quantity's unit is
 * that of `mean`.
 */
import type { Estimate } from '../result.ts';

/** Columns of a normal mixture. */
export interface Mixture {
  readonly weight: Float64Array;
  readonly mean: Float64Array;
  readonly sd: Float64Array;
}

/** Turns log weights into weights that add up to 1, in place. Throws where none is finite. */
export function normaliseLogWeights(logWeight: Float64Array): void {
  let largest = -Infinity;
  for (const value of logWeight) if (value > largest) largest = value;
  if (!Number.isFinite(largest)) throw new Error('no candidate has a finite weight');
  let sum = 0;
  for (let i = 0; i < logWeight.length; i++) {
    const weight = Number.isNaN(logWeight[i]) ? 0 : Math.exp(logWeight[i] - largest);
    logWeight[i] = weight;
    sum += weight;
  }
  for (let i = 0; i < logWeight.length; i++) logWeight[i] /= sum;
}

/** Logarithm of the sum of two numbers given by their logarithms; -Infinity stands for nothing. */
export function logAdd(a: number, b: number): number {
  const high = Math.max(a, b);
  if (high === -Infinity) return high;
  return high + Math.log1p(Math.exp(Math.min(a, b) - high));
}

/** Share of a mixture below `value`. */
export function mixtureCdf(mixture: Mixture, value: number): number {
  let total = 0;
  let below = 0;
  for (let i = 0; i < mixture.weight.length; i++) {
    const weight = mixture.weight[i];
    if (weight === 0) continue;
    total += weight;
    const sd = mixture.sd[i];
    const gap = value - mixture.mean[i];
    // Far from its mean a component lies on one side, to 1e-11.
    if (Math.abs(gap) >= FAR_SDS * sd) below += gap >= 0 ? weight : 0;
    else below += weight * normalCdf(gap / sd);
  }
  return below / total;
}

const FAR_SDS = 6.7;

/**
 * The value below which the share `p` (0 to 1) of a mixture lies, to 1e-6 of the mixture's width or
 * 1e-7 of its weight: straight lines between what is known, halving where they hardly help.
 */
export function mixtureQuantile(mixture: Mixture, p: number): number {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < mixture.weight.length; i++) {
    if (mixture.weight[i] === 0) continue;
    low = Math.min(low, mixture.mean[i] - 6 * mixture.sd[i]);
    high = Math.max(high, mixture.mean[i] + 6 * mixture.sd[i]);
  }
  const fine = Math.max((high - low) * 1e-6, 1e-9);
  // Plain assignments: pairs of values in brackets are made on the heap, millions of them an hour.
  let atLow = -p;
  let atHigh = 1 - p;
  let halve = true;
  while (high - low > fine) {
    const straight = low + ((high - low) * atLow) / (atLow - atHigh);
    const inside = straight > low && straight < high;
    const middle = halve || !inside ? (low + high) / 2 : straight;
    const at = mixtureCdf(mixture, middle) - p;
    if (Math.abs(at) < 1e-7) return middle;
    const widthBefore = high - low;
    if (at < 0) {
      low = middle;
      atLow = at;
    } else {
      high = middle;
      atHigh = at;
    }
    halve = high - low > widthBefore / 2;
  }
  return (low + high) / 2;
}

/** Median and central 90 % interval of a mixture. */
export function mixtureEstimate(mixture: Mixture): Estimate {
  return {
    value: mixtureQuantile(mixture, 0.5),
    low: mixtureQuantile(mixture, 0.05),
    high: mixtureQuantile(mixture, 0.95),
  };
}

/**
 * Median and central 90 % interval of a mixture that cannot be below zero: what lies below is cut
 * off and the rest counts as the whole. All but nothing above zero: zero, with the mixture's own
 * spread above it.
 */
export function positiveMixtureEstimate(mixture: Mixture): Estimate {
  const below = mixtureCdf(mixture, 0);
  if (below > 0.9999) {
    let spread = 0;
    for (const sd of mixture.sd) spread = Math.max(spread, sd);
    return { value: 0, low: 0, high: 1.6449 * spread };
  }
  const quantile = (p: number): number =>
    Math.max(0, mixtureQuantile(mixture, below + p * (1 - below)));
  return { value: quantile(0.5), low: quantile(0.05), high: quantile(0.95) };
}

/**
 * Median and narrowest 90 % interval of a mixture that cannot be below zero, cut off as in
 * `positiveMixtureEstimate`. Near zero, where the likeliest values are the smallest, the interval
 * begins there: equal tails would leave out the likeliest of all. Far from zero one normal has
 * equal tails.
 */
export function narrowestPositiveEstimate(mixture: Mixture): Estimate {
  const equal = positiveMixtureEstimate(mixture);
  const below = mixtureCdf(mixture, 0);
  if (below > 0.9999 || (mixture.weight.length === 1 && below < 1e-4)) return equal;
  let { low, high } = equal;
  for (let step = 0; step < TAIL_STEPS; step++) {
    const leftOut = (0.1 * step) / TAIL_STEPS;
    const quantile = (p: number): number => mixtureQuantile(mixture, below + p * (1 - below));
    const from = step === 0 ? 0 : Math.max(0, quantile(leftOut));
    const to = quantile(leftOut + 0.9);
    if (to - from < high - low) [low, high] = [from, to];
  }
  return { value: equal.value, low, high };
}

/** Shares between the two tails that are tried. */
const TAIL_STEPS = 20;

/**
 * A mixture multiplied by exp(-x / scale): what is known, with smaller values likelier beforehand.
 * Each component stays normal: mean moves by -variance / scale, weight by the matching factor.
 */
export function tiltMixture(mixture: Mixture, scale: number): Mixture {
  const weight = mixture.weight.map((w, i) => {
    const sd = mixture.sd[i];
    return w * Math.exp(-mixture.mean[i] / scale + (sd * sd) / (2 * scale * scale));
  });
  const mean = mixture.mean.map((m, i) => m - mixture.sd[i] ** 2 / scale);
  return { weight, mean, sd: mixture.sd };
}

/**
 * What is left of a mixture whose quantity cannot be above a limit, itself known to `limitSd`. Each
 * component is replaced by the normal of the same mean and spread. Nothing left: the limit itself.
 *
 * Source: moments of a normal cut off on one side, standard; checked against sums in the tests.
 */
export function cutAbove(mixture: Mixture, limit: number, limitSd: number): Mixture {
  const weight = mixture.weight.slice();
  const mean = mixture.mean.slice();
  const sd = mixture.sd.slice();
  for (let i = 0; i < weight.length; i++) {
    const both = Math.hypot(sd[i], limitSd);
    const room = (limit - mean[i]) / both;
    if (room > FAR_SDS) continue;
    weight[i] *= room < -NOTHING_LEFT_SDS ? 0 : normalCdf(room);
    if (weight[i] === 0) continue;
    const ratio = Math.exp((-room * room) / 2) / Math.sqrt(2 * Math.PI) / normalCdf(room);
    const share = sd[i] ** 2 / both;
    mean[i] -= share * ratio;
    sd[i] = Math.sqrt(Math.max(0, sd[i] ** 2 - share ** 2 * ratio * (ratio + room)));
  }
  if (weight.some((each) => each > 0)) return { weight, mean, sd };
  const one = (value: number): Float64Array => Float64Array.of(value);
  return { weight: one(1), mean: one(limit), sd: one(limitSd) };
}

/** So far over the limit nothing of a component is left that `normalCdf` could tell. */
const NOTHING_LEFT_SDS = 5;

/**
 * Standard normal distribution function, to 1.2e-7 absolute: enough for intervals, not for
 * published statistics. Source: a rational Chebyshev fit of the complementary error function
 * (fractional error below 1.2e-7), from memory; checked against tables in the tests.
 */
export function normalCdf(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + x / 2);
  // Written out: a loop over a list of them makes a number on the heap at every step.
  let series = -0.82215223 + t * 0.17087277;
  series = 1.48851587 + t * series;
  series = -1.13520398 + t * series;
  series = 0.27886807 + t * series;
  series = -0.18628806 + t * series;
  series = 0.09678418 + t * series;
  series = 0.37409196 + t * series;
  series = 1.00002368 + t * series;
  series = -1.26551223 + t * series;
  const tail = (t * Math.exp(-x * x + series)) / 2;
  return z > 0 ? 1 - tail : tail;
}
