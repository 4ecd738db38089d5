/**
 * Which fixes of a track can be measured from?
 *
 * Input: a Track as decoded. Output: the usable fixes in order of time, a reason for every other
 * one, heights that are spikes, and gaps. Nothing is moved, filled or smoothed, and the decoded
 * track is untouched. Parked aeroplanes repeat their position honestly: those fixes stay.
 */

import type { Problem } from '../result.ts';
import { problem } from '../result.ts';
import { findDetours, HEIGHT_LIMITS, markCreepingBack, POSITION_LIMITS } from './clean-detours.ts';
import { placesOf } from './clean-places.ts';
import { findStaleRepeats, isFrozen, isNullPosition, samePosition } from './clean-repeats.ts';
import { orderByTime } from './clean-times.ts';
import { pickFixes } from './decode-columns.ts';
import { gapNotes, type TrackGap } from './gap-words.ts';
import { LeftOutList } from './decode-left-out.ts';
import type { LeftOut, Track } from './track.ts';

/** Why a fix is not used; `CLEANING_REASONS[code]` for the code in `TrackCleaning.reason`. */
export const CLEANING_REASONS = [
  'used',
  'position 0 N 0 E, which receivers write when they have none',
  'void fix that repeats the last position',
  'fix written twice',
  'same time as another fix, other position',
  'time runs back',
  'second track over the same time',
  'old position written again while moving',
  'position spike: away and back faster than an aeroplane can',
] as const;

/** Codes of CLEANING_REASONS. */
const USED = 0;
const NULL_POSITION = 1;
const FROZEN = 2;
const WRITTEN_TWICE = 3;
const EQUAL_TIME = 4;
const TIME_BACK = 5;
const OVERLAP = 6;
const STALE = 7;
const SPIKE = 8;

/** What can be used, and why the rest cannot. */
export interface TrackCleaning {
  /** Indices of the usable fixes in strictly rising time. */
  readonly order: Int32Array;
  /** For every fix of the track a code into CLEANING_REASONS; 0 where it is used. */
  readonly reason: Uint8Array;
  /** 1 where a used fix has a satellite height that is a spike and must not be used. */
  readonly heightSpike: Uint8Array;
  /** 1 where a used fix has a pressure height that is a spike and must not be used. */
  readonly pressureSpike: Uint8Array;
  /** Gaps between used fixes, in order of time. They are noted, never filled. */
  readonly gaps: readonly TrackGap[];
  readonly leftOut: readonly LeftOut[];
  readonly problems: readonly Problem[];
}

/** Shortest stretch that counts as a gap, s, and in steps of the track. */
const GAP_S = 10;
const GAP_STEPS = 8;

/**
 * Judges every fix of a track.
 *
 * Shape: `reason`, `heightSpike` and `pressureSpike` have a slot for every fix of `track`.
 * Fails: never; an empty track gives empty results.
 */
export function cleanTrack(track: Track): TrackCleaning {
  const reason = new Uint8Array(track.length);
  markWithoutPosition(track, reason);
  const inTime = orderByTime(track, placesOf(reason, USED));
  markOutOfTime(track, inTime.order, inTime.overlapping, reason);
  for (const i of findStaleRepeats(track, inTime.order)) reason[i] = STALE;
  markPositionSpikes(
    track,
    inTime.order.filter((i) => reason[i] === USED),
    reason,
  );
  const order = inTime.order.filter((i) => reason[i] === USED);
  const heightSpike = spikesIn(track, order, track.heightM);
  const pressureSpike = spikesIn(track, order, track.pressureHeightM);
  const gaps = findGaps(track, order);
  return {
    order,
    reason,
    heightSpike,
    pressureSpike,
    gaps,
    leftOut: listLeftOut(track, reason, heightSpike, pressureSpike),
    problems: [...gapNotes(track, order, gaps), ...tellOrder(track, order)],
  };
}

/**
 * The track of the usable fixes, in order of time, spiked heights missing (NaN).
 *
 * Fails: throws RangeError where the cleaning belongs to a longer track.
 */
export function applyCleaning(track: Track, cleaning: TrackCleaning): Track {
  const cleaned = pickFixes(track, cleaning.order);
  cleaning.order.forEach((i, k) => {
    if (cleaning.heightSpike[i] === 1) cleaned.heightM[k] = NaN;
    if (cleaning.pressureSpike[i] === 1) cleaned.pressureHeightM[k] = NaN;
  });
  return cleaned;
}

function markWithoutPosition(track: Track, reason: Uint8Array): void {
  // A recorder that calls every fix void says nothing by it: its repeats are those of any other.
  const tellsVoid = track.valid.includes(1);
  let last = -1;
  for (let i = 0; i < track.length; i++) {
    if (isNullPosition(track, i)) reason[i] = NULL_POSITION;
    else if (tellsVoid && last >= 0 && isFrozen(track, last, i)) reason[i] = FROZEN;
    else last = i;
  }
}

