/**
 * Why the roll differed from the expected one: exact shares, in metres.
 *
 * In: a flight, which of its approaches, the pilot's units. Out: a heading and rows, or why the roll
 * cannot be split.
 */
import type { RollSplit } from '../../calibration/roll-split.ts';
import type { Flight } from '../../debrief/debrief.ts';
import { whyRoll } from '../../debrief/why-roll.ts';
import { isUndetermined, type Estimate, type Measured, type Undetermined } from '../../result.ts';
import { GRAVITY_MPS2 } from '../../units/convert.ts';
import {
  figureValue,
  hasFigure,
  lengthFigure,
  NBSP,
  speedFigure,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';

/** One row: what, and how much of the difference, with its sign. */
export interface WhyRow {
  readonly label: string;
  readonly figure: FigureText | NoFigure;
}

/** The table. */
export interface WhyTable {
  readonly heading: string;
  readonly rows: readonly WhyRow[];
}

/** The split of one landing's roll; undetermined where there is nothing to split. */
export function whyRows(flight: Flight, index: number, units: PilotUnits): WhyTable | Undetermined {
  const why = whyRoll(flight, index);
  if (isUndetermined(why)) return why;
  const { split, measuredM, expectedM, touchdownMps, referenceMps } = why;
  return {
    heading: headingOf(measuredM.value - expectedM, units),
    rows: [
      speedRow(split, touchdownMps, referenceMps, units),
      brakingRow(split, flight, units),
      { label: 'wind, slope and surface', figure: { reason: 'as entered, in the expected roll' } },
    ],
  };
}

function headingOf(differenceM: number, units: PilotUnits): string {
  const size = figureValue(lengthFigure(Math.abs(differenceM), units));
  if (size.startsWith('0')) return 'Why it was as long as expected';
  return `Why it was ${size} ${differenceM < 0 ? 'shorter' : 'longer'} than expected`;
}

function speedRow(
  { touchdownSpeed }: RollSplit,
  measured: Measured,
  referenceMps: number,
  units: PilotUnits,
): WhyRow {
  const flown = figureValue(speedFigure(measured, units));
  const reference = speedFigure(referenceMps, units);
  const against = hasFigure(reference) ? reference.value : '';
  return {
    label: `ground speed at touchdown, ${flown} against ${against}`,
    figure: signed(touchdownSpeed.metres, units),
  };
}

function brakingRow(split: RollSplit, { aeroplane }: Flight, units: PilotUnits): WhyRow {
  const inG = (mps2: number): string => (mps2 / GRAVITY_MPS2).toFixed(2);
  const label = `slowing down, ${inG(split.measuredBrakingMps2)}${NBSP}g against ${inG(split.expectedBrakingMps2)}`;
  const hasBrakes = isUndetermined(aeroplane) || aeroplane.brakes;
  if (!hasBrakes) return { label: 'slowing down', figure: { reason: 'no brakes: cannot be told' } };
  return { label, figure: signed(split.braking.metres, units) };
}

function signed(metres: Estimate, units: PilotUnits): FigureText | NoFigure {
  const figure = lengthFigure(metres, units);
  // What is shown as nought has no sign.
  if (!hasFigure(figure) || metres.value < 0 || figure.value === '0') return figure;
  return { ...figure, value: `+${figure.value}`, spoken: `plus ${figure.spoken}` };
}
