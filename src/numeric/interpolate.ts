/**
 * What does a table say between its rows? Linear in one, two or three variables.
 *
 * Inputs: axes with rising points and the table's values in one flat array, the last axis running
 * fastest. Outputs: the value, or which variable lies outside and what the table covers.
 * Never extrapolates: a table outside its rows is silent. The nearest edge is used only on
 * request, and the answer says so.
 */

/** One variable of a table: its name and unit for messages, and its rising points. */
export interface Axis {
  readonly name: string;
  readonly unit: string;
  readonly points: readonly number[];
}

/** What to do outside the table: refuse, or read it at the nearest edge and say so. */
export type EdgeRule = 'refuse' | 'nearest';

/** A variable outside the table: what was given, and the range the table covers. */
export interface OutsideAxis {
  readonly name: string;
  readonly unit: string;
  readonly given: number;
  readonly low: number;
  readonly high: number;
}

/**
 * A value from a table. `atEdge` lists the variables moved to the nearest edge (empty inside).
 * Where the rule is to refuse and something lies outside, `outside` lists it and there is no value.
 */
export type Interpolated =
  | { readonly value: number; readonly atEdge: readonly OutsideAxis[] }
  | { readonly outside: readonly OutsideAxis[] };

/**
 * Reads a table of one, two or three variables by linear interpolation along each.
 *
 * @param axes one to three, each with strictly rising points; one point alone covers only itself
 * @param values flat, the last axis fastest: index = (i0 * n1 + i1) * n2 + i2
 * @param at the variables, in the order of the axes, in the axes' units
 * Fails: `outside` as above (NaN counts as outside); throws where axes and values do not fit.
 * Source: multilinear interpolation, a textbook method.
 * @example interpolate([{ name: 'height', unit: 'ft', points: [0, 10] }], [1, 3], [5], 'refuse')
 */
export function interpolate(
  axes: readonly Axis[],
  values: ArrayLike<number>,
  at: readonly number[],
  edge: EdgeRule,
): Interpolated {
  checkShape(axes, values, at);
  const outside = axes
    .map((axis, i) => outsideOf(axis, at[i]))
    .filter((found): found is OutsideAxis => found !== null);
  const unusable = edge === 'refuse' ? outside : outside.filter((axis) => Number.isNaN(axis.given));
  if (unusable.length > 0) return { outside: unusable };
  const places = axes.map((axis, i) => placeOn(axis.points, at[i]));
  return { value: blend(axes, values, places, 0, 0), atEdge: outside };
}

/** A place between two points of an axis: index of the lower one and the share of the way up. */
interface Place {
  readonly lower: number;
  readonly share: number;
}

/** Blends along one axis after the other; `offset` is the flat index built so far. */
function blend(
  axes: readonly Axis[],
  values: ArrayLike<number>,
  places: readonly Place[],
  depth: number,
  offset: number,
): number {
  if (depth === axes.length) return values[offset];
  const size = axes[depth].points.length;
  const { lower, share } = places[depth];
  const low = blend(axes, values, places, depth + 1, offset * size + lower);
  if (share === 0) return low;
  const high = blend(axes, values, places, depth + 1, offset * size + lower + 1);
  return low + share * (high - low);
}

function placeOn(points: readonly number[], at: number): Place {
  const last = points.length - 1;
  if (at <= points[0]) return { lower: 0, share: 0 };
  if (at >= points[last]) return { lower: last, share: 0 };
  let lower = 0;
  while (points[lower + 1] <= at) lower++;
  return { lower, share: (at - points[lower]) / (points[lower + 1] - points[lower]) };
}

function outsideOf(axis: Axis, given: number): OutsideAxis | null {
  const low = axis.points[0];
  const high = axis.points[axis.points.length - 1];
  if (given >= low && given <= high) return null;
  return { name: axis.name, unit: axis.unit, given, low, high };
}

function checkShape(axes: readonly Axis[], values: ArrayLike<number>, at: readonly number[]): void {
  if (axes.length < 1 || axes.length > 3) throw new Error('a table has one to three variables');
  if (at.length !== axes.length) throw new Error('one figure is needed for each variable');
  let size = 1;
  for (const axis of axes) {
    size *= axis.points.length;
    const rising = axis.points.every((point, i) => i === 0 || point > axis.points[i - 1]);
    if (axis.points.length === 0 || !rising) throw new Error(`${axis.name}: points must rise`);
  }
  if (values.length !== size) throw new Error(`${size} values expected, ${values.length} given`);
}
