/**
 * What was learned of strips as text for people.
 *
 * In: learned places. Out: lines: one row a strip, then what differs from the strip as drawn.
 */
import type { LearnedPlace } from '../debrief/learn-strips.ts';
import { isUndetermined, type Measured } from '../result.ts';
import { numberText } from './figure-text.ts';
import { DASH, metres } from './format-quantity.ts';
import { textTable } from './text-table.ts';
import { wrapText } from './wrap-text.ts';

const HEADING = [
  'strip',
  'rests on',
  'bearing A to B',
  'right of the line',
  'seen used, from A',
  'length used',
  'slope A to B',
  'elevation',
];

/** Lines about every strip that the flights used; a sentence where they used none. */
export function learnedLines(places: readonly LearnedPlace[]): string[] {
  if (places.length === 0) return ['No roll, run or backtrack to learn a strip from.', ''];
  return [
    'Strips as the rolls, runs and backtracks draw them (only what was used; the operator knows the rest)',
    ...textTable(HEADING, places.map(learnedRow)),
    ...places.flatMap(({ strip, notes }) =>
      notes.flatMap((note) => wrapText(`note: ${strip.id}: ${note}`, '  ')),
    ),
    '',
  ];
}

function learnedRow({ known, strip, learned }: LearnedPlace): string[] {
  const { visits, traces, usedFromM, usedToM } = learned;
  return [
    known ? strip.id : `${strip.id} (proposed)`,
    `${traces} of ${visits} ${visits === 1 ? 'visit' : 'visits'}`,
    decimals(learned.bearingDeg, '°'),
    known ? metres(learned.rightM) : DASH,
    known ? `${metres(usedFromM)} to ${metres(usedToM)}` : DASH,
    metres(learned.usedLengthM),
    decimals(times(learned.slopeRatio, 100), ' %'),
    metres(learned.elevationM),
  ];
}

/** A quantity and its band with one decimal. */
function decimals(quantity: Measured, unit: string): string {
  if (isUndetermined(quantity)) return DASH;
  const text = (value: number): string => numberText(value, 1);
  const { value, low, high } = quantity;
  return `${text(value)}${unit} ${text(low)} to ${text(high)}`;
}

function times(quantity: Measured, factor: number): Measured {
  if (isUndetermined(quantity)) return quantity;
  const { value, low, high } = quantity;
  return { value: factor * value, low: factor * low, high: factor * high };
}
