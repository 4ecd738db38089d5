/**
 * Where did the aircraft land or take off that is no known strip?
 *
 * In: motion and the passes at known strips. Out: provisional strips, one for each line of rolls:
 * a straight slow-down from flying to taxiing, or the reverse. Their ends are where the rolls were
 * seen, their elevation unknown.
 */
import { createLocalFrame } from '../geo/local-frame.ts';
import { completeDirections } from '../strips/declared-distances.ts';
import type { Strip } from '../strips/strip.ts';
import type { Motion } from '../track/motion.ts';
import type { ViewedPass } from './pass-choice.ts';
import type { RollLine } from './roll-line.ts';
import { PLACE } from './place-tuning.ts';
import { nearStrip } from './slow-part.ts';
import { possibleTouches } from './unknown-touch.ts';

/** Provisional strips for the rolls that no known strip explains. */
export function unknownPlaces(
  motion: Motion,
  known: readonly ViewedPass[],
  flightSpeedMps: number,
): Strip[] {
  if (flightSpeedMps < PLACE.leastFlightMps) return [];
  const passed = new Uint8Array(motion.length);
  for (const { pass } of known) passed.fill(1, pass.from, pass.to);
  const rolls = findRolls(motion, flightSpeedMps).filter(({ from, to, forward }) => {
    let covered = 0;
    for (let i = from; i < to; i++) covered += passed[i];
    if (covered < (to - from) / 2) return true;
    // A pass goes on far beyond the strip's ends, where another place may lie in line with it.
    const slowest = forward ? to - 1 : from;
    return !known.some(
      ({ view, pass }) => pass.from < to && pass.to > from && nearStrip(view, slowest),
    );
  });
  const lines = rolls.map(({ from, to, forward }) => lineOf(motion, from, to, forward));
  const touches = possibleTouches(motion, flightSpeedMps).filter(({ index }) => !passed[index]);
  return cluster([...lines, ...touches]).map((group, k) => provisionalStrip(motion, group, k));
}

interface RollRange {
  readonly from: number;
  readonly to: number;
  /** True for a slow-down (moving along the bearing while slowing), false for a run. */
  readonly forward: boolean;
}

/** Stretches in which the speed passes straight from a flying to a taxiing share of the flying speed, either way. */
function findRolls(motion: Motion, flightSpeedMps: number): RollRange[] {
  const slow = PLACE.slowShare * flightSpeedMps;
  const fast = PLACE.fastShare * flightSpeedMps;
  const rolls: RollRange[] = [];
  let lastFast = -1;
  let lastSlow = -1;
  for (let i = 0; i < motion.length; i++) {
    const speed = motion.speedMps[i];
    if (speed >= fast) {
      if (lastSlow > lastFast && lastSlow >= 0) addRoll(rolls, motion, lastSlow, i + 1, false);
      lastFast = i;
    } else if (speed <= slow) {
      if (lastFast > lastSlow && lastFast >= 0) addRoll(rolls, motion, lastFast, i + 1, true);
      lastSlow = i;
    }
  }
  return rolls;
}

function addRoll(
  rolls: RollRange[],
  motion: Motion,
  from: number,
  to: number,
  forward: boolean,
): void {
  const spanS = motion.timeS[to - 1] - motion.timeS[from];
  const east = motion.eastM[to - 1] - motion.eastM[from];
  const north = motion.northM[to - 1] - motion.northM[from];
  const lengthM = Math.hypot(east, north);
  if (spanS < PLACE.leastS || spanS > PLACE.longestS || lengthM < PLACE.leastM) return;
  let pathM = 0;
  for (let i = from + 1; i < to; i++) {
    // A roll has no holes: a gap in the log could hide anything.
    if (motion.timeS[i] - motion.timeS[i - 1] > PLACE.longestGapS) return;
    const step = Math.hypot(
      motion.eastM[i] - motion.eastM[i - 1],
      motion.northM[i] - motion.northM[i - 1],
    );
    pathM += step;
    const cross =
      ((motion.eastM[i] - motion.eastM[from]) * north -
        (motion.northM[i] - motion.northM[from]) * east) /
      lengthM;
    if (Math.abs(cross) > Math.max(PLACE.straightM, 0.05 * lengthM)) return;
  }
  if (pathM > 1.15 * lengthM) return;
  if (!staysSlow(motion, forward ? to - 1 : from, forward)) return;
  const greatest = greatestAcceleration(motion, from, to);
  if (greatest > PLACE.greatestMps2) return;
  rolls.push({ from, to, forward });
}

/** After a roll, or before a run, the aircraft is slow for some seconds: a phantom speed is not. */
function staysSlow(motion: Motion, at: number, after: boolean): boolean {
  const limit = motion.speedMps[at] * 1.3 + 1;
  const step = after ? 1 : -1;
  for (let i = at; i >= 0 && i < motion.length; i += step) {
    if (Math.abs(motion.timeS[i] - motion.timeS[at]) > PLACE.slowForS) return true;
    if (motion.speedMps[i] > limit) return false;
  }
  return true;
}

