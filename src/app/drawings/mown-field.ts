/**
 * The mown field: every landing at one strip side by side, oldest left, threshold below.
 *
 * In: the model, a width. Out: the drawing: columns from touchdown to stop, the rope of the latest
 * touchdown point across them, a scale at the left. A drift is seen as a slanting edge.
 */
import { nothing, svg } from 'lit';
import { figureValue, numberText, unitOf } from '../../report/figure-text.ts';
import type { MownFieldPicture } from '../../report/pictures/mown-field-picture.ts';
import { boxPath, standingAxes } from './axes.ts';
import type { Drawing } from './drawing.ts';
import { keepFitting } from './placing.ts';
import { linearScale, multiples, px } from './scale.ts';
import { ropeDrawing } from './strip-bed.ts';
import { swathe } from './swathe.ts';
import { bandStepM, labelStep } from './tape.ts';
import { figureParts, labelBox, partsWidth, type Label, type Part } from './text.ts';

/** Room about the field, pixels. */
const ROOM = { top: 28, right: 8, foot: 26 };
/** Height of the field against its width, within limits, pixels. */
const TALL = { share: 0.66, least: 250, most: 380 };
/** Widest column, pixels: narrow enough to be drawn as one pale shape; and ground shown before the threshold at most, as a share of the LDA. */
const WIDEST = 25;
const BEFORE = 0.2;

/** Draws it. */
export function mownField(picture: MownFieldPicture, widthPx: number): Drawing {
  const { ldaM, columns, rope, lengthUnit } = picture;
  const { si } = unitOf(lengthUnit);
  const numerals = numeralParts(picture);
  const left = Math.ceil(Math.max(...numerals.map(({ parts }) => partsWidth(parts)))) + 10;
  const right = widthPx - ROOM.right;
  const tall = Math.min(Math.max(TALL.share * widthPx, TALL.least), TALL.most);
  const firstM = Math.min(0, ...columns.map(({ passes }) => passes.fromM[0]));
  const lastM = Math.max(ldaM, ...columns.map(({ passes }) => passes.toM[9]));
  const scale = linearScale(
    Math.max(firstM, -BEFORE * ldaM),
    Math.min(lastM, (1 + BEFORE) * ldaM),
    ROOM.top + tall,
    ROOM.top,
  );
  const axes = standingAxes(scale);
  const { at } = scale;
  const across = [left, right] as const;
  const band = bandStepM(lengthUnit);
  const mown = multiples(2 * band, 0, ldaM)
    .map((from) => [from + band, Math.min(from + 2 * band, ldaM)] as const)
    .filter(([from, to]) => to > from)
    .map(([from, to]) => boxPath(axes, [at(from), at(to)], across));
  const room = (right - left) / columns.length;
  const wide = Math.min(WIDEST, room * (room < 7 ? 0.9 : 0.72));
  const inside = svg`
    <path class="grass" d=${boxPath(axes, [at(0), at(ldaM)], across)}/>
    <path class="mown" d=${mown.join('')}/>
    ${columns.map(({ passes }, k) => {
      const middle = left + room * (k + 0.5);
      return swathe(passes, axes, [middle - wide / 2, middle + wide / 2], false);
    })}
    <path class="strip-end" d=${[0, ldaM].map((each) => `M${px(left)} ${px(at(each))}H${px(right)}`).join('')}/>
    ${rope ? ropeDrawing(rope, axes, across) : nothing}`;
  const labels = keepFitting(
    numerals.map(({ units, parts }): Label => ({
      x: left - 8,
      y: at(units * si) + 5,
      anchor: 'end',
      parts,
    })),
    [],
    { left: 0, top: 0, right: widthPx, bottom: ROOM.top + tall + ROOM.foot },
  );
  const foot = footLabels(picture, left, right, ROOM.top + tall + 19);
  return {
    width: widthPx,
    height: Math.ceil(ROOM.top + tall + ROOM.foot),
    inside,
    labels: [...labels, ...foot, ...ropeLabel(picture, right)],
  };
}

/** The LDA first, as it must stand; then zero and round steps. */
function numeralParts({
  ldaM,
  lda,
  lengthUnit,
}: MownFieldPicture): { units: number; parts: Part[] }[] {
  const { si } = unitOf(lengthUnit);
  const steps = multiples(labelStep(lengthUnit), 0, ldaM / si);
  return [
    { units: ldaM / si, parts: [{ text: figureValue(lda), weight: 600 }] },
    ...steps.map((units) => ({
      units,
      parts: [{ text: numberText(units, 0), ink: 'ink2' as const }],
    })),
  ];
}

/** First and last day at the foot; one day alone where both are the same. */
function footLabels(
  { firstDay, lastDay }: MownFieldPicture,
  left: number,
  right: number,
  y: number,
): Label[] {
  const part = (text: string): Part[] => [{ text, ink: 'ink2' }];
  const first: Label = { x: left, y, anchor: 'start', parts: part(firstDay) };
  if (firstDay === lastDay) return [first];
  const last: Label = { x: right, y, anchor: 'end', parts: part(lastDay) };
  return labelBox(first).right + 12 > labelBox(last).left ? [last] : [first, last];
}

/** What the rope stands for: in the corner over the field, where nothing else stands. */
function ropeLabel({ rope }: MownFieldPicture, right: number): Label[] {
  if (!rope) return [];
  const parts: Part[] = [
    { text: rope.label },
    ...figureParts(rope.figure, { size: 15, ink: rope.of, gap: 6 }),
  ];
  return [{ x: right, y: 15, anchor: 'end', parts }];
}
