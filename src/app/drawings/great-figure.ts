/**
 * Where does a figure fit on the grass or on the swathe, and in which form?
 *
 * In: forms of the figure from the fullest to the shortest, the free length, what must not be
 * covered. Out: the first form that fits, centred in the widest free piece, or null.
 */
import type { FigureText } from '../../report/figure-text.ts';
import {
  figureParts,
  LEAST_SIZE,
  partsWidth,
  wrapWords,
  type Ink,
  type Label,
  type Part,
} from './text.ts';

/** Lines of a figure, one above the other. */
export type Lines = readonly (readonly Part[])[];

/** A form that fits, and its middle. */
export interface Fitted {
  readonly lines: Lines;
  readonly at: number;
  readonly width: number;
}

/** Room kept free beside a line that crosses, pixels. */
const CLEAR = 7;

/** The first form that fits between `from` and `to` without crossing `avoid`. */
export function fitAlong(
  forms: readonly Lines[],
  from: number,
  to: number,
  avoid: readonly number[],
): Fitted | null {
  const cuts = avoid.filter((at) => at > from && at < to).sort((a, b) => a - b);
  const edges = [from, ...cuts.flatMap((at) => [at - CLEAR, at + CLEAR]), to];
  const pieces = Array.from({ length: edges.length / 2 }, (_, i) => [
    edges[2 * i],
    edges[2 * i + 1],
  ]);
  const widest = pieces.reduce((best, piece) =>
    piece[1] - piece[0] > best[1] - best[0] ? piece : best,
  );
  for (const lines of forms) {
    const width = linesWidth(lines);
    if (width <= widest[1] - widest[0]) {
      return { lines, at: (widest[0] + widest[1]) / 2, width };
    }
  }
  return null;
}

/** Widest of the lines. */
export function linesWidth(lines: Lines): number {
  return Math.max(...lines.map(partsWidth));
}

/** Height of the lines, pixels. */
export function linesHeight(lines: Lines): number {
  return lines.reduce((sum, line) => sum + lineHeight(line), 0);
}

function lineHeight(line: readonly Part[]): number {
  return 1.12 * Math.max(...line.map((part) => part.size ?? LEAST_SIZE));
}

/**
 * Three dots and the reason, in place of a figure; where the reason finds no room in the outline of
 * what is not known, the dots alone: `isWhole` false, it is to be said elsewhere.
 */
export function reasonLines(
  reason: string,
  room: { readonly widthPx: number; readonly heightPx: number },
  size: number,
): { readonly lines: Lines; readonly isWhole: boolean } {
  const style = { serif: true, size };
  const lines = wrapWords(`· · · ${reason}`, room.widthPx, style).map((text) => [
    { text, ...style },
  ]);
  const isWhole = linesHeight(lines) <= room.heightPx && linesWidth(lines) <= room.widthPx + 4;
  return { lines: isWhole ? lines : [[{ text: '· · ·', ...style }]], isWhole };
}

/** The lines as labels, centred about a point. */
export function centredLabels(lines: Lines, x: number, y: number): Label[] {
  let top = y - linesHeight(lines) / 2;
  return lines.map((parts) => {
    const height = lineHeight(parts);
    const size = Math.max(...parts.map((part) => part.size ?? LEAST_SIZE));
    const baseline = top + height / 2 + 0.36 * size;
    top += height;
    return { x, y: baseline, anchor: 'middle', parts };
  });
}

/** Forms of a figure with words after its unit, from one line with the band to the bare figure. */
export function figureForms(
  figure: FigureText,
  words: string,
  style: { readonly size: number; readonly ink: Ink; readonly bandInk: Ink },
): Lines[] {
  const { size, ink, bandInk } = style;
  const small = Math.max(LEAST_SIZE, Math.round(size * 0.58));
  const after: Part[] = words === '' ? [] : [{ text: words, size: small, ink, gap: 5 }];
  const bare = figureParts(figure, { size, ink, withBand: false });
  const band: Part = { text: figure.band, size: small, ink: bandInk };
  const least = figureParts(figure, { size: 17, ink, withBand: false });
  const smallWords: Part[] = words === '' ? [] : [{ text: words, ink }];
  const hasBand = figure.band !== '';
  return [
    ...(hasBand ? [[[...bare, ...after, { ...band, gap: 8 }]]] : [[[...bare, ...after]]]),
    ...(hasBand ? [[[...bare, ...after], [band]]] : []),
    ...(hasBand && words !== '' ? [[bare, [{ text: words, ink }], [{ ...band, size: 13 }]]] : []),
    ...(hasBand
      ? [[least, ...(words === '' ? [] : [smallWords]), [{ ...band, size: LEAST_SIZE }]]]
      : []),
    [least, ...(words === '' ? [] : [smallWords])],
  ];
}
