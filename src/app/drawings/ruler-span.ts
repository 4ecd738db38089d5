/**
 * How much of the ground does a ruler show?
 *
 * In: the model. Out: the range of alongM: some ground before the threshold, the whole length, and
 * what was measured or expected beyond it, within reason.
 */
import type { StripPicture } from '../../report/pictures/strip-picture.ts';

/** Ground shown before the threshold, past the end, and about what lies outside, metres. */
const BEFORE_M = 125;
const PAST_M = 16;
const ABOUT_M = 14;
/** Obstacles are shown this far before the threshold, metres. */
const OBSTACLES_M = 190;
/** A rod is shown to this multiple of the length, and cut there. */
const MOST_OF_LENGTH = 1.12;

/** From and to, alongM. */
export function rulerSpan(
  { ground, end, places, passes, rods, kind }: StripPicture,
  leastBeforeM = BEFORE_M,
): { readonly fromM: number; readonly toM: number } {
  const near = ground.obstacles.flatMap(({ alongM }) =>
    Array.from(alongM).filter((along) => along > -OBSTACLES_M && along < 0),
  );
  const measured = [
    ...places.flatMap(({ lowM, highM }) => [lowM, highM]),
    ...(passes ? [passes.fromM[0], passes.toM[9]] : []),
  ].filter(Number.isFinite);
  const fromM = Math.min(
    kind === 'take-off' ? ground.nearEndM - leastBeforeM : -leastBeforeM,
    ground.nearEndM - ABOUT_M,
    ...near.map((along) => along - ABOUT_M),
    ...measured.map((along) => along - ABOUT_M),
  );
  const lengthM = end.atM - Math.min(0, ground.nearEndM);
  const longestM = end.atM + (MOST_OF_LENGTH - 1) * lengthM;
  const toM = Math.max(
    end.atM + PAST_M,
    ground.farEndM + ABOUT_M / 2,
    ...measured.map((along) => Math.min(along + ABOUT_M, longestM)),
    ...rods.map((rod) => Math.min(rod.toM + ABOUT_M, longestM)),
  );
  return { fromM, toM };
}
