/**
 * How far off are the smoothed speeds on a final?
 *
 * In: motion, strip view, the fixes of the pass. Out: standard deviations of the ground speed and
 * the vertical speed at any moment of it.
 *
 * The smoother's own covariance takes each fix's noise as its own and the aircraft as brisk as in a
 * turn. Here its two parts, noise and jerk, are weighed by what the log shows and what a final is
 * like, and the receiver's drift is added, which the smoother follows as if it were flown.
 *
 * Source: a smoother for white jerk of power q under white noise of density R passes slow changes and
 * stops fast ones as 1 / (1 + (w/w0)^6) with w0 = (q/R)^(1/6), standard; of a drift with the variance
 * rate r it leaves the variance r w0 / pi times the integral of 1 / (1 + x^6)^2 (5 pi / 18) in the
 * speed. Checked on flights with known speeds (docs/decisions/0066).
 */
import { JERK_POWER, VERTICAL_JERK_POWER, type Motion } from '../track/motion.ts';
import { thirdDifferenceSd } from '../track/white-noise.ts';
import { valueAt } from './arrival-data.ts';
import { FINAL, SCREEN } from './gate-tuning.ts';
import type { StripView } from './strip-view.ts';

/** Standard deviations of smoothed speeds at a time, m/s. */
export interface SpeedErrors {
  /** Of the ground speed; `jerkShare`: 1 where the aircraft changes its speed briskly, `FINAL.jerkShare` on a steady final. */
  readonly levelSdMps: (timeS: number, jerkShare: number) => number;
  /** Of the ground speed where the aircraft changes it briskly, and no less than the smoothed speed bends there. */
  readonly bentSdMps: (timeS: number) => number;
  /** Of the vertical speed on a steady final; NaN without heights. */
  readonly verticalSdMps: (timeS: number) => number;
}

/** How noisy a column of a log is, and how the smoother took it. */
interface ColumnErrors {
  readonly jerkPower: number;
  readonly noiseSdM: number;
  /** Density of the noise as the smoother took it, and as the log shows it, m2 s. */
  readonly takenM2S: number;
  readonly shownM2S: number;
  /** Variance rate of the drift, m2/s. */
  readonly driftM2Ps: number;
}

/** Errors of the smoothed speeds on one pass, fixes half open. */
export function speedErrors(
  motion: Motion,
  view: StripView,
  pass: { readonly from: number; readonly to: number },
): SpeedErrors {
  const { horizontalSdM, verticalSdM } = motion.noise;
  // From the cross-track positions, which no change of speed bends.
  const level = columnErrors(motion, view.crossM, pass, JERK_POWER, horizontalSdM, {
    driftM2Ps: FINAL.levelDriftMps * horizontalSdM,
  });
  const isPressure = motion.heightDatum === 'pressure';
  const upright = columnErrors(
    motion,
    motion.sourceHeightM,
    pass,
    VERTICAL_JERK_POWER,
    verticalSdM,
    {
      driftM2Ps: isPressure ? SCREEN.pressureDriftRate : FINAL.heightDriftMps * verticalSdM,
    },
  );
  const sdOf = (
    column: Float64Array,
    errors: ColumnErrors,
    timeS: number,
    jerkShare: number,
  ): number =>
    smoothedSdMps(
      valueAt(motion.timeS, column, timeS) ** 2,
      errors,
      motion.medianIntervalS,
      jerkShare,
    );
  const levelSdMps = (timeS: number, jerkShare: number): number =>
    sdOf(motion.speedSdMps, level, timeS, jerkShare);
  return {
    levelSdMps,
    bentSdMps: (timeS) =>
      Math.max(levelSdMps(timeS, 1), bendMps(motion, view, timeS, 1 / cutPerS(level))),
    verticalSdMps: (timeS) => sdOf(motion.verticalSpeedSdMps, upright, timeS, FINAL.jerkShare),
  };
}

/**
 * How far the smoothed ground speed bends within a time either side of a moment, m/s.
 *
 * Where the speed kinks, the throttle closed or the wheels on the ground, the smoother cuts the corner.
 * With the time in which it follows as reach, it is off by about as much as what is left of the corner
 * bends: a change of acceleration a under a filter 1 / (1 + (w/w0)^6) leaves a / (3 w0) in the speed, and
 * bends what comes out by a / w0 less twice that. Fixes too far apart for it show straight lines: no bend.
 */
