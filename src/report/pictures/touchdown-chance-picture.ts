/**
 * How the touchdown was found: the chance of every place, as a heap over the tape.
 *
 * In: an approach with its posterior, its strip. Out: the density along the strip with the middle
 * and the band that the ruler shows, and the chance of having touched short of the threshold.
 */
import type { Flight } from '../../debrief/debrief.ts';
import { isExact, isUndetermined, undetermined, type Undetermined } from '../../result.ts';
import {
  figureLine,
  hasFigure,
  lengthFigure,
  NBSP,
  speedFigure,
  type FigureText,
  type PilotUnits,
} from '../figure-text.ts';
import { touchdownMixture } from './landing-passes.ts';
import { viewOfEvent } from '../../events/view-of-event.ts';
import { placeName, twinRow, type Picture } from './picture.ts';

/** The model. */
export interface TouchdownChancePicture extends Picture {
  readonly lengthUnit: 'm' | 'ft';
  readonly alongM: Float64Array;
  /** Peak 1; slots belong to `alongM`. */
  readonly density: Float64Array;
  readonly atM: number;
  readonly lowM: number;
  readonly highM: number;
  readonly figure: FigureText;
  readonly ldaM: number;
  /** `12 % of the chance lies before the threshold`; null where next to none does. */
  readonly shortText: string | null;
}

const STEPS = 120;

/** The heap of one approach; undetermined without a touchdown at a known strip. */
export function touchdownChancePicture(
  flight: Flight,
  index: number,
  units: PilotUnits,
): TouchdownChancePicture | Undetermined {
  const approach = flight.events.approaches[index];
  const view = viewOfEvent(flight.events, approach);
  if (!view) return undetermined('no strip is known here');
  const { touchdown } = approach;
  if (isUndetermined(touchdown)) return touchdown;
  if (isUndetermined(touchdown.alongM)) return touchdown.alongM;
  if (isExact(touchdown.alongM)) return undetermined('put there by hand: no chance is left');
  const mixture = touchdownMixture(approach, view);
  const figure = lengthFigure(touchdown.alongM, units);
  if (!mixture || !hasFigure(figure)) return undetermined('the touchdown was not weighed');
  const { value, low, high } = touchdown.alongM;
  const reachM = 0.6 * (high - low);
  const fromM = low - reachM;
  const stepM = (high - low + 2 * reachM) / STEPS;
  const alongM = Float64Array.from({ length: STEPS + 1 }, (_, i) => fromM + i * stepM);
  const raw = alongM.map((at) => {
    let sum = 0;
    for (let i = 0; i < mixture.weight.length; i++) {
      const sd = Math.max(mixture.sd[i], stepM / 2);
      const z = (at - mixture.mean[i]) / sd;
      sum += (mixture.weight[i] / sd) * Math.exp(-0.5 * z * z);
    }
    return sum;
  });
  const peak = Math.max(...raw);
  const percent = Math.round(100 * touchdown.shortProbability);
  const shortText =
    percent < 1 ? null : `${percent}${NBSP}% of the chance lies before the threshold`;
  return {
    lengthUnit: units.length,
    alongM,
    density: raw.map((each) => each / peak),
    atM: value,
    lowM: low,
    highM: high,
    figure,
    ldaM: view.direction.ldaM,
    shortText,
    spoken: `Chance of the touchdown place at ${placeName(view)}: half lies before ${figure.spoken}.`,
    rows: [
      { label: 'strip', value: placeName(view) },
      { label: 'touchdown', value: figureLine(figure) },
      twinRow('ground speed there', speedFigure(touchdown.groundSpeedMps, units)),
      ...(shortText === null ? [] : [{ label: 'short of the threshold', value: shortText }]),
    ],
  };
}
