/**
 * In which order do the fixes of a track follow each other in time, and which do not fit?
 *
 * Inputs: the times and segments of the fixes that are candidates. Outputs: indices in strictly
 * rising time. Works with longest rising chains rather than with "later than the last one", because
 * one wrong time far ahead would else throw away the rest of the day.
 */

import { samePosition } from './clean-repeats.ts';
import type { Track } from './track.ts';

/** Fixes that fit nowhere else are tried as a chain of their own from this many on. */
const CHAIN_FIXES = 10;
/** Chains tried in one segment; a file in which time jumps about more is noise. */
const CHAINS_PER_SEGMENT = 20;
/** Chains tried in all, largest first; each costs a pass over the track. */
const MOST_CHAINS = 2000;
/** Share of a chain that may be lost at its ends where it overlaps another. */
const MOST_LOST = 0.2;
/** Fixes that may be lost there anyway: many recorders begin a segment with the last fix of the one before. */
const LOST_ANYWAY = 3;

/** A segment is written newest first where so large a share of its steps in time run back: a jumble has as many of either. */
const BACKWARD = 0.8;

/** What came out: `order` has strictly rising times; `overlapping` are fixes of rejected segments. */
export interface TimeOrder {
  readonly order: Int32Array;
  readonly overlapping: readonly number[];
}

/**
 * Orders the fixes at `candidates` (indices into the track, in file order) by time.
 *
 * Within a segment the longest chain of rising times is kept, and further chains (a second flight
 * written before the first) where they fall into a gap. Whole chains are put in order of time. Of
 * two segments that cover the same time, the one with more fixes is kept; fixes of the other that
 * repeat it do not count against the rest. Of fixes with the same time the first is kept. A segment
 * written newest first is read backwards.
 * Fails: never.
 */
export function orderByTime(track: Track, candidates: Int32Array): TimeOrder {
  const chains = segmentsOf(track, candidates).flatMap((segment) => chainsOf(track, segment));
  chains.sort((a, b) => b.fixes.length - a.fixes.length);
  const overlapping: number[] = [];
  let kept = new Int32Array(0);
  for (const chain of chains.slice(0, MOST_CHAINS)) {
    for (const part of partsBetweenTwins(track, kept, chain.fixes)) {
      const fitting = fittingPart(track.timeS, kept, part);
      const lost = part.length - fitting.length;
      if (lost <= LOST_ANYWAY || lost <= MOST_LOST * part.length) {
        kept = merge(track.timeS, kept, fitting);
      } else if (chain.whole) {
        for (const i of part) overlapping.push(i);
      }
    }
  }
  return { order: kept, overlapping };
}

/** A chain of rising times; `whole` for the main chain of a segment. */
interface Chain {
  readonly fixes: Int32Array;
  readonly whole: boolean;
}

/** The fixes by segment; a segment that begins when the one before has ended continues it. */
function segmentsOf(track: Track, candidates: Int32Array): Int32Array[] {
  const segments: Int32Array[] = [];
  let from = 0;
  for (let k = 1; k <= candidates.length; k++) {
    const [last, next] = [candidates[k - 1], candidates[k]];
    const ends =
      k === candidates.length ||
      (track.segment[next] !== track.segment[last] && track.timeS[next] < track.timeS[last]);
    if (ends) {
      segments.push(inRisingTime(track.timeS, candidates.subarray(from, k)));
      from = k;
    }
  }
  return segments;
}

/** A segment in file order; backwards where it is written newest first. */
function inRisingTime(timeS: Float64Array, segment: Int32Array): Int32Array {
  let back = 0;
  let forth = 0;
  for (let k = 1; k < segment.length; k++) {
    const stepS = timeS[segment[k]] - timeS[segment[k - 1]];
    if (stepS < 0) back += 1;
    else if (stepS > 0) forth += 1;
  }
  const isMany = back >= CHAIN_FIXES;
  return isMany && back >= BACKWARD * (back + forth) ? segment.toReversed() : segment;
}

