/** Factors and solutions against the products they must give back. */
import { describe, expect, test } from 'vitest';
import { backSolveInPlace, choleskyInPlace, forwardSolve } from '../../src/numeric/cholesky.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

/** A random symmetric positive definite matrix: B B' plus a little of the identity. */
function randomMatrix(n: number, seed: number): Float64Array {
  const random = createRandom(seed);
  const B = Float64Array.from({ length: n * n }, () => random.normal());
  const A = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      for (let k = 0; k < n; k++) A[i * n + j] += B[i * n + k] * B[j * n + k];
    }
    A[i * n + i] += 0.1;
  }
  return A;
}

describe('[CH1] Cholesky factors', () => {
  test('[CH1] of a 2 x 2 matrix worked by hand, with its determinant', () => {
    const A = Float64Array.of(4, 2, 2, 10);
    const halfLogDet = choleskyInPlace(A, 2);
    expectNear(A[0], 2, 1e-15);
    expectNear(A[2], 1, 1e-15);
    expectNear(A[3], 3, 1e-15);
    expectNear(halfLogDet, Math.log(36) / 2, 1e-15);
  });

  test.each([1, 3, 8, 20])('[CH2] solve with a random matrix of %d rows', (n) => {
    const A = randomMatrix(n, 100 + n);
    const L = A.slice();
    choleskyInPlace(L, n);
    const random = createRandom(7);
    const x = Float64Array.from({ length: n }, () => random.normal());
    const right = new Float64Array(n);
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) right[i] += A[i * n + j] * x[j];
    const solution = new Float64Array(n);
    forwardSolve(L, n, right, solution);
    backSolveInPlace(L, n, solution);
    for (let i = 0; i < n; i++) expectNear(solution[i], x[i], 1e-8, `x[${i}]`);
  });

  test('[CH3] of a matrix that is not positive definite are refused with NaN', () => {
    expect(choleskyInPlace(Float64Array.of(1, 2, 2, 1), 2)).toBeNaN();
    expect(choleskyInPlace(Float64Array.of(NaN), 1)).toBeNaN();
  });
});
