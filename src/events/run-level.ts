/**
 * What does the recorded height read at the level of a take-off run?
 *
 * In: motion, strip view, until when the wheels were surely on the ground. Out: the reading at the
 * run's own surface as a function of speed and place, with its error. Of satellite heights it is one
 * level. A pressure height reads lower or higher with the speed, because the pressure in the cabin is
 * not that of the still air outside; the run itself shows by how much. Where nobody entered the
 * strip's elevations it may slope (GT7): the run shows it as far as the heights do not drift as much.
 *
 * Source: Bayesian linear regression with a normal prior, standard; sizes in tuning.ts and gate-tuning.ts.
 */
import { backSolveInPlace, choleskyInPlace, forwardSolve } from '../numeric/cholesky.ts';
import type { Motion } from '../track/motion.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import { SCREEN } from './gate-tuning.ts';
import { hasElevation } from './ground-tie.ts';
import { latenessOf } from './height-lags.ts';
import { slopeSpan, type StripView } from './strip-view.ts';
import { HEIGHT } from './tuning.ts';

/** The level of a run. Heights in metres over the strip's ground as recorded, speeds over the ground. */
export interface RunLevel {
  /** What the log reads with the wheels at the surface, at a speed, so far along. */
  readonly readsM: (speedMps: number, alongM: number) => number;
  /** Standard deviation of that. */
  readonly sdM: (speedMps: number, alongM: number) => number;
  /** Drift of the recorded height from the run to 50 ft, one sd. */
  readonly driftSdM: number;
  /** How late the recorded heights are, and its sd, seconds. */
  readonly lagS: number;
  readonly lagSdS: number;
}

/** The level of the run's last seconds before `untilS`; null where fewer than two heights are in them. */
export function runLevel(motion: Motion, view: StripView, untilS: number): RunLevel | null {
  const to = firstAtOrAfter(motion.timeS, untilS);
  const from = firstAtOrAfter(motion.timeS, untilS - SCREEN.levelS);
  const rows: number[] = [];
  for (let i = from; i < to; i++) if (!Number.isNaN(view.smoothAboveM[i])) rows.push(i);
  if (rows.length < 2) return null;
  const isPressure = motion.heightDatum === 'pressure';
  const driftSdM = isPressure
    ? Math.sqrt(SCREEN.pressureDriftRate * SCREEN.levelS)
    : SCREEN.driftSdM;
  const late = latenessOf(motion);
  const tilted = !hasElevation(view.strip);
  const last = rows[rows.length - 1];
  const [lastS, lastM] = [motion.timeS[last], view.smoothAlongM[last]];
  // Ground beyond the strip is level with its end, where elevations were entered too.
  const { toM } = slopeSpan(view);
  const aheadM = (alongM: number): number => Math.min(alongM, toM) - lastM;
  const terms = (speedMps: number, alongM: number, timeS: number): number[] => [
    1,
    ...(isPressure ? [-(speedMps ** 2) / (2 * GRAVITY_MPS2), -speedMps / GRAVITY_MPS2] : []),
    ...(tilted ? [aheadM(alongM), timeS - lastS] : []),
  ];
  const [, dynamicSd, windSd] = HEIGHT.pressurePriorSd;
  const priorSd = [
    Infinity,
    ...(isPressure ? [dynamicSd, windSd] : []),
    ...(tilted ? [HEIGHT.slopeSd, driftSdM / SCREEN.levelS] : []),
  ];
  const fit = fitNormal(
    rows.map((i) => terms(view.forwardMps[i], view.smoothAlongM[i], motion.timeS[i])),
    rows.map((i) => view.smoothAboveM[i]),
    motion.noise.verticalSdM,
    priorSd,
  );
  return {
    readsM: (speedMps, alongM) => fit.valueAt(terms(speedMps, alongM, lastS)),
    sdM: (speedMps, alongM) => fit.sdAt(terms(speedMps, alongM, lastS)),
    driftSdM,
    lagS: late.meanS,
    lagSdS: late.sdS,
  };
}

/** A fitted sum of terms and its error, at any values of the terms. */
interface NormalFit {
  readonly valueAt: (terms: readonly number[]) => number;
  readonly sdAt: (terms: readonly number[]) => number;
}

/** Coefficients with a prior about zero each; an infinite `priorSd` is none. */
function fitNormal(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  noiseSd: number,
  priorSd: readonly number[],
): NormalFit {
  const n = priorSd.length;
  const factor = new Float64Array(n * n);
  const fitted = new Float64Array(n);
  priorSd.forEach((sd, r) => (factor[r * n + r] = 1 / sd ** 2));
  rows.forEach((row, i) => {
    for (let r = 0; r < n; r++) {
      fitted[r] += (row[r] * values[i]) / noiseSd ** 2;
      for (let c = 0; c <= r; c++) factor[r * n + c] += (row[r] * row[c]) / noiseSd ** 2;
    }
  });
  choleskyInPlace(factor, n);
  forwardSolve(factor, n, fitted, fitted);
  backSolveInPlace(factor, n, fitted);
  return {
    valueAt: (terms) => terms.reduce((sum, term, r) => sum + term * fitted[r], 0),
    sdAt: (terms) => {
      const solved = new Float64Array(n);
      forwardSolve(factor, n, Float64Array.from(terms), solved);
      return Math.hypot(...solved);
    },
  };
}
