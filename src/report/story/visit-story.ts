/**
 * FRONT DOOR of the visit: everything the page shows of one prediction, in and out, as plain data.
 *
 * In: the direction to land in and the one to take off in, each with its prediction, made now or
 * frozen before; own factors; strips, conditions, units. Out: sentence, title block, pictures,
 * figures, working, speeds, notes.
 */
import type { StripPlace } from '../../debrief/strip-place.ts';
import type { ShownUnits } from '../../logbook/entry.ts';
import type { FactorChain, Prediction, TakeOffPrediction } from '../../performance/prediction.ts';
import { isUndetermined, type Undetermined } from '../../result.ts';
import type { StripBook } from '../../strips/strip.ts';
import type { Conditions } from '../../weather/conditions.ts';
import type { PilotUnits } from '../figure-text.ts';
import { reasonIn } from '../figures-in-text.ts';
import { notesIn } from '../note-sentence.ts';
import { notesOf, predictionNoteLines } from '../prediction-notes.ts';
import type { StripPicture } from '../pictures/strip-picture.ts';
import type { MissingOwn } from '../own-for-visit.ts';
import {
  landingPlanPicture,
  ownLength,
  takeOffPlanPicture,
  type OwnForVisit,
} from '../pictures/visit-pictures.ts';
import { aheadLines, obstaclesAhead } from './obstacles-ahead.ts';
import { titleBlock, type BlockCell } from './title-block.ts';
import { airRows, speedRows, windRows, type DayRow } from './visit-day.ts';
import {
  declaredAt,
  landingFigures,
  ownWords,
  planLength,
  planWords,
  takeOffFigures,
  type VisitFigure,
} from './visit-figures.ts';
import { longestOf, workingLines, type WorkingLine } from './visit-working.ts';

/** One way the strip is used on a visit. */
export interface VisitUse {
  readonly place: StripPlace;
  readonly prediction: Prediction | Undetermined;
}

/** What the story is told from; a null use is not planned. */
export interface VisitInput {
  readonly landing: VisitUse | null;
  readonly takeOff: VisitUse | null;
  readonly own: OwnForVisit;
  /** Why one is missing; absent: nothing to say. */
  readonly missingOwn?: MissingOwn;
  readonly book: StripBook;
  readonly conditions: Conditions;
  readonly units: ShownUnits & PilotUnits;
}

/** In, or out. */
export interface VisitPhase {
  readonly designator: string;
  readonly picture: StripPicture;
  readonly figures: readonly VisitFigure[];
  readonly working: {
    readonly expected: readonly WorkingLine[];
    readonly planned: readonly WorkingLine[];
  };
  /** `plan 408 m of 560 m`; null where no whole distance could be had. */
  readonly words: string | null;
  /** True where the plan is longer than what is declared. */
  readonly isShort: boolean;
  /** What the pilot's own factor means for the plan, or why there is none; null: no landing speaks of it. */
  readonly ownWords: string | null;
  /** What stands beyond the end, a line each; of a landing none. */
  readonly ahead: readonly string[];
}

/** The visit as the page shows it. */
export interface VisitStory {
  readonly sentence: string;
  readonly block: readonly BlockCell[];
  readonly landing: VisitPhase | Undetermined | null;
  readonly takeOff: VisitPhase | Undetermined | null;
  readonly day: readonly DayRow[];
  readonly notes: readonly string[];
  readonly factorSet: string | null;
}

/** Tells it. */
export function visitStory(input: VisitInput): VisitStory {
  const { units } = input;
  const landing = input.landing && reasonIn(landingPhase(input.landing, input), units);
  const takeOff = input.takeOff && reasonIn(takeOffPhase(input.takeOff, input), units);
  const uses = [
    { use: 'landing' as const, prediction: input.landing?.prediction },
    { use: 'take-off' as const, prediction: input.takeOff?.prediction },
  ];
  const predicted = uses.flatMap(({ use, prediction }) =>
    prediction && !isUndetermined(prediction) ? [{ use, prediction }] : [],
  );
  return {
    sentence: sentenceOf(landing, takeOff),
    block: titleBlock(input.conditions, 'landing', units),
    landing,
    takeOff,
    day: dayRows(input),
    notes: notesIn(
      predictionNoteLines(predicted.flatMap(({ use, prediction }) => notesOf(prediction, use))),
      units,
    ),
    factorSet: predicted.at(0)?.prediction.factorSet ?? null,
  };
}

