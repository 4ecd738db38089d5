/**
 * How far is a point from a line of several pieces, on a plane?
 *
 * In: the line's corners and the point, metres east and north of one origin. Out: metres.
 */

/** Corners of a line, metres east and north of one origin; one corner is a point. */
export interface PlaneLine {
  readonly eastM: readonly number[];
  readonly northM: readonly number[];
}

/**
 * Distance from a point to the nearest place of a line.
 *
 * Units: metres. Fails: throws on a line without corners.
 */
export function distanceToLineM(line: PlaneLine, eastM: number, northM: number): number {
  const n = line.eastM.length;
  if (n === 0) throw new Error('a line needs a corner');
  let least = Math.hypot(eastM - line.eastM[0], northM - line.northM[0]);
  for (let k = 1; k < n; k++) {
    const fromEast = line.eastM[k - 1];
    const fromNorth = line.northM[k - 1];
    const alongEast = line.eastM[k] - fromEast;
    const alongNorth = line.northM[k] - fromNorth;
    const square = alongEast * alongEast + alongNorth * alongNorth;
    const product = (eastM - fromEast) * alongEast + (northM - fromNorth) * alongNorth;
    const share = square === 0 ? 0 : Math.min(1, Math.max(0, product / square));
    const offEast = eastM - fromEast - share * alongEast;
    const offNorth = northM - fromNorth - share * alongNorth;
    least = Math.min(least, Math.hypot(offEast, offNorth));
  }
  return least;
}
