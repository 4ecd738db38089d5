/**
 * What do landings, grouped by day and by aeroplane, pilot or surface, say about a pilot's mean?
 *
 * In: log ratios with their measuring errors, days and group labels; the prior; the group asked
 * about. Out: one normal distribution of that group's mean for every node of a grid over spread,
 * day share and the spreads of the groups, with the node's weight.
 *
 * Given the node, everything but the censored landings is a normal linear model and is integrated
 * in closed form. A coasted landing multiplies it by the probability of lying below its bound; the
 * product is replaced by the normal distribution with the same mean and variance, one landing after
 * the other. Source: the normal hierarchical model and assumed-density filtering of a probit site,
 * textbook methods, from memory.
 */
import { backSolveInPlace, choleskyInPlace, forwardSolve } from '../numeric/cholesky.ts';
import { normalCdf } from '../numeric/distributions.ts';
import { designOf, type Design } from './landing-design.ts';
import type { LogRatio, Prior } from './log-ratio.ts';

/** One normal part of the posterior. Logarithms of ratios. */
export interface Component {
  readonly logWeight: number;
  readonly spread: number;
  readonly dayShare: number;
  /** Mean log ratio of the group asked about, and the standard deviation of what is known of it. */
  readonly mean: number;
  readonly meanSd: number;
}

const SPREAD_NODES = 28;
const SPREAD_REACH = 2.8;
const DAY_SHARE_NODES = 12;
/** A node this far (natural logarithm) below the likeliest so far changes no digit that is shown. */
const NEGLIGIBLE_LOG = 16;
/** Nodes of the spread between groups: the middles of four equal parts of its prior. */
const GROUP_SPREAD_Z = [-1.15, -0.319, 0.319, 1.15];

/** The posterior of the mean of the group with the labels `target`; no labels: of the pilot's overall mean. */
export function posteriorParts(
  landings: readonly LogRatio[],
  prior: Prior,
  target: readonly string[],
): Component[] {
  const design = designOf(landings, target);
  const model = new NodeModel(design, prior);
  const combinations = groupSpreads(design.dimensions, prior);
  const parts: Component[] = [];
  let best = -Infinity;
  for (let i = 0; i < SPREAD_NODES; i++) {
    const z = SPREAD_REACH * ((2 * i) / (SPREAD_NODES - 1) - 1);
    const spread = prior.spreadMedian * Math.exp(prior.spreadLogSd * z);
    for (let j = 0; j < DAY_SHARE_NODES; j++) {
      const dayShare = Math.sin((Math.PI / 2) * ((j + 0.5) / DAY_SHARE_NODES)) ** 2;
      model.gather(spread, dayShare);
      for (const groupSds of combinations) {
        const logPrior = -0.5 * z * z;
        const found = model.solve(groupSds, best - NEGLIGIBLE_LOG - logPrior);
        if (found === null) continue;
        const logWeight = found.logWeight + logPrior;
        best = Math.max(best, logWeight);
        parts.push({ logWeight, spread, dayShare, mean: found.mean, meanSd: found.meanSd });
      }
    }
  }
  return parts;
}

function groupSpreads(dimensions: number, prior: Prior): number[][] {
  let all: number[][] = [[]];
  for (let d = 0; d < dimensions; d++) {
    all = all.flatMap((before) =>
      GROUP_SPREAD_Z.map((z) => [
        ...before,
        prior.groupSpreadMedian * Math.exp(prior.groupSpreadLogSd * z),
      ]),
    );
  }
  return all;
}

/** The linear model at one node; its arrays are used again for the next. */
class NodeModel {
  readonly #design: Design;
  readonly #prior: Prior;
  readonly #information: Float64Array;
  readonly #factor: Float64Array;
  readonly #pull: Float64Array;
  readonly #mean: Float64Array;
  readonly #work: Float64Array;
  readonly #column: Float64Array;
  readonly #covariance: Float64Array;
  #misfit = 0;
  #logDeterminant = 0;
  #shared = 0;
  #own = 0;

  constructor(design: Design, prior: Prior) {
    const n = design.size;
    this.#design = design;
    this.#prior = prior;
    this.#information = new Float64Array(n * n);
    this.#factor = new Float64Array(n * n);
    this.#pull = new Float64Array(n);
    this.#mean = new Float64Array(n);
    this.#work = new Float64Array(n);
    this.#column = new Float64Array(n);
    this.#covariance = new Float64Array(n * n);
  }

  /** Sums over the measured landings for one spread and day share. */
  gather(spread: number, dayShare: number): void {
    const n = this.#design.size;
    const a = this.#information.fill(0);
    const b = this.#pull.fill(0);
    const u = this.#work;
    this.#misfit = 0;
    this.#logDeterminant = 0;
    this.#shared = dayShare * spread ** 2;
    this.#own = (1 - dayShare) * spread ** 2;
    for (const { values, hasColumn } of this.#design.days) {
      u.fill(0);
      let weight = 0;
      let sum = 0;
      let variances = 1;
      for (const { y, measuringVariance, columns } of values) {
        const variance = this.#own + measuringVariance;
        const w = 1 / variance;
        variances *= variance;
        weight += w;
        sum += w * y;
        this.#misfit += w * y * y;
        for (let i = 0; i < columns.length; i++) {
          const row = columns[i];
          b[row] += w * y;
          u[row] += w;
          for (let j = 0; j < columns.length; j++) a[row * n + columns[j]] += w;
        }
      }
      this.#logDeterminant += Math.log(variances);
      if (hasColumn || values.length === 0) continue;
      const shrink = 1 + this.#shared * weight;
      const k = this.#shared / shrink;
      for (let row = 0; row < n; row++) {
        b[row] -= k * sum * u[row];
        for (let column = 0; column < n; column++) a[row * n + column] -= k * u[row] * u[column];
      }
      this.#misfit -= k * sum * sum;
      this.#logDeterminant += Math.log(shrink);
    }
  }

