/**
 * The rolls of several approaches, one under the other over one tape.
 *
 * In: the model, the distance axis of the lines above, where the rows begin. Out: SVG and words. What
 * stands left of the threshold names the row; what is left of the strip stands right of its end.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { figureValue } from '../../report/figure-text.ts';
import type { Lane, SideBySidePicture } from '../../report/pictures/side-by-side-picture.ts';
import { boxPath, acrossPath, lyingAxes } from './axes.ts';
import { dip } from './marks.ts';
import { multiples, type Scale } from './scale.ts';
import { swathe } from './swathe.ts';
import { bandStepM, tape, TAPE } from './tape.ts';
import { partsWidth, type Label, type Part } from './text.ts';

/** Height of a strip, room between rows, room for words over a row where none is beside it, pixels. */
const BED = 24;
const GAP = 6;
const WORDS = 20;
/** Row of the heads, and room under the tape, pixels. */
const HEAD = 20;
const FOOT = 6;

function rowHeight(isBeside: boolean): number {
  return BED + GAP + (isBeside ? 0 : WORDS);
}

/** Height of all rows with their tape, pixels; `width` as the drawing's. */
export function rollRowsHeight(picture: SideBySidePicture, width: number): number {
  // Narrow drawings never have the room; wide ones are measured the same way as they are drawn.
  const rows = picture.lanes.length * rowHeight(width >= WIDE);
  return HEAD + rows + TAPE + FOOT;
}

/** From here up the words stand beside the strip, CSS pixels. */
const WIDE = 660;

/** Draws the rows from the pixel `top` down. */
export function rollRows(
  picture: SideBySidePicture,
  along: Scale,
  top: number,
  { width, chosen }: { readonly width: number; readonly chosen: number | null },
): { drawing: SVGTemplateResult; labels: Label[] } {
  const isBeside = width >= WIDE;
  const axes = lyingAxes(along);
  const { ldaM } = picture.ground;
  const labels: Label[] = [];
  const drawings: SVGTemplateResult[] = [];
  picture.lanes.forEach((lane, k) => {
    const rowTop = top + HEAD + k * rowHeight(isBeside);
    const bedTop = rowTop + (isBeside ? 0 : WORDS);
    const bed = [bedTop, bedTop + BED] as const;
    const bandM = bandStepM(picture.units.length);
    const mown = multiples(2 * bandM, 0, ldaM)
      .map((from) => [from + bandM, Math.min(from + 2 * bandM, ldaM)] as const)
      .filter(([from, to]) => to > from)
      .map(([from, to]) => boxPath(axes, [along.at(from), along.at(to)], bed));
    const ends = [0, ldaM].map((atM) => acrossPath(axes, along.at(atM), bed[0] - 2, bed[1] + 2));
    drawings.push(svg`<path class="grass" d=${boxPath(axes, [along.at(0), along.at(ldaM)], bed)}/>
      <path class="mown" d=${mown.join('')}/>
      ${lane.passes ? swathe(lane.passes, axes, [bed[0] + 4, bed[1] - 4]) : nothing}
      <path class="strip-end" d=${ends.join('')}/>
      ${dipOf(lane, along, bed)}`);
    const isChosen = lane.number === chosen;
    const parts = nameParts(lane, isChosen);
    // A pass that was lowest before the threshold has its dip there: the words stand left of it.
    const dipM = lane.passes === null && lane.lowestM !== null ? lane.lowestM : 0;
    const x = Math.min(along.at(0) - 12, along.at(dipM) - 18);
    const without = nameParts({ ...lane, aeroplane: null }, isChosen);
    const fitting = (room: number): Part[] | undefined =>
      [parts, nameParts(lane, false), without].find((each) => partsWidth(each) <= room);
    labels.push(
      isBeside
        ? { x, y: bed[0] + 17, anchor: 'end', parts: fitting(x) ?? parts.slice(0, 1) }
        : { x: 0, y: bed[0] - 6, anchor: 'start', parts: fitting(width) ?? without },
    );
    labels.push(...leftLabel(lane, isChosen, along.at(ldaM) + 8, bed[0] + 17, width));
  });
  const head = picture.lanes.some(({ left }) => left);
  if (head) {
    const parts: Part[] = [{ text: 'left', ink: 'ink2' }];
    labels.push({ x: along.at(ldaM) + 8, y: top + 13, anchor: 'start', parts });
  }
  const edge = top + HEAD + picture.lanes.length * rowHeight(isBeside);
  const unit = picture.units.length;
  const measure = tape({ scale: along, unit, fromM: 0, toM: ldaM, edge, isUpright: false });
  return {
    drawing: svg`${drawings}${measure.drawing}`,
    labels: [...labels, ...measure.labels],
  };
}

function nameParts({ number, aeroplane, words }: Lane, isBold: boolean): Part[] {
  const weight: Part['weight'] = isBold ? 650 : 400;
  const name: Part[] =
    aeroplane === null ? [] : [{ text: `${aeroplane},`, size: 14, weight, gap: 10 }];
  return [
    { text: String(number), size: 14, weight: 650 },
    ...name,
    { text: words, size: 14, weight, gap: aeroplane === null ? 10 : 4 },
  ];
}

function leftLabel(
  { left, isOver }: Lane,
  isChosen: boolean,
  x: number,
  y: number,
  width: number,
): Label[] {
  if (!left) return [];
  const text = isOver ? `${figureValue(left)} over` : figureValue(left);
  const parts: Part[] = [
    { text, size: 14, weight: isChosen ? 650 : 400, ink: isOver ? 'caution' : 'ink' },
  ];
  const fits = x + partsWidth(parts) <= width;
  return [{ x: fits ? x : width, y, anchor: fits ? 'start' : 'end', parts }];
}

/** Where a pass was lowest; nothing off the drawing. */
function dipOf(
  { lowestM, passes }: Lane,
  along: Scale,
  [top, foot]: readonly [number, number],
): SVGTemplateResult | typeof nothing {
  if (lowestM === null || passes) return nothing;
  const x = along.at(lowestM);
  if (x < along.at(along.from) + 12 || x > along.at(along.to) - 12) return nothing;
  return dip(x, (top + foot) / 2 + 3);
}
