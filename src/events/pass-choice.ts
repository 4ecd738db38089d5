/**
 * Which view of a pass is the right one?
 *
 * In: passes seen from several strips and directions. Out: one for each stretch of time, in order of
 * time. Parallel and crossing strips differ in how well the track lies along them, strips in line in
 * where the aircraft was slow or lowest.
 */
import type { Motion } from '../track/motion.ts';
import { CHOICE } from './choice-tuning.ts';
import type { Pass } from './passes.ts';
import { knowsEnds, type StripView } from './strip-view.ts';

/** A pass with the view it was found in. */
export interface ViewedPass {
  readonly view: StripView;
  readonly pass: Pass;
}

/** Keeps the best of overlapping passes; a known strip before an unknown place. */
export function keepBest(motion: Motion, passes: readonly ViewedPass[]): ViewedPass[] {
  const ranked = passes
    .map((viewed) => ({ viewed, missM: missDistance(motion, viewed) }))
    .sort((a, b) => a.missM - b.missM);
  const kept: ViewedPass[] = [];
  for (const { viewed } of ranked) {
    if (!kept.some((other) => overlap(other.pass, viewed.pass))) kept.push(viewed);
  }
  return kept.sort((a, b) => a.pass.from - b.pass.from);
}

/** True where two passes share more than a third of the shorter one. */
function overlap(a: Pass, b: Pass): boolean {
  const shared = Math.min(a.to, b.to) - Math.max(a.from, b.from);
  return shared > Math.min(a.to - a.from, b.to - b.from) / 3;
}

/** How badly a strip explains a pass, metres beside it: from its centreline, and for where the aircraft was slow or lowest; with a handicap for unknown places and unlisted directions. */
function missDistance(motion: Motion, viewed: ViewedPass): number {
  const { view, pass } = viewed;
  const slow = slowFix(motion, view, pass);
  return (
    besideM(view, pass) +
    (slow === null ? missInAir(motion, viewed) : missOnGround(viewed, slow)) +
    missOfGuess(viewed, slow) +
    (view.stripId === null ? CHOICE.unknownM : 0) +
    (view.listed ? 0 : CHOICE.unlistedM)
  );
}

/**
 * How far beyond guessed ends as drawn it was slow or lowest, in metres beside: less than the handicap of
 * an unknown place, but a strip in line that is known to lie there goes before one that may go on so far.
 */
function missOfGuess({ view, pass }: ViewedPass, slow: number | null): number {
  if (view.stripId === null || knowsEnds(view)) return 0;
  const { smoothAboveM, smoothAlongM, forwardMps, frame } = view;
  const isTold = isHeightTold(view, pass);
  const at = slow ?? least(pass, (i) => (isTold ? smoothAboveM[i] : forwardMps[i]));
  const { nearEndAlongM, farEndAlongM } = frame;
  const beyondM = Math.max(nearEndAlongM - smoothAlongM[at], smoothAlongM[at] - farEndAlongM, 0);
  return Math.min(CHOICE.beyondShare * beyondM, CHOICE.beyondGuessM);
}

/** How far beyond the strip's ends it was slow, in metres beside. A run that goes on over a known strip may begin well before it, where its end is entered too far in. */
function missOnGround({ view, pass }: ViewedPass, slow: number): number {
  const missM = CHOICE.beyondShare * outside(view, slow);
  return pass.kind === 'departure' ? Math.min(missM, CHOICE.runBeforeM) : missM;
}

/** Mean distance from the centreline over the strip, or nearest to it, metres. */
function besideM(view: StripView, pass: Pass): number {
  let sum = 0;
  let count = 0;
  let nearest = pass.from;
  for (let i = pass.from; i < pass.to; i++) {
    const beyond = outside(view, i);
    if (beyond === 0) {
      sum += Math.abs(view.smoothCrossM[i]);
      count++;
    }
    if (beyond < outside(view, nearest)) nearest = i;
  }
  if (count > 0) return sum / count;
  return Math.abs(view.smoothCrossM[nearest]);
}

/** Metres before the strip's near end or past its far end; 0 over it. */
function outside({ beginsAlongM, endsAlongM, smoothAlongM }: StripView, i: number): number {
  const along = smoothAlongM[i];
  return Math.max(beginsAlongM - along, along - endsAlongM, 0);
}

