/**
 * How long was the whole landing, and its part in the air?
 *
 * In: an approach with touchdown and roll, its gates and threshold crossing. Out: the air distance
 * (to touchdown) and the landing distance (to standstill), both from the threshold, or from the
 * place of 50 ft where that lies further on.
 *
 * Source: definitions in docs/spec/measuring.md.
 */
import {
  cutBelow,
  isUndetermined,
  undetermined,
  type Estimate,
  type Measured,
  type Undetermined,
} from '../result.ts';
import type { Approach, Gate, ThresholdCrossing } from './flight-event.ts';
import { endsUnknown, type StripView } from './strip-view.ts';

/** What the start of the landing distance is found from. */
export interface LandingStart {
  readonly view: StripView;
  readonly crossing: ThresholdCrossing | Undetermined;
  readonly gates: readonly Gate[];
}

/** From the start to touchdown. */
export function airDistance(approach: Approach, start: LandingStart): Measured {
  const from = startAlong(start);
  if (isUndetermined(from)) return from;
  const { touchdown } = approach;
  if (isUndetermined(touchdown)) return touchdown;
  if (isUndetermined(touchdown.alongM)) return touchdown.alongM;
  return difference(touchdown.alongM, from);
}

/**
 * From the start to standstill; where the roll ended otherwise, to the standstill that its braking
 * implies. Never less than what was surely covered.
 */
export function landingDistance(approach: Approach, start: LandingStart): Measured {
  const from = startAlong(start);
  if (isUndetermined(from)) return from;
  const { rollEnd, touchdown } = approach;
  if (isUndetermined(touchdown)) return touchdown;
  if (!isUndetermined(rollEnd) && rollEnd.kind === 'stopped') {
    if (isUndetermined(rollEnd.alongM)) return rollEnd.alongM;
    return cutBelow(difference(rollEnd.alongM, from), 0);
  }
  const air = airDistance(approach, start);
  if (isUndetermined(air)) return air;
  const roll = approach.fullStopRollM;
  if (isUndetermined(roll)) return roll;
  // Touchdown is in both with opposite signs: the bands of the sum are those of the longer part.
  const value = air.value + roll.value;
  const whole = {
    value,
    low: value - Math.max(air.value - air.low, roll.value - roll.low),
    high: value + Math.max(air.high - air.value, roll.high - roll.value),
  };
  const reached = isUndetermined(rollEnd) ? null : rollEnd.alongM;
  const coveredM = reached && !isUndetermined(reached) ? difference(reached, from).low : 0;
  return cutBelow(whole, Math.max(coveredM, 0));
}

/** The place of 50 ft where it lies past the threshold, else the threshold; with the band of the later of both. */
function startAlong({ view, crossing, gates }: LandingStart): Measured {
  const none = endsUnknown(view);
  if (none) return none;
  const fifty = gates.find((gate) => gate.heightFt === 50);
  if (fifty) return isUndetermined(fifty.alongM) ? fifty.alongM : cutBelow(fifty.alongM, 0);
  if (isUndetermined(crossing)) return crossing;
  const { aboveM } = crossing;
  if (isUndetermined(aboveM))
    return undetermined('without heights the place of 50 ft is not known');
  if (aboveM.high < FIFTY_FEET_M) return { value: 0, low: 0, high: 0 };
  return undetermined('the place of 50 ft is not in the log');
}

const FIFTY_FEET_M = 15.24;

/** One place less another; the bands of both count. */
function difference(to: Estimate, from: Estimate): Estimate {
  const value = to.value - from.value;
  const below = Math.hypot(to.value - to.low, from.high - from.value);
  const above = Math.hypot(to.high - to.value, from.value - from.low);
  return { value, low: value - below, high: value + above };
}