  /**
   * Mean of the target and the weight, for given spreads between the groups; null where the weight
   * is below `leastLogWeight` (upper bounds only make it less).
   */
  solve(
    groupSds: readonly number[],
    leastLogWeight: number,
  ): Pick<Component, 'logWeight' | 'mean' | 'meanSd'> | null {
    const { size: n, kinds, target, bounds } = this.#design;
    const { meanLog, meanLogSd } = this.#prior;
    const factor = this.#factor;
    factor.set(this.#information);
    const mean = this.#mean;
    mean.set(this.#pull);
    let logPriorDeterminant = 0;
    for (let i = 0; i < n; i++) {
      const variance = this.#priorVariance(kinds[i], groupSds);
      factor[i * n + i] += 1 / variance;
      logPriorDeterminant += Math.log(variance);
    }
    mean[0] += meanLog / meanLogSd ** 2;
    const halfLogDet = choleskyInPlace(factor, n);
    forwardSolve(factor, n, mean, this.#work);
    let explained = 0;
    for (let i = 0; i < n; i++) explained += this.#work[i] ** 2;
    mean.set(this.#work);
    backSolveInPlace(factor, n, mean);
    const misfit = this.#misfit + (meanLog / meanLogSd) ** 2 - explained;
    const logWeight = -0.5 * (this.#logDeterminant + logPriorDeterminant + 2 * halfLogDet + misfit);
    if (logWeight < leastLogWeight) return null;
    if (bounds.length === 0) {
      this.#column.fill(0);
      for (const i of target) this.#column[i] = 1;
      forwardSolve(factor, n, this.#column, this.#work);
      let variance = 0;
      for (let i = 0; i < n; i++) variance += this.#work[i] ** 2;
      return { logWeight, mean: sumAt(mean, target), meanSd: Math.sqrt(variance) };
    }
    this.#invert();
    const logBounds = this.#applyBounds();
    let variance = 0;
    for (const i of target) for (const j of target) variance += this.#covariance[i * n + j];
    return {
      logWeight: logWeight + logBounds,
      mean: sumAt(mean, target),
      meanSd: Math.sqrt(Math.max(variance, 0)),
    };
  }

  #priorVariance(kind: number, groupSds: readonly number[]): number {
    if (kind === -1) return this.#prior.meanLogSd ** 2;
    // A share of exactly none or all does not occur on the grid.
    return kind === -2 ? this.#shared : groupSds[kind] ** 2;
  }

  #invert(): void {
    const n = this.#design.size;
    for (let j = 0; j < n; j++) {
      this.#column.fill(0);
      this.#column[j] = 1;
      forwardSolve(this.#factor, n, this.#column, this.#work);
      backSolveInPlace(this.#factor, n, this.#work);
      for (let i = 0; i < n; i++) this.#covariance[i * n + j] = this.#work[i];
    }
  }

  /** Takes in the upper bounds; the logarithm of their joint probability. */
  #applyBounds(): number {
    const { size: n, bounds } = this.#design;
    const c = this.#column;
    let logProbability = 0;
    for (const { y, measuringVariance, columns } of bounds) {
      let known = 0;
      for (let i = 0; i < n; i++) {
        c[i] = 0;
        for (const j of columns) c[i] += this.#covariance[i * n + j];
      }
      for (const j of columns) known += c[j];
      const variance = known + this.#own + measuringVariance;
      const sd = Math.sqrt(variance);
      const z = (y - sumAt(this.#mean, columns)) / sd;
      const { logCdf, hazard } = belowNormal(z);
      logProbability += logCdf;
      const shrink = (hazard * (z + hazard)) / variance;
      for (let i = 0; i < n; i++) {
        this.#mean[i] -= (c[i] * hazard) / sd;
        for (let j = 0; j < n; j++) this.#covariance[i * n + j] -= shrink * c[i] * c[j];
      }
    }
    return logProbability;
  }
}

/** Logarithm of the normal probability below z, and density over probability, far tails included. */
function belowNormal(z: number): { readonly logCdf: number; readonly hazard: number } {
  if (z > -6) {
    const cdf = normalCdf(z);
    return {
      logCdf: Math.log(cdf),
      hazard: Math.exp(-0.5 * z * z) / (Math.sqrt(2 * Math.PI) * cdf),
    };
  }
  // First terms of the asymptotic series of the normal tail; at -6 right to one part in 2,000.
  const series = 1 - 1 / z ** 2 + 3 / z ** 4;
  const logCdf = -0.5 * z * z - Math.log(-z * Math.sqrt(2 * Math.PI)) + Math.log(series);
  return { logCdf, hazard: -z / series };
}

function sumAt(values: Float64Array, indices: readonly number[]): number {
  let sum = 0;
  for (const i of indices) sum += values[i];
  return sum;
}
