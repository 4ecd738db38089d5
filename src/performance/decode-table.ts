/**
 * Is this a usable table of handbook distances?
 *
 * Input: a table as data. Output: its schema and its problems, each with the field, what was found
 * and what was expected. Shared by the aeroplane document and by pasted tables.
 * The ranges are limits of the plausible for light aeroplanes (ours, no source).
 */
import * as v from 'valibot';
import { problem, type Problem } from '../result.ts';
import { expecting, numberBetween, oneOf, orNull, shortText } from '../units/entered-field.ts';
import type { HandbookTable } from './aeroplane.ts';

const MOST_POINTS = 40;

/** A mass, kg. */
export const mass = numberBetween(50, 10_000, 'kg');
const distance = numberBetween(5, 5000, 'm');

/** One table, field by field. */
export const tableSchema = v.object(
  {
    quantity: oneOf(['landing-roll', 'landing-from-screen', 'take-off-roll', 'take-off-to-screen']),
    flap: shortText(100),
    surface: oneOf(['hard-dry', 'grass-dry']),
    screenHeightM: orNull(v.picklist([15, 15.24], expecting('15 or 15.24 (50 ft)'))),
    pressureAltitudeFt: pointsOf(numberBetween(-2000, 15_000, 'ft')),
    tempC: v.union(
      [v.literal('standard'), pointsOf(numberBetween(-50, 60, 'degrees Celsius'))],
      expecting('numbers from -50 to 60 degrees Celsius, or "standard"'),
    ),
    massKg: pointsOf(mass),
    distanceM: pointsOf(pointsOf(pointsOf(distance))),
  },
  expecting('a table'),
);

/** What the schema of a table cannot say: points that rise, distances that fit them and never shrink. */
export function tableProblems(table: HandbookTable, where: string): Problem[] {
  const found: Problem[] = [];
  const temps = table.tempC === 'standard' ? [Number.NaN] : table.tempC;
  if (table.quantity.endsWith('screen') !== (table.screenHeightM !== null)) {
    const message = 'expected 15 or 15.24 for a distance over a screen, and none for a ground roll';
    found.push(wrongField(`${where}.screenHeightM`, `found ${table.screenHeightM}, ${message}`));
  }
  const axes = { pressureAltitudeFt: table.pressureAltitudeFt, tempC: temps, massKg: table.massKg };
  for (const [name, points] of Object.entries(axes)) {
    const fall = points.findIndex((point, i) => i > 0 && point <= points[i - 1]);
    if (fall > 0) {
      const message = `found ${points[fall]} after ${points[fall - 1]}, expected rising values`;
      found.push(wrongField(`${where}.${name}.${fall}`, message));
    }
  }
  const sizes = [table.pressureAltitudeFt.length, temps.length, table.massKg.length];
  const fits =
    table.distanceM.length === sizes[0] &&
    table.distanceM.every(
      (rows) => rows.length === sizes[1] && rows.every((row) => row.length === sizes[2]),
    );
  if (!fits) {
    const message = `expected ${sizes[0]} altitudes of ${sizes[1]} temperatures of ${sizes[2]} masses`;
    return [...found, wrongField(`${where}.distanceM`, message)];
  }
  return [...found, ...shrinkingDistance(table, where)];
}

/** Higher, hotter or heavier never shortens a distance; where a table says so, a digit slipped. */
function shrinkingDistance(table: HandbookTable, where: string): Problem[] {
  const distances = table.distanceM;
  for (let a = 0; a < distances.length; a++) {
    for (let t = 0; t < distances[a].length; t++) {
      for (let m = 0; m < distances[a][t].length; m++) {
        const here = distances[a][t][m];
        const before = [
          a > 0 ? distances[a - 1][t][m] : 0,
          t > 0 ? distances[a][t - 1][m] : 0,
          m > 0 ? distances[a][t][m - 1] : 0,
        ];
        const longest = Math.max(...before);
        if (longest > here) {
          return [
            wrongField(
              `${where}.distanceM.${a}.${t}.${m}`,
              `found ${here} m after ${longest} m, expected a distance that does not shrink with altitude, temperature or mass`,
            ),
          ];
        }
      }
    }
  }
  return [];
}

/** An error of one field. */
export function wrongField(where: string, message: string): Problem {
  return problem('aeroplane-field', 'error', where, message);
}

function pointsOf<S extends v.GenericSchema>(item: S) {
  const message = expecting(`a list of 1 to ${MOST_POINTS} entries`);
  return v.pipe(v.array(item, message), v.minLength(1, message), v.maxLength(MOST_POINTS, message));
}
