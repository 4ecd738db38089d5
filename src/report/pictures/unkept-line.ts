/**
 * An event at a place nobody has kept: along which line is it drawn, and from where does that count?
 *
 * In: a flight and one of its events. Out: the flight as seen along the line that the rolls of this
 * log draw, its zero where the wheels touched (a landing), where the aircraft was lowest (a pass) or
 * where the run began (a take-off). There is no threshold, no end and no elevation.
 */
import type { Flight } from '../../debrief/debrief.ts';
import { valueAt } from '../../events/arrival-data.ts';
import type { Approach, TakeOff } from '../../events/flight-event.ts';
import { tiePlaceId, type Tie } from '../../events/ground-tie.ts';
import { viewOfEvent } from '../../events/view-of-event.ts';
import { viewsOf, type StripView } from '../../events/strip-view.ts';
import { isUndetermined, undetermined, type Estimate, type Undetermined } from '../../result.ts';
import { completeDirections } from '../../strips/declared-distances.ts';

/** An approach as drawn: places along `view`, heights by `ties`. */
export interface SeenApproach {
  readonly approach: Approach;
  readonly view: StripView;
  readonly ties: readonly Tie[];
  /** False at a place nobody has kept: places then count from the touchdown or the lowest point. */
  readonly isKept: boolean;
}

/** The line goes on at least so far from its zero: what has no length has no direction, metres. */
const LEAST_LINE_M = 100;

/** How an approach is seen: from its strip, or along its own line. Undetermined where neither can be had. */
export function seenApproach(flight: Flight, index: number): SeenApproach | Undetermined {
  const approach = flight.events.approaches[index];
  const { ties } = flight.events;
  const kept = viewOfEvent(flight.events, approach);
  if (kept) return { approach, view: kept, ties, isKept: true };
  const zeroS = zeroOf(flight, approach);
  if (isUndetermined(zeroS)) return zeroS;
  const place = unkeptView(flight.events, approach);
  if (!place) return undetermined('this log draws no line of a roll here');
  return {
    approach: onLine(approach),
    view: lineFrom(flight, place, zeroS),
    ties: ties.filter(({ placeId }) => placeId === tiePlaceId(place)),
    isKept: false,
  };
}

/** The line of a take-off at a place nobody has kept, from where its run began; null where that is not known. */
export function unkeptRun(flight: Flight, takeOff: TakeOff): StripView | null {
  const { brakeRelease } = takeOff;
  if (takeOff.strip !== null || isUndetermined(brakeRelease)) return null;
  if (isUndetermined(brakeRelease.timeS)) return null;
  const place = unkeptView(flight.events, takeOff);
  return place && lineFrom(flight, place, brakeRelease.timeS.value);
}

/** What the line is and where its zero lies, of an approach at a place nobody has kept. */
export function lineWords({ touchdown }: Approach): string {
  return isUndetermined(touchdown)
    ? 'of the rolls in this log, counted from the lowest point'
    : 'of the roll in this log, counted from the touchdown';
}

/** What is not known at a place nobody has kept, and what a landing or a pass there is drawn along. */
export function unkeptLandingWords(seen: SeenApproach | Undetermined): string {
  if (isUndetermined(seen)) return NOTHING_KNOWN;
  const { touchdown } = seen.approach;
  const line = isUndetermined(touchdown)
    ? 'rolls in this log: lengths count from where the aircraft was lowest'
    : 'roll in this log: lengths count from the touchdown';
  return `${NOTHING_KNOWN} The line is that of the ${line}, heights from the ground where the wheels rolled.`;
}

/** The same of a take-off, along its line or without one. */
export function unkeptRunWords(view: StripView | null): string {
  if (!view) return NOTHING_KNOWN;
  return `${NOTHING_KNOWN} The line is that of the run in this log: lengths count from brakes off.`;
}

const NOTHING_KNOWN = 'No threshold, no end and no slope are known here.';

/** The provisional place that an event's fixes ran along, as seen the way it ran; null where there is none. */
export function unkeptView(
  { views }: Pick<Flight['events'], 'views'>,
  { from, to }: Pick<Approach, 'from' | 'to'>,
): StripView | null {
  let best: { readonly view: StripView; readonly awayM: number } | null = null;
  for (const view of views) {
    if (view.stripId !== null) continue;
    let awayM = Infinity;
    let forward = 0;
    for (let i = from; i < to; i++) {
      awayM = Math.min(awayM, awayFrom(view, view.smoothAlongM[i], view.smoothCrossM[i]));
      forward += view.forwardMps[i];
    }
    if (forward > 0 && (best === null || awayM < best.awayM)) best = { view, awayM };
  }
  return best?.view ?? null;
}

/** How far a place lies from the line between its ends, metres. */
function awayFrom({ frame }: StripView, alongM: number, crossM: number): number {
  const outsideM = Math.max(frame.nearEndAlongM - alongM, alongM - frame.farEndAlongM, 0);
  return Math.hypot(outsideM, crossM);
}

function zeroOf({ motion }: Flight, approach: Approach): number | Undetermined {
  const { touchdown, goAround } = approach;
  if (!isUndetermined(touchdown)) {
    return isUndetermined(touchdown.timeS) ? touchdown.timeS : touchdown.timeS.value;
  }
  // Without heights nobody knows where it was lowest.
  if (!goAround || !motion.hasHeight) return touchdown;
  const { lowestTimeS } = goAround;
  return isUndetermined(lowestTimeS) ? lowestTimeS : lowestTimeS.value;
}

/** The flight seen along the line of a place, counted from where it was at a time. */
function lineFrom({ motion }: Flight, place: StripView, zeroS: number): StripView {
  const zeroM = valueAt(motion.timeS, place.smoothAlongM, zeroS);
  const farM = Math.max(place.frame.farEndAlongM, zeroM + LEAST_LINE_M);
  const ends = [zeroM, farM].map((alongM) => place.frame.pointAt(alongM, 0));
  const line = {
    ...place.strip,
    latDeg: ends.map(({ latDeg }) => latDeg),
    lonDeg: ends.map(({ lonDeg }) => lonDeg),
    directions: completeDirections(null, farM - zeroM, place.frame.trueBearingDeg),
  };
  return viewsOf(motion, line, null)[0];
}

/** Its places along that line: zero by definition, and the roll from there. */
function onLine(approach: Approach): Approach {
  const { touchdown, rollEnd, goAround, groundRollM } = approach;
  return {
    ...approach,
    touchdown: isUndetermined(touchdown) ? touchdown : { ...touchdown, alongM: ZERO },
    rollEnd: isUndetermined(rollEnd) ? rollEnd : { ...rollEnd, alongM: groundRollM },
    goAround: goAround && { ...goAround, lowestAlongM: ZERO },
  };
}

const ZERO: Estimate = { value: 0, low: 0, high: 0 };
