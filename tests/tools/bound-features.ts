/**
 * What the bound may look at: one landing as numbers about the touchdown that was found.
 *
 * In: a logged landing, what was found in it, the truth. Out: features (the log itself, second by
 * second, and the estimator's own posterior), that posterior over bins of time, and the truth. The
 * features hold nothing that the log does not: all that is unknown to the estimator stays unknown.
 */
import type { Approach } from '../../src/events/flight-event.ts';
import type { StripView } from '../../src/events/strip-view.ts';
import type { Motion } from '../../src/track/motion.ts';
import { thirdDifferenceSd } from '../../src/track/white-noise.ts';
import type { Scenario } from '../synthetic/scenarios.ts';
import type { TouchdownTruth } from '../synthetic/truth.ts';
import type { Logged } from './accuracy-logs.ts';

/** Seconds of log before and after the fix nearest to the touchdown found. */
const BEFORE_S = 20;
const AFTER_S = 24;
/** Bins of the touchdown's time about that fix, seconds. */
export const BIN_S = 0.5;
const BIN_REACH_S = 12;
export const BINS = (2 * BIN_REACH_S) / BIN_S;
/** Level of the heights: their mean over these seconds after the touchdown found. */
const LEVEL_FROM_S = 3;
const LEVEL_TO_S = 14;

/** One landing. Places are metres from the landing threshold at the edges of the bins. */
export interface BoundSample {
  readonly features: Float32Array;
  readonly guess: Float32Array;
  readonly edgePlaceM: Float32Array;
  /** Where the true touchdown lies, in bins from the first edge; and its place. */
  readonly trueBin: number;
  readonly trueAlongM: number;
  /** As the estimator found it. */
  readonly foundAlongM: number;
}

/** Names of the groups of features, and how many each has: for leaving one out. */
export const FEATURE_GROUPS: readonly (readonly [string, number])[] = [
  ['heights', BEFORE_S + AFTER_S + 1],
  ['pressure heights', BEFORE_S + AFTER_S + 1],
  ['speeds', BEFORE_S + AFTER_S + 1],
  ['slowing', BEFORE_S + AFTER_S + 1],
  ['posterior', BINS],
  ['single figures', 13],
];

/** Makes the sample of a full stop; null where its touchdown is undetermined. */
export function boundSample(
  { motion, events }: Logged,
  { designator }: Scenario,
  found: Approach,
  truth: TouchdownTruth,
): BoundSample | null {
  const { posterior, touchdown } = found;
  const view = events.views.find(
    ({ stripId, direction }) => stripId !== null && direction.designator === designator,
  );
  if (!posterior || !view || 'undetermined' in touchdown) return null;
  if ('undetermined' in touchdown.timeS || 'undetermined' in touchdown.alongM) return null;
  const anchorS = nearestTime(motion.timeS, touchdown.timeS.value);
  const guess = new Float32Array(BINS);
  posterior.timeS.forEach((timeS, c) => {
    guess[binOf(timeS - anchorS)] += posterior.weight[c];
  });
  const edgePlaceM = Float32Array.from({ length: BINS + 1 }, (_, b) =>
    sampled(motion.timeS, view.smoothAlongM, anchorS - BIN_REACH_S + b * BIN_S, 0),
  );
  return {
    features: featuresOf(motion, view, found, anchorS, guess),
    guess,
    edgePlaceM,
    trueBin: Math.min(BINS - 1e-3, Math.max(0, (truth.timeS - anchorS + BIN_REACH_S) / BIN_S)),
    trueAlongM: truth.alongM,
    foundAlongM: touchdown.alongM.value,
  };
}

function binOf(sinceS: number): number {
  return Math.min(BINS - 1, Math.max(0, Math.floor((sinceS + BIN_REACH_S) / BIN_S)));
}

