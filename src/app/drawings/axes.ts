/**
 * Two ways to lay a strip: along the page, or standing up with its zero at the bottom.
 *
 * In: pixels along the strip and across it. Out: points and paths of the drawing, so that bed,
 * swathe and rods are drawn once for both.
 */
import { pathThrough, type Point, type Scale } from './scale.ts';

/** How a strip lies on the drawing. */
export interface Axes {
  /** alongM to pixels along. */
  readonly scale: Scale;
  readonly isUpright: boolean;
  /** Pixel along and pixel across to a point of the drawing. */
  readonly point: (along: number, across: number) => Point;
}

/** Lying: along is x, across is y, right of the centreline is down. */
export function lyingAxes(scale: Scale): Axes {
  return { scale, isUpright: false, point: (along, across) => [along, across] };
}

/** Standing: along is y (falling), across is x, right of the centreline is right. */
export function standingAxes(scale: Scale): Axes {
  return { scale, isUpright: true, point: (along, across) => [across, along] };
}

/** Corners of a box between two pixels along and two across. */
export function boxPoints(
  { point }: Axes,
  along: readonly [number, number],
  across: readonly [number, number],
): Point[] {
  return [
    point(along[0], across[0]),
    point(along[1], across[0]),
    point(along[1], across[1]),
    point(along[0], across[1]),
  ];
}

/** The box as a path. */
export function boxPath(
  axes: Axes,
  along: readonly [number, number],
  across: readonly [number, number],
): string {
  return pathThrough(boxPoints(axes, along, across), true);
}

/** A line across the strip at a pixel along. */
export function acrossPath({ point }: Axes, along: number, from: number, to: number): string {
  return pathThrough([point(along, from), point(along, to)]);
}

/** A line along the strip at a pixel across. */
export function alongPath({ point }: Axes, across: number, from: number, to: number): string {
  return pathThrough([point(from, across), point(to, across)]);
}
