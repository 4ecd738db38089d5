/**
 * Probabilities and quantiles of the few distributions that the bands rest on.
 *
 * A thin front on the jstat library, so that one file knows it; what the library lacks (the
 * quantile of the non-central t, and with it the normal tolerance factor) is inverted here.
 * Accuracy, against a second library: normal and chi-square 1e-10, Student t 1e-8, non-central t
 * quantiles 1e-8.
 */

import jstat from 'jstat';

/** Probability that a standard normal deviate is at most `z`. */
export function normalCdf(z: number): number {
  return jstat.normal.cdf(z, 0, 1);
}

/** The standard normal deviate that is not exceeded with probability `p`. Fails: throws unless 0 < p < 1. */
export function normalQuantile(p: number): number {
  checkProbability(p);
  return jstat.normal.inv(p, 0, 1);
}

/** Probability that a Student t deviate is at most `t`. Fails: throws on non-positive degrees of freedom. */
export function studentTCdf(t: number, degrees: number): number {
  checkDegrees(degrees);
  return jstat.studentt.cdf(t, degrees);
}

/** The Student t deviate not exceeded with probability `p`. Fails: throws unless 0 < p < 1 and degrees > 0. */
export function studentTQuantile(p: number, degrees: number): number {
  checkProbability(p);
  checkDegrees(degrees);
  return jstat.studentt.inv(p, degrees);
}

/** Probability that a chi-square deviate is at most `x`. Fails: throws on non-positive degrees of freedom. */
export function chiSquareCdf(x: number, degrees: number): number {
  checkDegrees(degrees);
  return jstat.chisquare.cdf(x, degrees);
}

/** The chi-square deviate not exceeded with probability `p`. Fails: throws unless 0 < p < 1 and degrees > 0. */
export function chiSquareQuantile(p: number, degrees: number): number {
  checkProbability(p);
  checkDegrees(degrees);
  return jstat.chisquare.inv(p, degrees);
}

/**
 * The non-central t deviate not exceeded with probability `p`.
 *
 * Found by inverting the library's distribution function, from where a normal distribution of like spread
 * would have it.
 * Fails: throws unless 0 < p < 1 and degrees > 0, or where no bracket is found.
 */
export function noncentralTQuantile(p: number, degrees: number, noncentrality: number): number {
  checkProbability(p);
  checkDegrees(degrees);
  const cdf = (t: number): number => jstat.noncentralt.cdf(t, degrees, noncentrality);
  const spread = Math.sqrt(1 + noncentrality ** 2 / (2 * degrees));
  return invertRising(cdf, p, noncentrality + normalQuantile(p) * spread);
}

/**
 * One-sided tolerance factor of a normal sample: mean + k sd lies above the share `content` of
 * the population with probability `confidence`.
 *
 * Units: a plain number of sample standard deviations. Fails: throws unless n >= 2 and both shares
 * lie between 0 and 1. Source: k = t'(confidence; n - 1, z(content) sqrt(n)) / sqrt(n), as in the
 * NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3. Beyond 240 values its closed approximation
 * (Natrella), there within 0.002: the library's sum has no figure from 243 on.
 * @example toleranceFactor(10, 0.95, 0.95) // 2.911
 */
export function toleranceFactor(n: number, content: number, confidence: number): number {
  if (!Number.isInteger(n) || n < 2) throw new Error('a tolerance factor needs two or more values');
  if (n > MOST_BY_SUM) return largeToleranceFactor(n, content, confidence);
  const noncentrality = normalQuantile(content) * Math.sqrt(n);
  return noncentralTQuantile(confidence, n - 1, noncentrality) / Math.sqrt(n);
}

const MOST_BY_SUM = 240;

function largeToleranceFactor(n: number, content: number, confidence: number): number {
  const [z, zConfidence] = [normalQuantile(content), normalQuantile(confidence)];
  const a = 1 - zConfidence ** 2 / (2 * (n - 1));
  const b = z ** 2 - zConfidence ** 2 / n;
  return (z + Math.sqrt(z ** 2 - a * b)) / a;
}

/**
 * Where a rising function reaches a level: brackets outward from a first guess, then narrows the
 * bracket by false position, Illinois variant (a textbook method: a side that stays put counts half).
 *
 * Units: those of the function; found to 1e-12, or that share of it. Fails: throws where sixty
 * doublings find no bracket.
 */
export function invertRising(
  rising: (x: number) => number,
  level: number,
  firstGuess: number,
): number {
  const over = (x: number): number => rising(x) - level;
  let low = firstGuess - 1;
  let high = firstGuess + 1;
  let overLow = over(low);
  let overHigh = over(high);
  for (let step = 1, tries = 0; overLow > 0; step *= 2, tries++) {
    if (tries > 60) throw new Error('no lower bracket found');
    low -= step;
    overLow = over(low);
  }
  for (let step = 1, tries = 0; overHigh < 0; step *= 2, tries++) {
    if (tries > 60) throw new Error('no upper bracket found');
    high += step;
    overHigh = over(high);
  }
  let x = low;
  for (let round = 0, moved = 0; round < 200; round++) {
    const before = x;
    x = overHigh > overLow ? high - (overHigh * (high - low)) / (overHigh - overLow) : low;
    if (Math.abs(x - before) <= 1e-12 * Math.max(1, Math.abs(x))) break;
    const overX = over(x);
    if (overX < 0) {
      [low, overLow] = [x, overX];
      if (moved < 0) overHigh /= 2;
      moved = -1;
    } else {
      [high, overHigh] = [x, overX];
      if (moved > 0) overLow /= 2;
      moved = 1;
    }
  }
  return x;
}

function checkProbability(p: number): void {
  if (!(p > 0 && p < 1)) throw new Error(`a probability between 0 and 1 is needed, not ${p}`);
}

function checkDegrees(degrees: number): void {
  if (!(degrees > 0)) throw new Error(`degrees of freedom must be positive, not ${degrees}`);
}
