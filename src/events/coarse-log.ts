/**
 * Are the fixes around a moment close enough together to tell what happened there?
 *
 * In: motion, a moment, what is to be told. Out: null, or `undetermined` with the interval as the
 * reason. Holes are not meant: a hole in a log of many fixes has rules of its own.
 *
 * Source: the demonstration's and independent flights thinned out (decision 0065).
 */
import { undetermined, type Undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';

/** Logs too slow to measure from. */
export const COARSE = {
  /** Fixes further apart than this tell neither a place of the wheels nor a touch from a pass, s: at 5 s bands of lift-offs hold 90 % and no touch is called a pass, at 6 s 85 % and one in nine, at 8 s 63 % and half. */
  intervalS: 5.5,
  /** Judged by the fixes this long before and after, s. */
  aroundS: 20,
} as const;

/**
 * Null where the fixes around `atS` lie close enough together, else why nobody can tell.
 *
 * @param toTell ends the sentence: "where the wheels touched".
 */
export function tooFarApart(motion: Motion, atS: number, toTell: string): Undetermined | null {
  const from = Math.max(0, firstAtOrAfter(motion.timeS, atS - COARSE.aroundS) - 1);
  const to = firstAtOrAfter(motion.timeS, atS + COARSE.aroundS) + 1;
  const intervalS = usualStep(motion.timeS.subarray(from, to));
  if (!isCoarse(intervalS)) return null;
  return undetermined(
    `fixes ${intervalWords(intervalS)} apart are too far apart to tell ${toTell}`,
  );
}

/**
 * The step in which half of the time lies in longer ones, s. By time, because bursts of fixes leave
 * the pauses between them; without the longest, which may be a hole.
 */
function usualStep(timeS: Float64Array): number {
  const steps = timeS.slice(1).map((t, k) => t - timeS[k]);
  steps.sort();
  const usual = steps.subarray(0, Math.max(1, steps.length - 1));
  const wholeS = usual.reduce((sum, step) => sum + step, 0);
  let left = wholeS / 2;
  return usual.find((step) => (left -= step) <= 0) ?? NaN;
}

/** True where a log with this interval between fixes (s) is too coarse for touchdowns and lift-offs. */
export function isCoarse(intervalS: number): boolean {
  return intervalS > COARSE.intervalS;
}

/** An interval as it is said: "10 s". */
export function intervalWords(intervalS: number): string {
  return `${Number(intervalS.toFixed(1))} s`;
}
