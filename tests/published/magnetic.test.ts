/**
 * Published test values of the World Magnetic Model 2025.
 *
 * Sources: WMM2025 test values of NOAA NCEI (100 rows, 2025.0 to 2029.5), as shipped with the
 * geomagnetism package in test/values.csv, read; and declinations of the model's report (six
 * values, quoted). Tolerance 0.006 degrees: the values are printed to 0.01 degrees and the dates
 * are decimal years, which the package turns into days.
 */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { magneticVariationDeg } from '../../src/geo/magnetic.ts';
import { isUndetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';

const TOLERANCE_DEG = 0.006;

function timeOfYear(decimalYear: number): number {
  const year = Math.floor(decimalYear);
  const startMs = Date.UTC(year, 0, 1);
  const lengthMs = Date.UTC(year + 1, 0, 1) - startMs;
  return (startMs + (decimalYear - year) * lengthMs) / 1000;
}

function variation(latDeg: number, lonDeg: number, altKm: number, decimalYear: number): number {
  const found = magneticVariationDeg(latDeg, lonDeg, altKm * 1000, timeOfYear(decimalYear));
  if (isUndetermined(found)) throw new Error(found.undetermined);
  return found;
}

/** Near the magnetic poles the variation turns fast, so differences are taken on the circle. */
function turn(a: number, b: number): number {
  return ((((a - b + 180) % 360) + 360) % 360) - 180;
}

describe('[MAG1] World Magnetic Model 2025', () => {
  test('[MAG1] gives all 100 test values of the model', () => {
    const csv = readFileSync('node_modules/geomagnetism/test/values.csv', 'utf8');
    const rows = csv
      .split(/\r?\n/)
      .slice(1)
      .map((line) => line.split(',').map(Number))
      .filter(([year]) => year >= 2025);
    expect(rows).toHaveLength(100);
    for (const row of rows) {
      const [year, altKm, latDeg, lonDeg] = row;
      const off = turn(variation(latDeg, lonDeg, altKm, year), row[10]);
      expectNear(off, 0, TOLERANCE_DEG, `row ${row.slice(0, 4).join(' ')}`);
    }
  });

  // Year, km, latitude, longitude, declination: rows of the same table, written out.
  test.each([
    [2025.0, 65, 43, 93, 0.5],
    [2025.0, 51, -33, 109, -5.49],
    [2026.0, 69, 23, 63, 1.17],
    [2027.0, 44, 22, 174, 6.46],
    [2027.5, 8, 62, 53, 19.39],
    [2028.0, 49, 20, 167, 5.1],
    [2029.5, 33, 17, 5, 0.89],
    [2025.0, 0, 80, 0, 1.28],
    [2025.0, 0, 0, 120, -0.16],
    [2025.0, 0, -80, 240, 68.78],
    [2027.5, 0, 80, 0, 2.59],
    [2027.5, 0, 0, 120, -0.24],
    [2027.5, 0, -80, 240, 68.49],
  ])('[MAG1] gives the printed value of %d at %d km, %d, %d', (year, km, lat, lon, declination) => {
    expectNear(variation(lat, lon, km, year), declination, TOLERANCE_DEG, 'declination');
  });
});

describe("[MAG2] outside the model's years and the globe", () => {
  test.each([
    ['before 2025', 54.7, 2.3, 2024.99],
    ['from 2030', 54.7, 2.3, 2030],
    ['no latitude', Number.NaN, 2.3, 2026],
    ['latitude 91', 91, 2.3, 2026],
  ])('[MAG2] is undetermined: %s', (_what, lat, lon, year) => {
    expect(isUndetermined(magneticVariationDeg(lat, lon, 0, timeOfYear(year)))).toBe(true);
  });

  test('[MAG2] serves from the first moment of 2025 to the last of 2029, and says so outside', () => {
    const at = (timeS: number) => magneticVariationDeg(54.7, 2.3, 0, timeS);
    expect(isUndetermined(at(Date.UTC(2025, 0, 1) / 1000))).toBe(false);
    expect(isUndetermined(at(Date.UTC(2030, 0, 1) / 1000 - 1))).toBe(false);
    const outside = at(Date.UTC(2030, 0, 1) / 1000);
    expect(isUndetermined(outside) && outside.undetermined).toContain('2025 to 2029');
  });

  test('[MAG3] goes on smoothly through the last weeks of 2029', () => {
    const before = variation(54.7, 2.3, 0, 2029.74);
    const after = variation(54.7, 2.3, 0, 2029.99);
    // The field near Doggerland turns by about 0.2 degrees a year, so 0.05 in a quarter.
    expectNear(after - before, 0.05, 0.03, 'change over a quarter of a year');
  });
});
