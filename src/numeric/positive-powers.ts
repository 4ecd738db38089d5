/** Powers of what is above zero: integrals of a ramp that begins at zero, up to a factor. */

/** The square of what is above zero. */
export function positiveSquare(u: number): number {
  return u > 0 ? u * u : 0;
}

/** The cube of what is above zero. */
export function positiveCube(u: number): number {
  return u > 0 ? u * u * u : 0;
}
