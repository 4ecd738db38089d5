/**
 * What did the pilot enter about single landings: how hard each was braked, and where a touchdown or
 * an end of roll was put by hand? Lift-offs put by hand: hand-lift-offs.ts.
 *
 * In: the events as measured, the entries. Out: the events with the corrections in force, and for each
 * approach what was entered about it. A corrected place is exact; every length that hangs on it moves
 * by as much as the place was moved, and speed and distance from the centreline are those of the moment
 * at which the aircraft was there. What was measured stays beside it.
 */
import type { FlightEvents } from '../events/detect-events.ts';
import type { Approach, RollEnd, Touchdown, TouchdownPosterior } from '../events/flight-event.ts';
import { crossAt, forwardSpeedAt, noLongerThan } from '../events/landing.ts';
import { arrivalAt } from '../events/manner.ts';
import { viewOfEvent } from '../events/view-of-event.ts';
import type { ContactWord } from '../events/said-contact.ts';
import { knowsEnds, type StripView } from '../events/strip-view.ts';
import { SAME_LANDING_S } from './landing-limits.ts';
import { crossingAt } from '../numeric/crossing.ts';
import {
  cutBelow,
  isUndetermined,
  type Estimate,
  type Measured,
  type Undetermined,
} from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import type { Conditions } from '../weather/conditions.ts';

/** A place put by hand. */
export interface HandPlace {
  readonly timeS: number;
  /** Metres from the landing threshold. */
  readonly alongM: number;
}

/** What was entered about the landing whose touchdown was measured near `aroundS`. */
export interface LandingMarks {
  readonly aroundS: number;
  /** The pilot's mark where it may count: made without the ratio on screen. */
  readonly effort: Conditions['effort'];
  /** Without a time where only the place is known, as from wheel marks: then the track tells the time. */
  readonly touchdown: HandPlace | Omit<HandPlace, 'timeS'> | null;
  readonly rollEnd: HandPlace | null;
  /** Whether the wheels touched, where the pilot says so; absent: as measured. */
  readonly contact?: boolean;
  /** Of the take-off near `aroundS`; absent: as measured. */
  readonly liftOff?: HandPlace;
}

/** What the pilot says of the contact on single approaches: the measuring asks for it. */
export function contactWords(landings: readonly LandingMarks[]): ContactWord[] {
  return landings.flatMap(({ aroundS, contact: touched }) =>
    touched === undefined ? [] : [{ aroundS, touched }],
  );
}

/** Entries whose touchdown has its time. */
interface TimedMarks extends LandingMarks {
  readonly touchdown: HandPlace | null;
}

/** What was entered about one approach, and what was measured there. */
export interface ByHand {
  /** A touchdown that the aircraft did not pass on this landing is left out. */
  readonly marks: TimedMarks | null;
  /** The touchdown as measured; null where the wheels were not seen to touch. */
  readonly measuredTouchdown: HandPlace | null;
  /** Its place with the band, metres from the landing threshold. */
  readonly measuredAlongM: Measured;
  readonly measuredRollEnd: HandPlace | null;
}

/** For each approach, in order, what was entered about it; `timeS` are the times of the fixes. */
export function marksOf(
  events: FlightEvents,
  timeS: Float64Array,
  landings: readonly LandingMarks[],
): ByHand[] {
  return events.approaches.map((approach) => {
    const { touchdown, rollEnd } = approach;
    const measuredTouchdown = placeIn(touchdown);
    const marks = nearest(landings, entryMoment(approach) ?? NaN);
    // Where the wheels did not touch, as measured or as said, there is nothing to move.
    const put = isUndetermined(touchdown) ? undefined : marks?.touchdown;
    const timed: HandPlace | null = !put
      ? null
      : hasTime(put)
        ? put
        : timedPlace(put.alongM, events, approach, timeS);
    return {
      marks: marks ? { ...marks, touchdown: timed } : null,
      measuredTouchdown,
      measuredAlongM: isUndetermined(touchdown) ? touchdown : touchdown.alongM,
      measuredRollEnd: placeIn(rollEnd),
    };
  });
}

