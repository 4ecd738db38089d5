/**
 * What do the landings of one group (one aeroplane on one kind of surface) say about its mean?
 *
 * In: log ratios with their measuring errors and days, the prior. Out: for every node of a grid over
 * spread and day share the likelihood of the group's mean, as a normal curve in logarithms:
 * log L(mean) = offset + pull x mean - precision x mean^2 / 2.
 *
 * Given the node, everything but the censored landings is a normal linear model and is integrated
 * in closed form. A coasted landing multiplies it by the probability of lying below its bound; the
 * product is replaced by the normal distribution with the same mean and variance, one landing after
 * the other, and the prior of the mean that this needs is divided out again.
 * Source: the normal hierarchical model and assumed-density filtering of a probit site, textbook
 * methods, from memory.
 */
import { backSolveInPlace, choleskyInPlace, forwardSolve } from '../numeric/cholesky.ts';
import { normalCdf } from '../numeric/distributions.ts';
import { commonVariance } from './repeated-error.ts';
import { designOf, type Design } from './landing-design.ts';
import type { LogRatio, Prior } from './log-ratio.ts';

/** The grid over spread and day share. */
export const SPREAD_NODES = 28;
export const DAY_SHARE_NODES = 12;
const SPREAD_REACH = 2.8;

/** Node i of the spread's prior, in its standard deviations. */
export function spreadZ(i: number): number {
  return SPREAD_REACH * ((2 * i) / (SPREAD_NODES - 1) - 1);
}

/** Spread (standard deviation of the log ratio) at node i. */
export function spreadAt(i: number, { spreadMedian, spreadLogSd }: Prior): number {
  return spreadMedian * Math.exp(spreadLogSd * spreadZ(i));
}

/** Day share at node j: equal parts of the arcsine law. */
export function dayShareAt(j: number): number {
  return Math.sin((Math.PI / 2) * ((j + 0.5) / DAY_SHARE_NODES)) ** 2;
}

/** The likelihood of a group's mean; node (i, j) of spread and day share stands at i x DAY_SHARE_NODES + j. */
export interface GroupLikelihood {
  readonly offset: Float64Array;
  readonly pull: Float64Array;
  readonly precision: Float64Array;
  /** Variance of the error that all landings have in common: it is in none of the above. */
  readonly commonVariance: number;
}

/** The likelihood of the mean of these landings, as their logs have it. Fails: throws on what is not a number. */
export function groupLikelihood(landings: readonly LogRatio[], prior: Prior): GroupLikelihood {
  for (const { logRatio, sd } of landings) {
    if (!Number.isFinite(logRatio) || !(sd >= 0)) {
      throw new Error('a log ratio and its standard deviation must be numbers');
    }
  }
  const model = new NodeModel(designOf(landings), prior);
  const nodes = SPREAD_NODES * DAY_SHARE_NODES;
  const [offset, pull, precision] = [0, 1, 2].map(() => new Float64Array(nodes));
  for (let i = 0; i < SPREAD_NODES; i++) {
    const spread = spreadAt(i, prior);
    for (let j = 0; j < DAY_SHARE_NODES; j++) {
      const node = i * DAY_SHARE_NODES + j;
      model.gather(spread, dayShareAt(j));
      const found = model.likelihood();
      offset[node] = found.offset;
      pull[node] = found.pull;
      precision[node] = found.precision;
    }
  }
  const common = landings.map(({ sd, commonShare }) => ({ variance: sd ** 2, commonShare }));
  return { offset, pull, precision, commonVariance: commonVariance(common) };
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

  /** The likelihood of the mean at this node. */
  likelihood(): { offset: number; pull: number; precision: number } {
    const { size: n, bounds } = this.#design;
    if (bounds.length === 0) {
      return {
        offset: -0.5 * (this.#logDeterminant + this.#misfit),
        pull: this.#pull[0],
        precision: this.#information[0],
      };
    }
    const { meanLog, meanLogSd } = this.#prior;
    const priorPrecision = 1 / meanLogSd ** 2;
    const factor = this.#factor;
    factor.set(this.#information);
    const mean = this.#mean;
    mean.set(this.#pull);
    factor[0] += priorPrecision;
    mean[0] += meanLog * priorPrecision;
    // A share of exactly none or all does not occur on the grid.
    for (let i = 1; i < n; i++) factor[i * n + i] += 1 / this.#shared;
    const halfLogDet = choleskyInPlace(factor, n);
    forwardSolve(factor, n, mean, this.#work);
    let explained = 0;
    for (let i = 0; i < n; i++) explained += this.#work[i] ** 2;
    mean.set(this.#work);
    backSolveInPlace(factor, n, mean);
    const misfit = this.#misfit + meanLog ** 2 * priorPrecision - explained;
    const logDeterminants =
      this.#logDeterminant +
      Math.log(meanLogSd ** 2) +
      (n - 1) * Math.log(this.#shared) +
      2 * halfLogDet;
    this.#invert();
    const logWeight = this.#applyBounds() - 0.5 * (logDeterminants + misfit);
    return withoutPrior(logWeight, mean[0], this.#covariance[0], this.#prior);
  }

  #expected(columns: readonly number[]): number {
    let sum = 0;
    for (const i of columns) sum += this.#mean[i];
    return sum;
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
      const z = (y - this.#expected(columns)) / sd;
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

/** The likelihood that makes this posterior and weight from the prior of the mean. */
function withoutPrior(
  logWeight: number,
  mean: number,
  variance: number,
  { meanLog, meanLogSd }: Prior,
): { offset: number; pull: number; precision: number } {
  const priorVariance = meanLogSd ** 2;
  return {
    offset:
      logWeight +
      0.5 *
        (Math.log(priorVariance / variance) + meanLog ** 2 / priorVariance - mean ** 2 / variance),
    pull: mean / variance - meanLog / priorVariance,
    precision: Math.max(1 / variance - 1 / priorVariance, 0),
  };
}
