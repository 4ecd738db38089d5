/**
 * What wind does the track imply?
 *
 * In: motion. Out: direction and speed with bands, or why they cannot be had.
 *
 * Between two moments a few seconds apart the airspeed hardly changes, while in a turn the ground
 * speed does: |v2 - w2| - |v1 - w1| is the change of airspeed, small, and tells the wind w. Steps
 * that do not turn tell how much the airspeed changes; those that turn tell the wind. Where the rate
 * of climb changes the pilot is changing speed too: such steps count less. The wind grows with
 * height by a power law, so the climb-out and the downwind leg may disagree without contradiction.
 *
 * It is the mean wind over the heights flown, a check on the entered wind, never used in its place.
 *
 * Source: geometry of the wind triangle; Gauss-Newton least squares with Student weights and a weak
 * prior, standard; power law of the wind over open country with an exponent near 1/7, as wind
 * engineering texts give it (from memory).
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

/** The wind as fitted: towards east and north at the reference height, m/s, with its covariance. */
export interface FittedWind {
  readonly eastMps: number;
  readonly northMps: number;
  readonly varEast: number;
  readonly varNorth: number;
  readonly cov: number;
  /** Mean over the heights flown of the wind there as a share of that at the reference height. */
  readonly meanShare: number;
}

/** Fits the wind of one flight; undetermined where it turns too little or disagrees with itself. */
export function fitWind(motion: Motion): FittedWind | Undetermined {
  const steps = stepsInFlight(motion);
  const turning = steps.filter(({ turnDeg }) => Math.abs(turnDeg) >= WIND.straightDeg);
  // Half of each step overlaps the next.
  const turnedDeg = turning.reduce((sum, { turnDeg }) => sum + Math.abs(turnDeg) / 2, 0);
  if (turnedDeg < WIND.leastTurnDeg) {
    return undetermined('the flight turns too little to tell the wind');
  }
  const straight = steps.filter(({ turnDeg }) => Math.abs(turnDeg) < WIND.straightDeg);
  let solution: Solution = { east: 0, north: 0, varEast: 0, varNorth: 0, cov: 0 };
  for (let pass = 0; pass < WIND.passes; pass++) {
    solution = solve(turning, scatterOf([...straight, ...turning], solution), solution);
  }
  const worst = Math.sqrt(Math.max(solution.varEast, solution.varNorth));
  if (!(WIND.widenSpeed * worst <= WIND.mostSdMps)) {
    return undetermined('the turns of the flight do not agree on a wind');
  }
  const { east, north, varEast, varNorth, cov } = solution;
  const flownS = (steps.length * stepSeconds(motion)) / 2;
  const longer = Math.max(1, flownS / WIND.steadyS);
  return {
    eastMps: east,
    northMps: north,
    varEast: longer * varEast,
    varNorth: longer * varNorth,
    cov: longer * cov,
    meanShare: steps.reduce((sum, step) => sum + step.shareBefore, 0) / steps.length,
  };
}

/** Wind at a height over the ground as a share of that at the reference height; 1 where no height is known. */
export function windShare(aboveM: number): number {
  if (Number.isNaN(aboveM)) return 1;
  return (Math.max(aboveM, WIND.lowestM) / WIND.referenceM) ** WIND.exponent;
}

interface Step {
  readonly eastBefore: number;
  readonly northBefore: number;
  readonly eastAfter: number;
  readonly northAfter: number;
  readonly shareBefore: number;
  readonly shareAfter: number;
  readonly turnDeg: number;
  /** Change of the rate of climb. */
  readonly climbChangeMps: number;
}

/** Steps of some seconds at flying speed, without holes; each begins in the middle of the one before. */
function stepsInFlight(motion: Motion): Step[] {
  const flying = 0.45 * typicalSpeed(motion);
  const steps: Step[] = [];
  const stepS = stepSeconds(motion);
  const at = (column: Float64Array, t: number): number => valueAt(motion.timeS, column, t);
  const groundM = lowestHeight(motion);
  for (let t = motion.timeS[0]; t + stepS <= motion.timeS[motion.length - 1]; t += stepS / 2) {
    const i = firstAtOrAfter(motion.timeS, t);
    const j = firstAtOrAfter(motion.timeS, t + stepS);
    if (j >= motion.length || motion.timeS[j] - motion.timeS[i] > 1.5 * stepS) continue;
    const eastBefore = at(motion.velocityEastMps, t);
    const northBefore = at(motion.velocityNorthMps, t);
    const eastAfter = at(motion.velocityEastMps, t + stepS);
    const northAfter = at(motion.velocityNorthMps, t + stepS);
    const slower = Math.min(Math.hypot(eastBefore, northBefore), Math.hypot(eastAfter, northAfter));
    if (slower < flying) continue;
    const cross = eastBefore * northAfter - northBefore * eastAfter;
    const dot = eastBefore * eastAfter + northBefore * northAfter;
    const climb = at(motion.verticalSpeedMps, t + stepS) - at(motion.verticalSpeedMps, t);
    steps.push({
      ...{ eastBefore, northBefore, eastAfter, northAfter },
      shareBefore: windShare(at(motion.smoothHeightM, t) - groundM),
      shareAfter: windShare(at(motion.smoothHeightM, t + stepS) - groundM),
      turnDeg: (Math.atan2(cross, dot) * 180) / Math.PI,
      climbChangeMps: Number.isNaN(climb) ? 0 : climb,
    });
  }
  return steps;
}

