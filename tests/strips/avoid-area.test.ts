import { expect, test } from 'vitest';
import { insideAvoidArea } from '../../src/strips/avoid-area.ts';
import { feature, readBook, stripsFile } from './invented-strip.ts';

const square = (west: number, south: number, size: number) => [
  [west, south],
  [west + size, south],
  [west + size, south + size],
  [west, south + size],
  [west, south],
];
/** A square of 0.1 degree with a hole of 0.02 degree in its middle. */
const [area] = readBook(
  stripsFile(
    feature({ kind: 'avoid', name: 'Saltcote' }, 'Polygon', [
      square(2.3, 54.7, 0.1),
      square(2.34, 54.74, 0.02),
    ]),
  ),
).avoidAreas;

test('[AV1] marks what is inside, not the hole, not the missing fix', () => {
  const lat = Float64Array.of(54.71, 54.75, 54.69, NaN, 54.75, 54.7);
  const lon = Float64Array.of(2.31, 2.35, 2.35, 2.35, 2.41, 2.35);
  // Inside, in the hole, south of it, missing, east of it, on the edge.
  expect([...insideAvoidArea(area, lat, lon)]).toEqual([1, 0, 0, 0, 0, 1]);
});

test('[AV2] columns of different lengths are a mistake of the program', () => {
  expect(() => insideAvoidArea(area, new Float64Array(2), new Float64Array(1))).toThrow(
    '2 latitudes but 1 longitudes',
  );
});
