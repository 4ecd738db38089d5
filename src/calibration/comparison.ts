/**
 * How does what was measured compare with what was expected, and does this landing count?
 *
 * Inputs: a measured distance with its band, the expected one, and what is known of the landing
 * without its ratio. Outputs: the ratio with its band, taken on the log scale, and the part the
 * landing plays in a calibration, with the reason.
 * The band of the ratio holds the error of the log alone; the error of the expected figure shows
 * as scatter between landings.
 */

import type { Figure } from '../performance/prediction.ts';
import {
  isUndetermined,
  undetermined,
  Z90,
  type Estimate,
  type Measured,
  type Undetermined,
} from '../result.ts';
import type { Conditions } from '../weather/conditions.ts';

/** The four distances that are compared. */
export type ComparedQuantity =
  'landing-roll' | 'landing-from-50-ft' | 'take-off-roll' | 'take-off-to-50-ft';

/** The factor set behind an expected distance: what an own factor found with it may multiply, and must not undercut. */
export interface UsedFactorSet {
  readonly id: string;
  readonly name: string;
  /** True for a set of the pilot's own, which nobody published. */
  readonly isOwn: boolean;
  /** Its safety factor on the whole distance, of landings or of take-offs as the quantity is. */
  readonly safetyFactor: number;
}

/** The part a landing plays: its value counts, it only bounds from above, or it is left out. */
export type Role = 'counts' | 'upper-bound' | 'left-out';

/** What is measured, expected and known. Lengths in metres. */
export interface ComparisonInput {
  readonly quantity: ComparedQuantity;
  readonly measuredM: Measured;
  readonly expectedM: Figure;
  /** What it was expected with; null: nothing was. */
  readonly factorSet: UsedFactorSet | null;
  /** The strip's local day, or another key that landings of one day share. */
  readonly dayKey: string;
  /** The pilot's mark, made without the ratio on screen; null: not marked. */
  readonly effort: Conditions['effort'];
  /** LDA less the stop position; undetermined where the strip is not known. */
  readonly stripLeftM: Measured;
  readonly ldaM: number | null;
  readonly slopeRatio: number;
}

/** One landing or take-off, compared. */
export interface Comparison {
  readonly quantity: ComparedQuantity;
  readonly dayKey: string;
  readonly ratio: Measured;
  /** Natural logarithm of the ratio, and the standard deviation of its measuring error. */
  readonly log: { readonly value: number; readonly sd: number } | Undetermined;
  readonly role: Role;
  readonly why: string;
  /** What it was expected with; null: nothing was, or by the default set. */
  readonly factorSet: UsedFactorSet | null;
}

/** Beyond this slope no published factor holds, and a landing tells of the slope more than of the pilot. */
export const STEEPEST_CALIBRATED_SLOPE = 0.05;

/**
 * Compares one measured distance with the expected one.
 *
 * Units: metres in; the ratio is plain. Fails: ratio undetermined, role `left-out`, where either
 * figure is missing or not positive.
 */
export function compare(input: ComparisonInput): Comparison {
  const { quantity, dayKey, factorSet } = input;
  const ratio = ratioOf(input.measuredM, input.expectedM);
  if (isUndetermined(ratio)) {
    const why = ratio.undetermined;
    return { quantity, dayKey, ratio, log: ratio, role: 'left-out', why, factorSet };
  }
  const log = {
    value: Math.log(ratio.value),
    sd: (Math.log(ratio.high) - Math.log(ratio.low)) / (2 * Z90),
  };
  return { quantity, dayKey, ratio, log, ...roleOf(input), factorSet };
}

/** The ratio of a measured band to a plain figure, or why there is none. */
function ratioOf(measuredM: Measured, expectedM: Figure): Measured {
  if (isUndetermined(measuredM)) return measuredM;
  if (isUndetermined(expectedM)) return expectedM;
  if (!(measuredM.value > 0 && measuredM.high > 0)) {
    return undetermined('the measured distance is not positive');
  }
  if (!(expectedM > 0)) return undetermined('the expected distance is not positive');
  const { value, low, high } = positiveBand(measuredM);
  return { value: value / expectedM, low: low / expectedM, high: high / expectedM };
}

/** A band that reaches zero has no logarithm; its lower side is then as wide in proportion as the upper. */
function positiveBand(band: Estimate): Estimate {
  return band.low > 0 ? band : { ...band, low: band.value ** 2 / band.high };
}

/** Decided without looking at the ratio, so that no landing is dropped for being long. */
function roleOf(input: ComparisonInput): { readonly role: Role; readonly why: string } {
  if (Math.abs(input.slopeRatio) > STEEPEST_CALIBRATED_SLOPE) {
    return { role: 'left-out', why: 'the slope is beyond 5 %, where no published factor holds' };
  }
  if (input.quantity.startsWith('take-off')) return { role: 'counts', why: 'take-offs all count' };
  if (input.effort === 'coasted') {
    const why = 'coasted by the pilot’s mark: a full-effort landing would have been shorter';
    return { role: 'upper-bound', why };
  }
  if (input.effort === 'full') return { role: 'counts', why: 'full effort by the pilot’s mark' };
  if (isUndetermined(input.stripLeftM) || input.ldaM === null) {
    return { role: 'counts', why: 'strip left not known; every such landing counts' };
  }
  if (input.stripLeftM.value > input.ldaM / 2) {
    return { role: 'left-out', why: 'over half the strip was left: no need to brake' };
  }
  return { role: 'counts', why: 'half the strip or less was left' };
}
