/**
 * Which fixes lie over an avoid area?
 *
 * In: an area as kept; positions as columns of degrees. Out: a mask. Height plays no part here.
 * The edges of an area are straight in degrees, which is what RFC 7946 (section 3.1.1) says.
 */

import { booleanPointInPolygon } from '@turf/boolean-point-in-polygon';
import type { AvoidArea } from './strip.ts';

/**
 * Marks the positions over an area, its edge included and its holes left out.
 *
 * Units: degrees. Shape: a slot for each fix, 1 inside and 0 outside or where the position is
 * missing. An area across the 180th meridian must be given as two, as RFC 7946 (3.1.9) asks.
 * Fails: throws on unequal lengths.
 */
export function insideAvoidArea(
  area: AvoidArea,
  latDeg: Float64Array,
  lonDeg: Float64Array,
): Uint8Array {
  if (latDeg.length !== lonDeg.length) {
    throw new Error(`${latDeg.length} latitudes but ${lonDeg.length} longitudes`);
  }
  const polygon = {
    type: 'Polygon' as const,
    coordinates: area.rings.map((ring) => ring.map(([lon, lat]) => [lon, lat])),
  };
  const inside = new Uint8Array(latDeg.length);
  for (let i = 0; i < latDeg.length; i++) {
    if (Number.isNaN(latDeg[i]) || Number.isNaN(lonDeg[i])) continue;
    if (booleanPointInPolygon([lonDeg[i], latDeg[i]], polygon)) inside[i] = 1;
  }
  return inside;
}
