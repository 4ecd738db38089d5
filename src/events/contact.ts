/**
 * Did the wheels touch on this pass, or was it broken off in the air?
 *
 * In: motion, strip view, an arriving pass that did not slow down to a taxi. Out: where it was
 * lowest and slowest, how long it stayed low, and the probability of contact.
 *
 * A touch loses speed and stays level near the lowest height; a pass keeps its speed and dips only
 * for a moment. Neither needs the absolute height. Numbers in tuning.ts.
 */
import type { Motion } from '../track/motion.ts';
import type { TiedOffset } from './ground-tie.ts';
import { percentile, type Pass } from './passes.ts';
import type { StripView } from './strip-view.ts';
import { CONTACT } from './tuning.ts';

/** Lowest and slowest part of a pass. Indices of fixes, half open. */
export interface LowPart {
  readonly lowestIndex: number;
  readonly slowestIndex: number;
  /** Seconds within a few metres of the lowest height; NaN without heights. */
  readonly lowTimeS: number;
  /** Slowest over approach speed. */
  readonly speedRatio: number;
  readonly contactProbability: number;
}

/**
 * Examines the low part of a pass.
 *
 * @param offsetAt the tied height offset, or null where it should not be used.
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
  const speedRatio =
    view.forwardMps[slowestIndex] /
    speedBefore(motion, view, pass, Math.min(lowFrom, slowestIndex));
  const bySpeed = (CONTACT.speedRatioEven - speedRatio) / CONTACT.speedRatioScale;
  const byHeight = motion.hasHeight
    ? Math.min(CONTACT.lowTimeMost, (lowTimeS - CONTACT.lowTimeEvenS) / CONTACT.lowTimeScaleS)
    : 0;
  const byTie = offsetAt ? tieScore(motion, view, lowestIndex, offsetAt) : 0;
  const byPlace = isOffStrip(view, lowestIndex) ? -CONTACT.offStripScore : 0;
  const score = bySpeed + byHeight + byTie + byPlace;
  const slope = motion.hasHeight ? CONTACT.slope : CONTACT.slope / 4;
  return {
    lowestIndex,
    slowestIndex,
    lowTimeS,
    speedRatio,
    contactProbability: 1 / (1 + Math.exp(-slope * score)),
  };
}

/** True where the aircraft was lowest well before or behind a known strip: wheels touch on strips. */
function isOffStrip(view: StripView, lowestIndex: number): boolean {
  if (view.stripId === null) return false;
  const along = view.smoothAlongM[lowestIndex];
  return (
    along < view.frame.nearEndAlongM - CONTACT.offStripM ||
    along > view.frame.farEndAlongM + CONTACT.offStripM
  );
}

/**
 * What the tied height says, in units of the score: log likelihood of being on the ground against
 * being anywhere in the first metres above it, over the logistic's slope; 0 where nothing ties it.
 */
function tieScore(
  motion: Motion,
  view: StripView,
  lowestIndex: number,
  offsetAt: (timeS: number) => TiedOffset,
): number {
  const offset = offsetAt(motion.timeS[lowestIndex]);
  if (!motion.hasHeight || !offset.tied) return 0;
  const sd = Math.hypot(offset.sdM, motion.noise.verticalSdM / 2);
  const gap = view.smoothAboveM[lowestIndex] - offset.offsetM;
  const { strayShare, straySdM, passSpanM, slope } = CONTACT;
  const onGround =
    (1 - strayShare) * normalDensity(gap, sd) + strayShare * normalDensity(gap, straySdM);
  return Math.log(onGround * passSpanM) / slope;
}

function normalDensity(gap: number, sd: number): number {
  return Math.exp(-((gap / sd) ** 2) / 2) / (sd * Math.sqrt(2 * Math.PI));
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

/**
 * Speed just before the low part: the median of some seconds of final. An approach that was slowing
 * down all the way must not look like a touch.
 */
function speedBefore(motion: Motion, view: StripView, pass: Pass, anchor: number): number {
  const speeds: number[] = [];
  for (let i = anchor; i >= pass.from; i--) {
    const before = motion.timeS[anchor] - motion.timeS[i];
    if (before > CONTACT.finalFromS) break;
    if (before >= CONTACT.finalToS) speeds.push(view.forwardMps[i]);
  }
  if (!motion.hasHeight || speeds.length === 0) return pass.referenceMps;
  return percentile(Float64Array.from(speeds), 0.5);
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
  const isLow = (i: number): boolean => {
    if (!motion.hasHeight) return true;
    const roomM = i <= lowestIndex ? CONTACT.lowBeforeM : CONTACT.lowAfterM;
    return view.smoothAboveM[i] <= view.smoothAboveM[lowestIndex] + roomM;
  };
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
      along > view.frame.nearEndAlongM - CONTACT.offStripM &&
      along < view.frame.farEndAlongM + CONTACT.offStripM,
  );
  return onStrip >= 0
    ? onStrip
    : Math.max(
        pass.from,
        slowest(() => true),
      );
}
