/**
 * Where do the 50 ft of a take-off lie against what stands beyond the end of the strip?
 *
 * In: the ground, where the run begins, the planned distance to 50 ft, the pilot's units. Out: a line
 * for each obstacle ahead. How the climb goes on after 50 ft is not in the handbook's distances, so
 * nothing is said of the height over the obstacle itself.
 */
import type { Figure } from '../../performance/prediction.ts';
import { figureValue, lengthFigure, type PilotUnits } from '../figure-text.ts';
import type { StripGround } from '../pictures/strip-ground.ts';

/** The lines, nearest obstacle first; none where nothing was planned or nothing stands ahead. */
export function obstaclesAhead(
  { obstacles, farEndM }: StripGround,
  startM: number,
  plannedTo50FtM: Figure,
  units: PilotUnits,
): string[] {
  if (typeof plannedTo50FtM !== 'number') return [];
  const text = (metres: number): string => figureValue(lengthFigure(metres, units));
  return obstacles
    .map(({ alongM, label }) => ({ label, awayM: Math.min(...alongM) - startM }))
    .filter(({ awayM }) => awayM >= farEndM - startM)
    .toSorted((a, b) => a.awayM - b.awayM)
    .map(({ label, awayM }) => {
      const pastM = plannedTo50FtM - awayM;
      const where = `${text(Math.abs(pastM))} ${pastM > 0 ? 'behind' : 'before'} it`;
      return `${label}, ${text(awayM)} from brakes off: 50 ft are planned ${where}.`;
    });
}
