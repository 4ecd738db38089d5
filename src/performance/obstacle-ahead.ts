/**
 * How high is the aeroplane over what stands beyond the end of the strip?
 *
 * In: a predicted take-off, how far the obstacle stands from brake release, how high its top is, and
 * the rise of the surface along the run. Out: the height gained there, as expected and as planned
 * (with the safety factor and the cautious wind), and what is left over the top.
 *
 * The handbook gives two points of the climb: lift-off, and 50 ft. The straight line through them is
 * carried on beyond 50 ft (ours, no source): the speed still settles before 50 ft, so a steady climb
 * is usually steeper, but nothing in the handbook's distances promises it. Planned has the same angle
 * as expected and begins it later, by the whole margin.
 */
import { isUndetermined, undetermined } from '../result.ts';
import { METRES_PER_FOOT } from '../units/convert.ts';
import type { Figure, TakeOffPrediction } from './prediction.ts';

/** Height of the screen where a prediction does not say otherwise. */
const SCREEN_50_FT_M = 50 * METRES_PER_FOOT;

/** An obstacle as seen from brake release. Metres. */
export interface ObstacleFromStart {
  readonly awayM: number;
  /** Its top above the surface at brake release; NaN where not known. */
  readonly topAboveStartM: number;
  /** Rise of the surface from brake release to so many metres along; level: always 0. */
  readonly surfaceRiseM: (alongRunM: number) => number;
}

/** At the obstacle. Metres; undetermined with its reason. */
export interface HeightThere {
  /** Above the surface at lift-off; 0 before lift-off. */
  readonly gainedM: Figure;
  /** Above the obstacle's top; negative below it. */
  readonly overTopM: Figure;
}

/**
 * The height gained at the obstacle, expected and planned.
 *
 * Fails: undetermined where the handbook gives no ground roll or no distance to 50 ft, or where the
 * top's height is not known.
 */
export function heightsAtObstacle(
  takeOff: TakeOffPrediction,
  obstacle: ObstacleFromStart,
): { readonly expected: HeightThere; readonly planned: HeightThere } {
  const screenM = takeOff.screenHeightM ?? SCREEN_50_FT_M;
  const there = (rollM: Figure, wholeM: Figure): HeightThere => {
    const gainedM = heightGainedM(rollM, wholeM, screenM, obstacle.awayM);
    return { gainedM, overTopM: overTop(gainedM, rollM, obstacle) };
  };
  return {
    expected: there(takeOff.expectedRollM, takeOff.expectedTo50FtM),
    planned: there(takeOff.plannedRollM, takeOff.plannedTo50FtM),
  };
}

/**
 * Height above the surface at lift-off, so many metres from brake release.
 *
 * Units: metres. Fails: undetermined where roll or whole distance is, or where the one is no shorter
 * than the other.
 * @example heightGainedM(300, 500, 15.24, 600) // 22.86
 */
export function heightGainedM(
  rollM: Figure,
  wholeM: Figure,
  screenM: number,
  awayM: number,
): Figure {
  if (isUndetermined(wholeM)) return wholeM;
  if (isUndetermined(rollM)) return rollM;
  if (!(wholeM > rollM)) return undetermined('the run is no shorter than the distance to 50 ft');
  return (Math.max(0, awayM - rollM) * screenM) / (wholeM - rollM);
}

function overTop(
  gainedM: Figure,
  rollM: Figure,
  { topAboveStartM, surfaceRiseM, awayM }: ObstacleFromStart,
): Figure {
  if (isUndetermined(gainedM)) return gainedM;
  if (isUndetermined(rollM)) return rollM;
  if (!Number.isFinite(topAboveStartM)) return undetermined('the height of its top is not known');
  return surfaceRiseM(Math.min(rollM, awayM)) + gainedM - topAboveStartM;
}
