/**
 * Rows of docs/accuracy-circuits.md.
 *
 * In: scores of flights of one kind. Out: a table's row each, errors as median / 90th percentile, shares in
 * percent with their standard error.
 */
import { MPS_PER_KNOT } from '../../src/units/convert.ts';
import type { AirspeedScore } from '../synthetic/airspeed-score.ts';
import type { Against, FlightScore } from '../synthetic/circuit-score.ts';
import { SIZES, type SizeScore } from '../synthetic/circuit-sizes.ts';
import { tableRow } from './accuracy-tally.ts';

/** Joins in the order of the table. */
export const JOINS = ['overhead', 'crosswind', 'downwind', 'base', 'straight-in', 'none'];

const FIVE_KNOTS_MPS = 5 * MPS_PER_KNOT;

/** A share in percent with its standard error. */
export function share(right: number, all: number): string {
  const part = right / all;
  const doubt = Math.sqrt((part * (1 - part)) / all);
  return `${(100 * part).toFixed(1)} % ± ${(100 * doubt).toFixed(1)}`;
}

/** The value below which a share `p` of a list lies, to a tenth; a dash for none. */
export function at(list: readonly number[], p: number): string {
  if (list.length === 0) return '-';
  const value = list.toSorted((a, b) => a - b)[Math.floor(p * (list.length - 1))];
  // No minus before a nought.
  return (Math.round(10 * value) / 10 + 0).toFixed(1);
}

/** How many of those known lie in their band. */
export function held(list: readonly (Against | null)[]): string {
  const known = list.filter((each) => each !== null);
  return known.length === 0 ? '-' : share(known.filter((each) => each.held).length, known.length);
}

/** Legs, joins and bank at one interval. */
export function legRow(intervalS: number, list: readonly FlightScore[]): string {
  const circuits = list.flatMap((score) => score.circuits);
  const borders = circuits.flatMap(({ borderErrorsS }) => borderErrorsS);
  const joins = list.flatMap((score) => score.joins);
  const banks = circuits.flatMap(({ bank }) => (bank ? [bank] : []));
  return tableRow([
    `${intervalS} s`,
    String(circuits.length),
    share(circuits.filter(({ right }) => right).length, circuits.length),
    String(list.reduce((sum, { invented }) => sum + invented, 0)),
    `${at(borders, 0.05)} to ${at(borders, 0.95)} s`,
    String(joins.length),
    share(joins.filter(({ kind, found }) => kind === found).length, joins.length),
    `${at(
      banks.map(({ error }) => Math.abs(error)),
      0.5,
    )} / ${at(
      banks.map(({ error }) => Math.abs(error)),
      0.9,
    )}°`,
    held(banks),
  ]);
}

/** Sizes and speeds of one kind of log, a row each. */
export function sizeRows(log: string, list: readonly SizeScore[]): string[] {
  return SIZES.map((name) => {
    const scores = list.filter(({ figure }) => figure === name);
    const unit = name === 'leg speed' ? 'm/s' : 'm';
    const errors = scores.map(({ error }) => Math.abs(error));
    const widths = scores.map(({ width }) => width);
    return tableRow([
      name,
      log,
      String(scores.length),
      `${at(errors, 0.5)} / ${at(errors, 0.9)} ${unit}`,
      held(scores),
      `${at(widths, 0.5)} ${unit}`,
    ]);
  });
}

/** Winds, errors in m/s. */
export function windRow(name: string, list: readonly FlightScore[]): string {
  const winds = list.map(({ wind }) => wind);
  const errors = winds.flatMap(({ errorMps }) => (errorMps === null ? [] : [errorMps]));
  return tableRow([
    name,
    String(winds.length),
    String(winds.length - errors.length),
    `${at(errors, 0.5)} / ${at(errors, 0.9)} m/s`,
    `${at(
      winds.flatMap(({ speed }) => (speed ? [speed.error] : [])),
      0.5,
    )} m/s`,
    share(errors.filter((error) => error <= 2).length, winds.length),
    held(winds.map(({ speed }) => speed)),
    held(winds.map(({ direction }) => direction)),
    `${at(
      winds.flatMap(({ speed }) => (speed ? [speed.width] : [])),
      0.5,
    )} m/s`,
  ]);
}

/** Airspeeds at gates by one wind, errors in m/s. */
export function airspeedRow(
  wind: string,
  intervalS: number,
  list: readonly AirspeedScore[],
): string {
  const signed = list.map(({ error }) => error);
  const errors = signed.map(Math.abs);
  return tableRow([
    wind,
    `${intervalS} s`,
    String(list.length),
    `${at(errors, 0.5)} / ${at(errors, 0.9)} m/s`,
    `${at(signed, 0.5)} m/s`,
    share(errors.filter((error) => error <= FIVE_KNOTS_MPS).length, errors.length),
    share(list.filter((each) => each.held).length, list.length),
    `${at(
      list.map(({ width }) => width),
      0.5,
    )} m/s`,
  ]);
}

/** Why circuits were not right, the most frequent first. */
export function misses(list: readonly FlightScore[]): string[] {
  const counts = new Map<string, number>();
  for (const { circuits } of list) {
    for (const { right, why } of circuits) {
      if (!right) counts.set(kindOfMiss(why), (counts.get(kindOfMiss(why)) ?? 0) + 1);
    }
  }
  return [...counts]
    .sort((a, b) => b[1] - a[1])
    .map(([why, count]) => tableRow([why, String(count)]));
}

function kindOfMiss(why: string): string {
  if (why.startsWith('orbits')) return 'an orbit missed or invented';
  if (why.includes('found as')) return 'other legs';
  if (why.includes(' s off')) return `the turn on to ${why.split(' ')[0]} out of its time`;
  return why === 'missed' ? 'not found at all' : why;
}

/** Joins as flown against joins as found. */
export function confusion(list: readonly FlightScore[]): string[] {
  const joins = list.flatMap((score) => score.joins);
  return JOINS.filter((kind) => joins.some((join) => join.kind === kind)).map((kind) =>
    tableRow([
      kind,
      ...JOINS.map((found) =>
        String(joins.filter((join) => join.kind === kind && join.found === found).length),
      ),
    ]),
  );
}
