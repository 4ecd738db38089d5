import { describe, expect, test } from 'vitest';
import { meanDirection, signedDifferenceDeg, wrap180, wrap360 } from '../../src/geo/angles.ts';
import { expectNear } from '../expect-near.ts';

describe('wrapping', () => {
  test.each([
    [0, 0],
    [360, 0],
    [-90, 270],
    [725, 5],
    [359.5, 359.5],
    [-720, 0],
  ])('[ANG1] wraps %d to %d in the full circle', (angle, expected) => {
    expect(wrap360(angle)).toBe(expected);
  });

  test('[ANG1] keeps a tiny negative angle below 360', () => {
    expect(wrap360(-1e-20)).toBe(0);
    expect(wrap360(-1e-13)).toBeLessThan(360);
  });

  test.each([
    [180, -180],
    [-180, -180],
    [179, 179],
    [270, -90],
    [-541, 179],
    [0, 0],
  ])('[ANG2] wraps %d to %d about zero', (angle, expected) => {
    expect(wrap180(angle)).toBe(expected);
  });

  test('[ANG3] never gives minus zero, which prints as -0', () => {
    expect(Object.is(wrap360(-360), 0)).toBe(true);
    expect(Object.is(wrap180(-360), 0)).toBe(true);
    expect(Object.is(signedDifferenceDeg(10, 370), 0)).toBe(true);
  });

  test('[ANG4] passes NaN on', () => {
    expect(wrap360(NaN)).toBeNaN();
    expect(wrap180(Infinity)).toBeNaN();
    expect(signedDifferenceDeg(1, NaN)).toBeNaN();
  });
});

test('[ANG5] turns the shorter way, clockwise positive', () => {
  expect(signedDifferenceDeg(350, 10)).toBe(20);
  expect(signedDifferenceDeg(10, 350)).toBe(-20);
  expect(signedDifferenceDeg(90, 270)).toBe(-180);
});

describe('mean direction', () => {
  test('[ANG6] of 350 and 10 is north', () => {
    const mean = meanDirection([350, 10]);
    expectNear(signedDifferenceDeg(0, mean.directionDeg), 0, 1e-12, 'direction');
    // Two unit vectors 10 degrees either side sum to cos 10 of their number.
    expectNear(mean.concentration, Math.cos((10 * Math.PI) / 180), 1e-12, 'concentration');
  });

  test('[ANG7] follows the weights and leaves missing directions out', () => {
    expectNear(meanDirection([0, 90, NaN], [1, Math.sqrt(3), 5]).directionDeg, 60, 1e-12);
  });

  test('[ANG8] has no direction where they cancel out or none is given', () => {
    expect(meanDirection([0, 180])).toEqual({ directionDeg: NaN, concentration: 0 });
    expect(meanDirection([]).directionDeg).toBeNaN();
    expect(() => meanDirection([1, 2], [1])).toThrow('2 directions but 1 weights');
  });
});
