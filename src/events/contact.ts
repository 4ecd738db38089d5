/**
 * Did the wheels touch on this pass, or was it broken off in the air?
 *
 * In: motion, strip view, an arriving pass that did not slow down to a taxi. Out: where it was
 * lowest and slowest, how long it stayed low, and the probability of contact.
 *
 * A touch loses speed and stays level near the lowest height; a pass keeps its speed and dips only
 * for a moment; for a skim of the ground only the height can speak (contact-signs.ts). Numbers in
 * tuning.ts.
 */
import type { Motion } from '../track/motion.ts';
import { contactProbability, groundLogRatio, speedSign } from './contact-signs.ts';
import type { TiedOffset } from './ground-tie.ts';
import type { Pass } from './passes.ts';
import { offsetByPath } from './path-tie.ts';
import type { StripView } from './strip-view.ts';
import { CONTACT } from './tuning.ts';

/** Lowest and slowest part of a pass. Indices of fixes, half open. */
export interface LowPart {
  readonly lowestIndex: number;
  readonly slowestIndex: number;
  readonly contactProbability: number;
}

/**
 * Examines the low part of a pass.
 *
 * @param offsetAt the height offset as known without this pass, or null where it should not be used.
 */
export function examineLowPart(
  motion: Motion,
  view: StripView,
  pass: Pass,
  offsetAt: ((timeS: number) => TiedOffset) | null,
): LowPart {
  const lowestIndex = lowest(motion, view, pass);
  const [lowFrom, lowTo] = lowSpan(motion, view, pass, lowestIndex);
  const slowestIndex = slowestWhileLow(motion, view, pass, lowestIndex);
  const lowTimeS = motion.hasHeight ? motion.timeS[lowTo - 1] - motion.timeS[lowFrom] : NaN;
  const anchor = Math.min(lowFrom, slowestIndex);
  const rollInSpeed = speedSign(motion, view, pass, { anchor, slowest: slowestIndex }, (i) =>
    isBelow(motion, view, lowestIndex, i, CONTACT.lowBeforeM, CONTACT.powerLowM),
  );
  const offset =
    offsetAt &&
    offsetByPath(
      motion,
      view,
      { from: pass.from, lowest: lowestIndex },
      offsetAt,
    )(motion.timeS[lowestIndex]);
  const signs = {
    rollInSpeed,
    lowTimeS,
    groundLogRatio: groundLogRatio(motion, view, lowestIndex, offset),
  };
  return {
    lowestIndex,
    slowestIndex,
    contactProbability: isOffStrip(view, lowestIndex) ? 0 : contactProbability(signs),
  };
}

/** True where the aircraft was lowest well before or behind a known strip: wheels touch on strips. */
function isOffStrip(view: StripView, lowestIndex: number): boolean {
  if (view.stripId === null) return false;
  const along = view.smoothAlongM[lowestIndex];
  return (
    along < view.beginsAlongM - CONTACT.offStripM || along > view.endsAlongM + CONTACT.offStripM
  );
}

/** The lowest smoothed height of the pass; without heights the fix nearest the threshold. */
function lowest(motion: Motion, view: StripView, pass: Pass): number {
  let best = pass.from;
  for (let i = pass.from; i < pass.to; i++) {
    const better = motion.hasHeight
      ? view.smoothAboveM[i] < view.smoothAboveM[best]
      : Math.abs(view.smoothAlongM[i]) < Math.abs(view.smoothAlongM[best]);
    if (better) best = i;
  }
  return best;
}

/** The stretch around the lowest fix that stays within `CONTACT.nearM` of it. */
function lowSpan(
  motion: Motion,
  view: StripView,
  pass: Pass,
  lowestIndex: number,
): [number, number] {
  if (!motion.hasHeight) return [lowestIndex, lowestIndex + 1];
  const limit = view.smoothAboveM[lowestIndex] + CONTACT.nearM;
  let from = lowestIndex;
  let to = lowestIndex + 1;
  while (from > pass.from && view.smoothAboveM[from - 1] < limit) from--;
  while (to < pass.to && view.smoothAboveM[to] < limit) to++;
  return [from, to];
}

/**
 * The slowest fix over the strip, or of the whole pass where it never was over the strip; only while
 * low, because a pull-up slows an aircraft too.
 */
function slowestWhileLow(motion: Motion, view: StripView, pass: Pass, lowestIndex: number): number {
  const isLow = (i: number): boolean =>
    isBelow(motion, view, lowestIndex, i, CONTACT.lowBeforeM, CONTACT.lowAfterM);
  const slowest = (test: (along: number) => boolean): number => {
    let best = -1;
    for (let i = pass.from; i < pass.to; i++) {
      if (!isLow(i) || !test(view.smoothAlongM[i])) continue;
      if (best < 0 || view.forwardMps[i] < view.forwardMps[best]) best = i;
    }
    return best;
  };
  const onStrip = slowest(
    (along) =>
      along > view.beginsAlongM - CONTACT.offStripM && along < view.endsAlongM + CONTACT.offStripM,
  );
  return onStrip >= 0
    ? onStrip
    : Math.max(
        pass.from,
        slowest(() => true),
      );
}

/** True where a fix is at most so far over the lowest one: metres before it, and after it. */
function isBelow(
  motion: Motion,
  view: StripView,
  lowestIndex: number,
  i: number,
  beforeM: number,
  afterM: number,
): boolean {
  if (!motion.hasHeight) return true;
  const roomM = i <= lowestIndex ? beforeM : afterM;
  return view.smoothAboveM[i] <= view.smoothAboveM[lowestIndex] + roomM;
}
