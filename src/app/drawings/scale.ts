/**
 * From metres, seconds and ratios to CSS pixels and back.
 *
 * In: a range of values and the pixels they span. Out: a scale both ways, and round steps for ticks.
 */

/** A straight or logarithmic scale. */
export interface Scale {
  /** Value to pixel. */
  readonly at: (value: number) => number;
  /** Pixel to value. */
  readonly of: (px: number) => number;
  readonly from: number;
  readonly to: number;
}

/** A straight scale; `fromPx` may lie right of or below `toPx`. Throws on an empty range. */
export function linearScale(from: number, to: number, fromPx: number, toPx: number): Scale {
  if (!(to > from)) throw new Error(`a scale from ${from} to ${to} is empty`);
  const pxPer = (toPx - fromPx) / (to - from);
  return {
    at: (value) => fromPx + (value - from) * pxPer,
    of: (px) => from + (px - fromPx) / pxPer,
    from,
    to,
  };
}

/** A logarithmic scale of positive values. Throws on an empty or non-positive range. */
export function logScale(from: number, to: number, fromPx: number, toPx: number): Scale {
  if (!(from > 0)) throw new Error(`a logarithmic scale cannot begin at ${from}`);
  const logs = linearScale(Math.log(from), Math.log(to), fromPx, toPx);
  return {
    at: (value) => logs.at(Math.log(value)),
    of: (px) => Math.exp(logs.of(px)),
    from,
    to,
  };
}

/** The smallest of 1, 2, 5 times a power of ten that is at least `least`. */
export function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  const found = [1, 2, 5, 10].find((digit) => digit * power >= least * (1 - 1e-9));
  return (found ?? 10) * power;
}

/** Multiples of `step` from `from` to `to`, both included where they are multiples. */
export function multiples(step: number, from: number, to: number): number[] {
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step);
}

/** A pixel to a tenth, as text for a path or an attribute. */
export function px(value: number): string {
  const rounded = Math.round(value * 10) / 10;
  return String(Object.is(rounded, -0) ? 0 : rounded);
}

/** A point of the drawing, pixels. */
export type Point = readonly [number, number];

/** A path through points: `M0 0L1 1`; nothing through none. */
export function pathThrough(points: readonly Point[], close = false): string {
  if (points.length === 0) return '';
  const text = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${px(x)} ${px(y)}`).join('');
  return close ? `${text}Z` : text;
}

/** A path through the points of two columns, broken where either is missing. */
export function columnPath(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  place: (a: number, b: number) => Point,
): string {
  let text = '';
  let isOpen = false;
  for (let i = 0; i < a.length; i++) {
    if (Number.isNaN(a[i]) || Number.isNaN(b[i])) {
      isOpen = false;
      continue;
    }
    const [x, y] = place(a[i], b[i]);
    text += `${isOpen ? 'L' : 'M'}${px(x)} ${px(y)}`;
    isOpen = true;
  }
  return text;
}
