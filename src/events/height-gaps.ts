/**
 * Are there heights all through a pass?
 *
 * In: motion, strip view, which fixes. Out: the same, or the same without any smoothed height where one is
 * missing on the way: then the pass is measured as in a log without heights, and says so, instead of by
 * half of them. Recorded heights stay: what looks at rows of them sees the holes itself.
 */
import type { Motion } from '../track/motion.ts';
import type { StripView } from './strip-view.ts';

/** Motion and view as one pass is measured by. */
export interface Seen {
  readonly motion: Motion;
  readonly view: StripView;
}

/** Fixes `from` to just before `to`. Never fails. */
export function seenBetween(motion: Motion, view: StripView, from: number, to: number): Seen {
  if (!motion.hasHeight) return { motion, view };
  let isWhole = true;
  for (let i = from; i < to; i++) if (Number.isNaN(motion.smoothHeightM[i])) isWhole = false;
  if (isWhole) return { motion, view };
  const none = new Float64Array(motion.length).fill(NaN);
  return {
    motion: {
      ...motion,
      hasHeight: false,
      smoothHeightM: none,
      verticalSpeedMps: none,
      verticalSpeedSdMps: none,
    },
    view: { ...view, smoothAboveM: none },
  };
}
