/**
 * What stands beyond the end of a take-off, and how high is the aeroplane there?
 *
 * In: the ground, where the run begins, the predicted take-off, the pilot's units. Out: a line for
 * each obstacle ahead: where the planned 50 ft lie against it, and the height left over its top, as
 * expected and as planned, by the mean climb from lift-off to 50 ft.
 */
import { heightsAtObstacle } from '../../performance/obstacle-ahead.ts';
import type { Figure, TakeOffPrediction } from '../../performance/prediction.ts';
import { undetermined } from '../../result.ts';
import { ENDS_GUESSED } from '../../strips/strip.ts';
import { figureValue, heightFigure, lengthFigure, type PilotUnits } from '../figure-text.ts';
import type { ObstaclePicture, StripGround } from '../pictures/strip-ground.ts';

/** Said once under the lines. */
const HEIGHTS_REST_ON =
  'Heights over obstacles carry the mean climb from lift-off to 50 ft straight on; the handbook gives no other.';

/** An obstacle beyond the end, with the heights there. Metres. */
export interface ObstacleAhead {
  readonly name: string;
  readonly label: string;
  /** From brake release to its nearest point; undetermined, as the heights are, where the ends are a guess. */
  readonly awayM: Figure;
  readonly expectedOverTopM: Figure;
  readonly plannedOverTopM: Figure;
}

/** The obstacles beyond the end as drawn, nearest first. */
export function obstaclesAhead(
  ground: StripGround,
  startM: number,
  takeOff: TakeOffPrediction,
): ObstacleAhead[] {
  const { obstacles, farEndM, endsGuessed } = ground;
  const riseAt = riseOf(ground);
  const awayFrom = ({ alongM }: ObstaclePicture): number => Math.min(...alongM) - startM;
  // Where nobody knows where the run begins, nothing counts from there.
  const told = (figure: Figure): Figure => (endsGuessed ? undetermined(ENDS_GUESSED) : figure);
  const fromStart = (obstacle: ObstaclePicture): ObstacleAhead => {
    const awayM = awayFrom(obstacle);
    const { expected, planned } = heightsAtObstacle(takeOff, {
      awayM,
      topAboveStartM: obstacle.topM - riseAt(startM),
      surfaceRiseM: (alongRunM) => riseAt(startM + alongRunM) - riseAt(startM),
    });
    return {
      name: obstacle.name,
      label: obstacle.label,
      awayM: told(awayM),
      expectedOverTopM: told(expected.overTopM),
      plannedOverTopM: told(planned.overTopM),
    };
  };
  return obstacles
    .filter((obstacle) => awayFrom(obstacle) >= farEndM - startM)
    .toSorted((a, b) => awayFrom(a) - awayFrom(b))
    .map(fromStart);
}

/**
 * The same as lines, with what the heights rest on; none where nothing was planned or nothing stands
 * ahead.
 */
export function aheadLines(
  ahead: readonly ObstacleAhead[],
  plannedTo50FtM: Figure,
  units: PilotUnits,
): string[] {
  if (typeof plannedTo50FtM !== 'number') return [];
  const text = (metres: number): string => figureValue(lengthFigure(metres, units));
  const hasHeight = ahead.some(({ plannedOverTopM }) => typeof plannedOverTopM === 'number');
  const lines = ahead.map(({ label, awayM, expectedOverTopM, plannedOverTopM }) => {
    if (typeof awayM !== 'number') {
      return `${label} stands ahead; how far from brakes off nobody knows: ${awayM.undetermined}.`;
    }
    const pastM = plannedTo50FtM - awayM;
    const where = `${text(Math.abs(pastM))} ${pastM > 0 ? 'behind' : 'before'} it`;
    const heights = [
      overTop('expected', expectedOverTopM, units),
      overTop('planned', plannedOverTopM, units),
    ].filter((words) => words !== null);
    const over = heights.length > 0 ? ` Over its top: ${heights.join(', ')}.` : '';
    return `${label}, ${text(awayM)} from brakes off: 50 ft are planned ${where}.${over}`;
  });
  return hasHeight ? [...lines, HEIGHTS_REST_ON] : lines;
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
