/**
 * The carpenter's tape: every length that matters is read off one.
 *
 * In: a scale in metres, the pilot's unit, where it lies. Out: SVG of ticks and numerals with a dark
 * hook at the end, lying or standing; a tape of ratios on a log scale; a short tape for a plan.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { numberText, unitOf } from '../../report/figure-text.ts';
import { multiples, px, type Scale } from './scale.ts';
import { labelBox, overlaps, partsWidth, type Label, type Part } from './text.ts';

/** Steps of a tape in its own unit. */
interface TapeSteps {
  readonly minor: number;
  readonly numeral: number;
  readonly bold: number;
}

const STEPS: Readonly<Record<'m' | 'ft', TapeSteps>> = {
  m: { minor: 10, numeral: 50, bold: 100 },
  ft: { minor: 20, numeral: 100, bold: 500 },
};

/** Width of the mown bands, metres: they end where the tape has a numeral. */
export function bandStepM(unit: 'm' | 'ft'): number {
  return STEPS[unit].numeral * unitOf(unit).si;
}

/** Step of the numerals where they stand beside a field, in the unit itself. */
export function labelStep(unit: 'm' | 'ft'): number {
  return STEPS[unit].bold;
}

/** Thickness of a tape, pixels. */
export const TAPE = 30;

/** Least room of a numeral, pixels. */
const NUMERAL_ROOM = { lying: 40, standing: 20 };

/** Minor ticks closer than this are left out, pixels. */
const TICK_ROOM = 4;

/** A tape lying with its zero left (or standing with its zero below, `x` its left edge). */
export interface TapePlace {
  readonly scale: Scale;
  readonly unit: 'm' | 'ft';
  readonly fromM: number;
  readonly toM: number;
  /** Upper edge of a lying tape, left edge of a standing one. */
  readonly edge: number;
  readonly isUpright: boolean;
  /** False where the tape is cut off before the end of the strip. */
  readonly isToEnd?: boolean;
  /** Thickness, pixels. */
  readonly thick?: number;
}

/** The tape and its labels. */
export function tape(place: TapePlace): { drawing: SVGTemplateResult; labels: Label[] } {
  const { scale, unit, fromM, toM, edge, isUpright, thick = TAPE, isToEnd = true } = place;
  const { si } = unitOf(unit);
  const { minor, numeral, bold } = STEPS[unit];
  const at = (units: number): number => scale.at(units * si);
  const pxPerUnit = Math.abs(at(1) - at(0));
  const widest = partsWidth([{ text: numberText(toM / si, 0), size: 14, weight: 650 }]);
  const room = isUpright ? NUMERAL_ROOM.standing : Math.max(NUMERAL_ROOM.lying, widest + 12);
  const every = [numeral, bold, 2 * bold, 5 * bold].find((step) => step * pxPerUnit >= room);
  const from = fromM / si;
  const to = toM / si;
  const point = (along: number, across: number): string =>
    isUpright ? `${px(across)} ${px(along)}` : `${px(along)} ${px(across)}`;
  const tick = (units: number, length: number): string =>
    isUpright
      ? `M${point(at(units), edge + thick)}L${point(at(units), edge + thick - length)}`
      : `M${point(at(units), edge)}L${point(at(units), edge + length)}`;
  const minors = minor * pxPerUnit >= TICK_ROOM ? multiples(minor, from, to) : [];
  const bolds = multiples(bold, from, to);
  // Where not every bold tick has its numeral, one that ran through the tape would cross another's.
  const boldLength = (units: number): number =>
    isUpright || every === undefined || units % every === 0 ? thick : tickLength(true, false);
  const body = `M${point(scale.at(fromM), edge)}L${point(scale.at(toM), edge)}L${point(scale.at(toM), edge + thick)}L${point(scale.at(fromM), edge + thick)}Z`;
  const hook = scale.at(toM);
  const drawing = svg`<path class="tape" d=${body}/>
    <path class="tape-tick" d=${minors.map((units) => tick(units, tickLength(units % numeral === 0, isUpright))).join('')}/>
    <path class="tape-bold" d=${bolds.map((units) => tick(units, boldLength(units))).join('')}/>
    ${isToEnd ? svg`<path class="tape-hook" d=${`M${point(hook, edge - 3)}L${point(hook, edge + thick + 3)}`}/>` : nothing}`;
  const labels = (every === undefined ? [] : multiples(every, from, to)).flatMap((units) =>
    numeralLabel(units, units % bold === 0, at(units), hook, place, thick),
  );
  // A bold numeral stands right of its tick: a plain one that would touch it gives way.
  const bolder = labels.filter(({ parts }) => parts[0].weight === 650).map(labelBox);
  const kept = labels.filter(
    (label) =>
      label.parts[0].weight === 650 || !bolder.some((box) => overlaps(box, labelBox(label), 4)),
  );
  return { drawing, labels: kept };
}

