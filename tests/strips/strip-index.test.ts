import { describe, expect, test } from 'vitest';
import { createLocalFrame } from '../../src/geo/local-frame.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { findNearStrips } from '../../src/strips/strip-index.ts';
import { expectNear } from '../expect-near.ts';
import { readBook, stripFeature, stripsFile } from './invented-strip.ts';

const book = readBook(
  stripsFile(
    stripFeature({ id: 'sedge', name: 'Sedge' }, [
      [2.3, 54.7],
      [2.306, 54.7],
    ]),
    stripFeature({ id: 'oyster', name: 'Oyster' }, [
      [2.5, 54.8],
      [2.5, 54.804],
    ]),
  ),
);
/** Middle of Sedge, and metres about it. */
const about = createLocalFrame(54.7, 2.303);

/** A track that runs due east through the middle of Sedge, one fix a kilometre. */
function eastward(kilometres: readonly number[]) {
  const points = kilometres.map((km) => about.toLatLon(1000 * km, 0));
  return {
    latDeg: Float64Array.from(points, (point) => point.latDeg),
    lonDeg: Float64Array.from(points, (point) => point.lonDeg),
  };
}

describe('strips near a track', () => {
  test('[SI1] finds the strip and the fixes near it, as a half-open range', () => {
    const { latDeg, lonDeg } = eastward([-5, -4, -3, -2, -1, 0, 1, 2, 3, 4]);
    const near = findNearStrips(book.strips, latDeg, lonDeg, 2000);
    expect(near.map((each) => each.strip.id)).toEqual(['sedge']);
    // The circle about the 387 m strip has a radius of 193 m.
    expect(near[0].ranges).toEqual([{ from: 3, to: 8 }]);
    // The strip is a chord of its parallel, which bows 4 mm off it.
    expectNear(near[0].nearestM, 0, 0.01);
  });

  test('[SI2] two visits are two ranges, and a missing fix does not end one', () => {
    const { latDeg, lonDeg } = eastward([9, 1, 0, 1, 9, 9, 2, 9]);
    latDeg[2] = NaN;
    const near = findNearStrips(book.strips, latDeg, lonDeg, 2000);
    expect(near[0].ranges).toEqual([
      { from: 1, to: 4 },
      { from: 6, to: 7 },
    ]);
  });

  test('[SI3] the nearest strip comes first, a far one not at all', () => {
    const { latDeg, lonDeg } = eastward([0, 5, 10]);
    const all = findNearStrips(book.strips, latDeg, lonDeg, 30_000);
    expect(all.map((each) => each.strip.id)).toEqual(['sedge', 'oyster']);
    expect(findNearStrips(book.strips, latDeg, lonDeg, 100)).toHaveLength(1);
    expect(findNearStrips(book.strips, new Float64Array(0), new Float64Array(0), 9e9)).toEqual([]);
    expect(() => findNearStrips(book.strips, latDeg, new Float64Array(1), 1)).toThrow(
      '3 latitudes',
    );
  });

  test('[SI4] agrees with measuring every fix, over the 180th meridian too (seed 5)', () => {
    const random = createRandom(5);
    for (const [lat, lon] of [
      [54.7, 2.3],
      [-17, 179.9999],
      [85, -60],
    ]) {
      const end = createLocalFrame(lat, lon).toLatLon(300, 200);
      const [strip] = readBook(
        stripsFile(
          stripFeature({}, [
            [lon, lat],
            [end.lonDeg, end.latDeg],
          ]),
        ),
      ).strips;
      const middle = createLocalFrame(lat, lon).toLatLon(150, 100);
      const frame = createLocalFrame(middle.latDeg, middle.lonDeg);
      for (let i = 0; i < 300; i++) {
        const [east, north] = [6000 * (random.uniform() - 0.5), 6000 * (random.uniform() - 0.5)];
        const point = frame.toLatLon(east, north);
        const limitM = Math.hypot(150, 100) + 2000;
        const isNear = Math.hypot(east, north) <= limitM;
        const found = findNearStrips(
          [strip],
          Float64Array.of(point.latDeg),
          Float64Array.of(point.lonDeg),
          2000,
        );
        expect(found.length, `${east} ${north} from ${lat} ${lon}`).toBe(isNear ? 1 : 0);
      }
    }
  });
});
