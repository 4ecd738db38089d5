/** Where a level is passed between two readings, worked by hand. */
import { describe, expect, test } from 'vitest';
import { crossingAt } from '../../src/numeric/crossing.ts';

describe('[XG1] a level passed between two readings', () => {
  test('[XG1] lies on the straight line, rising and falling, in either order of the readings', () => {
    expect(crossingAt(5, [10, 0], [12, 20])).toBe(10.5);
    expect(crossingAt(5, [12, 20], [10, 0])).toBe(10.5);
    expect(crossingAt(-1, [100, 3], [108, -5])).toBe(104);
  });

  test('[XG2] a reading that is the level itself is where it was passed, the first where both are', () => {
    expect(crossingAt(3, [100, 3], [108, -5])).toBe(100);
    expect(crossingAt(-5, [100, 3], [108, -5])).toBe(108);
    expect(crossingAt(3, [100, 3], [108, 3])).toBe(100);
  });

  test('[XG3] is passed nowhere beyond both readings, on either side, nor where one is missing', () => {
    expect(crossingAt(3.01, [100, 3], [108, -5])).toBeNull();
    expect(crossingAt(-5.01, [100, 3], [108, -5])).toBeNull();
    expect(crossingAt(4, [100, 3], [108, 3])).toBeNull();
    expect(crossingAt(2, [100, 3], [108, 3])).toBeNull();
    expect(crossingAt(0, [100, NaN], [108, -5])).toBeNull();
    expect(crossingAt(0, [100, 3], [108, NaN])).toBeNull();
    expect(crossingAt(NaN, [100, 3], [108, -5])).toBeNull();
  });

  test('[XG1] the far reading is met exactly, at moments as large as those of logs', () => {
    const [fromS, toS] = [1_764_191_622.3, 1_764_191_623.1];
    expect(crossingAt(0.7, [fromS, 0.1], [toS, 0.7])).toBe(toS);
  });
});
