/**
 * A visit's prediction as text for people: each direction with its figures and working.
 *
 * In: the plans of a strip's directions and what they were made with. Out: lines: the directions
 * side by side where there are several; then for each the wind, air and speeds, what is needed of
 * what is declared and what is left, what stands ahead, what a small change would do, the working.
 */
import type { LengthNeeded, TooFewShort } from '../calibration/length-needed.ts';
import type { DirectionPlan } from '../debrief/plan-directions.ts';
import type { Aeroplane } from '../performance/aeroplane.ts';
import type { FactorSet } from '../performance/factor-sets/factor-set.ts';
import type { Figure, Prediction } from '../performance/prediction.ts';
import type { DistanceChange, SensitivityChange } from '../performance/sensitivity.ts';
import { isUndetermined, type Undetermined } from '../result.ts';
import type { Strip, StripBook } from '../strips/strip.ts';
import type { Conditions } from '../weather/conditions.ts';
import { SHORT_CAUTION } from './caution.ts';
import { enteredTexts } from './conditions-text.ts';
import { figureValue, hasFigure, lengthFigure, speedFigure, USUAL_UNITS } from './figure-text.ts';
import { lengthText } from './factor-length.ts';
import { DASH, metresOnly } from './format-quantity.ts';
import type { MissingOwn } from './own-for-visit.ts';
import type { OwnForVisit } from './pictures/visit-pictures.ts';
import { stripGround } from './pictures/strip-ground.ts';
import { predictionNoteLines } from './prediction-notes.ts';
import { sourceLines, workingText, type SourceList } from './predict-working.ts';
import { aheadLines, obstaclesAhead } from './story/obstacles-ahead.ts';
import { airRows, speedRows, windRows } from './story/visit-day.ts';
import {
  declaredAt,
  landingFigures,
  ownWords,
  takeOffFigures,
  type VisitFigure,
} from './story/visit-figures.ts';
import { textTable } from './text-table.ts';
import { plainSpaces, wrapText } from './wrap-text.ts';

/** Everything the text is made from. */
export interface PredictReport {
  readonly book: StripBook;
  readonly strip: Strip;
  readonly aeroplane: Aeroplane;
  readonly factorSet: FactorSet;
  readonly conditions: Conditions;
  readonly own: OwnForVisit;
  /** Why an own factor is missing though logs were given. */
  readonly missingOwn: MissingOwn;
  readonly plans: readonly DirectionPlan[];
  /** The length that the pilot's short landings would need, in the order of the plans; null: no logs given. */
  readonly lengths: readonly (LengthNeeded | TooFewShort | Undetermined)[] | null;
}

/** All lines but the caution. */
export function predictLines(report: PredictReport): string[] {
  const { strip, aeroplane, factorSet, conditions, plans } = report;
  const sources: SourceList = [];
  return [
    `${strip.name}, ${aeroplane.name}, by ${factorSet.name}`,
    ...wrapText(enteredTexts(conditions).join(', '), '  '),
    ...(plans.length > 1 ? ['', ...sideBySide(plans)] : []),
    ...plans.flatMap((plan, k) => ['', ...directionLines(plan, k, report, sources)]),
    ...sourceLines(sources),
    '',
  ];
}

function sideBySide(plans: readonly DirectionPlan[]): string[] {
  const heading = ['direction', 'headwind', 'crosswind', 'in', 'of', 'left', 'out', 'of', 'left'];
  const rows = plans.map(({ place: { direction }, prediction }) => {
    if (isUndetermined(prediction)) {
      return [direction.designator, '', '', DASH, '', '', DASH, '', ''];
    }
    const { day } = prediction;
    return [
      direction.designator,
      knotsText(day.headwindMps),
      knotsText(day.crosswindMps),
      ...inAndOut(prediction, direction),
    ];
  });
  return [
    `  Planned in each direction (${SHORT_CAUTION}); a tailwind and a wind from the left are negative`,
    ...textTable(heading, rows),
  ];
}

function inAndOut(
  { landing, takeOff }: Prediction,
  { ldaM, toraM, todaM }: DirectionPlan['place']['direction'],
): string[] {
  const into = isUndetermined(landing)
    ? [DASH, '', '']
    : [
        metresOnly(landing.plannedFrom50FtM),
        `LDA ${metresOnly(ldaM)}`,
        metresOnly(landing.marginM),
      ];
  if (isUndetermined(takeOff)) return [...into, DASH, '', ''];
  const against = takeOff.heldAgainst ?? 'TODA';
  const declared = `${against} ${metresOnly(against === 'TORA' ? toraM : todaM)}`;
  return [...into, metresOnly(takeOff.plannedTo50FtM), declared, metresOnly(takeOff.marginM)];
}

function directionLines(
  { place, prediction, changes }: DirectionPlan,
  index: number,
  report: PredictReport,
  sources: SourceList,
): string[] {
  const name = `${place.strip.name} ${place.direction.designator}`;
  if (isUndetermined(prediction)) {
    return [name, ...wrapText(`no prediction: ${prediction.undetermined}`, '  ')];
  }
  const { landing, takeOff } = prediction;
  const day = [
    ...windRows(prediction.day, place.direction.designator, USUAL_UNITS),
    ...airRows(prediction, USUAL_UNITS),
    ...speedRows(prediction.speeds, USUAL_UNITS),
  ].map(({ label, value }) => [label, plainSpaces(value)]);
  return [
    name,
    ...textTable(['the day', ''], day),
    ...needed('landing', landing, (figures) =>
      landingFigures(figures, report.own, declaredAt(place), USUAL_UNITS),
    ),
    ...ownLines(ownOfLanding(landing, report)),
    ...latestLine(landing),
    ...(report.lengths ? lengthText(report.lengths[index]) : []),
    ...needed('take-off', takeOff, (figures) =>
      takeOffFigures(figures, report.own, declaredAt(place), USUAL_UNITS),
    ),
    ...ownLines(ownOfTakeOff(takeOff, report)),
    ...aheadText(place, takeOff, report.book),
    ...changeLines(changes),
    ...(isUndetermined(landing) ? [] : workingText('landing', landing.chain, sources, USUAL_UNITS)),
    ...(isUndetermined(takeOff)
      ? []
      : workingText('take-off', takeOff.chain, sources, USUAL_UNITS)),
    ...noteText(prediction),
  ];
}

