/**
 * What else is to be said of each final: airspeed, the pilot's own limits, the preferred path, the
 * float, the commit point?
 *
 * In: a flight's motion, its events, the wind from its track, what was entered, the strips file. Out:
 * for each approach what was asked for and can be told.
 */
import { firstAtOrAfter } from '../events/arrival-data.ts';
import { PATH } from '../events/circuit-tuning.ts';
import { commitCheck, type CommitCheck } from '../events/commit-point.ts';
import type { FlightEvents } from '../events/detect-events.ts';
import {
  estimatedAirspeed,
  weighWinds,
  windAloftEntered,
  windAloftFromTrack,
  type WindAloft,
} from '../events/estimated-airspeed.ts';
import { floatOf, type Float } from '../events/float.ts';
import type { Approach, Gate } from '../events/flight-event.ts';
import { checkGate, type LimitCheck } from '../events/gate-check.ts';
import { pathFollowed, type PathFollowed } from '../events/preferred-path.ts';
import type { StripView } from '../events/strip-view.ts';
import type { FittedWind } from '../events/wind-from-track.ts';
import { magneticVariationDeg } from '../geo/magnetic.ts';
import { isUndetermined, undetermined, type Measured, type Undetermined } from '../result.ts';
import type { Strip, StripBook } from '../strips/strip.ts';
import type { Motion } from '../track/motion.ts';
import { METRES_PER_FOOT } from '../units/convert.ts';
import type { Conditions } from '../weather/conditions.ts';

/** What a gate adds to what was measured there. */
export interface GateFigures {
  /** Equivalent airspeed, m/s, good to about 5 kt. */
  readonly estimatedAirspeedMps: Measured;
  /** Against the pilot's own limits; empty where none were entered. */
  readonly limits: readonly LimitCheck[];
}

/** One approach's further figures. */
export interface Final {
  /** In the order of the approach's gates. */
  readonly gates: readonly GateFigures[];
  /** Which wind the airspeeds rest on; null where none is known. */
  readonly airspeedWind: WindAloft['from'] | null;
  /** Null where the direction has no preferred path. */
  readonly preferredPath: PathFollowed | null;
  /** From the end of the round-out to touchdown. */
  readonly float: Float | Undetermined;
  /** Null where nothing was broken off, or the direction has no commit point. */
  readonly commitPoint: CommitCheck | null;
}

/** What the figures are made of besides the flight itself. */
export interface FinalsContext {
  readonly wind: FittedWind | Undetermined;
  readonly conditions: Conditions | Undetermined;
  readonly book: StripBook;
}

/** The figures of every approach, in order. Never fails. */
export function finalsOf(motion: Motion, events: FlightEvents, context: FinalsContext): Final[] {
  return events.approaches.map((approach) => {
    const view = viewOf(events, approach);
    const float = floatIn(motion, view, approach);
    if (!view) {
      return { gates: [], airspeedWind: null, preferredPath: null, float, commitPoint: null };
    }
    const wind = windFor(motion, view, context);
    return {
      gates: approach.gates.map((gate) => gateFigures(motion, view, gate, wind, context)),
      airspeedWind: isUndetermined(wind) ? null : wind.from,
      preferredPath: preferredPath(motion, view, events, approach, context.book),
      float,
      commitPoint: approach.goAround ? commitCheck(motion, view, approach.goAround) : null,
    };
  });
}

function floatIn(
  motion: Motion,
  view: StripView | undefined,
  { touchdown, posterior }: Approach,
): Float | Undetermined {
  if (isUndetermined(touchdown)) return touchdown;
  if (!view || !posterior) return undetermined('no strip is known here');
  return floatOf(motion, view, posterior);
}

function viewOf(events: FlightEvents, { strip, direction }: Approach): StripView | undefined {
  if (strip === null) return undefined;
  return events.views.find(
    (view) => view.stripId === strip && view.direction.designator === direction,
  );
}

/** The wind that the turns of this flight tell and the one entered, weighed by their errors; or the one there is. */
function windFor(
  motion: Motion,
  { strip }: StripView,
  { wind, conditions }: FinalsContext,
): WindAloft | Undetermined {
  const entered = windEntered(motion, strip, conditions);
  if (isUndetermined(wind)) {
    return entered ?? undetermined(`${wind.undetermined}, and no wind was entered`);
  }
  const track = windAloftFromTrack(wind);
  return entered === null || isUndetermined(entered) ? track : weighWinds(track, entered);
}

/** Null where none was entered. */
function windEntered(
  motion: Motion,
  strip: Strip,
  conditions: Conditions | Undetermined,
): WindAloft | Undetermined | null {
  const entered = isUndetermined(conditions) ? null : conditions.wind;
  if (entered === null) return null;
  const { fromDeg, reference, speedKt } = entered;
  if (fromDeg === null || reference === 'true') return windAloftEntered(fromDeg, speedKt);
  const variation = magneticVariationDeg(strip.latDeg[0], strip.lonDeg[0], 0, motion.timeS[0]);
  return isUndetermined(variation) ? variation : windAloftEntered(fromDeg + variation, speedKt);
}

function gateFigures(
  motion: Motion,
  view: StripView,
  gate: Gate,
  wind: WindAloft | Undetermined,
  { conditions }: FinalsContext,
): GateFigures {
  const entered = isUndetermined(conditions) ? null : conditions;
  const elevationMslM = view.frame.elevationMslM(0);
  const air = {
    tempC: entered?.tempC ?? null,
    qnhHpa: entered?.qnhHpa ?? null,
    elevationMslM: Number.isNaN(elevationMslM) ? null : elevationMslM,
  };
  const estimatedAirspeedMps = isUndetermined(wind)
    ? wind
    : estimatedAirspeed(motion, gate.timeS, gate.heightFt * METRES_PER_FOOT, wind, air);
  const limits = entered?.gateLimits ?? null;
  return {
    estimatedAirspeedMps,
    limits: limits === null ? [] : checkGate(gate, estimatedAirspeedMps, limits),
  };
}

function preferredPath(
  motion: Motion,
  view: StripView,
  events: FlightEvents,
  approach: Approach,
  book: StripBook,
): PathFollowed | null {
  const path = book.approachPaths.find(
    ({ strip, designator }) => strip === view.stripId && designator === view.direction.designator,
  );
  if (!path) return null;
  const { touchdown } = approach;
  const touched = !isUndetermined(touchdown) && !isUndetermined(touchdown.timeS);
  const to = touched
    ? Math.min(approach.to, firstAtOrAfter(motion.timeS, touchdown.timeS.value) + 1)
    : approach.to;
  let from = firstAtOrAfter(motion.timeS, motion.timeS[approach.from] - PATH.longestS);
  for (const other of [...events.takeOffs, ...events.approaches]) {
    if (other !== approach && other.to <= approach.from) from = Math.max(from, other.to);
  }
  return pathFollowed(view, { from, to }, path);
}
