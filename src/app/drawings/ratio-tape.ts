/**
 * The own factor: every landing's ratio on a log tape, the heap of the next landing below them, what
 * was left out at the foot.
 *
 * In: the model, a width. Out: the drawing. One landing a row, newest on top: thick bar 50 %, thin
 * bar 90 %. With too few landings there are dots and the line of 1.00 only.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { FactorPicture, LeftOutRow, RatioRow } from '../../report/pictures/factor-picture.ts';
import type { Drawing } from './drawing.ts';
import { ratioHeap } from './ratio-heap.ts';
import { linesAbove } from './ratio-lines.ts';
import { layOutRatios, type RatioLayout, type RowPlace } from './ratio-layout.ts';
import { px, type Scale } from './scale.ts';
import { logTape, TAPE } from './tape.ts';
import { wrapWords, type Label, type Part } from './text.ts';

/** Draws it. */
export function ratioTape(picture: FactorPicture, widthPx: number): Drawing {
  const layout = layOutRatios(picture, widthPx);
  const { scale, rows, tapeTop, plot } = layout;
  const isSure = picture.tooFew === null;
  const measure = logTape(scale, tapeTop);
  const lines = linesAbove(picture, layout);
  const heap = picture.heap ? ratioHeap(picture, layout) : null;
  const out = leftOut(picture, layout);
  const own = picture.own ? scale.at(picture.own.ratio) : null;
  const inside = svg`
    ${own === null ? nothing : svg`<rect class="within" x=${px(plot.left)} y=${px(layout.rowsTop)} width=${px(own - plot.left)} height=${px(tapeTop - layout.rowsTop)}/>`}
    ${heap ? heap.drawing : nothing}
    ${lines.drawing}
    ${picture.counted.map((row, k) => ratioRow(row, rows[k].y, scale, isSure))}
    ${measure.drawing}
    ${lines.feet}
    ${out.drawing}`;
  const labels = [
    ...lines.labels,
    ...rows.flatMap((row) => rowWords(row, layout)),
    ...(heap ? heap.labels : []),
    ...tooFewWords(picture, layout),
    ...measure.labels,
    ...out.labels,
  ];
  return { width: widthPx, height: Math.ceil(out.bottom), inside, labels };
}

type Columns = Pick<RatioLayout, 'dayX' | 'placeX' | 'placeRoom'>;

/** One landing: thin bar 90 %, thick bar 50 %, its dot; an arrow where it only bounds from above. */
function ratioRow(row: RatioRow, y: number, scale: Scale, isSure: boolean): SVGTemplateResult {
  const inside = (ratio: number): number => Math.min(Math.max(ratio, scale.from), scale.to);
  const at = (ratio: number): string => px(scale.at(inside(ratio)));
  const isBound = row.role === 'upper-bound';
  const dot = svg`<circle class=${isBound ? 'dot-open' : 'dot'} cx=${at(row.ratio)} cy=${px(y)} r="5"/>`;
  if (!isSure) return dot;
  const x = scale.at(inside(row.low90));
  const arrow = `M${px(x)} ${px(y)}h-12m5 -4l-5 4l5 4`;
  return svg`<path class="bar-90" d=${`M${at(row.low90)} ${px(y)}H${at(row.high90)}${isBound ? arrow : ''}`}/>
    <path class="bar-50" d=${`M${at(row.low50)} ${px(y)}H${at(row.high50)}`}/>${dot}`;
}

function rowWords(
  { day, place, year, y }: RowPlace,
  { dayX, placeX, placeRoom }: Columns,
): Label[] {
  const words: Label[] = [{ x: dayX, y: y + 5, anchor: 'start', parts: [{ text: day }] }];
  if (placeX !== null) {
    const part: Omit<Part, 'text'> = { serif: true, size: 15, ink: 'ink2' };
    const [first] = wrapWords(place, placeRoom, part);
    words.push({ x: placeX, y: y + 5, anchor: 'start', parts: [{ text: first, ...part }] });
  }
  if (year !== null) {
    words.push({ x: dayX, y: y - 15, anchor: 'start', parts: [{ text: year, weight: 600 }] });
  }
  return words;
}

/** In place of lines and heap: why there is no factor. */
function tooFewWords({ tooFew }: FactorPicture, { width }: RatioLayout): Label[] {
  if (tooFew === null) return [];
  const style = { serif: true, size: 15 };
  return wrapWords(`· · · ${tooFew}`, width - 8, style).map((text, k) => ({
    x: 0,
    y: 16 + 18 * k,
    anchor: 'start',
    parts: [{ text, ...style }],
  }));
}

/** What was left out: under each reason its landings, as open grey dots. */
function leftOut(
  { leftOut: rows }: FactorPicture,
  { scale, tapeTop, width, ...columns }: RatioLayout,
): { drawing: SVGTemplateResult[]; labels: Label[]; bottom: number } {
  let y = tapeTop + TAPE + 4;
  if (rows.length === 0) return { drawing: [], labels: [], bottom: y };
  y += 26;
  const labels: Label[] = [
    { x: 0, y, anchor: 'start', parts: [{ text: 'Left out', size: 14, weight: 600 }] },
  ];
  const drawing: SVGTemplateResult[] = [];
  for (const reason of new Set(rows.map(({ why }) => why))) {
    const group = rows.filter(({ why }) => why === reason);
    const placed = group.filter(({ hasRatio }) => hasRatio);
    const write = (text: string, style: Omit<Part, 'text'>): void => {
      for (const line of wrapWords(text, width - 8, style)) {
        y += 19;
        labels.push({ x: 0, y, anchor: 'start', parts: [{ text: line, ...style }] });
      }
    };
    if (placed.length > 0) write(reason, { ink: 'ink2' });
    for (const row of placed) {
      y += 22;
      const place = { day: `${row.day} ${row.year}`, place: row.stripName, year: null, y: y - 5 };
      labels.push(...rowWords(place, columns));
      drawing.push(leftOutRow(row, y - 5, scale));
    }
    const without = group.filter(({ hasRatio }) => !hasRatio);
    if (without.length > 0) {
      write(`· · · ${reason}`, { serif: true, size: 14 });
      write(
        without
          .map(({ day, year, stripName }) =>
            `${day} ${year} ${stripName}`.replaceAll(' ', '\u00a0'),
          )
          .join(', '),
        { ink: 'ink2' },
      );
    }
    y += 7;
  }
  return { drawing, labels, bottom: y + 8 };
}

/** An open grey dot with its bar; what lies beyond the tape is an arrow at its edge. */
function leftOutRow(row: LeftOutRow, y: number, scale: Scale): SVGTemplateResult {
  const inside = (ratio: number): number => Math.min(Math.max(ratio, scale.from), scale.to);
  const at = (ratio: number): string => px(scale.at(inside(ratio)));
  const isOff = inside(row.ratio) !== row.ratio;
  const arrow = row.ratio < scale.from ? 'h10m-6 -4l-6 4l6 4' : 'h-10m6 -4l6 4l-6 4';
  return svg`<path class="bar-left-out" d=${`M${at(row.low90)} ${px(y)}H${at(row.high90)}`}/>
    ${isOff ? svg`<path class="bar-left-out" d=${`M${at(row.ratio)} ${px(y)}${arrow}`}/>` : svg`<circle class="dot-left-out" cx=${at(row.ratio)} cy=${px(y)} r="4.5"/>`}`;
}
