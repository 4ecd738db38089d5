/**
 * Landings of one group as the rows of a linear model: which coefficients does each add up?
 *
 * In: log ratios with days. Out: rows by day, and upper bounds. Coefficient 0 is the group's mean; each
 * day with an upper bound has one of its own.
 */
import { byDay } from './by-day.ts';
import { ownVariance } from './repeated-error.ts';
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

/** The landings of one group as a linear model with `size` coefficients. */
export interface Design {
  readonly size: number;
  readonly days: readonly Day[];
  readonly bounds: readonly Row[];
}

/** Rows of every day, measured landings apart from upper bounds. */
export function designOf(landings: readonly LogRatio[]): Design {
  let size = 1;
  const bounds: Row[] = [];
  const days = byDay(landings).map((ofDay): Day => {
    const hasColumn = ofDay.some(({ kind }) => kind === 'upper-bound');
    const columns = hasColumn ? [0, size++] : [0];
    const rowOf = ({ logRatio, sd, commonShare }: LogRatio): Row => ({
      y: logRatio,
      measuringVariance: ownVariance(sd ** 2, commonShare),
      columns,
    });
    bounds.push(...ofDay.filter(({ kind }) => kind === 'upper-bound').map(rowOf));
    return { values: ofDay.filter(({ kind }) => kind === 'value').map(rowOf), hasColumn };
  });
  return { size, days, bounds };
}
