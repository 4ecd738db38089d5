/**
 * Was a full turn flown, to lose time or to look?
 *
 * In: motion and a range of fixes. Out: orbits: turns through a full circle without a straight part,
 * by their track over the ground. A circuit turns as far, but flies straight between its turns.
 */
import type { Motion } from '../track/motion.ts';
import { ORBIT } from './circuit-tuning.ts';
import { trackDeg, type StripView } from './strip-view.ts';

/** A full turn; fixes half open, ending on the track it began on. */
export interface OrbitSpan {
  readonly from: number;
  readonly to: number;
  readonly side: 'left' | 'right';
}

/** Rate of turn of the track at every fix, degrees a second, positive to the right. */
export function turnRates(motion: Motion): Float64Array {
  const { velocityEastMps: east, velocityNorthMps: north } = motion;
  return motion.timeS.map((_, i) => {
    const speed = Math.max(motion.speedMps[i], 1);
    const cross =
      north[i] * motion.accelerationEastMps2[i] - east[i] * motion.accelerationNorthMps2[i];
    return (cross / (speed * speed)) * (180 / Math.PI);
  });
}

/**
 * The orbits between two fixes, in order of time; they do not overlap.
 *
 * Where an orbit runs into the turn before or after it, it counts as begun where it then took least
 * time, and where the track was near a leg's direction, downwind's most of all.
 */
export function findOrbits(
  motion: Motion,
  view: StripView,
  rates: Float64Array,
  { from, to }: { from: number; to: number },
): OrbitSpan[] {
  const turned = turnedDeg(motion, from, to);
  const orbits: OrbitSpan[] = [];
  const orbitFrom = (i: number): OrbitSpan | null => {
    if (isClimbOut(view, i)) return null;
    const j = fullTurnFrom(motion, turned, from, i, to);
    if (j === null) return null;
    const right = turned[j - from] > turned[i - from];
    if (!isSteady(motion, rates, i, j, right ? 1 : -1)) return null;
    return { from: i, to: j + 1, side: right ? 'right' : 'left' };
  };
  for (let i = from; i < to; i++) {
    let best = orbitFrom(i);
    if (best === null) continue;
    const first = best;
    for (let k = i + 1; k < first.to; k++) {
      const later = orbitFrom(k);
      if (later?.side !== first.side) break;
      if (costOf(motion, view, later) < costOf(motion, view, best)) best = later;
    }
    best = { ...best, to: rolledOut(turned, from, best, to) };
    orbits.push(best);
    i = best.to - 1;
  }
  return orbits;
}

/** The end of an orbit, exclusive: where it has come full circle or turns no more. */
function rolledOut(turned: Float64Array, from: number, orbit: OrbitSpan, to: number): number {
  const sign = orbit.side === 'right' ? 1 : -1;
  const start = turned[orbit.from - from];
  let end = orbit.to;
  while (
    end < to &&
    sign * (turned[end - from] - start) < 360 &&
    sign * (turned[end - from] - turned[end - 1 - from]) > 0
  ) {
    end++;
  }
  return end;
}

/** A full turn from the climb-out back on to the centreline is a whole circuit. */
function isClimbOut(view: StripView, i: number): boolean {
  return (
    Math.abs(trackDeg(view, i)) < ORBIT.climbOutDeg &&
    Math.abs(view.smoothCrossM[i]) < ORBIT.climbOutM &&
    view.smoothAlongM[i] > 0
  );
}

/** Seconds that speak against an orbit's having begun there: the slow part of a leg, a track between legs. */
function costOf(motion: Motion, view: StripView, { from, to }: OrbitSpan): number {
  return motion.timeS[to - 1] - motion.timeS[from] + awayFromLegs(view, from) / ORBIT.degPerS;
}

/** How far the track is off the nearest leg's direction, degrees; directions other than downwind's stand back. */
function awayFromLegs(view: StripView, i: number): number {
  const deg = Math.abs(trackDeg(view, i));
  return Math.min(180 - deg, Math.abs(90 - deg) + ORBIT.otherLegDeg, deg + ORBIT.otherLegDeg);
}

/** Track turned through since the first fix of the range, degrees, never wrapped. */
function turnedDeg(motion: Motion, from: number, to: number): Float64Array {
  const turned = new Float64Array(Math.max(0, to - from));
  for (let i = from + 1; i < to; i++) {
    const cross =
      motion.velocityNorthMps[i - 1] * motion.velocityEastMps[i] -
      motion.velocityEastMps[i - 1] * motion.velocityNorthMps[i];
    const dot =
      motion.velocityNorthMps[i - 1] * motion.velocityNorthMps[i] +
      motion.velocityEastMps[i - 1] * motion.velocityEastMps[i];
    turned[i - from] = turned[i - 1 - from] + Math.atan2(cross, dot) * (180 / Math.PI);
  }
  return turned;
}

/** First fix by which the track has turned full circle since fix `i`; null where it takes too long. */
function fullTurnFrom(
  motion: Motion,
  turned: Float64Array,
  from: number,
  i: number,
  to: number,
): number | null {
  for (let j = i + 1; j < to && motion.timeS[j] - motion.timeS[i] <= ORBIT.longestS; j++) {
    if (Math.abs(turned[j - from] - turned[i - from]) >= ORBIT.fullDeg) return j;
  }
  return null;
}

/** Turning one way all the time, but for moments. */
function isSteady(
  motion: Motion,
  rates: Float64Array,
  i: number,
  j: number,
  side: 1 | -1,
): boolean {
  const lasted = motion.timeS[j] - motion.timeS[i];
  const least = (ORBIT.leastShare * ORBIT.fullDeg) / lasted;
  let slackS = 0;
  for (let k = i + 1; k < j; k++) {
    if (side * rates[k] < least) slackS += motion.timeS[k] - motion.timeS[k - 1];
  }
  return slackS <= ORBIT.slackShare * lasted && side * rates[i] >= least;
}
