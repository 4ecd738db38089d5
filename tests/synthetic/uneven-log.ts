/**
 * A log whose recorder writes a fix every one or two seconds in turns and every one to six on
 * straights, as some do to save room. In: a log with a fix a second, a seed. Out: fewer of its fixes.
 * Source: common practice, no source.
 */
import { createRandom } from '../../src/numeric/random.ts';
import { pickFixes } from '../../src/track/decode-columns.ts';
import type { Track } from '../../src/track/track.ts';

/** Thins a log unevenly. */
export function unevenLog(track: Track, seed: number): Track {
  const random = createRandom(seed);
  const kept: number[] = [];
  for (let i = 0; i < track.length;) {
    kept.push(i);
    i += turnDeg(track, i) > TURNING_DEG ? 1 + random.integer(0, 2) : 1 + random.integer(0, 6);
  }
  return pickFixes(track, Int32Array.from(kept));
}

const TURNING_DEG = 6;
const BESIDE = 3;

/** By how much the course of three fixes before and of three after a fix differ, degrees. */
function turnDeg({ latDeg, lonDeg, length }: Track, i: number): number {
  if (i < BESIDE || i + BESIDE >= length) return 0;
  const course = (a: number, b: number): number => {
    const east = (lonDeg[b] - lonDeg[a]) * Math.cos((latDeg[a] * Math.PI) / 180);
    return Math.atan2(east, latDeg[b] - latDeg[a]);
  };
  const off = course(i, i + BESIDE) - course(i - BESIDE, i);
  return Math.abs((Math.atan2(Math.sin(off), Math.cos(off)) * 180) / Math.PI);
}