function bendMps(motion: Motion, view: StripView, timeS: number, reachS: number): number {
  if (motion.medianIntervalS > FINAL.bendReaches * reachS) return 0;
  const at = (moment: number): number => valueAt(motion.timeS, view.forwardMps, moment);
  return Math.abs(at(timeS + reachS) - 2 * at(timeS) + at(timeS - reachS));
}

/**
 * How much a column differs from its value at a time where that time is off by a normal error: root
 * mean square, in the column's unit.
 */
export function changeWithin(
  motion: Motion,
  column: Float64Array,
  timeS: number,
  timeSdS: number,
): number {
  const now = valueAt(motion.timeS, column, timeS);
  let square = 0;
  for (const [sds, weight] of LATE_NODES) {
    const change = valueAt(motion.timeS, column, timeS + sds * timeSdS) - now;
    // Beside a hole in the heights nobody knows: what the other side says must do.
    if (!Number.isNaN(change)) square += weight * change ** 2;
  }
  return Math.sqrt(square);
}

/**
 * Where the mean over a normal error is taken, in standard deviations, and with what weight: five-point
 * Gauss-Hermite quadrature without its middle, where nothing changes (standard tables, from memory).
 */
const LATE_NODES: readonly (readonly [number, number])[] = [
  [-2.85697, 0.0112574],
  [-1.355626, 0.2220759],
  [1.355626, 0.2220759],
  [2.85697, 0.0112574],
];

function columnErrors(
  motion: Motion,
  column: Float64Array,
  { from, to }: { readonly from: number; readonly to: number },
  jerkPower: number,
  noiseSdM: number,
  { driftM2Ps }: Pick<ColumnErrors, 'driftM2Ps'>,
): ColumnErrors {
  const takenM2S = noiseSdM ** 2 * motion.medianIntervalS;
  const shownM2S = shownDensity(motion, column, from, to);
  return {
    ...{ jerkPower, noiseSdM, takenM2S, driftM2Ps },
    shownM2S: Number.isNaN(shownM2S) ? takenM2S : Math.max(takenM2S, shownM2S),
  };
}

/** Density of the noise in a fast log, from means of a second, m2 s; NaN where the log is slower or short. */
function shownDensity(motion: Motion, column: Float64Array, from: number, to: number): number {
  const perBlock = Math.round(FINAL.blockS / motion.medianIntervalS);
  if (perBlock < 2) return NaN;
  const blocks = Math.floor((to - from) / perBlock);
  const mean = (values: Float64Array, block: number): number => {
    const first = from + block * perBlock;
    let sum = 0;
    for (let i = first; i < first + perBlock; i++) sum += values[i];
    return sum / perBlock;
  };
  const means = (values: Float64Array): Float64Array =>
    Float64Array.from({ length: blocks }, (_, block) => mean(values, block));
  const blockS = perBlock * motion.medianIntervalS;
  return thirdDifferenceSd(means(motion.timeS), means(column), blockS) ** 2 * blockS;
}

/** Beyond this the smoother takes changes for noise, rad/s. */
function cutPerS({ jerkPower, takenM2S }: ColumnErrors): number {
  return (jerkPower / takenM2S) ** (1 / 6);
}

function smoothedSdMps(
  varianceMps2: number,
  errors: ColumnErrors,
  intervalS: number,
  jerkShare: number,
): number {
  const { jerkPower, noiseSdM, takenM2S, shownM2S, driftM2Ps } = errors;
  const ofJerk = jerkPart((jerkPower * intervalS ** 5) / noiseSdM ** 2);
  const ofNoise = 1 - ofJerk;
  return Math.sqrt(
    varianceMps2 * ((ofNoise * shownM2S) / takenM2S + ofJerk * jerkShare) +
      DRIFT_LEFT * driftM2Ps * cutPerS(errors),
  );
}

/** (1 / pi) times the integral of 1 / (1 + x^6)^2 from 0 on. */
const DRIFT_LEFT = 5 / 18;

/**
 * The share of the smoother's variance of the speed that jerk makes; the rest is noise. It is the
 * exponent with which the variance grows with the power of the jerk: a half in fast logs, all of it
 * where fixes are so far apart that the smoother can only join them. A fit, within 0.02.
 *
 * @param ratio jerk power times the interval to the fifth, over the noise of one fix squared.
 */
function jerkPart(ratio: number): number {
  return 0.5 + (0.5 * ratio) / (ratio + 550);
}
