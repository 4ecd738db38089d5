/**
 * Landings as the rows of a linear model: which coefficients does each add up?
 *
 * In: log ratios with days and group labels, the group asked about. Out: rows by day, upper bounds, and
 * what each coefficient is.
 */
import type { LogRatio } from './log-ratio.ts';

/** A landing with the coefficients that its expectation adds up. */
export interface Row {
  readonly y: number;
  readonly measuringVariance: number;
  readonly columns: readonly number[];
}

/** Measured landings of one day. */
export interface Day {
  readonly values: readonly Row[];
  /** The day's effect is a coefficient of its own where the day has an upper bound. */
  readonly hasColumn: boolean;
}

/** All landings as a linear model. */
export interface Design {
  readonly size: number;
  readonly days: readonly Day[];
  readonly bounds: readonly Row[];
  /** Dimension of the groups that a coefficient belongs to; -1: the mean; -2: a day. */
  readonly kinds: readonly number[];
  readonly dimensions: number;
  readonly target: readonly number[];
}

/** Columns: the mean, the levels of every dimension in which landings or target differ, days with bounds. */
export function designOf(landings: readonly LogRatio[], target: readonly string[]): Design {
  const kinds = [-1];
  const columnOf = new Map<string, number>();
  const labels = [...landings.map(({ groups = [] }) => groups), target];
  const longest = Math.max(...labels.map(({ length }) => length));
  let dimensions = 0;
  for (let d = 0; d < longest; d++) {
    const levels = new Set(labels.flatMap((each) => (d < each.length ? [each[d]] : [])));
    if (levels.size < 2) continue;
    for (const level of levels) columnOf.set(`${d} ${level}`, kinds.push(dimensions) - 1);
    dimensions++;
  }
  const columnsOf = (groups: readonly string[]): number[] => [
    0,
    ...groups.flatMap((level, d) => columnOf.get(`${d} ${level}`) ?? []),
  ];
  const byDay = new Map<string, LogRatio[]>();
  for (const landing of landings) {
    const sameDay = byDay.get(landing.dayKey);
    if (sameDay) sameDay.push(landing);
    else byDay.set(landing.dayKey, [landing]);
  }
  const bounds: Row[] = [];
  const days = [...byDay.values()].map((ofDay): Day => {
    const hasColumn = ofDay.some(({ kind }) => kind === 'upper-bound');
    const dayColumns = hasColumn ? [kinds.push(-2) - 1] : [];
    const rowOf = ({ logRatio, sd, groups = [] }: LogRatio): Row => ({
      y: logRatio,
      measuringVariance: sd ** 2,
      columns: [...columnsOf(groups), ...dayColumns],
    });
    bounds.push(...ofDay.filter(({ kind }) => kind === 'upper-bound').map(rowOf));
    return { values: ofDay.filter(({ kind }) => kind === 'value').map(rowOf), hasColumn };
  });
  return { size: kinds.length, days, bounds, kinds, dimensions, target: columnsOf(target) };
}
