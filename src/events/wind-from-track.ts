/**
 * What wind does the track imply?
 *
 * In: motion. Out: direction and speed with bands, or why they cannot be had.
 *
 * The ground speed less the wind is the airspeed, and an airspeed changes smoothly, while in a turn
 * the ground speed follows the wind. The wind sought is the one that leaves the smoothest airspeed over
 * the whole flight (airspeed-walk.ts). A pilot who slows down from downwind to final looks like a headwind on
 * final: what the speed does on the straights beside each turn tells how it went on within, and that
 * pilots rather slow down in descending turns and speed up in climbing ones is known beforehand. What
 * stays open widens the band. The wind grows with height by a power law, so the climb-out and the
 * downwind leg may disagree without contradiction.
 *
 * It is the mean wind over the heights flown, a check on the entered wind, never used in its place.
 *
 * Source: geometry of the wind triangle; Gauss-Newton generalised least squares with Student weights
 * and weak priors, standard.
 */
import { invertSymmetric3 } from '../numeric/matrix3.ts';
import { undetermined, Z90, type Measured, type Undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { innovations } from './airspeed-walk.ts';
import { WIND } from './circuit-tuning.ts';
import { percentile, typicalSpeed } from './passes.ts';
import { turnedDeg, windSamples, type WindSample } from './wind-samples.ts';

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
  const samples = windSamples(motion);
  if (turnedDeg(samples) < WIND.leastTurnDeg) {
    return undetermined('the flight turns too little to tell the wind');
  }
  const speedMps = typicalSpeed(motion);
  if (!(speedMps > 0)) return undetermined('the log has no flight in it');
  const habit = usualGain(samples, speedMps);
  const blind = motion.smoothHeightM.every(Number.isNaN);
  const rateSd = blind ? WIND.blindRateSdMps2 : WIND.rateSdMps2;
  const rateSdMps2 = (rateSd * speedMps) / WIND.referenceMps;
  let solution: Solution = { ...NO_WIND, habit: WIND.habit };
  for (let pass = 0; pass < WIND.passes; pass++) {
    const last = solution;
    solution = solve(samples, habit, rateSdMps2, last);
    const moved = Math.hypot(solution.eastMps - last.eastMps, solution.northMps - last.northMps);
    if (moved < WIND.settledMps) break;
  }
  const { eastMps, northMps, varEast, varNorth, cov } = solution;
  if (!(Math.sqrt(Math.max(varEast, varNorth)) <= WIND.mostSdMps)) {
    return undetermined('the turns of the flight do not agree on a wind');
  }
  const flownS = samples[samples.length - 1].timeS - samples[0].timeS;
  const longer = Math.max(1, flownS / WIND.steadyS);
  return {
    ...{ eastMps, northMps },
    varEast: longer * varEast,
    varNorth: longer * varNorth,
    cov: longer * cov,
    meanShare: samples.reduce((sum, { share }) => sum + share, 0) / samples.length,
  };
}

interface Solution extends Omit<FittedWind, 'meanShare'> {
  /** How much the pilot's speed follows the usual habit, m/s2 at the reference speed. */
  readonly habit: number;
}

const NO_WIND = { eastMps: 0, northMps: 0, varEast: 0, varNorth: 0, cov: 0 };

/**
 * Speed gathered up to each moment by the usual habit of one unit: it comes in climbing turns and goes in
 * descending ones; m/s.
 */
function usualGain(samples: readonly WindSample[], speedMps: number): Float64Array {
  const gain = new Float64Array(samples.length);
  for (let i = 1; i < samples.length; i++) {
    const [from, to] = [samples[i - 1], samples[i]];
    const climb = (from.climbMps + to.climbMps) / 2;
    const turn = Math.abs(from.turnDegPs + to.turnDegPs) / 2;
    const way = Math.max(-1, Math.min(1, climb / WIND.habitClimbMps));
    const stepS = Math.min(to.timeS - from.timeS, WIND.longestStepS);
    const part = way * Math.min(1, turn / WIND.habitTurnDegPs) * stepS;
    gain[i] = gain[i - 1] + (part * speedMps) / WIND.referenceMps;
  }
  return gain;
}

