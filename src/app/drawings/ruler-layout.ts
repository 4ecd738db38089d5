/**
 * Where everything stands on a strip ruler of a given width.
 *
 * In: the model and a width in CSS pixels. Out: scales, rows and columns in pixels; the page turns a
 * pointer into alongM by the same scale.
 */
import type { Rod, StripPicture } from '../../report/pictures/strip-picture.ts';
import { lyingAxes, standingAxes, type Axes } from './axes.ts';
import { rulerSpan } from './ruler-span.ts';
import { linearScale } from './scale.ts';
import { HURDLE_WIDTH } from './marks.ts';
import { TAPE } from './tape.ts';
import { figureParts, partsWidth, wrapWords, type Part } from './text.ts';

/** Heights of the rows, pixels. */
const ROW = { head: 20, rod: 24, end: 26, bed: 100, labels: 24 };

/** A lying ruler: rows in pixels from the top. */
export interface RulerLayout {
  readonly width: number;
  readonly axes: Axes;
  /** Where the drawn ground ends: a longer rod is cut there. */
  readonly lastPx: number;
  readonly rodY: readonly number[];
  readonly bed: readonly [number, number];
  readonly tapeTop: number;
  readonly labelY: number;
}

/** Room for the words of the start, pixels, where the ground before it is short. */
const START_ROOM = 76;

/** Rows of a lying ruler. */
export function layOutLying(picture: StripPicture, width: number): RulerLayout {
  const { fromM, toM } = rulerSpan(picture);
  const lastPx = width - roomAfter(picture.rods, fromM, toM, width);
  const firstPx = Math.max(
    firstPixel(picture.rods, fromM, toM, lastPx),
    roomForStart(picture, fromM, toM, lastPx),
  );
  const scale = linearScale(fromM, toM, firstPx, lastPx);
  const count = picture.rods.length;
  const bedTop = ROW.head + count * ROW.rod + ROW.end;
  const bed = [bedTop, bedTop + ROW.bed] as const;
  const tapeTop = bed[1] + 4;
  return {
    width,
    axes: lyingAxes(scale),
    lastPx,
    // The expected rod lies nearest the strip.
    rodY: picture.rods.map((_, k) => ROW.head + (count - 1 - k) * ROW.rod + ROW.rod / 2),
    bed,
    tapeTop,
    labelY: tapeTop + TAPE + ROW.labels + 4,
  };
}

/** Least room before the ground and after it, pixels. */
const BEFORE = 6;
const LEAST_AFTER = 12;

/** Where the ground begins, so that the words of the rods find room left of their plumb line. */
function firstPixel(rods: readonly Rod[], fromM: number, toM: number, lastPx: number): number {
  if (rods.length === 0) return BEFORE;
  const room = 14 + Math.max(...rods.map((rod) => partsWidth(rodNameParts(rod))));
  const share = (rods[0].fromM - fromM) / (toM - fromM);
  return Math.max(BEFORE, (room - share * lastPx) / (1 - share));
}

/** Where the ground begins, so that the words of the start find room left of it. */
function roomForStart({ start }: StripPicture, fromM: number, toM: number, lastPx: number): number {
  const lines = wrapWords(start.label, START_ROOM).slice(0, 2);
  const room = 14 + Math.max(...lines.map((text) => partsWidth([{ text }])));
  const share = (Math.min(start.atM, 0) - fromM) / (toM - fromM);
  return Math.max(BEFORE, (room - share * lastPx) / (1 - share));
}

/** Name and figure of a rod. */
export function rodNameParts({ label, figure, kind }: Rod): Part[] {
  return [{ text: label, size: 14 }, ...figureParts(figure, { size: 17, ink: kind, gap: 6 })];
}

/** Length of the drawn ground, pixels: one thumb's height. */
const LENGTH = 470;
/**
 * Room over the rods for the words of one of them, those that end at the top standing in steps; and for
 * the words at the plumb line over those of the strip's end.
 */
const HEAD = { one: 40, least: 24, cursor: 18 };

/** Room right of the ground: what is too long stands beyond the cut end, what is left beyond the rod. */
function roomAfter(rods: readonly Rod[], fromM: number, toM: number, width: number): number {
  const pxPerM = (width - BEFORE - LEAST_AFTER) / (toM - fromM);
  const needs = rods.map((rod) =>
    rod.isTooLong
      ? partsWidth([tooLongPart(rod.leftText)]) + HURDLE_WIDTH + 20
      : partsWidth([leftPart(rod.leftText)]) + 18 - (toM - rod.toM) * pxPerM,
  );
  return Math.max(LEAST_AFTER, ...needs);
}

/** What a rod leaves of the strip. */
export function leftPart(text: string): Part {
  return { text, size: 14, ink: 'ink2' };
}

/** The words of a rod that is too long. */
export function tooLongPart(text: string): Part {
  return { text, size: 14, weight: 600, ink: 'caution' };
}

/** A standing ruler: columns in pixels from the left. */
export interface StandingLayout {
  readonly width: number;
  readonly axes: Axes;
  /** Right edge of the words. */
  readonly words: number;
  readonly tape: readonly [number, number];
  readonly bed: readonly [number, number];
  readonly rods: readonly number[];
  readonly top: number;
  readonly foot: number;
}

/** Room for a ring before a mark, pixels. */
const RING = 9;

/** Below this width the strip itself gives way, pixels. */
const NARROWEST = 340;

/** Columns of a standing ruler; so many pixels more at its head. */
export function layOutStanding(picture: StripPicture, width: number, moreHead = 0): StandingLayout {
  const { fromM, toM } = rulerSpan(picture, 30);
  // On the narrowest the words of one rod are pushed up by the rod beside it.
  const long = picture.rods.filter(({ isTooLong }) => isTooLong || width < NARROWEST).length;
  const words = HEAD.one * Math.max(long, Math.min(1, picture.rods.length));
  // Rods that end lower have room for their words beside the strip.
  const highestM = Math.max(fromM, ...picture.rods.map((rod) => rod.toM));
  const below = (LENGTH * Math.max(0, toM - highestM)) / (toM - fromM);
  const head = HEAD.least + Math.max(HEAD.cursor, words - below) + moreHead;
  // Before the mark of a place put by hand.
  const ring = picture.places.some(({ wasM }) => wasM !== undefined) ? RING : 0;
  const tapeLeft = ring + Math.round(Math.min(132, Math.max(108, width * 0.31)));
  const tapeRight = tapeLeft + 36;
  // The strip gives way to a ring: the rods need their room.
  const bedRight = tapeRight + 4 + (width < NARROWEST ? 62 : 80) - ring;
  const room = (width - bedRight) / Math.max(1, picture.rods.length);
  return {
    width,
    axes: standingAxes(linearScale(fromM, toM, head + LENGTH, head)),
    words: tapeLeft - 24 - ring,
    tape: [tapeLeft, tapeRight],
    bed: [tapeRight + 4, bedRight],
    rods: picture.rods.map((_, k) => bedRight + room * (k + 0.5)),
    top: head,
    foot: head + LENGTH,
  };
}
