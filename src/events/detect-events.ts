/**
 * FRONT DOOR: what happened at which strip?
 *
 * In: the motion of one flight, the datum of its heights, the known strips. Out: approaches and
 * take-offs in order of time, at known strips and at places nobody has kept yet; the ground ties;
 * notes about what does not fit.
 *
 * Two views of one pass (parallel or crossing strips) are settled for the better aligned one.
 */
import { isUndetermined, type Problem } from '../result.ts';
import { findNearStrips } from '../strips/strip-index.ts';
import type { Strip, StripBook } from '../strips/strip.ts';
import type { Motion } from '../track/motion.ts';
import { addHeights } from './approach-heights.ts';
import { measureLanding, measurePass } from './approach.ts';
import type { MeasuredApproach } from './measured-approach.ts';
import { tieBetween } from './contact-tie.ts';
import { findBacktracks } from './backtrack.ts';
import type { Approach, Backtrack, TakeOff } from './flight-event.ts';
import { elevationNotes } from './elevation-notes.ts';
import { seenBetween, type Seen } from './height-gaps.ts';
import { launchOf } from './launch.ts';
import { COMMON_MANNER, type Manner } from './manner.ts';
import { offsetAtView, type Tie, type TiedOffset } from './ground-tie.ts';
import { offsetByPath } from './path-tie.ts';
import { findPasses, percentile, typicalSpeed, type Pass } from './passes.ts';
import { keepBest, type ViewedPass } from './pass-choice.ts';
import { guessedEndsNotes } from './guessed-ends.ts';
import { wordsOfPasses, type ContactWord } from './said-contact.ts';
import { shortLandingNotes } from './short-landing.ts';
import { viewsOf, type StripView } from './strip-view.ts';
import { measureTakeOff, rejectedTakeOff } from './take-off.ts';
import { departureKind } from './departure.ts';
import { isToldOnly, toldLiftOff } from './told-touch.ts';
import { PASS, TIE } from './tuning.ts';
import { unknownPlaces } from './unknown-place.ts';

/** Everything found in one flight. */
export interface FlightEvents {
  readonly approaches: readonly Approach[];
  readonly takeOffs: readonly TakeOff[];
  readonly backtracks: readonly Backtrack[];
  readonly ties: readonly Tie[];
  /** Places used that are no known strip, as provisional strips. */
  readonly places: readonly Strip[];
  readonly problems: readonly Problem[];
  /** Views in which events were found, for drawing; the event's strip and direction name its view. */
  readonly views: readonly StripView[];
}

/**
 * Finds and measures all events of one flight.
 *
 * @param engineNoise as the recorder heard it, a slot for each fix; null where it has no such column.
 * @param manner how the pilot arrives, where that is known.
 * @param words what the pilot says of the wheels' contact on single approaches.
 */
export function detectEvents(
  motion: Motion,
  book: StripBook,
  engineNoise: Float64Array | null = null,
  manner: Manner = COMMON_MANNER,
  words: readonly ContactWord[] = [],
): FlightEvents {
  const flightSpeed = typicalSpeed(motion);
  const none = {
    approaches: [],
    takeOffs: [],
    backtracks: [],
    ties: [],
    places: [],
    problems: [],
    views: [],
  };
  if (!(flightSpeed > LEAST_FLYING_MPS)) return none;
  const near = findNearStrips(book.strips, motion.latDeg, motion.lonDeg, PASS.nearM);
  const knownViews = near.flatMap(({ strip }) => viewsOf(motion, strip, strip.id));
  const known = passesOf(motion, knownViews, flightSpeed);
  const places = unknownPlaces(motion, known, flightSpeed);
  const placeViews = places.flatMap((place) => viewsOf(motion, place, null));
  const passes = keepBest(motion, [...known, ...passesOf(motion, placeViews, flightSpeed)]);

  const takeOffs: TakeOff[] = [];
  const ties: Tie[] = [];
  const allViews = [...knownViews, ...placeViews];
  const arrivals: MeasuredApproach[] = [];
  const open: { seen: Seen; pass: Pass; word: ContactWord | null }[] = [];
  const approachMps = typicalApproach(passes, flightSpeed);
  const kinds = passes.map(({ view, pass }) =>
    pass.kind === 'departure' ? departureKind(motion, view, pass, approachMps) : null,
  );
  const said = wordsOfPasses(
    passes.map(({ pass }) => pass),
    motion,
    words,
  );
  passes.forEach((viewed, k) => {
    const { view, pass } = viewed;
    const seen = seenBetween(motion, view, pass.from, pass.to);
    const run = { from: pass.from, to: pass.to, rollingSinceS: null };
    if (kinds[k] === 'take-off') {
      takeOffs.push(measureTakeOff(seen.motion, seen.view, run));
    } else if (kinds[k] === 'rejected') {
      takeOffs.push(rejectedTakeOff(seen.motion, seen.view, run));
    }
    if (pass.kind !== 'arrival') return;
    const next = passes[k + 1];
    const goesOn = k + 1 < passes.length && next.view === view && kinds[k + 1] === 'take-off';
    const departure = goesOn ? next.pass : null;
    const landed = measureLanding({ ...seen, pass, manner }, departure, said[k]);
    if (landed) arrivals.push(landed);
    else open.push({ seen, pass, word: said[k] });
  });
  for (const arrival of arrivals) if (arrival.tie) ties.push(arrival.tie);
  for (const takeOff of takeOffs) {
    const tie = takeOffTie(motion, takeOff, allViews);
    if (tie) ties.push(tie);
  }
  // Passes that did not end on the ground are judged last: the surely tied heights help to tell.
  const certain = [...ties];
  for (const { seen, pass, word } of open) {
    const offsetAt = offsetAtView(seen.view, certain, motion.heightDatum);
    const arrival = measurePass({ ...seen, pass, manner }, offsetAt, word);
    arrivals.push(arrival);
    if (arrival.tie) ties.push(arrival.tie);
    if (arrival.powerIndex === null) continue;
    const rollingSinceS = touchedS(arrival, motion.timeS[arrival.powerIndex]);
    const range = { from: arrival.powerIndex, to: pass.to, rollingSinceS };
    const takeOff = measureTakeOff(seen.motion, seen.view, range);
    const isTold = isToldOnly(arrival.approach);
    takeOffs.push(isTold ? toldLiftOff(motion, arrival, takeOff) : takeOff);
  }
  const approaches = withHeights(arrivals, ties, usedPlaces(passes, kinds, arrivals));
  takeOffs.sort((a, b) => motion.timeS[a.from] - motion.timeS[b.from]);
  const ground = findBacktracks(motion, knownViews, approaches, takeOffs);
  return {
    approaches,
    takeOffs: ground.takeOffs.map((takeOff) => ({
      ...takeOff,
      launch: launchOf(motion, takeOff, engineNoise),
    })),
    backtracks: ground.backtracks,
    ties,
    places,
    problems: [
      ...elevationNotes(ties, motion.heightDatum, book),
      ...guessedEndsNotes(arrivals),
      ...shortLandingNotes(arrivals),
    ],
    views: allViews,
  };
}