/** The parts of a chain between the fixes that `kept` has already, with the same time and place. */
function partsBetweenTwins(track: Track, kept: Int32Array, chain: Int32Array): Int32Array[] {
  const parts: Int32Array[] = [];
  let from = 0;
  for (let k = 0; k <= chain.length; k++) {
    if (k < chain.length && !hasTwin(track, kept, chain[k])) continue;
    if (k > from) parts.push(chain.subarray(from, k));
    from = k + 1;
  }
  return parts;
}

function hasTwin(track: Track, kept: Int32Array, i: number): boolean {
  const place = firstNotBefore(track.timeS, kept, track.timeS[i]);
  return (
    place < kept.length &&
    track.timeS[kept[place]] === track.timeS[i] &&
    samePosition(track, kept[place], i)
  );
}

function chainsOf(track: Track, segment: Int32Array): Chain[] {
  const chains: Chain[] = [];
  let rest = segment;
  while (rest.length > 0 && chains.length < CHAINS_PER_SEGMENT) {
    const fixes = longestRising(track.timeS, rest);
    if (chains.length > 0 && fixes.length < CHAIN_FIXES) break;
    chains.push({ fixes, whole: chains.length === 0 });
    if (fixes.length === rest.length) break;
    rest = without(rest, fixes);
  }
  return chains;
}

/** The elements of `all` that are not in `part`, where `part` keeps the order of `all`. */
function without(all: Int32Array, part: Int32Array): Int32Array {
  let k = 0;
  return all.filter((i) => {
    if (i !== part[k]) return true;
    k += 1;
    return false;
  });
}

/** The longest subsequence with strictly rising times (patience sorting); the first of equal times. */
function longestRising(timeS: Float64Array, fixes: Int32Array): Int32Array {
  /** tails[l]: place in `fixes` of the smallest last time of a chain of length l + 1. */
  const tails = new Int32Array(fixes.length);
  const before = new Int32Array(fixes.length).fill(-1);
  let length = 0;
  for (let k = 0; k < fixes.length; k++) {
    const time = timeS[fixes[k]];
    let low = 0;
    let high = length;
    // A time later than all so far is the rule; only the exceptions are searched.
    if (length > 0 && timeS[fixes[tails[length - 1]]] < time) low = length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (timeS[fixes[tails[middle]]] < time) low = middle + 1;
      else high = middle;
    }
    if (low < length && timeS[fixes[tails[low]]] === time) continue;
    tails[low] = k;
    before[k] = low > 0 ? tails[low - 1] : -1;
    if (low === length) length += 1;
  }
  const chain = new Int32Array(length);
  let k = length > 0 ? tails[length - 1] : -1;
  for (let l = length - 1; l >= 0; l--) {
    chain[l] = fixes[k];
    k = before[k];
  }
  return chain;
}

/** The part of a chain that lies between two neighbours of `kept`, measured from the chain's middle. */
function fittingPart(timeS: Float64Array, kept: Int32Array, chain: Int32Array): Int32Array {
  if (kept.length === 0 || chain.length === 0) return chain;
  const middleS = timeS[chain[chain.length >> 1]];
  const place = firstNotBefore(timeS, kept, middleS);
  const earlierS = place > 0 ? timeS[kept[place - 1]] : -Infinity;
  const laterS = place < kept.length ? timeS[kept[place]] : Infinity;
  const from = earlierS === -Infinity ? 0 : firstAfter(timeS, chain, earlierS);
  return chain.subarray(from, firstNotBefore(timeS, chain, laterS));
}

function merge(timeS: Float64Array, kept: Int32Array, chain: Int32Array): Int32Array<ArrayBuffer> {
  const place = chain.length === 0 ? kept.length : firstNotBefore(timeS, kept, timeS[chain[0]]);
  const merged = new Int32Array(kept.length + chain.length);
  merged.set(kept.subarray(0, place));
  merged.set(chain, place);
  merged.set(kept.subarray(place), place + chain.length);
  return merged;
}

/** First place whose time is at or after `time`. */
function firstNotBefore(timeS: Float64Array, order: Int32Array, time: number): number {
  let low = 0;
  let high = order.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[order[middle]] < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

function firstAfter(timeS: Float64Array, order: Int32Array, time: number): number {
  const place = firstNotBefore(timeS, order, time);
  return place < order.length && timeS[order[place]] === time ? place + 1 : place;
}