/** On a standing tape the numerals need the room that long ticks would take. */
function tickLength(isNumeral: boolean, isUpright: boolean): number {
  if (isUpright) return isNumeral ? 8 : 5;
  return isNumeral ? 12 : 7;
}

/** Numerals stand right of a bold tick (above it on a standing tape) and under a plain one. */
function numeralLabel(
  units: number,
  isBold: boolean,
  at: number,
  end: number,
  { scale, fromM, edge, isUpright }: TapePlace,
  thick: number,
): Label[] {
  const part: Part = {
    text: numberText(units, 0),
    size: isBold && !isUpright ? 14 : 13,
    weight: isBold ? 650 : 400,
    ink: 'tapeink',
  };
  const width = partsWidth([part]);
  if (isUpright) {
    if (at - 16 < end) return [];
    return [{ x: edge + 2, y: at - 4, anchor: 'start', parts: [part] }];
  }
  const y = edge + thick - 7;
  const label: Label = isBold
    ? { x: at + 5, y, anchor: 'start', parts: [part] }
    : { x: at, y, anchor: 'middle', parts: [part] };
  const right = isBold ? at + 5 + width : at + width / 2;
  const left = isBold ? at + 5 : at - width / 2;
  return right > end - 3 || left < scale.at(fromM) + 3 ? [] : [label];
}

/** A tape of ratios on a log scale: numerals centred under their ticks. */
export function logTape(
  scale: Scale,
  top: number,
): { drawing: SVGTemplateResult; labels: Label[] } {
  const thick = TAPE;
  const ticks = multiples(0.1, scale.from, scale.to);
  const isBold = (ratio: number): boolean => Math.abs(ratio * 2 - Math.round(ratio * 2)) < 1e-6;
  const fine = multiples(0.05, scale.from, scale.to).filter((ratio) => ratio <= 2);
  const line = (ratio: number, length: number): string =>
    `M${px(scale.at(ratio))} ${px(top)}V${px(top + length)}`;
  const labels: Label[] = [];
  const wanted = [...ticks.filter(isBold), ...ticks.filter((ratio) => !isBold(ratio))];
  const placed: { left: number; right: number }[] = [];
  for (const ratio of wanted) {
    const part: Part = {
      text: numberText(ratio, 1),
      size: isBold(ratio) ? 14 : 13,
      weight: isBold(ratio) ? 650 : 400,
      ink: 'tapeink',
    };
    const half = partsWidth([part]) / 2;
    const x = scale.at(ratio);
    const isClear = placed.every(({ left, right }) => x + half + 4 < left || x - half - 4 > right);
    const isInside = x - half > scale.at(scale.from) + 2 && x + half < scale.at(scale.to) - 2;
    if (!isClear || !isInside) continue;
    placed.push({ left: x - half, right: x + half });
    labels.push({ x, y: top + thick - 6, anchor: 'middle', parts: [part] });
  }
  const left = scale.at(scale.from);
  const drawing = svg`<rect class="tape" x=${px(left)} y=${px(top)} width=${px(scale.at(scale.to) - left)} height=${thick}/>
    <path class="tape-tick" d=${fine.map((ratio) => line(ratio, 6)).join('')}/>
    <path class="tape-bold" d=${ticks.map((ratio) => line(ratio, isBold(ratio) ? 12 : 9)).join('')}/>`;
  return { drawing, labels };
}

/** A short tape as the scale of a plan, its figure beside it. */
export function scaleTape(
  x: number,
  y: number,
  lengthPx: number,
  text: string,
): { drawing: SVGTemplateResult; label: Label } {
  const steps = Array.from({ length: 4 }, (_, i) => x + (lengthPx * (i + 1)) / 5);
  const drawing = svg`<rect class="tape" x=${px(x)} y=${px(y)} width=${px(lengthPx)} height="7"/>
    <path class="tape-tick" d=${steps.map((at) => `M${px(at)} ${px(y)}V${px(y + 4)}`).join('')}/>`;
  return {
    drawing,
    label: { x: x + lengthPx + 8, y: y + 8, anchor: 'start', parts: [{ text, ink: 'ink2' }] },
  };
}
