/**
 * What was passed on this flight: obstacles near the strips, areas to avoid.
 *
 * In: a flight's motion, its events and the strips file. Out: clearances of every approach and
 * take-off, and the time over every area, each with a band or a reason why there is none.
 */
import { areaTimes, type AreaTime } from '../events/area-time.ts';
import { clearancesOf, type Clearance } from '../events/clearance.ts';
import { firstAtOrAfter } from '../events/arrival-data.ts';
import type { FlightEvents } from '../events/detect-events.ts';
import { elevationsOff } from '../events/elevation-notes.ts';
import type { Approach, TakeOff } from '../events/flight-event.ts';
import { offsetAtView } from '../events/ground-tie.ts';
import { offsetByPath } from '../events/path-tie.ts';
import type { StripView } from '../events/strip-view.ts';
import { TiedHeights } from '../events/tied-heights.ts';
import { isUndetermined, undetermined, type Measured } from '../result.ts';
import type { StripBook } from '../strips/strip.ts';
import type { Motion } from '../track/motion.ts';

/** Clearances in the order of the events, and the areas flown over. */
export interface Surroundings {
  readonly approaches: readonly (readonly Clearance[])[];
  readonly takeOffs: readonly (readonly Clearance[])[];
  readonly areas: readonly AreaTime[];
}

/** Everything passed on one flight. Never fails. */
export function surroundingsOf(
  motion: Motion,
  events: FlightEvents,
  book: StripBook,
): Surroundings {
  const passedBy = (event: {
    readonly strip: string | null;
    readonly direction: string | null;
    readonly from: number;
    readonly to: number;
  }): Clearance[] => {
    const view = viewOf(events, event);
    if (!view) return [];
    const tied = offsetAtView(view, events.ties, motion.heightDatum);
    let lowest = event.from;
    for (let i = event.from; i < event.to; i++) {
      const soFarM = view.smoothAboveM[lowest];
      if (view.smoothAboveM[i] < soFarM || Number.isNaN(soFarM)) lowest = i;
    }
    const heights = new TiedHeights(
      motion,
      view,
      offsetByPath(motion, view, { from: event.from, lowest }, tied),
    );
    return clearancesOf(motion, view, heights, event, book.obstacles);
  };
  return {
    approaches: events.approaches.map((approach) =>
      passedBy({ ...approach, to: endInAir(motion, approach) }),
    ),
    takeOffs: events.takeOffs.map((takeOff) => {
      const from = startInAir(motion, takeOff);
      return from === null ? [] : passedBy({ ...takeOff, from });
    }),
    areas: areaTimes(motion, book.avoidAreas, heightsAboveSea(motion, events, book)),
  };
}

/** The fix after touchdown, or the end of the pass where the wheels did not touch. */
function endInAir(motion: Motion, { touchdown, to }: Approach): number {
  if (isUndetermined(touchdown) || isUndetermined(touchdown.timeS)) return to;
  return Math.min(to, firstAtOrAfter(motion.timeS, touchdown.timeS.value) + 1);
}

/** The first fix in the air; null where the aircraft was not seen to leave the ground. */
function startInAir(motion: Motion, { kind, liftOff }: TakeOff): number | null {
  if (kind === 'rejected' || isUndetermined(liftOff) || isUndetermined(liftOff.timeS)) return null;
  return firstAtOrAfter(motion.timeS, liftOff.timeS.value);
}

function viewOf(
  events: FlightEvents,
  { strip, direction }: { readonly strip: string | null; readonly direction: string | null },
): StripView | undefined {
  return events.views.find(
    (view) => view.stripId === strip && view.direction.designator === direction,
  );
}

/**
 * Height of the wheels above sea level at a fix, from the flight's ties at strips of known elevation.
 * Where the log contradicts an elevation nobody knows which of them is right: the band holds both.
 */
function heightsAboveSea(
  motion: Motion,
  events: FlightEvents,
  book: StripBook,
): (fix: number) => Measured {
  const view = events.views.find(
    ({ stripId, frame }) => stripId !== null && !Number.isNaN(frame.elevationMslM(0)),
  );
  if (!view) return () => undetermined('no strip of known elevation ties the heights');
  const heights = new TiedHeights(
    motion,
    view,
    offsetAtView(view, events.ties, motion.heightDatum),
  );
  const offsM = elevationsOff(events.ties, motion.heightDatum, book).map(({ offM }) => offM);
  const [lowerM, higherM] = [Math.min(0, ...offsM), Math.max(0, ...offsM)];
  return (fix) => {
    const above = heights.aboveAt(motion.timeS[fix]);
    if (isUndetermined(above)) return above;
    const groundM = view.groundM[fix];
    return {
      value: above.value + groundM,
      low: above.low + groundM + lowerM,
      high: above.high + groundM + higherM,
    };
  };
}