/** When the wheels touched in a touch-and-go, at the likeliest; where nobody can tell, some seconds before the power. */
function touchedS({ approach: { touchdown } }: MeasuredApproach, powerS: number): number {
  const none = isUndetermined(touchdown) || isUndetermined(touchdown.timeS);
  return none ? powerS - LEAST_ROLL_S : Math.min(powerS, touchdown.timeS.value);
}

/** What a touch-and-go rolls at the least between touch and power, seconds (common practice, no source). */
const LEAST_ROLL_S = 3;

/** Slower logs than this are walks, m/s: no aeroplane lands slower in still air. */
const LEAST_FLYING_MPS = 7;

function passesOf(motion: Motion, views: readonly StripView[], flightSpeed: number): ViewedPass[] {
  return views.flatMap((view) =>
    findPasses(motion, view, flightSpeed).map((pass) => ({ view, pass })),
  );
}

/** Median approach speed of the flight's arrivals; without any, a share of the flying speed. */
function typicalApproach(passes: readonly ViewedPass[], flightSpeed: number): number {
  const speeds = passes.filter(({ pass }) => pass.kind === 'arrival');
  if (speeds.length === 0) return APPROACH_OF_FLIGHT * flightSpeed;
  return percentile(
    Float64Array.from(speeds, ({ pass }) => pass.referenceMps),
    0.5,
  );
}

/** Approach over cruising speed of light aeroplanes (common practice, no source). */
const APPROACH_OF_FLIGHT = 0.6;

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
  arrivals: readonly MeasuredApproach[],
  ties: readonly Tie[],
  used: ReadonlySet<Strip>,
): Approach[] {
  const approaches: Approach[] = [];
  for (const arrival of arrivals) {
    const approach = addHeights(arrival, heightOffset(arrival, ties));
    if (approach && isWorthTelling(approach, used.has(arrival.view.strip))) {
      approaches.push(approach);
    }
  }
  return approaches.sort((a, b) => a.from - b.from);
}

/** Offset of an approach's heights; where it did not touch, with what its path says too. */
function heightOffset(
  { motion, view, pass, approach, lowPart }: MeasuredApproach,
  ties: readonly Tie[],
): (timeS: number) => TiedOffset {
  const offsetAt = offsetAtView(view, ties, motion.heightDatum);
  if (approach.posterior !== null) return offsetAt;
  return offsetByPath(motion, view, { from: pass.from, lowest: lowPart.lowestIndex }, offsetAt);
}

/** Strips and places on which the wheels surely were: a take-off, or an approach that touched. */
function usedPlaces(
  passes: readonly ViewedPass[],
  kinds: readonly (string | null)[],
  arrivals: readonly MeasuredApproach[],
): ReadonlySet<Strip> {
  return new Set([
    ...passes.filter((_, k) => kinds[k] === 'take-off').map(({ view }) => view.strip),
    ...arrivals.filter(({ approach }) => approach.posterior !== null).map(({ view }) => view.strip),
  ]);
}

/** At an unknown place an approach that did not surely touch counts only where the flight surely used the place, or where the pilot says so: a word that nobody sees cannot be taken back. */
function isWorthTelling(approach: Approach, used: boolean): boolean {
  if (approach.strip !== null || approach.saidContact) return true;
  return used && approach.outcome !== 'overflight';
}
