/**
 * Which strip do the two ends make, as they are typed?
 *
 * In: the texts of the form, the pilot's units. Out: one line of words, and what a drawing needs where
 * the ends make a strip. It says what is missing or odd before anything is saved; the reader of strips
 * files judges in the end, with the same limits.
 */
import { shortLine } from '../../geo/local-frame.ts';
import type { ShownUnits } from '../../logbook/entry.ts';
import { NBSP, numberText } from '../../report/figure-text.ts';
import { LONGEST_M, SHORTEST_M } from '../../strips/read-strip.ts';
import { readPosition, type Axis } from './position-text.ts';
import { directionDefaults } from './strip-defaults.ts';
import type { End, StripFields } from './strip-fields.ts';
import { lengthWords } from './strip-words.ts';

/** What the ends make; `line` is null where they make no strip. */
export interface TypedStrip {
  readonly words: string;
  readonly line: TypedLine | null;
}

/** A strip as typed: metres, degrees true from end A towards end B, the names of its directions. */
export interface TypedLine {
  readonly lengthM: number;
  readonly bearingDeg: number;
  readonly designators: Readonly<Record<End, string>>;
}

interface Coordinate {
  /** `latitude of end A`. */
  readonly name: string;
  readonly read: ReturnType<typeof readPosition>;
}

/**
 * See the file's head.
 *
 * @param bentM length of a kept centreline that bends, metres; null: straight between the ends
 */
export function typedStrip(
  fields: StripFields,
  units: ShownUnits,
  bentM: number | null,
): TypedStrip {
  const coordinates = (['a', 'b'] as const).flatMap((end) => [
    coordinate(fields, end, 'latitude'),
    coordinate(fields, end, 'longitude'),
  ]);
  const lacking = lackingWords(coordinates);
  if (lacking !== null) return { words: lacking, line: null };
  const [latA, lonA, latB, lonB] = coordinates.map(({ read }) =>
    read.kind === 'degrees' ? read.deg : Number.NaN,
  );
  const { lengthM: straightM, bearingDeg } = shortLine(latA, lonA, latB, lonB);
  const lengthM = bentM ?? straightM;
  const odd = oddWords(straightM, [latB - latA, lonB - lonA], units);
  if (odd !== null) return { words: odd, line: null };
  const named = (end: End): string =>
    fields[`${end}.designator`].trim() || directionDefaults(fields, end, units, bentM).designator;
  const designators = { a: named('a'), b: named('b') };
  const bearing = String(Math.round(bearingDeg) % 360).padStart(3, '0');
  const bend = bentM === null ? '' : ', along the line as kept, which bends';
  return {
    words: `${lengthWords(lengthM, units)}${bend}, ${bearing}° true from A to B: lands ${designators.a} from end A, ${designators.b} from end B.`,
    line: { lengthM, bearingDeg, designators },
  };
}

function coordinate(fields: StripFields, end: End, axis: Axis): Coordinate {
  const text = fields[`${end}.${axis === 'latitude' ? 'lat' : 'lon'}`];
  return { name: `${axis} of end ${end.toUpperCase()}`, read: readPosition(text, axis) };
}

/** What cannot be read, else what is not there yet; null where all four are. */
function lackingWords(coordinates: readonly Coordinate[]): string | null {
  for (const { name, read } of coordinates) {
    if (read.kind === 'wrong') return `The ${name} cannot be read: ${read.message}.`;
  }
  const empty = coordinates.filter(({ read }) => read.kind === 'empty').map(({ name }) => name);
  if (empty.length === 0) return null;
  if (empty.length === 4) return 'Length and bearing stand here once both ends are typed.';
  const last = empty[empty.length - 1];
  const list = empty.length === 1 ? last : `${empty.slice(0, -1).join(', ')} and ${last}`;
  return `No length and no bearing yet: the ${list} ${empty.length === 1 ? 'is' : 'are'} missing.`;
}

/** What is odd about a length; null where it may be a strip's. */
function oddWords(
  lengthM: number,
  [latDeg, lonDeg]: readonly number[],
  units: ShownUnits,
): string | null {
  if (lengthM === 0) return 'Both ends are the same place: found no length.';
  if (lengthM < SHORTEST_M) {
    return `Found ends ${lengthWords(lengthM, units)} apart, expected ${lengthWords(SHORTEST_M, units)} or more.`;
  }
  // Also NaN, of ends half a globe apart.
  if (lengthM <= LONGEST_M) return null;
  const far = Number.isNaN(lengthM) ? '' : ` about ${numberText(lengthM / 1000, 0)}${NBSP}km`;
  const most = Math.abs(latDeg) > Math.abs(lonDeg) ? 'latitude' : 'longitude';
  return `Found ends${far} apart, further than those of any strip (${LONGEST_M / 1000}${NBSP}km): look at the ${most} of both.`;
}
