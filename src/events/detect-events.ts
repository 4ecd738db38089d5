/**
 * FRONT DOOR: what happened at which strip?
 *
 * In: the motion of one flight, the datum of its heights, the known strips. Out: approaches and
 * take-offs in order of time, at known strips and at places nobody has kept yet; the ground ties;
 * notes about what does not fit.
 *
 * Two views of one pass (parallel or crossing strips) are settled for the better aligned one.
 */
import { isUndetermined, problem, type Problem } from '../result.ts';
import { findNearStrips } from '../strips/strip-index.ts';
import type { Strip, StripBook } from '../strips/strip.ts';
import type { Motion } from '../track/motion.ts';
import type { HeightDatum } from '../track/track.ts';
import { addHeights } from './approach-heights.ts';
import { measureApproach, tieBetween, type MeasuredApproach } from './approach.ts';
import type { Approach, TakeOff } from './flight-event.ts';
import { tieHeights, type Tie } from './ground-tie.ts';
import { findPasses, typicalSpeed, type Pass } from './passes.ts';
import { keepBestAligned, type ViewedPass } from './pass-choice.ts';
import { viewsOf, type StripView } from './strip-view.ts';
import { measureTakeOff, rejectedTakeOff } from './take-off.ts';
import { departureKind } from './departure.ts';
import { PASS, TIE } from './tuning.ts';
import { unknownPlaces } from './unknown-place.ts';

/** Everything found in one flight. */
export interface FlightEvents {
  readonly approaches: readonly Approach[];
  readonly takeOffs: readonly TakeOff[];
  readonly ties: readonly Tie[];
  /** Places used that are no known strip, as provisional strips. */
  readonly places: readonly Strip[];
  readonly problems: readonly Problem[];
  /** Views in which events were found, for drawing; the event's strip and direction name its view. */
  readonly views: readonly StripView[];
}

/** Finds and measures all events of one flight. */
export function detectEvents(motion: Motion, datum: HeightDatum, book: StripBook): FlightEvents {
  const flightSpeed = typicalSpeed(motion);
  const none = { approaches: [], takeOffs: [], ties: [], places: [], problems: [], views: [] };
  if (!(flightSpeed > LEAST_FLYING_MPS)) return none;
  const near = findNearStrips(book.strips, motion.latDeg, motion.lonDeg, PASS.nearM);
  const knownViews = near.flatMap(({ strip }) => viewsOf(motion, strip, strip.id));
  const known = passesOf(motion, knownViews, flightSpeed);
  const places = unknownPlaces(motion, known, flightSpeed);
  const placeViews = places.flatMap((place) => viewsOf(motion, place, null));
  const passes = keepBestAligned([...known, ...passesOf(motion, placeViews, flightSpeed)]);

  const arrivals: MeasuredApproach[] = [];
  const takeOffs: TakeOff[] = [];
  const ties: Tie[] = [];
  passes.forEach((viewed, k) => {
    if (viewed.pass.kind === 'departure') {
      const departure = departs(motion, viewed, passes[k - 1]);
      if (departure) takeOffs.push(departure);
      return;
    }
    const arrival = measureApproach(motion, viewed.view, viewed.pass, nextDeparture(passes, k));
    arrivals.push(arrival);
    if (arrival.tie) ties.push(arrival.tie);
    const goesOn = rollingTakeOff(motion, arrival);
    if (goesOn) takeOffs.push(goesOn);
  });
  for (const takeOff of takeOffs) {
    const tie = takeOffTie(motion, takeOff, [...knownViews, ...placeViews]);
    if (tie) ties.push(tie);
  }
  const approaches = withHeights(motion, datum, arrivals, ties);
  return {
    approaches,
    takeOffs: takeOffs.sort((a, b) => motion.timeS[a.from] - motion.timeS[b.from]),
    ties,
    places,
    problems: elevationNotes(ties, datum, book),
    views: [...knownViews, ...placeViews],
  };
}

/** Slower logs than this are walks, m/s: no aeroplane lands slower in still air. */
const LEAST_FLYING_MPS = 7;

function passesOf(motion: Motion, views: readonly StripView[], flightSpeed: number): ViewedPass[] {
  return views.flatMap((view) =>
    findPasses(motion, view, flightSpeed).map((pass) => ({ view, pass })),
  );
}

function nextDeparture(passes: readonly ViewedPass[], k: number): Pass | null {
  const next = passes[k + 1];
  if (next === undefined || next.view !== passes[k].view) return null;
  return next.pass.kind === 'departure' ? next.pass : null;
}

function departs(
  motion: Motion,
  viewed: ViewedPass,
  before: ViewedPass | undefined,
): TakeOff | null {
  const { view, pass } = viewed;
  const kind = departureKind(motion, view, pass);
  const range = { from: pass.from, to: pass.to, rolling: false };
  // A landing that stopped here sets a bound to how far back the run may be sought.
  const from = before?.view === view ? Math.max(pass.from, before.pass.to - 1) : pass.from;
  if (kind === 'take-off') return measureTakeOff(motion, view, { ...range, from });
  return kind === 'rejected' ? rejectedTakeOff(motion, view, range) : null;
}

/** The take-off into which a touch-and-go went on. */
function rollingTakeOff(motion: Motion, arrival: MeasuredApproach): TakeOff | null {
  if (arrival.powerIndex === null) return null;
  return measureTakeOff(motion, arrival.view, {
    from: arrival.powerIndex,
    to: arrival.pass.to,
    rolling: true,
  });
}

function takeOffTie(motion: Motion, takeOff: TakeOff, views: readonly StripView[]): Tie | null {
  if (isUndetermined(takeOff.liftOff) || isUndetermined(takeOff.liftOff.timeS)) return null;
  if (isUndetermined(takeOff.brakeRelease)) return null;
  const view = views.find(
    (each) => each.stripId === takeOff.strip && each.direction.designator === takeOff.direction,
  );
  if (!view) return null;
  const fromS = motion.timeS[takeOff.from] - TIE.beforeRunS;
  return tieBetween(motion, view, fromS, takeOff.liftOff.timeS.low - 1);
}

function withHeights(
  motion: Motion,
  datum: HeightDatum,
  arrivals: readonly MeasuredApproach[],
  ties: readonly Tie[],
): Approach[] {
  const approaches: Approach[] = [];
  for (const arrival of arrivals) {
    const id = arrival.view.stripId;
    const usable = ties.filter((tie) => tie.elevationKnown || tie.stripId === (id ?? ''));
    const offsetAt = tieHeights(usable, datum, id ?? '');
    const approach = addHeights(motion, arrival, offsetAt);
    if (approach) approaches.push(approach);
  }
  return approaches.sort((a, b) => a.from - b.from);
}

/** Notes where a declared sea-level height and the strip's entered elevation disagree. */
function elevationNotes(ties: readonly Tie[], datum: HeightDatum, book: StripBook): Problem[] {
  if (datum !== 'geoid') return [];
  const notes: Problem[] = [];
  for (const strip of book.strips) {
    const here = ties.filter((tie) => tie.stripId === strip.id && tie.elevationKnown);
    if (here.length === 0) continue;
    const mean = here.reduce((sum, tie) => sum + tie.offsetM - TIE.antennaM, 0) / here.length;
    if (Math.abs(mean) > TIE.noteM) {
      notes.push(
        problem(
          'elevation-differs',
          'note',
          `strip ${strip.id}`,
          `the log puts the ground ${Math.abs(mean).toFixed(0)} m ${mean > 0 ? 'above' : 'below'} the elevation entered for it; expected within ${TIE.noteM} m`,
        ),
      );
    }
  }
  return notes;
}
