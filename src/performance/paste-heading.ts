/**
 * What do the headings of a pasted table mean?
 *
 * Input: the first row of cells. Output: for each column a variable with its unit, the value of a
 * variable under which distances stand, or the distances themselves; or what is wrong.
 */
import { failure, problem, success, type Problem, type Result } from '../result.ts';
import { cellNumber, type CellRow } from './paste-cells.ts';

/** What a handbook tabulates over. */
export type Variable = 'altitude' | 'temperature' | 'mass';
/** Units of headings. */
export type Unit = 'ft' | 'm' | 'C' | 'F' | 'kg' | 'lb';

/** One column. */
export type Column =
  | { readonly kind: 'variable'; readonly variable: Variable; readonly unit: Unit }
  | {
      readonly kind: 'at';
      readonly variable: Variable;
      readonly unit: Unit;
      readonly value: number;
    }
  | { readonly kind: 'distance'; readonly unit: 'm' | 'ft' };

/** Words of a heading, tried in this order: a `landing mass` is a mass. */
const WORDS: readonly (readonly [Variable | 'distance', RegExp])[] = [
  ['mass', /mass|weight|auw|mtom/],
  ['temperature', /temp|oat/],
  ['altitude', /altitude|elevation|\balt\b|\bpa\b/],
  ['distance', /distance|roll|run|landing|take-?off|ldg|\btod\b/],
];

const UNIT = /(?:^|[\s\d(["'])(ft|m|°?\s*c|°?\s*f|kg|lbs?)[)\]"']*\.?$/;
const EXPECTED =
  'expected "pressure altitude (ft)", "temperature (°C)", "mass (kg)", "distance (m)", or a value with its unit such as "850 kg"';
const UNITS_OF: Readonly<Record<Variable | 'distance', readonly Unit[]>> = {
  altitude: ['ft', 'm'],
  temperature: ['C', 'F'],
  mass: ['kg', 'lb'],
  distance: ['m', 'ft'],
};

/** Reads the headings. Fails: names the column, what was found and what was expected. */
export function readHeading(
  { cells, line }: CellRow,
  holdsAt: Readonly<Record<'pressureAltitudeFt' | 'tempC' | 'massKg', unknown>>,
): Result<readonly Column[]> {
  const found: Problem[] = [];
  const columns = cells.flatMap((cell, k) => {
    const column = readColumn(cell);
    if (typeof column !== 'string') return [column];
    found.push(problem('pasted-table', 'error', `line ${line}, column ${k + 1}`, column));
    return [];
  });
  if (found.length > 0) return failure(found);
  const why = faultOf(columns, holdsAt);
  if (why !== null) return failure([problem('pasted-table', 'error', `line ${line}`, why)]);
  return success(columns);
}

function readColumn(cell: string): Column | string {
  const text = cell.toLowerCase();
  const unit = unitOf(text);
  const number = /^[+\-−]?[\d.,\s\u00a0]*\d/.exec(text);
  const quoted = cell.slice(0, 40);
  if (number) {
    const read = cellNumber(number[0]);
    if ('why' in read) return read.why;
    const variable = variableOf(unit);
    return variable === null || unit === null
      ? `found "${quoted}", ${EXPECTED}`
      : { kind: 'at', variable, unit, value: read.value };
  }
  const what = WORDS.find(([, words]) => words.test(text))?.[0];
  if (what === undefined) return `found "${quoted}", ${EXPECTED}`;
  if (unit === null || !UNITS_OF[what].includes(unit)) {
    return `found "${quoted}" without its unit, expected ${UNITS_OF[what].join(' or ')} behind it`;
  }
  return what === 'distance'
    ? { kind: 'distance', unit: unit === 'ft' ? 'ft' : 'm' }
    : { kind: 'variable', variable: what, unit };
}

function unitOf(text: string): Unit | null {
  const unit = UNIT.exec(text)?.[1].replace(/[°\s]/g, '');
  if (unit === 'c' || unit === 'f') return unit === 'c' ? 'C' : 'F';
  if (unit === 'lbs' || unit === 'lb') return 'lb';
  return unit === 'ft' || unit === 'm' || unit === 'kg' ? unit : null;
}

/** A bare value is an altitude, a temperature or a mass by its unit. */
function variableOf(unit: Unit | null): Variable | null {
  if (unit === 'kg' || unit === 'lb') return 'mass';
  if (unit === 'C' || unit === 'F') return 'temperature';
  return unit === null ? null : 'altitude';
}

/** What is wrong with the columns together; null where nothing is. */
function faultOf(
  columns: readonly Column[],
  holdsAt: Parameters<typeof readHeading>[1],
): string | null {
  const distances = columns.filter(({ kind }) => kind === 'distance').length;
  const valued = columns.flatMap((column) => (column.kind === 'at' ? [column.variable] : []));
  if (distances > 1) return `found ${distances} columns of distances, expected one`;
  if (distances === 0 && valued.length === 0)
    return 'found no distances, expected a column of them';
  if (distances > 0 && valued.length > 0) {
    return 'found a column of distances beside columns under a value, expected one or the other';
  }
  if (new Set(valued).size > 1) {
    return `found columns under values of ${[...new Set(valued)].join(' and of ')}, expected one kind`;
  }
  const named = columns.flatMap((column) => (column.kind === 'variable' ? [column.variable] : []));
  const all = [...named, ...new Set(valued)];
  const twice = all.find((variable, k) => all.indexOf(variable) !== k);
  if (twice !== undefined) return `found ${twice} twice, expected it once`;
  const given: readonly (readonly [Variable, unknown])[] = [
    ['altitude', holdsAt.pressureAltitudeFt],
    ['temperature', holdsAt.tempC],
    ['mass', holdsAt.massKg],
  ];
  for (const [variable, value] of given) {
    if (!all.includes(variable) && value === null) {
      return `found no ${variable}, expected a column of it or the value at which the table holds`;
    }
  }
  return null;
}
