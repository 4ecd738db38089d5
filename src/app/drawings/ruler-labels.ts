/**
 * The words of a lying strip ruler: beside rods, over the end, under the tape, by obstacles.
 *
 * In: the model and where everything stands. Out: labels that do not overlap.
 */
import { nothing, type SVGTemplateResult } from 'lit';
import { NBSP, numberText, type FigureText } from '../../report/figure-text.ts';
import type { PlaceMark, Rod, StripPicture } from '../../report/pictures/strip-picture.ts';
import { hurdle, HURDLE_WIDTH } from './marks.ts';
import { firstFitting, spreadOut } from './placing.ts';
import type { DrawnObstacle } from './strip-bed.ts';
import { leftPart, rodNameParts, tooLongPart, type RulerLayout } from './ruler-layout.ts';
import { TAPE } from './tape.ts';
import {
  figureParts,
  labelBox,
  partsWidth,
  wrapWords,
  type Box,
  type Label,
  type Part,
} from './text.ts';

/** Name and figure left of the plumb line; right of the end what would be left, or what is too long. */
export function rodLabels({ rods }: StripPicture, layout: RulerLayout): Label[] {
  const { axes, rodY, width } = layout;
  const { at } = axes.scale;
  return rods.flatMap((rod, k) => {
    const y = rodY[k] + 5;
    const parts = rodNameParts(rod);
    const label: Label = { x: at(rod.fromM) - 10, y, anchor: 'end', parts };
    const right = afterRod(rod, layout);
    if (rod.isTooLong) {
      const words = [tooLongPart(rod.leftText)];
      return [label, { x: right + HURDLE_WIDTH, y, anchor: 'start', parts: words }];
    }
    const left = leftPart(rod.leftText);
    if (right + partsWidth([left]) <= width) {
      return [label, { x: right, y, anchor: 'start', parts: [left] }];
    }
    const whole = { ...label, parts: [...parts, { ...left, gap: 8 }] };
    return [partsWidth(whole.parts) < label.x ? whole : label];
  });
}

/** Right of a rod's end, or of the place where it is cut. */
function afterRod({ toM, kind }: Rod, { axes, lastPx }: RulerLayout): number {
  return Math.min(axes.scale.at(toM), lastPx) + (kind === 'own' ? 14 : 10);
}

/** Hurdles of the rods that are too long, each before its words. */
export function rodHurdles(rods: readonly Rod[], layout: RulerLayout): SVGTemplateResult[] {
  return rods.flatMap((rod, k) =>
    rod.isTooLong ? [hurdle(afterRod(rod, layout), layout.rodY[k] + 6)] : [],
  );
}

/** Over the strip's end: the length that counts; half way; what is left where the grass has no room for it. */
export function endRowLabels(
  picture: StripPicture,
  { axes, bed, width }: RulerLayout,
  leftFits: boolean,
): Label[] {
  const { at } = axes.scale;
  const { end, halfway, left } = picture;
  const y = bed[0] - 9;
  const endParts: Part[] = [{ text: end.label, size: 14, weight: 600 }];
  const labels: Label[] = [{ x: at(end.atM), y, anchor: 'end', parts: endParts }];
  let free = at(end.atM) - partsWidth(endParts) - 20;
  if (left && !leftFits) {
    const ink = left.isOver ? 'caution' : 'ink';
    const band: Part = { text: left.figure.band, ink: 'ink2', gap: 6 };
    const parts: Part[] = [
      ...figureParts(left.figure, { size: 17, ink, withBand: false }),
      { text: left.words, size: 14, ink, gap: 5 },
      ...(left.figure.band === '' ? [] : [band]),
    ];
    labels.push({ x: free, y, anchor: 'end', parts });
    free -= partsWidth(parts) + 20;
  }
  if (halfway) {
    const parts: Part[] = [{ text: halfway.label, ink: 'ink2' }];
    const half = partsWidth(parts) / 2;
    const x = Math.max(half, Math.min(at(halfway.atM), free - half, width - half));
    labels.push({ x, y, anchor: 'middle', parts });
  }
  return labels;
}

/** A place with its words; without a figure where a drawing says it elsewhere. */
type WordedPlace = Pick<PlaceMark, 'atM' | 'label'> & { readonly figure: FigureText | null };

