/**
 * What does the logbook remember of an analysed flight?
 *
 * In: a flight. Out: plain data (what JSON can hold) with every event's figures as measured, in SI,
 * enough for the list, the mown field and the own factor without measuring again. Text and units
 * come later, where it is shown.
 */
import type { Comparison } from '../calibration/comparison.ts';
import type { LandingPair } from '../calibration/landing-pair.ts';
import type { Flight } from '../debrief/debrief.ts';
import type { Approach, Outcome, TakeOff } from '../events/flight-event.ts';
import type { Lesson } from '../events/manner.ts';
import type { StripView } from '../events/strip-view.ts';
import { isUndetermined, undetermined, type Measured, type Undetermined } from '../result.ts';
import type { SurfaceState } from '../weather/conditions.ts';
import { flownPath, type FlownPath } from '../track/flown-path.ts';
import { landingPasses } from './pictures/landing-passes.ts';
import { viewOfEvent } from '../events/view-of-event.ts';
import type { Passes } from './pictures/passes.ts';

/** One take-off or approach. Lengths are metres, places alongM, times UTC seconds since 1970. */
export interface EventSummary {
  /** `approach-0`, `take-off-1`: its place in the flight, and its part of an address. */
  readonly key: string;
  readonly kind: 'approach' | 'take-off';
  /** Touchdown, lowest point, lift-off: the moment the event is known by. */
  readonly timeS: number;
  /** Null at a place nobody has kept as a strip. */
  readonly stripId: string | null;
  readonly stripName: string;
  readonly designator: string | null;
  /** LDA of an approach, TORA of a take-off; null where the strip is not known. */
  readonly lengthM: number | null;
  readonly outcome: Outcome | 'take-off' | 'rejected' | Undetermined;
  readonly passes: Passes | null;
  /** Lowest point of a pass. */
  readonly lowest: { readonly alongM: Measured; readonly aboveM: Measured } | null;
  /** Touchdown of an approach, lift-off of a take-off. */
  readonly placeM: Measured;
  /** How far right of the centreline the touchdown lay. */
  readonly crossM: Measured;
  readonly rollM: Measured;
  readonly leftM: Measured;
  /** LDA less the planned roll; null where nothing was planned. */
  readonly latestTouchdownM: number | null;
  /** The landing roll expected in the conditions of the day; null for none and for take-offs. */
  readonly expectedRollM: number | null;
  readonly roll: Comparison;
  readonly whole: Comparison;
  /** The landing as one meant to be short, or why it says nothing about the length that such ones need. */
  readonly short: LandingPair | Undetermined;
}

/** One flight. */
export interface FlightSummary {
  readonly startS: number;
  readonly endS: number;
  readonly usedFixes: number;
  readonly medianIntervalS: number;
  readonly aeroplane: { readonly id: string; readonly name: string } | Undetermined;
  readonly surface: SurfaceState | null;
  readonly events: readonly EventSummary[];
  /** What its touchdowns put by hand teach. */
  readonly lessons: readonly Lesson[];
  /** Where it flew, by which another log of the same flight is known. */
  readonly path: FlownPath;
}

/** The summary of one flight; events in the order of time. */
export function summariseFlight(flight: Flight): FlightSummary {
  const { motion, events, aeroplane, conditions } = flight;
  const found = [
    ...events.approaches.map((approach, k) => ofApproach(flight, approach, k)),
    ...events.takeOffs.map((takeOff, k) => ofTakeOff(flight, takeOff, k)),
  ];
  return {
    startS: motion.timeS[0],
    endS: motion.timeS[motion.length - 1],
    usedFixes: flight.source.usedFixes,
    medianIntervalS: flight.source.medianIntervalS,
    aeroplane: isUndetermined(aeroplane) ? aeroplane : { id: aeroplane.id, name: aeroplane.name },
    surface: isUndetermined(conditions) ? null : conditions.surface,
    events: found.sort((a, b) => a.timeS - b.timeS),
    lessons: flight.lessons,
    path: flownPath(motion),
  };
}

function ofApproach(flight: Flight, approach: Approach, k: number): EventSummary {
  const { touchdown, goAround, thresholdCrossing, groundRollM, stripLeftM } = approach;
  const view = viewOfEvent(flight.events, approach);
  const { prediction, roll, whole, short } = flight.compared.approaches[k];
  const landing = isUndetermined(prediction) ? prediction : prediction.landing;
  const latest = isUndetermined(landing) ? landing : landing.latestTouchdownAlongM;
  const expected = isUndetermined(landing) ? landing : landing.expectedRollM;
  const times = [
    ...(isUndetermined(touchdown) ? [] : [touchdown.timeS]),
    ...(goAround ? [goAround.lowestTimeS] : []),
    ...(isUndetermined(thresholdCrossing) ? [] : [thresholdCrossing.timeS]),
  ];
  return {
    key: `approach-${k}`,
    kind: 'approach',
    timeS: firstTime(times) ?? middleTime(flight, approach),
    ...placeOf(approach, view),
    lengthM: view ? view.direction.ldaM : null,
    outcome: approach.outcome,
    passes: view ? landingPasses(approach, view) : null,
    lowest: goAround ? { alongM: goAround.lowestAlongM, aboveM: goAround.lowestAboveM } : null,
    placeM: isUndetermined(touchdown) ? touchdown : touchdown.alongM,
    crossM: isUndetermined(touchdown) ? touchdown : touchdown.crossM,
    rollM: groundRollM,
    leftM: stripLeftM,
    latestTouchdownM: isUndetermined(latest) ? null : latest,
    expectedRollM: isUndetermined(expected) ? null : expected,
    roll,
    whole,
    short,
  };
}

function ofTakeOff(flight: Flight, takeOff: TakeOff, k: number): EventSummary {
  const { liftOff, brakeRelease, groundRollM, stripLeftM } = takeOff;
  const view = viewOfEvent(flight.events, takeOff);
  const { roll, whole } = flight.compared.takeOffs[k];
  const times = [
    ...(isUndetermined(liftOff) ? [] : [liftOff.timeS]),
    ...(isUndetermined(brakeRelease) ? [] : [brakeRelease.timeS]),
  ];
  return {
    key: `take-off-${k}`,
    kind: 'take-off',
    timeS: firstTime(times) ?? flight.motion.timeS[takeOff.from],
    ...placeOf(takeOff, view),
    lengthM: view ? view.direction.toraM : null,
    outcome: takeOff.kind,
    passes: null,
    lowest: null,
    placeM: isUndetermined(liftOff) ? liftOff : liftOff.alongM,
    crossM: undetermined('a take-off'),
    rollM: groundRollM,
    leftM: stripLeftM,
    latestTouchdownM: null,
    expectedRollM: null,
    roll,
    whole,
    short: undetermined('a take-off'),
  };
}

function placeOf(
  { strip, direction }: Approach | TakeOff,
  view: StripView | null,
): Pick<EventSummary, 'stripId' | 'stripName' | 'designator'> {
  return {
    stripId: strip,
    stripName: view?.strip.name ?? strip ?? 'a place not kept yet',
    designator: direction,
  };
}

/** As the flight line knows a pass without any time of its own. */
function middleTime({ motion }: Flight, { from, to }: Approach): number {
  return (motion.timeS[from] + motion.timeS[to - 1]) / 2;
}

function firstTime(times: readonly Measured[]): number | null {
  const found = times.find((timeS) => !isUndetermined(timeS)) ?? undetermined('no time');
  return isUndetermined(found) ? null : found.value;
}
