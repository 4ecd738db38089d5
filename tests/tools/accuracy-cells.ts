/**
 * Results of trials, counted up cell by cell: by log, and for one log by class.
 *
 * In: results of judged trials and, where the bound was learned, the place it names for each.
 * Out: tallies by name, the bound's error beside each, and how outcomes were named.
 */
import { createRandom } from '../../src/numeric/random.ts';
import { undetermined, type Measured } from '../../src/result.ts';
import { LOGS } from './accuracy-logs.ts';
import { quantileWithDoubt, Tally, type WithDoubt } from './accuracy-tally.ts';
import {
  ARRIVALS,
  BRAKES,
  QUANTITIES,
  SIZES,
  type Quantity,
  type QuantityName,
  type TrialResult,
} from './accuracy-trials.ts';
import type { LearnedBound } from './bound.ts';

/** Everything counted of one cell. */
export interface Cell {
  readonly name: string;
  readonly tallies: Readonly<Record<QuantityName, Tally>>;
  /** Errors of the touchdown, metres, in pairs: as measured, and as the bound names it. */
  readonly pairs: (readonly [number, number])[];
}

/** A cell in which nothing is counted yet. */
export function openCell(name: string): Cell {
  const tallies = Object.fromEntries(QUANTITIES.map((each) => [each, new Tally()]));
  return { name, tallies: tallies as Record<QuantityName, Tally>, pairs: [] };
}

/** The cells of all logs, in the order of LOGS. */
export function cellsByLog(results: readonly TrialResult[], bound: LearnedBound | null): Cell[] {
  const cells = LOGS.map(({ name }) => openCell(name));
  for (const result of results) count(cells[result.log], result, bound);
  return cells;
}

/** The cells of one log's landings by braking, size and arrival. */
export function cellsByClass(
  results: readonly TrialResult[],
  log: number,
  bound: LearnedBound | null,
): { readonly brakes: Cell[]; readonly size: Cell[]; readonly arrival: Cell[] } {
  const cells = {
    brakes: BRAKES.map(openCell),
    size: SIZES.map(openCell),
    arrival: ARRIVALS.map(openCell),
  };
  for (const result of results) {
    if (result.log !== log || !result.quantities.touchdown) continue;
    count(cells.brakes[result.classes.brakes], result, bound);
    count(cells.size[result.classes.size], result, bound);
    count(cells.arrival[result.classes.arrival], result, bound);
  }
  return cells;
}

/** Counts one result into a cell. */
function count(cell: Cell, result: TrialResult, bound: LearnedBound | null): void {
  for (const name of QUANTITIES) {
    for (const quantity of result.quantities[name] ?? []) {
      cell.tallies[name].add(measuredOf(quantity), quantity[3]);
    }
  }
  const { sample } = result;
  if (!sample || !bound) return;
  cell.pairs.push([
    Math.abs(sample.foundAlongM - sample.trueAlongM),
    Math.abs(bound.placeM(sample) - sample.trueAlongM),
  ]);
}

function measuredOf([value, low, high]: Quantity): Measured {
  return Number.isNaN(value) ? undetermined('as the trial says') : { value, low, high };
}

/** The bound's median error in a cell, metres, and ours over it; null where no bound was learned. */
export function boundOf({ pairs }: Cell): { median: WithDoubt; ratio: WithDoubt } | null {
  if (pairs.length < 10) return null;
  const median = quantileWithDoubt(
    pairs.map(([, bound]) => bound),
    0.5,
  );
  return { median, ratio: ratioWithDoubt(pairs) };
}

/** Resamplings for the ratio's standard error. */
const RESAMPLED = 200;

/** Ratio of the two median errors; its standard error by resampling landings, because both have the same noise. */
function ratioWithDoubt(pairs: readonly (readonly [number, number])[]): WithDoubt {
  const ratioOf = (list: readonly (readonly [number, number])[]): number =>
    quantileWithDoubt(
      list.map(([ours]) => ours),
      0.5,
    ).value /
    quantileWithDoubt(
      list.map(([, bound]) => bound),
      0.5,
    ).value;
  const random = createRandom(1);
  const drawn = Array.from({ length: RESAMPLED }, () =>
    ratioOf(pairs.map(() => pairs[random.integer(0, pairs.length)])),
  );
  const mean = drawn.reduce((sum, each) => sum + each, 0) / RESAMPLED;
  const variance = drawn.reduce((sum, each) => sum + (each - mean) ** 2, 0) / RESAMPLED;
  return { value: ratioOf(pairs), doubt: Math.sqrt(variance) };
}

/** How each truth was named in one log: truth, then name, then how often. */
export function confusionOf(
  results: readonly TrialResult[],
  log: number,
): Map<string, Map<string, number>> {
  const counts = new Map<string, Map<string, number>>();
  for (const { log: each, truth, found } of results) {
    if (each !== log) continue;
    const row = counts.get(truth) ?? new Map<string, number>();
    row.set(found, (row.get(found) ?? 0) + 1);
    counts.set(truth, row);
  }
  return counts;
}
