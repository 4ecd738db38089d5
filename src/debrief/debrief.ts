/**
 * FRONT DOOR: from the bytes of one file to its debrief.
 *
 * In: bytes and name of a track file, the strips, the aeroplanes, the conditions. Out: the flights
 * found with everything measured and predicted, the source's own data, and every problem met.
 * Called by the page, its worker and the command line alike.
 */
import { findCircuits, type Circuits } from '../events/circuit.ts';
import { intervalWords, isCoarse } from '../events/coarse-log.ts';
import { detectEvents, type FlightEvents } from '../events/detect-events.ts';
import { offsetAtView } from '../events/ground-tie.ts';
import { TiedHeights } from '../events/tied-heights.ts';
import { describeWind, fitWind, type WindEstimate } from '../events/wind-from-track.ts';
import { learnManner, lessonsThatCount, type Lesson } from '../events/manner.ts';
import type { Aeroplane } from '../performance/aeroplane.ts';
import type { FactorSet } from '../performance/factor-sets/factor-set.ts';
import { findFactorSet } from '../performance/factor-sets/published.ts';
import {
  isUndetermined,
  problem,
  success,
  undetermined,
  type Problem,
  type Result,
  type Undetermined,
} from '../result.ts';
import type { StripBook } from '../strips/strip.ts';
import { applyCleaning, cleanTrack } from '../track/clean-track.ts';
import { pickFixes } from '../track/decode-columns.ts';
import { decodeTrack } from '../track/decode-track.ts';
import { computeMotion, medianInterval, type Motion } from '../track/motion.ts';
import type { DecodedTrack, LeftOut, Track, TrackFormat } from '../track/track.ts';
import type { Conditions, ConditionsBook } from '../weather/conditions.ts';
import { conditionsFor } from '../weather/decode-conditions.ts';
import { aeroplaneFlown } from './aeroplane-flown.ts';
import { compareEvents, type ComparedEvents } from './compare-events.ts';
import { finalsOf, type Final } from './finals.ts';
import {
  contactWords,
  correctEvents,
  marksOf,
  type ByHand,
  type LandingMarks,
} from './hand-corrections.ts';
import { correctTakeOffs, liftOffsOf, type LiftOffByHand } from './hand-lift-offs.ts';
import { lessonsIn, taughtBy } from './lessons.ts';
import { splitRecordings } from './split-flights.ts';
import { surroundingsOf, type Surroundings } from './surroundings.ts';

/** The file as it came. */
export interface Source {
  readonly file: string;
  readonly format: TrackFormat;
  /** SHA-256 of the file's bytes, hexadecimal. */
  readonly sha256: string;
  readonly fixes: number;
  readonly usedFixes: number;
  readonly medianIntervalS: number;
}

/** One recording in which something flew. */
export interface Flight {
  readonly source: Source;
  readonly track: Track;
  readonly motion: Motion;
  readonly events: FlightEvents;
  readonly circuits: Circuits;
  readonly wind: WindEstimate | Undetermined;
  /** Obstacles passed and areas flown over. */
  readonly surroundings: Surroundings;
  /** Further figures of each approach: airspeed, the pilot's own limits, preferred path, commit point. */
  readonly finals: readonly Final[];
  readonly aeroplane: Aeroplane | Undetermined;
  readonly conditions: Conditions | Undetermined;
  readonly compared: ComparedEvents;
  /** For each approach what was entered about it alone, and what was measured before it was corrected. */
  readonly byHand: readonly ByHand[];
  /** For each take-off its lift-off as put by hand, and as measured. */
  readonly liftOffsByHand: readonly LiftOffByHand[];
  /** What its touchdowns put by hand teach of how the pilot arrives; none where others taught this one. */
  readonly lessons: readonly Lesson[];
}

/** Everything one file gave. */
export interface Debrief {
  readonly source: Source;
  readonly flights: readonly Flight[];
  readonly problems: readonly Problem[];
  readonly leftOut: readonly LeftOut[];
}