/** Largest change of speed over two seconds, m/s2: a phantom speed changes faster than any wheel can. */
function greatestAcceleration(motion: Motion, from: number, to: number): number {
  let greatest = 0;
  for (let i = from; i + 1 < to; i++) {
    const change = Math.abs(motion.speedMps[i + 1] - motion.speedMps[i]);
    greatest = Math.max(greatest, change / Math.max(motion.timeS[i + 1] - motion.timeS[i], 1));
  }
  return greatest;
}

/** Line of a roll; the bearing is the direction of motion. */
function lineOf(motion: Motion, from: number, to: number, forward: boolean): RollLine {
  const east = motion.eastM[to - 1] - motion.eastM[from];
  const north = motion.northM[to - 1] - motion.northM[from];
  const anchor = forward ? to - 1 : from;
  return {
    eastM: motion.eastM[anchor],
    northM: motion.northM[anchor],
    bearingRad: Math.atan2(east, north),
    lengthM: Math.hypot(east, north),
    index: anchor,
    rolled: true,
  };
}

/** Rolls on one line (either way round) belong to one place. */
function cluster(rolls: readonly RollLine[]): RollLine[][] {
  const groups: RollLine[][] = [];
  for (const roll of rolls) {
    const group = groups.find(([first]) => sameLine(first, roll));
    if (group) group.push(roll);
    else groups.push([roll]);
  }
  return groups;
}

function sameLine(a: RollLine, b: RollLine): boolean {
  const turn = Math.abs(Math.sin(a.bearingRad - b.bearingRad));
  if (turn > Math.sin((PLACE.sameLineDeg * Math.PI) / 180)) return false;
  const east = b.eastM - a.eastM;
  const north = b.northM - a.northM;
  const along = east * Math.sin(a.bearingRad) + north * Math.cos(a.bearingRad);
  const across = east * Math.cos(a.bearingRad) - north * Math.sin(a.bearingRad);
  return Math.abs(across) < PLACE.sameLineM && Math.abs(along) < PLACE.sameLineReachM;
}

/** A strip from the rolls of one line: through its longest roll, in the bearing that all agree on, with the ends of all. */
function provisionalStrip(motion: Motion, group: readonly RollLine[], k: number): Strip {
  const rolled = group.filter((each) => each.rolled);
  const longest = (rolled.length > 0 ? rolled : group).reduce((best, roll) =>
    roll.lengthM > best.lengthM ? roll : best,
  );
  const bearingRad = commonBearing(longest, group);
  const east = Math.sin(bearingRad);
  const north = Math.cos(bearingRad);
  let least = 0;
  let most = 0;
  for (const roll of group) {
    const along = (roll.eastM - longest.eastM) * east + (roll.northM - longest.northM) * north;
    const same = Math.cos(roll.bearingRad - bearingRad) > 0 ? 1 : -1;
    for (const end of [along - same * roll.lengthM, along, along + same * roll.lengthM]) {
      least = Math.min(least, end);
      most = Math.max(most, end);
    }
  }
  const frame = createLocalFrame(motion.latDeg[0], motion.lonDeg[0]);
  const at = (along: number): { latDeg: number; lonDeg: number } =>
    frame.toLatLon(longest.eastM + along * east, longest.northM + along * north);
  const a = at(least - PLACE.beyondM);
  const b = at(most + PLACE.beyondM);
  const lengthM = most - least + 2 * PLACE.beyondM;
  const bearingDeg = ((bearingRad * 180) / Math.PI + 360) % 360;
  return {
    id: `place-${k + 1}`,
    name: `Unknown place ${k + 1}`,
    latDeg: [a.latDeg, b.latDeg],
    lonDeg: [a.lonDeg, b.lonDeg],
    widthM: PLACE.widthM,
    surface: 'grass',
    elevationM: null,
    profile: null,
    positionErrorM: PLACE.positionErrorM,
    endsGuessed: true,
    directions: completeDirections(null, lengthM, bearingDeg),
    properties: {},
  };
}

/**
 * Mean bearing of a group, either way round, near that of one of it. The longer a line the better
 * its bearing; a possible touch may have been flown at an angle, so the length of a roll counts
 * double.
 */
function commonBearing(near: RollLine, group: readonly RollLine[]): number {
  let sum = 0;
  let total = 0;
  for (const { bearingRad, lengthM, rolled } of group) {
    const weight = (rolled ? 2 * lengthM : lengthM) ** 2;
    // The angle between two lines, from -90 to 90 degrees.
    sum += weight * Math.atan(Math.tan(bearingRad - near.bearingRad));
    total += weight;
  }
  return total > 0 ? near.bearingRad + sum / total : near.bearingRad;
}
