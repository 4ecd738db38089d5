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
import { AIRSPEED, WIND } from './circuit-tuning.ts';
import { windShare, type FittedWind } from './wind-from-track.ts';

/** The wind at the reference height: towards east and north, m/s, with its covariance. */
export interface WindAloft {
  /** Where it comes from: the turns of the flight, or what was entered. */
  readonly from: 'track' | 'entered';
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

/** The wind that the track implies, with the errors that simulated circuits ask for. */
export function windAloftFromTrack(fitted: FittedWind): WindAloft {
  const widen = WIND.widenSpeed * WIND.widenSpeed;
  return {
    from: 'track',
    eastMps: fitted.eastMps,
    northMps: fitted.northMps,
    varEast: widen * fitted.varEast,
    varNorth: widen * fitted.varNorth,
    cov: widen * fitted.cov,
  };
}

/**
 * An entered wind, brought from where winds are measured to the reference height.
 *
 * @param fromTrueDeg null: variable or calm; the speed then only widens the band.
 */
export function windAloftEntered(fromTrueDeg: number | null, speedKt: number): WindAloft {
  const surfaceMps = speedKt * MPS_PER_KNOT;
  const speed = surfaceMps / windShare(AIRSPEED.windMeasuredAtM);
  const rad = ((fromTrueDeg ?? 0) * Math.PI) / 180;
  const known = fromTrueDeg === null ? 0 : speed;
  const sd = Math.hypot(
    AIRSPEED.enteredSdMps,
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