function landingPhase(
  { place, prediction }: VisitUse,
  input: VisitInput,
): VisitPhase | Undetermined {
  if (isUndetermined(prediction)) return prediction;
  const { landing } = prediction;
  if (isUndetermined(landing)) return landing;
  const { own, book, units } = input;
  const { ldaM, designator } = place.direction;
  const { endsGuessed } = place.strip;
  const ownM = ownLength(own.landingWhole, landing.expectedFrom50FtM);
  const { lengthM } = planLength(landing.plannedFrom50FtM, ownM);
  return {
    designator,
    picture: landingPlanPicture(place, landing, own, book, units),
    figures: landingFigures(landing, own, declaredAt(place), units),
    working: workingOf(landing.chain, units),
    words: planWords(lengthM, endsGuessed ? null : ldaM, units),
    isShort: !endsGuessed && typeof lengthM === 'number' && lengthM > ldaM,
    ownWords:
      ownWords(own.landingWhole, landing.expectedFrom50FtM, landing.plannedFrom50FtM) ??
      input.missingOwn?.landing ??
      null,
    ahead: [],
  };
}

function takeOffPhase(
  { place, prediction }: VisitUse,
  input: VisitInput,
): VisitPhase | Undetermined {
  if (isUndetermined(prediction)) return prediction;
  const { takeOff } = prediction;
  if (isUndetermined(takeOff)) return takeOff;
  const { own, book, units } = input;
  const { todaM, toraM, designator } = place.direction;
  const { endsGuessed } = place.strip;
  const wholeM = takeOff.heldAgainst === 'TORA' ? toraM : todaM;
  const ownM = ownLength(own.takeOffWhole, takeOff.expectedTo50FtM);
  const { lengthM } = planLength(takeOff.plannedTo50FtM, ownM);
  const { plannedRollM } = takeOff;
  const picture = takeOffPlanPicture(place, takeOff, own, book, units);
  return {
    designator,
    picture,
    figures: takeOffFigures(takeOff, own, declaredAt(place), units),
    working: workingOf(takeOff.chain, units),
    words: planWords(lengthM, endsGuessed ? null : wholeM, units),
    isShort:
      !endsGuessed &&
      ((typeof lengthM === 'number' && lengthM > wholeM) ||
        (typeof plannedRollM === 'number' && plannedRollM > toraM)),
    ownWords:
      ownWords(own.takeOffWhole, takeOff.expectedTo50FtM, takeOff.plannedTo50FtM) ??
      input.missingOwn?.takeOff ??
      null,
    ahead: aheadOf(picture, takeOff, units),
  };
}

function aheadOf(
  { ground, start }: ReturnType<typeof takeOffPlanPicture>,
  takeOff: TakeOffPrediction,
  units: PilotUnits,
): string[] {
  return aheadLines(obstaclesAhead(ground, start.atM, takeOff), takeOff.plannedTo50FtM, units);
}

function workingOf(chain: FactorChain, units: PilotUnits): VisitPhase['working'] {
  const longestM = longestOf([chain.expected, chain.planned]);
  return {
    expected: workingLines(chain.expected, longestM, units),
    planned: workingLines(chain.planned, longestM, units),
  };
}

function sentenceOf(
  landing: VisitPhase | Undetermined | null,
  takeOff: VisitPhase | Undetermined | null,
): string {
  const said = (name: string, phase: VisitPhase | Undetermined | null): string[] => {
    if (!phase) return [];
    const words = isUndetermined(phase) ? null : phase.words;
    return [`${name}: ${words ?? 'no prediction'}.`];
  };
  const parts = [...said('In', landing), ...said('Out', takeOff)];
  return parts.length > 0 ? parts.join(' ') : 'No prediction.';
}

/** Wind for each direction, said once where both are the same; then the air and the speeds. */
function dayRows({ landing, takeOff, units }: VisitInput): DayRow[] {
  const into = landing && !isUndetermined(landing.prediction) ? landing.prediction : null;
  const out = takeOff && !isUndetermined(takeOff.prediction) ? takeOff.prediction : null;
  const any = into ?? out;
  if (!any) return [];
  const inward = landing?.place.direction.designator ?? '';
  const outward = takeOff?.place.direction.designator ?? '';
  return [
    ...(into ? windRows(into.day, `landing ${inward}`, units) : []),
    ...(out && (outward !== inward || !into)
      ? windRows(out.day, `take-off ${outward}`, units)
      : []),
    ...airRows(any, units),
    ...(into ? speedRows(into.speeds, units) : []),
  ];
}
