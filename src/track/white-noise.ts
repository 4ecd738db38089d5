/** How noisy is a column of a log, as the column itself tells? */

/** Most white noise believed, metres: beyond it the third differences of a slow log are the flight's own turns. */
export const MOST_NOISE_SD_M = 5;

/**
 * White noise of an evenly sampled column from its third differences, in the column's unit.
 *
 * Mean absolute third difference with the largest tenth left out, scaled to a standard deviation
 * for normal noise: whole-metre steps do not make it jump as a median would.
 * @returns NaN where fewer than 12 even runs of four values exist.
 */
export function thirdDifferenceSd(
  timeS: Float64Array,
  column: Float64Array,
  intervalS: number,
): number {
  const sizes = new Float64Array(column.length);
  let count = 0;
  for (let i = 3; i < column.length; i++) {
    if (Math.abs(timeS[i] - timeS[i - 3] - 3 * intervalS) > 0.1 * intervalS) continue;
    const d = column[i] - 3 * column[i - 1] + 3 * column[i - 2] - column[i - 3];
    if (!Number.isNaN(d)) sizes[count++] = Math.abs(d);
  }
  if (count < 12) return NaN;
  return trimmedSd(sizes.subarray(0, count)) / Math.sqrt(20);
}

/** Standard deviation of normal noise from absolute values, the largest tenth left out. */
export function trimmedSd(sizes: ArrayLike<number>): number {
  const sorted = new Float64Array(sizes).sort();
  const used = Math.floor(sorted.length * KEPT_SHARE);
  let sum = 0;
  for (let i = 0; i < used; i++) sum += sorted[i];
  return sum / used / TRIMMED_MEAN_OF_NORMAL;
}

const KEPT_SHARE = 0.9;
/** Mean of |z| over the smallest nine tenths of |z| for a standard normal z: 2 (phi(0) - phi(1.645)) / 0.9. */
const TRIMMED_MEAN_OF_NORMAL = 0.65735;

/** A number, or another one where it is NaN. */
export function numberOr(value: number, otherwise: number): number {
  return Number.isNaN(value) ? otherwise : value;
}
