/**
 * What is known of one group's mean, spread and day share, leaning on the pilot's other groups?
 *
 * In: the likelihood of the group asked about and of the others, the prior. Out: one normal distribution
 * of the group's mean for every node of spread and day share, with the node's weight.
 *
 * Model: a group's mean = the pilot's middle + the group's own distance. All other groups scatter alike,
 * the one asked about by an unknown ratio more or less; one day share for all. Distances and ratio have
 * wide stated priors: how far groups lie apart is not learnt, because a handful of groups cannot tell it,
 * and where it was learnt the one group unlike the rest paid for it
 * (docs/decisions/0050-a-group-leans-on-the-others-scatter.md). A group without others has the prior of
 * the pilot's middle alone.
 */
import {
  DAY_SHARE_NODES,
  dayShareAt,
  SPREAD_NODES,
  spreadAt,
  spreadZ,
  type GroupLikelihood,
} from './group-likelihood.ts';
import type { Prior } from './log-ratio.ts';

/** One normal part of the posterior. Logarithms of ratios. */
export interface Component {
  readonly logWeight: number;
  readonly spread: number;
  readonly dayShare: number;
  /** Mean log ratio of the group asked about, and the standard deviation of what is known of it. */
  readonly mean: number;
  readonly meanSd: number;
}

/** A node this far (natural logarithm) below the likeliest changes no digit that is shown. */
const NEGLIGIBLE_LOG = 16;

/** The posterior of the group `own`. */
export function groupPosterior(
  own: GroupLikelihood,
  others: readonly GroupLikelihood[],
  prior: Prior,
): Component[] {
  const held = others.length === 0 ? null : heldByOthers(others, prior);
  const ratioPriors = logRatioPriors(prior);
  const parts: Component[] = [];
  for (let i = 0; i < SPREAD_NODES; i++) {
    const spread = spreadAt(i, prior);
    const logPrior = -0.5 * spreadZ(i) ** 2;
    for (let j = 0; j < DAY_SHARE_NODES; j++) {
      const likelihood = nodeOf(own, i * DAY_SHARE_NODES + j);
      const found =
        held === null
          ? update(likelihood, {
              logWeight: 0,
              mean: prior.meanLog,
              variance: prior.meanLogSd ** 2,
            })
          : average(
              held[j].map((beforehand, k) =>
                update(likelihood, {
                  ...beforehand,
                  logWeight: beforehand.logWeight + ratioPriors[i][k],
                }),
              ),
            );
      parts.push({
        logWeight: found.logWeight + logPrior,
        ...{ spread, dayShare: dayShareAt(j) },
        ...{ mean: found.mean, meanSd: Math.sqrt(found.variance) },
      });
    }
  }
  const best = parts.reduce((most, { logWeight }) => Math.max(most, logWeight), -Infinity);
  return parts.filter(({ logWeight }) => logWeight > best - NEGLIGIBLE_LOG);
}

/** A normal distribution with the logarithm of a weight. */
interface Normal {
  readonly logWeight: number;
  readonly mean: number;
  readonly variance: number;
}

/** log L(mean) = offset + pull x mean - precision x mean^2 / 2. */
interface Likelihood {
  readonly offset: number;
  readonly pull: number;
  readonly precision: number;
}

function nodeOf({ offset, pull, precision }: GroupLikelihood, node: number): Likelihood {
  return { offset: offset[node], pull: pull[node], precision: precision[node] };
}

/** What the others let expect of this group's mean, for each day share and each spread of theirs. */
function heldByOthers(others: readonly GroupLikelihood[], prior: Prior): Normal[][] {
  const { meanLog, meanLogSd, groupMeanSd } = prior;
  return Array.from({ length: DAY_SHARE_NODES }, (_, j) =>
    Array.from({ length: SPREAD_NODES }, (_unused, k): Normal => {
      const node = k * DAY_SHARE_NODES + j;
      const together = others.reduce<Likelihood>(
        (sum, other) => {
          const each = atADistance(nodeOf(other, node), groupMeanSd ** 2);
          return {
            offset: sum.offset + each.offset,
            pull: sum.pull + each.pull,
            precision: sum.precision + each.precision,
          };
        },
        { offset: 0, pull: 0, precision: 0 },
      );
      const before = { logWeight: 0, mean: meanLog, variance: meanLogSd ** 2 };
      const middle = update(together, before);
      return { ...middle, variance: middle.variance + groupMeanSd ** 2 };
    }),
  );
}

/** The likelihood of the pilot's middle, where the group's mean lies at an unknown distance from it. */
function atADistance({ offset, pull, precision }: Likelihood, variance: number): Likelihood {
  const widened = 1 + precision * variance;
  return {
    offset: offset + 0.5 * ((pull ** 2 * variance) / widened - Math.log(widened)),
    pull: pull / widened,
    precision: precision / widened,
  };
}

function update(
  { offset, pull, precision }: Likelihood,
  { logWeight, mean, variance }: Normal,
): Normal {
  const after = 1 / (1 / variance + precision);
  const found = after * (mean / variance + pull);
  return {
    logWeight:
      logWeight +
      offset +
      0.5 * (found ** 2 / after - mean ** 2 / variance + Math.log(after / variance)),
    mean: found,
    variance: after,
  };
}

/** How likely spread node k of the others is beforehand, where this group's is node i; logarithms. */
function logRatioPriors({ spreadLogSd, groupSpreadLogSd }: Prior): number[][] {
  const nodes = Array.from({ length: SPREAD_NODES }, (_, i) => i);
  return nodes.map((i) => {
    const logs = nodes.map(
      (k) => -0.5 * ((spreadLogSd * (spreadZ(i) - spreadZ(k))) / groupSpreadLogSd) ** 2,
    );
    const total = Math.log(logs.reduce((sum, log) => sum + Math.exp(log), 0));
    return logs.map((log) => log - total);
  });
}

/** One normal distribution with the weight, mean and variance of them all. */
function average(all: readonly Normal[]): Normal {
  const best = all.reduce((most, { logWeight }) => Math.max(most, logWeight), -Infinity);
  const weights = all.map(({ logWeight }) => Math.exp(logWeight - best));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = all.reduce((sum, each, k) => sum + weights[k] * each.mean, 0) / total;
  const variance =
    all.reduce((sum, each, k) => sum + weights[k] * (each.variance + (each.mean - mean) ** 2), 0) /
    total;
  return { logWeight: best + Math.log(total), mean, variance };
}
