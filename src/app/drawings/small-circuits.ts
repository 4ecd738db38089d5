/**
 * Circuits as small multiples at one scale, landing direction up.
 *
 * In: the model, a width in CSS pixels, which one stands out. Out: the drawing: a line, the strip,
 * number and three figures each, one tape for all.
 */
import { svg, type SVGTemplateResult } from 'lit';
import { NBSP, numberText, unitOf } from '../../report/figure-text.ts';
import type {
  SmallCircuit,
  SmallCircuitsPicture,
} from '../../report/pictures/small-circuits-picture.ts';
import { clippedPath } from './clip.ts';
import type { Drawing } from './drawing.ts';
import { px, type Point } from './scale.ts';
import { scaleTape } from './tape.ts';
import { partsWidth, wrapWords, type Box, type Label, type Part } from './text.ts';

/** Room about a line, between cells, over a cell for its number, under all for the tape, pixels. */
const EDGE = 6;
const GAP = { across: 16, down: 20 };
const HEAD = 26;
const FOOT = 26;
/** A cell's picture is no taller than this; a strip no narrower than that, pixels. */
const MOST_TALL = 150;
const STRIP = 5;
const LINE = 17;
/** Least width of a cell's picture, pixels: with less there are fewer columns. */
const LEAST_PLAN = 76;

/** Draws them; `chosen` is the number in full ink. */
export function smallCircuits(
  picture: SmallCircuitsPicture,
  widthPx: number,
  chosen: number | null = null,
): Drawing {
  const cells = layOutCells(picture, widthPx);
  const inside: SVGTemplateResult[] = [];
  const labels: Label[] = [];
  picture.circuits.forEach((circuit, k) => {
    const cell = cells.cellAt(k);
    inside.push(cellDrawing(picture, circuit, cell, cells.pxPerM, circuit.number === chosen));
    labels.push(...cellWords(circuit, cell));
  });
  const foot = footTape(picture, cells);
  return {
    width: widthPx,
    height: cells.height,
    inside: svg`${inside}${foot.drawing}`,
    labels: [...labels, foot.label],
  };
}

interface Cell {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  /** Where the ground is drawn. */
  readonly box: Box;
}

interface Cells {
  readonly height: number;
  readonly pxPerM: number;
  readonly cellAt: (index: number) => Cell;
}

function layOutCells({ circuits, extent }: SmallCircuitsPicture, width: number): Cells {
  const words = Math.max(...circuits.map(wordsWidth));
  const across = (columns: number): number => (width - GAP.across * (columns - 1)) / columns;
  const isRoomy = (columns: number): boolean => across(columns) - words - 8 >= LEAST_PLAN;
  const columns = [6, 3, 2].find((each) => each <= most(circuits.length) && isRoomy(each)) ?? 1;
  const cellWidth = Math.min(across(columns), across(2));
  const planWidth = cellWidth - words - 8;
  const wide = Math.max(extent.crossM[1] - extent.crossM[0], 200);
  const long = Math.max(extent.alongM[1] - extent.alongM[0], 200);
  const pxPerM = Math.min((planWidth - 2 * EDGE) / wide, (MOST_TALL - 2 * EDGE) / long);
  const tall = Math.max(long * pxPerM + 2 * EDGE, 6.4 * LINE);
  const rows = Math.ceil(circuits.length / columns);
  const rowHeight = HEAD + tall + GAP.down;
  const boxWidth = Math.min(planWidth, wide * pxPerM + 2 * EDGE);
  return {
    height: rows * rowHeight + FOOT,
    pxPerM,
    cellAt: (index) => {
      const left = (index % columns) * (across(columns) + GAP.across);
      const top = Math.floor(index / columns) * rowHeight;
      const box = { left, right: left + boxWidth, top: top + HEAD, bottom: top + HEAD + tall };
      return { left, top, width: cellWidth, box };
    },
  };
}

/** Six in a row only where there are more than three. */
function most(count: number): number {
  return count > 3 ? 6 : 3;
}

function cellDrawing(
  { strip, extent }: SmallCircuitsPicture,
  { track }: SmallCircuit,
  { left, top, width, box }: Cell,
  pxPerM: number,
  isChosen: boolean,
): SVGTemplateResult {
  const middle: Point = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const [alongM, crossM] = [mean(extent.alongM), mean(extent.crossM)];
  const at = (along: number, cross: number): Point => [
    middle[0] + (cross - crossM) * pxPerM,
    middle[1] - (along - alongM) * pxPerM,
  ];
  const points = Array.from(track.alongM, (along, i) => at(along, track.crossM[i]));
  const [x, near] = at(strip.nearEndM, 0);
  const [, far] = at(strip.farEndM, 0);
  const [, threshold] = at(0, 0);
  const rule = isChosen ? 'underline-chosen' : 'underline';
  return svg`<path class=${rule} d=${`M${px(left)} ${px(top + 2)}h${px(width)}`}/>
    <rect class="bar-grass" x=${px(x - STRIP / 2)} y=${px(far)} width=${STRIP} height=${px(near - far)}/>
    <path class="strip-edge" d=${`M${px(x - STRIP / 2)} ${px(near)}V${px(far)}h${STRIP}V${px(near)}Z`}/>
    <path class="strip-end" d=${`M${px(x - STRIP / 2 - 3)} ${px(threshold)}h${STRIP + 6}`}/>
    <path class=${isChosen ? 'lane-chosen' : 'lane'} d=${clippedPath(points, box)}/>`;
}

/** Number over the figures, right of the picture. */
function cellWords({ number, figures, reason }: SmallCircuit, { box, top }: Cell): Label[] {
  const x = box.right + 8;
  const lines: Part[][] =
    reason === null
      ? figures.flatMap(({ label, value }): Part[][] => [
          [{ text: label, ink: 'ink2' }],
          [{ text: value, weight: 600 }],
        ])
      : wrapWords(reason, REASON, { serif: true, size: 14 }).map((text): Part[] => [
          { text, serif: true, size: 14, ink: 'ink2' },
        ]);
  return [
    {
      x,
      y: top + HEAD - 4,
      anchor: 'start',
      parts: [{ text: String(number), size: 17, weight: 650 }],
    },
    ...lines.map((parts, k): Label => ({
      x,
      y: top + HEAD + LINE * (k + 1) - 2,
      anchor: 'start',
      parts,
    })),
  ];
}

/** A reason is broken into lines of this, pixels. */
const REASON = 72;

function wordsWidth({ figures, reason }: SmallCircuit): number {
  if (reason !== null) return REASON;
  return Math.max(
    ...figures.map(({ label, value }) =>
      Math.max(partsWidth([{ text: label }]), partsWidth([{ text: value, weight: 600 }])),
    ),
  );
}

/** One tape for all, of a round length. */
function footTape(
  { lengthUnit }: SmallCircuitsPicture,
  { height, pxPerM }: Cells,
): ReturnType<typeof scaleTape> {
  const { si, symbol } = unitOf(lengthUnit);
  const lengths = lengthUnit === 'm' ? [500, 1000, 2000] : [2000, 5000, 10_000];
  const length = lengths.find((each) => each * si * pxPerM >= 30) ?? lengths[2];
  return scaleTape(
    2,
    height - 12,
    length * si * pxPerM,
    `${numberText(length, 0)}${NBSP}${symbol}`,
  );
}

function mean([from, to]: readonly [number, number]): number {
  return (from + to) / 2;
}