/**
 * What the entry about an approach hangs on, UTC seconds: the touchdown as measured, or the moment of a
 * word about the contact, which found its approach before there was a touchdown, or with none. Null: neither.
 */
export function entryMoment({ saidContact, touchdown }: Approach): number | null {
  return saidContact?.aroundS ?? placeIn(touchdown)?.timeS ?? null;
}

function hasTime(place: NonNullable<LandingMarks['touchdown']>): place is HandPlace {
  return 'timeS' in place;
}

/** The entry about the event at a time; of those within `SAME_LANDING_S` the nearest. */
export function nearest(landings: readonly LandingMarks[], atS: number): LandingMarks | undefined {
  return landings
    .filter(({ aroundS }) => Math.abs(aroundS - atS) <= SAME_LANDING_S)
    .toSorted((a, b) => Math.abs(a.aroundS - atS) - Math.abs(b.aroundS - atS))
    .at(0);
}

/**
 * A place that the aircraft passed between the beginning of its approach and the end of its roll, with
 * the time at which it first did. Null: it did not.
 */
function timedPlace(
  alongM: number,
  events: FlightEvents,
  approach: Approach,
  timeS: Float64Array,
): HandPlace | null {
  const along = viewOfEvent(events, approach)?.smoothAlongM;
  if (!along) return null;
  const endS = placeIn(approach.rollEnd)?.timeS ?? timeS[approach.to - 1];
  for (let i = approach.from + 1; i < timeS.length && timeS[i - 1] <= endS; i++) {
    const [before, here] = [along[i - 1], along[i]];
    if (!(before < here)) continue;
    const passedS = crossingAt(alongM, [timeS[i - 1], before], [timeS[i], here]);
    if (passedS !== null) return { timeS: passedS, alongM };
  }
  return null;
}

/** The events with the corrections in force. */
export function correctEvents(
  events: FlightEvents,
  motion: Motion,
  byHand: readonly ByHand[],
): FlightEvents {
  const isCorrected = byHand.some(({ marks }) => marks?.touchdown ?? marks?.rollEnd);
  if (!isCorrected) return events;
  const approaches = events.approaches.map((approach, k) =>
    correctApproach(approach, byHand[k], motion, viewOfEvent(events, approach)),
  );
  return { ...events, approaches };
}

function correctApproach(
  approach: Approach,
  { marks }: ByHand,
  motion: Motion,
  view: StripView | null,
): Approach {
  const { touchdown, rollEnd } = approach;
  if (!marks || !view || isUndetermined(touchdown) || isUndetermined(touchdown.alongM)) {
    return approach;
  }
  const now = marks.touchdown
    ? movedTouchdown(touchdown, marks.touchdown, motion, view)
    : touchdown;
  const touch = marks.touchdown ? marks.touchdown.alongM - touchdown.alongM.value : 0;
  const hasEnd = !isUndetermined(rollEnd) && !isUndetermined(rollEnd.alongM);
  const endM = hasEnd ? (marks.rollEnd ? exactly(marks.rollEnd.alongM) : rollEnd.alongM) : null;
  const end = marks.rollEnd && hasEnd ? marks.rollEnd.alongM - middle(rollEnd.alongM) : 0;
  // From an exact touchdown the roll is only as doubtful as its end.
  const groundRollM = notNegative(
    marks.touchdown && endM
      ? shifted(endM, -marks.touchdown.alongM)
      : shifted(approach.groundRollM, end - touch),
  );
  const isStopped = !isUndetermined(rollEnd) && rollEnd.kind === 'stopped';
  const fullStopRollM = isStopped
    ? groundRollM
    : notNegative(shifted(approach.fullStopRollM, end - touch));
  const faster = (middle(now.groundSpeedMps) / middle(touchdown.groundSpeedMps)) ** 2;
  return {
    ...approach,
    touchdown: now,
    rollEnd: marks.rollEnd && hasEnd ? moved(rollEnd, marks.rollEnd) : rollEnd,
    airDistanceM: marks.touchdown
      ? without(touchdown.alongM, shifted(approach.airDistanceM, touch))
      : approach.airDistanceM,
    landingDistanceM: shifted(approach.landingDistanceM, end),
    groundRollM,
    fullStopRollM,
    hardestBrakingRollM: noLongerThan(scaled(approach.hardestBrakingRollM, faster), fullStopRollM),
    stripLeftM: shifted(approach.stripLeftM, -end),
    posterior: marks.touchdown
      ? onePlace(now, marks.touchdown, approach, view)
      : approach.posterior,
  };
}