function featuresOf(
  motion: Motion,
  view: StripView,
  found: Approach,
  anchorS: number,
  guess: Float32Array,
): Float32Array {
  const half = motion.medianIntervalS < 1 ? 0.5 : 0;
  const every = (column: Float64Array): number[] =>
    Array.from({ length: BEFORE_S + AFTER_S + 1 }, (_, k) =>
      sampled(motion.timeS, column, anchorS - BEFORE_S + k, half),
    );
  const over = (column: Float64Array): number[] =>
    levelled(every(column.map((heightM, i) => heightM - view.groundM[i])));
  const speeds = every(view.forwardMps);
  const near = speeds[BEFORE_S];
  const slowing = speeds.map((v, k) => (k === 0 ? 0 : v - speeds[k - 1]));
  const hasPressure = !Number.isNaN(motion.pressureHeightM[0]);
  const { touchdown, rollEnd } = found;
  if ('undetermined' in touchdown || 'undetermined' in touchdown.timeS)
    throw new Error('no touchdown');
  const { value, low, high } = touchdown.timeS;
  const endS =
    'undetermined' in rollEnd || 'undetermined' in rollEnd.timeS ? NaN : rollEnd.timeS.value;
  const noise = (column: Float64Array): number =>
    thirdDifferenceSd(motion.timeS, column, motion.medianIntervalS);
  const figures = [
    value - anchorS,
    low - value,
    high - value,
    Math.log(motion.medianIntervalS),
    hasPressure ? 1 : 0,
    Math.log(0.05 + noise(motion.heightM)),
    Math.log(0.05 + motion.noise.horizontalSdM),
    hasPressure ? Math.log(0.05 + noise(motion.pressureHeightM)) : 0,
    near,
    speeds[5] - near,
    Math.min(60, endS - anchorS),
    'undetermined' in rollEnd ? -1 : ['stopped', 'taxi', 'vacated'].indexOf(rollEnd.kind),
    slopeOf(view, anchorS, motion),
  ];
  const finite = (each: number): number => (Number.isFinite(each) ? each : 0);
  return Float32Array.from(
    [
      ...over(motion.heightM),
      ...(hasPressure ? over(motion.pressureHeightM) : speeds.map(() => 0)),
      ...speeds.map((v) => v - near),
      ...slowing,
      ...Array.from(guess, (share) => Math.log(share + 1e-3)),
      ...figures,
    ].map(finite),
  );
}

/** Heights from their own level after the touchdown; far above the ground a metre counts less. */
function levelled(heights: number[]): number[] {
  const rest = heights
    .slice(BEFORE_S + LEVEL_FROM_S, BEFORE_S + LEVEL_TO_S)
    .filter(Number.isFinite);
  const level = rest.reduce((sum, each) => sum + each, 0) / rest.length;
  return heights.map((height) => Math.asinh((height - level) / 2));
}

function slopeOf(view: StripView, atS: number, motion: Motion): number {
  const rise = (sinceS: number): number => sampled(motion.timeS, view.groundM, atS + sinceS, 0);
  return rise(4) - rise(0);
}

function nearestTime(timeS: Float64Array, atS: number): number {
  let nearest = timeS[0];
  for (const t of timeS) if (Math.abs(t - atS) < Math.abs(nearest - atS)) nearest = t;
  return nearest;
}

/** A column at a time: the mean of the fixes within `half` seconds, else a straight line between fixes; the ends beyond. */
function sampled(timeS: Float64Array, column: Float64Array, atS: number, half: number): number {
  let sum = 0;
  let count = 0;
  let from = 0;
  let to = timeS.length;
  while (from < to) {
    const middle = (from + to) >> 1;
    if (timeS[middle] < atS - half) from = middle + 1;
    else to = middle;
  }
  const after = from;
  if (half > 0) {
    for (let i = after; i < timeS.length && timeS[i] < atS + half; i++) {
      sum += column[i];
      count++;
    }
    if (count > 0) return sum / count;
  }
  if (after === 0) return column[0];
  if (after >= timeS.length) return column[timeS.length - 1];
  const share = (atS - timeS[after - 1]) / (timeS[after] - timeS[after - 1]);
  return column[after - 1] + share * (column[after] - column[after - 1]);
}
