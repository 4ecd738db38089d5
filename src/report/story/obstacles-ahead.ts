/**
 * What stands beyond the end of a take-off, and how high is the aeroplane there?
 *
 * In: the ground, where the run begins, the predicted take-off, the pilot's units. Out: a line for
 * each obstacle ahead: where the planned 50 ft lie against it, and the height left over its top, as
 * expected and as planned, by the mean climb from lift-off to 50 ft.
 */
import { heightsAtObstacle } from '../../performance/obstacle-ahead.ts';
import type { Figure, TakeOffPrediction } from '../../performance/prediction.ts';
import { figureValue, heightFigure, lengthFigure, type PilotUnits } from '../figure-text.ts';
import type { ObstaclePicture, StripGround } from '../pictures/strip-ground.ts';

/** Said once under the lines: what the heights rest on. */
export const HEIGHTS_REST_ON =
  'Heights over obstacles carry the mean climb from lift-off to 50 ft straight on; the handbook gives no other.';

/** An obstacle beyond the end, with the heights there. Metres. */
export interface ObstacleAhead {
  readonly name: string;
  readonly label: string;
  /** From brake release to its nearest point. */
  readonly awayM: number;
  readonly expectedOverTopM: Figure;
  readonly plannedOverTopM: Figure;
}

/** The obstacles beyond the end, nearest first. */
export function obstaclesAhead(
  ground: StripGround,
  startM: number,
  takeOff: TakeOffPrediction,
): ObstacleAhead[] {
  const { obstacles, farEndM } = ground;
  const riseAt = riseOf(ground);
  const fromStart = (obstacle: ObstaclePicture): ObstacleAhead => {
    const awayM = Math.min(...obstacle.alongM) - startM;
    const { expected, planned } = heightsAtObstacle(takeOff, {
      awayM,
      topAboveStartM: obstacle.topM - riseAt(startM),
      surfaceRiseM: (alongRunM) => riseAt(startM + alongRunM) - riseAt(startM),
    });
    return {
      name: obstacle.name,
      label: obstacle.label,
      awayM,
      expectedOverTopM: expected.overTopM,
      plannedOverTopM: planned.overTopM,
    };
  };
  return obstacles
    .map(fromStart)
    .filter(({ awayM }) => awayM >= farEndM - startM)
    .toSorted((a, b) => a.awayM - b.awayM);
}

/** The same as lines; none where nothing was planned or nothing stands ahead. */
export function aheadLines(
  ahead: readonly ObstacleAhead[],
  plannedTo50FtM: Figure,
  units: PilotUnits,
): string[] {
  if (typeof plannedTo50FtM !== 'number') return [];
  const text = (metres: number): string => figureValue(lengthFigure(metres, units));
  return ahead.map(({ label, awayM, expectedOverTopM, plannedOverTopM }) => {
    const pastM = plannedTo50FtM - awayM;
    const where = `${text(Math.abs(pastM))} ${pastM > 0 ? 'behind' : 'before'} it`;
    const heights = [
      overTop('expected', expectedOverTopM, units),
      overTop('planned', plannedOverTopM, units),
    ].filter((words) => words !== null);
    const over = heights.length > 0 ? ` Over its top: ${heights.join(', ')}.` : '';
    return `${label}, ${text(awayM)} from brakes off: 50 ft are planned ${where}.${over}`;
  });
}

function overTop(what: string, overTopM: Figure, units: PilotUnits): string | null {
  if (typeof overTopM !== 'number') return null;
  return `${what} ${figureValue(heightFigure(overTopM, units))}`;
}

/** The surface above the threshold at any place along; level beyond the ends and where unknown. */
function riseOf({ surface }: StripGround): (alongM: number) => number {
  if (!surface) return () => 0;
  const { alongM, riseM } = surface;
  const last = alongM.length - 1;
  return (at) => {
    if (at <= alongM[0]) return riseM[0];
    if (at >= alongM[last]) return riseM[last];
    const k = alongM.findIndex((each) => each >= at);
    const share = (at - alongM[k - 1]) / (alongM[k] - alongM[k - 1]);
    return riseM[k - 1] + share * (riseM[k] - riseM[k - 1]);
  };
}
