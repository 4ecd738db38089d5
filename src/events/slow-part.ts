/**
 * Did an arriving pass end on the ground, and did it go on from there?
 *
 * In: motion, strip view, an arriving pass. Out: the fix at which it was slow, whether the aircraft
 * took off again the same way, and whether the log ends in the roll.
 */
import type { Motion } from '../track/motion.ts';
import type { Pass } from './passes.ts';
import type { StripView } from './strip-view.ts';
import { PASS, ROLL } from './tuning.ts';

/** First fix slower than half the approach speed of a roll that became a taxi or ended the log; null for a pass that went on. */
export function slowPart(
  motion: Motion,
  view: StripView,
  pass: Pass,
  limit: number,
): number | null {
  const half = ROLL.slowShare * pass.referenceMps;
  const taxi = PASS.taxiShare * pass.referenceMps;
  const untilS = motion.timeS[pass.to - 1] + watchedS(motion, pass);
  let first = -1;
  for (let i = pass.from; i < limit && motion.timeS[i] <= untilS; i++) {
    const speed = motion.speedMps[i];
    // A roll that was slow at the strip may become a taxi further on.
    if (first < 0 && !isAtStrip(motion, view, pass, i)) continue;
    if (first < 0 && speed < half) first = i;
    if (first >= 0 && speed < taxi) return speedsUpAgain(view, pass, i) ? null : first;
    if (first >= 0 && speed > half * 1.4) first = -1;
  }
  const last = motion.length - 1;
  const endsOnRoll =
    limit === motion.length &&
    motion.timeS[last] - motion.timeS[pass.to - 1] <= 2 * motion.medianIntervalS &&
    isAtStrip(motion, view, pass, last) &&
    motion.speedMps[last] < ROLL.logEndShare * pass.referenceMps &&
    !climbsAway(motion, view, pass, last);
  if (!endsOnRoll) return null;
  return first >= 0 ? first : last;
}

/** True where the aircraft is so far above the lowest point of its pass that no ground explains it. */
function climbsAway(motion: Motion, view: StripView, pass: Pass, index: number): boolean {
  if (!motion.hasHeight) return false;
  const lowestM = view.smoothAboveM
    .subarray(pass.from, pass.to)
    .reduce((least, aboveM) => Math.min(least, aboveM), Infinity);
  return view.smoothAboveM[index] > lowestM + ROLL.logEndRiseM;
}

/** Seconds after the aligned stretch in which the aircraft must have become slow: it may have done so in a hole of the log. */
function watchedS(motion: Motion, pass: Pass): number {
  if (pass.to >= motion.length) return ROLL.watchedAfterPassS;
  const holeS = motion.timeS[pass.to] - motion.timeS[pass.to - 1];
  if (holeS > PASS.holeS) return ROLL.watchedAfterPassS;
  return Math.max(ROLL.watchedAfterPassS, holeS + ROLL.standstillS);
}

/** True where the aircraft took off again from about where it stopped, soon and without turning round. */
export function sameWayOn(motion: Motion, view: StripView, pass: Pass, departure: Pass): boolean {
  if (motion.timeS[departure.from] - motion.timeS[pass.to - 1] > ROLL.sameWayS) return false;
  let furthest = -Infinity;
  for (let i = pass.to - 1; i <= departure.from; i++) {
    furthest = Math.max(furthest, view.smoothAlongM[i]);
    if (view.smoothAlongM[i] < furthest - ROLL.sameWayBackM) return false;
    if (Math.abs(view.smoothCrossM[i]) > Math.max(view.strip.widthM, 2 * ROLL.leastBesideM)) {
      return false;
    }
  }
  return true;
}

/** True where the log ends on the strip, or past its end, before the aircraft that touched gained any speed or height again. */
export function endsInRoll(motion: Motion, view: StripView, pass: Pass, slowest: number): boolean {
  const last = motion.length - 1;
  if (pass.to <= last || !isAtStrip(motion, view, pass, last)) return false;
  const gainedMps = view.forwardMps[last] - view.forwardMps[slowest];
  const gainedM = motion.hasHeight ? view.smoothAboveM[last] - view.smoothAboveM[slowest] : 0;
  return gainedMps < ROLL.logEndGainMps && gainedM < ROLL.logEndGainM;
}

/** True where the same pass goes on at flying speed: slow for a moment, then power for take-off. */
function speedsUpAgain(view: StripView, pass: Pass, slow: number): boolean {
  for (let i = slow; i < pass.to; i++) {
    if (view.forwardMps[i] > ROLL.againShare * pass.referenceMps) return true;
  }
  return false;
}

/** True where a slow aircraft is on its roll at this strip, or overran it. */
function isAtStrip(motion: Motion, view: StripView, pass: Pass, i: number): boolean {
  return nearStrip(view, i) || overruns(motion, view, pass, i);
}

/**
 * True further past the far end, in line with the strip and going its way, or standing after it went
 * so: where the pass is told at this strip (SC1) that is an overrun. What turned away landed elsewhere.
 */
function overruns(motion: Motion, view: StripView, pass: Pass, i: number): boolean {
  const pastM = view.smoothAlongM[i] - view.endsAlongM;
  if (pastM < 0 || pastM > PASS.reachAfterM) return false;
  if (Math.abs(view.smoothCrossM[i]) > BESIDE_M) return false;
  let moving = i;
  while (moving > pass.from && motion.speedMps[moving] < ROLL.turningMps) moving--;
  const cosLimit = Math.cos((PASS.alignedDeg * Math.PI) / 180);
  return view.forwardMps[moving] > cosLimit * motion.speedMps[moving];
}

/** True over the strip or so close to it that a roll there is one at this strip. */
export function nearStrip(view: StripView, i: number): boolean {
  const along = view.smoothAlongM[i];
  return (
    along > view.beginsAlongM - 100 &&
    along < view.endsAlongM + 150 &&
    Math.abs(view.smoothCrossM[i]) < BESIDE_M
  );
}

/** Further beside than this no roll is one at the strip, metres. */
const BESIDE_M = 150;
