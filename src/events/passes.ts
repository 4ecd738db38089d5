/**
 * Where did the aircraft move along a strip, in one of its directions?
 *
 * In: a strip view. Out: passes, each a half-open range of fixes aligned with the strip over it, on
 * final before it or climbing away from it; told apart only as arriving (came from outside or from
 * above) and departing (began slow on the strip).
 */
import type { Motion } from '../track/motion.ts';
import type { StripView } from './strip-view.ts';
import { PASS } from './tuning.ts';

/** One aligned stretch. Indices into the flight's columns, `to` exclusive. */
export interface Pass {
  readonly kind: 'arrival' | 'departure';
  readonly from: number;
  readonly to: number;
  /** True for an arrival that the log begins with, over or beside the strip already: its wheels may have touched before. */
  readonly begunLate: boolean;
  /** Speed of the approach: see `approachSpeed`, m/s; for a departure the greatest speed. */
  readonly referenceMps: number;
}

/**
 * Finds the passes of one view, in order of time.
 *
 * @param flightSpeedMps the flight's typical flying speed (see `typicalSpeed`): much slower passes are taxiing.
 */
export function findPasses(motion: Motion, view: StripView, flightSpeedMps: number): Pass[] {
  const passes: Pass[] = [];
  for (const [from, to] of alignedRuns(motion, view, slowestFlight(flightSpeedMps))) {
    const pass = classify(motion, view, from, to, flightSpeedMps);
    if (pass) passes.push(pass);
  }
  return passes;
}

/** Typical flying speed: the 90th percentile of the speeds above walking pace, m/s; NaN where the log never moves. */
export function typicalSpeed(motion: Motion): number {
  return percentile(
    motion.speedMps.filter((speed) => speed > 3 && speed < FASTEST_MPS),
    0.9,
  );
}

/** No light aeroplane is faster, m/s: such speeds are faults of the log. */
const FASTEST_MPS = 150;

/** Value below which the share `p` of a column lies (nearest rank); NaN for an empty one. */
export function percentile(values: Float64Array, p: number): number {
  if (values.length === 0) return NaN;
  const sorted = values.slice().sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))];
}

/** Speed under which an aligned stretch ends, m/s: a tenth of the flying speed, at most a brisk walk. */
function slowestFlight(flightSpeedMps: number): number {
  return Math.min(3, 0.1 * flightSpeedMps);
}

function alignedRuns(motion: Motion, view: StripView, slowestMps: number): [number, number][] {
  const cosLimit = Math.cos((PASS.alignedDeg * Math.PI) / 180);
  const aligned = (i: number): boolean => {
    const speed = motion.speedMps[i];
    if (!(speed > slowestMps) || view.forwardMps[i] < cosLimit * speed) return false;
    return insideCorridor(view, i);
  };
  const runs: [number, number][] = [];
  let from = -1;
  let last = -1;
  for (let i = 0; i < motion.length; i++) {
    if (!aligned(i)) continue;
    const bridged = last >= 0 && goesOn(motion, view, last, i);
    if (from >= 0 && !bridged) {
      runs.push([from, last + 1]);
      from = -1;
    }
    if (from < 0) from = i;
    last = i;
  }
  if (from >= 0) runs.push([from, last + 1]);
  return runs.filter(
    ([a, b]) =>
      motion.timeS[b - 1] - motion.timeS[a] >= PASS.leastS &&
      view.smoothAlongM[b - 1] - view.smoothAlongM[a] >= PASS.leastM,
  );
}

/** True where an aligned stretch goes on from one fix to a later one: soon after, or over a hole in the log that it went on through. */
function goesOn(motion: Motion, view: StripView, last: number, next: number): boolean {
  const pauseS = motion.timeS[next] - motion.timeS[last];
  if (pauseS <= bridge(motion)) return true;
  if (next !== last + 1 || pauseS > PASS.holeS) return false;
  const slower = Math.min(view.forwardMps[last], view.forwardMps[next]);
  const goneM = view.smoothAlongM[next] - view.smoothAlongM[last];
  return goneM > PASS.holeShare * slower * pauseS;
}

/** Pauses bridged within a pass, seconds: longer for slow logs. */
function bridge(motion: Motion): number {
  return Math.max(PASS.bridgeS, 2.5 * motion.medianIntervalS);
}

