/**
 * The swathe: a roll as ten mown passes side by side.
 *
 * In: passes in alongM, how the strip lies, the pixels across it. Out: SVG. The earliest pass lies
 * outermost and the latest in the middle, so that the shape runs the way the wheels ran. Where a
 * pass would be thinner than 2.6 px only the outline and the fill are drawn.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { Passes } from '../../report/pictures/passes.ts';
import type { Axes } from './axes.ts';
import { pathThrough, px, type Point } from './scale.ts';

/** Thinnest pass that is drawn by itself, pixels. */
const THINNEST = 2.6;

/** How far the mower's lines bend, pixels. */
const BEND = 3;

/** From one side to the other: outermost early, the latest in the middle. */
const LANES = [0, 2, 4, 6, 8, 9, 7, 5, 3, 1];

/** The swathe between two pixels across. */
export function swathe(
  passes: Passes,
  axes: Axes,
  across: readonly [number, number],
  isBent = true,
): SVGTemplateResult {
  const thick = (across[1] - across[0]) / LANES.length;
  const rolled = lanesOf(passes.fromM, passes.toM, axes);
  const rest = passes.extrapolatedToM ? lanesOf(passes.toM, passes.extrapolatedToM, axes) : null;
  if (thick < THINNEST) {
    return svg`<path class="swathe swathe-thin" d=${outline(rolled, axes, across[0], thick)}/>
      ${rest ? svg`<path class="swathe-rest" d=${outline(rest, axes, across[0], thick)}/>` : nothing}`;
  }
  const bend = bendOver(rest ? [...rolled, ...rest] : rolled, isBent ? BEND : 0);
  const draw = (lanes: readonly Lane[]): string =>
    lanes.map((lane, k) => passPath(lane, axes, across[0] + k * thick, thick, bend)).join('');
  return svg`${rest ? svg`<path class="swathe-rest" d=${draw(rest)}/>` : nothing}
    <path class="swathe" d=${draw(rolled)}/>
    <path class="swathe-edge" d=${edgePath(rolled[0], axes, across[0], bend) + edgePath(rolled[LANES.length - 1], axes, across[1], bend)}/>`;
}

/** Start and end of a pass in pixels along. */
type Lane = readonly [number, number];

function lanesOf(fromM: readonly number[], toM: readonly number[], { scale }: Axes): Lane[] {
  return LANES.map((pass) => {
    // What runs out of the drawing is cut at its edges.
    const inside = (alongM: number): number => Math.min(Math.max(alongM, scale.from), scale.to);
    const fromHere = inside(fromM[pass]);
    return [scale.at(fromHere), scale.at(Math.max(fromHere, inside(toM[pass])))];
  });
}

/** The mower's bend: one parabola over the whole length, so that passes never gape. */
interface Bend {
  readonly most: number;
  readonly from: number;
  readonly to: number;
}

function bendOver(lanes: readonly Lane[], most: number): Bend {
  const ends = lanes.flat();
  return { most, from: Math.min(...ends), to: Math.max(...ends) };
}

function bentAt(at: number, { most, from, to }: Bend): number {
  return to > from ? (4 * most * (at - from) * (to - at)) / (to - from) ** 2 : 0;
}

/** The bend between two places is a quadratic curve whose control point lies on both tangents. */
function control([start, end]: Lane, bend: Bend): number {
  const { most, from, to } = bend;
  if (!(to > from)) return 0;
  const rise = (4 * most * (from + to - 2 * start)) / (to - from) ** 2;
  return bentAt(start, bend) + (rise * (end - start)) / 2;
}

function passPath(lane: Lane, axes: Axes, across: number, thick: number, bend: Bend): string {
  const [start, end] = lane;
  const middle = (start + end) / 2;
  const at = (along: number, offset: number): string => pointText(axes.point(along, offset));
  const pull = control(lane, bend);
  const [a, b] = [bentAt(start, bend), bentAt(end, bend)];
  const far = across + thick;
  return (
    `M${at(start, across + a)}Q${at(middle, across + pull)} ${at(end, across + b)}` +
    `L${at(end, far + b)}Q${at(middle, far + pull)} ${at(start, far + a)}Z`
  );
}

function edgePath(lane: Lane, axes: Axes, across: number, bend: Bend): string {
  const [start, end] = lane;
  const at = (along: number, offset: number): string => pointText(axes.point(along, offset));
  return (
    `M${at(start, across + bentAt(start, bend))}` +
    `Q${at((start + end) / 2, across + control(lane, bend))} ${at(end, across + bentAt(end, bend))}`
  );
}

function pointText([x, y]: Point): string {
  return `${px(x)} ${px(y)}`;
}

/** All passes as one shape: through the middles of their ends, back through those of their starts. */
function outline(lanes: readonly Lane[], axes: Axes, across: number, thick: number): string {
  const side = (which: 0 | 1): Point[] => {
    const first = axes.point(lanes[0][which], across);
    const last = axes.point(lanes[lanes.length - 1][which], across + lanes.length * thick);
    const middles = lanes.map((lane, k) => axes.point(lane[which], across + (k + 0.5) * thick));
    return [first, ...middles, last];
  };
  return pathThrough([...side(1), ...side(0).reverse()], true);
}
