/**
 * Conditions given as options: `--wind 240/12G20 --surface grass-dry --temp 18 ...`.
 *
 * In: parsed options. Out: conditions; what is not given stays not entered. A wrong value is wrong
 * usage, told with the option, what was found and what was expected.
 */
import { problemLines } from '../report/debrief-tables.ts';
import type { Conditions } from '../weather/conditions.ts';
import { decodeConditions } from '../weather/decode-conditions.ts';
import { UsageError, type OptionSpec, type ParsedArgs } from './args.ts';

/** Option, field of the conditions document, whether it is a number. */
const FIELDS = [
  ['metar', 'metar', false],
  ['temp', 'tempC', true],
  ['qnh', 'qnhHpa', true],
  ['mass', 'massKg', true],
  ['take-off-mass', 'takeOffMassKg', true],
  ['surface', 'surface', false],
  ['flap', 'flap', false],
] as const;

/** The options. */
export const CONDITION_OPTIONS: OptionSpec = Object.fromEntries(
  ['wind', ...FIELDS.map(([option]) => option)].map((option) => [option, { type: 'string' }]),
);

/** Their help. */
export const CONDITION_OPTIONS_HELP = `  --metar TEXT       a METAR as issued: its wind (which is not the strip's), temperature and QNH
  --wind TEXT        240/12G20 (true), 240M/12 (magnetic), VRB/3 or calm; knots
  --temp C  --qnh HPA  --mass KG  --take-off-mass KG  --surface STATE  --flap LABEL`;

const WIND = /^(\d{1,3}|VRB)([TM]?)\/(\d{1,3}(?:\.\d+)?)(?:G(\d{1,3}(?:\.\d+)?))?(?:KT)?$/i;

/** Reads the options. Fails: throws a UsageError with all that is wrong. */
export function readConditionArgs(given: ParsedArgs): Conditions {
  const document: Record<string, unknown> = {};
  for (const [option, field, isNumber] of FIELDS) {
    const text = given.texts(option).at(-1);
    if (text !== undefined) document[field] = isNumber ? numberOrText(text) : text;
  }
  const wind = given.texts('wind').at(-1);
  if (wind !== undefined) document.wind = readWind(wind);
  const book = { schema: 1, kind: 'conditions', all: document };
  const decoded = decodeConditions(JSON.stringify(book));
  if (!decoded.ok) {
    const named = decoded.problems.map((each) => ({ ...each, where: optionOf(each.where) }));
    throw new UsageError(problemLines(named).join('\n'));
  }
  if (decoded.value.all === null) throw new Error('an object of conditions gave none');
  return decoded.value.all;
}

/** A value that begins with a minus is a number here, not an option: `--temp -5`. */
export function joinNegativeNumbers(args: readonly string[]): string[] {
  const joined: string[] = [];
  for (const arg of args) {
    const before = joined.at(-1);
    const isValue = /^-\d/.test(arg) && before !== undefined && /^--[a-z-]+$/.test(before);
    if (isValue) joined[joined.length - 1] = `${before}=${arg}`;
    else joined.push(arg);
  }
  return joined;
}

/** What is no number is left as text, so that the message quotes it. */
function numberOrText(text: string): number | string {
  return /^[+-]?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
}

function readWind(text: string): object {
  if (text.toLowerCase() === 'calm') return { fromDeg: null, reference: 'true', speedKt: 0 };
  const match = WIND.exec(text);
  if (match === null) {
    throw new UsageError(
      `--wind: found "${text.slice(0, 40)}", expected 240/12G20 (true), 240M/12 (magnetic), VRB/3 or calm`,
    );
  }
  const [, direction, reference, speed, gust] = match as readonly (string | undefined)[];
  return {
    fromDeg: direction?.toUpperCase() === 'VRB' ? null : Number(direction),
    reference: reference?.toUpperCase() === 'M' ? 'magnetic' : 'true',
    speedKt: Number(speed),
    gustKt: gust === undefined ? null : Number(gust),
  };
}

function optionOf(where: string): string {
  const field = where.replace(/^all\./, '');
  if (field.startsWith('wind')) return `--${field.replace('.', ' ')}`;
  const found = FIELDS.find(([, name]) => name === field);
  return found ? `--${found[0]}` : where;
}
