/**
 * The strip ruler standing up, for a phone: zero at the bottom, landing direction up.
 *
 * In: the model, a width, a cursor. Out: the drawing. From the left: words of the places, the tape,
 * the strip, the rods; all within one thumb's height.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { NBSP, numberText } from '../../report/figure-text.ts';
import type { PlaceMark, StripPicture } from '../../report/pictures/strip-picture.ts';
import { acrossPath } from './axes.ts';
import type { Cursor, Drawing } from './drawing.ts';
import {
  centredLabels,
  figureForms,
  linesHeight,
  linesWidth,
  reasonLines,
} from './great-figure.ts';
import {
  bob,
  bracket,
  chock,
  chockOpen,
  dip,
  handRing,
  hurdle,
  HURDLE_WIDTH,
  lozenge,
  peg,
  pegOut,
  pegWas,
  plumbLine,
  screenPost,
} from './marks.ts';
import { rodDrawing } from './rod-drawing.ts';
import { layOutStanding, type StandingLayout } from './ruler-layout.ts';
import { px } from './scale.ts';
import { hasRoomBesideRods, obstacleNames, rodTops, sideLabels } from './standing-labels.ts';
import {
  drawnObstacles,
  grassBed,
  obstacleMarks,
  ropeDrawing,
  unknownOutline,
} from './strip-bed.ts';
import { swathe } from './swathe.ts';
import { bandStepM, tape } from './tape.ts';
import { labelBox, wrapWords, type Label } from './text.ts';

/** Draws it. */
export function standingRuler(
  picture: StripPicture,
  width: number,
  cursor: Cursor | null,
): Drawing {
  const layout = layOut(picture, width);
  const { axes, bed, tape: tapeAt } = layout;
  const { at } = axes.scale;
  const { ground, passes, rope, rods } = picture;
  const rolled: readonly [number, number] = [bed[0] + 11, bed[1] - 11];
  const obstacles = drawnObstacles(ground, axes, bed, [bed[0] - 8, bed[1] + 8]);
  const measure = tape({
    scale: axes.scale,
    unit: picture.lengthUnit,
    fromM: Math.min(picture.start.atM, 0),
    toM: picture.end.atM,
    edge: tapeAt[0],
    thick: tapeAt[1] - tapeAt[0],
    isUpright: true,
  });
  const great = greatFigures(picture, layout, rolled, cursor);
  const rodWords = rodTops(picture, layout);
  const words = sideLabels(picture, layout, great.missing);
  const taken = [...rodWords.labels, ...words, ...great.labels].map(labelBox);
  const names = obstacleNames(obstacles, rods, taken, layout);
  const reason = reasonIn(picture, layout, rolled[1] - rolled[0]);
  const unsaid = reason && !reason.isWhole ? picture.unknown : null;
  const notes = footNotes(picture, layout, rodWords.labels, {
    obstacles: names.unplaced,
    unknown: unsaid?.reason,
  });
  const labels = [
    ...measure.labels,
    ...words,
    ...rodWords.labels,
    ...great.labels,
    ...names.labels,
    ...notes.labels,
    ...(cursor ? [readOut(cursor)] : []),
  ];
  const inside = svg`
    ${obstacleMarks(obstacles)}
    ${grassBed(ground, axes, bed, { startM: picture.start.atM, endM: picture.end.atM, bandM: bandStepM(picture.lengthUnit) })}
    ${measure.drawing}
    ${rods[0] ? svg`<path class="hang" d=${`M${px(bed[0])} ${px(at(rods[0].fromM))}H${px((layout.rods.at(-1) ?? bed[1]) + 8)}`}/>` : nothing}
    ${passes ? swathe(passes, axes, rolled) : nothing}
    ${picture.unknown ? unknownOutline(axes, [at(picture.unknown.fromM), at(picture.unknown.toM)], rolled) : nothing}
    ${rods.map((rod, k) => rodDrawing(rod, axes, layout.rods[k], { endM: picture.end.atM, lastPx: layout.top }))}
    ${rodWords.drawing}
    ${rope ? ropeDrawing(rope, axes, bed) : nothing}
    ${picture.halfway ? svg`<path class="half-way" d=${acrossPath(axes, at(picture.halfway.atM), bed[0], bed[1] + 4)}/>` : nothing}
    ${picture.aimM === null ? nothing : lozenge((bed[0] + bed[1]) / 2, at(picture.aimM))}
    ${picture.places.map((place) => bracket(at(place.highM), at(place.lowM), tapeAt[0] - 19, true))}
    ${cursor ? plumbLine(tapeAt[0], at(cursor.at), width, at(cursor.at)) : nothing}
    ${cursor ? bob(tapeAt[0] - 6, at(cursor.at), 90) : nothing}
    ${great.patch}
    ${picture.places.map(({ atM, wasM }) => (wasM === undefined ? nothing : svg`${pegWas(tapeAt[0] - 1, at(wasM), -90)}${handRing(tapeAt[0] - 25, at(atM))}`))}
    ${picture.places.map((place) => placeMark(place, at(place.atM), layout))}
    ${picture.againM === null ? nothing : pegOut(tapeAt[0], at(picture.againM), -90)}
    ${notes.drawing}`;
  return { width, height: Math.ceil(notes.bottom), inside, labels };
}

