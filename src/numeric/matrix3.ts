/** Products and inverses of 3 x 3 matrices in row-major Float64Arrays of nine slots. */

/** Product of two 3 x 3 matrices, row-major. */
export function multiply3(a: Float64Array, b: Float64Array): Float64Array {
  const out = new Float64Array(9);
  for (let r = 0; r < 3; r++) {
    for (let c = 0; c < 3; c++) {
      out[3 * r + c] = a[3 * r] * b[c] + a[3 * r + 1] * b[3 + c] + a[3 * r + 2] * b[6 + c];
    }
  }
  return out;
}

/**
 * Inverse of a symmetric positive definite 3 x 3 matrix, row-major, scaled first so that units do
 * not cost digits. Not finite where the matrix is singular.
 */
export function invertSymmetric3(m: Float64Array): Float64Array {
  const s0 = 1 / Math.sqrt(m[0]);
  const s1 = 1 / Math.sqrt(m[4]);
  const s2 = 1 / Math.sqrt(m[8]);
  const b = m[1] * s0 * s1;
  const c = m[2] * s0 * s2;
  const e = m[5] * s1 * s2;
  const det = 1 + 2 * b * c * e - b * b - c * c - e * e;
  const out = new Float64Array(9);
  out[0] = ((1 - e * e) / det) * s0 * s0;
  out[4] = ((1 - c * c) / det) * s1 * s1;
  out[8] = ((1 - b * b) / det) * s2 * s2;
  out[1] = out[3] = ((c * e - b) / det) * s0 * s1;
  out[2] = out[6] = ((b * e - c) / det) * s0 * s2;
  out[5] = out[7] = ((b * c - e) / det) * s1 * s2;
  return out;
}
