import { describe, expect, test } from 'vitest';
import { windComponents } from '../../src/atmosphere/wind.ts';
import { expectNear } from '../expect-near.ts';

describe('[WIND1] wind along and across a strip', () => {
  // Half and root three over two are the sides of the 30-60-90 triangle.
  test.each([
    [270, 10, 270, 10, 0],
    [90, 10, 270, -10, 0],
    [300, 10, 270, 10 * Math.sqrt(0.75), 5],
    [240, 10, 270, 10 * Math.sqrt(0.75), -5],
    [20, 8, 340, 8 * Math.cos((40 * Math.PI) / 180), 8 * Math.sin((40 * Math.PI) / 180)],
  ])('[WIND1] splits %d deg %d on bearing %d', (from, speed, bearing, head, cross) => {
    const found = windComponents(from, speed, bearing);
    expectNear(found.headwindMps, head, 1e-12, 'headwind');
    expectNear(found.crosswindMps, cross, 1e-12, 'crosswind');
  });

  test('[WIND2] a missing direction stays missing and never becomes calm', () => {
    expect(windComponents(Number.NaN, 5, 270).headwindMps).toBeNaN();
  });
});
