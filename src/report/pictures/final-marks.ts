/**
 * The float and the commit point, as the side view shows them.
 *
 * In: an approach, its further figures, the direction. Out: places along the strip with their bands
 * of 90 % and words; null for what was not measured or is not recorded.
 */
import type { Final } from '../../debrief/finals.ts';
import type { Approach } from '../../events/flight-event.ts';
import type { StripView } from '../../events/strip-view.ts';
import { isUndetermined } from '../../result.ts';
import {
  figureLine,
  figureValue,
  hasFigure,
  lengthFigure,
  secondsFigure,
  type FigureText,
  type PilotUnits,
} from '../figure-text.ts';
import { negated } from '../format-quantity.ts';
import { twinRow, type TwinRow } from './picture.ts';

/** From the end of the round-out to touchdown, alongM. */
export interface FloatPicture {
  readonly fromM: number;
  readonly toM: number;
  /** Within these it began, counted back from the touchdown drawn. */
  readonly fromLowM: number;
  readonly fromHighM: number;
  readonly figure: FigureText;
}

/** The recorded commit point, and where a go-around was begun against it, alongM. */
export interface CommitPicture {
  readonly commitM: number;
  readonly begun: {
    readonly atM: number;
    readonly lowM: number;
    readonly highM: number;
    /** `begun 139 m before the commit point`. */
    readonly words: string;
    /** Beside the commit point's own name. */
    readonly shortWords: string;
  } | null;
}

/** The float of a landing. */
export function floatPicture(
  { touchdown }: Approach,
  { float }: Final,
  units: PilotUnits,
): FloatPicture | null {
  if (isUndetermined(touchdown) || isUndetermined(float)) return null;
  const { distanceM } = float;
  const figure = lengthFigure(distanceM, units);
  if (isUndetermined(touchdown.alongM) || isUndetermined(distanceM) || !hasFigure(figure)) {
    return null;
  }
  const toM = touchdown.alongM.value;
  return {
    fromM: toM - distanceM.value,
    toM,
    fromLowM: toM - distanceM.high,
    fromHighM: toM - distanceM.low,
    figure,
  };
}

/** The commit point of a direction; it describes the past and advises nothing. */
export function commitPicture(
  { direction: { commitM }, stripId }: StripView,
  { commitPoint }: Final,
  units: PilotUnits,
): CommitPicture | null {
  if (commitM === null || stripId === null) return null;
  if (!commitPoint || isUndetermined(commitPoint.initiationAlongM)) return { commitM, begun: null };
  const { initiationAlongM, beforeM } = commitPoint;
  if (isUndetermined(beforeM)) return { commitM, begun: null };
  const isPast = beforeM.value < 0;
  const distance = lengthFigure(isPast ? negated(beforeM) : beforeM, units);
  const side = isPast ? 'past' : 'before';
  return {
    commitM,
    begun: {
      atM: initiationAlongM.value,
      lowM: initiationAlongM.low,
      highM: initiationAlongM.high,
      words: `begun ${figureValue(distance)} ${side} the commit point`,
      shortWords: `begun ${figureValue(distance)} ${side}`,
    },
  };
}

/** Both for who does not see them. */
export function markRows(
  { float }: Final,
  commit: CommitPicture | null,
  units: PilotUnits,
): TwinRow[] {
  const rows: TwinRow[] = [];
  if (!isUndetermined(float)) {
    const seconds = figureLine(secondsFigure(float.durationS));
    rows.push({
      label: 'float',
      value: `${figureLine(lengthFigure(float.distanceM, units))}, ${seconds}`,
    });
  }
  if (commit) {
    rows.push(twinRow('commit point', lengthFigure(commit.commitM, units)));
    if (commit.begun) rows.push({ label: 'go-around', value: commit.begun.words });
  }
  return rows;
}