/** What a file is debriefed with. Without aeroplanes or conditions nothing is predicted. */
export interface DebriefContext {
  readonly strips: StripBook;
  readonly aeroplanes: readonly Aeroplane[];
  readonly conditions: ConditionsBook | null;
  /** What was entered about single landings; absent: nothing. */
  readonly landings?: readonly LandingMarks[];
  /**
   * What known touchdowns in the pilot's other logs of the aeroplane taught; absent: nothing. A log with
   * a touchdown put by hand teaches and is not taught: then no two logs teach each other.
   */
  readonly lessons?: readonly Lesson[];
  /** Factor sets of the pilot's own, which conditions may name beside the published ones. */
  readonly factorSets?: readonly FactorSet[];
  /** Goes before the set that the conditions name; absent: theirs. */
  readonly factorSet?: FactorSet;
}

/**
 * Debriefs one file.
 *
 * Fails where the file is no track; a readable track without a flight is a debrief with a note.
 */
export async function debriefFile(
  bytes: Uint8Array<ArrayBuffer>,
  fileName: string,
  context: DebriefContext,
): Promise<Result<Debrief>> {
  const decoded = await decodeTrack(bytes, fileName);
  if (!decoded.ok) return decoded;
  const sha256 = await sha256Hex(bytes);
  const debrief = debriefTrack(decoded.value, fileName, sha256, context);
  return success(debrief, [...decoded.problems, ...debrief.problems]);
}

/** Debriefs a decoded track: cleaning, motion, events. Never fails; a track without a flight says so in a note. */
export function debriefTrack(
  decoded: DecodedTrack,
  fileName: string,
  sha256: string,
  context: DebriefContext,
): Debrief {
  const cleaning = cleanTrack(decoded.track);
  const cleaned = applyCleaning(decoded.track, cleaning);
  const problems: Problem[] = [...cleaning.problems];
  const source: Source = {
    file: fileName,
    format: decoded.track.format,
    sha256,
    fixes: decoded.track.length,
    usedFixes: cleaned.length,
    medianIntervalS: medianInterval(cleaned.timeS),
  };
  const flights: Flight[] = [];
  const conditions = enteredConditions(context, fileName);
  const aeroplane = aeroplaneFlown(context.aeroplanes, conditions);
  const effort = isUndetermined(conditions) ? null : conditions.effort;
  const lessons = lessonsThatCount(context.lessons ?? [], effort);
  const manner = learnManner(lessons, effort);
  const landings = context.landings ?? [];
  const words = contactWords(landings);
  for (const { from, to } of splitRecordings(cleaned)) {
    if (to - from < LEAST_FIXES) continue;
    const track = pickFixes(
      cleaned,
      Int32Array.from({ length: to - from }, (_, k) => from + k),
    );
    const motion = computeMotion(track);
    const measured = taughtBy(
      lessons,
      detectEvents(motion, context.strips, track.engineNoise, manner, words),
    );
    const byHand = marksOf(measured, motion.timeS, landings);
    const liftOffsByHand = liftOffsOf(measured, landings);
    const landed = correctEvents(measured, motion, byHand);
    const events = correctTakeOffs(landed, motion, liftOffsByHand);
    if (!flew(motion) && !landedAtOnce(motion, events)) continue;
    problems.push(...events.problems, ...coarseNotes(motion, track));
    const part = { usedFixes: track.length, medianIntervalS: motion.medianIntervalS };
    const factorSet = factorSetFor(context, conditions);
    const timeS = track.timeS[0];
    const efforts = byHand.map(({ marks }) => marks?.effort ?? null);
    const given = { aeroplane, conditions, factorSet, timeS, efforts };
    const compared = compareEvents(events, given);
    const wind = fitWind(motion);
    flights.push({
      source: { ...source, ...part },
      track,
      motion,
      events,
      circuits: findCircuits(
        motion,
        events,
        (view) =>
          new TiedHeights(motion, view, offsetAtView(view, events.ties, motion.heightDatum)),
      ),
      wind: isUndetermined(wind) ? wind : describeWind(wind),
      surroundings: surroundingsOf(motion, events, context.strips),
      finals: finalsOf(motion, events, { wind, conditions, book: context.strips }),
      aeroplane,
      conditions,
      compared,
      byHand,
      liftOffsByHand,
      lessons: lessons.length > 0 ? [] : lessonsIn(measured, byHand, effort),
    });
  }
  const leftOut = [...decoded.leftOut, ...cleaning.leftOut];
  if (flights.length === 0) {
    problems.push(problem('no-flight', 'note', 'file', whyNoFlight(cleaned, leftOut)));
  }
  return { source, flights, problems, leftOut };
}

