/** Distances to lines on a plane, worked by hand. */
import { expect, test } from 'vitest';
import { distanceToLineM } from '../../src/geo/polyline-distance.ts';

const CORNER = { eastM: [0, 100, 100], northM: [0, 0, 50] };

test('[PLD1] beside a piece the distance is square to it, beyond its ends to the corner', () => {
  expect(distanceToLineM(CORNER, 40, 30)).toBeCloseTo(30, 12);
  expect(distanceToLineM(CORNER, -3, -4)).toBeCloseTo(5, 12);
  expect(distanceToLineM(CORNER, 112, 55)).toBeCloseTo(13, 12);
  expect(distanceToLineM(CORNER, 90, 20)).toBeCloseTo(10, 12);
});

test('[PLD2] one corner is a point, none is a mistake', () => {
  expect(distanceToLineM({ eastM: [3], northM: [4] }, 0, 0)).toBe(5);
  expect(() => distanceToLineM({ eastM: [], northM: [] }, 0, 0)).toThrow('corner');
});
