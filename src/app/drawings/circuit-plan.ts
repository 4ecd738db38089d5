/**
 * The plan of a circuit: strip upright, landing direction up.
 *
 * In: the model, a width, a cursor in time. Out: the drawing at one scale both ways: the chosen
 * circuit in full ink, the other flying thin, legs with their names, spacing of the downwind leg,
 * avoid areas, north, wind and a tape.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { NBSP, numberText, unitOf } from '../../report/figure-text.ts';
import type { CircuitPicture } from '../../report/pictures/circuit-picture.ts';
import { boxPath, standingAxes } from './axes.ts';
import { clippedArea, clippedPath } from './clip.ts';
import type { Cursor, Drawing } from './drawing.ts';
import { hatchPath } from './hatch.ts';
import { dip, northArrow, peg, stopFlag, windArrow } from './marks.ts';
import { planWords } from './plan-labels.ts';
import { layOutPlan, linePoints, type PlanLayout } from './plan-layout.ts';
import { linearScale, multiples, pathThrough, px, roundStep, type Point } from './scale.ts';
import { bandStepM, scaleTape } from './tape.ts';
import { wrapWords, type Label } from './text.ts';

/** Least width of the strip on the plan, pixels: it is drawn wider than it is. */
const STRIP = 9;

/** Draws it; `cursor.at` is a time, UTC seconds. */
export function circuitPlan(
  picture: CircuitPicture,
  widthPx: number,
  cursor: Cursor | null = null,
): Drawing {
  const layout = layOutPlan(picture, widthPx);
  const { box, point } = layout;
  const half = Math.max(STRIP, picture.ground.widthM * layout.pxPerM) / 2;
  const chosen = clippedPath(linePoints(picture.track, layout), box);
  const others = clippedPath(linePoints(picture.others, layout), box);
  const path = picture.path ? clippedPath(linePoints(picture.path, layout), box) : '';
  const areas = picture.avoid.map(({ name, words, isFlownOver, rings }) => ({
    ...{ name, words, isFlownOver },
    rings: rings.map((ring) => clippedArea(linePoints(ring, layout), box)),
  }));
  const head = headParts(picture, layout);
  const measure = footTape(picture, layout);
  const labels = [...head.labels, measure.label, ...planWords(picture, layout, { half, areas })];
  const side = picture.side === 'right' ? -1 : 1;
  const edge = point(0, 0)[0] + side * half;
  const onStrip = (alongM: number): number => point(alongM, 0)[1];
  const inside = svg`
    <path class="grid" d=${crosses(picture, layout)}/>
    ${areas.map(({ rings }) => svg`<path class="hatch-avoid" d=${rings.map((ring) => hatchPath(ring, -45, 6)).join('')}/><path class="avoid-edge" d=${rings.map((ring) => pathThrough(ring, true)).join('')}/>`)}
    <path class="path-line" d=${path}/>
    <path class="trace-other" d=${others}/>
    ${picture.passed.map(({ alongM, crossM }) => passedMark(point(alongM, crossM), layout))}
    ${strip(picture, layout, half)}
    <path class="trace" d=${chosen}/>
    ${picture.commitM === null ? nothing : commitTick(point(picture.commitM, 0), half, layout)}
    ${spacing(picture, layout)}
    ${picture.touchdownM === null ? nothing : peg(edge, onStrip(picture.touchdownM), side * 90)}
    ${picture.stopM === null ? nothing : stopFlag(edge, onStrip(picture.stopM), side)}
    ${picture.lowest ? dip(edge + side * 16, onStrip(picture.lowest.atM)) : nothing}
    ${cursor ? cursorDot(picture, layout, cursor.at) : nothing}
    ${head.drawing}${measure.drawing}`;
  return { width: widthPx, height: layout.height, inside, labels };
}

/** Across the final where the commit point is recorded. */
function commitTick(
  [x, y]: Point,
  half: number,
  { box }: PlanLayout,
): SVGTemplateResult | typeof nothing {
  if (!(y > box.top && y < box.bottom)) return nothing;
  return svg`<path class="half-way" d=${`M${px(x - half - 6)} ${px(y)}H${px(x + half + 6)}`}/>`;
}

/** A crown where an obstacle stands that was passed: larger than to scale. */
function passedMark([x, y]: Point, { box }: PlanLayout): SVGTemplateResult | typeof nothing {
  if (!(x > box.left && x < box.right && y > box.top && y < box.bottom)) return nothing;
  return svg`<circle class="hedge" cx=${px(x)} cy=${px(y)} r="3.5"/>`;
}

