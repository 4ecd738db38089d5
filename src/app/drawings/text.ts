/**
 * Text on drawings: labels as data first, so that they can be kept apart before they are set.
 *
 * In: parts with size, weight and ink. Out: boxes in pixels, and SVG text. Widths are estimates for
 * the widest usual system font (DejaVu Sans), so that a real label is never wider than its box.
 * Text is never scaled: sizes are CSS pixels, 13 at least.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { FigureText } from '../../report/figure-text.ts';
import { px } from './scale.ts';

/** Colour of a part, by its role. */
export type Ink =
  'ink' | 'ink2' | 'measured' | 'expected' | 'planned' | 'own' | 'caution' | 'onswathe' | 'tapeink';

/** A run of text in one style. */
export interface Part {
  readonly text: string;
  readonly size?: number;
  readonly weight?: 400 | 600 | 650;
  readonly ink?: Ink;
  /** Serif italic: place names and reasons. */
  readonly serif?: boolean;
  /** Pixels before it. */
  readonly gap?: number;
}

/** One line of text at a place. */
export interface Label {
  readonly x: number;
  /** Baseline. */
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly parts: readonly Part[];
  /** A rim in the colour of the paper, to keep the figure off lines. */
  readonly halo?: boolean;
  /** Degrees, about its place: along a leg only. */
  readonly turnDeg?: number;
}

/** A rectangle in pixels. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Least size of a figure, CSS pixels. */
export const LEAST_SIZE = 13;

/** A figure as parts: value, unit, band. */
export function figureParts(
  { value, unit, band }: FigureText,
  style: { size: number; ink?: Ink; bandInk?: Ink; withBand?: boolean; gap?: number },
): Part[] {
  const { size, ink = 'ink', bandInk = 'ink2', withBand = true, gap = 0 } = style;
  const small = Math.max(LEAST_SIZE, Math.round(size * 0.58));
  return [
    { text: value, size, weight: 650, ink, gap },
    ...(unit === '' ? [] : [{ text: unit, size: small, ink, gap: unit === '°' ? 0 : 3 }]),
    ...(withBand && band !== '' ? [{ text: band, size: small, ink: bandInk, gap: 6 }] : []),
  ];
}

/** Estimated width of parts in a row, pixels. */
export function partsWidth(parts: readonly Part[]): number {
  return parts.reduce((sum, part) => sum + (part.gap ?? 0) + partWidth(part), 0);
}

function partWidth({ text, size = LEAST_SIZE, weight = 400, serif = false }: Part): number {
  let em = 0;
  for (const letter of text) em += letterWidth(letter);
  return em * size * (weight > 400 ? 1.12 : 1) * (serif ? 0.98 : 1);
}

function letterWidth(letter: string): number {
  if (/[0-9]/.test(letter)) return 0.64;
  if (/[ \u00a0.,:;'|ijlI!/()]/.test(letter)) return 0.35;
  if (/[ftr\-–]/.test(letter)) return 0.45;
  if (/[mwMW%−×]/.test(letter)) return 0.96;
  if (/[A-Z]/.test(letter)) return 0.72;
  return 0.62;
}

/** Estimated box of a label. */
export function labelBox({ x, y, anchor, parts, turnDeg = 0 }: Label): Box {
  const width = partsWidth(parts);
  const size = Math.max(...parts.map((part) => part.size ?? LEAST_SIZE));
  const left = anchor === 'start' ? 0 : anchor === 'end' ? -width : -width / 2;
  const corners = [
    [left, -0.78 * size],
    [left + width, -0.78 * size],
    [left, 0.22 * size],
    [left + width, 0.22 * size],
  ];
  const sin = Math.sin((turnDeg * Math.PI) / 180);
  const cos = Math.cos((turnDeg * Math.PI) / 180);
  const xs = corners.map(([dx, dy]) => x + dx * cos - dy * sin);
  const ys = corners.map(([dx, dy]) => y + dx * sin + dy * cos);
  return {
    left: Math.min(...xs),
    top: Math.min(...ys),
    right: Math.max(...xs),
    bottom: Math.max(...ys),
  };
}

/** True where two boxes share more than an edge. */
export function overlaps(a: Box, b: Box, apart = 0): boolean {
  return (
    a.left < b.right + apart &&
    b.left < a.right + apart &&
    a.top < b.bottom + apart &&
    b.top < a.bottom + apart
  );
}

/** Sets a label. */
export function setLabel(label: Label): SVGTemplateResult {
  const { x, y, anchor, parts, halo = false, turnDeg } = label;
  const turn = turnDeg === undefined ? nothing : `rotate(${px(turnDeg)} ${px(x)} ${px(y)})`;
  return svg`<text class=${halo ? 'halo' : nothing} x=${px(x)} y=${px(y)} text-anchor=${anchor}
    transform=${turn}>${parts.map(setPart)}</text>`;
}

function setPart(part: Part): SVGTemplateResult {
  const { text, size = LEAST_SIZE, weight = 400, ink = 'ink', serif = false, gap = 0 } = part;
  const style = `fill-${ink}${serif ? ' place' : ''}`;
  return svg`<tspan class=${style} font-size=${size} font-weight=${weight} dx=${gap === 0 ? nothing : gap}>${text}</tspan>`;
}

/** Breaks a text into lines of at most so many pixels; a longer word stands alone. */
export function wrapWords(text: string, widthPx: number, style: Omit<Part, 'text'> = {}): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = lines.length > 0 ? `${lines[lines.length - 1]} ${word}` : word;
    if (lines.length > 0 && partWidth({ ...style, text: longer }) <= widthPx) {
      lines[lines.length - 1] = longer;
    } else lines.push(word);
  }
  return lines;
}