/** The columns, with as much room at the head as the words over the rods take. */
function layOut(picture: StripPicture, width: number): StandingLayout {
  const least = layOutStanding(picture, width);
  const boxes = rodTops(picture, least).labels.map(labelBox);
  const missing = Math.max(0, ...boxes.map(({ top }) => 1 - top));
  return missing > 0 ? layOutStanding(picture, width, missing) : least;
}

/** Marks lie on their side, tips on the tape. */
function placeMark(place: PlaceMark, y: number, layout: StandingLayout): SVGTemplateResult {
  const x = layout.tape[0] - 1;
  switch (place.kind) {
    case 'touchdown':
      return peg(x, y, -90);
    case 'stop':
      return chock(x, y, -90);
    case 'roll-end':
    case 'brake-release':
      return chockOpen(x, y, -90);
    case 'lift-off':
      return pegOut(x, y, -90);
    case 'screen':
      return screenPost(x, y, -90, 13);
    case 'lowest':
      return dip((layout.bed[0] + layout.bed[1]) / 2, y);
  }
}

/** Figures on the swathe and on the grass; `missing` are those that found no room there. */
function greatFigures(
  picture: StripPicture,
  layout: StandingLayout,
  rolled: readonly [number, number],
  cursor: Cursor | null,
): { labels: Label[]; patch: SVGTemplateResult | typeof nothing; missing: ('roll' | 'left')[] } {
  const { at } = layout.axes.scale;
  const { passes, roll, left, rope, unknown, lowest } = picture;
  const x = (layout.bed[0] + layout.bed[1]) / 2;
  const lines = [
    ...(rope ? [at(rope.atM)] : []),
    ...(cursor ? [at(cursor.at)] : []),
    ...(picture.halfway ? [at(picture.halfway.atM)] : []),
  ];
  const fit = (forms: readonly Lines[], a: number, b: number, wide: number): Fit | null =>
    fitStanding(forms, a, b, wide, lines);
  const labels: Label[] = [];
  const missing: ('roll' | 'left')[] = [];
  let patch: SVGTemplateResult | typeof nothing = nothing;
  const wide = rolled[1] - rolled[0];
  if (roll) {
    const forms = figureForms(roll, '', { size: 22, ink: 'onswathe', bandInk: 'onswathe' });
    const found = passes ? fit(forms, at(passes.toM[0]) + 4, at(passes.fromM[9]) - 4, wide) : null;
    if (found) {
      labels.push(...centredLabels(found.lines, x, found.at));
      const height = linesHeight(found.lines);
      patch = svg`<rect class="patch" x=${px(x - linesWidth(found.lines) / 2 - 2)} y=${px(found.at - height / 2)} width=${px(linesWidth(found.lines) + 4)} height=${px(height)}/>`;
    } else missing.push('roll');
  }
  if (lowest) {
    const lines = figureForms(lowest.figure, 'lowest', {
      size: 22,
      ink: 'ink',
      bandInk: 'ink2',
    })[2];
    const beside = layout.bed[1] + 14 + linesWidth(lines) / 2;
    labels.push(...centredLabels(lines, beside, at(lowest.atM)));
  }
  const reason = reasonIn(picture, layout, wide);
  if (unknown && reason) {
    const middle = (at(unknown.fromM) + at(unknown.toM)) / 2;
    labels.push(...centredLabels(reason.lines, x, middle));
  }
  if (left) {
    const forms = figureForms(left.figure, left.words, { size: 22, ink: 'ink', bandInk: 'ink' });
    const lastM = passes ? (passes.extrapolatedToM ?? passes.toM)[9] : left.fromM;
    const stop = Math.min(at(left.fromM), at(lastM)) - 18;
    const found = left.isOver ? null : fit(forms, at(left.toM) + 6, stop, 84);
    if (found) labels.push(...centredLabels(found.lines, x, found.at));
    else missing.push('left');
  }
  return { labels, patch, missing };
}

