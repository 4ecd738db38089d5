/**
 * Which stretches without a fix are worth a word, and what is said of them?
 *
 * In: a decoded track, its usable fixes in order of time, the gaps between them. Out: one note with
 * clock times, or none. A receiver that was off while the aeroplane stood, as between two flights, took
 * nothing away: such a gap is not told.
 */
import { shortLine } from '../geo/local-frame.ts';
import { problem, type Problem } from '../result.ts';
import type { Track } from './track.ts';

/** A stretch without fixes: the fixes at its ends (indices into the decoded track) and its length. */
export interface TrackGap {
  readonly before: number;
  readonly after: number;
  readonly seconds: number;
}

/** Gaps told with their times: the longest. */
const GAPS_TOLD = 4;
/** From this long on the minutes are enough, and hours, and days, s. */
const IN_MINUTES_S = 120;
const IN_HOURS_S = 7200;
const DAY_S = 86_400;
const IN_DAYS_S = 2 * DAY_S;
/** An aeroplane that stands is found again this near, metres: a push into a hangar, a cold receiver. */
const SAME_STAND_M = 300;
/** Slower than this it stood or taxied on both sides, m/s; nothing flies so slowly. */
const TAXI_MPS = 5;
/** The speed on either side is told over so long, s. */
const BESIDE_S = 15;

/** One note of the gaps that count; none where there are none. `order` are indices of used fixes. */
export function gapNotes(
  track: Track,
  order: Int32Array,
  gaps: readonly TrackGap[],
): readonly Problem[] {
  if (gaps.length === 0) return [];
  const placeOf = new Map<number, number>();
  order.forEach((i, k) => placeOf.set(i, k));
  const told = gaps.filter(({ before }) => !isOnGround(track, order, placeOf.get(before) ?? 0));
  if (told.length === 0) return [];
  const longest = new Set(told.toSorted((a, b) => b.seconds - a.seconds).slice(0, GAPS_TOLD));
  const times = told.filter((gap) => longest.has(gap)).map((gap) => gapWords(track, gap));
  const shorter = told.length - times.length;
  const more = shorter > 0 ? `, and ${shorter} shorter` : '';
  const message = `no usable fix from ${times.join(', ')}${more}, UTC; what happened then is not known`;
  return [problem('gap', 'note', 'file', message)];
}

/** `10:12:05 to 10:12:25 (20 s)`, `10:12 to 10:23 (11 min)`, over a day and more with the dates. */
function gapWords(track: Track, { before, after, seconds }: TrackGap): string {
  const from = seconds < DAY_S ? 11 : 0;
  const to = seconds < IN_MINUTES_S ? 19 : 16;
  const at = (i: number): string =>
    new Date(Math.round(track.timeS[i]) * 1000).toISOString().slice(from, to).replace('T', ' ');
  return `${at(before)} to ${at(after)} (${lengthWords(seconds)})`;
}

function lengthWords(seconds: number): string {
  if (seconds < IN_MINUTES_S) return `${Math.round(seconds)} s`;
  if (seconds < IN_HOURS_S) return `${Math.round(seconds / 60)} min`;
  if (seconds < IN_DAYS_S) return `${Math.round(seconds / 360) / 10} h`;
  return `${Math.round(seconds / DAY_S)} d`;
}

/** True where it stood or taxied before and after the gap behind place `k` of `order`, at one place. */
function isOnGround(track: Track, order: Int32Array, k: number): boolean {
  const between = lengthM(track, order[k], order[k + 1]);
  return between <= SAME_STAND_M && isSlow(track, order, k, -1) && isSlow(track, order, k + 1, 1);
}

/** True where the fixes beside a gap, going away from it, show less than a fast taxi. */
function isSlow(track: Track, order: Int32Array, from: number, way: 1 | -1): boolean {
  const elapsed = (k: number): number => Math.abs(track.timeS[order[k]] - track.timeS[order[from]]);
  let to = from;
  while (to + way >= 0 && to + way < order.length && elapsed(to + way) <= BESIDE_S) to += way;
  // One fix alone shows no speed.
  if (to === from) return false;
  return lengthM(track, order[from], order[to]) / elapsed(to) < TAXI_MPS;
}

function lengthM(track: Track, from: number, to: number): number {
  const { latDeg, lonDeg } = track;
  return shortLine(latDeg[from], lonDeg[from], latDeg[to], lonDeg[to]).lengthM;
}
