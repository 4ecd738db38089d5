/**
 * Local frame and short lines against published geodesics.
 *
 * Sources:
 * - GeodTest: test set for geodesics on WGS 84, Zenodo record 32156; lines 76 to 397 m long, rounded
 *   to a double. Length tolerance: the digits given (1e-7 m).
 * - The line of the 1975 paper on direct and inverse solutions of geodesics (Survey Review XXIII,
 *   176), 55 km; published to 1 mm and 0.01 second of arc, often run on WGS 84.
 * - geographiclib-geodesic 2.2.0 (MIT), a reference library, itself checked here against GeodTest.
 * - Length of a degree at 52 degrees north: series for the radii of curvature (calculated).
 */

import geographiclib from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import { signedDifferenceDeg } from '../../src/geo/angles.ts';
import { createLocalFrame, shortLine } from '../../src/geo/local-frame.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

const WGS84 = geographiclib.Geodesic.WGS84;

const GEODTEST = [
  {
    lat1: 19.707097385334,
    azi1: 20.996796804557,
    lat2: 19.707739582810255,
    lon2: 0.000260256428101053,
    azi2: 20.996884567489086,
    s12: 76.1478894,
  },
  {
    lat1: 23.104245923137,
    azi1: 108.788775202534,
    lat2: 23.103520430280494,
    lon2: 0.002305237470119087,
    azi2: null,
    s12: 249.4508219,
  },
  {
    lat1: 78.10174623178,
    azi1: 124.870465352256,
    lat2: 78.09971103163879,
    lon2: 0.014156770744057927,
    azi2: null,
    s12: 397.364659,
  },
];

describe('short lines of the GeodTest set', () => {
  for (const line of GEODTEST) {
    test(`[GEO1] measures the published line of ${line.s12} m and its bearing`, () => {
      const measured = shortLine(line.lat1, 0, line.lat2, line.lon2);
      // The published length has 7 decimals; the far position is rounded far below that.
      expectNear(measured.lengthM, line.s12, 1e-7, 'length');
      expectNear(measured.bearingDeg, line.azi1, 1e-7, 'bearing');
      if (line.azi2 !== null) {
        const back = shortLine(line.lat2, line.lon2, line.lat1, 0);
        expectNear(back.bearingDeg, line.azi2 + 180, 1e-7, 'bearing back');
      }
    });

    test(`[GEO2] puts the end of the published line of ${line.s12} m on its bearing`, () => {
      const { eastM, northM } = createLocalFrame(line.lat1, 0).toEastNorthPoint(
        line.lat2,
        line.lon2,
      );
      const radians = (line.azi1 * Math.PI) / 180;
      // A plane shortens 400 m by 0.3 micrometres.
      expectNear(eastM, line.s12 * Math.sin(radians), 1e-6, 'east');
      expectNear(northM, line.s12 * Math.cos(radians), 1e-6, 'north');
    });
  }

  test('[GEO3] the reference library gives the published 9398 km line', () => {
    const row = WGS84.Inverse(36.530042355041, 0, -48.16427077909777, 5.762344694676511);
    expectNear(row.s12 ?? NaN, 9398502.0434687, 1e-6, 'length');
    expectNear(row.azi1 ?? NaN, 176.125875162171, 1e-9, 'azimuth');
  });
});

test('[GEO4] measures the 55 km Australian line within 5 mm', () => {
  const degrees = (d: number, m: number, s: number) => d + m / 60 + s / 3600;
  const line = shortLine(
    -degrees(37, 57, 3.7203),
    degrees(144, 25, 29.5244),
    -degrees(37, 39, 10.1561),
    degrees(143, 55, 35.3839),
  );
  // Far beyond a strip: the chord's correction with one radius leaves 2 to 3 mm.
  expectNear(line.lengthM, 54972.271, 0.005, 'length');
  expectNear(line.bearingDeg, degrees(306, 52, 5.37), 0.02 / 3600, 'bearing');
});

test('[GEO5] gives the length of a degree at 52 degrees north', () => {
  // The plane shortens each half of the degree by s^3 / 6 R^2, 0.706 m with R of 6375 km.
  const north = createLocalFrame(52, 2).toEastNorthPoint(52.5, 2).northM;
  const south = createLocalFrame(52, 2).toEastNorthPoint(51.5, 2).northM;
  expectNear(north - south, 111267.35 - 2 * 0.706, 0.02, 'degree of latitude');
  const small = createLocalFrame(52, 2).toEastNorthPoint(52, 2.001);
  expectNear(small.eastM, 68.67802, 1e-5, 'thousandth of a degree of longitude');
});

describe('random lines against the reference library', () => {
  const cases = [
    // The plane's own shortening, s^3 / 6 R^2, is the tolerance's main part.
    { lengthM: 500, planeM: 1e-5, lengthTolM: 1e-7 },
    { lengthM: 2000, planeM: 1e-4, lengthTolM: 1e-6 },
    { lengthM: 20000, planeM: 0.04, lengthTolM: 0.001 },
  ];
  for (const { lengthM, planeM, lengthTolM } of cases) {
    test(`[GEO6] agrees over ${lengthM} m anywhere on the globe (seed 7)`, () => {
      const random = createRandom(7);
      for (let i = 0; i < 500; i++) {
        const lat = -88 + 176 * random.uniform();
        const lon = -180 + 360 * random.uniform();
        const azimuth = 360 * random.uniform();
        const end = WGS84.Direct(lat, lon, azimuth, lengthM);
        const [lat2, lon2] = [end.lat2 ?? NaN, end.lon2 ?? NaN];

        const line = shortLine(lat, lon, lat2, lon2);
        expectNear(line.lengthM, lengthM, lengthTolM, 'length');
        expectNear(signedDifferenceDeg(azimuth, line.bearingDeg), 0, 0.0001, 'bearing');

        const frame = createLocalFrame(lat, lon);
        const { eastM, northM } = frame.toEastNorthPoint(lat2, lon2);
        const radians = (azimuth * Math.PI) / 180;
        expectNear(eastM, lengthM * Math.sin(radians), planeM, 'east');
        expectNear(northM, lengthM * Math.cos(radians), planeM, 'north');

        const back = frame.toLatLon(eastM, northM);
        // 1e-11 degrees is a micrometre.
        expectNear(back.latDeg, lat2, 1e-11, 'latitude back');
        expectNear(signedDifferenceDeg(lon2, back.lonDeg), 0, 1e-10, 'longitude back');
      }
    });
  }

  test('[GEO7] a length at 1500 m elevation is longer by the ratio of the radii', () => {
    const end = WGS84.Direct(47, 10, 60, 1000);
    const line = shortLine(47, 10, end.lat2 ?? NaN, end.lon2 ?? NaN, 1500);
    // 1500 m over a radius of 6.38e6 m, which bearing and latitude change by 0.2 %: 0.5 mm.
    expectNear(line.lengthM, 1000 * (1 + 1500 / 6.38e6), 0.0015, 'length');
    expect(line.lengthM).toBeGreaterThan(1000.23);
  });
});
