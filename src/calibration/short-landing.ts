/**
 * Was this landing meant to be short, so that it tells what length such landings need?
 *
 * In: the pilot's mark, the strip's LDA, the planned distance, and what was measured. Out: the landing
 * as a pair of touchdown and roll, or why it says nothing about that length. Decided without looking at
 * the touchdown or the roll, so that no landing is dropped for being long.
 */
import type { Figure } from '../performance/prediction.ts';
import { isUndetermined, undetermined, type Measured, type Undetermined } from '../result.ts';
import type { Conditions } from '../weather/conditions.ts';
import { STEEPEST_CALIBRATED_SLOPE, type Comparison } from './comparison.ts';
import { landingPair, type LandingPair } from './landing-pair.ts';

/** What is known of a landing. Lengths in metres. */
export interface ShortLandingInput {
  readonly dayKey: string;
  /** The pilot's mark, made without the ratio on screen; null: not marked. */
  readonly effort: Conditions['effort'];
  readonly ldaM: number | null;
  readonly plannedFrom50FtM: Figure;
  readonly slopeRatio: number;
  readonly touchdownAlongM: Measured;
  /** To a standstill. */
  readonly rollM: Measured;
  readonly roll: Comparison;
}

/** On a strip shorter than this many planned distances every landing is meant to be short (ours). */
export const SHORT_STRIP = 1.5;

/**
 * The landing as a pair, or why not.
 *
 * Units: metres. Fails: undetermined where it was not meant to be short, or touchdown or ratio is not
 * known. A coasted landing does not show which roll was needed and stands aside.
 */
export function shortLanding(input: ShortLandingInput): LandingPair | Undetermined {
  const { dayKey, effort, ldaM, plannedFrom50FtM, touchdownAlongM, rollM, roll } = input;
  if (isUndetermined(roll.log)) return roll.log;
  if (isUndetermined(touchdownAlongM)) return touchdownAlongM;
  if (isUndetermined(rollM)) return rollM;
  if (Math.abs(input.slopeRatio) > STEEPEST_CALIBRATED_SLOPE) {
    return undetermined('the slope is beyond 5 %, where no published factor holds');
  }
  if (effort === 'coasted') return undetermined('coasted: it does not show what was needed');
  if (effort !== 'full') {
    if (ldaM === null) return undetermined('neither marked as full effort nor at a known strip');
    if (isUndetermined(plannedFrom50FtM)) return plannedFrom50FtM;
    if (ldaM >= SHORT_STRIP * plannedFrom50FtM) {
      return undetermined(
        `not marked as full effort, and the LDA is ${SHORT_STRIP} times the planned distance or more`,
      );
    }
  }
  return landingPair(dayKey, touchdownAlongM, rollM.value, roll.log);
}
