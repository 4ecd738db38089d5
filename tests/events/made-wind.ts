/** Flights through the air in a known wind, as a log without noise would show them: ground velocity = airspeed along the heading + the wind. */
import { fitWind, type FittedWind } from '../../src/events/wind-from-track.ts';
import { windShare } from '../../src/events/wind-share.ts';
import { isUndetermined } from '../../src/result.ts';
import type { Motion } from '../../src/track/motion.ts';

/** One moment of a flight through the air. */
export interface Moment {
  readonly headingDeg: number;
  readonly airspeedMps: number;
  readonly aboveM: number;
}

/** Towards east and north at 100 m, m/s: 7 m/s, a headwind of 6.9 on a landing to the north. */
export const WIND_ALOFT = { east: 1, north: -6.93 };

/** The flight as a log without noise would show it, once a second. */
export function flownInWind(moments: readonly Moment[], wind = WIND_ALOFT): Motion {
  const n = moments.length;
  const east = new Float64Array(n);
  const north = new Float64Array(n);
  moments.forEach(({ headingDeg, airspeedMps, aboveM }, i) => {
    const rad = (headingDeg * Math.PI) / 180;
    east[i] = airspeedMps * Math.sin(rad) + windShare(aboveM) * wind.east;
    north[i] = airspeedMps * Math.cos(rad) + windShare(aboveM) * wind.north;
  });
  const slopes = (of: Float64Array): Float64Array =>
    of.map((_, i) => {
      const [from, to] = [Math.max(0, i - 1), Math.min(n - 1, i + 1)];
      return (of[to] - of[from]) / (to - from);
    });
  const heights = Float64Array.from(moments, ({ aboveM }) => aboveM);
  return {
    ...{ length: n, medianIntervalS: 1, timeS: Float64Array.from(moments, (_, i) => i) },
    ...{ velocityEastMps: east, velocityNorthMps: north },
    ...{ accelerationEastMps2: slopes(east), accelerationNorthMps2: slopes(north) },
    speedMps: east.map((each, i) => Math.hypot(each, north[i])),
    speedSdMps: new Float64Array(n).fill(0.2),
    ...{ smoothHeightM: heights, verticalSpeedMps: slopes(heights) },
  } as unknown as Motion;
}

/** A left-hand circuit, landing to the north: legs and turns with the airspeed and height at their ends. */
export function circuit(speeds: Readonly<Record<string, readonly [number, number]>>): Moment[] {
  const plan: [string, number, number, number, number][] = [
    // Name, seconds, degrees turned, height at its beginning and end.
    ['climb-out', 25, 0, 5, 100],
    ['to crosswind', 10, -90, 100, 140],
    ['crosswind', 15, 0, 140, 200],
    ['to downwind', 10, -90, 200, 240],
    ['downwind', 50, 0, 240, 240],
    ['to base', 10, -90, 240, 210],
    ['base', 15, 0, 210, 170],
    ['to final', 10, -90, 170, 130],
    ['final', 35, 0, 130, 5],
  ];
  let headingDeg = 360;
  return plan.flatMap(([name, seconds, turnDeg, fromM, toM]) => {
    const [fromMps, toMps] = speeds[name];
    const begin = headingDeg;
    headingDeg += turnDeg;
    return Array.from({ length: seconds }, (_, k) => {
      const part = k / seconds;
      return {
        headingDeg: begin + turnDeg * part,
        airspeedMps: fromMps + (toMps - fromMps) * part,
        aboveM: fromM + (toM - fromM) * part,
      };
    });
  });
}

/** As real pilots do: quicker while climbing, a third slower from downwind to short final, in straights and turns alike. */
export const SLOWING = circuit({
  'climb-out': [31, 34],
  'to crosswind': [34, 36],
  crosswind: [36, 39],
  'to downwind': [39, 42],
  downwind: [42, 38],
  'to base': [38, 35],
  base: [35, 32],
  'to final': [32, 29],
  final: [29, 27],
});

/** The wind of a flight that tells one. */
export function fitted(motion: Motion): FittedWind {
  const found = fitWind(motion);
  if (isUndetermined(found)) throw new Error(found.undetermined);
  return found;
}
