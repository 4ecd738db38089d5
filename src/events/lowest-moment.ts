/**
 * When may an aircraft that passed along a strip have been lowest?
 *
 * In: motion, strip view, the fixes of the pass, its lowest fix. Out: the first and the last moment
 * that the recorded heights cannot tell from the lowest. A pass flown level was lowest anywhere in it.
 *
 * Source: definitions in docs/spec/measuring.md; checked on simulated low passes.
 */
import { crossingAt } from '../numeric/crossing.ts';
import type { Motion } from '../track/motion.ts';
import type { StripView } from './strip-view.ts';
import { TIE } from './tuning.ts';

/** A span of the log's clock, seconds. */
export interface LowestSpan {
  readonly fromS: number;
  readonly toS: number;
}

/** All moments of a pass (fixes `from` to `to`, half open) that may have been the lowest; never fails. */
export function perhapsLowest(
  motion: Motion,
  view: StripView,
  { from, to }: { readonly from: number; readonly to: number },
  lowest: number,
): LowestSpan {
  const { timeS } = motion;
  /** How much higher than the lowest fix the log has a fix than it may, metres; negative: it may have been lower. */
  const tooHighM = (i: number): number =>
    view.smoothAboveM[i] - view.smoothAboveM[lowest] - doubtM(motion, timeS[i] - timeS[lowest]);
  const furthest = (first: number, way: 1 | -1): number => {
    let i = first;
    while (i !== lowest && !(tooHighM(i) < 0)) i -= way;
    const next = i + way;
    if (next < from || next >= to) return timeS[i];
    return crossingAt(0, [timeS[i], tooHighM(i)], [timeS[next], tooHighM(next)]) ?? timeS[i];
  };
  return { fromS: furthest(from, -1), toS: furthest(to - 1, 1) };
}

/** By how much two recorded heights may differ for the same true one, seconds apart, metres: smoothed noise, and the receiver's drift between them. */
function doubtM({ noise }: Motion, apartS: number): number {
  const driftedM = TIE.driftSdM * Math.sqrt((2 * Math.abs(apartS)) / TIE.driftTimeS);
  return Math.hypot(noise.verticalSdM / 2, driftedM);
}
