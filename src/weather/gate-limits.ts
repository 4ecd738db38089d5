/**
 * The pilot's own limits for a final, as entered with the conditions.
 *
 * Each is a pair, least and most; what is absent or null is not limited.
 */
import * as v from 'valibot';
import { expecting, numberBetween, orNull } from '../units/entered-field.ts';

/** A least and a most, both included. */
export type Limits = readonly [number, number];

/** The pilot's own limits, at every gate from `fromFt` down. */
export interface GateLimits {
  /** Height over the strip of the highest gate that is held against them, feet. */
  readonly fromFt: 500 | 300 | 200 | 100 | 50;
  readonly airspeedKt: Limits | null;
  readonly groundSpeedKt: Limits | null;
  readonly descentRateFpm: Limits | null;
  readonly pathDeg: Limits | null;
  /** Metres right of the centreline; left of it is negative. */
  readonly crossM: Limits | null;
}

function limits(low: number, high: number, unit: string) {
  const number = numberBetween(low, high, unit);
  return orNull(
    v.pipe(
      v.tuple([number, number], expecting(`a pair of numbers, least and most, in ${unit}`)),
      v.check(
        ([least, most]) => least <= most,
        'the least is above the most, expected the least first',
      ),
    ),
  );
}

/** Reads them; the ranges are wide enough for any light aeroplane (ours, no source). */
export const gateLimitsSchema = v.object(
  {
    fromFt: v.picklist([500, 300, 200, 100, 50], expecting('one of 500, 300, 200, 100, 50')),
    airspeedKt: limits(10, 200, 'kt'),
    groundSpeedKt: limits(0, 200, 'kt'),
    descentRateFpm: limits(-1000, 3000, 'ft/min'),
    pathDeg: limits(-10, 45, 'degrees'),
    crossM: limits(-2000, 2000, 'm'),
  },
  expecting('an object with fromFt and pairs of limits'),
);