/** Under the tape: what was measured where, and the rope; on two lines where one is too narrow. */
export function placeLabels(
  {
    places,
    rope,
  }: {
    readonly places: readonly WordedPlace[];
    readonly rope: StripPicture['rope'];
  },
  { axes, labelY, width }: Pick<RulerLayout, 'axes' | 'labelY' | 'width'>,
): { labels: Label[]; bottom: number } {
  const { at } = axes.scale;
  const items = [
    ...places.map(({ atM, label, figure }) => ({
      at: at(atM),
      parts: [
        { text: label, size: 14 },
        ...(figure ? figureParts(figure, { size: 17, gap: 6 }) : []),
      ] as Part[],
    })),
    ...(rope
      ? [
          {
            at: at(rope.atM),
            parts: [
              { text: rope.label, size: 14 },
              ...figureParts(rope.figure, { size: 17, ink: rope.of, gap: 6 }),
            ] as Part[],
          },
        ]
      : []),
  ].sort((a, b) => a.at - b.at);
  const rowOf = (row: typeof items, y: number): Label[] | null => {
    const wishes = row.map(({ at: wish, parts }) => ({ at: wish, size: partsWidth(parts) }));
    const placed = spreadOut(wishes, 0, width, 18);
    return placed && row.map(({ parts }, k) => ({ x: placed[k], y, anchor: 'middle', parts }));
  };
  const single = rowOf(items, labelY);
  if (single) return { labels: single, bottom: labelY + 5 };
  const upper =
    rowOf(
      items.filter((_, k) => k % 2 === 0),
      labelY,
    ) ?? [];
  const lower =
    rowOf(
      items.filter((_, k) => k % 2 === 1),
      labelY + 22,
    ) ?? [];
  return { labels: [...upper, ...lower], bottom: labelY + 27 };
}

/** By each obstacle: below it, over it, or beside it, where there is room; never on the tape, which runs between two places along. */
export function obstacleLabels(
  obstacles: readonly DrawnObstacle[],
  taken: readonly Box[],
  { width, bed, tapeTop, axes }: RulerLayout,
  [tapeFromM, tapeToM]: readonly [number, number],
): { labels: Label[]; unplaced: string[] } {
  const tape = {
    left: axes.scale.at(tapeFromM),
    top: tapeTop,
    right: axes.scale.at(tapeToM),
    bottom: tapeTop + TAPE,
  };
  const boxes = [...taken, tape];
  const grass = {
    left: axes.scale.at(-1e4),
    top: bed[0],
    right: axes.scale.at(1e4),
    bottom: bed[1],
  };
  const labels: Label[] = [];
  const unplaced: string[] = [];
  for (const { obstacle, points, radius } of obstacles) {
    const xs = points.map(([x]) => x);
    const ys = points.map(([, y]) => y);
    const parts: Part[] = [{ text: obstacle.label, ink: 'ink2' }];
    const middle = (Math.min(...xs) + Math.max(...xs)) / 2;
    const low = Math.max(...ys) + radius;
    const high = Math.min(...ys) - radius;
    const half = partsWidth(parts) / 2;
    const inX = Math.min(Math.max(middle, half + 2), width - half - 2);
    const places: Label[] = [
      { x: inX, y: high - 6, anchor: 'middle', parts },
      { x: inX, y: low + 14, anchor: 'middle', parts },
      { x: Math.min(...xs) - radius - 5, y: low - 4, anchor: 'end', parts },
      { x: Math.min(...xs) - radius - 5, y: (low + high) / 2, anchor: 'end', parts },
      { x: Math.max(...xs) + radius + 5, y: low - 4, anchor: 'start', parts },
    ];
    const strips = middle > axes.scale.at(0) ? [grass] : [];
    const within = { left: 0, top: 0, right: width, bottom: tapeTop + TAPE };
    const found = firstFitting(places, [...boxes, ...strips], within);
    if (!found) {
      unplaced.push(obstacle.label);
      continue;
    }
    labels.push(found);
    boxes.push(labelBox(found));
  }
  return { labels, unplaced };
}

/**
 * Notes at the foot: the exaggeration, how far the roll was seen, obstacles whose names
 * found no room, why there is no rope, and a reason that the outline of what is unknown has no room for.
 */
export function noteLines(
  picture: StripPicture,
  { axes, bed, width }: RulerLayout,
  top: number,
  obstacles: readonly string[],
  unknown?: string,
): { labels: Label[]; drawing: SVGTemplateResult | typeof nothing; bottom: number } {
  const { ground, rollWords, noRope } = picture;
  const pxPerM = axes.scale.at(1) - axes.scale.at(0);
  const larger = (bed[1] - bed[0]) / ground.widthM / pxPerM;
  const plain = [
    `width drawn ×${NBSP}${numberText(larger, 1)}`,
    ...(rollWords === null ? [] : [`rolled ${rollWords}`]),
    ...(unknown === undefined ? [] : [`· · · ${unknown}`]),
    ...(obstacles.length === 0 ? [] : [`drawn by the strip: ${obstacles.join(', ')}`]),
  ];
  const labels: Label[] = [];
  let y = top;
  const add = (text: string, indent: number, ink: 'ink2' | 'ink'): void => {
    for (const line of wrapWords(text, width - indent)) {
      y += 17;
      labels.push({ x: indent, y, anchor: 'start', parts: [{ text: line, ink }] });
    }
  };
  const beforeStrip = axes.scale.at(Math.min(ground.nearEndM, 0));
  // Beside the wedge where there is room for it.
  if (partsWidth([{ text: plain[0] }]) + 10 < beforeStrip) y -= 17;
  for (const text of plain) add(text, 0, 'ink2');
  const hurdleY = y + 17;
  if (noRope !== null) add(noRope, HURDLE_WIDTH, 'ink');
  const drawing = noRope === null ? nothing : hurdle(0, hurdleY + 1);
  return { labels, drawing, bottom: Math.max(top, y + 6) };
}