function needed<T extends object>(
  what: string,
  outcome: T | { readonly undetermined: string },
  figures: (outcome: T) => readonly VisitFigure[],
): string[] {
  if (isUndetermined(outcome)) {
    return ['', ...wrapText(`no ${what}: ${outcome.undetermined}`, '  ')];
  }
  const all = figures(outcome);
  const why = [
    ...new Set(all.flatMap(({ figure }) => (hasFigure(figure) ? [] : [figure.reason]))),
  ].flatMap((reason) => wrapText(`${DASH} ${reason}`, '  '));
  if (!all.some(({ figure }) => hasFigure(figure))) return ['', `  no ${what} distances:`, ...why];
  const rows = all.map(({ label, figure, of, left }) =>
    [
      label,
      hasFigure(figure) ? figureValue(figure) : DASH,
      of ?? '',
      left ? figureValue(left) : '',
    ].map(plainSpaces),
  );
  const table = textTable([what, 'distance', 'of', 'left'], rows);
  return ['', ...table, ...why, `  (${SHORT_CAUTION})`];
}

/** What the own factor means for the plan, or why there is none. */
function ownOfLanding(
  landing: Prediction['landing'],
  { own, missingOwn }: PredictReport,
): string | null {
  if (isUndetermined(landing)) return null;
  const { expectedFrom50FtM, plannedFrom50FtM } = landing;
  return ownWords(own.landingWhole, expectedFrom50FtM, plannedFrom50FtM) ?? missingOwn.landing;
}

function ownOfTakeOff(
  takeOff: Prediction['takeOff'],
  { own, missingOwn }: PredictReport,
): string | null {
  if (isUndetermined(takeOff)) return null;
  const { expectedTo50FtM, plannedTo50FtM } = takeOff;
  return ownWords(own.takeOffWhole, expectedTo50FtM, plannedTo50FtM) ?? missingOwn.takeOff;
}

function ownLines(words: string | null): string[] {
  return words === null ? [] : wrapText(plainSpaces(words), '  ');
}

function latestLine(landing: Prediction['landing']): string[] {
  if (isUndetermined(landing) || isUndetermined(landing.latestTouchdownAlongM)) return [];
  const alongM = landing.latestTouchdownAlongM;
  const where =
    alongM < 0
      ? `${metresOnly(-alongM)} before the threshold: no touchdown on the strip leaves it`
      : `${metresOnly(alongM)} past the threshold`;
  return [`  latest touchdown point that leaves the planned roll: ${where}`];
}

function aheadText(
  place: DirectionPlan['place'],
  takeOff: Prediction['takeOff'],
  book: StripBook,
): string[] {
  if (isUndetermined(takeOff)) return [];
  const ground = stripGround(place, book, USUAL_UNITS);
  const ahead = obstaclesAhead(ground, ground.nearEndM, takeOff);
  const lines = aheadLines(ahead, takeOff.plannedTo50FtM, USUAL_UNITS);
  if (lines.length === 0) return [];
  return ['', ...lines.map(plainSpaces).flatMap((line) => wrapText(line, '  '))];
}

function changeLines(changes: readonly SensitivityChange[]): string[] {
  const rows = changes.map(({ label, landing, takeOff }) => [
    label,
    ...changeCells(landing),
    ...changeCells(takeOff),
  ]);
  if (rows.length === 0) return [];
  const heading = ['with', 'in, expected', 'planned', 'out, expected', 'planned'];
  return ['', ...textTable(heading, rows), ...reasons(changes)];
}

function changeCells(change: DistanceChange | null): string[] {
  if (change === null) return ['', ''];
  return [signed(change.expectedM), signed(change.plannedM)];
}

function signed(figure: Figure): string {
  if (isUndetermined(figure)) return DASH;
  const text = plainSpaces(figureValue(lengthFigure(figure, USUAL_UNITS)));
  return figure >= 0.5 ? `+${text}` : text;
}

/** Why a change has no figure. */
function reasons(changes: readonly SensitivityChange[]): string[] {
  const why = changes.flatMap(({ label, landing, takeOff }) =>
    [landing, takeOff].flatMap((change) =>
      change && isUndetermined(change.plannedM)
        ? [`${label}: ${change.plannedM.undetermined}`]
        : [],
    ),
  );
  return [...new Set(why)].flatMap((reason) => wrapText(reason, '  '));
}

function noteText({ notes }: Prediction): string[] {
  if (notes.length === 0) return [];
  return ['', ...predictionNoteLines(notes).flatMap((line) => wrapText(`note: ${line}`, '  '))];
}

function knotsText(mps: Figure): string {
  if (isUndetermined(mps)) return DASH;
  return plainSpaces(figureValue(speedFigure(mps, USUAL_UNITS)));
}