/**
 * The fix where an arrival had just become slow, or a departure was slow still: that is on the strip,
 * and not on the way to or from the parking. Null for a pass that was never slow.
 */
function slowFix(motion: Motion, view: StripView, pass: Pass): number | null {
  const slowMps = CHOICE.slowShare * speedByDistance(motion, view, pass);
  const isSlow = (i: number): boolean => view.forwardMps[i] < slowMps;
  if (pass.kind === 'departure') {
    let i = least(pass, (k) => -view.forwardMps[k]);
    while (i > pass.from && !isSlow(i)) i--;
    return i;
  }
  // The fix after the pass may be the first slow one.
  const to = Math.min(pass.to + 1, motion.length);
  for (let i = pass.from; i < to; i++) if (isSlow(i)) return i;
  return null;
}

/** How badly a strip explains a pass that was never slow, metres beside it. */
function missInAir(motion: Motion, viewed: ViewedPass): number {
  return isHeightTold(viewed.view, viewed.pass)
    ? missOfLowest(viewed)
    : -CHOICE.sagM * sagMps(motion, viewed);
}

function isHeightTold({ smoothAboveM }: StripView, { from, to }: Pass): boolean {
  return smoothAboveM.subarray(from, to).every((m) => !Number.isNaN(m));
}

/**
 * How badly a strip explains where a pass was lowest, metres beside it. An approach may be broken off
 * before the strip, but does not touch past its end; and one that comes down all along the strip, from
 * far higher than usual over its threshold, was made to something further on. The ends of a place
 * nobody has kept are only where the rolls were seen.
 */
function missOfLowest({ view, pass }: ViewedPass): number {
  const { beginsAlongM, endsAlongM } = view;
  const lowest = least(pass, (i) => view.smoothAboveM[i]);
  const along = view.smoothAlongM[lowest];
  if (!knowsEnds(view)) return CHOICE.brokenOffShare * outside(view, lowest);
  if (along < beginsAlongM) return CHOICE.brokenOffShare * (beginsAlongM - along);
  const isLast = along > endsAlongM - CHOICE.lastPartM;
  let near = lowest;
  while (near > pass.from && view.smoothAlongM[near - 1] > beginsAlongM) near--;
  const cameDownM = view.smoothAboveM[near] - view.smoothAboveM[lowest];
  return (
    CHOICE.beyondShare * Math.max(along - endsAlongM, 0) +
    (isLast ? CHOICE.highShare * Math.max(cameDownM - CHOICE.thresholdM, 0) : 0)
  );
}

/** Speed lost and gained again over the strip or just before it, m/s: what a touch does, and little a go-around. */
function sagMps(motion: Motion, { view, pass }: ViewedPass): number {
  const { beginsAlongM, endsAlongM } = view;
  const speeds = motion.speedMps.subarray(pass.from, pass.to);
  const fastestFrom = speeds.slice();
  for (let k = speeds.length - 2; k >= 0; k--) {
    fastestFrom[k] = Math.max(speeds[k], fastestFrom[k + 1]);
  }
  let fastest = 0;
  let deepest = 0;
  speeds.forEach((speed, k) => {
    fastest = Math.max(fastest, speed);
    const along = view.smoothAlongM[pass.from + k];
    if (along < beginsAlongM - CHOICE.sagBeforeM || along > endsAlongM) return;
    deepest = Math.max(deepest, Math.min(fastest, fastestFrom[k]) - speed);
  });
  return deepest;
}

/** Mean speed over the metres of a pass, m/s: a long taxi after it hardly counts. */
function speedByDistance(motion: Motion, view: StripView, pass: Pass): number {
  let metres = 0;
  let sum = 0;
  for (let i = pass.from + 1; i < pass.to; i++) {
    const speed = Math.max(view.forwardMps[i], 0);
    const stepM = speed * (motion.timeS[i] - motion.timeS[i - 1]);
    metres += stepM;
    sum += stepM * speed;
  }
  return metres > 0 ? sum / metres : 0;
}

/** The fix of a pass with the least value. */
function least(pass: Pass, valueAt: (i: number) => number): number {
  let best = pass.from;
  for (let i = pass.from + 1; i < pass.to; i++) {
    if (valueAt(i) < valueAt(best)) best = i;
  }
  return best;
}
