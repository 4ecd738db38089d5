/**
 * Which lift-offs did the pilot put by hand, and what follows from them?
 *
 * In: the take-offs as measured, the entries. Out: for each take-off the lift-off put and the one
 * measured; the events with the corrections in force. A lift-off put by hand is exact: the run ends
 * there, what is left of the strip begins there, and speed and half-way check are held against the speed
 * that the track has there. The brake release and 50 ft stay as they were measured.
 */
import type { FlightEvents } from '../events/detect-events.ts';
import type { TakeOff } from '../events/flight-event.ts';
import { halfwayCheck } from '../events/halfway-check.ts';
import { forwardSpeedAt } from '../events/landing.ts';
import { endsUnknown, type StripView } from '../events/strip-view.ts';
import { isToldOnly } from '../events/told-touch.ts';
import { viewOfEvent } from '../events/view-of-event.ts';
import { isUndetermined, type Measured } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import {
  entryMoment,
  exactly,
  nearest,
  notNegative,
  placeIn,
  type HandPlace,
  type LandingMarks,
} from './hand-corrections.ts';

/** A lift-off put by hand, and what was measured there. */
export interface LiftOffByHand {
  /** Null: as measured. */
  readonly put: HandPlace | null;
  /** Null where no lift-off was placed: then none can be put either. */
  readonly measured: HandPlace | null;
  /** Its place with the band, metres from the landing threshold. */
  readonly measuredAlongM: Measured;
  /**
   * What its entry hangs on, UTC seconds: of a touch-and-go or stop-and-go what its landing's does, for it
   * is one entry; else, or where it was entered so, the lift-off as measured. NaN without one.
   */
  readonly aroundS: number;
}

/** For each take-off, in order, what was entered about its lift-off. */
export function liftOffsOf(
  events: FlightEvents,
  landings: readonly LandingMarks[],
): LiftOffByHand[] {
  const withPlace = landings.filter(({ liftOff }) => liftOff);
  return events.takeOffs.map((takeOff) => {
    const { liftOff } = takeOff;
    const measured = placeIn(liftOff);
    const ownS = measured?.timeS ?? NaN;
    const landingS = landingMoment(events, takeOff) ?? ownS;
    const ofLanding = measured && nearest(withPlace, landingS);
    const ofOwn = measured && nearest(withPlace, ownS);
    return {
      put: (ofLanding ?? ofOwn)?.liftOff ?? null,
      measured,
      measuredAlongM: isUndetermined(liftOff) ? liftOff : liftOff.alongM,
      aroundS: !ofLanding && ofOwn ? ownS : landingS,
    };
  });
}

/**
 * What the entry about the landing hangs on that went on to a take-off, rolling or after a stop; null: the
 * take-off began otherwise. It is the last before the take-off, in the same direction, with no other between.
 */
function landingMoment({ approaches, takeOffs }: FlightEvents, takeOff: TakeOff): number | null {
  const { from, strip, direction } = takeOff;
  const last = approaches.findLast((each) => each.from <= from);
  if (!last || last.strip !== strip || last.direction !== direction) return null;
  if (last.outcome !== 'touch-and-go' && last.outcome !== 'stop-and-go') return null;
  const isAnyBetween = takeOffs.some((each) => each.from >= last.from && each.from < from);
  return isAnyBetween ? null : entryMoment(last);
}

/** The events, with the landings as corrected, with the lift-offs put by hand. */
export function correctTakeOffs(
  events: FlightEvents,
  motion: Motion,
  byHand: readonly LiftOffByHand[],
): FlightEvents {
  const takeOffs = events.takeOffs.map((takeOff, k) => {
    const view = viewOfEvent(events, takeOff);
    const { put } = byHand[k];
    return put && view ? liftedOffAt(put, takeOff, motion, view) : liftedAfter(takeOff, events);
  });
  return { ...events, takeOffs };
}

/** After a touch that the log does not show and that was put by hand the lift-off was at no time before it. */
function liftedAfter(takeOff: TakeOff, { approaches }: FlightEvents): TakeOff {
  const { liftOff, from } = takeOff;
  const touch = approaches.find((each) => each.from <= from && from < each.to);
  if (!touch || !isToldOnly(touch) || isUndetermined(touch.touchdown)) return takeOff;
  const touchedS = touch.touchdown.timeS;
  if (isUndetermined(liftOff) || isUndetermined(liftOff.timeS) || isUndetermined(touchedS)) {
    return takeOff;
  }
  if (touchedS.low < touchedS.high) return takeOff;
  const { value, low, high } = liftOff.timeS;
  const after = (timeS: number): number => Math.max(timeS, touchedS.value);
  const timeS = { value: after(value), low: after(low), high: after(high) };
  return { ...takeOff, liftOff: { ...liftOff, timeS } };
}

function liftedOffAt(put: HandPlace, takeOff: TakeOff, motion: Motion, view: StripView): TakeOff {
  const { brakeRelease, from, to } = takeOff;
  const hasBegun = isUndetermined(brakeRelease);
  const timeS = exactly(put.timeS);
  const groundSpeedMps = forwardSpeedAt(motion, view, put.timeS);
  const range = { from, to, rollingSinceS: hasBegun ? motion.timeS[from] : null };
  return {
    ...takeOff,
    liftOff: { timeS, alongM: exactly(put.alongM), groundSpeedMps },
    // To an exact lift-off the run is only as doubtful as its beginning.
    groundRollM: hasBegun
      ? takeOff.groundRollM
      : notNegative(runFrom(brakeRelease.alongM, put.alongM)),
    stripLeftM:
      endsUnknown(view) ?? exactly(view.direction.toraM - view.direction.displacedM - put.alongM),
    halfway: halfwayCheck(motion, view, range, groundSpeedMps, timeS),
  };
}

/** A run that ends at a place which is exact and begins at one that is measured. */
function runFrom(begin: Measured, endM: number): Measured {
  if (isUndetermined(begin)) return begin;
  const { value, low, high } = begin;
  return { value: endM - value, low: endM - high, high: endM - low };
}
