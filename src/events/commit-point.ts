/**
 * Was a go-around begun before the commit point?
 *
 * In: motion, the view of the direction, a go-around. Out: where its descent was broken, how far
 * before the commit point that was, and how likely it was before it at all. It describes the past
 * and advises nothing.
 *
 * Source: definitions in docs/spec/measuring.md.
 */
import { normalCdf } from '../numeric/posterior.ts';
import { isUndetermined, normalEstimate, undetermined, Z90, type Measured } from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import { valueAt } from './arrival-data.ts';
import type { GoAround } from './flight-event.ts';
import { endsUnknown, type StripView } from './strip-view.ts';
import { ALONG } from './tuning.ts';

/** A go-around against the recorded commit point of its direction. Metres along from the threshold. */
export interface CommitCheck {
  readonly commitM: number;
  readonly initiationAlongM: Measured;
  /** Positive: begun so far before the commit point; negative: past it. */
  readonly beforeM: Measured;
  /** Probability that it was begun before the commit point, 0 to 1; null where undetermined. */
  readonly beforeProbability: number | null;
}

/** Null where the direction has no commit point. */
export function commitCheck(
  motion: Motion,
  view: StripView,
  { initiationTimeS }: GoAround,
): CommitCheck | null {
  const { commitM } = view.direction;
  if (commitM === null || view.stripId === null) return null;
  const begun = endsUnknown(view) ?? initiationTimeS;
  if (isUndetermined(begun)) {
    const none = undetermined(begun.undetermined);
    return { commitM, initiationAlongM: none, beforeM: none, beforeProbability: null };
  }
  const { value, low, high } = begun;
  const alongM = valueAt(motion.timeS, view.smoothAlongM, value);
  const speedMps = valueAt(motion.timeS, view.forwardMps, value);
  const sd = Math.hypot(
    (speedMps * (high - low)) / (2 * Z90),
    ALONG.driftSdM,
    placeSdM(view.strip),
  );
  return {
    commitM,
    initiationAlongM: normalEstimate(alongM, sd),
    beforeM: normalEstimate(commitM - alongM, sd),
    beforeProbability: normalCdf((commitM - alongM) / sd),
  };
}
