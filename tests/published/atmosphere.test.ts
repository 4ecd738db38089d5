/**
 * Published figures of the standard atmosphere.
 *
 * Sources: the ICAO standard atmosphere (Doc 7488; the U.S. Standard Atmosphere 1976 is the same
 * below 11 km): constants from memory, table rows recomputed by hand from them; and the worked
 * density-altitude problem of FAA-H-8083-25A, Pilot's Handbook of Aeronautical Knowledge (2008),
 * chapter 10, Sample Problem 1, read.
 */

import { describe, expect, test } from 'vitest';
import {
  densityAltitudeM,
  densityRatio,
  pressureAltitudeAtM,
  pressureAltitudeM,
  STANDARD_PRESSURE_PA,
  standardPressurePa,
  standardTempC,
} from '../../src/atmosphere/standard-atmosphere.ts';
import { METRES_PER_FOOT, PA_PER_HPA, PA_PER_INHG } from '../../src/units/convert.ts';
import { expectNear } from '../expect-near.ts';

// Feet (geopotential), degrees Celsius, hectopascals, inches of mercury, delta, sigma.
const ROWS = [
  [0, 15.0, 1013.25, 29.921, 1, 1],
  [1000, 13.019, 977.166, 28.856, 0.96439, 0.97106],
  [2000, 11.038, 942.129, 27.821, 0.92981, 0.94277],
  [5000, 5.094, 843.073, 24.896, 0.83205, 0.86167],
  [8000, -0.85, 752.624, 22.225, 0.74278, 0.78602],
] as const;

describe('[ATM1] standard atmosphere, Doc 7488', () => {
  test.each(ROWS)('[ATM1] gives the table row of %d ft', (ft, tempC, hPa, inHg, delta, sigma) => {
    const heightM = ft * METRES_PER_FOOT;
    const pressurePa = standardPressurePa(heightM);
    // Half a digit of the last place printed, a little more where a rounding falls on a half.
    expectNear(standardTempC(heightM), tempC, 0.0006, 'temperature');
    expectNear(pressurePa / PA_PER_HPA, hPa, 0.0006, 'pressure');
    expectNear(pressurePa / PA_PER_INHG, inHg, 0.0006, 'inches of mercury');
    expectNear(pressurePa / STANDARD_PRESSURE_PA, delta, 0.000006, 'delta');
    expectNear(densityRatio(heightM, standardTempC(heightM)), sigma, 0.000006, 'sigma');
  });

  test.each([
    [1000, 898.746],
    [3000, 701.085],
  ])('[ATM1] gives the pressure at geopotential %d m', (heightM, hPa) => {
    expectNear(standardPressurePa(heightM) / PA_PER_HPA, hPa, 0.0006, 'pressure');
  });

  test('[ATM2] finds the pressure altitude that has a pressure, both ways', () => {
    for (const heightM of [-400, 0, 152.4, 1000, 4500]) {
      expectNear(pressureAltitudeM(standardPressurePa(heightM)), heightM, 1e-6, `${heightM} m`);
    }
  });
});

describe("[ATM3] Pilot's Handbook of Aeronautical Knowledge, Sample Problem 1", () => {
  // Elevation 5,883 ft, 70 degrees F, altimeter setting 30.10 inHg.
  const elevationM = 5883 * METRES_PER_FOOT;
  const tempC = ((70 - 32) * 5) / 9;

  test('[ATM3] gets pressure altitude 5,718 ft from elevation and altimeter setting', () => {
    const found = pressureAltitudeAtM(elevationM, 30.1 * PA_PER_INHG) / METRES_PER_FOOT;
    // The book takes -165 ft from a table in steps of 0.1 inHg, rounded to whole feet.
    expectNear(found, 5718, 1, 'pressure altitude');
  });

  test('[ATM4] gets a density altitude of about 7,700 ft', () => {
    const pressureAltitude = pressureAltitudeAtM(elevationM, 30.1 * PA_PER_INHG);
    const found = densityAltitudeM(pressureAltitude, tempC) / METRES_PER_FOOT;
    // The book reads a chart to the nearest 100 ft; dry air by the formula is 7,709 ft.
    expectNear(found, 7700, 50, 'density altitude');
    expectNear(found, 7709, 1.5, 'density altitude by the formula');
  });
});

describe('[ATM6] the metric tables and the rules of thumb', () => {
  test.each([
    [1000, 898.763],
    [3000, 701.211],
  ])('[ATM6] gives the pressure at geometric %d m', (geometricM, hPa) => {
    // Doc 7488: geopotential height H = r Z / (r + Z), r = 6,356,766 m (from memory), recomputed.
    const geopotentialM = (6_356_766 * geometricM) / (6_356_766 + geometricM);
    expectNear(standardPressurePa(geopotentialM) / PA_PER_HPA, hPa, 0.0006, 'pressure');
  });

  test('[ATM7] agrees with 120 ft of density altitude for each degree over standard, to 100 ft', () => {
    // A rule of thumb (FAA training texts, from memory), good to a hundred feet in light-aircraft air.
    for (const [altitudeFt, overC] of [
      [0, 10],
      [2000, 15],
      [5718, 20.1 - 3.7],
    ]) {
      const heightM = altitudeFt * METRES_PER_FOOT;
      const found = densityAltitudeM(heightM, standardTempC(heightM) + overC) / METRES_PER_FOOT;
      expectNear(found, altitudeFt + 120 * overC, 100, `${altitudeFt} ft and ${overC} degrees`);
    }
  });

  test('[ATM7] loses 1.98 degrees in 1,000 ft; a hectopascal is 27 to 30 ft, an inch of mercury near 1,000', () => {
    const perFoot = standardTempC(0) - standardTempC(1000 * METRES_PER_FOOT);
    expectNear(perFoot, 1.98, 0.005, 'degrees');
    const feetFor = (pascals: number, fromPa: number): number =>
      (pressureAltitudeM(fromPa - pascals) - pressureAltitudeM(fromPa)) / METRES_PER_FOOT;
    for (const fromPa of [101_325, 95_000]) {
      const feet = feetFor(PA_PER_HPA, fromPa);
      expect(feet).toBeGreaterThan(27);
      expect(feet).toBeLessThan(30);
    }
    // The rule rounds 925 ft up; the book's table is used to 1 % elsewhere.
    expectNear(feetFor(PA_PER_INHG, 101_325), 1000, 80, 'inch of mercury');
  });
});

test('[ATM5] hot air, high ground and low pressure each thin the air', () => {
  const base = densityRatio(300, 15);
  expect(densityRatio(300, 25)).toBeLessThan(base);
  expect(densityRatio(600, 15)).toBeLessThan(base);
  expect(pressureAltitudeAtM(300, 99_000)).toBeGreaterThan(300);
});
