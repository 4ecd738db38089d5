/**
 * A handbook table out of text pasted from a spreadsheet.
 *
 * Input: the text. Its first line names the columns, each with its unit: pressure altitude,
 * temperature, mass, and either one column of distances, or one for each altitude, temperature or
 * mass (`850 kg`, `15 °C`). Every line below is a row. Output: the table, or a problem for each
 * place that is wrong. A variable without a column holds at the value that is given for it.
 *
 *     pressure altitude (ft);temperature (°C);850 kg;975 kg
 *     0;15;330;365
 */
import * as v from 'valibot';
import { failure, problem, success, type Problem, type Result } from '../result.ts';
import { KG_PER_POUND, METRES_PER_FOOT } from '../units/convert.ts';
import type { HandbookTable } from './aeroplane.ts';
import { tableProblems, tableSchema } from './decode-table.ts';
import { readHeading, type Column, type Unit, type Variable } from './paste-heading.ts';
import { cellNumber, cellRows, type CellRow } from './paste-cells.ts';

/** What the text cannot say. */
export interface PasteFrame {
  readonly quantity: HandbookTable['quantity'];
  readonly flap: string;
  readonly surface: HandbookTable['surface'];
  readonly screenHeightM: number | null;
  /** Unit of distances that stand under an altitude, temperature or mass. */
  readonly distanceUnit: 'm' | 'ft';
  /** At which value the table holds, for a variable without a column; null: it must have one. */
  readonly holdsAt: {
    readonly pressureAltitudeFt: number | null;
    readonly tempC: number | 'standard' | null;
    readonly massKg: number | null;
  };
}

/** Longest text that is read, characters; 40 x 40 x 40 distances are far more than any handbook has. */
const LONGEST = 200_000;

/** One distance and where it stands. */
interface Point {
  readonly altitude: number;
  readonly temp: number;
  readonly mass: number;
  readonly distanceM: number;
  readonly where: string;
}

/**
 * Reads the table.
 *
 * Units: by the headings (ft or m, °C or °F, kg or lb); out as HandbookTable has them. Fails: names
 * line and column, what was found and what was expected; also for a combination that is missing or
 * stands twice, and for distances that shrink with altitude, temperature or mass.
 */
export function pasteTable(text: string, frame: PasteFrame): Result<HandbookTable> {
  if (text.length > LONGEST) {
    return refused('text', `found ${text.length} characters, expected up to ${LONGEST}`);
  }
  const rows = cellRows(text);
  if (rows.length < 2) {
    return refused('text', 'found no rows, expected a line of headings and the rows below it');
  }
  const heading = readHeading(rows[0], frame.holdsAt);
  if (!heading.ok) return heading;
  const found: Problem[] = [];
  const points = rows.slice(1).flatMap((row) => pointsOf(row, heading.value, frame, found));
  if (found.length > 0) return failure(found);
  const hasTemp = heading.value.some(
    (column) => column.kind !== 'distance' && column.variable === 'temperature',
  );
  return tableOf(points, frame, !hasTemp && frame.holdsAt.tempC === 'standard');
}

/** The distances of one row. */
function pointsOf(
  row: CellRow,
  columns: readonly Column[],
  frame: PasteFrame,
  found: Problem[],
): Point[] {
  if (row.cells.length > columns.length) {
    const message = `found ${row.cells.length} cells, expected ${columns.length} as in the headings`;
    found.push(wrong(`line ${row.line}`, message));
    return [];
  }
  const placeOf = (k: number): string => `line ${row.line}, column ${k + 1}`;
  const values = columns.map((_, k) => {
    const cell = row.cells.at(k) ?? '';
    const read = cell === '' ? { why: 'found an empty cell, expected a number' } : cellNumber(cell);
    if ('value' in read) return read.value;
    found.push(wrong(placeOf(k), read.why));
    return NaN;
  });
  const inRow = new Map<Variable, number>(
    columns.flatMap((column, k) =>
      column.kind === 'variable'
        ? [[column.variable, toHandbook(values[k], column.unit, column.variable)] as const]
        : [],
    ),
  );
  return columns.flatMap((column, k): Point[] => {
    if (column.kind === 'variable') return [];
    const at = (variable: Variable, otherwise: number): number => {
      if (column.kind === 'at' && column.variable === variable) {
        return toHandbook(column.value, column.unit, variable);
      }
      return inRow.get(variable) ?? otherwise;
    };
    const { pressureAltitudeFt, tempC, massKg } = frame.holdsAt;
    const unit = column.kind === 'distance' ? column.unit : frame.distanceUnit;
    return [
      {
        altitude: at('altitude', pressureAltitudeFt ?? NaN),
        temp: at('temperature', typeof tempC === 'number' ? tempC : 0),
        mass: at('mass', massKg ?? NaN),
        distanceM: tenths(unit === 'ft' ? values[k] * METRES_PER_FOOT : values[k]),
        where: placeOf(k),
      },
    ];
  });
}

