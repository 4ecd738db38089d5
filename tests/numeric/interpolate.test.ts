import { describe, expect, test } from 'vitest';
import { interpolate, type Axis, type Interpolated } from '../../src/numeric/interpolate.ts';
import { expectNear } from '../expect-near.ts';

const HEIGHT: Axis = { name: 'altitude', unit: 'ft', points: [0, 2000, 5000] };
const TEMP: Axis = { name: 'temperature', unit: 'C', points: [-10, 15, 40] };
const MASS: Axis = { name: 'mass', unit: 'kg', points: [800, 1000] };

function valueOf(found: Interpolated): number {
  if ('outside' in found) throw new Error(`outside: ${found.outside[0].name}`);
  return found.value;
}

/** Values of a function over the axes, the last axis fastest. */
function tabulate(axes: readonly Axis[], f: (...at: number[]) => number): number[] {
  const combine = (depth: number, at: number[]): number[] =>
    depth === axes.length
      ? [f(...at)]
      : axes[depth].points.flatMap((point) => combine(depth + 1, [...at, point]));
  return combine(0, []);
}

describe('[INT1] linear interpolation', () => {
  test('[INT1] reproduces a function that is linear in each of three variables', () => {
    // Products of the variables stay exact between the rows, sums alone would hide a mixed-up axis.
    const f = (h: number, t: number, m: number): number =>
      100 + h / 50 + t * 2 + (m * h) / 1e5 + t * m * 1e-3;
    const axes = [HEIGHT, TEMP, MASS];
    const values = tabulate(axes, f);
    for (const at of [
      [0, -10, 800],
      [1000, 3, 900],
      [4999, 39, 999],
      [2000, 15, 1000],
      [5000, 40, 1000],
    ]) {
      expectNear(
        valueOf(interpolate(axes, values, at, 'refuse')),
        f(at[0], at[1], at[2]),
        1e-9,
        at.join(),
      );
    }
  });

  test('[INT1] works in one and in two variables', () => {
    expectNear(valueOf(interpolate([MASS], [200, 300], [850], 'refuse')), 225, 1e-12, 'one');
    const twoAxes = [TEMP, MASS];
    const values = tabulate(twoAxes, (t, m) => t + m / 10);
    expectNear(valueOf(interpolate(twoAxes, values, [27.5, 900], 'refuse')), 117.5, 1e-12, 'two');
  });
});

describe('[INT2] outside the table', () => {
  test('[INT2] refuses, naming every variable outside, what was given and the range', () => {
    const axes = [HEIGHT, MASS];
    const values = tabulate(axes, (h, m) => h + m);
    expect(interpolate(axes, values, [-1, 1100], 'refuse')).toEqual({
      outside: [
        { name: 'altitude', unit: 'ft', given: -1, low: 0, high: 5000 },
        { name: 'mass', unit: 'kg', given: 1100, low: 800, high: 1000 },
      ],
    });
  });

  test('[INT3] reads the nearest edge only on request, and says so', () => {
    const found = interpolate([MASS], [200, 300], [1100], 'nearest');
    expect(found).toEqual({
      value: 300,
      atEdge: [{ name: 'mass', unit: 'kg', given: 1100, low: 800, high: 1000 }],
    });
  });

  test('[INT4] never gives a value for a variable that is not a number', () => {
    expect(interpolate([MASS], [200, 300], [Number.NaN], 'nearest')).toHaveProperty('outside');
    expect(interpolate([MASS], [200, 300], [Number.NaN], 'refuse')).toHaveProperty('outside');
  });

  test('[INT5] one point alone covers only itself', () => {
    const single: Axis = { name: 'mass', unit: 'kg', points: [450] };
    expect(interpolate([single], [220], [450], 'refuse')).toEqual({ value: 220, atEdge: [] });
    expect(interpolate([single], [220], [451], 'refuse')).toHaveProperty('outside');
  });
});

test('[INT6] a table that does not fit its axes is a mistake of the programmer', () => {
  expect(() => interpolate([MASS], [1, 2, 3], [900], 'refuse')).toThrow('2 values expected');
  const falling: Axis = { name: 'mass', unit: 'kg', points: [1000, 800] };
  expect(() => interpolate([falling], [1, 2], [900], 'refuse')).toThrow('must rise');
});
