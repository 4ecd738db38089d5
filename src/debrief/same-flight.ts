/**
 * Were two logs recorded in the same aircraft at the same time?
 *
 * In: two flown paths. Out: yes or no; and by how many half hours one clock would have to be off for yes.
 * Heights play no part: many logs have none.
 *
 * Two receivers in one cockpit differ by some metres each way, and along the path by what the moments
 * written down are off by, up to a second (logs in whole seconds). Aircraft in formation, a tug and its
 * glider, and those that follow each other in the circuit are further apart, at the latest on the ground.
 * All limits are ours, no source; decision 0076 says how far pairs of receivers lie from them.
 */
import { createLocalFrame } from '../geo/local-frame.ts';
import { PATH_STEP_S, type FlownPath } from '../track/flown-path.ts';

/** Faster than this an aircraft flies or rolls fast; slower than the other it stands or taxis. m/s. */
const FAST_MPS = 9;
const SLOW_MPS = 3;
/** Fewest moments in common at which both moved fast: half a minute. */
const LEAST_FAST = 6;
/** Moments written down in whole seconds are off by up to one, seconds. */
const MOST_LATE_S = 1;
/**
 * How far apart at half of all common moments, at nine in ten of them, and at half of the slow ones, metres.
 * The first two hold for the fast moments by themselves too: two that stand side by side for hours are near
 * each other at most moments, wherever each of them flies.
 */
const MEDIAN_M = 10;
const NINE_TENTHS_M = 30;
const SLOW_MEDIAN_M = 15;
/** A clock kept in another zone is off by halves of an hour, at most by so many seconds. */
const ZONE_STEP_S = 1800;
const MOST_ZONE_S = 14 * 3600;

/** One moment that both paths have: how far apart they were, and how they moved. Metres, m/s. */
interface Moment {
  readonly eastM: number;
  readonly northM: number;
  readonly eastMps: number;
  readonly northMps: number;
}

/** Whether two logs were recorded in the same aircraft at the same time; false where they hardly overlap. */
export function isSameFlight(a: FlownPath, b: FlownPath): boolean {
  return isSameShifted(a, b, 0);
}

/**
 * By how many seconds the clock of `b` is ahead of that of `a`, in halves of an hour, where only that keeps
 * the two from being one flight; null: it does not.
 */
export function zoneFaultS(a: FlownPath, b: FlownPath): number | null {
  if (a.timeS.length === 0 || b.timeS.length === 0) return null;
  const apartS = Math.max(a.timeS[0], b.timeS[0]) - Math.min(lastOf(a), lastOf(b));
  if (apartS > MOST_ZONE_S) return null;
  for (let shiftS = ZONE_STEP_S; shiftS <= MOST_ZONE_S; shiftS += ZONE_STEP_S) {
    for (const aheadS of [shiftS, -shiftS]) {
      if (isNearHalfWay(a, b, aheadS) && isSameShifted(a, b, aheadS)) return aheadS;
    }
  }
  return null;
}

/** False where one moment half-way through what they share rules two paths out: spares a logbook most of the work. */
function isNearHalfWay(a: FlownPath, b: FlownPath, shiftS: number): boolean {
  const fromS = Math.max(a.timeS[0], b.timeS[0] - shiftS);
  const toS = Math.min(lastOf(a), lastOf(b) - shiftS);
  if (fromS > toS) return false;
  const halfWayS = Math.round((fromS + toS) / 2 / PATH_STEP_S) * PATH_STEP_S;
  const [i, j] = [a.timeS.indexOf(halfWayS), b.timeS.indexOf(halfWayS + shiftS)];
  if (i < 0 || j < 0) return true;
  return Math.abs(a.latDeg[i] - b.latDeg[j]) < FAR_DEG;
}

/** Of latitude: a kilometre. */
const FAR_DEG = 0.009;