function tableOf(
  points: readonly Point[],
  frame: PasteFrame,
  isStandard: boolean,
): Result<HandbookTable> {
  const rising = (of: (point: Point) => number): number[] =>
    [...new Set(points.map(of))].sort((a, b) => a - b);
  const altitudes = rising(({ altitude }) => altitude);
  const temps = rising(({ temp }) => temp);
  const masses = rising(({ mass }) => mass);
  const byPlace = new Map<string, Point>();
  const found: Problem[] = [];
  for (const point of points) {
    const key = [point.altitude, point.temp, point.mass].join();
    const before = byPlace.get(key);
    if (before) found.push(wrong(point.where, `a second distance beside that of ${before.where}`));
    byPlace.set(key, point);
  }
  const nameOf = (a: number, t: number, m: number): string =>
    `${altitudes[a]} ft, ${isStandard ? 'standard temperature' : `${temps[t]} °C`}, ${masses[m]} kg`;
  const distanceM = altitudes.map((altitude, a) =>
    temps.map((temp, t) =>
      masses.map((mass, m) => {
        const point = byPlace.get([altitude, temp, mass].join());
        if (!point) found.push(wrong(nameOf(a, t, m), 'no distance was found, expected one'));
        return point?.distanceM ?? NaN;
      }),
    ),
  );
  if (found.length > 0) return failure(found);
  const { quantity, flap, surface, screenHeightM } = frame;
  const table = {
    ...{ quantity, flap, surface, screenHeightM, distanceM },
    pressureAltitudeFt: altitudes,
    tempC: isStandard ? ('standard' as const) : temps,
    massKg: masses,
  };
  const parsed = v.safeParse(tableSchema, table);
  const wrongs = parsed.success
    ? tableProblems(parsed.output, 'table')
    : parsed.issues.map((issue) => wrong(v.getDotPath(issue) ?? 'table', issue.message));
  if (!parsed.success || wrongs.length > 0) {
    return failure(wrongs.map((each) => ({ ...each, where: inWords(each.where, nameOf) })));
  }
  return success(parsed.output);
}

/** `distanceM.1.0.2` as the altitude, temperature and mass that it stands for. */
function inWords(where: string, nameOf: (a: number, t: number, m: number) => string): string {
  const place = /distanceM\.(\d+)\.(\d+)\.(\d+)$/.exec(where);
  return place ? nameOf(Number(place[1]), Number(place[2]), Number(place[3])) : where;
}

function toHandbook(value: number, unit: Unit, variable: Variable): number {
  if (variable === 'altitude') return unit === 'm' ? Math.round(value / METRES_PER_FOOT) : value;
  if (variable === 'mass') return unit === 'lb' ? tenths(value * KG_PER_POUND) : value;
  return unit === 'F' ? tenths(((value - 32) * 5) / 9) : value;
}

function tenths(value: number): number {
  return Math.round(value * 10) / 10;
}

function wrong(where: string, message: string): Problem {
  return problem('pasted-table', 'error', where, message);
}

function refused(where: string, message: string): Result<never> {
  return failure([wrong(where, message)]);
}