/** One Gauss-Newton step from a wind, with the priors; moments that fit badly count less. */
function solve(
  samples: readonly WindSample[],
  habit: Float64Array,
  rateSdMps2: number,
  last: Solution,
): Solution {
  const [speeds, byEast, byNorth, gains] = innovations(
    samples,
    [...airspeeds(samples, last), habit],
    {
      rateSdMps2,
      gustSdMps: Math.max(
        WIND.leastGustMps,
        WIND.gustShare * Math.hypot(last.eastMps, last.northMps),
      ),
    },
  );
  const misfits = speeds.map((speed, i) => Math.abs(speed - last.habit * gains[i]));
  // Hands steadier than thought beforehand may be luck: a flight has four turns.
  const scatter = Math.max(1, MEDIAN_TO_SD * percentile(misfits, 0.5));
  const priors = [WIND.priorSdMps ** -2, WIND.priorSdMps ** -2, WIND.habitSd ** -2];
  const normal = Float64Array.of(priors[0], 0, 0, 0, priors[1], 0, 0, 0, priors[2]);
  const pull = Float64Array.of(0, 0, priors[2] * WIND.habit);
  const slopes = new Float64Array(3);
  for (let i = 0; i < speeds.length; i++) {
    const misfit = misfits[i] / scatter;
    const weight = (WIND.freedom + 1) / (WIND.freedom + misfit * misfit) / (scatter * scatter);
    slopes[0] = byEast[i];
    slopes[1] = byNorth[i];
    slopes[2] = -gains[i];
    const wanted = byEast[i] * last.eastMps + byNorth[i] * last.northMps - speeds[i];
    for (let r = 0; r < 3; r++) {
      pull[r] += weight * slopes[r] * wanted;
      for (let c = 0; c < 3; c++) normal[3 * r + c] += weight * slopes[r] * slopes[c];
    }
  }
  const inverse = new Float64Array(9);
  invertSymmetric3(normal, inverse);
  const found = [0, 3, 6].map(
    (r) => inverse[r] * pull[0] + inverse[r + 1] * pull[1] + inverse[r + 2] * pull[2],
  );
  return {
    ...{ eastMps: found[0], northMps: found[1], habit: found[2] },
    ...{ varEast: inverse[0], varNorth: inverse[4], cov: inverse[1] },
  };
}

/** Airspeeds under a wind, and their slopes in its components. */
function airspeeds(samples: readonly WindSample[], wind: Solution): Float64Array[] {
  const columns = [0, 1, 2].map(() => new Float64Array(samples.length));
  samples.forEach(({ eastMps, northMps, share }, i) => {
    const east = eastMps - share * wind.eastMps;
    const north = northMps - share * wind.northMps;
    const speed = Math.max(1, Math.hypot(east, north));
    columns[0][i] = speed;
    columns[1][i] = (-share * east) / speed;
    columns[2][i] = (-share * north) / speed;
  });
  return columns;
}

/** Standard deviation of a normal spread over its median absolute deviation. */
const MEDIAN_TO_SD = 1.4826;

/** Speed and direction from the components; no direction where the wind may as well be calm. */
export function describeWind(fitted: FittedWind): WindEstimate {
  const { varEast, varNorth, cov, meanShare } = fitted;
  const east = meanShare * fitted.eastMps;
  const north = meanShare * fitted.northMps;
  const speed = Math.hypot(east, north);
  const ux = speed > 0 ? east / speed : 1;
  const uy = speed > 0 ? north / speed : 0;
  const along = meanShare * Math.sqrt(ux * ux * varEast + uy * uy * varNorth + 2 * ux * uy * cov);
  const across = meanShare * Math.sqrt(uy * uy * varEast + ux * ux * varNorth - 2 * ux * uy * cov);
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
