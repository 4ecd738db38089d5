/**
 * Every measured figure of an event, and how it was found.
 *
 * In: an approach or a take-off, the log's interval, the pilot's units. Out: rows in the order of the
 * flight; a figure that the data cannot give stands there with its reason.
 */
import type { ByHand, HandPlace } from '../../debrief/hand-corrections.ts';
import type { LiftOffByHand } from '../../debrief/hand-lift-offs.ts';
import type { Approach, TakeOff } from '../../events/flight-event.ts';
import { isUndetermined, undetermined, type Measured } from '../../result.ts';
import {
  countFigure,
  figureLine,
  hasFigure,
  heightFigure,
  lengthFigure,
  NBSP,
  numberText,
  shareFigure,
  speedFigure,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { isOffBy } from '../half-way.ts';
import { ROLL_END_WORDS } from '../pictures/approach-words.ts';

/** One figure. */
export interface MeasuredRow {
  readonly label: string;
  readonly figure: FigureText | NoFigure;
  /** Said behind the figure: `at 47 kt`. */
  readonly beside: string;
  readonly how: string;
}

const FROM_POSTERIOR =
  'Every moment at which the wheels may first have touched was weighed by the heights, the slowing down and the sinking around it. Half of the chance lies before the value, nine tenths inside the band. Floated on level just above the grass for three seconds and more, an aeroplane looks as if it rolled, and its touchdown is told too early.';
const FROM_HEIGHT =
  'Height of the log, tied to the strip where the wheels were surely down and carried from there with its drift.';

/** Rows of an approach. */
export function approachRows(
  approach: Approach,
  intervalS: number,
  units: PilotUnits,
  byHand: ByHand | null = null,
): MeasuredRow[] {
  const { thresholdCrossing, touchdown, rollEnd, goAround, saidContact } = approach;
  const rows: MeasuredRow[] = [];
  const add = (label: string, figure: FigureText | NoFigure, how: string, beside = ''): void => {
    rows.push({ label, figure, how, beside });
  };
  const crossing = isUndetermined(thresholdCrossing) ? null : thresholdCrossing;
  add(
    'over the threshold',
    heightFigure(crossing?.aboveM ?? reasonOf(thresholdCrossing), units),
    `${FROM_HEIGHT} Read where the smoothed track passes the threshold.`,
    crossing ? atSpeed(crossing.groundSpeedMps, units, ' over the ground') : '',
  );
  if (saidContact?.refused === null) {
    add(
      'contact of the wheels',
      shareFigure(approach.contactProbability),
      'Said by hand in place of what was measured from speed and height; what hangs on it was measured by it. It can be taken back.',
      ` by hand, measured ${shareWords(saidContact.measuredProbability)}`,
    );
  }
  if (goAround) {
    add(
      'lowest height',
      heightFigure(goAround.lowestAboveM, units),
      `${FROM_HEIGHT} Without contact at this strip the tie comes from elsewhere, and the band is wider.`,
    );
    return rows;
  }
  const touched = isUndetermined(touchdown) ? null : touchdown;
  const moved = handWords(byHand, units);
  add(
    'touchdown',
    placeFigure(touched?.alongM ?? reasonOf(touchdown), moved.touchdown !== '', units),
    moved.touchdown === '' ? FROM_POSTERIOR : BY_HAND,
    moved.touchdown,
  );
  add(
    'ground speed at touchdown',
    speedFigure(touched?.groundSpeedMps ?? reasonOf(touchdown), units),
    'Speed of the smoothed track at each moment weighed, together with its place.',
  );
  add(
    'from the threshold or 50 ft to touchdown',
    lengthFigure(approach.airDistanceM, units),
    'From the threshold, or from 50 ft where that came later, to the touchdown.',
  );
  add('bounces', countFigure(touched?.bounces ?? reasonOf(touchdown)), bounceHow(intervalS));
  const end = isUndetermined(rollEnd) ? null : rollEnd;
  add(
    end ? ROLL_END_WORDS[end.kind] : 'end of the roll',
    placeFigure(end?.alongM ?? reasonOf(rollEnd), moved.rollEnd !== '', units),
    moved.rollEnd === ''
      ? 'The first of: standing still, turning off the strip, taxiing without slowing further, opening the power.'
      : BY_HAND,
    moved.rollEnd,
  );
  add(
    'ground roll',
    lengthFigure(approach.groundRollM, units),
    'From touchdown to the end of the roll, the touchdown weighed as above; errors that both ends share fall out.',
  );
  add(
    'from the threshold or 50 ft to the end of the roll',
    lengthFigure(approach.landingDistanceM, units),
    "Air distance and roll together: what the handbook's distance from 50 ft is held against.",
  );
  if (end && end.kind !== 'stopped') {
    add(
      'roll to a full stop, extrapolated',
      lengthFigure(approach.fullStopRollM, units),
      'The slowing down seen so far, carried on to a standstill.',
    );
  }
  add(
    'roll at the hardest braking held for 2 s',
    lengthFigure(approach.hardestBrakingRollM, units),
    'Speed squared over twice the hardest deceleration held for two seconds, from touchdown. A lower limit: never a plan, never in a factor.',
  );
  add(
    'strip left',
    lengthFigure(approach.stripLeftM, units),
    'Landing distance available less the place where the roll ended, with the error of the strip as drawn.',
  );
  return rows;
}

function shareWords(probability: number): string {
  return Number.isNaN(probability) ? 'undetermined' : figureLine(shareFigure(probability));
}

const BY_HAND =
  'Put by hand in place of what was measured; the lengths that hang on it moved by as much. It can be taken back.';

/** A place; one that was put by hand has no band. */
function placeFigure(at: Measured, isByHand: boolean, units: PilotUnits): FigureText | NoFigure {
  return lengthFigure(isByHand && !isUndetermined(at) ? at.value : at, units);
}

/** `by hand, measured 118 m`; empty where nothing was moved. */
function handWords(
  byHand: ByHand | null,
  units: PilotUnits,
): { readonly touchdown: string; readonly rollEnd: string } {
  const words = (put: unknown, measured: HandPlace | null | undefined): string =>
    put && measured ? byHandWords(measured, units) : '';
  const { marks, measuredTouchdown, measuredRollEnd } = byHand ?? {};
  return {
    touchdown: words(marks?.touchdown, measuredTouchdown),
    rollEnd: words(marks?.rollEnd, measuredRollEnd),
  };
}

function byHandWords(measured: HandPlace, units: PilotUnits): string {
  return ` by hand, measured ${figureLine(lengthFigure(measured.alongM, units))}`;
}

/**
 * Rows of a take-off.
 *
 * @param halfM where half of the TORA lies along the strip, metres; null where no strip is known
 */
export function takeOffRows(
  takeOff: TakeOff,
  halfM: number | null,
  units: PilotUnits,
  byHand: LiftOffByHand | null = null,
): MeasuredRow[] {
  const isPut = byHand !== null && byHand.put !== null;
  const { brakeRelease, liftOff, screen, halfway } = takeOff;
  const release = isUndetermined(brakeRelease) ? brakeRelease : brakeRelease.alongM;
  const lift = isUndetermined(liftOff) ? null : liftOff;
  return [
    {
      label: 'brake release',
      figure: lengthFigure(release, units),
      beside: '',
      how: 'Start of the unbroken acceleration.',
    },
    {
      label: 'lift-off',
      figure: placeFigure(lift?.alongM ?? reasonOf(liftOff), isPut, units),
      beside: [
        ...(isPut && byHand.measured ? [byHandWords(byHand.measured, units)] : []),
        ...(lift ? [atSpeed(lift.groundSpeedMps, units)] : []),
      ].join(', '),
      how: isPut
        ? BY_HAND
        : 'Every moment at which the wheels may have left the ground was weighed by the heights around it and by how fast aeroplanes usually lift off.',
    },
    {
      label: 'take-off ground roll',
      figure: lengthFigure(takeOff.groundRollM, units),
      beside: '',
      how: 'From brake release to lift-off.',
    },
    {
      label: 'brake release to 50 ft',
      figure: lengthFigure(isUndetermined(screen) ? screen : screen.distanceM, units),
      beside: '',
      how: FROM_HEIGHT,
    },
    {
      label: 'speed at half the TORA, share of lift-off',
      figure: isOffBy(takeOff, halfM)
        ? { reason: OFF_BY_HALF }
        : shareFigure(isUndetermined(halfway) ? halfway : halfway.shareOfLiftOff),
      beside: '',
      how: 'A rule of thumb: below 70 % at half way is a reason to stop. It is never a reason to go.',
    },
    {
      label: 'strip left at lift-off',
      figure: placeFigure(takeOff.stripLeftM, isPut, units),
      beside: '',
      how: 'Take-off run available less the place of lift-off.',
    },
  ];
}

/** Said of half the TORA where the lift-off as it is shown lies before it. */
const OFF_BY_HALF = 'off the ground by then, more likely than not: no check of a run';

/** The reason of what is undetermined; anything else has no business here. */
function reasonOf(part: object): Measured {
  return isUndetermined(part) ? part : undetermined('not measured');
}

/** `at 47 kt 45–49`; nothing where the speed cannot be had. */
function atSpeed(speedMps: Measured, units: PilotUnits, after = ''): string {
  const speed = speedFigure(speedMps, units);
  return hasFigure(speed) ? `at ${figureLine(speed)}${after}` : '';
}

function bounceHow(intervalS: number): string {
  return `Skips between fixes ${numberText(intervalS, 1)}${NBSP}s apart: a short one cannot be seen. The roll counts from the first contact.`;
}
