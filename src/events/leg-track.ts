/**
 * Which leg of a circuit does each stretch of track belong to, by its direction alone?
 *
 * In: motion, the view of the direction in use, a range of fixes, the orbits in it. Out: stretches in
 * order of time, each flown along the strip, to its left, against it, or to its right; with the fix
 * at which the turn on to it began and the one at which it was over.
 *
 * The cheapest naming of all fixes at once: each second costs more the further its track is off the
 * direction named, each change of direction costs some seconds. So a leg flown askew, or a track
 * that wanders about the border between two directions, stays one leg. Turns are then found by
 * their rate. Fixes of an orbit count for nothing.
 *
 * Source: dynamic programming over hidden states, standard.
 */
import { crossingAt } from '../numeric/crossing.ts';
import type { Motion } from '../track/motion.ts';
import { LEG } from './circuit-tuning.ts';
import type { OrbitSpan } from './orbit.ts';
import { trackDeg, type StripView } from './strip-view.ts';

/** Direction of a stretch as seen when facing the landing direction. */
export type Heading = 'along' | 'left' | 'against' | 'right';

/** A stretch of one direction; fixes half open. */
export interface Stretch {
  readonly heading: Heading;
  /** Fix at which the turn on to it began. */
  readonly from: number;
  /** First fix after that turn. */
  readonly settled: number;
  readonly to: number;
  /** When that turn began, when it was over, and when the next one began: between fixes, UTC seconds. */
  readonly fromS: number;
  readonly settledS: number;
  readonly toS: number;
}

/** Name of a leg. */
export type LegName = 'climb-out' | 'crosswind' | 'downwind' | 'base' | 'final';

/** A stretch with the name of its leg. */
export interface NamedLeg {
  readonly leg: LegName;
  readonly stretch: Stretch;
}

/** Divides a range of fixes into stretches. `rates`: of turn, degrees a second, positive to the right. */
export function stretchesOf(
  motion: Motion,
  view: StripView,
  rates: Float64Array,
  { from, to, orbits }: { from: number; to: number; orbits: readonly OrbitSpan[] },
): Stretch[] {
  if (to <= from) return [];
  const inOrbit = (fix: number): boolean =>
    orbits.some((orbit) => fix >= orbit.from && fix < orbit.to);
  const runs = runsOf(headingsOf(motion, view, from, to, inOrbit), from);
  const turns = runs.map((run, k) =>
    k === 0
      ? { began: atFix(motion, run.from), over: atFix(motion, run.from) }
      : turnAt({ motion, view, rates }, runs[k - 1], run, inOrbit),
  );
  return runs.map(({ heading, to: end }, k) => {
    const next =
      k + 1 < runs.length ? turns[k + 1].began : { fix: end, timeS: motion.timeS[end - 1] };
    const { began, over } = turns[k];
    return {
      heading,
      from: began.fix,
      settled: Math.min(over.fix, Math.max(began.fix, next.fix - 1)),
      to: next.fix,
      fromS: began.timeS,
      settledS: Math.min(over.timeS, Math.max(began.timeS, next.timeS)),
      toS: next.timeS,
    };
  });
}

interface Run {
  readonly heading: Heading;
  readonly from: number;
  readonly to: number;
}

/** Directions in the order in which a right-hand circuit flies them: each a quarter turn further right. */
const HEADINGS: readonly Heading[] = ['along', 'right', 'against', 'left'];

/** The cheapest direction of every fix, as numbers of `HEADINGS`. */
function headingsOf(
  motion: Motion,
  view: StripView,
  from: number,
  to: number,
  inOrbit: (fix: number) => boolean,
): Int8Array {
  const n = to - from;
  const came = new Int8Array(4 * n);
  let costs = [0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    const fix = from + i;
    const counts = !inOrbit(fix);
    const stepS = i === 0 ? 1 : Math.min(LONGEST_STEP_S, motion.timeS[fix] - motion.timeS[fix - 1]);
    const deg = trackDeg(view, fix);
    const next = [0, 0, 0, 0];
    for (let h = 0; h < 4; h++) {
      let best = h;
      for (let g = 0; g < 4; g++)
        if (turnCost(g, h) + costs[g] < turnCost(best, h) + costs[best]) best = g;
      came[4 * i + h] = best;
      next[h] = costs[best] + turnCost(best, h) + (counts ? stepS * against(deg, h) : 0);
    }
    costs = next;
  }
  const headings = new Int8Array(n);
  let last = costs.indexOf(Math.min(...costs));
  for (let i = n - 1; i >= 0; i--) {
    headings[i] = last;
    last = came[4 * i + last];
  }
  return headings;
}

