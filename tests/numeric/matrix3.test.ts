/** Products and inverses of 3 x 3 matrices against the identity and a product worked by hand. */
import { describe, expect, test } from 'vitest';
import { invertSymmetric3, multiply3 } from '../../src/numeric/matrix3.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

describe('[M3] matrices of three', () => {
  test('[M3] multiply row by column', () => {
    const a = Float64Array.of(1, 2, 3, 4, 5, 6, 7, 8, 10);
    const b = Float64Array.of(2, 0, 1, 0, 1, -1, 1, 3, 0);
    expect([...product(a, b)]).toEqual([5, 11, -1, 14, 23, -1, 24, 38, -1]);
  });

  test('[M3] an inverse gives back the identity, also where the units differ by a million', () => {
    const random = createRandom(11);
    for (let run = 0; run < 50; run++) {
      const root = Float64Array.from({ length: 9 }, () => random.normal());
      const scale = [1e3, 1, 1e-3];
      const m = new Float64Array(9);
      for (let r = 0; r < 3; r++) {
        for (let c = 0; c < 3; c++) {
          let sum = r === c ? 0.1 : 0;
          for (let k = 0; k < 3; k++) sum += root[3 * r + k] * root[3 * c + k];
          m[3 * r + c] = sum * scale[r] * scale[c];
        }
      }
      const identity = product(m, inverse(m));
      for (let at = 0; at < 9; at++) {
        const [r, c] = [Math.floor(at / 3), at % 3];
        // Rounding counts in the units of row and column.
        const tolerance = (1e-10 * scale[r]) / scale[c];
        expectNear(identity[at], r === c ? 1 : 0, Math.max(tolerance, 1e-10), `run ${run}`);
      }
    }
  });

  test('[M3] a singular matrix has no finite inverse', () => {
    const singular = inverse(Float64Array.of(1, 1, 0, 1, 1, 0, 0, 0, 1));
    expect(singular.some((value) => !Number.isFinite(value))).toBe(true);
  });
});

function product(a: Float64Array, b: Float64Array): Float64Array {
  const out = new Float64Array(9);
  multiply3(a, b, out);
  return out;
}

function inverse(m: Float64Array): Float64Array {
  const out = new Float64Array(9);
  invertSymmetric3(m, out);
  return out;
}