function insideCorridor(view: StripView, i: number): boolean {
  const along = view.smoothAlongM[i];
  const nearEnd = view.beginsAlongM;
  const farEnd = view.endsAlongM;
  if (!(along > nearEnd - PASS.reachBeforeM && along < farEnd + PASS.reachAfterM)) return false;
  const outside = Math.max(0, nearEnd - along, along - farEnd);
  return Math.abs(view.smoothCrossM[i]) < PASS.corridorM + PASS.corridorSlope * outside;
}

function classify(
  motion: Motion,
  view: StripView,
  from: number,
  to: number,
  flightSpeedMps: number,
): Pass | null {
  const speeds = view.forwardMps.subarray(from, to);
  let fastest = 0;
  for (const speed of speeds) if (speed > fastest) fastest = speed;
  const startAlong = view.smoothAlongM[from];
  const startsOnStrip = startAlong > view.beginsAlongM - 60 && startAlong < view.endsAlongM + 60;
  const runsFromHere =
    startAlong > view.beginsAlongM - PASS.runBeforeM && startAlong < view.endsAlongM + 60;
  const slowest = slowestFlight(flightSpeedMps);
  if (runsFromHere && (speeds[0] < 0.45 * fastest || followsRest(motion, from, slowest))) {
    return { kind: 'departure', from, to, begunLate: false, referenceMps: fastest };
  }
  const approachMps = approachSpeed(view, from, to);
  if (approachMps < 0.2 * flightSpeedMps) return null;
  const begunLate = startAlong > view.beginsAlongM - 60 && !comesDown(motion, view, from, to);
  if (begunLate && !(startsOnStrip && beginsInRoll(motion, view, from, to, flightSpeedMps))) {
    return null;
  }
  return { kind: 'arrival', from, to, begunLate, referenceMps: approachMps };
}

/** True where the log begins fast over the strip and the aircraft only slowed down from there to a taxi: a landing whose approach was not recorded. */
function beginsInRoll(
  motion: Motion,
  view: StripView,
  from: number,
  to: number,
  flightSpeedMps: number,
): boolean {
  if (from > 0) return false;
  const first = view.forwardMps[from];
  if (first < BEGUN_SHARE * flightSpeedMps) return false;
  let fastest = 0;
  for (let i = from; i < to; i++) fastest = Math.max(fastest, view.forwardMps[i]);
  return fastest < 1.1 * first && motion.speedMps[to - 1] < PASS.taxiShare * first;
}

/** Slower than this share of the flying speed a log may begin in a brisk taxi. */
const BEGUN_SHARE = 0.4;

/** True where the fix before is slow too: between two fixes of a slow log a light aircraft reaches flying speed. */
function followsRest(motion: Motion, from: number, slowestMps: number): boolean {
  if (from === 0 || !(motion.speedMps[from - 1] <= slowestMps)) return false;
  return motion.timeS[from] - motion.timeS[from - 1] <= bridge(motion);
}

/**
 * Speed on short final: the 85th percentile over the last 700 m before the threshold or the lowest
 * point, whichever came first. Before that the aircraft may still be slowing down, after it a
 * go-around is speeding up.
 */
function approachSpeed(view: StripView, from: number, to: number): number {
  let end = from + 1;
  let lowest = from;
  for (let i = from; i < to && view.smoothAlongM[i] < view.beginsAlongM; i++) {
    // Where heights are missing the last fix before the strip.
    if (!(view.smoothAboveM[i] > view.smoothAboveM[lowest])) lowest = i;
    end = lowest + 1;
  }
  end = Math.min(to, Math.max(end, from + LEAST_FINAL_FIXES));
  let start = end - 1;
  const reach = view.smoothAlongM[end - 1] - SHORT_FINAL_M;
  while (start > from && view.smoothAlongM[start - 1] > reach) start--;
  return percentile(view.forwardMps.slice(start, end), 0.85);
}

const SHORT_FINAL_M = 700;
const LEAST_FINAL_FIXES = 3;

function comesDown(motion: Motion, view: StripView, from: number, to: number): boolean {
  if (!motion.hasHeight) return false;
  let lowest = Infinity;
  for (let i = from; i < to; i++) {
    if (view.smoothAboveM[i] < lowest) lowest = view.smoothAboveM[i];
  }
  return view.smoothAboveM[from] - lowest > PASS.descentM;
}
