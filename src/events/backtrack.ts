/**
 * Where did the aircraft taxi back along the strip, against its landing or its take-off?
 *
 * In: motion, the views of a flight, its approaches and take-offs. Out: backtracks at known strips,
 * and the take-offs without those "rejected" ones that were a brisk backtrack the other way.
 *
 * A backtrack runs along the strip against the landing it follows, or against the take-off it
 * precedes. Where a landing one way is followed by a take-off the other way, only the landing
 * counts: taxiing on to the far end is no backtrack. Numbers in place-tuning.ts.
 */
import { isUndetermined, normalEstimate } from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import type { Approach, Backtrack, TakeOff } from './flight-event.ts';
import { BACKTRACK } from './place-tuning.ts';
import { slope } from './roll-end.ts';
import type { StripView } from './strip-view.ts';
import { ALONG, ROLL } from './tuning.ts';

/** Backtracks, and the take-offs that were none of them. */
export interface FoundBacktracks {
  readonly backtracks: Backtrack[];
  readonly takeOffs: TakeOff[];
}

/** A time on the ground at one strip, between two fixes. */
interface GroundTime {
  readonly view: StripView;
  readonly from: number;
  readonly to: number;
  readonly afterLanding: boolean;
  readonly beforeTakeOff: boolean;
}

/** Finds the backtracks of one flight, in order of time; never fails. */
export function findBacktracks(
  motion: Motion,
  views: readonly StripView[],
  approaches: readonly Approach[],
  takeOffs: readonly TakeOff[],
): FoundBacktracks {
  const left = takeOffs.filter(({ kind }) => kind === 'take-off');
  const backtracks = groundTimes(motion, views, approaches, left).flatMap((time) =>
    backtracksIn(motion, time),
  );
  return {
    backtracks: backtracks.toSorted((a, b) => a.from - b.from),
    takeOffs: takeOffs.filter(
      (each) => each.kind === 'take-off' || !backtracks.some((b) => isSameRun(motion, b, each)),
    ),
  };
}

/** Times on the ground that a landing began or a take-off ended, each seen the way of that event. */
function groundTimes(
  motion: Motion,
  views: readonly StripView[],
  approaches: readonly Approach[],
  takeOffs: readonly TakeOff[],
): GroundTime[] {
  const viewOf = ({ strip, direction }: Pick<Approach, 'strip' | 'direction'>) =>
    views.find(
      (v) => strip !== null && v.stripId === strip && v.direction.designator === direction,
    );
  const landings = approaches.flatMap((approach) => {
    const view = viewOf(approach);
    const from = rollEndFix(motion, approach);
    return view && from !== null ? [{ view, from }] : [];
  });
  const times: GroundTime[] = landings.map(({ view, from }) => {
    const next = takeOffs.find((takeOff) => takeOff.from >= from);
    const beforeTakeOff = next !== undefined && viewOf(next) === view;
    return { view, from, to: next?.from ?? motion.length, afterLanding: true, beforeTakeOff };
  });
  const first = takeOffs.at(0);
  const view = first && viewOf(first);
  // A flight that began on the ground; where it began in the air something arrived first.
  if (view && !approaches.some(({ from }) => from < first.from)) {
    times.push({ view, from: 0, to: first.from, afterLanding: false, beforeTakeOff: true });
  }
  return times;
}

/** The fix at which a landing's roll ended; null where it did not end on the ground. */
function rollEndFix(motion: Motion, { outcome, rollEnd }: Approach): number | null {
  if (outcome !== 'full-stop' || isUndetermined(rollEnd)) return null;
  return isUndetermined(rollEnd.timeS) ? null : firstAtOrAfter(motion.timeS, rollEnd.timeS.value);
}

function backtracksIn(motion: Motion, time: GroundTime): Backtrack[] {
  const { view, from, to } = time;
  const besideM = Math.max(ROLL.leastBesideM, view.strip.widthM / 2 + ROLL.besideM);
  const back = stretchesAlong(motion, view, { from, to }, besideM).filter(
    (run) => view.smoothAlongM[run.to - 1] < view.smoothAlongM[run.from],
  );
  return joined(motion, back)
    .filter((run) => !isTakeOffRun(motion, view, run))
    .map((run) => described(motion, time, run));
}

/** A half-open range of fixes. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * Stretches of taxiing along the strip, either way, within a range of fixes. Each begins and ends
 * aligned; a swerve between, up to a wider angle, does not end it.
 *
 * @param besideM furthest from the centreline, metres.
 */
