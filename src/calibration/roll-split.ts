/**
 * Why was the roll longer or shorter than expected?
 *
 * In: the measured and the expected ground roll, the measured ground speed at touchdown and the one
 * that the expected roll rests on (wind taken off). Out: two shares whose logarithms add up exactly to
 * the logarithm of the ratio of rolls, and whose metres add up exactly to the difference of rolls.
 * Wind, slope and surface are in the expected roll as they were entered and have no share of their own.
 *
 * Source: v2 = 2 a s for even braking: ln(s/s0) = 2 ln(v/v0) + ln(a0/a). Metres by the logarithmic
 * mean, (s - s0) / ln(s/s0), which shares a difference in proportion to logarithms exactly.
 */
import { Z90, type Estimate } from '../result.ts';

/** What is split. Lengths in metres, speeds over the ground in m/s, all positive. */
export interface RollSplitInput {
  readonly measuredM: Estimate;
  readonly expectedM: number;
  readonly touchdownMps: Estimate;
  readonly referenceMps: number;
}

/** One share: `logShare` of the ratio's logarithm, `metres` of the difference with a 90 % band. */
export interface RollShare {
  readonly logShare: number;
  readonly metres: Estimate;
}

/** Both shares, and the even decelerations behind the second, m/s2. */
export interface RollSplit {
  readonly touchdownSpeed: RollShare;
  readonly braking: RollShare;
  readonly measuredBrakingMps2: number;
  readonly expectedBrakingMps2: number;
}

/**
 * Splits the ratio of rolls.
 *
 * The band of the braking share takes the errors of roll and speed as independent, which is wider
 * than the truth: a touchdown found too early is also found too fast.
 *
 * Fails: null where a value is not positive, so that it has no logarithm.
 */
export function splitRoll(input: RollSplitInput): RollSplit | null {
  const { measuredM, expectedM, touchdownMps, referenceMps } = input;
  const positive = [measuredM.value, expectedM, touchdownMps.value, referenceMps];
  if (positive.some((each) => !(each > 0))) return null;
  const ratioLog = Math.log(measuredM.value / expectedM);
  const speedLog = 2 * Math.log(touchdownMps.value / referenceMps);
  const metresPerLog = logarithmicMean(measuredM.value, expectedM);
  const speedSd = (2 * (touchdownMps.high - touchdownMps.low)) / (2 * Z90) / touchdownMps.value;
  const rollSd = (measuredM.high - measuredM.low) / (2 * Z90) / measuredM.value;
  const share = (logShare: number, sd: number): RollShare => {
    const value = metresPerLog * logShare;
    const half = metresPerLog * Z90 * sd;
    return { logShare, metres: { value, low: value - half, high: value + half } };
  };
  return {
    touchdownSpeed: share(speedLog, speedSd),
    braking: share(ratioLog - speedLog, Math.hypot(speedSd, rollSd)),
    measuredBrakingMps2: touchdownMps.value ** 2 / (2 * measuredM.value),
    expectedBrakingMps2: referenceMps ** 2 / (2 * expectedM),
  };
}

/** Many splits in the middle: factors whose product is the middle ratio, geometric means all. */
export interface AverageSplit {
  readonly landings: number;
  readonly ratio: number;
  readonly touchdownSpeed: number;
  readonly braking: number;
}

/** The middle of many splits: mean logarithms add up as every single one does. Null of none. */
export function averageSplit(splits: readonly RollSplit[]): AverageSplit | null {
  const landings = splits.length;
  if (landings === 0) return null;
  const mean = (pick: 'touchdownSpeed' | 'braking'): number =>
    splits.reduce((sum, split) => sum + split[pick].logShare, 0) / landings;
  const [speed, braking] = [mean('touchdownSpeed'), mean('braking')];
  return {
    landings,
    ratio: Math.exp(speed + braking),
    touchdownSpeed: Math.exp(speed),
    braking: Math.exp(braking),
  };
}

/** (a - b) / ln(a / b); a itself where both are the same. */
function logarithmicMean(a: number, b: number): number {
  const log = Math.log(a / b);
  return Math.abs(log) < 1e-9 ? a : (a - b) / log;
}
