/**
 * What is said of a final, beside the other measured figures of an approach: airspeed at the lowest
 * gate, float, preferred path, commit point.
 *
 * In: an approach with its final, the pilot's units. Out: rows with how each was found; none for what
 * the strip does not have.
 */
import type { Final } from '../../debrief/finals.ts';
import type { CommitCheck } from '../../events/commit-point.ts';
import type { Approach } from '../../events/flight-event.ts';
import type { PathFollowed } from '../../events/preferred-path.ts';
import { isUndetermined } from '../../result.ts';
import {
  figureLine,
  hasFigure,
  heightFigure,
  lengthFigure,
  airspeedError,
  secondsFigure,
  shareFigure,
  speedFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { airspeedWindWords } from '../airspeed-wind-words.ts';
import { PATH_WORDS } from '../final-words.ts';
import { negated } from '../format-quantity.ts';
import { METRES_PER_FOOT } from '../../units/convert.ts';
import type { MeasuredRow } from './measured-rows.ts';

/** Rows of one final. */
export function finalRows(approach: Approach, final: Final, units: PilotUnits): MeasuredRow[] {
  const { preferredPath, commitPoint } = final;
  return [
    ...airspeedRows(approach, final, units),
    ...floatRows(approach, final, units),
    ...(preferredPath ? [pathRow(preferredPath, units)] : []),
    ...(commitPoint ? [commitRow(commitPoint, units)] : []),
  ];
}

/** The gates stand in the order flown, so the last one is the lowest. */
function airspeedRows(
  { gates }: Approach,
  { gates: figures, airspeedWind }: Final,
  units: PilotUnits,
): MeasuredRow[] {
  const gate = gates.at(-1);
  const figure = figures.at(-1);
  if (!gate || !figure) return [];
  const at = figureLine(heightFigure(gate.heightFt * METRES_PER_FOOT, units));
  return [
    {
      label: `airspeed at ${at}, estimated`,
      figure: speedFigure(figure.estimatedAirspeedMps, units),
      beside: '',
      how: `Ground speed less ${windWords(airspeedWind)}, weaker towards the ground, at the density of the day. Within ${airspeedError(units)}; it says nothing about a margin over the stall.`,
    },
  ];
}

function windWords(from: Final['airspeedWind']): string {
  if (from === null) return 'the wind, which neither the track nor an entry tells';
  return airspeedWindWords(from);
}

function floatRows({ touchdown }: Approach, { float }: Final, units: PilotUnits): MeasuredRow[] {
  if (isUndetermined(touchdown)) return [];
  const distance = isUndetermined(float) ? float : lengthFigure(float.distanceM, units);
  return [
    {
      label: 'float',
      figure: isUndetermined(float)
        ? { reason: float.undetermined }
        : secondsFigure(float.durationS),
      beside:
        !isUndetermined(distance) && hasFigure(distance) ? `over ${figureLine(distance)}` : '',
      how: 'From the end of the round-out to touchdown, each hold-off weighed by how well it explains the heights. Long floats are rather found too short.',
    },
  ];
}

function pathRow({ found, withinM, greatestOffM }: PathFollowed, units: PilotUnits): MeasuredRow {
  return {
    label: 'furthest off the preferred path',
    figure: lengthFigure(greatestOffM, units),
    beside: `${PATH_WORDS[found]} within ${figureLine(lengthFigure(withinM, units))}`,
    how: 'Every place on the path as drawn against the nearest place of the track that goes its way.',
  };
}

function commitRow({ beforeM, beforeProbability }: CommitCheck, units: PilotUnits): MeasuredRow {
  const isPast = !isUndetermined(beforeM) && beforeM.value < 0;
  // A far one needs no such word, and none is certain.
  const isOpen = beforeProbability !== null && beforeProbability > 0.01 && beforeProbability < 0.99;
  return {
    label: `go-around begun ${isPast ? 'past' : 'before'} the commit point by`,
    figure: lengthFigure(isPast ? negated(beforeM) : beforeM, units),
    beside: isOpen ? `before it with ${figureLine(shareFigure(beforeProbability))}` : '',
    how: 'Where the descent was broken against the commit point kept with the strip. It describes this flight and advises nothing.',
  };
}
