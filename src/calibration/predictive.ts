/**
 * How large may the next landing's ratio be, on a new day, given the pilot's landings so far?
 *
 * Inputs: log ratios (measured over expected) with the standard deviation of their measuring
 * error, and the day of each. Output: the posterior predictive distribution of the next true
 * ratio's logarithm, as a mixture of normal distributions.
 *
 * Model: log ratio = pilot's mean + effect of the day + scatter within the day + measuring error.
 * `spread` is the standard deviation of day effect and scatter together, `dayShare` the share of
 * its variance that a day's landings have in common (wind, grass and mass errors of one day). Of the
 * measuring error a share may be common to all landings (repeated-error.ts): it scatters nothing and stays
 * in doubt however many there are.
 * Mean, spread and day share are integrated over, none is plugged in. Only the measuring error of
 * the log is taken out; error in the expected figure stays in, because the next prediction has it
 * too. A coasted landing says only that the full-effort ratio lies below it (censored).
 * Source: the normal hierarchical model with integration on a grid, a textbook method; the priors
 * are ours and are stated below.
 */

import type { Estimate } from '../result.ts';
import { groupLikelihood, type GroupLikelihood } from './group-likelihood.ts';
import { groupPosterior, type Component } from './group-posterior.ts';
import type { LogRatio, Prior } from './log-ratio.ts';
import { normalPartsQuantile, type NormalPart } from './normal-parts.ts';

/**
 * The prior: nine pilots in ten have a typical ratio between 0.56 and 1.78 times the expected and
 * a spread between 0.08 and 1.3; the day share is anything, likelier near none and near all
 * (arcsine law), so that landings of one day which agree are not taken for proof of a small spread.
 * The spread's prior reaches high so that the bound also holds for a scattered pilot with five
 * landings on few days (docs/calibration.md); with a median of 0.25 it fell to 93.0 % there.
 * Another group's middle lies within 0.37 and 2.7 times that of the group asked about, and it scatters
 * between 0.27 and 3.7 times as much, nine in ten.
 */
export const WEAK_PRIOR: Prior = {
  meanLog: 0,
  meanLogSd: 0.35,
  spreadMedian: 0.32,
  spreadLogSd: 0.85,
  groupMeanSd: 0.6,
  groupSpreadLogSd: 0.8,
};

/** What the landings say about the next one and about the pilot. Ratios are plain, not logarithms. */
export interface PredictiveRatio {
  /** The ratio that the next landing on a new day stays below with this probability. */
  quantile(probability: number): number;
  /** The pilot's typical ratio, with its 90 % interval. */
  readonly typicalRatio: Estimate;
  /** Standard deviation of the log ratio from landing to landing and day to day. */
  readonly spread: Estimate;
  /** Share of the variance that a day's landings have in common. */
  readonly dayShare: Estimate;
}

/** Parts of the mixture lighter than this beside the heaviest change no digit that is shown. */
const NEGLIGIBLE_WEIGHT = 1e-6;

/**
 * The posterior predictive distribution of the next landing's ratio.
 *
 * `others`: the pilot's landings of other groups (another aeroplane, another kind of surface), a list
 * for each; they are leaned on as far as the prior of the groups lets them.
 *
 * Units: plain ratios out. Fails: throws on a log ratio or standard deviation that is not a
 * number (undetermined ratios must be left out before).
 */
export function predictNextRatio(
  landings: readonly LogRatio[],
  prior: Prior = WEAK_PRIOR,
  others: readonly (readonly LogRatio[])[] = [],
): PredictiveRatio {
  return predictFrom(
    groupLikelihood(landings, prior),
    others.map((each) => groupLikelihood(each, prior)),
    prior,
  );
}

