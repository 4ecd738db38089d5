/**
 * Approaches laid over each other: height, ground speed, beside the centreline, and the rolls, on one
 * distance axis.
 *
 * In: the model, a width, which one stands out. Out: the drawing. A line is told from the others by
 * its number, set into it like a contour's, and by its dashes; never by colour alone.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { NBSP, numberText, unitOf, type Unit } from '../../report/figure-text.ts';
import type { Lane, SideBySidePicture } from '../../report/pictures/side-by-side-picture.ts';
import type { Drawing } from './drawing.ts';
import { rollRows, rollRowsHeight } from './laid-over-rolls.ts';
import { columnPath, linearScale, multiples, px, roundStep, type Scale } from './scale.ts';
import { partsWidth, type Label, type Part } from './text.ts';
import { riseAt, turfPath } from './turf.ts';

/** Dashes of the lines by their number; after the last they begin again. */
const DASHES: readonly (string | null)[] = [null, '8 4', '2 3', '11 3 2 3', '5 3', '14 5'];

/** Heights of the panels and room about them, pixels. */
const PANEL = { height: 148, speed: 96, cross: 72, gap: 30, head: 22, axis: 28 };
const MARGIN = { left: 50, right: 62 };
/** Narrower drawings show less of the final, CSS pixels. */
const NARROW = 560;

/** What one panel draws. */
interface PanelParts {
  readonly title: string;
  readonly columnOf: (lane: Lane) => Float64Array | null;
  readonly unit: Unit;
  readonly span: readonly [number, number];
  readonly scale: Scale;
  readonly zeroLine: boolean;
}

/** Draws it; `chosen` is the number of the lane in full ink, or null. */
export function laidOver(
  picture: SideBySidePicture,
  width: number,
  chosen: number | null,
): Drawing {
  const along = alongScale(picture, width);
  const panels = panelsOf(picture, along);
  const bottom = panels[panels.length - 1].span[1];
  const axis = distanceAxis(picture, along, bottom, width);
  const rolls = rollRows(picture, along, bottom + PANEL.axis + 12, { width, chosen });
  const height = bottom + PANEL.axis + 12 + rollRowsHeight(picture, width);
  const [heights] = panels;
  const turf = turfPath(picture.ground, along, heights.scale, heights.span[1]);
  const posts = [0, picture.ground.ldaM].map((atM) => {
    const top = heights.scale.at(riseAt(picture.ground, atM));
    return `M${px(along.at(atM))} ${px(top)}V${px(heights.span[1])}`;
  });
  const inside = svg`
    ${panels.map((panel) => gridOf(panel, along, width))}
    <path class="turf" d=${turf}/>
    <path class="strip-end" d=${posts.join('')}/>
    ${panels.map((panel) => threshold(panel, along))}
    ${panels.map((panel) => linesOf(panel, picture, along, chosen))}
    ${axis.drawing}
    ${rolls.drawing}`;
  const labels = [
    ...panels.flatMap((panel) => panelLabels(panel, picture, along, chosen)),
    ...axis.labels,
    ...rolls.labels,
  ];
  return { width, height: Math.ceil(height), inside, labels };
}

function alongScale({ lanes, ground }: SideBySidePicture, width: number): Scale {
  const fromM = width < NARROW ? -380 : -620;
  const ends = lanes.flatMap(({ passes }) => (passes ? [passes.toM[9]] : []));
  const toM = Math.max(ground.ldaM + 8, ...ends);
  return linearScale(fromM, toM, MARGIN.left, width - MARGIN.right);
}

function panelsOf({ lanes, ground, units }: SideBySidePicture, along: Scale): PanelParts[] {
  const inRange = (lane: Lane, column: Float64Array | null): number[] =>
    column
      ? Array.from(column).filter(
          (each, i) =>
            !Number.isNaN(each) && lane.alongM[i] >= along.from && lane.alongM[i] <= along.to,
        )
      : [];
  const all = (pick: (lane: Lane) => Float64Array | null): number[] =>
    lanes.flatMap((lane) => inRange(lane, pick(lane)));
  const low = ground.surface ? Math.min(0, ...ground.surface.riseM) : 0;
  const tall = Math.max(12, ...all(({ heightM }) => heightM)) * 1.08;
  const fast = Math.max(10, ...all(({ speedMps }) => speedMps)) * 1.1;
  const wide = Math.max(12, ...all(({ crossM }) => crossM).map(Math.abs)) * 1.1;
  const heightSpan = [PANEL.head, PANEL.head + PANEL.height] as const;
  const speedSpan = below(heightSpan, PANEL.speed);
  const crossSpan = below(speedSpan, PANEL.cross);
  const scaleOf = (from: number, to: number, [top, foot]: readonly [number, number]): Scale =>
    linearScale(from, to, foot, top);
  return [
    {
      title: 'height above the threshold',
      columnOf: ({ heightM }) => heightM,
      unit: unitOf(units.height),
      span: heightSpan,
      scale: scaleOf(low - 0.08 * (tall - low), tall, heightSpan),
      zeroLine: false,
    },
    {
      title: 'ground speed',
      columnOf: ({ speedMps }) => speedMps,
      unit: unitOf(units.speed),
      span: speedSpan,
      scale: scaleOf(0, fast, speedSpan),
      zeroLine: false,
    },
    {
      title: 'beside the centreline, right below',
      columnOf: ({ crossM }) => crossM,
      unit: unitOf(units.length),
      span: crossSpan,
      // As on a map with the landing direction to the right: right of the centreline lies below.
      scale: linearScale(-wide, wide, crossSpan[0], crossSpan[1]),
      zeroLine: true,
    },
  ];
}

