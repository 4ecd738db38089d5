/**
 * How much of the wind blows along the strip and how much across it?
 *
 * Inputs: direction the wind blows from and bearing of the strip, both degrees true, and a speed.
 * Outputs: components in the unit of the speed.
 * Source: resolution of a vector; the sign habits are stated at each field.
 */

/** A wind as seen from an aircraft facing along a bearing, in the unit of the wind speed. */
export interface WindComponents {
  /** Along the bearing: positive is a headwind, negative a tailwind. */
  readonly headwindMps: number;
  /** Across the bearing: positive blows from the right, negative from the left. */
  readonly crosswindMps: number;
}

/**
 * Splits a wind into head and cross components.
 *
 * Units: degrees true and metres a second. Fails: NaN in gives NaN out.
 * @example windComponents(300, 10, 270) // headwind 8.66, crosswind 5 from the right
 */
export function windComponents(
  fromTrueDeg: number,
  speedMps: number,
  bearingTrueDeg: number,
): WindComponents {
  const offRad = ((fromTrueDeg - bearingTrueDeg) * Math.PI) / 180;
  return {
    headwindMps: speedMps * Math.cos(offRad),
    crosswindMps: speedMps * Math.sin(offRad),
  };
}
