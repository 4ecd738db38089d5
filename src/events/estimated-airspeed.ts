/**
 * How fast was the aircraft through the air?
 *
 * In: motion, a moment, the wind and the air there. Out: the equivalent airspeed with its band: what
 * an airspeed indicator without errors of its own would have shown. Estimated, good to about 5 kt;
 * it says nothing about a margin over the stall.
 *
 * Source: wind triangle; equivalent airspeed = true airspeed x square root of the density ratio (any
 * flight mechanics text).
 */
import {
  densityRatio,
  pressureAltitudeAtM,
  STANDARD_PRESSURE_PA,
  standardTempC,
  STANDARD_LAPSE_KPM,
} from '../atmosphere/standard-atmosphere.ts';
import { normalEstimate, type Measured } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { MPS_PER_KNOT, PA_PER_HPA } from '../units/convert.ts';
import { valueAt } from './arrival-data.ts';
import { AIRSPEED } from './circuit-tuning.ts';
import type { FittedWind } from './wind-from-track.ts';
import { windShare } from './wind-share.ts';

/** The wind at the reference height: towards east and north, m/s, with its covariance. */
export interface WindAloft {
  /** Where it comes from: the turns of the flight, what was entered, or both weighed by their errors. */
  readonly from: 'track' | 'entered' | 'both';
  readonly eastMps: number;
  readonly northMps: number;
  readonly varEast: number;
  readonly varNorth: number;
  readonly cov: number;
}

/** What is known of the air over a strip; null: not entered, or not known. */
export interface AirAtStrip {
  readonly tempC: number | null;
  readonly qnhHpa: number | null;
  readonly elevationMslM: number | null;
}

/** The wind that the track implies. */
export function windAloftFromTrack(fitted: FittedWind): WindAloft {
  const { eastMps, northMps, varEast, varNorth, cov } = fitted;
  return { from: 'track', eastMps, northMps, varEast, varNorth, cov };
}

/**
 * An entered wind, brought from where winds are measured to the reference height.
 *
 * @param fromTrueDeg null: variable or calm; the speed then only widens the band.
 */
export function windAloftEntered(fromTrueDeg: number | null, speedKt: number): WindAloft {
  const surfaceMps = speedKt * MPS_PER_KNOT;
  const share = windShare(AIRSPEED.windMeasuredAtM);
  const speed = surfaceMps / share;
  const rad = ((fromTrueDeg ?? 0) * Math.PI) / 180;
  const known = fromTrueDeg === null ? 0 : speed;
  const sd = Math.hypot(
    // Read where winds are measured; its error grows with height as the wind does.
    AIRSPEED.enteredSdMps / share,
    AIRSPEED.enteredShare * speed,
    fromTrueDeg === null ? speed : 0,
  );
  return {
    from: 'entered',
    eastMps: -known * Math.sin(rad),
    northMps: -known * Math.cos(rad),
    varEast: sd * sd,
    varNorth: sd * sd,
    cov: 0,
  };
}

/**
 * Two winds of one air, each counted by its covariance. Where they are further apart than nine in ten
 * such pairs, one of them is worse than it says and nobody knows which: both errors grow.
 */
export function weighWinds(track: WindAloft, entered: WindAloft): WindAloft {
  const east = track.eastMps - entered.eastMps;
  const north = track.northMps - entered.northMps;
  const apart = inverse(sum(track, entered));
  const misfit =
    east * east * apart.varEast + north * north * apart.varNorth + 2 * east * north * apart.cov;
  const a = inverse(track);
  const b = inverse(entered);
  const both = inverse(sum(a, b));
  const pullEast = sumOfPulls(a.varEast, a.cov, track) + sumOfPulls(b.varEast, b.cov, entered);
  const pullNorth = sumOfPulls(a.cov, a.varNorth, track) + sumOfPulls(b.cov, b.varNorth, entered);
  const wider = Math.max(1, misfit / CHI_SQUARE_2_90);
  return {
    from: 'both',
    eastMps: both.varEast * pullEast + both.cov * pullNorth,
    northMps: both.cov * pullEast + both.varNorth * pullNorth,
    varEast: wider * both.varEast,
    varNorth: wider * both.varNorth,
    cov: wider * both.cov,
  };
}

/** A symmetric 2 x 2 matrix. */
type Spread = Pick<WindAloft, 'varEast' | 'varNorth' | 'cov'>;

/** 90 % point of chi-square with two degrees of freedom: -2 ln 0.1. */
const CHI_SQUARE_2_90 = 4.605;

function sum(a: Spread, b: Spread): Spread {
  return {
    varEast: a.varEast + b.varEast,
    varNorth: a.varNorth + b.varNorth,
    cov: a.cov + b.cov,
  };
}

function inverse({ varEast, varNorth, cov }: Spread): Spread {
  const det = varEast * varNorth - cov * cov;
  return { varEast: varNorth / det, varNorth: varEast / det, cov: -cov / det };
}

function sumOfPulls(byEast: number, byNorth: number, wind: WindAloft): number {
  return byEast * wind.eastMps + byNorth * wind.northMps;
}

/** The airspeed at a moment, `aboveM` over the strip; m/s. Never fails. */
export function estimatedAirspeed(
  motion: Motion,
  timeS: number,
  aboveM: number,
  wind: WindAloft,
  air: AirAtStrip,
): Measured {
  const at = (column: Float64Array): number => valueAt(motion.timeS, column, timeS);
  const share = windShare(aboveM);
  const east = at(motion.velocityEastMps) - share * wind.eastMps;
  const north = at(motion.velocityNorthMps) - share * wind.northMps;
  const level = Math.max(1, Math.hypot(east, north));
  const [unitEast, unitNorth] = [east / level, north / level];
  const windVar =
    unitEast * unitEast * wind.varEast +
    unitNorth * unitNorth * wind.varNorth +
    2 * unitEast * unitNorth * wind.cov;
  const gustSd = AIRSPEED.gustShare * Math.hypot(wind.eastMps, wind.northMps);
  const climb = at(motion.verticalSpeedMps);
  const trueMps = Math.hypot(level, Number.isNaN(climb) ? 0 : climb);
  const trueSd = Math.hypot(share * Math.sqrt(windVar), gustSd, at(motion.speedSdMps));
  const root = Math.sqrt(densityAt(air, aboveM));
  return normalEstimate(root * trueMps, Math.hypot(root * trueSd, trueMps * rootSd(air)));
}

function densityAt({ tempC, qnhHpa, elevationMslM }: AirAtStrip, aboveM: number): number {
  const heightM = (elevationMslM ?? 0) + aboveM;
  const qnhPa = qnhHpa === null ? STANDARD_PRESSURE_PA : qnhHpa * PA_PER_HPA;
  const pressureAltitudeM = pressureAltitudeAtM(heightM, qnhPa);
  const temp =
    tempC === null ? standardTempC(pressureAltitudeM) : tempC - STANDARD_LAPSE_KPM * aboveM;
  return densityRatio(pressureAltitudeM, temp);
}

/** Standard deviation of the square root of the density ratio from what nobody entered. */
function rootSd({ tempC, qnhHpa, elevationMslM }: AirAtStrip): number {
  return Math.hypot(
    tempC === null ? AIRSPEED.unknownTempSd : 0,
    qnhHpa === null ? AIRSPEED.unknownQnhSd : 0,
    elevationMslM === null ? AIRSPEED.unknownElevationSd : 0,
  );
}
