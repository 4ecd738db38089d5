/**
 * The air, the wind along the strip and the speeds for the day.
 *
 * In: a prediction and the pilot's units. Out: rows of labels and figures.
 */
import type {
  DayAtStrip,
  Figure,
  Prediction,
  SpeedsForTheDay,
} from '../../performance/prediction.ts';
import { isUndetermined, type Undetermined } from '../../result.ts';
import { figureValue, heightFigure, speedFigure, type PilotUnits } from '../figure-text.ts';
import { inPilotUnits } from '../figures-in-text.ts';

/** One row. */
export interface DayRow {
  readonly label: string;
  readonly value: string;
  /** True where the value is a reason, not a figure. */
  readonly isReason: boolean;
}

/** Wind components against one direction. */
export function windRows(day: DayAtStrip, what: string, units: PilotUnits): DayRow[] {
  const { headwindMps, crosswindMps } = day;
  const along = typeof headwindMps === 'number' && headwindMps < 0 ? 'tailwind' : 'headwind';
  const from = typeof crosswindMps === 'number' && crosswindMps < 0 ? 'the left' : 'the right';
  return [
    speedRow(`${along}, ${what}`, positive(headwindMps), units),
    speedRow(`crosswind from ${from}, ${what}`, positive(crosswindMps), units),
  ];
}

/** Pressure and density altitude. */
export function airRows({ day }: Prediction, units: PilotUnits): DayRow[] {
  const height = (label: string, metres: number): DayRow => ({
    label,
    value: figureValue(heightFigure(metres, units)),
    isReason: false,
  });
  return [
    height('pressure altitude', day.pressureAltitudeM),
    height('density altitude', day.densityAltitudeM),
  ];
}

/** Stall, approach with half the gust, touchdown; indicated, at the landing mass. */
export function speedRows(speeds: SpeedsForTheDay | Undetermined, units: PilotUnits): DayRow[] {
  if (isUndetermined(speeds)) {
    return [{ label: 'speeds', value: inPilotUnits(speeds.undetermined, units), isReason: true }];
  }
  const { stallMps, approachMps, gustAdditionMps, touchdownMps } = speeds;
  const gusty = gustAdditionMps > 0;
  return [
    speedRow('stall, landing flap, at this mass', stallMps, units),
    speedRow('1.3 times the stall speed', approachMps, units),
    ...(gusty ? [speedRow('with half the gust added', approachMps + gustAdditionMps, units)] : []),
    speedRow('touchdown that the landing rests on', touchdownMps, units),
  ];
}

function positive(figure: Figure): Figure {
  return typeof figure === 'number' ? Math.abs(figure) : figure;
}

function speedRow(label: string, mps: Figure, units: PilotUnits): DayRow {
  if (typeof mps !== 'number')
    return { label, value: inPilotUnits(mps.undetermined, units), isReason: true };
  return { label, value: figureValue(speedFigure(mps, units)), isReason: false };
}
