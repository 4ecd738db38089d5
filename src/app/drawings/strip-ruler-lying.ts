/**
 * The strip ruler lying along the page, from 560 px up.
 *
 * In: the model, a width, a cursor. Out: the drawing. From above: read-out of the cursor, rods hung
 * on their plumb line, words of the end, the strip, its tape, brackets with their words, slope.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { PlaceMark, StripPicture } from '../../report/pictures/strip-picture.ts';
import { acrossPath, type Axes } from './axes.ts';
import type { Cursor, Drawing } from './drawing.ts';
import { centredLabels, figureForms, fitAlong, linesHeight, reasonLines } from './great-figure.ts';
import {
  bob,
  bracket,
  chock,
  chockOpen,
  dip,
  handRing,
  lozenge,
  peg,
  pegOut,
  pegWas,
  plumbLine,
  screenPost,
} from './marks.ts';
import { rodDrawing } from './rod-drawing.ts';
import {
  endRowLabels,
  noteLines,
  obstacleLabels,
  placeLabels,
  rodHurdles,
  rodLabels,
} from './ruler-labels.ts';
import { layOutLying, type RulerLayout } from './ruler-layout.ts';
import { px } from './scale.ts';
import { slopeWedge } from './slope-wedge.ts';
import {
  drawnObstacles,
  grassBed,
  obstacleMarks,
  ropeDrawing,
  unknownOutline,
  type DrawnObstacle,
} from './strip-bed.ts';
import { swathe } from './swathe.ts';
import { bandStepM, tape, TAPE } from './tape.ts';
import { labelBox, wrapWords, type Label } from './text.ts';

/** Draws it. */
export function lyingRuler(picture: StripPicture, width: number, cursor: Cursor | null): Drawing {
  const layout = layOutLying(picture, width);
  const { axes, bed, tapeTop, labelY } = layout;
  const { at } = axes.scale;
  const { ground, passes, rope, rods } = picture;
  const rolled: readonly [number, number] = [bed[0] + 21, bed[1] - 19];
  const obstacles = drawnObstacles(ground, axes, bed, [layout.rodY[0] ?? 0, bed[1] + 10]);
  const taped = [Math.min(picture.start.atM, 0), picture.end.atM] as const;
  const measure = tape({
    scale: axes.scale,
    unit: picture.lengthUnit,
    fromM: taped[0],
    toM: taped[1],
    edge: tapeTop,
    isUpright: false,
  });
  const great = greatFigures(picture, layout, rolled, cursor, obstacles);
  const rodWords = rodLabels(picture, layout);
  const places = placeLabels(picture, layout);
  const ends = endRowLabels(picture, layout, great.leftFits);
  const startLines = startLabels(picture, layout);
  const taken = [...rodWords, ...ends, ...startLines].map(labelBox);
  const names = obstacleLabels(obstacles, [...taken, ...great.labels.map(labelBox)], layout, taped);
  const wedge = slopeWedge(ground, axes.scale, places.bottom + 6);
  const reason = reasonIn(picture, axes.scale, rolled);
  const unsaid = reason && !reason.isWhole ? picture.unknown : null;
  const notes = noteLines(picture, layout, wedge.bottom + 8, names.unplaced, unsaid?.reason);
  const labels: Label[] = [
    ...measure.labels,
    ...rodWords,
    ...ends,
    ...startLines,
    ...places.labels,
    ...names.labels,
    ...great.labels,
    ...wedge.labels,
    ...notes.labels,
    ...(cursor ? [cursorLabel(cursor, layout)] : []),
  ];
  const inside = svg`
    ${obstacleMarks(obstacles)}
    ${grassBed(ground, axes, bed, { startM: picture.start.atM, endM: picture.end.atM, bandM: bandStepM(picture.lengthUnit) })}
    ${measure.drawing}
    ${rods[0] ? svg`<path class="hang" d=${`M${px(at(rods[0].fromM))} ${px(layout.rodY[layout.rodY.length - 1] - 14)}V${px(bed[1])}`}/>` : nothing}
    ${passes ? swathe(passes, axes, rolled) : nothing}
    ${unknownMark(picture, axes, rolled)}
    ${dimensions(picture, layout)}
    ${rods.map((rod, k) => rodDrawing(rod, axes, layout.rodY[k], { endM: picture.end.atM, lastPx: layout.lastPx }))}
    ${rodHurdles(rods, layout)}
    ${rope ? ropeDrawing(rope, axes, bed) : nothing}
    ${rope ? svg`<path class=${`rope rope-${rope.of} rope-foot`} d=${`M${px(at(rope.atM))} ${px(tapeTop + TAPE)}V${px(tapeTop + TAPE + 12)}`}/>` : nothing}
    ${picture.halfway ? svg`<path class="half-way" d=${acrossPath(axes, at(picture.halfway.atM), bed[0] - 4, bed[1])}/>` : nothing}
    ${picture.aimM === null ? nothing : lozenge(at(picture.aimM), (bed[0] + bed[1]) / 2)}
    ${picture.places.map((place) => bracket(at(place.lowM), at(place.highM), tapeTop + TAPE + 5))}
    ${cursor ? plumbLine(at(cursor.at), 6, at(cursor.at), tapeTop + TAPE) : nothing}
    ${cursor ? bob(at(cursor.at), tapeTop + TAPE + 6) : nothing}
    ${great.patch}
    ${picture.places.map((place) => handMarks(place, at, bed[1]))}
    ${picture.places.map((place) => placeMark(place, at(place.atM), bed))}
    ${picture.againM === null ? nothing : pegOut(at(picture.againM), bed[1])}
    ${wedge.drawing}${notes.drawing}`;
  return { width, height: Math.ceil(Math.max(notes.bottom, labelY + 8)), inside, labels };
}

