/**
 * How far does magnetic north lie from true north, at a place and a time?
 *
 * Inputs: WGS 84 position, height above the ellipsoid in metres, UTC seconds since 1970.
 * Output: variation in degrees, positive where magnetic north lies east of true north, so that
 * true = magnetic + variation.
 * Source: the World Magnetic Model 2025 (NOAA NCEI and the British Geological Survey), as carried
 * by the geomagnetism package. The model serves 2025.0 to 2030.0 and is refused outside.
 */

import geomagnetism from 'geomagnetism';
import { undetermined, type Undetermined } from '../result.ts';

const MODEL_START_MS = Date.UTC(2025, 0, 1);
const MODEL_END_MS = Date.UTC(2030, 0, 1);

// The package gives its model up to five years after publication (November 2029). The field
// changes at a constant rate within the model's years, so the last weeks are continued from two
// moments inside.
const LAST_PACKAGE_MS = Date.UTC(2029, 9, 1);
const ONE_YEAR_MS = 365 * 86_400_000;

/**
 * Magnetic variation (declination) by the World Magnetic Model 2025.
 *
 * Units: degrees; height in metres above the ellipsoid; time in UTC seconds since 1970.
 * Fails: undetermined outside the model's years or for a position that is not on the globe.
 * Accuracy: about 0.4 degrees (one standard deviation, the model's own statement, from memory),
 * worse near iron in the ground.
 */
export function magneticVariationDeg(
  latDeg: number,
  lonDeg: number,
  heightM: number,
  timeS: number,
): number | Undetermined {
  const timeMs = timeS * 1000;
  if (!(timeMs >= MODEL_START_MS && timeMs < MODEL_END_MS)) {
    return undetermined(
      'the magnetic model at hand (WMM2025) serves the years 2025 to 2029 and the date lies outside',
    );
  }
  if (!(Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 360 && Number.isFinite(heightM))) {
    return undetermined('the position is not on the globe, so magnetic variation is not known');
  }
  if (timeMs <= LAST_PACKAGE_MS) return declinationAt(latDeg, lonDeg, heightM, timeMs);
  const late = declinationAt(latDeg, lonDeg, heightM, LAST_PACKAGE_MS);
  const yearBefore = declinationAt(latDeg, lonDeg, heightM, LAST_PACKAGE_MS - ONE_YEAR_MS);
  return late + ((late - yearBefore) * (timeMs - LAST_PACKAGE_MS)) / ONE_YEAR_MS;
}

function declinationAt(latDeg: number, lonDeg: number, heightM: number, timeMs: number): number {
  const model = geomagnetism.model(new Date(timeMs));
  return model.point([latDeg, lonDeg, heightM / 1000]).decl;
}
