/**
 * What distance does the handbook give at this altitude, temperature and mass?
 *
 * Inputs: a table of the aeroplane, and the day in the handbook's units (ft, degrees C, kg).
 * Output: the distance, and the altitude, temperature and mass at which it holds. A variable with
 * a single value in the table is not tabulated: the figure holds at that value only, and a factor
 * set has to carry it to the day.
 */

import { standardTempC } from '../atmosphere/standard-atmosphere.ts';
import { interpolate, type Axis, type EdgeRule, type OutsideAxis } from '../numeric/interpolate.ts';
import { undetermined, type Undetermined } from '../result.ts';
import { METRES_PER_FOOT } from '../units/convert.ts';
import type { Aeroplane, HandbookQuantity, HandbookTable } from './aeroplane.ts';

/** The state of the day that handbooks tabulate, in their units. */
export interface HandbookDay {
  readonly pressureAltitudeFt: number;
  readonly tempC: number;
  readonly massKg: number;
}

/** A distance from a table. */
export interface HandbookFigure {
  readonly distanceM: number;
  /** Altitude, temperature and mass at which the distance holds. */
  readonly holdsAt: HandbookDay;
  /** Variables that the table itself covers over a range; the others hold at one value only. */
  readonly tabulated: {
    readonly pressureAltitude: boolean;
    readonly temp: boolean;
    readonly mass: boolean;
  };
  /** Variables that were outside the table and were read at its nearest edge, as asked. */
  readonly atEdge: readonly OutsideAxis[];
}

/**
 * The table of a quantity for a flap setting.
 *
 * @param flap the handbook's label, or null where none was entered
 * Output: null where the handbook has no such table at all. Fails: undetermined where it has
 * several flap settings and the entered one is not among them or none was entered.
 */
export function findTable(
  aeroplane: Aeroplane,
  quantity: HandbookQuantity,
  flap: string | null,
): HandbookTable | null | Undetermined {
  const tables = aeroplane.tables.filter((table) => table.quantity === quantity);
  if (tables.length === 0) return null;
  const exact = tables.find((table) => table.flap === flap);
  if (exact !== undefined) return exact;
  // One label cannot fit both uses of a strip, so a single setting of this use serves where the
  // entered label belongs to another table of the same aeroplane.
  const isKnownElsewhere = aeroplane.tables.some((table) => table.flap === flap);
  if (tables.length === 1 && (flap === null || isKnownElsewhere)) return tables[0];
  const settings = tables.map((table) => table.flap).join(', ');
  const found = flap === null ? 'no flap setting was entered' : `the flap setting is "${flap}"`;
  return undetermined(`${found}; the handbook's table (${quantity}) is for flap ${settings}`);
}

/**
 * Reads a table, linear between its rows.
 *
 * Units: ft, degrees Celsius, kg in; metres out. Fails: undetermined outside the table unless the
 * nearest edge is asked for; the reason names the variable, what was given and the range.
 */
export function readTable(
  table: HandbookTable,
  day: HandbookDay,
  edge: EdgeRule,
): HandbookFigure | Undetermined {
  const temps = table.tempC === 'standard' ? null : table.tempC;
  const axes: Axis[] = [
    { name: 'pressure altitude', unit: 'ft', points: table.pressureAltitudeFt },
    { name: 'temperature', unit: 'degrees Celsius', points: temps ?? [0] },
    { name: 'mass', unit: 'kg', points: table.massKg },
  ];
  const given = [day.pressureAltitudeFt, day.tempC, day.massKg];
  const at = axes.map((axis, i) => (axis.points.length === 1 ? axis.points[0] : given[i]));
  const read = interpolate(axes, table.distanceM.flat(2), at, edge);
  if ('outside' in read) return undetermined(read.outside.map(describeOutside).join('; '));
  if (!(read.value > 0 && read.value < Infinity)) {
    return undetermined(`the handbook's table gives ${read.value} m there, expected a distance`);
  }
  const [pressureAltitudeFt, tempC, massKg] = axes.map((axis, i) => intoRange(axis, at[i]));
  const holdsAtTempC = temps === null ? standardTempC(pressureAltitudeFt * METRES_PER_FOOT) : tempC;
  return {
    distanceM: read.value,
    holdsAt: { pressureAltitudeFt, tempC: holdsAtTempC, massKg },
    tabulated: {
      pressureAltitude: table.pressureAltitudeFt.length > 1,
      temp: temps !== null && temps.length > 1,
      mass: table.massKg.length > 1,
    },
    atEdge: read.atEdge,
  };
}

/** True where two figures hold at the same altitude, temperature and mass. */
export function holdAlike(a: HandbookFigure, b: HandbookFigure): boolean {
  const near = (x: number, y: number): boolean => Math.abs(x - y) < 1e-6;
  return (
    near(a.holdsAt.pressureAltitudeFt, b.holdsAt.pressureAltitudeFt) &&
    near(a.holdsAt.tempC, b.holdsAt.tempC) &&
    near(a.holdsAt.massKg, b.holdsAt.massKg)
  );
}

/** A variable outside a table, as a clause for a message. */
export function describeOutside({ name, unit, given, low, high }: OutsideAxis): string {
  const shown = Math.round(given * 10) / 10;
  return `${name} ${shown} ${unit} lies outside the handbook's table, which covers ${low} to ${high} ${unit}`;
}

function intoRange(axis: Axis, at: number): number {
  return Math.min(Math.max(at, axis.points[0]), axis.points[axis.points.length - 1]);
}