/** Where a place put by hand was measured, and the ring that says so. */
function handMarks(
  { atM, wasM }: PlaceMark,
  at: (alongM: number) => number,
  y: number,
): SVGTemplateResult | typeof nothing {
  if (wasM === undefined) return nothing;
  return svg`${pegWas(at(wasM), y)}${handRing(at(atM), y - 24)}`;
}

function placeMark(place: PlaceMark, x: number, bed: readonly [number, number]): SVGTemplateResult {
  const middle = (bed[0] + bed[1]) / 2;
  switch (place.kind) {
    case 'touchdown':
      return peg(x, bed[1]);
    case 'stop':
      return chock(x, bed[1]);
    case 'roll-end':
    case 'brake-release':
      return chockOpen(x, bed[1]);
    case 'lift-off':
      return pegOut(x, bed[1]);
    case 'screen':
      return screenPost(x, bed[1]);
    case 'lowest':
      return dip(x, middle + 4);
  }
}

function unknownMark(
  { unknown }: StripPicture,
  axes: Axes,
  across: readonly [number, number],
): SVGTemplateResult | typeof nothing {
  if (!unknown) return nothing;
  const { at } = axes.scale;
  return unknownOutline(axes, [at(unknown.fromM), at(unknown.toM)], across);
}

/** Thin measures along the lower edge: threshold to touchdown, stop to the end. */
function dimensions(picture: StripPicture, { axes, bed }: RulerLayout): SVGTemplateResult {
  const { at } = axes.scale;
  const y = bed[1] - 13;
  const measure = (fromM: number, toM: number): string => {
    const [a, b] = [at(fromM), at(toM)];
    if (Math.abs(b - a) < 12) return '';
    const slash = (x: number): string => `M${px(x - 4)} ${px(y + 4)}L${px(x + 4)} ${px(y - 4)}`;
    return `M${px(a)} ${px(y)}H${px(b)}${slash(a)}${slash(b)}`;
  };
  const touchdown = picture.places.find(({ kind }) => kind === 'touchdown');
  const { left } = picture;
  const d =
    (touchdown ? measure(0, touchdown.atM) : '') + (left ? measure(left.fromM, left.toM) : '');
  return svg`<path class="dimension" d=${d}/>`;
}

