/**
 * What a visit needs against what is declared, and what is left: negative as plainly as positive.
 *
 * In: a prediction of a landing or a take-off, own factors, the direction, the pilot's units. Out:
 * rows. What is left is always the declared length less the distance of the same row.
 */
import type { StripPlace } from '../../debrief/strip-place.ts';
import type { Figure, LandingPrediction, TakeOffPrediction } from '../../performance/prediction.ts';
import type { Strip, StripDirection } from '../../strips/strip.ts';
import {
  figureValue,
  hasFigure,
  lengthFigure,
  shownDifferenceM,
  type FigureText,
  type NoFigure,
  type PilotUnits,
  numberText,
} from '../figure-text.ts';
import { inPilotUnits } from '../figures-in-text.ts';
import { declaredLabel } from '../pictures/rods.ts';
import { ownLength, type OwnForVisit } from '../pictures/visit-pictures.ts';

/** Which length a figure is. */
export type PlanKind = 'expected' | 'planned' | 'own';

/** One row of the table. */
export interface VisitFigure {
  readonly kind: PlanKind;
  /** `planned, from 50 ft`. */
  readonly label: string;
  readonly figure: FigureText | NoFigure;
  /** `LDA 355 m`; null where the length is held against none. */
  readonly of: string | null;
  readonly left: FigureText | NoFigure | null;
  /** True where the declared length is shorter than the distance. */
  readonly isShort: boolean;
}

/** The declared lengths of a direction, metres, and whether they rest on ends that are a guess. */
export type Declared = Pick<StripDirection, 'ldaM' | 'toraM' | 'todaM'> &
  Pick<Strip, 'endsGuessed'>;

/** Those of a place. */
export function declaredAt({ direction, strip }: StripPlace): Declared {
  return { ...direction, endsGuessed: strip.endsGuessed };
}

/** The landing: whole distances against LDA, then the rolls, which are held against nothing. */
export function landingFigures(
  landing: LandingPrediction,
  own: OwnForVisit,
  { ldaM, endsGuessed }: Pick<Declared, 'ldaM' | 'endsGuessed'>,
  units: PilotUnits,
): VisitFigure[] {
  const { expectedFrom50FtM, plannedFrom50FtM, expectedRollM, plannedRollM } = landing;
  const against: Against = { name: 'LDA', lengthM: ldaM, endsGuessed };
  const ownM = ownLength(own.landingWhole, expectedFrom50FtM);
  const ownRollM = ownLength(own.landingRoll, expectedRollM);
  return [
    row('expected', 'expected, from 50 ft', expectedFrom50FtM, against, units),
    row('planned', 'planned, from 50 ft', plannedFrom50FtM, against, units),
    ...(ownM === null ? [] : [row('own', 'own factor, from 50 ft', ownM, against, units)]),
    row('expected', 'expected ground roll', expectedRollM, null, units),
    row('planned', 'planned ground roll', plannedRollM, null, units),
    ...(ownRollM === null ? [] : [row('own', 'own factor, ground roll', ownRollM, null, units)]),
  ];
}

/** The take-off: whole distances against TODA (or TORA where the set says so), ground rolls against TORA. */
export function takeOffFigures(
  takeOff: TakeOffPrediction,
  own: OwnForVisit,
  { toraM, todaM, endsGuessed }: Pick<Declared, 'toraM' | 'todaM' | 'endsGuessed'>,
  units: PilotUnits,
): VisitFigure[] {
  const { expectedTo50FtM, plannedTo50FtM, expectedRollM, plannedRollM } = takeOff;
  const toda: Against = { name: 'TODA', lengthM: todaM, endsGuessed };
  const tora: Against = { name: 'TORA', lengthM: toraM, endsGuessed };
  const whole = takeOff.heldAgainst === 'TORA' ? tora : toda;
  const ownM = ownLength(own.takeOffWhole, expectedTo50FtM);
  return [
    row('expected', 'expected, to 50 ft', expectedTo50FtM, whole, units),
    row('planned', 'planned, to 50 ft', plannedTo50FtM, whole, units),
    ...(ownM === null ? [] : [row('own', 'own factor, to 50 ft', ownM, whole, units)]),
    row('expected', 'expected ground roll', expectedRollM, tora, units),
    row('planned', 'planned ground roll', plannedRollM, tora, units),
  ];
}

/** What the pilot's own factor of the whole distance means for the plan; null: there is none, or no plan. */
export function ownWords(
  factor: number | null,
  expectedM: Figure,
  plannedM: Figure,
): string | null {
  const ownM = ownLength(factor, expectedM);
  if (factor === null || ownM === null || typeof plannedM !== 'number') return null;
  const own = `Your own factor, ${numberText(factor, 2)} of the expected distance,`;
  return planLength(plannedM, ownM).isOwn
    ? `${own} asks for more than the published rules: plan with it.`
    : `${own} gives less than the published rules: it is no permission to plan shorter.`;
}

/**
 * The whole distance to plan with: the planned one, or the own one where the pilot's own factor is
 * longer. An own factor that gives less is no permission.
 */
export function planLength(
  plannedM: Figure,
  ownM: number | null,
): { readonly lengthM: Figure; readonly isOwn: boolean } {
  if (typeof plannedM !== 'number') return { lengthM: plannedM, isOwn: false };
  const isOwn = ownM !== null && ownM > plannedM;
  return { lengthM: isOwn ? ownM : plannedM, isOwn };
}

/** `plan 408 m of 560 m`, and by how much it is too long; `declaredM` null where the strip's ends are guessed. */
export function planWords(
  lengthM: Figure,
  declaredM: number | null,
  units: PilotUnits,
): string | null {
  if (typeof lengthM !== 'number') return null;
  const text = (metres: number): string => figureValue(lengthFigure(metres, units));
  if (declaredM === null) return `plan ${text(lengthM)} of a length that is a guess`;
  const words = `plan ${text(lengthM)} of ${text(declaredM)}`;
  return lengthM > declaredM
    ? `${words}, ${text(shownDifferenceM(lengthM, declaredM, units))} too long`
    : words;
}

/** A declared length. */
interface Against {
  readonly name: 'LDA' | 'TORA' | 'TODA';
  readonly lengthM: number;
  readonly endsGuessed: boolean;
}

function row(
  kind: PlanKind,
  label: string,
  lengthM: Figure,
  against: Against | null,
  units: PilotUnits,
): VisitFigure {
  const of = against ? declaredLabel(against.name, against.lengthM, against, units) : null;
  const isNumber = typeof lengthM === 'number';
  const figure = isNumber
    ? lengthFigure(lengthM, units)
    : { reason: inPilotUnits(lengthM.undetermined, units) };
  if (!against || against.endsGuessed || !isNumber || !hasFigure(figure)) {
    return { kind, label, figure, of, left: null, isShort: false };
  }
  const leftM = shownDifferenceM(against.lengthM, lengthM, units);
  const isShort = against.lengthM < lengthM;
  return { kind, label, figure, of, left: lengthFigure(leftM, units), isShort };
}
