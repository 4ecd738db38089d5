/**
 * Landings of one group as the rows of a linear model: which coefficients does each add up?
 *
 * In: log ratios with days. Out: rows by day, and upper bounds. Coefficient 0 is the group's mean; each
 * day with an upper bound has one of its own.
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

/** The landings of one group as a linear model with `size` coefficients. */
export interface Design {
  readonly size: number;
  readonly days: readonly Day[];
  readonly bounds: readonly Row[];
}

/** Rows of every day, measured landings apart from upper bounds. */
export function designOf(landings: readonly LogRatio[]): Design {
  const byDay = new Map<string, LogRatio[]>();
  for (const landing of landings) {
    const sameDay = byDay.get(landing.dayKey);
    if (sameDay) sameDay.push(landing);
    else byDay.set(landing.dayKey, [landing]);
  }
  let size = 1;
  const bounds: Row[] = [];
  const days = [...byDay.values()].map((ofDay): Day => {
    const hasColumn = ofDay.some(({ kind }) => kind === 'upper-bound');
    const columns = hasColumn ? [0, size++] : [0];
    const rowOf = ({ logRatio, sd }: LogRatio): Row => ({
      y: logRatio,
      measuringVariance: sd ** 2,
      columns,
    });
    bounds.push(...ofDay.filter(({ kind }) => kind === 'upper-bound').map(rowOf));
    return { values: ofDay.filter(({ kind }) => kind === 'value').map(rowOf), hasColumn };
  });
  return { size, days, bounds };
}
