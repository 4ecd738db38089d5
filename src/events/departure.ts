/**
 * Did a run along the strip become a take-off, was it rejected, or was it only a taxi?
 *
 * In: motion, strip view, a departing pass. Out: the kind, or null for a taxi.
 */
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import { seenBetween } from './height-gaps.ts';
import type { Pass } from './passes.ts';
import { typicalSpeed } from './passes.ts';
import type { StripView } from './strip-view.ts';
import { TAKE_OFF } from './take-off-tuning.ts';
import { PASS } from './tuning.ts';

/**
 * Kind of a departing pass.
 *
 * @param approachMps typical approach speed of the flight, against which a rejected run is fast or a taxi.
 */
export function departureKind(
  motion: Motion,
  view: StripView,
  pass: Pass,
  approachMps: number,
): 'take-off' | 'rejected' | null {
  if (pass.referenceMps < 0.2 * typicalSpeed(motion)) return null;
  if (leavesGround(motion, view, pass)) return 'take-off';
  // Heights with a hole in them may show a climb, but not that there was none.
  const climbEnd = firstAtOrAfter(motion.timeS, motion.timeS[pass.to - 1] + PASS.climbS);
  const seen = seenBetween(motion, view, pass.from, climbEnd);
  if (!seen.motion.hasHeight && leavesGround(seen.motion, seen.view, pass)) return 'take-off';
  const fastEnough = pass.referenceMps > TAKE_OFF.rejectedShare * approachMps;
  return fastEnough && endsOnStrip(motion, view, pass) ? 'rejected' : null;
}

/** Climbs away within a minute, or without heights runs out past the strip's end at speed. */
function leavesGround(motion: Motion, view: StripView, pass: Pass): boolean {
  if (motion.hasHeight) {
    const start = view.smoothAboveM[pass.from];
    const endS = motion.timeS[pass.to - 1] + PASS.climbS;
    for (let i = pass.from; i < motion.length && motion.timeS[i] <= endS; i++) {
      if (motion.speedMps[i] < 0.3 * pass.referenceMps && i > pass.to) return false;
      if (view.smoothAboveM[i] - start > PASS.climbM) return true;
    }
    return false;
  }
  const last = pass.to - 1;
  return (
    view.smoothAlongM[last] > view.endsAlongM + 60 &&
    motion.speedMps[last] > 0.6 * pass.referenceMps
  );
}

/** Slows down again near the strip within half a minute of the pass. */
function endsOnStrip(motion: Motion, view: StripView, pass: Pass): boolean {
  const endS = motion.timeS[pass.to - 1] + 30;
  for (let i = pass.to - 1; i < motion.length && motion.timeS[i] <= endS; i++) {
    const near =
      view.smoothAlongM[i] > view.beginsAlongM - 50 && view.smoothAlongM[i] < view.endsAlongM + 100;
    if (near && motion.speedMps[i] < 0.4 * pass.referenceMps) return true;
  }
  return false;
}
