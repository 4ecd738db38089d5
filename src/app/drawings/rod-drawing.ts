/**
 * Rods: predicted rolls laid beside the measured one.
 *
 * In: a rod, how the strip lies, its middle across. Out: SVG. Each kind differs in filling, end and
 * colour: a dashed chalk line with a flat end, slanted bars with a square end, sown dots with a
 * round end. Beyond the end of the strip a hatching of caution lies over it.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { Rod } from '../../report/pictures/strip-picture.ts';
import { acrossPath, alongPath, boxPath, boxPoints, type Axes } from './axes.ts';
import { hatchPath } from './hatch.ts';
import { px } from './scale.ts';

/** Half the thickness of a rod, pixels. */
const HALF = 5;

/** One rod; `lastPx` is the pixel along beyond which the drawing ends: a longer rod is cut there. */
export function rodDrawing(
  rod: Rod,
  axes: Axes,
  across: number,
  place: { readonly endM: number; readonly lastPx: number },
): SVGTemplateResult {
  const { scale, isUpright } = axes;
  const from = scale.at(rod.fromM);
  const whole = scale.at(rod.toM);
  const isCut = isUpright ? whole < place.lastPx : whole > place.lastPx;
  const to = isCut ? place.lastPx : whole;
  const end = scale.at(Math.max(place.endM, rod.fromM));
  return svg`<g class=${`rod rod-${rod.kind}`}>
    <path class="rod-body" d=${boxPath(axes, [from, to], [across - HALF, across + HALF])}/>
    ${filling(rod.kind, axes, across, from, to)}
    ${isCut ? cutEnd(axes, across, to) : endOf(rod.kind, axes, across, to)}
    ${rod.isTooLong ? beyond(axes, across, end, to) : nothing}
  </g>`;
}

function filling(
  kind: Rod['kind'],
  axes: Axes,
  across: number,
  from: number,
  to: number,
): SVGTemplateResult {
  if (kind === 'expected') {
    return svg`<path class="rod-chalk" d=${alongPath(axes, across, from, to)}/>`;
  }
  if (kind === 'planned') {
    const inside = boxPoints(axes, [from, to], [across - HALF, across + HALF]);
    return svg`<path class="rod-bars" d=${hatchPath(inside, 55, 5)}/>`;
  }
  const inner = axes.isUpright ? -4 : 4;
  return svg`<path class="rod-dots" d=${alongPath(axes, across - 2.4, from + inner, to) + alongPath(axes, across + 2.4, from + 1.9 * inner, to)}/>`;
}

function endOf(kind: Rod['kind'], axes: Axes, across: number, to: number): SVGTemplateResult {
  if (kind === 'expected') {
    return svg`<path class="rod-flat" d=${acrossPath(axes, to, across - 8, across + 8)}/>`;
  }
  const back = axes.isUpright ? 4 : -4;
  if (kind === 'planned') {
    return svg`<path class="rod-solid" d=${boxPath(axes, [to + back, to - back], [across - 8, across + 8])}/>`;
  }
  const [x, y] = axes.point(to, across);
  return svg`<circle class="rod-solid" cx=${px(x)} cy=${px(y)} r="7"/>`;
}

/** Two strokes: the rod goes on beyond the drawing. */
function cutEnd(axes: Axes, across: number, to: number): SVGTemplateResult {
  const back = axes.isUpright ? 5 : -5;
  return svg`<path class="rod-flat" d=${acrossPath(axes, to, across - 9, across + 9) + acrossPath(axes, to + back, across - 9, across + 9)}/>`;
}

function beyond(axes: Axes, across: number, end: number, to: number): SVGTemplateResult {
  const box = boxPoints(axes, [end, to], [across - 9, across + 9]);
  return svg`<path class="hatch-caution" d=${hatchPath(box, -45, 5)}/>`;
}
