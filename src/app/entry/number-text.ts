/**
 * What number did the pilot type, and how is a number put into a field?
 *
 * A decimal point and a decimal comma are both taken; so are a true minus and a unit left behind the
 * figure. A mark for thousands is refused, because `1,200` may mean either.
 */

/** What a field holds: a number, nothing, or a text that is none and why. */
export type NumberText =
  { readonly kind: 'empty' } | { readonly kind: 'number'; readonly value: number } | NoNumber;

/** A text that is no number: the message says what was found and expected. */
export interface NoNumber {
  readonly kind: 'wrong';
  readonly message: string;
}

const PLAIN = /^[+-]?(\d+\.?\d*|\.\d+)$/;
const THOUSANDS = /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/;
const LONGEST_QUOTE = 30;

/**
 * Reads a number as typed.
 *
 * @param unit its symbol, which may stand behind the figure; empty for none
 * @example readNumber('29,92 inHg', 'inHg') // { kind: 'number', value: 29.92 }
 */
export function readNumber(text: string, unit: string): NumberText {
  const trimmed = text.trim();
  if (trimmed === '') return { kind: 'empty' };
  const figure = withoutUnit(trimmed.replace(/[\u2212\u2013]/g, '-'), unit);
  if (THOUSANDS.test(figure)) {
    const whole = figure.replaceAll(',', '');
    const message = `found ${quoted(trimmed)}, expected no mark for thousands: ${whole}, or a decimal point`;
    return { kind: 'wrong', message };
  }
  const plain = figure.replace(',', '.');
  // Hundreds of digits make an infinity, which JSON would keep as "not entered".
  if (!PLAIN.test(plain) || !Number.isFinite(Number(plain))) {
    const message = `found ${quoted(trimmed)}, expected a number${unit === '' ? '' : ` of ${unit}`}`;
    return { kind: 'wrong', message };
  }
  // Never minus zero: it would be written as another figure than the one typed.
  return { kind: 'number', value: Number(plain) + 0 };
}

/** A number for a field: at most so many decimals, none that say nothing. */
export function showNumber(value: number, decimals: number): string {
  const rounded = Number(value.toFixed(decimals));
  return String(rounded === 0 ? 0 : rounded);
}

/** A text as found, shortened. */
export function quoted(text: string): string {
  return `"${text.length <= LONGEST_QUOTE ? text : `${text.slice(0, LONGEST_QUOTE - 3)}...`}"`;
}

function withoutUnit(text: string, unit: string): string {
  const isBehind = unit !== '' && text.toLowerCase().endsWith(unit.toLowerCase());
  return (isBehind ? text.slice(0, -unit.length) : text).trim();
}