export function stretchesAlong(
  motion: Motion,
  view: StripView,
  within: Stretch,
  besideM: number,
): Stretch[] {
  const onLine = (i: number, mostDeg: number): boolean => {
    const speed = motion.speedMps[i];
    if (!(speed > BACKTRACK.slowestMps && speed < BACKTRACK.fastestMps)) return false;
    if (Math.abs(view.forwardMps[i]) < Math.cos((mostDeg * Math.PI) / 180) * speed) return false;
    const along = view.smoothAlongM[i];
    if (along < view.beginsAlongM || along > view.endsAlongM) return false;
    return Math.abs(view.smoothCrossM[i]) < besideM;
  };
  const found: Stretch[] = [];
  let from = -1;
  let last = -1;
  for (let i = within.from; i <= within.to; i++) {
    if (i < within.to && onLine(i, BACKTRACK.alignedDeg)) {
      if (from < 0) from = i;
      last = i;
    } else if (from >= 0 && !(i < within.to && onLine(i, BACKTRACK.swerveDeg))) {
      const coveredM = Math.abs(view.smoothAlongM[last] - view.smoothAlongM[from]);
      if (coveredM > BACKTRACK.leastM) found.push({ from, to: last + 1 });
      from = -1;
    }
  }
  return found;
}

/** Stretches one way with a halt between them are one backtrack. */
function joined(motion: Motion, runs: readonly Stretch[]): Stretch[] {
  return runs.reduce<Stretch[]>((list, run) => {
    const last = list.at(-1);
    if (last && motion.timeS[run.from] - motion.timeS[last.to - 1] <= BACKTRACK.haltS) {
      return [...list.slice(0, -1), { from: last.from, to: run.to }];
    }
    return [...list, run];
  }, []);
}

/** A run gathers speed as only an open throttle does; no taxi does. */
function isTakeOffRun(motion: Motion, view: StripView, { from, to }: Stretch): boolean {
  for (let i = from; i < to; i++) {
    const end = firstAtOrAfter(motion.timeS, motion.timeS[i] + BACKTRACK.throttleS);
    if (end >= to) return false;
    if (end - i < 2) continue;
    if (-slope(motion.timeS, view.forwardMps, i, end + 1) > BACKTRACK.throttleMps2) return true;
  }
  return false;
}

function described(motion: Motion, time: GroundTime, { from, to }: Stretch): Backtrack {
  const { view } = time;
  const placeSd = Math.hypot(motion.noise.horizontalSdM, ALONG.driftSdM, placeSdM(view.strip));
  const timeSd = 0.6 * motion.medianIntervalS;
  const last = to - 1;
  // An end may lie anywhere in the step to the next fix.
  const [fromSdM, toSdM] = [from, last].map((i) => timeSd * Math.abs(view.forwardMps[i]));
  let fastest = from;
  for (let i = from; i < to; i++) {
    if (view.forwardMps[i] < view.forwardMps[fastest]) fastest = i;
  }
  return {
    strip: view.strip.id,
    direction: view.direction.designator,
    from,
    to,
    afterLanding: time.afterLanding,
    beforeTakeOff: time.beforeTakeOff,
    startTimeS: normalEstimate(motion.timeS[from], timeSd),
    endTimeS: normalEstimate(motion.timeS[last], timeSd),
    fromAlongM: normalEstimate(view.smoothAlongM[from], Math.hypot(placeSd, fromSdM)),
    toAlongM: normalEstimate(view.smoothAlongM[last], Math.hypot(placeSd, toSdM)),
    lengthM: normalEstimate(
      view.smoothAlongM[from] - view.smoothAlongM[last],
      Math.hypot(Math.SQRT2 * motion.noise.horizontalSdM, fromSdM, toSdM),
    ),
    fastestMps: normalEstimate(-view.forwardMps[fastest], ROLL.speedDoubtMps / 2),
  };
}

/** True where a take-off found the other way on the same strip shares most of its fixes with a backtrack. */
function isSameRun(motion: Motion, backtrack: Backtrack, { strip, from, to }: TakeOff): boolean {
  if (strip !== backtrack.strip) return false;
  const sharedTo = Math.min(to, backtrack.to, motion.length);
  return sharedTo - Math.max(from, backtrack.from) > (to - from) / 2;
}