function below([, foot]: readonly [number, number], tall: number): readonly [number, number] {
  return [foot + PANEL.gap, foot + PANEL.gap + tall];
}

function gridOf({ scale, unit, span, zeroLine }: PanelParts, along: Scale, width: number) {
  const right = px(width - MARGIN.right);
  const d = gridSteps({ scale, unit, span, zeroLine })
    .filter((each) => each !== 0)
    .map((each) => `M${px(along.at(along.from))} ${px(scale.at(each * unit.si))}H${right}`);
  const zero = `M${px(along.at(along.from))} ${px(scale.at(0))}H${right}`;
  return svg`<path class="grid-dotted" d=${d.join('')}/>
    ${zeroLine ? svg`<path class="centre-line" d=${zero}/>` : nothing}`;
}

type GridParts = Pick<PanelParts, 'scale' | 'unit' | 'span' | 'zeroLine'>;

/** About four steps; about a zero line at least one on each side. */
function gridSteps({ scale, unit, zeroLine }: GridParts): number[] {
  const least = (scale.to - scale.from) / unit.si / 4;
  const usual = roundStep(least);
  const step = zeroLine && usual > scale.to / unit.si ? roundStep(least / 2) : usual;
  return multiples(step, Math.min(0, scale.from / unit.si), scale.to / unit.si).filter(
    (each) => each >= 0 || scale.from < -10,
  );
}

function threshold({ span }: PanelParts, along: Scale): SVGTemplateResult {
  return svg`<path class="leader" d=${`M${px(along.at(0))} ${px(span[0])}V${px(span[1])}`}/>`;
}

function linesOf(
  { columnOf, scale }: PanelParts,
  { lanes }: SideBySidePicture,
  along: Scale,
  chosen: number | null,
): SVGTemplateResult[] {
  // The one that stands out is drawn last, over the others.
  const order = lanes.toSorted((a, b) => Number(a.number === chosen) - Number(b.number === chosen));
  return order.map((lane) => {
    const column = columnOf(lane);
    if (!column) return svg``;
    const inside = Array.from(column, (each, i) =>
      lane.alongM[i] < along.from ||
      lane.alongM[i] > along.to ||
      each > scale.to ||
      each < scale.from
        ? NaN
        : each,
    );
    const d = columnPath(lane.alongM, inside, (at, each) => [along.at(at), scale.at(each)]);
    const dash = DASHES[(lane.number - 1) % DASHES.length];
    const style = lane.number === chosen ? 'lane lane-chosen' : 'lane';
    return svg`<path class=${style} stroke-dasharray=${dash ?? nothing} d=${d}/>`;
  });
}

/** Title, grid figures and the number of each line, each at a place of its own along the final. */
function panelLabels(
  panel: PanelParts,
  { lanes }: SideBySidePicture,
  along: Scale,
  chosen: number | null,
): Label[] {
  const { title, unit, span, scale, columnOf } = panel;
  const grid = gridSteps(panel).map((each): Label => {
    const text = numberText(each, 0) + (each === 0 ? NBSP + unit.symbol : '');
    const y = Math.min(scale.at(each * unit.si) + 5, span[1] + 3);
    return { x: along.at(along.from) - 8, y, anchor: 'end', parts: [{ text, ink: 'ink2' }] };
  });
  const head: Label = {
    x: along.at(along.from),
    y: span[0] - 7,
    anchor: 'start',
    parts: [{ text: title, ink: 'ink2' }],
  };
  const numbers = lanes.flatMap((lane, k): Label[] => {
    const column = columnOf(lane);
    if (!column) return [];
    const share = (k + 0.6) / (lanes.length + 0.4);
    const atM = along.from + share * (0 - along.from);
    const value = nearest(lane.alongM, column, atM);
    if (value === null || value > scale.to || value < scale.from) return [];
    const parts: Part[] = [
      { text: String(lane.number), size: 14, weight: lane.number === chosen ? 650 : 400 },
    ];
    return [{ x: along.at(atM), y: scale.at(value) + 5, anchor: 'middle', parts, halo: true }];
  });
  return [head, ...grid, ...numbers];
}

/** The column's value at the slot nearest to a place; null where none is within 60 m. */
function nearest(alongM: Float64Array, column: Float64Array, atM: number): number | null {
  let best = -1;
  alongM.forEach((each, i) => {
    if (Number.isNaN(column[i])) return;
    if (best < 0 || Math.abs(each - atM) < Math.abs(alongM[best] - atM)) best = i;
  });
  return best < 0 || Math.abs(alongM[best] - atM) > 60 ? null : column[best];
}

function distanceAxis(
  { units }: SideBySidePicture,
  along: Scale,
  y: number,
  width: number,
): { drawing: SVGTemplateResult; labels: Label[] } {
  const { si } = unitOf(units.length);
  const pxPerUnit = (along.at(1) - along.at(0)) * si;
  const all = multiples(roundStep(Math.max(58 / pxPerUnit, 1)), along.from / si, along.to / si);
  const ticks = all.map((each) => `M${px(along.at(each * si))} ${px(y)}v5`).join('');
  const labels = all.map((each, k): Label => {
    const text = numberText(each, 0) + (k === all.length - 1 ? NBSP + units.length : '');
    const parts: Part[] = [{ text, ink: 'ink2' }];
    const x = Math.min(along.at(each * si), width - partsWidth(parts) / 2);
    return { x, y: y + 19, anchor: 'middle', parts };
  });
  const line = `M${px(along.at(along.from))} ${px(y)}H${px(along.at(along.to))}`;
  return { drawing: svg`<path class="axis" d=${line + ticks}/>`, labels };
}