/** Figures on the swathe and on the grass, each where it fits. */
function greatFigures(
  picture: StripPicture,
  layout: RulerLayout,
  rolled: readonly [number, number],
  cursor: Cursor | null,
  obstacles: readonly DrawnObstacle[],
): { labels: Label[]; patch: SVGTemplateResult | typeof nothing; leftFits: boolean } {
  const { at } = layout.axes.scale;
  const { passes, roll, left, rope, unknown, lowest } = picture;
  const middle = (rolled[0] + rolled[1]) / 2;
  const lines = [
    ...(rope ? [at(rope.atM)] : []),
    ...(cursor ? [at(cursor.at)] : []),
    ...(picture.halfway ? [at(picture.halfway.atM)] : []),
  ];
  const labels: Label[] = [];
  let patch: SVGTemplateResult | typeof nothing = nothing;
  if (passes && roll) {
    const forms = figureForms(roll, '', { size: 28, ink: 'onswathe', bandInk: 'onswathe' });
    const fitted = fitAlong(forms, at(passes.fromM[9]) + 6, at(passes.toM[0]) - 6, lines);
    if (fitted) {
      const { at: x, width } = fitted;
      const height = linesHeight(fitted.lines);
      labels.push(...centredLabels(fitted.lines, x, middle));
      patch = svg`<rect class="patch" x=${px(x - width / 2 - 4)} y=${px(middle - height / 2)} width=${px(width + 8)} height=${px(height)}/>`;
    } else {
      const parts = figureForms(roll, '', { size: 17, ink: 'ink', bandInk: 'ink' })[0][0];
      const x = at(passes.fromM[0]);
      labels.push({ x, y: layout.bed[0] + 15, anchor: 'start', parts });
    }
  }
  if (lowest) {
    labels.push(...lowestLabels(lowest, layout, middle, obstacles));
  }
  const reason = reasonIn(picture, layout.axes.scale, rolled);
  if (unknown && reason) {
    labels.push(...centredLabels(reason.lines, (at(unknown.fromM) + at(unknown.toM)) / 2, middle));
  }
  if (!left || left.isOver) return { labels, patch, leftFits: false };
  const forms = figureForms(left.figure, left.words, { size: 28, ink: 'ink', bandInk: 'ink' });
  const lastM = passes ? (passes.extrapolatedToM ?? passes.toM)[9] : left.fromM;
  const from = Math.max(at(left.fromM), at(lastM)) + 20;
  const fitted = fitAlong(forms, from, at(left.toM) - 6, lines);
  if (fitted) labels.push(...centredLabels(fitted.lines, fitted.at, middle - 4));
  return { labels, patch, leftFits: fitted !== null };
}

/** How low, beside the dip where it crosses no strong line and no obstacle, else over it. */
function lowestLabels(
  { atM, figure }: NonNullable<StripPicture['lowest']>,
  { axes, lastPx }: RulerLayout,
  y: number,
  obstacles: readonly DrawnObstacle[],
): Label[] {
  const { at } = axes.scale;
  const x = at(atM);
  const forms = figureForms(figure, 'lowest', { size: 28, ink: 'ink', bandInk: 'ink' });
  const walls = obstacles.flatMap(({ points, radius }) =>
    points.map(([px0]) => [px0 - radius, px0 + radius] as const),
  );
  const rightWall = Math.min(
    atM < 0 ? at(0) : lastPx,
    ...walls.map(([l]) => l).filter((l) => l > x),
  );
  const leftWall = Math.max(atM < 0 ? 0 : at(0), ...walls.map(([, r]) => r).filter((r) => r < x));
  const right = fitAlong(forms, x + 18, rightWall - 6, []);
  const left = fitAlong(forms, leftWall + 6, x - 18, []);
  const isRight = right !== null && (left === null || right.lines.length <= left.lines.length);
  const fitted = isRight ? right : left;
  if (!fitted) {
    const over = figureForms(figure, 'lowest', { size: 17, ink: 'ink', bandInk: 'ink' })[2];
    return centredLabels(over, x, y - 14 - linesHeight(over) / 2);
  }
  const middle = isRight ? x + 18 + fitted.width / 2 : x - 18 - fitted.width / 2;
  return centredLabels(fitted.lines, middle, y);
}

/** The reason in the outline of what is not known. */
function reasonIn(
  { unknown }: StripPicture,
  { at }: RulerLayout['axes']['scale'],
  rolled: readonly [number, number],
): ReturnType<typeof reasonLines> | null {
  if (!unknown) return null;
  const widthPx = at(unknown.toM) - at(unknown.fromM) - 16;
  return reasonLines(unknown.reason, { widthPx, heightPx: rolled[1] - rolled[0] }, 14);
}

/** What the tape's zero is, left of it. */
function startLabels(picture: StripPicture, { axes, tapeTop }: RulerLayout): Label[] {
  const x = axes.scale.at(Math.min(picture.start.atM, 0)) - 10;
  const lines = wrapWords(picture.start.label, x - 4).slice(0, 2);
  const top = lines.length === 1 ? tapeTop + 20 : tapeTop + 13;
  return lines.map((text, k) => ({
    x,
    y: top + k * 15,
    anchor: 'end',
    parts: [{ text, ink: 'ink2' }],
  }));
}

function cursorLabel({ at, readOut }: Cursor, { axes, width }: RulerLayout): Label {
  const x = axes.scale.at(at);
  const isLeft = x > width * 0.7;
  return {
    x: isLeft ? x - 8 : x + 8,
    y: 15,
    anchor: isLeft ? 'end' : 'start',
    parts: readOut,
    halo: true,
  };
}
