/**
 * Which leg of a circuit does each stretch of track belong to, by its direction alone?
 *
 * In: motion, the view of the direction in use, a range of fixes. Out: stretches in order of time,
 * each flown along the strip, to its left, against it, or to its right; with the fix at which the
 * turn on to it began.
 */
import type { Motion } from '../track/motion.ts';
import { LEG } from './circuit-tuning.ts';
import type { StripView } from './strip-view.ts';

/** Direction of a stretch as seen when facing the landing direction. */
export type Heading = 'along' | 'left' | 'against' | 'right';

/** A stretch of one direction; fixes half open. */
export interface Stretch {
  readonly heading: Heading;
  /** Fix at which the turn on to it began. */
  readonly from: number;
  /** First fix flown in its direction. */
  readonly settled: number;
  readonly to: number;
}

/** Name of a leg. */
export type LegName = 'climb-out' | 'crosswind' | 'downwind' | 'base' | 'final';

/** A stretch with the name of its leg. */
export interface NamedLeg {
  readonly leg: LegName;
  readonly stretch: Stretch;
}

/** Divides a range of fixes into stretches. */
export function stretchesOf(motion: Motion, view: StripView, from: number, to: number): Stretch[] {
  const runs: { heading: Heading; settled: number; to: number }[] = [];
  for (let i = from; i < to; i++) {
    const heading = headingOf(trackDeg(view, i));
    const last = runs.at(-1);
    if (last?.heading === heading) last.to = i + 1;
    else runs.push({ heading, settled: i, to: i + 1 });
  }
  const long = mergeShort(motion, runs);
  return long.map((run, k) => ({
    heading: run.heading,
    from: k === 0 ? run.settled : turnStart(view, long[k - 1].settled, run.settled),
    settled: run.settled,
    to: k + 1 < long.length ? turnStart(view, run.settled, long[k + 1].settled) : run.to,
  }));
}

/** Track relative to the landing direction, degrees, positive to the right, -180 to 180. */
export function trackDeg(view: StripView, i: number): number {
  return (Math.atan2(view.rightMps[i], view.forwardMps[i]) * 180) / Math.PI;
}

function headingOf(deg: number): Heading {
  const size = Math.abs(deg);
  if (size <= LEG.halfTurnDeg) return 'along';
  if (size >= 180 - LEG.halfTurnDeg) return 'against';
  return deg < 0 ? 'left' : 'right';
}

/** Drops stretches too short to be a leg and joins what they divided. */
function mergeShort(
  motion: Motion,
  runs: readonly { heading: Heading; settled: number; to: number }[],
): { heading: Heading; settled: number; to: number }[] {
  const kept: { heading: Heading; settled: number; to: number }[] = [];
  for (const run of runs) {
    const seconds = motion.timeS[run.to - 1] - motion.timeS[run.settled];
    if (seconds < LEG.leastS) continue;
    const last = kept.at(-1);
    if (last?.heading === run.heading) last.to = run.to;
    else kept.push({ ...run });
  }
  return kept;
}

/** Going back from the first fix of the new direction: where the track still was that of the leg before. */
function turnStart(view: StripView, before: number, settled: number): number {
  const middle = Math.floor((before + settled) / 2);
  const tracks: number[] = [];
  for (let i = before; i <= Math.max(before, middle); i++) tracks.push(trackDeg(view, i));
  const steady = meanDeg(tracks);
  for (let i = settled; i > before; i--) {
    if (Math.abs(differenceDeg(trackDeg(view, i), steady)) < LEG.turnBeganDeg) return i;
  }
  return before;
}

function meanDeg(tracks: readonly number[]): number {
  let east = 0;
  let north = 0;
  for (const deg of tracks) {
    east += Math.sin((deg * Math.PI) / 180);
    north += Math.cos((deg * Math.PI) / 180);
  }
  return (Math.atan2(east, north) * 180) / Math.PI;
}

function differenceDeg(a: number, b: number): number {
  return ((((a - b) % 360) + 540) % 360) - 180;
}
