/**
 * How the touchdown was found: the chance of every place as a heap over the tape.
 *
 * In: the model, a width. Out: the drawing: peg at the value, bracket of 90 %, the part before the
 * threshold hatched.
 */
import { nothing, svg } from 'lit';
import { unitOf } from '../../report/figure-text.ts';
import type { TouchdownChancePicture } from '../../report/pictures/touchdown-chance-picture.ts';
import type { Drawing } from './drawing.ts';
import { hatchPath } from './hatch.ts';
import { bracket, hurdle, HURDLE_WIDTH, peg } from './marks.ts';
import { linearScale, pathThrough, px, type Point } from './scale.ts';
import { tape, TAPE } from './tape.ts';
import { figureParts, partsWidth, wrapWords, type Label } from './text.ts';

/** Rows, pixels from the top. */
const ROW = { top: 26, base: 128 };
const SIDE = 8;

/** Draws it. */
export function chanceHeap(picture: TouchdownChancePicture, widthPx: number): Drawing {
  const { alongM, density, lengthUnit, ldaM } = picture;
  const step = 10 * unitOf(lengthUnit).si;
  const fromM = Math.floor(alongM[0] / step) * step;
  const toM = Math.min(
    Math.max(alongM[alongM.length - 1], 12 * step),
    Math.max(ldaM, picture.highM),
  );
  const scale = linearScale(fromM, toM, SIDE, widthPx - SIDE);
  const { at } = scale;
  const crest = Array.from(alongM, (along, i): Point => [
    at(along),
    ROW.base - density[i] * (ROW.base - ROW.top),
  ]).filter(([x]) => x <= at(toM));
  const closed = (points: readonly Point[]): Point[] => [
    [points[0][0], ROW.base],
    ...points,
    [points[points.length - 1][0], ROW.base],
  ];
  const before = upTo(crest, at(0));
  const measure = tape({
    scale,
    unit: lengthUnit,
    fromM,
    toM,
    edge: ROW.base,
    isUpright: false,
    isToEnd: toM >= ldaM,
  });
  const foot = ROW.base + TAPE;
  const inside = svg`<path class="heap" d=${pathThrough(closed(crest), true)}/>
    ${before.length > 1 ? svg`<path class="tail" d=${pathThrough(closed(before), true)}/><path class="hatch-caution" d=${hatchPath(closed(before), 45, 5)}/>` : nothing}
    ${measure.drawing}
    ${fromM < 0 ? svg`<path class="leader" d=${`M${px(at(0))} 20V${ROW.base}`}/><path class="strip-end" d=${`M${px(at(0))} ${ROW.base - 16}V${foot}`}/>` : nothing}
    ${bracket(at(picture.lowM), at(Math.min(picture.highM, toM)), foot + 5)}
    ${peg(at(picture.atM), ROW.base)}
    ${picture.shortText === null ? nothing : hurdle(0, foot + 52)}`;
  const parts = [
    { text: 'touchdown', size: 14 },
    ...figureParts(picture.figure, { size: 17, gap: 6 }),
  ];
  const half = partsWidth(parts) / 2;
  const words: Label[] = [
    {
      x: Math.min(Math.max(at(picture.atM), half), widthPx - half),
      y: foot + 28,
      anchor: 'middle',
      parts,
    },
    ...(fromM < 0 ? thresholdLabel(at(0), widthPx) : []),
    ...(picture.shortText === null
      ? []
      : wrapWords(picture.shortText, widthPx - HURDLE_WIDTH).map((text, k): Label => ({
          x: HURDLE_WIDTH,
          y: foot + 51 + 17 * k,
          anchor: 'start',
          parts: [{ text }],
        }))),
  ];
  const last = Math.max(...words.map(({ y }) => y));
  return {
    width: widthPx,
    height: Math.ceil(last + 8),
    inside,
    labels: [...measure.labels, ...words],
  };
}

/** The crest as far as a pixel, cut there. */
function upTo(crest: readonly Point[], x: number): Point[] {
  const k = crest.findIndex(([at]) => at > x);
  if (k < 0) return [...crest];
  if (k === 0) return [];
  const [[x0, y0], [x1, y1]] = [crest[k - 1], crest[k]];
  return [...crest.slice(0, k), [x, y0 + ((x - x0) / (x1 - x0)) * (y1 - y0)]];
}

/** Over the heap, where nothing else stands. */
function thresholdLabel(x: number, width: number): Label[] {
  const parts = [{ text: 'threshold', ink: 'ink2' as const }];
  const half = partsWidth(parts) / 2;
  return [{ x: Math.min(Math.max(x, half), width - half), y: 15, anchor: 'middle', parts }];
}
