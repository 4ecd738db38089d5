/**
 * How many recordings does one file hold?
 *
 * In: a cleaned track. Out: half-open ranges of fixes; a pause of hours between two fixes divides
 * them, because nothing carries over it: not the height's drift, not the wind, not the day.
 */
import type { Track } from '../track/track.ts';

/** Pause that divides a file into recordings, seconds. */
const PAUSE_S = 2 * 3600;

/** Ranges of fixes in order of time. */
export function splitRecordings(track: Track): { from: number; to: number }[] {
  const ranges: { from: number; to: number }[] = [];
  let from = 0;
  for (let i = 1; i <= track.length; i++) {
    if (i < track.length && track.timeS[i] - track.timeS[i - 1] < PAUSE_S) continue;
    ranges.push({ from, to: i });
    from = i;
  }
  return ranges;
}
