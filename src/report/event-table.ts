/**
 * What happened when in one flight, as tables for people.
 *
 * In: a flight. Out: a table of take-offs and approaches in order of time, and one of what the
 * approaches were like over the threshold and up to the stop.
 */
import type { ComparedEvent } from '../debrief/compare-events.ts';
import type { Flight } from '../debrief/debrief.ts';
import type { Final } from '../debrief/finals.ts';
import { pastLatestTouchdown } from '../debrief/latest-touchdown.ts';
import type { Approach, Backtrack, TakeOff } from '../events/flight-event.ts';
import type { Figure } from '../performance/prediction.ts';
import { isUndetermined, type Measured, type Undetermined } from '../result.ts';
import {
  count,
  DASH,
  height,
  knots,
  metres,
  metresOnly,
  ratio,
  utcTime,
} from './format-quantity.ts';
import { OUTCOME_WORDS } from './outcome-words.ts';
import { textTable } from './text-table.ts';

const HEADING = [
  'UTC',
  'what',
  'strip',
  'from',
  'to',
  'speed',
  'roll',
  'strip left',
  'lowest',
  'expected',
  'ratio',
];

const ON_FINAL_HEADING = [
  'UTC',
  'strip',
  'over threshold',
  'speed there',
  'right of centre',
  'latest touchdown point',
  'bounces',
  'float',
  'air distance',
  'air distance and roll',
];

/** Take-offs and approaches, and how the approaches ended in figures; no lines where there are none. */
export function eventTables({ events, compared, finals }: Flight): string[] {
  const rows = [
    ...events.takeOffs.map((takeOff, k) => ({
      timeS: secondsOf(takeOffMoment(takeOff)),
      cells: takeOffRow(takeOff, compared.takeOffs[k]),
    })),
    ...events.approaches.map((approach, k) => ({
      timeS: secondsOf(approachMoment(approach)),
      cells: approachRow(approach, compared.approaches[k]),
    })),
    ...events.backtracks.map((backtrack) => ({
      timeS: secondsOf(backtrack.startTimeS),
      cells: backtrackRow(backtrack),
    })),
  ].toSorted((a, b) => a.timeS - b.timeS);
  const onFinal = events.approaches.flatMap((approach, k) =>
    approach.strip === null ? [] : [onFinalRow(approach, compared.approaches[k], finals[k])],
  );
  return [
    ...textTable(
      HEADING,
      rows.map(({ cells }) => cells),
    ),
    ...(onFinal.length > 0 ? ['', ...textTable(ON_FINAL_HEADING, onFinal)] : []),
  ];
}

/** The moment an approach is listed under: touchdown, lowest point, threshold or the roll's end. */
export function approachMoment(approach: Approach): Measured {
  const { touchdown, goAround, thresholdCrossing, rollEnd } = approach;
  if (!isUndetermined(touchdown)) return touchdown.timeS;
  if (goAround) return goAround.lowestTimeS;
  if (!isUndetermined(thresholdCrossing)) return thresholdCrossing.timeS;
  return isUndetermined(rollEnd) ? rollEnd : rollEnd.timeS;
}

/** The moment a take-off is listed under: lift-off, or brake release where it never left the ground. */
export function takeOffMoment({ liftOff, brakeRelease }: TakeOff): Measured {
  if (!isUndetermined(liftOff)) return liftOff.timeS;
  return isUndetermined(brakeRelease) ? brakeRelease : brakeRelease.timeS;
}

/** Strip and direction as a pilot says them. */
export function placeText(place: {
  readonly strip: string | null;
  readonly direction: string | null;
}): string {
  const { strip, direction } = place;
  return strip === null ? 'unknown place' : `${strip} ${direction ?? ''}`.trim();
}

function secondsOf(moment: Measured): number {
  return isUndetermined(moment) ? Infinity : moment.value;
}

