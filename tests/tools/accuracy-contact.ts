/**
 * Does a stated contact probability say how often the wheels touch?
 *
 * In: seeds of drawn passes (tests/synthetic/pass-population.ts). Out: for each pass the probability
 * stated and whether it touched; counted in bins, and as a table.
 */
import { isUndetermined } from '../../src/result.ts';
import { flyDrawnPass } from '../synthetic/pass-population.ts';
import { logScenario, LOGS } from './accuracy-logs.ts';
import { tableHead, tableRow } from './accuracy-tally.ts';

/** One pass: what was said of it, and what it was. */
export interface JudgedPass {
  readonly stated: number;
  readonly touched: boolean;
}

/** Passes whose stated probabilities lie together. Shares from 0 to 1. */
export interface ReliabilityBin {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** Means of what was stated and of what happened. */
  readonly stated: number;
  readonly touched: number;
  /** Standard error of `touched` if the stated probabilities are right. */
  readonly doubt: number;
}

/** Bins that say something of both ends and of the middle. */
export const RELIABILITY_EDGES: readonly number[] = [0, 0.05, 0.1, 0.2, 0.4, 0.7, 0.95, 1];

/**
 * Flies, logs and judges passes.
 *
 * @param alone false where a take-off and a landing in the same log tie the heights.
 * @param log place in LOGS.
 * A pass that is not found, or found to end in a standstill, has no stated probability and is left out.
 */
export function judgePasses(
  firstSeed: number,
  count: number,
  alone: boolean,
  log: number,
): JudgedPass[] {
  return Array.from({ length: count }, (_, k) => firstSeed + k).flatMap((seed) => {
    const drawn = flyDrawnPass(seed, alone);
    const { motion, events } = logScenario(drawn, seed, LOGS[log]);
    const atS = drawn.pass.touchdown?.timeS ?? drawn.lowestTimeS;
    const found = events.approaches.find(
      ({ from, to }) => motion.timeS[from] <= atS && atS <= motion.timeS[to - 1],
    );
    const ended = found?.outcome === 'full-stop' || found?.outcome === 'stop-and-go';
    if (!found || ended || found.strip === null) return [];
    const lost = isUndetermined(found.outcome) && found.posterior === null && !found.goAround;
    if (lost) return [];
    return [{ stated: found.contactProbability, touched: drawn.pass.touchdown !== null }];
  });
}

/** Counts passes into bins; empty bins are left out. */
export function reliabilityOf(
  passes: readonly JudgedPass[],
  edges: readonly number[] = RELIABILITY_EDGES,
): ReliabilityBin[] {
  return edges.slice(0, -1).flatMap((from, k) => {
    const to = edges[k + 1];
    const last = k === edges.length - 2;
    const inside = passes.filter(
      ({ stated }) => stated >= from && (last ? stated <= to : stated < to),
    );
    const count = inside.length;
    if (count === 0) return [];
    const sum = (of: (pass: JudgedPass) => number): number =>
      inside.reduce((total, pass) => total + of(pass), 0);
    return [
      {
        ...{ from, to, count },
        stated: sum(({ stated }) => stated) / count,
        touched: sum(({ touched }) => (touched ? 1 : 0)) / count,
        doubt: Math.sqrt(sum(({ stated }) => stated * (1 - stated))) / count,
      },
    ];
  });
}

/** The bins as a table in Markdown. */
export function reliabilityTable(what: string, passes: readonly JudgedPass[]): string {
  const lines = reliabilityOf(passes).map(({ from, to, count, stated, touched, doubt }) =>
    tableRow([
      `${percent(from)} to ${percent(to)} %`,
      String(count),
      `${(100 * stated).toFixed(1)} %`,
      `${(100 * touched).toFixed(1)} % ± ${(100 * doubt).toFixed(1)}`,
    ]),
  );
  return [tableHead([what, 'passes', 'stated in the mean', 'touched']), ...lines].join('\n');
}

function percent(share: number): string {
  return (100 * share).toFixed(0);
}
