/**
 * How late are the heights of a log, behind the positions and behind each other?
 *
 * In: the delay between pressure and satellite height as the whole log shows it, or null. Out: the
 * delays over which evidence from heights is averaged. A recorded satellite height may itself be late,
 * where the receiver smooths it more than the position; nothing but its prior tells how late, and the
 * pressure height where there is one: its sensor is late by some tenths of a second, never early.
 *
 * Source: Bayes' rule on a grid; priors from real recorders, in docs/decisions/0067.
 */
import { logAdd } from '../numeric/posterior.ts';
import type { HeightDelay } from '../track/height-lag.ts';
import type { Motion } from '../track/motion.ts';

/** One delay of the pressure heights behind the satellite heights, and how late both are then. */
export interface HeightLag {
  /** Pressure heights behind satellite heights, seconds. */
  readonly pressureBehindS: number;
  readonly weight: number;
  /** How late both are, seconds behind the positions, with weights of sum 1. */
  readonly late: readonly Late[];
}

/** A delay behind the positions, seconds, and its weight. */
export interface Late {
  readonly lateS: number;
  readonly weight: number;
}

/** Three even nodes this many standard deviations apart have the variance of a normal distribution. */
const NODE_SDS = Math.sqrt(1.5);

/** Delays of a satellite height behind the position of the same receiver: most have none. */
const SATELLITE: readonly Late[] = [
  { lateS: 0, weight: 0.85 },
  { lateS: 0.7, weight: 0.08 },
  { lateS: 1.4, weight: 0.045 },
  { lateS: 2.1, weight: 0.025 },
];
/** Delay of a pressure sensor in a cabin, seconds: middle and standard deviation. */
const PRESSURE_S = 0.5;
const PRESSURE_SD_S = 0.3;
/** The same as single delays, where no satellite height stands beside it. */
const PRESSURE_ALONE: readonly Late[] = [-NODE_SDS, 0, NODE_SDS].map((sds) => ({
  lateS: PRESSURE_S + sds * PRESSURE_SD_S,
  weight: 1 / 3,
}));

const NOT_LATE_EACH_OTHER = { pressureBehindS: 0, weight: 1 };
/** A delay known better than this counts as one number, seconds. */
const KNOWN_SD_S = 0.12;

/** The delays to average over, for a log with heights of the kinds given; the middle one first, for a rough look. Never fails. */
export function heightLags(
  delay: HeightDelay | null,
  has: { readonly satellite: boolean; readonly pressure: boolean },
): HeightLag[] {
  if (!has.pressure) return [{ ...NOT_LATE_EACH_OTHER, late: SATELLITE }];
  if (!has.satellite) return [{ ...NOT_LATE_EACH_OTHER, late: PRESSURE_ALONE }];
  const { meanS, sdS } = relativeDelay(delay);
  const nodes = sdS < KNOWN_SD_S ? [0] : [0, -NODE_SDS, NODE_SDS];
  return nodes.map((sds) => {
    const pressureBehindS = meanS + sds * sdS;
    const weights = SATELLITE.map(
      ({ lateS, weight }) => weight * density(pressureBehindS + lateS, PRESSURE_SD_S),
    );
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const late = SATELLITE.map(({ lateS }, k) => ({ lateS, weight: weights[k] / total }));
    return { pressureBehindS, weight: 1 / nodes.length, late };
  });
}

/**
 * How late a log's satellite heights are behind its positions, seconds: mean and standard deviation of
 * the same prior, with what a pressure height beside them shows. Without one most logs are in time, so
 * they are read as that, and what they may be late is doubt. Never fails.
 */
export function satelliteLateness(delay: HeightDelay | null): { meanS: number; sdS: number } {
  let [first, second] = [0, 0];
  for (const lag of heightLags(delay, { satellite: true, pressure: delay !== null })) {
    for (const { lateS, weight } of lag.late) {
      first += lag.weight * weight * lateS;
      second += lag.weight * weight * lateS * lateS;
    }
  }
  const meanS = delay === null ? 0 : first;
  return { meanS, sdS: Math.sqrt(second - 2 * meanS * first + meanS * meanS) };
}

/** How late the heights are that a flight is measured by, seconds: mean and standard deviation. Never fails. */
export function latenessOf({ heightDatum, noise }: Motion): { meanS: number; sdS: number } {
  return heightDatum === 'pressure'
    ? { meanS: PRESSURE_S, sdS: PRESSURE_SD_S }
    : satelliteLateness(noise.pressureDelay);
}

/** Mean and standard deviation of the pressure's delay behind the satellite's: what the log shows and what both may be. */
function relativeDelay(delay: HeightDelay | null): { meanS: number; sdS: number } {
  const seen = delay ?? { delayS: 0, sdS: Infinity };
  const precision = 1 / PRESSURE_SD_S ** 2 + 1 / seen.sdS ** 2;
  const parts = SATELLITE.map(({ lateS, weight }) => ({
    weight:
      weight * (delay ? density(seen.delayS + lateS, Math.hypot(PRESSURE_SD_S, seen.sdS)) : 1),
    meanS: ((PRESSURE_S - lateS) / PRESSURE_SD_S ** 2 + seen.delayS / seen.sdS ** 2) / precision,
  }));
  const total = parts.reduce((sum, { weight }) => sum + weight, 0);
  const meanS = parts.reduce((sum, part) => sum + part.weight * part.meanS, 0) / total;
  const between =
    parts.reduce((sum, part) => sum + part.weight * (part.meanS - meanS) ** 2, 0) / total;
  return { meanS, sdS: Math.sqrt(1 / precision + between) };
}

/** How likely a pressure sensor is late by `lateS`, under a standard deviation; floored, so that nothing is impossible. */
function density(lateS: number, sdS: number): number {
  return Math.exp(-(((lateS - PRESSURE_S) / sdS) ** 2) / 2) / sdS + 1e-9;
}

/**
 * Log evidence of heights that may be late, from that of heights that are not: the change in late
 * heights shows later by their delay, so the evidence of a candidate stands that much further on.
 *
 * @param onTime log evidence, rows of `width` values a candidate; at least two candidates, `stepS`
 * seconds apart, as `withLateCandidates` makes them.
 * @param count candidates of the result. Between candidates straight in the logarithm. Never fails.
 */
export function averageOverLate(
  onTime: Float64Array,
  width: number,
  count: number,
  stepS: number,
  late: readonly Late[],
): Float64Array {
  const out = new Float64Array(count * width).fill(-Infinity);
  for (const { lateS, weight } of late) {
    const whole = Math.floor(lateS / stepS);
    const share = lateS / stepS - whole;
    const logWeight = Math.log(weight);
    const from = whole * width;
    for (let k = 0; k < out.length; k++) {
      const here = onTime[from + k];
      const at =
        share > 0 && here > -Infinity ? here + share * (onTime[from + width + k] - here) : here;
      out[k] = logAdd(out[k], logWeight + at);
    }
  }
  return out;
}

/** The candidates (even steps, seconds, at least two) and as many beyond the last as averaging over delays needs. */
export function withLateCandidates(
  candidateS: Float64Array,
  lags: readonly HeightLag[],
): Float64Array {
  const stepS = candidateS[1] - candidateS[0];
  const latestS = Math.max(...lags.flatMap(({ late }) => late.map(({ lateS }) => lateS)));
  const length = candidateS.length + Math.ceil(latestS / stepS);
  return Float64Array.from({ length }, (_, c) => candidateS[0] + c * stepS);
}
