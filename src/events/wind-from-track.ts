/**
 * What wind does the track imply?
 *
 * In: motion. Out: direction and speed with bands, or why they cannot be had.
 *
 * Between two moments a few seconds apart the airspeed hardly changes, while in a turn the ground
 * speed does: |v1 - w| = |v2 - w| gives 2 w (v2 - v1) = |v2|2 - |v1|2, linear in the wind w. Steps
 * that do not turn tell how much the airspeed scatters; those that turn tell the wind. It is the mean
 * wind at the heights flown, a check on the entered wind, never used in its place.
 *
 * Source: geometry of the wind triangle; weighted least squares with a weak prior, standard.
 */
import { undetermined, Z90, type Measured, type Undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter, valueAt } from './arrival-data.ts';
import { WIND } from './circuit-tuning.ts';
import { percentile, typicalSpeed } from './passes.ts';

/** Mean wind over the heights flown. */
export interface WindEstimate {
  /** Where it blows from, degrees true. */
  readonly fromDeg: Measured;
  readonly speedMps: Measured;
}

/** Estimates the wind of one flight. */
export function estimateWind(motion: Motion): WindEstimate | Undetermined {
  const steps = stepsInFlight(motion);
  let turnedDeg = 0;
  for (const step of steps) turnedDeg += Math.abs(step.turnDeg);
  if (turnedDeg < WIND.leastTurnDeg) {
    return undetermined('the flight turns too little to tell the wind');
  }
  const scatter = Math.max(WIND.leastScatterMps, airspeedScatter(steps));
  let solution = solve(steps, scatter, { east: 0, north: 0 }, false);
  for (let pass = 0; pass < 4; pass++) solution = solve(steps, scatter, solution, true);
  return describe(solution);
}

interface Step {
  readonly eastMps: number;
  readonly northMps: number;
  /** Change of the ground velocity over the step. */
  readonly gainEast: number;
  readonly gainNorth: number;
  /** Change of the square of the ground speed. */
  readonly gainSquare: number;
  readonly turnDeg: number;
  readonly speedGain: number;
}

/** Steps of some seconds at flying speed, without holes. */
function stepsInFlight(motion: Motion): Step[] {
  const flying = 0.45 * typicalSpeed(motion);
  const steps: Step[] = [];
  const stepS = Math.max(WIND.stepS, 2 * motion.medianIntervalS);
  const at = (column: Float64Array, t: number): number => valueAt(motion.timeS, column, t);
  for (let t = motion.timeS[0]; t + stepS <= motion.timeS[motion.length - 1]; t += stepS) {
    const i = firstAtOrAfter(motion.timeS, t);
    const j = firstAtOrAfter(motion.timeS, t + stepS);
    if (j >= motion.length || motion.timeS[j] - motion.timeS[i] > 1.5 * stepS) continue;
    const east = at(motion.velocityEastMps, t);
    const north = at(motion.velocityNorthMps, t);
    const east2 = at(motion.velocityEastMps, t + stepS);
    const north2 = at(motion.velocityNorthMps, t + stepS);
    const speed = Math.hypot(east, north);
    const speed2 = Math.hypot(east2, north2);
    if (Math.min(speed, speed2) < flying) continue;
    steps.push({
      eastMps: (east + east2) / 2,
      northMps: (north + north2) / 2,
      gainEast: east2 - east,
      gainNorth: north2 - north,
      gainSquare: speed2 * speed2 - speed * speed,
      turnDeg:
        (Math.atan2(east * north2 - north * east2, east * east2 + north * north2) * 180) / Math.PI,
      speedGain: speed2 - speed,
    });
  }
  return steps;
}

/** Scatter of the airspeed over one step, m/s, from the steps flown straight. */
function airspeedScatter(steps: readonly Step[]): number {
  const gains = steps
    .filter((step) => Math.abs(step.turnDeg) < WIND.straightDeg)
    .map((step) => Math.abs(step.speedGain));
  if (gains.length < 8) return 2 * WIND.leastScatterMps;
  return 1.4826 * percentile(Float64Array.from(gains), 0.5);
}

interface Solution {
  readonly east: number;
  readonly north: number;
  readonly varEast: number;
  readonly varNorth: number;
  readonly cov: number;
}

/** Weighted least squares with the prior; steps that fit badly count less when `robust`. */
function solve(
  steps: readonly Step[],
  scatter: number,
  last: { readonly east: number; readonly north: number },
  robust: boolean,
): Solution {
  let ee = WIND.priorSdMps ** -2;
  let nn = ee;
  let en = 0;
  let pullEast = 0;
  let pullNorth = 0;
  for (const step of steps) {
    const airspeed = Math.hypot(step.eastMps - last.east, step.northMps - last.north);
    const sd = 2 * Math.max(airspeed, 1) * scatter;
    const x = 2 * step.gainEast;
    const y = 2 * step.gainNorth;
    const misfit = (step.gainSquare - x * last.east - y * last.north) / sd;
    const weight = (robust ? 1 / (1 + (misfit / 2.5) ** 2) : 1) / (sd * sd);
    ee += weight * x * x;
    nn += weight * y * y;
    en += weight * x * y;
    pullEast += weight * x * step.gainSquare;
    pullNorth += weight * y * step.gainSquare;
  }
  const det = ee * nn - en * en;
  return {
    east: (nn * pullEast - en * pullNorth) / det,
    north: (ee * pullNorth - en * pullEast) / det,
    varEast: nn / det,
    varNorth: ee / det,
    cov: -en / det,
  };
}

/** Speed and direction from the components; no direction where the wind may as well be calm. */
function describe(solution: Solution): WindEstimate | Undetermined {
  const { east, north, varEast, varNorth, cov } = solution;
  const speed = Math.hypot(east, north);
  const ux = speed > 0 ? east / speed : 1;
  const uy = speed > 0 ? north / speed : 0;
  const widen = WIND.widen;
  const along = widen * Math.sqrt(ux * ux * varEast + uy * uy * varNorth + 2 * ux * uy * cov);
  const across = widen * Math.sqrt(uy * uy * varEast + ux * ux * varNorth - 2 * ux * uy * cov);
  if (Math.max(along, across) > 0.6 * WIND.priorSdMps) {
    return undetermined('the turns of the flight do not agree on a wind');
  }
  // A speed cannot be negative: where the band reaches zero its lower end is zero.
  const speedMps = {
    value: speed,
    low: Math.max(0, speed - Z90 * along),
    high: speed + Z90 * Math.hypot(along, speed < across ? across : 0),
  };
  const half = (Math.atan2(Z90 * across, speed) * 180) / Math.PI;
  const from = ((Math.atan2(-east, -north) * 180) / Math.PI + 360) % 360;
  const fromDeg =
    speed < Z90 * across
      ? undetermined('the wind is too light for a direction')
      : { value: from, low: from - half, high: from + half };
  return { fromDeg, speedMps };
}