function isSameShifted(a: FlownPath, b: FlownPath, shiftS: number): boolean {
  const apart = pathsApart(a, b, shiftS);
  return (
    apart !== null &&
    apart.halfM <= MEDIAN_M &&
    apart.nineTenthsM <= NINE_TENTHS_M &&
    apart.fastHalfM <= MEDIAN_M &&
    apart.fastNineTenthsM <= NINE_TENTHS_M &&
    (apart.slowHalfM === null || apart.slowHalfM <= SLOW_MEDIAN_M)
  );
}

/** How far apart two paths lie at common moments, after the part that late moments explain. Metres. */
export interface PathsApart {
  /** At half of the moments at most, and at nine in ten. */
  readonly halfM: number;
  readonly nineTenthsM: number;
  /** The same of the fast moments alone. */
  readonly fastHalfM: number;
  readonly fastNineTenthsM: number;
  /** At half of the slow moments; null: none was slow. */
  readonly slowHalfM: number | null;
}

/** The figures by which two paths are told apart; null: they hardly overlap. `b`'s clock is put back by `shiftS`. */
export function pathsApart(a: FlownPath, b: FlownPath, shiftS = 0): PathsApart | null {
  const moments = commonMoments(a, b, shiftS);
  const fast = moments.filter((each) => speedMps(each) >= FAST_MPS);
  if (fast.length < LEAST_FAST) return null;
  const lateS = Math.max(-MOST_LATE_S, Math.min(MOST_LATE_S, quantile(fast.map(lateOf), 0.5)));
  const apartM = (each: Moment): number =>
    Math.hypot(each.eastM - lateS * each.eastMps, each.northM - lateS * each.northMps);
  const all = moments.map(apartM);
  const atSpeed = fast.map(apartM);
  const slow = moments.filter((each) => speedMps(each) < SLOW_MPS).map(apartM);
  return {
    halfM: quantile(all, 0.5),
    nineTenthsM: quantile(all, 0.9),
    fastHalfM: quantile(atSpeed, 0.5),
    fastNineTenthsM: quantile(atSpeed, 0.9),
    slowHalfM: slow.length === 0 ? null : quantile(slow, 0.5),
  };
}

/** How much longer `b` would have flown to be where `a` is, seconds. */
function lateOf({ eastM, northM, eastMps, northMps }: Moment): number {
  return (eastM * eastMps + northM * northMps) / (eastMps ** 2 + northMps ** 2);
}

function speedMps({ eastMps, northMps }: Moment): number {
  return Math.hypot(eastMps, northMps);
}

/** Moments of `a` with neighbours that show how it moved, at which `b`, its clock put back, was known too. */
function commonMoments(a: FlownPath, b: FlownPath, shiftS: number): Moment[] {
  if (a.timeS.length === 0 || b.timeS.length === 0) return [];
  if (lastOf(a) < b.timeS[0] - shiftS || lastOf(b) - shiftS < a.timeS[0]) return [];
  const moments: Moment[] = [];
  const frame = createLocalFrame(a.latDeg[0], a.lonDeg[0]);
  const at = ({ latDeg, lonDeg }: FlownPath, i: number): { eastM: number; northM: number } =>
    frame.toEastNorthPoint(latDeg[i], lonDeg[i]);
  for (let i = 1, j = 0; i + 1 < a.timeS.length; i++) {
    while (j < b.timeS.length && b.timeS[j] - shiftS < a.timeS[i]) j++;
    if (j === b.timeS.length) break;
    if (b.timeS[j] - shiftS !== a.timeS[i]) continue;
    if (a.timeS[i + 1] - a.timeS[i - 1] !== 2 * PATH_STEP_S) continue;
    const [before, here, after, there] = [at(a, i - 1), at(a, i), at(a, i + 1), at(b, j)];
    moments.push({
      eastM: here.eastM - there.eastM,
      northM: here.northM - there.northM,
      eastMps: (after.eastM - before.eastM) / (2 * PATH_STEP_S),
      northMps: (after.northM - before.northM) / (2 * PATH_STEP_S),
    });
  }
  return moments;
}

function lastOf({ timeS }: FlownPath): number {
  return timeS[timeS.length - 1];
}

function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}
