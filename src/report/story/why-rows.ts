/**
 * Why the roll differed from the expected one: shares in whole units that add up to the difference of
 * the two rolls as they are shown.
 *
 * In: a flight, which of its approaches, the pilot's units. Out: a heading and rows, or why the roll
 * cannot be split.
 */
import type { RollSplit } from '../../calibration/roll-split.ts';
import type { Flight } from '../../debrief/debrief.ts';
import { whyRoll, type WhyRoll } from '../../debrief/why-roll.ts';
import { isUndetermined, type Estimate, type Measured, type Undetermined } from '../../result.ts';
import { GRAVITY_MPS2 } from '../../units/convert.ts';
import {
  figureValue,
  hasFigure,
  lengthFigure,
  NBSP,
  shownDifferenceM,
  speedFigure,
  unitOf,
  wholeUnits,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { wholeShares } from '../rounding.ts';

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
  const { measuredM, expectedM, touchdownMps, referenceMps } = why;
  const hasBrakes = isUndetermined(flight.aeroplane) || flight.aeroplane.brakes;
  // Without brakes one row alone has a figure, and nothing is added up.
  const shown = hasBrakes ? asShown(why, units) : why.split;
  return {
    heading: headingOf(shownDifferenceM(measuredM.value, expectedM, units), units),
    rows: [
      speedRow(shown, touchdownMps, referenceMps, units),
      brakingRow(shown, hasBrakes, units),
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

/** The shares as whole units that add up to the difference of the two rolls as they are shown. */
function asShown({ split, measuredM, expectedM }: WhyRoll, units: PilotUnits): RollSplit {
  const { si } = unitOf(units.length);
  const difference = wholeUnits(measuredM.value, units) - wholeUnits(expectedM, units);
  const { touchdownSpeed, braking } = split;
  const [speed, slowing] = wholeShares(
    [touchdownSpeed.metres.value / si, braking.metres.value / si],
    difference,
  );
  return {
    ...split,
    touchdownSpeed: { ...touchdownSpeed, metres: moved(touchdownSpeed.metres, speed * si) },
    braking: { ...braking, metres: moved(braking.metres, slowing * si) },
  };
}

/** Another value, inside its band. */
function moved({ low, high }: Estimate, value: number): Estimate {
  return { value, low: Math.min(low, value), high: Math.max(high, value) };
}

function brakingRow(split: RollSplit, hasBrakes: boolean, units: PilotUnits): WhyRow {
  const inG = (mps2: number): string => (mps2 / GRAVITY_MPS2).toFixed(2);
  const label = `slowing down, ${inG(split.measuredBrakingMps2)}${NBSP}g against ${inG(split.expectedBrakingMps2)}`;
  if (!hasBrakes) return { label: 'slowing down', figure: { reason: 'no brakes: cannot be told' } };
  return { label, figure: signed(split.braking.metres, units) };
}

function signed(metres: Estimate, units: PilotUnits): FigureText | NoFigure {
  const figure = lengthFigure(metres, units);
  // What is shown as nought has no sign.
  if (!hasFigure(figure) || metres.value < 0 || figure.value === '0') return figure;
  return { ...figure, value: `+${figure.value}`, spoken: `plus ${figure.spoken}` };
}