/** Grass in mown bands with its ends, drawn wider than it is; where no strip is kept, the roll alone. */
function strip(
  { ground, lengthUnit, stopM }: CircuitPicture,
  { point }: PlanLayout,
  half: number,
): SVGTemplateResult {
  if (!ground.isKept) {
    return svg`<path class="roll-line" d=${stopM === null ? '' : pathThrough([point(0, 0), point(stopM, 0)])}/>`;
  }
  const { nearEndM, farEndM, ldaM } = ground;
  const [x, zero] = point(0, 0);
  const axes = standingAxes(linearScale(0, farEndM, zero, point(farEndM, 0)[1]));
  const { at } = axes.scale;
  const band = bandStepM(lengthUnit);
  const mown = multiples(2 * band, nearEndM - 2 * band, farEndM)
    .map((from) => [Math.max(from + band, nearEndM), Math.min(from + 2 * band, farEndM)] as const)
    .filter(([from, to]) => to > from)
    .map(([from, to]) => boxPath(axes, [at(from), at(to)], [x - half, x + half]));
  const line = (alongM: number, out: number): string =>
    `M${px(x - half - out)} ${px(at(alongM))}H${px(x + half + out)}`;
  return svg`<path class="grass" d=${boxPath(axes, [at(nearEndM), at(farEndM)], [x - half, x + half])}/>
    <path class="mown" d=${mown.join('')}/>
    <path class="strip-edge" d=${boxPath(axes, [at(nearEndM), at(farEndM)], [x - half, x + half])}/>
    <path class="strip-end" d=${line(0, 4) + line(ldaM, 0)}/>`;
}

/** The graticule: a cross at every round step both ways. */
function crosses({ lengthUnit }: CircuitPicture, { box, point, pxPerM }: PlanLayout): string {
  const { si } = unitOf(lengthUnit);
  const step = roundStep(58 / (pxPerM * si)) * si;
  const [x0, y0] = point(0, 0);
  const span = (from: number, to: number): number[] =>
    multiples(step * pxPerM, from, to).filter((at) => at > from + 6 && at < to - 6);
  return span(box.left - x0, box.right - x0)
    .flatMap((dx) =>
      span(box.top - y0, box.bottom - y0).map(
        (dy) => `M${px(x0 + dx - 4)} ${px(y0 + dy)}h8m-4 -4v8`,
      ),
    )
    .join('');
}

/** The spacing of the downwind leg, from the centreline to the leg. */
function spacing(
  { spacing: found }: CircuitPicture,
  { point }: PlanLayout,
): SVGTemplateResult | typeof nothing {
  if (!found) return nothing;
  const [from, y] = point(found.alongM, 0);
  const [to] = point(found.alongM, found.crossM);
  const slash = (x: number): string => `M${px(x - 4)} ${px(y + 4)}L${px(x + 4)} ${px(y - 4)}`;
  return svg`<path class="dimension" d=${`M${px(from)} ${px(y)}H${px(to)}${slash(from)}${slash(to)}`}/>`;
}

function cursorDot(
  { track, trackTimeS }: CircuitPicture,
  { point, box }: PlanLayout,
  atS: number,
): SVGTemplateResult | typeof nothing {
  const i = trackTimeS.findIndex((timeS) => timeS >= atS);
  if (i < 0 || (i === 0 && trackTimeS[0] - atS > 1)) return nothing;
  const [x, y] = point(track.alongM[i], track.crossM[i]);
  if (!(x >= box.left && x <= box.right && y >= box.top && y <= box.bottom)) return nothing;
  return svg`<circle class="plumb-rim" cx=${px(x)} cy=${px(y)} r="8"/><circle class="plumb" cx=${px(x)} cy=${px(y)} r="8"/><circle class="mark" cx=${px(x)} cy=${px(y)} r="3"/>`;
}

/** Room of the north arrow with its letter, and of the wind's arrow, pixels. */
const WIND_LEFT = 72;
const WIND_RIGHT = 54;

/** North at the left, wind at the right, or why there is no arrow. */
function headParts(
  { ground, wind, noWind }: CircuitPicture,
  { width }: PlanLayout,
): { drawing: SVGTemplateResult; labels: Label[] } {
  const turn = -ground.trueBearingDeg;
  const [x, y] = [24, 26];
  const north: Label = { x: 50, y: 31, anchor: 'start', parts: [{ text: 'N', weight: 600 }] };
  const drawing = svg`${northArrow(x, y, turn)}${wind ? windArrow(width - 26, 25, wind.toDeg) : nothing}`;
  if (wind) {
    // A long one on two lines, or it would lie over the letter of the north.
    const lines = wrapWords(wind.label, width - WIND_LEFT - WIND_RIGHT, { weight: 600 });
    const top = lines.length === 1 ? 31 : 22;
    const label = lines.map((text, k): Label => ({
      ...{ x: width - WIND_RIGHT, y: top + k * 17, anchor: 'end' },
      parts: [{ text, weight: 600 }],
    }));
    return { drawing, labels: [north, ...label] };
  }
  const style = { serif: true, size: 14, ink: 'ink2' as const };
  const lines = wrapWords(noWind ?? 'wind not entered', width - 100, style).slice(0, 3);
  const reason = lines.map((text, k): Label => ({
    x: width - 2,
    y: 22 + k * 17,
    anchor: 'end',
    parts: [{ text, ...style }],
  }));
  return { drawing, labels: [north, ...reason] };
}

/** A short tape of a round length. */
function footTape(
  { lengthUnit }: CircuitPicture,
  { box, pxPerM }: PlanLayout,
): ReturnType<typeof scaleTape> {
  const { si, symbol } = unitOf(lengthUnit);
  const lengths = lengthUnit === 'm' ? [500, 1000, 2000] : [2000, 5000, 10_000];
  const length = lengths.find((each) => each * si * pxPerM >= 40) ?? lengths[2];
  const text = `${numberText(length, 0)}${NBSP}${symbol}`;
  return scaleTape(2, box.bottom + 12, length * si * pxPerM, text);
}
