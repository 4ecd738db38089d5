/**
 * A roll on a bare tape, at a place nobody has kept: ten passes on the paper, no grass, no ends.
 *
 * In: the model, a width in CSS pixels, a cursor. Out: the drawing, lying at every width: there is
 * nothing beside it. The page turns a pointer into metres by the same scale.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { BareMark, BareRollPicture } from '../../report/pictures/bare-roll-picture.ts';
import { lyingAxes } from './axes.ts';
import type { Cursor, Drawing } from './drawing.ts';
import { centredLabels, figureForms, fitAlong, linesHeight } from './great-figure.ts';
import { bob, bracket, chock, chockOpen, peg, pegOut, plumbLine, screenPost } from './marks.ts';
import { placeLabels } from './ruler-labels.ts';
import { linearScale, px, type Scale } from './scale.ts';
import { swathe } from './swathe.ts';
import { tape, TAPE } from './tape.ts';
import { wrapWords, type Label } from './text.ts';

/** Rows from the top, pixels: room for the read-out, the passes, the words under the tape. */
const BED = [24, 84] as const;
const TAPE_TOP = BED[1] + 4;
const WORDS = 28;
/** Ground shown before and behind what was measured, as a share of it, and at the least, pixels at the edges. */
const AROUND = 0.06;
const EDGE_PX = 8;

/** Marks at which a roll ends. */
const ENDS: readonly BareMark['kind'][] = ['stop', 'roll-end', 'lift-off'];

/** Metres from the roll's zero to pixels. */
export function bareScale({ passes, marks }: BareRollPicture, width: number): Scale {
  const ends = [
    ...passes.fromM,
    ...(passes.extrapolatedToM ?? passes.toM),
    ...marks.flatMap(({ lowM, highM }) => [lowM, highM]),
  ];
  const [first, last] = [Math.min(...ends, 0), Math.max(...ends)];
  const aroundM = AROUND * (last - first);
  return linearScale(first - aroundM, last + aroundM, EDGE_PX, width - EDGE_PX);
}

/** Draws it. */
export function bareRoll(
  picture: BareRollPicture,
  width: number,
  cursor: Cursor | null = null,
): Drawing {
  const scale = bareScale(picture, width);
  const { at } = scale;
  const axes = lyingAxes(scale);
  const { passes, marks } = picture;
  const measure = tape({
    ...{ scale, unit: picture.lengthUnit, edge: TAPE_TOP, isUpright: false, isToEnd: false },
    fromM: 0,
    toM: scale.to,
  });
  const here = cursor && cursor.at >= scale.from && cursor.at <= scale.to ? cursor : null;
  const great = rollFigure(picture, scale, here);
  // Else it stands at the end of the roll: as far from zero as was rolled.
  const places = great
    ? marks
    : marks.map((mark) => (ENDS.includes(mark.kind) ? { ...mark, figure: picture.roll } : mark));
  const words = placeLabels(
    { places, rope: null },
    { axes, labelY: TAPE_TOP + TAPE + WORDS, width },
  );
  const notes = picture.rollWords === null ? [] : wrapWords(`rolled ${picture.rollWords}`, width);
  const labels: Label[] = [
    ...measure.labels,
    ...words.labels,
    ...(great?.labels ?? []),
    ...notes.map((text, k): Label => ({
      ...{ x: 0, y: words.bottom + 17 * (k + 1), anchor: 'start' },
      parts: [{ text, ink: 'ink2' }],
    })),
    ...(here ? [readOut(here, at(here.at), width)] : []),
  ];
  const inside = svg`${measure.drawing}
    ${swathe(passes, axes, [BED[0] + 4, BED[1] - 4])}
    ${marks.map(({ lowM, highM }) => (highM > lowM ? bracket(at(lowM), at(highM), TAPE_TOP + TAPE + 5) : nothing))}
    ${here ? plumbLine(at(here.at), 6, at(here.at), TAPE_TOP + TAPE) : nothing}
    ${here ? bob(at(here.at), TAPE_TOP + TAPE + 6) : nothing}
    ${great?.patch ?? nothing}
    ${marks.map((mark) => markDrawing(mark, at(mark.atM)))}`;
  return { width, height: Math.ceil(words.bottom + 17 * notes.length + 6), inside, labels };
}

function markDrawing({ kind }: BareMark, x: number): SVGTemplateResult | typeof nothing {
  switch (kind) {
    case 'touchdown':
      return peg(x, BED[1]);
    case 'stop':
      return chock(x, BED[1]);
    case 'roll-end':
    case 'brake-release':
      return chockOpen(x, BED[1]);
    case 'lift-off':
      return pegOut(x, BED[1]);
    case 'screen':
      return screenPost(x, BED[1]);
    default:
      return nothing;
  }
}

/** On the passes where it fits; null where it does not. */
function rollFigure(
  { passes, roll }: BareRollPicture,
  { at }: Scale,
  cursor: Cursor | null,
): { labels: Label[]; patch: SVGTemplateResult } | null {
  const middle = (BED[0] + BED[1]) / 2;
  const forms = figureForms(roll, '', { size: 28, ink: 'onswathe', bandInk: 'onswathe' });
  const lines = cursor ? [at(cursor.at)] : [];
  const fitted = fitAlong(forms, at(passes.fromM[9]) + 6, at(passes.toM[0]) - 6, lines);
  if (!fitted) return null;
  const { at: x, width } = fitted;
  const height = linesHeight(fitted.lines);
  const patch = svg`<rect class="patch" x=${px(x - width / 2 - 4)} y=${px(middle - height / 2)} width=${px(width + 8)} height=${px(height)}/>`;
  return { labels: centredLabels(fitted.lines, x, middle), patch };
}

function readOut({ readOut: parts }: Cursor, x: number, width: number): Label {
  const isLeft = x > width * 0.6;
  return { x: isLeft ? x - 8 : x + 8, y: 15, anchor: isLeft ? 'end' : 'start', parts, halo: true };
}