/** The same from likelihoods at hand. */
export function predictFrom(
  own: GroupLikelihood,
  others: readonly GroupLikelihood[],
  prior: Prior = WEAK_PRIOR,
): PredictiveRatio {
  const parts = posteriorParts(own, others, prior);
  const next = parts.map(({ mean, meanSd, spread, weight }) => ({
    ...{ mean, weight },
    sd: Math.hypot(meanSd, spread),
  }));
  const means = parts.map(({ mean, meanSd, weight }) => ({ mean, weight, sd: meanSd }));
  const ratioAt = (mixture: readonly NormalPart[], p: number): number =>
    Math.exp(normalPartsQuantile(mixture, p));
  return {
    quantile: (probability) => ratioAt(next, probability),
    // Worked out where they are asked for: a bound alone needs none of them.
    get typicalRatio() {
      return { value: ratioAt(means, 0.5), low: ratioAt(means, 0.05), high: ratioAt(means, 0.95) };
    },
    get spread() {
      return gridInterval(parts.map(({ spread, weight }) => [spread, weight]));
    },
    get dayShare() {
      return gridInterval(parts.map(({ dayShare, weight }) => [dayShare, weight]));
    },
  };
}

/**
 * Only the bound: the logarithm of the ratio that the next landing stays below with `probability`.
 *
 * The same figure as `Math.log(predictNextRatio(...).quantile(probability))`, without the rest.
 * Fails: as there.
 */
export function predictiveBoundLog(
  landings: readonly LogRatio[],
  probability: number,
  prior: Prior = WEAK_PRIOR,
  others: readonly (readonly LogRatio[])[] = [],
): number {
  const own = groupLikelihood(landings, prior);
  const rest = others.map((each) => groupLikelihood(each, prior));
  const next = posteriorParts(own, rest, prior).map(({ mean, meanSd, spread, weight }) => ({
    mean,
    weight,
    sd: Math.hypot(meanSd, spread),
  }));
  return normalPartsQuantile(next, probability);
}

/** A part of the posterior with its share of the whole; shares add up to 1. */
type WeightedPart = Omit<Component, 'logWeight'> & { readonly weight: number };

/** The posterior of the group's true mean: what all logs get wrong alike is no evidence, only doubt. */
function posteriorParts(
  own: GroupLikelihood,
  others: readonly GroupLikelihood[],
  prior: Prior,
): WeightedPart[] {
  const commonSd = Math.sqrt(own.commonVariance);
  return weighted(groupPosterior(own, others, prior)).map((part) => ({
    ...part,
    meanSd: Math.hypot(part.meanSd, commonSd),
  }));
}

function weighted(parts: readonly Component[]): WeightedPart[] {
  const heaviest = parts.reduce((most, { logWeight }) => Math.max(most, logWeight), -Infinity);
  const heavy = parts
    .map(({ logWeight, ...part }) => ({ ...part, weight: Math.exp(logWeight - heaviest) }))
    .filter(({ weight }) => weight > NEGLIGIBLE_WEIGHT);
  const total = heavy.reduce((sum, { weight }) => sum + weight, 0);
  return heavy.map((part) => ({ ...part, weight: part.weight / total }));
}

/** Median and 90 % interval of values on a grid, read between its nodes; shares add up to 1. */
function gridInterval(pairs: readonly (readonly [value: number, share: number])[]): Estimate {
  const shares = new Map<number, number>();
  for (const [value, share] of pairs) shares.set(value, (shares.get(value) ?? 0) + share);
  const values = [...shares.keys()].sort((a, b) => a - b);
  const at = (probability: number): number => {
    let below = 0;
    let before = { value: values[0], below: 0 };
    for (const value of values) {
      const share = shares.get(value) ?? 0;
      // Half of a node's share lies below it.
      const here = { value, below: below + share / 2 };
      if (here.below >= probability) {
        const step = here.below - before.below;
        const part = step > 0 ? (probability - before.below) / step : 1;
        return before.value + part * (here.value - before.value);
      }
      below += share;
      before = here;
    }
    return before.value;
  };
  return { value: at(0.5), low: at(0.05), high: at(0.95) };
}
