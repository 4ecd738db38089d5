/**
 * How thick is the air? Pressure altitude, density altitude and density ratio.
 *
 * Inputs: pressure in pascals, temperature in degrees Celsius, elevation in metres above mean sea
 * level. Outputs: geopotential metres and plain ratios. Valid in the troposphere (below 11 km).
 * Source: the ICAO standard atmosphere (Doc 7488; the same as the U.S. Standard Atmosphere 1976
 * below 11 km), constants from memory. The air is taken as dry.
 */

import { GRAVITY_MPS2, KELVIN_AT_0_C } from '../units/convert.ts';

/** Pressure at mean sea level in the standard atmosphere, Pa. */
export const STANDARD_PRESSURE_PA = 101325;
/** Temperature at mean sea level in the standard atmosphere, degrees Celsius. */
export const STANDARD_SEA_LEVEL_TEMP_C = 15;
/** Fall of temperature with geopotential height, K/m. */
export const STANDARD_LAPSE_KPM = 0.0065;

const GAS_CONSTANT_DRY_AIR = 287.05287;
const SEA_LEVEL_TEMP_K = STANDARD_SEA_LEVEL_TEMP_C + KELVIN_AT_0_C;
const PRESSURE_EXPONENT = GRAVITY_MPS2 / (GAS_CONSTANT_DRY_AIR * STANDARD_LAPSE_KPM);

/**
 * Temperature of the standard atmosphere at a pressure altitude.
 *
 * Units: geopotential metres in, degrees Celsius out. Fails: NaN in gives NaN out.
 * @example standardTempC(1000) // 8.5
 */
export function standardTempC(pressureAltitudeM: number): number {
  return STANDARD_SEA_LEVEL_TEMP_C - STANDARD_LAPSE_KPM * pressureAltitudeM;
}

/**
 * Pressure of the standard atmosphere at a pressure altitude.
 *
 * Units: geopotential metres in, pascals out. Fails: NaN above about 44 km, where the formula ends.
 */
export function standardPressurePa(pressureAltitudeM: number): number {
  const tempRatio = 1 - (STANDARD_LAPSE_KPM * pressureAltitudeM) / SEA_LEVEL_TEMP_K;
  return STANDARD_PRESSURE_PA * Math.pow(tempRatio, PRESSURE_EXPONENT);
}

/**
 * The pressure altitude at which the standard atmosphere has a pressure.
 *
 * Units: pascals in, geopotential metres out. Fails: NaN for a negative pressure.
 */
export function pressureAltitudeM(pressurePa: number): number {
  const pressureRatio = pressurePa / STANDARD_PRESSURE_PA;
  return (SEA_LEVEL_TEMP_K / STANDARD_LAPSE_KPM) * (1 - pressureRatio ** (1 / PRESSURE_EXPONENT));
}

/**
 * The pressure altitude of a place of known elevation on a day of known QNH.
 *
 * An altimeter set to QNH reads the elevation on the ground, and turning its scale from QNH to
 * 1013.25 hPa adds the pressure altitude of the QNH itself.
 * Units: metres above mean sea level and pascals in, geopotential metres out.
 * Source: the definition of QNH (ICAO Doc 8168, from memory).
 */
export function pressureAltitudeAtM(elevationMslM: number, qnhPa: number): number {
  return elevationMslM + pressureAltitudeM(qnhPa);
}

/**
 * Density of dry air as a share of the standard sea-level density (the sigma of the tables).
 *
 * Units: pressure altitude in metres, temperature in degrees Celsius; a plain ratio out.
 * Fails: NaN in gives NaN out. Source: the gas law.
 */
export function densityRatio(pressureAltitude: number, tempC: number): number {
  const pressureRatio = standardPressurePa(pressureAltitude) / STANDARD_PRESSURE_PA;
  return (pressureRatio * SEA_LEVEL_TEMP_K) / (tempC + KELVIN_AT_0_C);
}

/**
 * The height in the standard atmosphere at which the air is as thin as here.
 *
 * Units: pressure altitude in metres, temperature in degrees Celsius; geopotential metres out.
 * Fails: NaN in gives NaN out. The air is taken as dry; damp air is thinner by under 1 %.
 */
export function densityAltitudeM(pressureAltitude: number, tempC: number): number {
  const sigma = densityRatio(pressureAltitude, tempC);
  return (SEA_LEVEL_TEMP_K / STANDARD_LAPSE_KPM) * (1 - sigma ** (1 / (PRESSURE_EXPONENT - 1)));
}
