/**
 * On which local day of a place does a moment fall?
 *
 * In: UTC seconds, the longitude. Out: the ISO day of local mean solar time, whose midnight is never in
 * the middle of daylight. No record says a strip's time zone, and a pilot's zone is where the pilot
 * lives: what landings of one day share (wind, grass, mass) goes by the light at the strip.
 * Mean solar time: four minutes of time for a degree of longitude (the earth turns 360 degrees in 24 h).
 */

const SECONDS_PER_DEGREE = 240;

/**
 * The local solar day, `2025-06-08`.
 *
 * Units: UTC seconds since 1970; degrees, east positive. Fails: throws on what is not a number.
 * @example solarDay(Date.UTC(2025, 5, 8, 23, 30) / 1000, 175) // '2025-06-09'
 */
export function solarDay(timeS: number, lonDeg: number): string {
  const localS = timeS + SECONDS_PER_DEGREE * lonDeg;
  if (!Number.isFinite(localS)) throw new Error('a moment and a longitude must be numbers');
  return new Date(localS * 1000).toISOString().slice(0, 10);
}
