/**
 * The bed of a strip: mown grass, the displaced part, obstacles, what lies across it.
 *
 * In: the strip's model, how it lies, the pixels across it. Out: SVG without words. Lengths along
 * and lengths across have scales of their own; the drawing prints by how much the width is drawn
 * larger.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { ObstaclePicture, StripGround } from '../../report/pictures/strip-ground.ts';
import type { Rope } from '../../report/pictures/strip-picture.ts';
import { acrossPath, boxPath, boxPoints, type Axes } from './axes.ts';
import { crownPath, hatchPath } from './hatch.ts';
import { pathThrough, px, type Point } from './scale.ts';

/** Where the grass lies, pixels across: edges of the strip. */
export type AcrossSpan = readonly [number, number];

/** Grass from end to end in mown bands, hatched where displaced, between strong lines. */
export function grassBed(
  ground: StripGround,
  axes: Axes,
  across: AcrossSpan,
  use: { readonly startM: number; readonly endM: number; readonly bandM: number },
): SVGTemplateResult {
  const { at } = axes.scale;
  const { nearEndM, farEndM } = ground;
  const bands: string[] = [];
  for (let from = Math.floor(nearEndM / use.bandM) * use.bandM; from < farEndM; from += use.bandM) {
    if (Math.round(from / use.bandM) % 2 === 0) continue;
    const ends = [Math.max(from, nearEndM), Math.min(from + use.bandM, farEndM)] as const;
    bands.push(boxPath(axes, [at(ends[0]), at(ends[1])], across));
  }
  const whole = [at(nearEndM), at(farEndM)] as const;
  const displaced = boxPoints(axes, [at(nearEndM), at(0)], across);
  const strong = acrossPath(axes, at(use.startM), across[0] - 4, across[1]);
  const end = acrossPath(axes, at(use.endM), across[0] - 4, across[1]);
  return svg`<path class="grass" d=${boxPath(axes, whole, across)}/>
    <path class="mown" d=${bands.join('')}/>
    ${nearEndM < 0 ? svg`<path class="hatch-grass" d=${hatchPath(displaced, 45, 7)}/>` : nothing}
    <path class="strip-edge" d=${edges(axes, whole, across)}/>
    <path class="strip-end" d=${strong + end}/>`;
}

function edges(axes: Axes, along: readonly [number, number], across: AcrossSpan): string {
  return across
    .map((side) => pathThrough([axes.point(along[0], side), axes.point(along[1], side)]))
    .join('');
}

/** A place of an obstacle on the drawing, with its radius in pixels. */
export interface DrawnObstacle {
  readonly obstacle: ObstaclePicture;
  readonly points: readonly Point[];
  readonly radius: number;
}

/** Crown of a single tree in metres for each metre of its height (common practice, no source). */
const CROWN_OF_HEIGHT = 0.3;

/** The obstacles that fall inside the drawing; a row is cut to the pixels across given. */
export function drawnObstacles(
  ground: StripGround,
  axes: Axes,
  strip: AcrossSpan,
  visible: AcrossSpan,
): DrawnObstacle[] {
  const { scale, point } = axes;
  const pxPerCross = (strip[1] - strip[0]) / ground.widthM;
  const middle = (strip[0] + strip[1]) / 2;
  const pxPerM = Math.abs(scale.at(1) - scale.at(0));
  return ground.obstacles.flatMap((obstacle) => {
    const tall = Number.isFinite(obstacle.heightM) ? obstacle.heightM : 6;
    const radius = obstacle.isRow ? 6 : Math.min(22, Math.max(7, CROWN_OF_HEIGHT * tall * pxPerM));
    const places = obstacle.isRow
      ? rowPlaces(obstacle, scale.at, middle, pxPerCross)
      : [[scale.at(obstacle.alongM[0]), middle + obstacle.crossM[0] * pxPerCross] as const];
    const ends = [scale.at(scale.from), scale.at(scale.to)];
    const inside = places.filter(
      ([along, across]) =>
        along >= Math.min(...ends) + radius &&
        along <= Math.max(...ends) - radius &&
        across >= visible[0] + radius &&
        across <= visible[1] - radius,
    );
    if (inside.length === 0) return [];
    return [{ obstacle, radius, points: inside.map(([along, across]) => point(along, across)) }];
  });
}

/** Places 11 px apart along a row. */
function rowPlaces(
  { alongM, crossM }: ObstaclePicture,
  at: (alongM: number) => number,
  middle: number,
  pxPerCross: number,
): (readonly [number, number])[] {
  const corners = Array.from(
    alongM,
    (along, i) => [at(along), middle + crossM[i] * pxPerCross] as const,
  );
  return corners.flatMap((corner, i) => {
    if (i === 0) return [corner];
    const [x, y] = corners[i - 1];
    const steps = Math.min(
      400,
      Math.max(1, Math.round(Math.hypot(corner[0] - x, corner[1] - y) / 11)),
    );
    return Array.from({ length: steps }, (_, k) => {
      const share = (k + 1) / steps;
      return [x + (corner[0] - x) * share, y + (corner[1] - y) * share] as const;
    });
  });
}

/** Crowns and clipped rows, seen from above. */
export function obstacleMarks(obstacles: readonly DrawnObstacle[]): SVGTemplateResult[] {
  return obstacles.map(({ points, radius, obstacle }) =>
    obstacle.isRow
      ? svg`<path class="hedge" d=${points.map(([x, y]) => circlePath(x, y, radius)).join('')}/>`
      : svg`<path class="hedge" d=${points.map(([x, y]) => crownPath(x, y, radius)).join('')}/>
          <circle class="hedge-stem" cx=${px(points[0][0])} cy=${px(points[0][1])} r="1.4"/>`,
  );
}

function circlePath(x: number, y: number, radius: number): string {
  const r = px(radius);
  return `M${px(x - radius)} ${px(y)}a${r} ${r} 0 1 0 ${px(2 * radius)} 0a${r} ${r} 0 1 0 ${px(-2 * radius)} 0Z`;
}

/** Rope on two posts across the strip, in the colour of the roll it comes from. */
export function ropeDrawing(
  { of, atM }: Pick<Rope, 'of' | 'atM'>,
  axes: Axes,
  across: AcrossSpan,
  at = axes.scale.at(atM),
): SVGTemplateResult {
  const post = (side: number): string =>
    boxPath(axes, [at - 5.5, at + 5.5], [side - 5.5, side + 5.5]);
  const line = acrossPath(axes, at, across[0], across[1]);
  return svg`<g class=${`rope rope-${of}`}><path class="rope-rim" d=${line}/><path class="rope-line" d=${line}/>
    <path class="rope-post" d=${post(across[0]) + post(across[1])}/></g>`;
}

/** Dotted outline of what the data cannot tell; never filled. */
export function unknownOutline(
  axes: Axes,
  along: readonly [number, number],
  across: AcrossSpan,
): SVGTemplateResult {
  return svg`<path class="outline-dotted" d=${boxPath(axes, along, across)}/>`;
}
