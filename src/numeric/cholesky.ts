/**
 * Cholesky factors of small symmetric positive definite matrices, in place, row by row.
 *
 * Matrices are dense, n x n, row-major in a Float64Array; only the lower triangle is read and
 * written. Source: the standard algorithm, as in any text on numerical linear algebra.
 */

/**
 * Replaces the lower triangle of `matrix` (n x n, row-major) by its Cholesky factor L.
 *
 * @returns the sum of the logarithms of L's diagonal, half the log determinant; NaN where the
 * matrix is not positive definite (the contents are then of no use).
 */
export function choleskyInPlace(matrix: Float64Array, n: number): number {
  return choleskyRowsInPlace(matrix, n, 0, n);
}

/**
 * The same for the rows `from` to just before `to` alone, where those above hold their factor: a row
 * depends on none below it.
 *
 * @returns the sum of the logarithms of these rows' diagonal; NaN as above.
 */
export function choleskyRowsInPlace(
  matrix: Float64Array,
  n: number,
  from: number,
  to: number,
): number {
  let halfLogDet = 0;
  for (let i = from; i < to; i++) {
    const rowI = i * n;
    for (let j = 0; j <= i; j++) {
      const rowJ = j * n;
      let sum = matrix[rowI + j];
      for (let k = 0; k < j; k++) sum -= matrix[rowI + k] * matrix[rowJ + k];
      if (i === j) {
        if (!(sum > 0)) return NaN;
        const diagonal = Math.sqrt(sum);
        matrix[rowI + i] = diagonal;
        halfLogDet += Math.log(diagonal);
      } else {
        matrix[rowI + j] = sum / matrix[rowJ + j];
      }
    }
  }
  return halfLogDet;
}

/**
 * Solves L w = column for a factor L (n x n, row-major, lower) and writes w to `out`.
 *
 * @param column length n; left as it is unless `out` is the same array.
 * @param first the column is zero before this row, and so is w.
 */
export function forwardSolve(
  factor: Float64Array,
  n: number,
  column: Float64Array,
  out: Float64Array,
  first = 0,
): void {
  for (let i = 0; i < first; i++) out[i] = 0;
  for (let i = first; i < n; i++) {
    const row = i * n;
    let sum = column[i];
    for (let k = first; k < i; k++) sum -= factor[row + k] * out[k];
    out[i] = sum / factor[row + i];
  }
}

/** Solves L' x = column in place for a factor L (n x n, row-major, lower). */
export function backSolveInPlace(factor: Float64Array, n: number, column: Float64Array): void {
  for (let i = n - 1; i >= 0; i--) {
    let sum = column[i];
    for (let k = i + 1; k < n; k++) sum -= factor[k * n + i] * column[k];
    column[i] = sum / factor[i * n + i];
  }
}