function approachRow(approach: Approach, compared: ComparedEvent): string[] {
  const { touchdown, rollEnd, outcome, goAround } = approach;
  const touched = !isUndetermined(touchdown);
  const { prediction } = compared;
  const landing = isUndetermined(prediction) ? prediction : prediction.landing;
  return [
    utcTime(approachMoment(approach)),
    isUndetermined(outcome) ? 'touch or pass?' : OUTCOME_WORDS[outcome],
    placeText(approach),
    touched ? metres(touchdown.alongM) : '',
    isUndetermined(rollEnd) ? '' : `${metres(rollEnd.alongM)} ${rollEnd.kind}`,
    touched ? knots(touchdown.groundSpeedMps) : '',
    touched ? metres(approach.groundRollM) : '',
    touched ? metres(approach.stripLeftM) : '',
    goAround ? height(goAround.lowestAboveM) : '',
    ...(touched && !isUndetermined(landing)
      ? comparedCells(compared, landing.expectedRollM, landing.expectedFrom50FtM)
      : ['', '']),
  ];
}

function takeOffRow(takeOff: TakeOff, compared: ComparedEvent): string[] {
  const { brakeRelease, liftOff, kind } = takeOff;
  const { prediction } = compared;
  const run = isUndetermined(prediction) ? prediction : prediction.takeOff;
  const left = !isUndetermined(liftOff);
  return [
    utcTime(takeOffMoment(takeOff)),
    OUTCOME_WORDS[kind],
    placeText(takeOff),
    isUndetermined(brakeRelease) ? '' : metres(brakeRelease.alongM),
    left ? metres(liftOff.alongM) : '',
    left ? knots(liftOff.groundSpeedMps) : '',
    left ? metres(takeOff.groundRollM) : '',
    left ? metres(takeOff.stripLeftM) : '',
    '',
    ...(left && !isUndetermined(run)
      ? comparedCells(compared, run.expectedRollM, run.expectedTo50FtM)
      : ['', '']),
  ];
}

function backtrackRow(backtrack: Backtrack): string[] {
  const { startTimeS, fromAlongM, toAlongM, fastestMps, lengthM } = backtrack;
  const measured = [
    metres(fromAlongM),
    metres(toAlongM),
    `${knots(fastestMps)} at most`,
    metres(lengthM),
  ];
  return [utcTime(startTimeS), 'backtrack', placeText(backtrack), ...measured, '', '', '', ''];
}

/** Expected figure and ratio: of the ground roll, or of the whole distance where the handbook gives no roll. */
function comparedCells(compared: ComparedEvent, rollM: Figure, wholeM: Figure): string[] {
  if (typeof rollM === 'number') return [metresOnly(rollM), ratio(compared.roll.ratio)];
  return [`${metresOnly(wholeM)} over 50 ft`, ratio(compared.whole.ratio)];
}

function onFinalRow(approach: Approach, compared: ComparedEvent, { float }: Final): string[] {
  const { thresholdCrossing, touchdown, airDistanceM, landingDistanceM } = approach;
  const touched = <T>(show: (quantity: T) => string, quantity: T): string =>
    isUndetermined(touchdown) ? '' : show(quantity);
  return [
    utcTime(approachMoment(approach)),
    placeText(approach),
    from(thresholdCrossing, ({ aboveM }) => height(aboveM)),
    from(thresholdCrossing, ({ groundSpeedMps }) => knots(groundSpeedMps)),
    from(touchdown, ({ crossM }) => metres(crossM), ''),
    latestText(pastLatestTouchdown(approach, compared)),
    from(touchdown, ({ bounces }) => count(bounces), ''),
    isUndetermined(touchdown) ? '' : from(float, ({ distanceM }) => metres(distanceM)),
    touched(metres, airDistanceM),
    touched(metres, landingDistanceM),
  ];
}

/** `96 m before it`, or past it; empty where there is no touchdown or no plan. */
function latestText(past: Measured): string {
  if (isUndetermined(past)) return '';
  return `${metresOnly(Math.abs(past.value))} ${past.value > 0 ? 'past' : 'before'} it`;
}

function from<T extends object>(
  part: T | Undetermined,
  show: (part: T) => string,
  without = DASH,
): string {
  return isUndetermined(part) ? without : show(part);
}