/** After a hole in the log one fix speaks for no longer than this, seconds. */
const LONGEST_STEP_S = 5;

function turnCost(a: number, b: number): number {
  const quarters = Math.abs(a - b);
  return LEG.turnCostS * (quarters === 3 ? 1 : quarters);
}

function against(deg: number, heading: number): number {
  return Math.min(LEG.mostAgainst, (differenceDeg(deg, 90 * heading) / LEG.halfTurnDeg) ** 2);
}

function runsOf(headings: Int8Array, offset: number): Run[] {
  const runs: Run[] = [];
  let start = 0;
  for (let i = 1; i <= headings.length; i++) {
    if (i < headings.length && headings[i] === headings[start]) continue;
    runs.push({ heading: HEADINGS[headings[start]], from: offset + start, to: offset + i });
    start = i;
  }
  return runs;
}

/** An end of a turn: the fix just outside it, and the moment itself, UTC seconds. */
interface TurnEdge {
  readonly fix: number;
  readonly timeS: number;
}

function atFix(motion: Motion, fix: number): TurnEdge {
  return { fix, timeS: motion.timeS[fix] };
}

/** Where the turn between two runs began and was over. */
function turnAt(
  flown: { motion: Motion; view: StripView; rates: Float64Array },
  before: Run,
  after: Run,
  inOrbit: (fix: number) => boolean,
): { began: TurnEdge; over: TurnEdge } {
  const quarters = (HEADINGS.indexOf(after.heading) - HEADINGS.indexOf(before.heading) + 4) % 4;
  const border = after.from;
  const sign = quarters === 1 ? 1 : quarters === 3 ? -1 : Math.sign(flown.rates[border]) || 1;
  const edge = (run: Run, step: 1 | -1): TurnEdge =>
    edgeOfTurn(flown, { run, border, step, sign }, inOrbit);
  return { began: edge(before, -1), over: edge(after, 1) };
}

/**
 * Going from the border into a run: the first fix no longer turning, and between it and the last one
 * that does the moment at which the rate passed its share of the greatest. A moment's pause does not
 * end a turn. Where the turning never ceases, the fix whose track is nearest the run's direction.
 */
function edgeOfTurn(
  { motion, view, rates }: { motion: Motion; view: StripView; rates: Float64Array },
  { run, border, step, sign }: { run: Run; border: number; step: 1 | -1; sign: number },
  inOrbit: (fix: number) => boolean,
): TurnEdge {
  const wanted = 90 * HEADINGS.indexOf(run.heading);
  const offDeg = (i: number): number => Math.abs(differenceDeg(trackDeg(view, i), wanted));
  let peak = Math.max(sign * rates[border], sign * rates[Math.max(border - 1, 0)]);
  let best = border;
  let straightFrom: number | null = null;
  for (
    let i = step < 0 ? border - 1 : border;
    i >= run.from && i < run.to && !inOrbit(i);
    i += step
  ) {
    const rate = sign * rates[i];
    peak = Math.max(peak, rate);
    if (offDeg(i) < offDeg(best)) best = i;
    if (rate >= LEG.turnBeganShare * peak) straightFrom = null;
    else straightFrom ??= i;
    if (straightFrom === null) continue;
    if (Math.abs(motion.timeS[i] - motion.timeS[straightFrom]) >= LEG.pauseS) break;
  }
  if (straightFrom === null) return atFix(motion, best);
  const turning = straightFrom - step;
  if (turning < 0 || turning >= motion.length) return atFix(motion, straightFrom);
  const [outsideS, insideS] = [motion.timeS[straightFrom], motion.timeS[turning]];
  const [outside, inside] = [sign * rates[straightFrom], sign * rates[turning]];
  const passedS = crossingAt(LEG.turnBeganShare * peak, [outsideS, outside], [insideS, inside]);
  // The first of all looked at may be slower already than the share: then that is all there is.
  return { fix: straightFrom, timeS: passedS ?? (inside > outside ? insideS : outsideS) };
}

function differenceDeg(a: number, b: number): number {
  return ((((a - b) % 360) + 540) % 360) - 180;
}
