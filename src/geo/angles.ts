/**
 * How do angles and compass directions wrap, differ and average?
 *
 * In and out: degrees, clockwise from north where they are directions. NaN in gives NaN out.
 * Source: definitions; the mean direction is the direction of the resultant vector (common
 * practice in directional statistics, from memory).
 */

/** Radians in a degree. */
export const RAD_PER_DEG = Math.PI / 180;
/** Degrees in a radian. */
export const DEG_PER_RAD = 180 / Math.PI;

/**
 * Wraps a direction into 0 <= angle < 360.
 *
 * Units: degrees. Fails: NaN or an infinite angle gives NaN.
 * @example wrap360(-90) // 270
 */
export function wrap360(angleDeg: number): number {
  const wrapped = angleDeg % 360;
  if (wrapped >= 0) return wrapped + 0;
  // A tiny negative angle plus 360 rounds to 360 itself, which is 0.
  const lifted = wrapped + 360;
  return lifted < 360 ? lifted : lifted - 360;
}

/**
 * Wraps an angle into -180 <= angle < 180.
 *
 * Units: degrees. Fails: NaN or an infinite angle gives NaN.
 * @example wrap180(270) // -90
 */
export function wrap180(angleDeg: number): number {
  const wrapped = angleDeg % 360;
  if (wrapped >= 180) return wrapped - 360;
  if (wrapped < -180) return wrapped + 360;
  return wrapped + 0;
}

/**
 * The turn that leads from one direction to another by the shorter way, positive clockwise.
 *
 * Units: degrees, -180 <= turn < 180. Fails: NaN where either is NaN or infinite.
 * @example signedDifferenceDeg(350, 10) // 20
 */
export function signedDifferenceDeg(fromDeg: number, toDeg: number): number {
  return wrap180((toDeg % 360) - (fromDeg % 360));
}

/** A mean direction and how well the directions agree. */
export interface MeanDirection {
  /** Degrees, 0 <= direction < 360; NaN where there is none. */
  readonly directionDeg: number;
  /** Length of the mean of the unit vectors: 1 where all agree, 0 where they cancel out. */
  readonly concentration: number;
}

/**
 * The mean of directions, as the direction of the sum of their unit vectors.
 *
 * Units: degrees. Shape: `weights`, where given, has the length of `directionsDeg`. Missing
 * directions (NaN) are left out.
 * Fails: throws on unequal lengths; NaN direction where no direction is left or they cancel out.
 * @example meanDirection([350, 10]).directionDeg // 0
 */
export function meanDirection(
  directionsDeg: ArrayLike<number>,
  weights?: ArrayLike<number>,
): MeanDirection {
  if (weights && weights.length !== directionsDeg.length) {
    throw new Error(`${directionsDeg.length} directions but ${weights.length} weights`);
  }
  let east = 0;
  let north = 0;
  let total = 0;
  for (let i = 0; i < directionsDeg.length; i++) {
    const angle = directionsDeg[i] * RAD_PER_DEG;
    const weight = weights ? weights[i] : 1;
    if (Number.isNaN(angle)) continue;
    east += weight * Math.sin(angle);
    north += weight * Math.cos(angle);
    total += weight;
  }
  const concentration = total > 0 ? Math.hypot(east, north) / total : 0;
  if (concentration < CANCELLED) return { directionDeg: NaN, concentration: 0 };
  return { directionDeg: wrap360(Math.atan2(east, north) * DEG_PER_RAD), concentration };
}

/** Below this the unit vectors cancel out but for rounding, and the direction of the rest means nothing. */
const CANCELLED = 1e-12;