function stepSeconds({ medianIntervalS }: Motion): number {
  return Math.max(WIND.stepS, 2 * medianIntervalS);
}

/** Lowest recorded height of the flight, for the ground's; NaN without heights. */
function lowestHeight(motion: Motion): number {
  let lowest = Infinity;
  for (const height of motion.smoothHeightM) if (height < lowest) lowest = height;
  return lowest === Infinity ? NaN : lowest;
}

interface Solution {
  readonly east: number;
  readonly north: number;
  readonly varEast: number;
  readonly varNorth: number;
  readonly cov: number;
}

/** Change of airspeed over a step under a wind, and its slope in the wind's components. */
function airspeedChange(
  step: Step,
  { east, north }: { readonly east: number; readonly north: number },
): { readonly changeMps: number; readonly byEast: number; readonly byNorth: number } {
  const beforeEast = step.eastBefore - step.shareBefore * east;
  const beforeNorth = step.northBefore - step.shareBefore * north;
  const afterEast = step.eastAfter - step.shareAfter * east;
  const afterNorth = step.northAfter - step.shareAfter * north;
  const before = Math.max(1, Math.hypot(beforeEast, beforeNorth));
  const after = Math.max(1, Math.hypot(afterEast, afterNorth));
  return {
    changeMps: after - before,
    byEast: (step.shareBefore * beforeEast) / before - (step.shareAfter * afterEast) / after,
    byNorth: (step.shareBefore * beforeNorth) / before - (step.shareAfter * afterNorth) / after,
  };
}

/** Scatter of the airspeed over one step without a change of climb, m/s. */
function scatterOf(steps: readonly Step[], wind: Solution): number {
  const sizes = steps.map((step) =>
    Math.abs(airspeedChange(step, wind).changeMps / climbFactor(step)),
  );
  return Math.max(WIND.leastScatterMps, MEDIAN_TO_SD * percentile(Float64Array.from(sizes), 0.5));
}

/** Standard deviation of a normal spread over its median absolute deviation. */
const MEDIAN_TO_SD = 1.4826;

/** By how much a change of the rate of climb makes a step less certain. */
function climbFactor({ climbChangeMps }: Step): number {
  return Math.hypot(1, (WIND.speedPerClimb * climbChangeMps) / WIND.leastScatterMps);
}

/** One Gauss-Newton step from a wind, with the prior; steps that fit badly count less. */
function solve(steps: readonly Step[], scatter: number, last: Solution): Solution {
  let ee = WIND.priorSdMps ** -2;
  let nn = ee;
  let en = 0;
  let pullEast = 0;
  let pullNorth = 0;
  for (const step of steps) {
    const { changeMps, byEast, byNorth } = airspeedChange(step, last);
    const sd = Math.hypot(scatter, WIND.speedPerClimb * step.climbChangeMps);
    const misfit = changeMps / sd;
    const weight = (WIND.freedom + 1) / (WIND.freedom + misfit * misfit) / (sd * sd);
    const wanted = byEast * last.east + byNorth * last.north - changeMps;
    ee += weight * byEast * byEast;
    nn += weight * byNorth * byNorth;
    en += weight * byEast * byNorth;
    pullEast += weight * byEast * wanted;
    pullNorth += weight * byNorth * wanted;
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
export function describeWind(fitted: FittedWind): WindEstimate {
  const { varEast, varNorth, cov, meanShare } = fitted;
  const east = meanShare * fitted.eastMps;
  const north = meanShare * fitted.northMps;
  const speed = Math.hypot(east, north);
  const ux = speed > 0 ? east / speed : 1;
  const uy = speed > 0 ? north / speed : 0;
  const sdAlong = Math.sqrt(ux * ux * varEast + uy * uy * varNorth + 2 * ux * uy * cov);
  const sdAcross = Math.sqrt(uy * uy * varEast + ux * ux * varNorth - 2 * ux * uy * cov);
  const along = WIND.widenSpeed * meanShare * sdAlong;
  const across = WIND.widenDirection * meanShare * sdAcross;
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
