/**
 * How much would the plan change with a little less wind, wet grass, a little more mass?
 *
 * In: the conditions, bearings and a way to predict; the pilot's units. Out: rows with the change of
 * the planned whole distance, landing and take-off, in words.
 */
import {
  sensitivity,
  type Bearings,
  type BothPredictions,
  type DistanceChange,
} from '../../performance/sensitivity.ts';
import type { Conditions } from '../../weather/conditions.ts';
import { figureValue, lengthFigure, type PilotUnits } from '../figure-text.ts';
import { inPilotUnits } from '../figures-in-text.ts';

/** The change of a planned distance, or why there is none. */
export interface PlanChange {
  readonly text: string;
  readonly isReason: boolean;
}

/** One row; null: not planned. */
export interface SensitivityRow {
  readonly label: string;
  readonly landing: PlanChange | null;
  readonly takeOff: PlanChange | null;
}

/** The rows, those without any change left out. */
export function visitSensitivity(
  conditions: Conditions,
  bearings: Bearings,
  predictFor: (landing: Conditions, takeOff: Conditions) => BothPredictions,
  units: PilotUnits,
): SensitivityRow[] {
  return sensitivity(conditions, bearings, predictFor)
    .map(({ label, landing, takeOff }) => ({
      label,
      landing: changeText(landing, units),
      takeOff: changeText(takeOff, units),
    }))
    .filter(({ landing, takeOff }) => landing !== null || takeOff !== null);
}

function changeText(change: DistanceChange | null, units: PilotUnits): PlanChange | null {
  if (change === null) return null;
  const { plannedM } = change;
  if (typeof plannedM !== 'number') {
    const reason = inPilotUnits(plannedM.undetermined, units);
    return { text: `no prediction: ${reason}`, isReason: true };
  }
  const text = figureValue(lengthFigure(plannedM, units));
  return { text: plannedM > 0 ? `+${text}` : text, isReason: false };
}
