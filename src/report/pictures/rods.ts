/**
 * Which predicted rolls are laid beside the measured one, and where is the latest touchdown point?
 *
 * In: predicted rolls in metres, where they begin, the length that counts. Out: rods and rope.
 */
import type { Figure } from '../../performance/prediction.ts';
import {
  figureValue,
  hasFigure,
  lengthFigure,
  NBSP,
  shownDifferenceM,
  unitOf,
  wholeUnits,
  type PilotUnits,
} from '../figure-text.ts';
import type { StripGround } from './strip-ground.ts';
import type { Rod, Rope } from './strip-picture.ts';

/** Predicted rolls; what was not predicted is undetermined, an own one absent is null. */
export interface PredictedRolls {
  readonly expectedM: Figure;
  readonly plannedM: Figure;
  /** Own factor times the expected roll. */
  readonly ownM: number | null;
}

/** Rods from a place, the expected one first. Metres. */
export function rodsFrom(
  fromM: number,
  endM: number,
  { endsGuessed }: Pick<StripGround, 'endsGuessed'>,
  rolls: PredictedRolls,
  units: PilotUnits,
): Rod[] {
  const found: Rod[] = [];
  const { si } = unitOf(units.length);
  const add = (kind: Rod['kind'], label: string, lengthM: Figure | null): void => {
    if (typeof lengthM !== 'number') return;
    const toM = fromM + lengthM;
    const figure = lengthFigure(lengthM, units);
    const shownM = shownDifferenceM(endM, fromM, units) - wholeUnits(lengthM, units) * si;
    const gap = figureValue(lengthFigure(Math.abs(shownM), units));
    if (!hasFigure(figure)) return;
    const isTooLong = !endsGuessed && toM > endM;
    const leftText = endsGuessed ? 'end guessed' : `${gap} ${isTooLong ? 'too long' : 'left'}`;
    found.push({ kind, fromM, toM, label, figure, leftText, isTooLong });
  };
  add('expected', 'expected', rolls.expectedM);
  add('planned', 'planned', rolls.plannedM);
  add('own', 'own factor', rolls.ownM);
  return found;
}

/** The rope, or why a planned roll gives none: it may be longer than the strip. */
export function ropeFor(
  { ldaM, endsGuessed }: Pick<StripGround, 'ldaM' | 'endsGuessed'>,
  rolls: PredictedRolls,
  units: PilotUnits,
): { readonly rope: Rope | null; readonly noRope: string | null } {
  const plannedM = typeof rolls.plannedM === 'number' ? rolls.plannedM : null;
  const ownM = rolls.ownM;
  if (plannedM === null && ownM === null) return { rope: null, noRope: null };
  if (endsGuessed) return { rope: null, noRope: 'no latest touchdown point: the end is guessed' };
  const of = isOwnLonger(rolls) ? 'own' : 'planned';
  const rollM = of === 'own' ? (ownM ?? 0) : (plannedM ?? 0);
  const atM = ldaM - rollM;
  const figure = lengthFigure(shownDifferenceM(ldaM, rollM, units), units);
  if (atM >= 0 && hasFigure(figure)) {
    return { rope: { of, atM, label: 'latest touchdown', figure }, noRope: null };
  }
  const tooLong = figureValue(lengthFigure(shownDifferenceM(rollM, ldaM, units), units));
  const [by, which] = of === 'own' ? [BY_OWN, 'roll'] : ['', 'planned roll'];
  return {
    rope: null,
    noRope: `no latest touchdown point${by}: the ${which} is ${tooLong} longer than the LDA`,
  };
}

/** Behind `latest touchdown point` where it is not that of the planned roll. */
export const BY_OWN = ' by the own factor';

/** True where the roll by the own factor, longer than the planned one, gives the rope. */
export function isOwnLonger({ plannedM, ownM }: PredictedRolls): boolean {
  return ownM !== null && ownM > (typeof plannedM === 'number' ? plannedM : 0);
}

/** `LDA 355 m`, and that it is a guess where nobody knows the strip's ends. */
export function declaredLabel(
  name: 'LDA' | 'TORA' | 'TODA',
  lengthM: number,
  { endsGuessed }: Pick<StripGround, 'endsGuessed'>,
  units: PilotUnits,
): string {
  const words = `${name}${NBSP}${figureValue(lengthFigure(lengthM, units))}`;
  return endsGuessed ? `${words}, guessed` : words;
}
