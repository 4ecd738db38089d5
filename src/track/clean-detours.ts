/**
 * Which points leave the line of the others and come back, faster than an aeroplane can?
 *
 * Inputs: times and one or two coordinates in metres, and what an aeroplane can do. Output: a mask
 * of the points that are spikes. A spike goes away and comes back: a landing, a turn, a step that
 * stays, a climb never do that within the limits below. Two tests: short pieces cut off on both
 * sides by impossible speeds, and up to five fixes whose sideways step needs an impossible
 * acceleration.
 * Source: the limits are ours, from what light aircraft do; the reasons stand beside them.
 */

import { placesOf } from './clean-places.ts';

/** What is still possible. */
export interface MotionLimits {
  /** Speed above which a step is impossible, m/s. */
  readonly topSpeedMps: number;
  /** Distance that measuring error alone may add, m. */
  readonly slackM: number;
  /** Acceleration across the line, m/s2. */
  readonly accelerationMps2: number;
}

/**
 * Positions: 200 m/s is beyond any aeroplane that uses a strip, also with a jet stream behind it;
 * 15 m are five standard deviations of a poor receiver; 30 m/s2 is a 3 g turn.
 */
export const POSITION_LIMITS: MotionLimits = {
  topSpeedMps: 200,
  slackM: 15,
  accelerationMps2: 30,
};

/**
 * Heights: 60 m/s (12,000 ft/min) is beyond any spin; 20 m because heights are twice as bad as
 * positions; 20 m/s2 is a pull of 3 g less the weight.
 */
export const HEIGHT_LIMITS: MotionLimits = {
  topSpeedMps: 60,
  slackM: 20,
  accelerationMps2: 20,
};

/** A piece between two impossible steps is a spike only if it is as short as this. */
const SHORT_PIECE_FIXES = 30;
const SHORT_PIECE_S = 60;
/** Longest run of fixes looked at for an impossible sideways step. */
const LONGEST_RUN = 5;
/** The neighbours of a spike must follow each other this much better than the spike does. */
const NEIGHBOUR_SHARE = 0.5;
/** Speeds are taken over at least this long, s: steps of tenths of a second are noise. */
const SPEED_BASE_S = 1;
/** Though over no more fixes than this: files with thousands of fixes a second are hostile. */
const SPEED_BASE_FIXES = 50;
/** A height that has jumped is given this long to come back, s: filters settle in half of it. */
const CREEPING_S = 60;
/** At ten fixes a second; see SPEED_BASE_FIXES. */
const CREEPING_FIXES = 600;
/** And counts as back when this share of the jump, besides the slack, is left. */
const LEFT_OF_JUMP = 0.15;
/** A track much faster than the limit is no aeroplane of ours, but no spike either. */
const FAST_TRACK_MARGIN = 1.5;

/**
 * Marks the spikes with 1.
 *
 * Shape: three arrays of one length, times strictly rising; `y` may be all zero. Units: s and m.
 * Fails: never; fewer than three points have no spikes.
 */
export function findDetours(
  timeS: Float64Array,
  x: Float64Array,
  y: Float64Array,
  limits: MotionLimits,
): Uint8Array {
  const spikes = new Uint8Array(timeS.length);
  if (timeS.length < 3) return spikes;
  const line = { timeS, x, y };
  markShortPieces(line, { ...limits, topSpeedMps: topSpeed(line, limits) }, spikes);
  const kept = placesOf(spikes, 0);
  markShortRuns(line, kept, limits, spikes);
  return spikes;
}

