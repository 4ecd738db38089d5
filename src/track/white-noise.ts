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
  const differences: number[] = [];
  for (let i = 3; i < column.length; i++) {
    if (Math.abs(timeS[i] - timeS[i - 3] - 3 * intervalS) > 0.1 * intervalS) continue;
    const d = column[i] - 3 * column[i - 1] + 3 * column[i - 2] - column[i - 3];
    if (!Number.isNaN(d)) differences.push(Math.abs(d));
  }
  if (differences.length < 12) return NaN;
  const sorted = Float64Array.from(differences).sort();
  const used = Math.floor(sorted.length * KEPT_SHARE);
  let sum = 0;
  for (let i = 0; i < used; i++) sum += sorted[i];
  return sum / used / TRIMMED_MEAN_OF_NORMAL / Math.sqrt(20);
}

const KEPT_SHARE = 0.9;
/** Mean of |z| over the smallest nine tenths of |z| for a standard normal z: 2 (phi(0) - phi(1.645)) / 0.9. */
const TRIMMED_MEAN_OF_NORMAL = 0.65735;

/**
 * What times cut to whole seconds are off by, seconds (one sd); 0 where nothing says that they were cut.
 *
 * A recorder that fixes every 4.5 s and writes whole seconds leaves steps of 4 and 5 s in turn. Steps of 1
 * and 2 s are left alone: those of a log once a second that lost fixes.
 */
export function cutTimesSdS(timeS: Float64Array, timeStepS: number): number {
  if (timeStepS < 1 || timeS.length < LEAST_STEPS) return 0;
  const steps = timeS.slice(1).map((t, k) => Math.round(t - timeS[k]));
  steps.sort();
  const short = steps[Math.floor(ENDS_SHARE * steps.length)];
  const long = steps[Math.ceil((1 - ENDS_SHARE) * steps.length) - 1];
  return short >= 2 && long === short + 1 ? 1 / Math.sqrt(12) : 0;
}

const LEAST_STEPS = 20;
/** Both steps make up more than this share of all; what is left may be holes. */
const ENDS_SHARE = 0.1;

/** A number, or another one where it is NaN. */
export function numberOr(value: number, otherwise: number): number {
  return Number.isNaN(value) ? otherwise : value;
}
