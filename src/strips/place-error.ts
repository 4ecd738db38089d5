/**
 * How far off is a strip as drawn, along one direction?
 *
 * A position error is the radius about an entered position within which the true one lies 95 times
 * in 100, as positions are commonly given. In: that radius. Out: the standard deviation along any
 * one direction, and back.
 *
 * Source: circular normal errors, radius of 95 % = sqrt(-2 ln 0.05) = 2.4477 standard deviations,
 * as in the National Standard for Spatial Data Accuracy (FGDC-STD-007.3, 1998; from memory). ICAO
 * Annexes 14 and 15 give the accuracy of measured positions in the same way, as a distance with a
 * confidence (read in a glossary; the 95 % from memory).
 */
import type { Strip } from './strip.ts';

/** Radius that holds 95 of 100 circular normal errors, in standard deviations of one direction. */
const CIRCLE_95 = Math.sqrt(-2 * Math.log(0.05));

/** Standard deviation of the strip's own place along one direction, metres. */
export function placeSdM({ positionErrorM }: Pick<Strip, 'positionErrorM'>): number {
  return positionErrorM / CIRCLE_95;
}

/** The position error of a strip whose place is known to a standard deviation along one direction, metres. */
export function positionErrorOfSdM(sdM: number): number {
  return sdM * CIRCLE_95;
}
