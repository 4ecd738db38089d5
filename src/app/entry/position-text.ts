/**
 * Which latitude or longitude did the pilot type?
 *
 * In: a text as charts, phones and receivers write it: decimal degrees, degrees and decimal minutes,
 * or degrees, minutes and seconds, with a letter or a sign. Out: degrees, and in which way it was
 * read, so that a slip is seen.
 */
import { quoted, showNumber } from './number-text.ts';

/** Which of the two. */
export type Axis = 'latitude' | 'longitude';

/** What a position field says. `words` tell how it was read. */
export type PositionText =
  | { readonly kind: 'empty' }
  | { readonly kind: 'degrees'; readonly deg: number; readonly words: string }
  | { readonly kind: 'wrong'; readonly message: string };

/** In mid-ocean, where no strip can be; west, where the sign counts. */
const EXAMPLES = {
  latitude: '54.73858 or 54 44.315 N',
  longitude: '-32.41178 or 32 24.707 W',
} as const;
const LIMITS_DEG = { latitude: 90, longitude: 180 } as const;
const LETTERS = { latitude: ['N', 'S'], longitude: ['E', 'W'] } as const;
const WAYS = ['decimal degrees', 'degrees and decimal minutes', 'degrees, minutes and seconds'];
const PARTS = /^\d+(\.\d*)?$/;
/** A ten-millionth of a degree is a centimetre. */
const DECIMALS = 7;

/** An example of how it may be typed. */
export function positionExample(axis: Axis): string {
  return EXAMPLES[axis];
}

/** Degrees for a field, to a centimetre. */
export function showDegrees(deg: number): string {
  return showNumber(deg, DECIMALS);
}

/**
 * Reads a latitude or a longitude, north and east positive.
 *
 * @example readPosition('54 44.315 N', 'latitude') // deg 54.738583, degrees and decimal minutes
 */
export function readPosition(text: string, axis: Axis): PositionText {
  const found = quoted(text.trim());
  const wrong = (expected: string): PositionText => ({
    kind: 'wrong',
    message: `found ${found}, expected ${expected}`,
  });
  const plain = text
    .toUpperCase()
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[°º'\u2019\u2032"\u201d\u2033:]/g, ' ')
    .trim();
  if (plain === '') return { kind: 'empty' };
  const { letter, sign, rest } = taken(plain);
  const [positive, negative] = LETTERS[axis];
  if (letter !== '' && letter !== positive && letter !== negative) {
    return wrong(`a ${axis} with ${positive} or ${negative}`);
  }
  if (letter !== '' && sign !== '') return wrong('a letter or a sign, not both');
  const parts = rest.replace(/(\d),(\d)/g, '$1.$2').split(/\s+/);
  const isWhole = (part: string) => /^\d+$/.test(part);
  const fits = parts.every((part) => PARTS.test(part)) && parts.slice(0, -1).every(isWhole);
  if (!fits || parts.length > WAYS.length) return wrong(`a ${axis} such as ${EXAMPLES[axis]}`);
  const figures = parts.map(Number);
  if (figures.slice(1).some((figure) => figure >= 60)) return wrong('minutes and seconds below 60');
  const size = figures.reduce((deg, figure, index) => deg + figure / 60 ** index, 0);
  if (!(size <= LIMITS_DEG[axis])) return wrong(`at most ${LIMITS_DEG[axis]} degrees`);
  const isNegative = letter === negative || sign === '-';
  const words = `${showNumber(size, 6)}° ${isNegative ? negative : positive}, read as ${WAYS[parts.length - 1]}`;
  return { kind: 'degrees', deg: (isNegative ? -size : size) + 0, words };
}

/** The letter before or behind, the sign before, and what is left. */
function taken(plain: string): { letter: string; sign: string; rest: string } {
  const match = /^([A-Z]?)\s*([+-]?)\s*(.*?)\s*([A-Z]?)$/.exec(plain);
  const [, before = '', sign = '', rest = '', behind = ''] = match ?? [];
  // Two letters are never right, and no letter of either axis has two characters.
  return { letter: before + behind, sign, rest };
}
