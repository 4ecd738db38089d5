/**
 * Where may the names of a circuit's legs stand on its plan?
 *
 * In: the model and where everything stands. Out: for each leg the ways to set its name, the best first.
 */
import type { CircuitPicture } from '../../report/pictures/circuit-picture.ts';
import { linePoints, type PlanLayout } from './plan-layout.ts';
import type { Point } from './scale.ts';
import { partsWidth, type Label, type Part } from './text.ts';

/** One way to set something: a line or two. */
export type Way = readonly Label[];

/** Each leg's name outside it, then inside; along it where it runs up the page. */
export function legWays(picture: CircuitPicture, layout: PlanLayout): Way[][] {
  const points = linePoints(picture.track, layout);
  const known = points.filter(([x]) => Number.isFinite(x));
  const centre: Point = [mean(known.map(([x]) => x)), mean(known.map(([, y]) => y))];
  return picture.legs.map(({ name, from, to }) => {
    const stretch = points.slice(from, to + 1).filter(([x]) => Number.isFinite(x));
    if (stretch.length < 2) return [];
    const parts: Part[] = [{ text: name, serif: true, size: 14, ink: 'ink2' }];
    const first = stretch[0];
    const last = stretch[stretch.length - 1];
    const rise = Math.abs(last[1] - first[1]);
    const isSteep = rise > 1.6 * Math.abs(last[0] - first[0]);
    const isTurned = isSteep && rise > partsWidth(parts) + 8;
    return [1, -1].flatMap((sign) =>
      [0.5, 0.35, 0.65, 0.2, 0.8].map((share): Way => {
        const [x, y] = stretch[Math.round(share * (stretch.length - 1))];
        return isSteep
          ? [beside(x, y, sign * Math.sign(x - centre[0] || 1), parts, isTurned)]
          : [over(x, y, sign * Math.sign(y - centre[1] || 1), parts)];
      }),
    );
  });
}

function beside(
  x: number,
  y: number,
  sign: number,
  parts: readonly Part[],
  isTurned: boolean,
): Label {
  if (isTurned) {
    return { x: x + sign * 11 + 5, y, anchor: 'middle', parts, halo: true, turnDeg: -90 };
  }
  return { x: x + sign * 9, y: y + 5, anchor: sign > 0 ? 'start' : 'end', parts, halo: true };
}

function over(x: number, y: number, sign: number, parts: readonly Part[]): Label {
  return { x, y: sign < 0 ? y - 8 : y + 18, anchor: 'middle', parts, halo: true };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}
