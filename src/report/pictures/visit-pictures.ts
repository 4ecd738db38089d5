/**
 * A visit on the strip ruler, before it is flown: what will be needed in, and what out.
 *
 * In: one direction of a strip, its prediction, own factors, the strips file, the pilot's units. Out:
 * the models of two rulers. Landing rods are whole distances laid from 50 ft over the threshold;
 * take-off rods whole distances to 50 ft laid from the start of the run available. The rope is the
 * latest touchdown point of the planned roll, or of the own one where that is longer.
 */
import type { StripPlace } from '../../debrief/strip-place.ts';
import type { LandingPrediction, TakeOffPrediction } from '../../performance/prediction.ts';
import type { StripBook } from '../../strips/strip.ts';
import {
  figureLine,
  figureValue,
  hasFigure,
  lengthFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { groundRows } from './approach-words.ts';
import type { TwinRow } from './picture.ts';
import { declaredLabel, rodsFrom, ropeFor } from './rods.ts';
import { stripGround } from './strip-ground.ts';
import type { PlaceMark, StripPicture } from './strip-picture.ts';

/** Own factors of the aeroplane; null: too few landings for one. */
export interface OwnForVisit {
  readonly landingWhole: number | null;
  readonly landingRoll: number | null;
  readonly takeOffWhole: number | null;
}

type Model = Omit<StripPicture, 'spoken' | 'rows'>;

/** What nobody can have measured yet. */
const NOTHING_MEASURED = {
  passes: null,
  roll: null,
  rollWords: null,
  left: null,
  aimM: null,
  lowest: null,
  againM: null,
  unknown: null,
} as const;

/** An own factor times what was expected; null where either is missing. */
export function ownLength(factor: number | null, expectedM: unknown): number | null {
  return factor === null || typeof expectedM !== 'number' ? null : factor * expectedM;
}

/** The ruler of the landing. */
export function landingPlanPicture(
  place: StripPlace,
  landing: LandingPrediction,
  own: OwnForVisit,
  book: StripBook,
  units: PilotUnits,
): StripPicture {
  const ground = stripGround(place, book, units);
  const { displacedM } = place.direction;
  const wholes = {
    expectedM: landing.expectedFrom50FtM,
    plannedM: landing.plannedFrom50FtM,
    ownM: ownLength(own.landingWhole, landing.expectedFrom50FtM),
  };
  const rolls = {
    expectedM: landing.expectedRollM,
    plannedM: landing.plannedRollM,
    ownM: ownLength(own.landingRoll, landing.expectedRollM),
  };
  const displaced = figureValue(lengthFigure(displacedM, units));
  const air = landing.expectedAirM;
  const model: Model = {
    ...NOTHING_MEASURED,
    kind: 'landing',
    lengthUnit: units.length,
    ground,
    start: {
      atM: 0,
      label: displacedM === 0 ? '50 ft here' : `50 ft here, displaced ${displaced}`,
    },
    end: { atM: ground.ldaM, label: declaredLabel('LDA', ground.ldaM, ground, units) },
    places: [],
    rods: rodsFrom(0, ground.ldaM, ground, wholes, units),
    ...ropeFor(ground, rolls, units),
    halfway: typeof air === 'number' ? { atM: air, label: 'touchdown expected' } : null,
  };
  return {
    ...model,
    ...told(`Landing at ${ground.name} ${ground.designator}, from 50 ft over the threshold`, model),
  };
}

/** The ruler of the take-off. */
export function takeOffPlanPicture(
  place: StripPlace,
  takeOff: TakeOffPrediction,
  own: OwnForVisit,
  book: StripBook,
  units: PilotUnits,
): StripPicture {
  const ground = stripGround(place, book, units);
  const startM = ground.nearEndM;
  const { todaM, toraM } = place.direction;
  const wholes = {
    expectedM: takeOff.expectedTo50FtM,
    plannedM: takeOff.plannedTo50FtM,
    ownM: ownLength(own.takeOffWhole, takeOff.expectedTo50FtM),
  };
  const endM = startM + todaM;
  const model: Model = {
    ...NOTHING_MEASURED,
    kind: 'take-off',
    lengthUnit: units.length,
    ground,
    start: { atM: startM, label: 'brakes off' },
    end: { atM: endM, label: declaredLabel('TODA', todaM, ground, units) },
    places: liftOffMark(startM, takeOff, units),
    rods: rodsFrom(startM, endM, ground, wholes, units),
    rope: null,
    noRope: null,
    halfway: ground.endsGuessed ? null : { atM: startM + toraM / 2, label: 'half of TORA' },
  };
  return {
    ...model,
    ...told(`Take-off at ${ground.name} ${ground.designator}, to 50 ft`, model),
  };
}

function liftOffMark(
  startM: number,
  { expectedRollM }: TakeOffPrediction,
  units: PilotUnits,
): PlaceMark[] {
  if (typeof expectedRollM !== 'number') return [];
  const figure = lengthFigure(expectedRollM, units);
  if (!hasFigure(figure)) return [];
  const atM = startM + expectedRollM;
  return [{ kind: 'lift-off', atM, lowM: atM, highM: atM, label: 'lift-off expected', figure }];
}

/** Read out, and in rows. */
function told(what: string, model: Model): { spoken: string; rows: TwinRow[] } {
  const rope = model.rope
    ? [{ label: 'latest touchdown point', value: figureLine(model.rope.figure) }]
    : [];
  const noRope = model.noRope === null ? [] : [{ label: 'caution', value: model.noRope }];
  const marks = model.places.map(({ label, figure }) => ({ label, value: figureLine(figure) }));
  const rods = model.rods.map(({ label, figure, leftText }) => ({
    label,
    value: `${figureLine(figure)}, ${leftText}`,
  }));
  const rows = [...rods, ...rope, ...noRope, ...marks];
  const heard = rows.map(({ label, value }) => `${label}: ${value}.`).join(' ');
  return {
    spoken: `${what}, ${model.end.label}. ${heard}`,
    rows: [...rows, { label: 'length', value: model.end.label }, ...groundRows(model)],
  };
}
