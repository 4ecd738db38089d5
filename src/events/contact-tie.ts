/**
 * What does a contact with the ground say about the recorded heights?
 *
 * In: motion, strip view, and when the wheels were surely down. Out: a tie: recorded height less the
 * strip's elevation, with its error.
 */
import { mixtureQuantile } from '../numeric/posterior.ts';
import { isUndetermined, type Undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import type { TouchdownPosterior } from './flight-event.ts';
import { hasElevation, tiePlaceId, type Tie } from './ground-tie.ts';
import { timeMixture } from './landing.ts';
import type { StripView } from './strip-view.ts';
import { TIE } from './tuning.ts';

/** Recorded height less the strip's elevation while the wheels were surely down. */
export function contactTie(
  motion: Motion,
  view: StripView,
  posterior: TouchdownPosterior | Undetermined,
  untilS: number,
): Tie | null {
  if (isUndetermined(posterior)) return null;
  const surelyDownS = mixtureQuantile(timeMixture(posterior), 0.95) + 1;
  return tieBetween(motion, view, Math.min(surelyDownS, untilS - 2), untilS);
}

/** Tie from all heights between two times on the ground; null with fewer than two. */
export function tieBetween(
  motion: Motion,
  view: StripView,
  fromS: number,
  toS: number,
): Tie | null {
  let sum = 0;
  let count = 0;
  const to = firstAtOrAfter(motion.timeS, toS);
  const from = firstAtOrAfter(motion.timeS, fromS);
  for (let i = from; i < to; i++) {
    const offset = motion.sourceHeightM[i] - view.groundM[i];
    if (Number.isNaN(offset)) continue;
    sum += offset;
    count++;
  }
  if (count < 2) return null;
  const sdM = Math.hypot(TIE.tieSdM, motion.noise.verticalSdM / Math.sqrt(count));
  return {
    timeS: (fromS + toS) / 2,
    offsetM: sum / count,
    sdM,
    placeId: tiePlaceId(view),
    elevationKnown: hasElevation(view.strip),
  };
}
