/**
 * How are columns of numbers made, checked and cut?
 *
 * A column is a typed array with a slot for every point. A missing value is NaN in its own slot, so
 * that columns never slip against each other; zero is a value.
 */

/**
 * The length that all columns share.
 *
 * Shape: columns by name. Fails: throws where two differ, naming them with their lengths; throws
 * where there is no column.
 * @example equalLength({ timeS, heightM }) // 3600
 */
export function equalLength(columns: Readonly<Record<string, ArrayLike<unknown>>>): number {
  const entries = Object.entries(columns);
  if (entries.length === 0) throw new Error('no columns, so no length');
  const [firstName, first] = entries[0];
  for (const [name, column] of entries) {
    if (column.length !== first.length) {
      throw new Error(`${firstName} has ${first.length} slots but ${name} has ${column.length}`);
    }
  }
  return first.length;
}

/** A column of missing values. Shape: `length` slots of NaN. */
export function missingColumn(length: number): Float64Array {
  return new Float64Array(length).fill(NaN);
}

/** True where at least one slot of the column holds a value. */
export function hasValues(column: Float64Array): boolean {
  return column.some((value) => !Number.isNaN(value));
}

/**
 * The same range of every column, as copies.
 *
 * Shape: slots `from` to just before `to`, 0 <= from <= to <= length. Fails: throws on a range that
 * does not lie within the columns, and on unequal columns.
 * @example sliceColumns({ timeS, heightM }, 10, 20)
 */
export function sliceColumns<K extends string>(
  columns: Readonly<Record<K, Float64Array>>,
  from: number,
  to: number,
): Record<K, Float64Array> {
  const length = equalLength(columns);
  if (!(from >= 0 && from <= to && to <= length)) {
    throw new Error(`the range ${from} to ${to} does not lie within 0 to ${length}`);
  }
  const names = Object.keys(columns) as K[];
  const pairs = names.map((name) => [name, columns[name].slice(from, to)] as const);
  return Object.fromEntries(pairs) as Record<K, Float64Array>;
}

/** Mean and standard deviation of the values of a column. */
export interface Spread {
  /** How many slots held a value. */
  readonly count: number;
  readonly mean: number;
  /** Sample standard deviation (divisor count - 1); NaN for fewer than two values. */
  readonly sd: number;
}

/**
 * Mean and sample standard deviation, missing values left out.
 *
 * Units: those of the column. Source: the corrected two-pass algorithm (textbook, from memory): the
 * second pass sums deviations as well as their squares and so takes out the mean's own rounding.
 * Fails: NaN mean where no slot holds a value.
 */
export function spreadOf(column: ArrayLike<number>): Spread {
  let count = 0;
  let sum = 0;
  for (let i = 0; i < column.length; i++) {
    if (Number.isNaN(column[i])) continue;
    count += 1;
    sum += column[i];
  }
  const roughMean = sum / count;
  let deviations = 0;
  let squares = 0;
  for (let i = 0; i < column.length; i++) {
    if (Number.isNaN(column[i])) continue;
    const deviation = column[i] - roughMean;
    deviations += deviation;
    squares += deviation * deviation;
  }
  const variance = (squares - (deviations * deviations) / count) / (count - 1);
  return {
    count,
    mean: roughMean + deviations / count,
    sd: count > 1 ? Math.sqrt(variance) : NaN,
  };
}
