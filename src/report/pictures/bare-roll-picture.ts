/**
 * A roll on a bare tape, at a place nobody has kept: no grass, no ends, no length to hold it against.
 *
 * In: an approach or a take-off, the pilot's units. Out: the model, or why there is none. Zero is the
 * most likely touchdown, or brakes off; all the doubt of the roll stands at its other mark's side:
 * at the touchdown of a landing, at the lift-off of a take-off.
 */
import type { Approach, TakeOff } from '../../events/flight-event.ts';
import { isUndetermined, type Estimate, type Undetermined } from '../../result.ts';
import { hasFigure, lengthFigure, type FigureText, type PilotUnits } from '../figure-text.ts';
import { OUTCOME_WORDS } from '../outcome-words.ts';
import { ROLL_END_WORDS, rollWords } from './approach-words.ts';
import { standstillPoints } from './landing-passes.ts';
import { tenPointsOfBand, type Passes } from './passes.ts';
import { twinRow, type Picture, type TwinRow } from './picture.ts';
import type { PlaceMark } from './strip-picture.ts';

/** A mark on the tape; without a figure where its place is zero or said by the roll. */
export interface BareMark extends Pick<PlaceMark, 'kind' | 'atM' | 'lowM' | 'highM' | 'label'> {
  readonly figure: FigureText | null;
}

/** The model of a roll on a bare tape; lengths are metres from its zero. */
export interface BareRollPicture extends Picture {
  readonly lengthUnit: 'm' | 'ft';
  readonly passes: Passes;
  readonly roll: FigureText;
  /** Words beside the roll where it was not seen to its end; null where it was. */
  readonly rollWords: string | null;
  readonly marks: readonly BareMark[];
}

/** The roll of a landing; undetermined where it is. */
export function bareLandingRoll(
  approach: Approach,
  units: PilotUnits,
): BareRollPicture | Undetermined {
  const { groundRollM, rollEnd, outcome } = approach;
  if (isUndetermined(groundRollM)) return groundRollM;
  if (isUndetermined(rollEnd)) return rollEnd;
  const roll = lengthFigure(groundRollM, units);
  if (!hasFigure(roll)) return { undetermined: roll.reason };
  const { value, low, high } = groundRollM;
  const touchdown: Estimate = { value: 0, low: value - high, high: value - low };
  const toM = tenPointsOfBand({ value, low: value, high: value });
  const words = rollWords(approach, units);
  const marks: BareMark[] = [
    { kind: 'touchdown', label: 'touchdown', figure: null, ...place(touchdown) },
    {
      kind: rollEnd.kind === 'stopped' ? 'stop' : 'roll-end',
      label: ROLL_END_WORDS[rollEnd.kind],
      figure: null,
      ...place({ value, low: value, high: value }),
    },
  ];
  const what = isUndetermined(outcome) ? 'Landing' : OUTCOME_WORDS[outcome];
  const rows = [
    twinRow('ground roll', roll),
    ...(words === null ? [] : [{ label: 'roll measured', value: words }]),
  ];
  return {
    lengthUnit: units.length,
    passes: {
      fromM: tenPointsOfBand(touchdown),
      toM,
      extrapolatedToM: standstillPoints(approach, value, toM),
    },
    roll,
    rollWords: words,
    marks,
    ...told(what, `Rolled ${roll.spoken}`, words, rows),
  };
}

/** The run of a take-off; undetermined where it is. */
export function bareRun(takeOff: TakeOff, units: PilotUnits): BareRollPicture | Undetermined {
  const { groundRollM, screen, kind } = takeOff;
  if (isUndetermined(groundRollM)) return groundRollM;
  const roll = lengthFigure(groundRollM, units);
  if (!hasFigure(roll)) return { undetermined: roll.reason };
  const over = isUndetermined(screen) ? screen : screen.distanceM;
  const overFigure = lengthFigure(over, units);
  const marks: BareMark[] = [
    { kind: 'brake-release', label: 'brakes off', figure: null, ...place(ZERO) },
    { kind: 'lift-off', label: 'lift-off', figure: null, ...place(groundRollM) },
    ...(isUndetermined(over) || !hasFigure(overFigure)
      ? []
      : [{ kind: 'screen' as const, label: '50 ft', figure: overFigure, ...place(over) }]),
  ];
  const rows = [twinRow('take-off ground roll', roll), twinRow('distance to 50 ft', overFigure)];
  return {
    lengthUnit: units.length,
    passes: {
      fromM: tenPointsOfBand(ZERO),
      toM: tenPointsOfBand(groundRollM),
      extrapolatedToM: null,
    },
    roll,
    rollWords: null,
    marks,
    ...told(OUTCOME_WORDS[kind], `Ran ${roll.spoken}`, null, rows),
  };
}

const ZERO: Estimate = { value: 0, low: 0, high: 0 };

function place({ value, low, high }: Estimate): Pick<BareMark, 'atM' | 'lowM' | 'highM'> {
  return { atM: value, lowM: low, highM: high };
}

function told(what: string, roll: string, words: string | null, rows: TwinRow[]): Picture {
  const said = [`A place not kept yet, ${what}`, roll, ...(words === null ? [] : [words])];
  return { rows, spoken: `${said.join('. ')}.` };
}
