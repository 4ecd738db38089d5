/**
 * A prediction as it was frozen before the flight, beside the one for the conditions at the landing,
 * beside what was measured.
 *
 * In: the frozen prediction and the lengths of the event. Out: rows. Neither prediction is changed by
 * the other: the difference is what the forecast was worth.
 */
import type { Figure, Prediction } from '../../performance/prediction.ts';
import { isUndetermined, undetermined, type Measured, type Undetermined } from '../../result.ts';
import type { ComparedEvent } from '../../debrief/compare-events.ts';
import { figureLine, hasFigure, lengthFigure, type PilotUnits } from '../figure-text.ts';

/** Lengths of one event, metres: as expected and planned for its conditions, and as measured. */
export interface EventLengths {
  readonly expectedRollM: Figure;
  readonly plannedRollM: Figure;
  readonly expectedWholeM: Figure;
  readonly plannedWholeM: Figure;
  readonly rollM: Measured;
  readonly wholeM: Measured;
}

/** The four lengths of a prediction for one use. */
export type PlannedLengths = Omit<EventLengths, 'rollM' | 'wholeM'>;

/** The lengths of a prediction; each undetermined where the prediction or its part is. */
export function plannedLengths(
  prediction: Prediction | Undetermined,
  use: 'landing' | 'take-off',
): PlannedLengths {
  const part = isUndetermined(prediction)
    ? prediction
    : use === 'landing'
      ? prediction.landing
      : prediction.takeOff;
  if (isUndetermined(part)) {
    return { expectedRollM: part, plannedRollM: part, expectedWholeM: part, plannedWholeM: part };
  }
  const { expectedRollM, plannedRollM } = part;
  return 'expectedFrom50FtM' in part
    ? {
        ...{ expectedRollM, plannedRollM },
        expectedWholeM: part.expectedFrom50FtM,
        plannedWholeM: part.plannedFrom50FtM,
      }
    : {
        ...{ expectedRollM, plannedRollM },
        expectedWholeM: part.expectedTo50FtM,
        plannedWholeM: part.plannedTo50FtM,
      };
}

/** The lengths of an event. */
export function eventLengths(
  { prediction }: Pick<ComparedEvent, 'prediction'>,
  use: 'landing' | 'take-off',
  measured: { readonly rollM: Measured; readonly wholeM: Measured },
): EventLengths {
  return { ...plannedLengths(prediction, use), ...measured };
}

/** One row: three figures in text, each a reason where there is none. */
export interface BeforeAfterRow {
  readonly label: string;
  readonly frozen: string | null;
  readonly recomputed: string | null;
  readonly measured: string | null;
}

/** The rows of one event; a null cell has no figure. */
export function beforeAndAfter(
  frozen: PlannedLengths,
  event: EventLengths,
  use: 'landing' | 'take-off',
  units: PilotUnits,
): BeforeAfterRow[] {
  const to = use === 'landing' ? 'from 50 ft' : 'to 50 ft';
  const none = undetermined('a plan is not measured');
  const row = (label: string, pick: keyof PlannedLengths, measured: Measured): BeforeAfterRow => ({
    label,
    frozen: cell(frozen[pick], units),
    recomputed: cell(event[pick], units),
    measured: cell(measured, units),
  });
  return [
    row(`expected, ${to}`, 'expectedWholeM', event.wholeM),
    row(`planned, ${to}`, 'plannedWholeM', none),
    row('expected ground roll', 'expectedRollM', event.rollM),
    row('planned ground roll', 'plannedRollM', none),
  ];
}

function cell(length: Figure | Measured, units: PilotUnits): string | null {
  const figure = lengthFigure(length, units);
  return hasFigure(figure) ? figureLine(figure) : null;
}
