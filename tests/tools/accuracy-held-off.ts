/**
 * What becomes of a touchdown that is held off long? The drawn population has hardly any over five
 * seconds, so that landings are drawn apart whose pilots arrive fast and let the wheels down late.
 *
 * In: seeds. Out: a table in Markdown, by how long the wheels were below 0.7 m before they touched.
 */
import { isUndetermined } from '../../src/result.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { logScenario, LOGS } from './accuracy-logs.ts';
import { quantileWithDoubt, Tally, tableHead, tableRow } from './accuracy-tally.ts';
import { heldOffS } from './accuracy-trials.ts';

/** Seconds held off: where the rows of the table begin and end. */
const EDGES_S = [1, 2, 3, 4, 6, 8, 12];
/** Fewer landings than this say nothing. */
const LEAST = 20;

/** So much faster than drawn, and so much slower when the wheels are let down. */
const FASTER = 1.06;
const SLOWER = 0.88;
const HOLD = { holdHeightM: 0.45, holdSinkMps: 0.04 };

/** One log of one landing: how long it was held off, how early it was found to touch, metres, and its band. */
interface Held {
  readonly log: number;
  readonly heldS: number;
  readonly trueM: number;
  readonly found: { readonly value: number; readonly low: number; readonly high: number };
}

/** Flies, logs and measures landings from a seed on, each in the logs given (places in LOGS). */
export function judgeHeldOff(firstSeed: number, count: number, logs: readonly number[]): Held[] {
  return Array.from({ length: count }, (_, k) => firstSeed + k).flatMap((seed) => {
    const scenario = flyDrawnApproach(seed, 'full-stop', {
      approach: ({ speedMps, touchdownMps }) => ({
        ...HOLD,
        speedMps: FASTER * speedMps,
        touchdownMps: SLOWER * touchdownMps,
      }),
    });
    const [{ touchdown }] = scenario.flown.truth.approaches;
    if (!touchdown) return [];
    const heldS = heldOffS(scenario, touchdown.timeS);
    return logs.flatMap((log) => {
      const { approaches } = logScenario(scenario, seed, LOGS[log]).events;
      const found = approaches.at(0)?.touchdown;
      if (!found || isUndetermined(found) || isUndetermined(found.alongM)) return [];
      return [{ log, heldS, trueM: touchdown.alongM, found: found.alongM }];
    });
  });
}

/** By log and length of the hold-off: how much too early at the median, error, coverage. */
export function heldOffTable(landings: readonly Held[], logs: readonly number[]): string {
  const heads = ['log', 'held off', 'landings', 'too early by', 'error', 'holds', 'width'];
  const lines = logs.flatMap((log) =>
    EDGES_S.slice(0, -1).flatMap((from, k) => {
      const to = EDGES_S[k + 1];
      const inside = landings.filter(
        (each) => each.log === log && each.heldS >= from && each.heldS < to,
      );
      if (inside.length < LEAST) return [];
      const tally = new Tally();
      for (const { found, trueM } of inside) tally.add(found, trueM);
      const early = quantileWithDoubt(
        inside.map(({ found, trueM }) => trueM - found.value),
        0.5,
      );
      const held = tally.coverage();
      return [
        tableRow([
          LOGS[log].name,
          `${from} to ${to} s`,
          String(tally.count),
          `${early.value.toFixed(0)} m`,
          `${tally.error(0.5).value.toFixed(1)} / ${tally.error(0.9).value.toFixed(1)} m`,
          `${(100 * held.value).toFixed(0)} % ± ${(100 * held.doubt).toFixed(0)}`,
          `${tally.width().toFixed(0)} m`,
        ]),
      ];
    }),
  );
  return [tableHead(heads), ...lines].join('\n');
}
