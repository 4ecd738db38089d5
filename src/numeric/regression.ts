/**
 * Which linear combination of columns fits a column best, by least squares?
 *
 * In: columns of predictors, a column to fit, weights if the points differ in accuracy. Out:
 * coefficients with their errors, residuals. Solved by Householder QR, which keeps about twice the
 * digits of the normal equations.
 *
 * Source: QR by Householder reflections and the covariance from R (textbook linear algebra, from
 * memory).
 */

import { undetermined } from '../result.ts';
import type { Undetermined } from '../result.ts';

/** A least-squares fit. */
export interface LinearFit {
  /** One for each predictor, in the unit of the fitted column over the predictor's. */
  readonly coefficients: Float64Array;
  /** Standard error of each coefficient; NaN where no degree of freedom is left. */
  readonly standardErrors: Float64Array;
  /** Covariance of the coefficients, k x k by rows. */
  readonly covariance: Float64Array;
  /** Fitted column less prediction, a slot for each point; NaN where the point was left out. */
  readonly residuals: Float64Array;
  /** Standard deviation of the residuals (weighted), divisor `degreesOfFreedom`. */
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
  /** Points used. */
  readonly count: number;
}

/**
 * Fits `y` by the sum of coefficient times predictor. A constant term is a predictor of ones.
 *
 * Units: the caller's. Shape: `predictors` holds k columns, each as long as `y` and `weights`.
 * `weights` are inverse variances up to a common factor, default 1. A point with a NaN anywhere, or
 * weight 0, is left out.
 * Fails: throws on unequal lengths, no predictor or a negative weight; undetermined where fewer
 * points than predictors are left or the predictors depend on each other.
 * @example fitLinear([ones, x], y) // line through the points
 */
export function fitLinear(
  predictors: readonly Float64Array[],
  y: Float64Array,
  weights?: Float64Array,
): LinearFit | Undetermined {
  const k = predictors.length;
  if (k === 0) throw new Error('a fit needs at least one predictor');
  for (const column of weights ? [...predictors, weights] : predictors) {
    if (column.length !== y.length) {
      throw new Error(`the fitted column has ${y.length} slots, another ${column.length}`);
    }
  }
  const used = usablePoints(predictors, y, weights);
  const count = used.length;
  if (count < k) return undetermined(`${count} points cannot give ${k} coefficients`);

  const rootWeights = Float64Array.from(used, (point) => Math.sqrt(weights ? weights[point] : 1));
  const columns = predictors.map((column) =>
    Float64Array.from(used, (point, row) => rootWeights[row] * column[point]),
  );
  const target = Float64Array.from(used, (point, row) => rootWeights[row] * y[point]);
  const diagonal = reduce(columns, target);
  if (!diagonal) return undetermined('the predictors depend on each other');

  const coefficients = solveUpper(columns, diagonal, target);
  const residuals = new Float64Array(y.length).fill(NaN);
  let sumOfSquares = 0;
  for (const [row, point] of used.entries()) {
    let fitted = 0;
    for (let j = 0; j < k; j++) fitted += coefficients[j] * predictors[j][point];
    residuals[point] = y[point] - fitted;
    sumOfSquares += (rootWeights[row] * residuals[point]) ** 2;
  }
  const degreesOfFreedom = count - k;
  const variance = degreesOfFreedom > 0 ? sumOfSquares / degreesOfFreedom : NaN;
  const covariance = covarianceOf(columns, diagonal, variance);
  const standardErrors = new Float64Array(k);
  for (let j = 0; j < k; j++) standardErrors[j] = Math.sqrt(covariance[j * k + j]);
  return {
    coefficients,
    standardErrors,
    covariance,
    residuals,
    residualSd: Math.sqrt(variance),
    degreesOfFreedom,
    count,
  };
}

/** A pivot this much smaller than its column means that the column is a combination of others. */
const DEPENDENT = 1e-12;

function usablePoints(
  predictors: readonly Float64Array[],
  y: Float64Array,
  weights: Float64Array | undefined,
): number[] {
  const used: number[] = [];
  for (let i = 0; i < y.length; i++) {
    const weight = weights ? weights[i] : 1;
    if (weight < 0) throw new Error(`a weight is not negative, but weight ${i} is ${weight}`);
    const isMissing =
      Number.isNaN(y[i]) || Number.isNaN(weight) || predictors.some((x) => Number.isNaN(x[i]));
    if (!isMissing && weight > 0) used.push(i);
  }
  return used;
}

/**
 * Turns the columns into R (above the diagonal, in place) by reflections, and the target with them.
 * Gives R's diagonal, or null where the columns depend on each other.
 */
function reduce(columns: readonly Float64Array[], target: Float64Array): Float64Array | null {
  const diagonal = new Float64Array(columns.length);
  for (const [j, column] of columns.entries()) {
    const wholeNorm = Math.sqrt(dot(column, column, 0));
    const norm = Math.sqrt(dot(column, column, j));
    if (!(norm > DEPENDENT * wholeNorm)) return null;
    diagonal[j] = column[j] > 0 ? -norm : norm;
    // The column's lower part becomes the reflection's vector.
    column[j] -= diagonal[j];
    const square = dot(column, column, j);
    for (const other of [...columns.slice(j + 1), target]) {
      const scale = (2 * dot(column, other, j)) / square;
      for (let row = j; row < other.length; row++) other[row] -= scale * column[row];
    }
  }
  return diagonal;
}

function dot(left: Float64Array, right: Float64Array, from: number): number {
  let sum = 0;
  for (let row = from; row < left.length; row++) sum += left[row] * right[row];
  return sum;
}

/** Solves R x = target by back substitution. */
function solveUpper(
  columns: readonly Float64Array[],
  diagonal: Float64Array,
  target: Float64Array,
): Float64Array {
  const solution = new Float64Array(columns.length);
  for (let i = columns.length - 1; i >= 0; i--) {
    let rest = target[i];
    for (let j = i + 1; j < columns.length; j++) rest -= columns[j][i] * solution[j];
    solution[i] = rest / diagonal[i];
  }
  return solution;
}

/** Variance times the inverse of R transposed R, by rows. */
function covarianceOf(
  columns: readonly Float64Array[],
  diagonal: Float64Array,
  variance: number,
): Float64Array {
  const k = columns.length;
  const inverse = columns.map((_, j) => {
    const unit = new Float64Array(k);
    unit[j] = 1;
    return solveUpper(columns, diagonal, unit);
  });
  const covariance = new Float64Array(k * k);
  for (let i = 0; i < k; i++) {
    for (let j = 0; j < k; j++) {
      let sum = 0;
      for (let m = 0; m < k; m++) sum += inverse[m][i] * inverse[m][j];
      covariance[i * k + j] = variance * sum;
    }
  }
  return covariance;
}