/** The reason in the outline of what is not known, `wide` pixels. */
function reasonIn(
  { unknown }: StripPicture,
  { axes }: StandingLayout,
  wide: number,
): ReturnType<typeof reasonLines> | null {
  if (!unknown) return null;
  const { at } = axes.scale;
  const heightPx = at(unknown.fromM) - at(unknown.toM);
  return reasonLines(unknown.reason, { widthPx: wide - 4, heightPx }, 13);
}

type Lines = ReturnType<typeof figureForms>[number];

interface Fit {
  readonly lines: Lines;
  readonly at: number;
}

/** The first form that is narrow enough and has room between `from` and `to` (rising pixels). */
function fitStanding(
  forms: readonly Lines[],
  from: number,
  to: number,
  wide: number,
  avoid: readonly number[],
): Fit | null {
  const cuts = avoid.filter((line) => line > from && line < to).sort((a, b) => a - b);
  const edges = [from, ...cuts.flatMap((line) => [line - 6, line + 6]), to];
  for (const lines of forms) {
    if (linesWidth(lines) > wide) continue;
    for (let i = 0; i < edges.length; i += 2) {
      if (edges[i + 1] - edges[i] >= linesHeight(lines)) {
        return { lines, at: (edges[i] + edges[i + 1]) / 2 };
      }
    }
  }
  return null;
}

/** In the corner over the words: a place that nothing else takes. */
function readOut({ readOut: parts }: Cursor): Label {
  return { x: 0, y: 14, anchor: 'start', parts };
}

function footNotes(
  picture: StripPicture,
  layout: StandingLayout,
  rodWords: readonly Label[],
  {
    obstacles,
    unknown,
  }: { readonly obstacles: readonly string[]; readonly unknown: string | undefined },
): { labels: Label[]; drawing: SVGTemplateResult; bottom: number } {
  const { axes, bed, width, foot } = layout;
  const { ground, rollWords, noRope, halfway, rods } = picture;
  const pxPerM = Math.abs(axes.scale.at(1) - axes.scale.at(0));
  const larger = (bed[1] - bed[0]) / ground.widthM / pxPerM;
  const labels: Label[] = [];
  const hurdles: SVGTemplateResult[] = [];
  let y = foot + 6;
  // What is too long may be said down here, right of the strip.
  const lowest = Math.max(0, ...rodWords.map((label) => label.y));
  const room = lowest > y ? bed[1] : width;
  const add = (text: string, indent: number): void => {
    for (const line of wrapWords(text, room - indent)) {
      y += 17;
      labels.push({ x: indent, y, anchor: 'start', parts: [{ text: line, ink: 'ink2' }] });
    }
  };
  const warn = (text: string): void => {
    hurdles.push(hurdle(0, y + 18));
    add(text, HURDLE_WIDTH);
  };
  const drawn = `width drawn ×${NBSP}${numberText(larger, 1)}`;
  add([drawn, ground.slopeText ?? 'slope not known'].join('; '), 0);
  if (rollWords !== null) add(`rolled ${rollWords}`, 0);
  if (unknown !== undefined) add(`· · · ${unknown}`, 0);
  if (halfway) add(halfway.label, 0);
  if (obstacles.length > 0) add(`drawn by the strip: ${obstacles.join(', ')}`, 0);
  if (!hasRoomBesideRods(layout)) {
    for (const rod of rods) if (rod.isTooLong) warn(`${rod.label} ${rod.leftText}`);
  }
  if (noRope !== null) warn(noRope);
  return { labels, drawing: svg`${hurdles}`, bottom: Math.max(y, lowest) + 6 };
}
