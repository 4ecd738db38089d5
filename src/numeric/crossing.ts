/**
 * Where does a quantity pass a level between two readings?
 *
 * In: the level and two readings, each where it was taken and what it was. Out: where the straight
 * line between them passes the level.
 */

/** Where it was read (a time, a place) and what was read there. */
export type Reading = readonly [at: number, value: number];

/**
 * Where the straight line between two readings passes a level, rising or falling.
 *
 * Units: `at` as given, value and level in one unit. The readings may come in either order; a reading
 * that is the level itself counts, the first where both are. Fails: null where the level does not lie
 * between the two, or one of them is missing (NaN).
 * Source: linear interpolation, a textbook method.
 * @example crossingAt(5, [10, 0], [12, 20]) // 10.5
 */
export function crossingAt(level: number, from: Reading, to: Reading): number | null {
  const [fromAt, before] = from;
  const [toAt, after] = to;
  if (!(Math.min(before, after) <= level && level <= Math.max(before, after))) return null;
  if (before === level) return fromAt;
  return fromAt + ((level - before) / (after - before)) * (toAt - fromAt);
}
