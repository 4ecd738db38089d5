/**
 * Which fixes only repeat an old position that the receiver did not measure again?
 *
 * Inputs: the track. Outputs: indices. An aeroplane that stands still repeats its position too, so
 * equality alone is never enough.
 */

import type { Track } from './track.ts';

/** An aeroplane this fast before and after a fix was not standing at it, m/s (10 kt). */
const MOVING_MPS = 5;
/** Over a longer time it may have stopped and started again, s: then it must also have been able to. */
const LONGEST_REPEAT_S = 10;
/** Faster than this, m/s2, no aeroplane on wheels comes to a stand or gathers way (ours). */
const MOST_ON_WHEELS_MPS2 = 4;
/** Steps of the recorded positions that the aeroplane must have moved on before a repeat is wrong. */
const STEPS_MOVED = 2;
/** Share of moving positions that are repeated where a recorder writes copies all along. */
const HABIT = 0.2;
const METRES_PER_DEGREE = 111_195;
/** Positions closer to 0 N 0 E than this are no fix, degrees: 0.1 m. */
const NULL_DEG = 1e-6;

/** True where the position is 0 N 0 E, which receivers write when they have none. */
export function isNullPosition(track: Track, i: number): boolean {
  return Math.abs(track.latDeg[i]) < NULL_DEG && Math.abs(track.lonDeg[i]) < NULL_DEG;
}

/**
 * True where fix `i` is called void by the recorder and repeats the position of fix `before`: on
 * loss of reception recorders repeat the last position (FAI IGC technical specification, 2nd ed.
 * AL8, A4.1). Means nothing in a log of void fixes alone.
 */
export function isFrozen(track: Track, before: number, i: number): boolean {
  return track.valid[i] === 0 && samePosition(track, before, i);
}

/** True where both fixes have the very same latitude and longitude. */
export function samePosition(track: Track, i: number, j: number): boolean {
  return track.latDeg[i] === track.latDeg[j] && track.lonDeg[i] === track.lonDeg[j];
}

/**
 * Fixes that repeat the position before them although the aeroplane was moving.
 *
 * Shape: `order` are indices in rising time; the result is a subset of them. Some recorders write
 * each position twice, so that the speed between neighbours flips between nothing and many times
 * the true one; others repeat the last position for some seconds when reception is lost. The first
 * of the copies carries the time of the measurement. Where a recorder does it all along, the last
 * copy before a new position goes at low speed too; else a repeat at low speed is a standstill.
 * A repeat of more than ten seconds is one too, unless the aeroplane would have had to stop dead at
 * it and to jump away from it. Nothing says how the aeroplane came to a log's first position: where it
 * jumped away from its copies, the one from which it went on at the speed of the next step is kept.
 * Fails: never.
 */
export function findStaleRepeats(track: Track, order: Int32Array): number[] {
  /** Places in `order` where a new position begins. */
  const starts: number[] = [];
  for (let k = 0; k < order.length; k++) {
    if (k === 0 || !samePosition(track, order[k - 1], order[k])) starts.push(k);
  }
  const stale: number[] = [];
  const slow: number[] = [];
  let moves = 0;
  let repeatedMoves = 0;
  for (let s = 1; s < starts.length; s++) {
    const end = starts[s + 1] ?? order.length;
    const here = order[starts[s]];
    const last = order[end - 1];
    const next = end < order.length ? order[end] : -1;
    const before = order[starts[s - 1]];
    const arrivedMps = speedBetween(track, before, here);
    const speed = next < 0 ? arrivedMps : Math.min(arrivedMps, speedBetween(track, here, next));
    let isMoving: boolean;
    if (next < 0) {
      const isPassing = s > 1 && isFurther(track, order[starts[s - 2]], before, here);
      isMoving = isPassing && !canStand(track, before, here);
    } else if (track.timeS[next] - track.timeS[here] > LONGEST_REPEAT_S) {
      isMoving = !canStand(track, before, here) && !canStand(track, last, next);
    } else isMoving = speed >= MOVING_MPS;
    if (isMoving) {
      // Coarse positions repeat honestly while the aeroplane moves by less than their step.
      const honestS = (STEPS_MOVED * track.positionStepM) / Math.max(speed, MOVING_MPS);
      const staleBefore = stale.length;
      for (let k = starts[s] + 1; k < end; k++) {
        if (track.timeS[order[k]] - track.timeS[here] > honestS) stale.push(order[k]);
      }
      moves += 1;
      if (stale.length > staleBefore) repeatedMoves += 1;
    } else if (end - starts[s] > 1) {
      slow.push(last);
    }
  }
  if (repeatedMoves > HABIT * moves) return stale.concat(slow);
  return stale.concat(staleAtBeginning(track, order, starts));
}

/** The copies of a log's first position that do not go with the speed of the step after them. */
function staleAtBeginning(track: Track, order: Int32Array, starts: readonly number[]): number[] {
  if (starts.length < 3 || starts[1] < 2) return [];
  const copies = [...order.slice(0, starts[1])];
  const next = order[starts[1]];
  const last = copies[copies.length - 1];
  const further = order[starts[2]];
  if (canStand(track, last, next) || !isFurther(track, last, next, further)) return [];
  const speedMps = speedBetween(track, next, further);
  const off = (i: number): number => Math.abs(speedBetween(track, i, next) - speedMps);
  const right = copies.reduce((best, i) => (off(i) < off(best) ? i : best));
  return copies.filter((i) => i !== right);
}

/** True where the way led on from `i` over `j` to `k`, not back as from a spike. */
function isFurther(track: Track, i: number, j: number, k: number): boolean {
  return distanceM(track, i, k) > distanceM(track, i, j);
}

/** True where an aeroplane may have stood at one of two neighbouring fixes. */
function canStand(track: Track, i: number, j: number): boolean {
  const stepS = track.timeS[j] - track.timeS[i];
  const mostM = (MOVING_MPS + (MOST_ON_WHEELS_MPS2 * stepS) / 2) * stepS;
  return distanceM(track, i, j) < mostM + STEPS_MOVED * track.positionStepM;
}

function speedBetween(track: Track, i: number, j: number): number {
  return distanceM(track, i, j) / (track.timeS[j] - track.timeS[i]);
}

function distanceM(track: Track, i: number, j: number): number {
  const north = (track.latDeg[j] - track.latDeg[i]) * METRES_PER_DEGREE;
  const shrink = Math.cos((track.latDeg[i] * Math.PI) / 180);
  const east = (track.lonDeg[j] - track.lonDeg[i]) * METRES_PER_DEGREE * shrink;
  return Math.sqrt(north * north + east * east);
}