function enteredConditions(context: DebriefContext, fileName: string): Conditions | Undetermined {
  const entered = context.conditions ? conditionsFor(context.conditions, baseName(fileName)) : null;
  return entered ?? undetermined('no conditions were entered for this flight');
}

function factorSetFor(
  { factorSet, factorSets }: DebriefContext,
  conditions: Conditions | Undetermined,
): FactorSet | Undetermined {
  if (factorSet) return factorSet;
  return isUndetermined(conditions) ? conditions : findFactorSet(conditions.factorSet, factorSets);
}

/** A file's own name, without the folders before it. */
export function baseName(fileName: string): string {
  return fileName.slice(Math.max(fileName.lastIndexOf('/'), fileName.lastIndexOf('\\')) + 1);
}

/** Fewest fixes of which anything can be said. */
const LEAST_FIXES = 12;

function whyNoFlight({ length }: Track, leftOut: readonly LeftOut[]): string {
  if (length < LEAST_FIXES) {
    return `the track has ${length} usable ${length === 1 ? 'fix' : 'fixes'}; expected ${LEAST_FIXES} or more with their times${mostLeftOut(leftOut)}`;
  }
  return `the track has ${length} usable fixes but no flight; expected ${FLYING_S} seconds or more faster than walking or taxiing`;
}

/** What was left out most often, and why; nothing where nothing was. */
function mostLeftOut(leftOut: readonly LeftOut[]): string {
  const counts = new Map<string, number>();
  for (const { reason, count } of leftOut) counts.set(reason, (counts.get(reason) ?? 0) + count);
  const [most] = [...counts].toSorted((a, b) => b[1] - a[1]);
  return counts.size === 0 ? '' : `; left out ${most[1]} times: ${most[0]}`;
}

/** A log too slow to be measured from says so, whatever was found in it. */
function coarseNotes({ medianIntervalS }: Motion, { line }: Track): Problem[] {
  if (!isCoarse(medianIntervalS)) return [];
  const message = `From here on one fix every ${intervalWords(medianIntervalS)} was found, but one every 4 s or more often was expected: no touchdown and no lift-off can be placed, a touch looks like a pass, and whole take-offs and landings may not show.`;
  return [problem('fixes-far-apart', 'warning', `line ${line[0]}`, message)];
}

/** A flight moves faster than a taxiing aeroplane for a while. */
function flew(motion: Motion): boolean {
  return secondsAbove(motion, FLYING_MPS) >= FLYING_S;
}

/** A recorder switched on just before touchdown: too short for a flight, but a landing at a known strip, faster than anybody drives along one. */
function landedAtOnce(motion: Motion, { approaches }: FlightEvents): boolean {
  if (secondsAbove(motion, LANDING_MPS) < LANDING_S) return false;
  return approaches.some(({ strip, outcome }) => strip !== null && outcome === 'full-stop');
}

function secondsAbove(motion: Motion, limitMps: number): number {
  let seconds = 0;
  for (let i = 1; i < motion.length; i++) {
    const step = motion.timeS[i] - motion.timeS[i - 1];
    if (motion.speedMps[i] > limitMps && step < 60) seconds += step;
  }
  return seconds;
}

const FLYING_MPS = 9;
const FLYING_S = 20;
const LANDING_MPS = 15;
const LANDING_S = 3;

async function sha256Hex(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
