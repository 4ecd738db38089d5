/**
 * Exact factors between the units pilots use and SI.
 *
 * Source: the definitions of the international foot (0.3048 m, 1959), the international nautical
 * mile (1852 m, 1929), the avoirdupois pound (0.45359237 kg, 1959), and the conventional inch of
 * mercury (3386.389 Pa, 13.5951 g/cm3 at standard gravity), all from memory.
 */

/** Metres in a foot. */
export const METRES_PER_FOOT = 0.3048;
/** Metres a second in a knot. */
export const MPS_PER_KNOT = 1852 / 3600;
/** Metres a second in a kilometre an hour. */
export const MPS_PER_KMH = 1 / 3.6;
/** Metres a second in a statute mile an hour. */
export const MPS_PER_MPH = 1609.344 / 3600;
/** Kilograms in a pound. */
export const KG_PER_POUND = 0.45359237;
/** Pascals in a hectopascal. */
export const PA_PER_HPA = 100;
/** Pascals in a conventional inch of mercury. */
export const PA_PER_INHG = 3386.389;
/** Kelvin at 0 degrees Celsius. */
export const KELVIN_AT_0_C = 273.15;
/** Standard acceleration of free fall, m/s2. */
export const GRAVITY_MPS2 = 9.80665;
