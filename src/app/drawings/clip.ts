/**
 * Cutting lines and areas to the box of a drawing, so that nothing lies off the canvas.
 *
 * In: points in pixels, a box. Out: points inside it. No clip paths: those need ids of their own.
 */
import { pathThrough, type Point } from './scale.ts';
import type { Box } from './text.ts';

/** A line of points, broken by NaN, as a path of its parts inside the box. */
export function clippedPath(points: readonly Point[], box: Box): string {
  let text = '';
  let open: Point[] = [];
  const close = (): void => {
    if (open.length > 1) text += pathThrough(open);
    open = [];
  };
  for (let i = 1; i < points.length; i++) {
    const piece = clippedPiece(points[i - 1], points[i], box);
    if (!piece) {
      close();
      continue;
    }
    const last = open.at(-1);
    if (!last || last[0] !== piece[0][0] || last[1] !== piece[0][1]) {
      close();
      open = [piece[0]];
    }
    open.push(piece[1]);
  }
  close();
  return text;
}

/** The part of one straight piece inside the box (Liang and Barsky's method, from memory). */
function clippedPiece(a: Point, b: Point, box: Box): readonly [Point, Point] | null {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  let from = 0;
  let to = 1;
  const sides = [
    [-dx, a[0] - box.left],
    [dx, box.right - a[0]],
    [-dy, a[1] - box.top],
    [dy, box.bottom - a[1]],
  ];
  for (const [speed, room] of sides) {
    if (Number.isNaN(speed) || (speed === 0 && room < 0)) return null;
    if (speed < 0) from = Math.max(from, room / speed);
    if (speed > 0) to = Math.min(to, room / speed);
  }
  if (from >= to) return null;
  const at = (share: number): Point =>
    share === 0 ? a : share === 1 ? b : [a[0] + share * dx, a[1] + share * dy];
  return [at(from), at(to)];
}

/** The part of an area inside the box (Sutherland and Hodgman's method, from memory). */
export function clippedArea(points: readonly Point[], box: Box): Point[] {
  const sides: readonly ((point: Point) => number)[] = [
    ([x]) => x - box.left,
    ([x]) => box.right - x,
    ([, y]) => y - box.top,
    ([, y]) => box.bottom - y,
  ];
  let left = [...points];
  for (const inside of sides) {
    left = left.flatMap((point, i) => {
      const before = left[(i + left.length - 1) % left.length];
      const [a, b] = [inside(before), inside(point)];
      const share = a / (a - b);
      const cut: Point = [
        before[0] + share * (point[0] - before[0]),
        before[1] + share * (point[1] - before[1]),
      ];
      return a < 0 !== b < 0 ? (b < 0 ? [cut] : [cut, point]) : b < 0 ? [] : [point];
    });
  }
  return left;
}