export function placeIn(
  part: { readonly timeS: Measured; readonly alongM: Measured } | Undetermined,
): HandPlace | null {
  if (isUndetermined(part) || isUndetermined(part.timeS) || isUndetermined(part.alongM)) {
    return null;
  }
  return { timeS: part.timeS.value, alongM: part.alongM.value };
}

/**
 * What the track says of the moment at which the aircraft was there. Of a place that is known nobody need
 * ask on which side of the threshold it lay.
 */
function movedTouchdown(
  touchdown: Touchdown,
  place: HandPlace,
  motion: Motion,
  view: StripView,
): Touchdown {
  return {
    ...moved(touchdown, place),
    crossM: crossAt(motion, view, place.timeS),
    groundSpeedMps: forwardSpeedAt(motion, view, place.timeS),
    shortProbability: knowsEnds(view) && place.alongM < 0 ? 1 : 0,
  };
}

function moved<T extends Touchdown | RollEnd>(part: T, { timeS, alongM }: HandPlace): T {
  return { ...part, timeS: exactly(timeS), alongM: exactly(alongM) };
}

export function exactly(value: number): Estimate {
  return { value, low: value, high: value };
}

function middle(measured: Measured): number {
  return isUndetermined(measured) ? NaN : measured.value;
}

function shifted(measured: Measured, byM: number): Measured {
  if (isUndetermined(measured) || byM === 0) return measured;
  const { value, low, high } = measured;
  return { value: value + byM, low: low + byM, high: high + byM };
}

/** A roll may be doubtful, but not shorter than nothing. */
export function notNegative(length: Measured): Measured {
  return isUndetermined(length) ? length : cutBelow(length, 0);
}

function scaled(measured: Measured, by: number): Measured {
  if (isUndetermined(measured) || !Number.isFinite(by)) return measured;
  const { value, low, high } = measured;
  return { value: value * by, low: low * by, high: high * by };
}

/** A length to a place that is exact now: without the doubt of that place, which was in its band. */
function without(place: Measured, length: Measured): Measured {
  if (isUndetermined(length) || isUndetermined(place)) return length;
  const left = (whole: number, part: number): number =>
    Math.sqrt(Math.max(0, whole ** 2 - part ** 2));
  return {
    value: length.value,
    low: length.value - left(length.value - length.low, place.value - place.low),
    high: length.value + left(length.high - length.value, place.high - place.value),
  };
}

/** The chance of the touchdown when there is no doubt left: one place, and how the aircraft arrived there. */
function onePlace(
  { groundSpeedMps }: Touchdown,
  { timeS, alongM }: HandPlace,
  { posterior }: Approach,
  view: StripView,
): TouchdownPosterior {
  const one = (value: number): Float64Array => Float64Array.of(value);
  return {
    timeS: one(timeS),
    weight: one(1),
    alongM: one(alongM),
    alongSdM: one(0),
    speedMps: one(middle(groundSpeedMps)),
    speedSdMps: one(0),
    arrival: posterior && arrivalAt(posterior, alongM, placeSdM(view.strip)),
  };
}
