/**
 * Which fixes only repeat an old position that the receiver did not measure again?
 *
 * Inputs: the track. Outputs: indices. An aeroplane that stands still repeats its position too, so
 * equality alone is never enough.
 */

import type { Track } from './track.ts';

/** An aeroplane this fast before and after a fix was not standing at it, m/s (10 kt). */
const MOVING_MPS = 5;
/** Over a longer time it may have stopped and started again, s. */
const LONGEST_REPEAT_S = 10;
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
 * AL8, A4.1).
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
  for (let s = 1; s + 1 < starts.length; s++) {
    const here = order[starts[s]];
    const next = order[starts[s + 1]];
    const lastsS = track.timeS[next] - track.timeS[here];
    const speed = Math.min(
      speedBetween(track, order[starts[s - 1]], here),
      speedBetween(track, here, next),
    );
    if (speed >= MOVING_MPS && lastsS <= LONGEST_REPEAT_S) {
      // Coarse positions repeat honestly while the aeroplane moves by less than their step.
      const honestS = (STEPS_MOVED * track.positionStepM) / speed;
      const before = stale.length;
      for (let k = starts[s] + 1; k < starts[s + 1]; k++) {
        if (track.timeS[order[k]] - track.timeS[here] > honestS) stale.push(order[k]);
      }
      moves += 1;
      if (stale.length > before) repeatedMoves += 1;
    } else if (starts[s + 1] - starts[s] > 1) {
      slow.push(order[starts[s + 1] - 1]);
    }
  }
  return repeatedMoves > HABIT * moves ? stale.concat(slow) : stale;
}

function speedBetween(track: Track, i: number, j: number): number {
  const north = (track.latDeg[j] - track.latDeg[i]) * METRES_PER_DEGREE;
  const shrink = Math.cos((track.latDeg[i] * Math.PI) / 180);
  const east = (track.lonDeg[j] - track.lonDeg[i]) * METRES_PER_DEGREE * shrink;
  return Math.sqrt(north * north + east * east) / (track.timeS[j] - track.timeS[i]);
}
