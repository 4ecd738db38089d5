/**
 * What does the recorded height read at the level of a take-off run?
 *
 * In: motion, strip view, until when the wheels were surely on the ground. Out: the reading at the
 * run's own surface as a function of speed, with its error. Of satellite heights it is one level.
 * A pressure height reads lower or higher with the speed, because the pressure in the cabin is not
 * that of the still air outside; the run itself shows by how much.
 *
 * Source: Bayesian linear regression with a normal prior, standard; sizes in tuning.ts and gate-tuning.ts.
 */
import { invertSymmetric3 } from '../numeric/matrix3.ts';
import type { Motion } from '../track/motion.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import { SCREEN } from './gate-tuning.ts';
import type { StripView } from './strip-view.ts';
import { HEIGHT } from './tuning.ts';

/** The level of a run. Heights in metres over the strip's ground as recorded, speeds over the ground. */
export interface RunLevel {
  /** What the log reads with the wheels at the run's level, at a speed. */
  readonly readsM: (speedMps: number) => number;
  /** Standard deviation of that. */
  readonly sdM: (speedMps: number) => number;
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
  return motion.heightDatum === 'pressure'
    ? pressureLevel(motion, view, rows)
    : satelliteLevel(motion, view, rows);
}

function satelliteLevel(motion: Motion, view: StripView, rows: readonly number[]): RunLevel {
  const levelM = rows.reduce((sum, i) => sum + view.smoothAboveM[i], 0) / rows.length;
  return {
    readsM: () => levelM,
    sdM: () => motion.noise.verticalSdM / Math.sqrt(rows.length),
    driftSdM: SCREEN.driftSdM,
    lagS: 0,
    lagSdS: 0,
  };
}

/** Level, share of the dynamic height v2/2g and of v/g (the wind in it), fitted to the run. */
function pressureLevel(motion: Motion, view: StripView, rows: readonly number[]): RunLevel {
  const [, dynamicSd, windSd] = HEIGHT.pressurePriorSd;
  const precision = Float64Array.of(0, 0, 0, 0, 1 / dynamicSd ** 2, 0, 0, 0, 1 / windSd ** 2);
  const right = new Float64Array(3);
  const noiseVar = motion.noise.verticalSdM ** 2;
  for (const i of rows) {
    const row = pressureRow(view.forwardMps[i]);
    for (let r = 0; r < 3; r++) {
      right[r] += (row[r] * view.smoothAboveM[i]) / noiseVar;
      for (let c = 0; c < 3; c++) precision[3 * r + c] += (row[r] * row[c]) / noiseVar;
    }
  }
  const cov = new Float64Array(9);
  invertSymmetric3(precision, cov);
  const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const times = (v: ArrayLike<number>): number[] =>
    [0, 3, 6].map((r) => dot(cov.subarray(r, r + 3), v));
  const fitted = times(right);
  return {
    readsM: (speedMps) => dot(pressureRow(speedMps), fitted),
    sdM: (speedMps) => {
      const row = pressureRow(speedMps);
      return Math.sqrt(Math.max(dot(row, times(row)), 0));
    },
    driftSdM: Math.sqrt(HEIGHT.pressureDriftRate * SCREEN.levelS),
    lagS: SCREEN.pressureLagS,
    lagSdS: SCREEN.pressureLagSdS,
  };
}

function pressureRow(speedMps: number): readonly number[] {
  return [1, -(speedMps ** 2) / (2 * GRAVITY_MPS2), -speedMps / GRAVITY_MPS2];
}
