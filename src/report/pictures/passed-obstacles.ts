/**
 * Which obstacles were passed on one approach, and how high over them?
 *
 * In: a flight, which of its approaches, the strips file, the pilot's units. Out: for each obstacle
 * passed where it stands, where the wheels were, and the height over its top in words; only those whose
 * height can be had are drawn, the others stand in the table with their reason.
 */
import type { Flight } from '../../debrief/debrief.ts';
import { valueAt } from '../../events/arrival-data.ts';
import type { Clearance } from '../../events/clearance.ts';
import type { StripView } from '../../events/strip-view.ts';
import { isUndetermined } from '../../result.ts';
import type { StripBook } from '../../strips/strip.ts';
import {
  figureValue,
  hasFigure,
  heightFigure,
  lengthFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { twinRow, type TwinRow } from './picture.ts';

/** One obstacle passed; metres along and across from the landing threshold. */
export interface PassedObstacle {
  readonly name: string;
  /** The middle of the obstacle. */
  readonly alongM: number;
  readonly crossM: number;
  /** Where the aircraft passed it. */
  readonly passedAlongM: number;
  /** Height of the wheels over its top, metres; negative below it. */
  readonly overM: number;
  /** `34 ft over Osier row`, `6 ft below the top of Osier row`. */
  readonly words: string;
  /** The same without the name. */
  readonly shortWords: string;
  readonly isBelow: boolean;
}

/** Those that can be drawn, in the order passed. */
export function passedObstacles(
  { motion, surroundings }: Flight,
  index: number,
  view: StripView,
  book: StripBook,
  units: PilotUnits,
): PassedObstacle[] {
  return surroundings.approaches[index].flatMap(({ obstacle: name, timeS, verticalM }) => {
    const obstacle = book.obstacles.find(
      (each) => each.name === name && each.strip === view.stripId,
    );
    const height = isUndetermined(verticalM)
      ? null
      : heightFigure(Math.abs(verticalM.value), units);
    if (!obstacle || isUndetermined(verticalM) || height === null || !hasFigure(height)) return [];
    const { alongM, crossM } = view.frame.toAlongCross(
      Float64Array.from(obstacle.latDeg),
      Float64Array.from(obstacle.lonDeg),
    );
    const isBelow = verticalM.value < 0;
    const figure = figureValue(height);
    return [
      {
        name,
        alongM: middle(alongM),
        crossM: middle(crossM),
        passedAlongM: valueAt(motion.timeS, view.smoothAlongM, timeS),
        overM: verticalM.value,
        words: isBelow ? `${figure} below the top of ${name}` : `${figure} over ${name}`,
        shortWords: isBelow ? `${figure} below its top` : `${figure} over it`,
        isBelow,
      },
    ];
  });
}

/** A row for each obstacle passed, also where the height cannot be had. */
export function passedRows(clearances: readonly Clearance[], units: PilotUnits): TwinRow[] {
  return clearances.map(({ obstacle, verticalM, slantM }) => {
    const { label, value } = twinRow(`height over ${obstacle}`, heightFigure(verticalM, units));
    return { label, value: `${value}, slant ${figureValue(lengthFigure(slantM, units))}` };
  });
}

function middle(values: Float64Array): number {
  return (Math.min(...values) + Math.max(...values)) / 2;
}
