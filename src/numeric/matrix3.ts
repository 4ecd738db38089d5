/** Products and inverses of 3 x 3 matrices in row-major Float64Arrays of nine slots. */

/** Writes the product of two matrices to `out`, which must be another array than either. */
export function multiply3(a: Float64Array, b: Float64Array, out: Float64Array): void {
  for (let r = 0; r < 9; r += 3) {
    for (let c = 0; c < 3; c++) {
      out[r + c] = a[r] * b[c] + a[r + 1] * b[3 + c] + a[r + 2] * b[6 + c];
    }
  }
}

/**
 * Writes the inverse of a symmetric positive definite matrix to `out`, scaled first so that units do
 * not cost digits. Not finite where the matrix is singular.
 */
export function invertSymmetric3(m: Float64Array, out: Float64Array): void {
  const s0 = 1 / Math.sqrt(m[0]);
  const s1 = 1 / Math.sqrt(m[4]);
  const s2 = 1 / Math.sqrt(m[8]);
  const b = m[1] * s0 * s1;
  const c = m[2] * s0 * s2;
  const e = m[5] * s1 * s2;
  const det = 1 + 2 * b * c * e - b * b - c * c - e * e;
  out[0] = ((1 - e * e) / det) * s0 * s0;
  out[4] = ((1 - c * c) / det) * s1 * s1;
  out[8] = ((1 - b * b) / det) * s2 * s2;
  out[1] = out[3] = ((c * e - b) / det) * s0 * s1;
  out[2] = out[6] = ((b * e - c) / det) * s0 * s2;
  out[5] = out[7] = ((b * c - e) / det) * s1 * s2;
}