interface Line {
  readonly timeS: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

function distance(line: Line, i: number, j: number): number {
  const dx = line.x[j] - line.x[i];
  const dy = line.y[j] - line.y[i];
  // Math.hypot guards against overflow, at ten times the cost.
  return Math.sqrt(dx * dx + dy * dy);
}

function topSpeed(line: Line, limits: MotionLimits): number {
  const speeds = new Float64Array(line.timeS.length - 1);
  for (let i = 0; i < speeds.length; i++) {
    // Steps of a few tenths of a second turn noise into speed.
    speeds[i] = distance(line, i, i + 1) / Math.max(line.timeS[i + 1] - line.timeS[i], 1);
  }
  speeds.sort();
  const usual = speeds[Math.floor(speeds.length * 0.9)];
  return Math.max(limits.topSpeedMps, FAST_TRACK_MARGIN * usual);
}

interface Piece {
  readonly from: number;
  readonly to: number;
}

/** Walks from the longest piece outwards and drops short pieces that cannot be reached from it. */
function markShortPieces(line: Line, limits: MotionLimits, spikes: Uint8Array): void {
  const possible = (i: number, j: number): boolean =>
    distance(line, i, j) <=
    limits.topSpeedMps * Math.abs(line.timeS[j] - line.timeS[i]) + 2 * limits.slackM;
  const pieces: Piece[] = [];
  let from = 0;
  for (let i = 1; i <= line.timeS.length; i++) {
    if (i < line.timeS.length && possible(i - 1, i)) continue;
    pieces.push({ from, to: i });
    from = i;
  }
  let longest = 0;
  pieces.forEach((piece, k) => {
    if (length(piece) > length(pieces[longest])) longest = k;
  });
  let last = pieces[longest].to - 1;
  for (let k = longest + 1; k < pieces.length; k++) {
    const piece = pieces[k];
    if (!possible(last, piece.from) && isShort(line, piece)) spikes.fill(1, piece.from, piece.to);
    else last = piece.to - 1;
  }
  let first = pieces[longest].from;
  for (let k = longest - 1; k >= 0; k--) {
    const piece = pieces[k];
    if (!possible(first, piece.to - 1) && isShort(line, piece)) {
      spikes.fill(1, piece.from, piece.to);
    } else first = piece.from;
  }
}

function length(piece: Piece): number {
  return piece.to - piece.from;
}

function isShort(line: Line, piece: Piece): boolean {
  const lastsS = line.timeS[piece.to - 1] - line.timeS[piece.from];
  return length(piece) <= SHORT_PIECE_FIXES && lastsS <= SHORT_PIECE_S;
}

/** Runs of one to five fixes that stand off the straight line between their neighbours. */
function markShortRuns(
  line: Line,
  kept: Int32Array,
  limits: MotionLimits,
  spikes: Uint8Array,
): void {
  for (let k = 1; k + 1 < kept.length;) {
    let run = 1;
    while (run <= LONGEST_RUN && !isDetour(line, kept, k, k + run, limits)) run += 1;
    const found = run <= LONGEST_RUN;
    if (found) for (let m = k; m < k + run; m++) spikes[kept[m]] = 1;
    k += found ? run + 1 : 1;
  }
}

/**
 * True where all of kept[from, to) are farther off the line between their neighbours than a turn
 * could take them, while the neighbours themselves follow each other much better. Without the
 * second half, the last fixes before a step that stays would pass for a spike.
 */
function isDetour(
  line: Line,
  kept: Int32Array,
  from: number,
  to: number,
  limits: MotionLimits,
): boolean {
  if (to >= kept.length) return false;
  const a = kept[from - 1];
  const b = kept[to];
  let leastOff = Infinity;
  for (let m = from; m < to; m++) {
    const i = kept[m];
    const fromA = line.timeS[i] - line.timeS[a];
    const toB = line.timeS[b] - line.timeS[i];
    const share = fromA / (fromA + toB);
    const offX = line.x[i] - (line.x[a] + share * (line.x[b] - line.x[a]));
    const offY = line.y[i] - (line.y[a] + share * (line.y[b] - line.y[a]));
    const off = Math.sqrt(offX * offX + offY * offY);
    if (!(off > limits.slackM + 0.5 * limits.accelerationMps2 * fromA * toB)) return false;
    leastOff = Math.min(leastOff, off);
  }
  return stepMisfit(line, kept, from - 1, to) <= NEIGHBOUR_SHARE * leastOff;
}

/** How far the step from kept[at] to kept[to] is off what the speeds before and after it say, m. */
function stepMisfit(line: Line, kept: Int32Array, at: number, to: number): number {
  const a = kept[at];
  const b = kept[to];
  let before = at;
  const [first, last] = [at - SPEED_BASE_FIXES, to + SPEED_BASE_FIXES];
  while (before > first && before > 0 && line.timeS[a] - line.timeS[kept[before]] < SPEED_BASE_S) {
    before -= 1;
  }
  let after = to;
  while (
    after < last &&
    after + 1 < kept.length &&
    line.timeS[kept[after]] - line.timeS[b] < SPEED_BASE_S
  ) {
    after += 1;
  }
  const sides = [
    [kept[before], a],
    [b, kept[after]],
  ].filter(([i, j]) => i !== j);
  if (sides.length === 0) return Infinity;
  const lastsS = line.timeS[b] - line.timeS[a];
  const speed = (column: Float64Array): number =>
    sides.reduce(
      (sum, [i, j]) => sum + (column[j] - column[i]) / (line.timeS[j] - line.timeS[i]),
      0,
    ) / sides.length;
  return Math.hypot(
    line.x[b] - line.x[a] - speed(line.x) * lastsS,
    line.y[b] - line.y[a] - speed(line.y) * lastsS,
  );
}

/**
 * Marks heights from an impossible jump until they have come back.
 *
 * Receivers whose height filter starts anew show hundreds of metres in one second and creep back
 * over half a minute. Heights that do not come back within a minute are left: nobody can tell then
 * which side of the jump was wrong.
 * Units: s and m; `spikes` is added to. Fails: never.
 */
export function markCreepingBack(
  timeS: Float64Array,
  heightM: Float64Array,
  limits: MotionLimits,
  spikes: Uint8Array,
): void {
  const kept = placesOf(spikes, 0);
  for (let k = 1; k < kept.length; k++) {
    const before = kept[k - 1];
    const sinceS = (m: number): number => timeS[kept[m]] - timeS[before];
    const off = (m: number): number => Math.abs(heightM[kept[m]] - heightM[before]);
    const jumpM = off(k);
    if (jumpM <= limits.topSpeedMps * sinceS(k) + 2 * limits.slackM) continue;
    const nearM = limits.slackM + LEFT_OF_JUMP * jumpM;
    let back = k + 1;
    const end = Math.min(kept.length, k + CREEPING_FIXES);
    while (back < end && sinceS(back) <= CREEPING_S && off(back) > nearM) back += 1;
    if (back === end || sinceS(back) > CREEPING_S) continue;
    for (let m = k; m < back; m++) spikes[kept[m]] = 1;
    k = back;
  }
}
