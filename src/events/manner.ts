/**
 * How does a pilot arrive: how soon do the brakes come on, and how are the last seconds flown?
 *
 * In: landings whose touchdown is known from outside the log, as from wheel marks. Out: the pilot's own
 * shares of brake delays and round-outs, which stand in for those of pilots at large. A log alone cannot
 * teach them: a landing measured too early teaches that nothing is held off, and the next one is
 * measured too early again (docs/decisions/0062).
 *
 * Source: shares of a mixture by expectation-maximisation with a Dirichlet prior, a textbook method, from
 * memory.
 */
import { normalCdf } from '../numeric/posterior.ts';
import type { ArrivalShares, TouchdownPosterior } from './flight-event.ts';
import { HEIGHT_SHAPES } from './height-shapes.ts';
import { MANNER } from './manner-tuning.ts';
import { ALONG } from './tuning.ts';
import type { Conditions } from '../weather/conditions.ts';

/** Shares that add up to 1. */
export interface Manner {
  /** Of each delay in `ALONG.brakeDelaysS`. */
  readonly brakes: readonly number[];
  /** Of each of `HEIGHT_SHAPES`. */
  readonly shapes: readonly number[];
}

/** How well each delay and each shape explain a log whose touchdown is known, the best of them 1. */
export interface Explained {
  readonly brakes: readonly number[];
  /** Null without heights. */
  readonly shapes: readonly number[] | null;
}

/** What one known touchdown teaches. */
export interface Lesson extends Explained {
  /** UTC seconds since 1970 of the touchdown. */
  readonly timeS: number;
  /** How hard it was braked, as the pilot says; null: not entered. */
  readonly effort: Effort;
}

type Effort = Conditions['effort'];

/** The manner of pilots at large. */
export const COMMON_MANNER: Manner = {
  brakes: shares(ALONG.brakeWeights),
  shapes: shares(HEIGHT_SHAPES.map(({ weight }) => weight)),
};

/**
 * What a landing teaches whose wheels are known to have touched at `alongM`, metres from the landing
 * threshold.
 *
 * @param posterior as measured by the common manner; @param placeSdM error of the strip's own place, metres.
 * @returns null where the log all but rules the place out: then one of the two is wrong.
 */
export function lessonOf(
  posterior: TouchdownPosterior,
  alongM: number,
  placeSdM: number,
): Explained | null {
  const arrival = arrivalAt(posterior, alongM, placeSdM);
  return (
    arrival && {
      brakes: explained(arrival.brakes, COMMON_MANNER.brakes),
      shapes: arrival.shapes && explained(arrival.shapes, COMMON_MANNER.shapes),
    }
  );
}

/**
 * How the aircraft arrived if its wheels touched at `alongM`: shares of the brake delays and of the shapes,
 * a row of each. Arguments and null as in `lessonOf`.
 */
export function arrivalAt(
  { weight, alongM: places, alongSdM, arrival }: TouchdownPosterior,
  alongM: number,
  placeSdM: number,
): ArrivalShares | null {
  if (arrival === null) return null;
  const sd = alongSdM.map((each) => Math.hypot(each, placeSdM, MANNER.markSdM));
  const chance = weight.reduce((sum, each, c) => {
    const sds = Math.abs(alongM - places[c]) / sd[c];
    return sum + each * 2 * normalCdf(-sds);
  }, 0);
  if (chance < MANNER.leastChance) return null;
  const near = places.map((place, c) => Math.exp(-(((alongM - place) / sd[c]) ** 2) / 2) / sd[c]);
  const brakes = inOneRow(arrival.brakes, near);
  const shapes = arrival.shapes && inOneRow(arrival.shapes, near);
  // Near none but candidates that were not weighed by their shapes.
  if (brakes === null || (arrival.shapes && shapes === null)) return null;
  return { brakes, shapes };
}

/** Rows of candidates weighed together, shares that add up to 1; null where none weighs anything. */
function inOneRow(rows: Float64Array, near: Float64Array): Float64Array | null {
  const columns = rows.length / near.length;
  const sums = new Float64Array(columns);
  rows.forEach((each, slot) => {
    sums[slot % columns] += near[Math.floor(slot / columns)] * each;
  });
  const total = sums.reduce((sum, each) => sum + each, 0);
  return total > 0 ? sums.map((each) => each / total) : null;
}

/** How well each part explains what was found, the best 1. */
function explained(found: Float64Array, common: readonly number[]): number[] {
  const likelihood = Array.from(found, (each, k) => each / common[k]);
  const best = Math.max(...likelihood);
  return likelihood.map((each) => Number((each / best).toPrecision(LESSON_DIGITS)));
}

/** More would only be noise in what a logbook keeps. */
const LESSON_DIGITS = 4;

/**
 * Those lessons that say something of landings braked so hard: all with shapes, and brakes only of landings
 * for which the same was entered. Marks paced after the shortest visits must not tell how soon the brakes
 * come on at home (docs/decisions/0062).
 */
export function lessonsThatCount(lessons: readonly Lesson[], effort: Effort): readonly Lesson[] {
  return lessons.filter((lesson) => lesson.shapes !== null || teachesBrakes(lesson, effort));
}

function teachesBrakes(lesson: Lesson, effort: Effort): boolean {
  return effort !== null && lesson.effort === effort;
}

/**
 * The manner that these landings suggest for one braked so hard, leaning on the common one, which counts as
 * many landings as `MANNER.priorLandings`. Without lessons it is the common one.
 */
export function learnManner(lessons: readonly Lesson[], effort: Effort): Manner {
  const brakes = lessons.filter((lesson) => teachesBrakes(lesson, effort));
  return {
    brakes: pooled(
      brakes.map((lesson) => lesson.brakes),
      COMMON_MANNER.brakes,
    ),
    shapes: pooled(
      lessons.flatMap(({ shapes }) => (shapes ? [shapes] : [])),
      COMMON_MANNER.shapes,
    ),
  };
}

/** Rounds of the search for the shares: more would move none by 0.001. */
const ROUNDS = 20;

/** Shares of the parts of a mixture, from how well each part explains each landing. */
function pooled(
  likelihoods: readonly (readonly number[])[],
  common: readonly number[],
): readonly number[] {
  if (likelihoods.length === 0) return common;
  let found = common;
  for (let round = 0; round < ROUNDS; round++) {
    const count = common.map((share) => MANNER.priorLandings * share);
    for (const likelihood of likelihoods) {
      const explained = found.map((share, k) => share * likelihood[k]);
      const total = explained.reduce((sum, each) => sum + each, 0);
      explained.forEach((each, k) => (count[k] += each / total));
    }
    found = shares(count);
  }
  return found;
}

function shares(weights: readonly number[]): number[] {
  const total = weights.reduce((sum, each) => sum + each, 0);
  return weights.map((each) => each / total);
}