function markOutOfTime(
  track: Track,
  order: Int32Array,
  overlapping: readonly number[],
  reason: Uint8Array,
): void {
  const kept = new Map<number, number>();
  const isKept = new Uint8Array(track.length);
  for (const i of order) isKept[i] = 1;
  if (order.length < reason.length) for (const i of order) kept.set(track.timeS[i], i);
  for (let i = 0; i < track.length; i++) {
    if (reason[i] !== USED || isKept[i] === 1) continue;
    const twin = kept.get(track.timeS[i]);
    if (twin === undefined) reason[i] = TIME_BACK;
    else reason[i] = samePosition(track, twin, i) ? WRITTEN_TWICE : EQUAL_TIME;
  }
  for (const i of overlapping) if (reason[i] !== WRITTEN_TWICE) reason[i] = OVERLAP;
}

function markPositionSpikes(track: Track, order: Int32Array, reason: Uint8Array): void {
  if (order.length === 0) return;
  const { x, y } = planeMetres(track, order);
  const spikes = findDetours(valuesAt(track.timeS, order), x, y, POSITION_LIMITS);
  order.forEach((i, k) => {
    if (spikes[k] === 1) reason[i] = SPIKE;
  });
}

const METRES_PER_DEGREE = 111_195;

/** Metres on a plane about the middle of the track: good to some per cent, which is all a spike needs. */
function planeMetres(track: Track, order: Int32Array): { x: Float64Array; y: Float64Array } {
  const middle = track.latDeg[order[order.length >> 1]];
  const shrink = Math.cos((middle * Math.PI) / 180) * METRES_PER_DEGREE;
  const x = new Float64Array(order.length);
  const y = new Float64Array(order.length);
  let turns = 0;
  order.forEach((i, k) => {
    const step = k === 0 ? 0 : track.lonDeg[i] - track.lonDeg[order[k - 1]];
    // Across the 180th meridian longitude jumps by a turn, the aeroplane does not.
    if (step > 180) turns -= 1;
    else if (step < -180) turns += 1;
    x[k] = (track.lonDeg[i] + 360 * turns) * shrink;
    y[k] = track.latDeg[i] * METRES_PER_DEGREE;
  });
  return { x, y };
}

function valuesAt(column: Float64Array, order: Int32Array): Float64Array {
  const values = new Float64Array(order.length);
  for (let k = 0; k < order.length; k++) values[k] = column[order[k]];
  return values;
}

function spikesIn(track: Track, order: Int32Array, column: Float64Array): Uint8Array {
  const given = order.filter((i) => column[i] > LOWEST_M);
  const heights = valuesAt(column, given);
  const flat = new Float64Array(given.length);
  const timeS = valuesAt(track.timeS, given);
  const found = findDetours(timeS, heights, flat, HEIGHT_LIMITS);
  markCreepingBack(timeS, heights, HEIGHT_LIMITS, found);
  const spikes = new Uint8Array(track.length);
  for (const i of order) if (column[i] <= LOWEST_M) spikes[i] = 1;
  given.forEach((i, k) => {
    spikes[i] = found[k];
  });
  return spikes;
}

/** No aerodrome lies so low, on any datum (the Dead Sea's shore: some 430 m below sea level, from memory): receivers write -999 and the like for nothing, metres. */
const LOWEST_M = -600;

function findGaps(track: Track, order: Int32Array): TrackGap[] {
  const steps = new Float64Array(Math.max(order.length - 1, 0));
  for (let k = 0; k < steps.length; k++) {
    steps[k] = track.timeS[order[k + 1]] - track.timeS[order[k]];
  }
  const median = steps.length === 0 ? 0 : steps.toSorted()[steps.length >> 1];
  const limit = Math.max(GAP_S, GAP_STEPS * median);
  const gaps: TrackGap[] = [];
  steps.forEach((seconds, k) => {
    if (seconds > limit) gaps.push({ before: order[k], after: order[k + 1], seconds });
  });
  return gaps;
}

function listLeftOut(
  track: Track,
  reason: Uint8Array,
  heightSpike: Uint8Array,
  pressureSpike: Uint8Array,
): LeftOut[] {
  const fixes = new LeftOutList();
  const heights = new LeftOutList();
  const pressures = new LeftOutList();
  let used = 0;
  let goodHeights = 0;
  let goodPressures = 0;
  for (let i = 0; i < track.length; i++) {
    const line = track.line[i];
    if (reason[i] === USED) used += 1;
    else fixes.add(line, CLEANING_REASONS[reason[i]], used);
    if (heightSpike[i] === 1) heights.add(line, 'height spike: height not used', goodHeights);
    else goodHeights += 1;
    if (pressureSpike[i] === 1) {
      pressures.add(line, 'pressure height spike: height not used', goodPressures);
    } else goodPressures += 1;
  }
  return [...fixes.list(), ...heights.list(), ...pressures.list()];
}

function tellOrder(track: Track, order: Int32Array): Problem[] {
  const isBack = (i: number, at: number): boolean => at > 0 && i < order[at - 1];
  const k = order.findIndex(isBack);
  if (k === -1) return [];
  const where = `line ${track.line[order[k - 1]]}`;
  if (order.filter(isBack).length > order.length / 2) {
    const message =
      'The fixes stand newest first in the file; they were put in order of time before measuring.';
    return [problem('newest-first', 'note', where, message)];
  }
  const message =
    'The parts of the file are not in order of time; they were put in order before measuring.';
  return [problem('parts-out-of-order', 'note', where, message)];
}
