/**
 * When and where did the take-off run begin?
 *
 * In: motion, strip view and the range of a departure. Out: the start of the continuous
 * acceleration, on the strip's own line.
 */
import type { Motion } from '../track/motion.ts';
import { valueAt } from './arrival-data.ts';
import { slope } from './roll-end.ts';
import type { StripView } from './strip-view.ts';

/** Where a departure begins: from a standstill or slow taxi, or rolling on after a touch. */
export interface DepartureRange {
  readonly from: number;
  readonly to: number;
  readonly rolling: boolean;
}

/** Start of the run; the place without receiver drift and the strip's own error. */
export interface Release {
  readonly timeS: number;
  readonly timeSdS: number;
  readonly alongM: number;
  readonly alongSdM: number;
}

/** Start of the continuous acceleration: where the line through the early speeds meets the speed before. */
export function brakeRelease(motion: Motion, view: StripView, range: DepartureRange): Release {
  let fastest = 0;
  for (let i = range.from; i < range.to; i++) fastest = Math.max(fastest, view.forwardMps[i]);
  // The last fix, going back from a third of the top speed, after which the speed only rose.
  const third = firstIndex(range.from, range.to, (i) => view.forwardMps[i] > fastest / 3);
  let start = third;
  const slowLimit = Math.max(1, 0.04 * fastest);
  while (start > 0 && motion.timeS[third] - motion.timeS[start] < 25) {
    if (view.forwardMps[start] < slowLimit) break;
    if (view.forwardMps[start - 1] > view.forwardMps[start] + 0.3) break;
    start--;
  }
  let mean = 0;
  let count = 0;
  for (let i = start; i >= 0 && motion.timeS[start] - motion.timeS[i] <= 4; i--) {
    mean += Math.abs(view.forwardMps[i]);
    count++;
  }
  const before = mean / count < slowLimit ? 0 : view.forwardMps[start];
  const from = Math.min(start + 1, third);
  const acceleration =
    third - from >= 2 ? slope(motion.timeS, view.forwardMps, from, third + 1) : NaN;
  const middle = Math.floor((from + third) / 2);
  const usable = acceleration > 0.1;
  const timeS = usable
    ? Math.min(
        motion.timeS[third],
        Math.max(
          motion.timeS[start] - 2,
          motion.timeS[middle] - (view.forwardMps[middle] - before) / acceleration,
        ),
      )
    : motion.timeS[start];
  return {
    timeS,
    timeSdS: Math.max(0.6, 0.5 * motion.medianIntervalS),
    alongM: standingAlong(motion, view, start, timeS),
    alongSdM: Math.hypot(motion.noise.horizontalSdM, before > 0 ? before * 0.8 : 0.6),
  };
}

/** Position at the release: the mean of the last seconds where the aircraft stood, else where it was. */
function standingAlong(motion: Motion, view: StripView, start: number, timeS: number): number {
  let sum = 0;
  let count = 0;
  for (let i = start; i >= 0 && motion.timeS[start] - motion.timeS[i] <= 5; i--) {
    if (motion.speedMps[i] > 0.6) break;
    sum += view.alongM[i];
    count++;
  }
  return count >= 2 ? sum / count : valueAt(motion.timeS, view.smoothAlongM, timeS);
}

export function firstIndex(from: number, to: number, test: (i: number) => boolean): number {
  for (let i = from; i < to; i++) if (test(i)) return i;
  return to - 1;
}
