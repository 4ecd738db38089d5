/**
 * The strip ruler of a take-off: the run as passes, the peg drawn out at lift-off, 50 ft, half way.
 *
 * In: a flight, which of its take-offs, the strips file, the pilot's units. Out: the model, or why
 * there is none.
 */
import type { Flight } from '../../debrief/debrief.ts';
import type { HandPlace } from '../../debrief/hand-corrections.ts';
import type { LiftOffByHand } from '../../debrief/hand-lift-offs.ts';
import type { TakeOff } from '../../events/flight-event.ts';
import type { StripView } from '../../events/strip-view.ts';
import {
  isExact,
  isUndetermined,
  undetermined,
  type Estimate,
  type Measured,
  type Undetermined,
} from '../../result.ts';
import type { StripBook } from '../../strips/strip.ts';
import {
  figureLine,
  figureValue,
  hasFigure,
  lengthFigure,
  NBSP,
  numberText,
  speedFigure,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { halfwayAlongM, isOffBy } from '../half-way.ts';
import { OUTCOME_WORDS } from '../outcome-words.ts';
import { groundRows } from './approach-words.ts';
import { tenPointsOfBand, type Passes } from './passes.ts';
import { viewOfEvent } from '../../events/view-of-event.ts';
import { twinRow, type TwinRow } from './picture.ts';
import { declaredLabel, rodsFrom } from './rods.ts';
import { stripGround } from './strip-ground.ts';
import type { CrossLine, PlaceMark, StripLeft, StripPicture } from './strip-picture.ts';

type Model = Omit<StripPicture, 'spoken' | 'rows'>;

/** The ruler's model of one take-off; undetermined where no strip is known there. */
export function takeOffPicture(
  flight: Flight,
  index: number,
  book: StripBook,
  { units }: { readonly units: PilotUnits },
): StripPicture | Undetermined {
  const takeOff = flight.events.takeOffs[index];
  const view = viewOfEvent(flight.events, takeOff);
  if (!view) return undetermined('no strip is known here');
  const ground = stripGround(view, book, units);
  const endM = ground.nearEndM + ground.toraM;
  const releaseM = estimateOf(takeOff.brakeRelease, ({ alongM }) => alongM);
  const { prediction } = flight.compared.takeOffs[index];
  const run = isUndetermined(prediction) ? prediction : prediction.takeOff;
  const rolls = isUndetermined(run)
    ? { expectedM: run, plannedM: run, ownM: null }
    : { expectedM: run.expectedRollM, plannedM: run.plannedRollM, ownM: null };
  const roll = lengthFigure(takeOff.groundRollM, units);
  const model: Model = {
    kind: 'take-off',
    lengthUnit: units.length,
    ground,
    start: { atM: ground.nearEndM, label: 'start of the run available' },
    end: { atM: endM, label: declaredLabel('TORA', ground.toraM, ground, units) },
    places: placesOf(takeOff, flight.liftOffsByHand[index], units),
    passes: runPasses(takeOff),
    roll: hasFigure(roll) ? roll : null,
    rollWords: null,
    rods: releaseM ? rodsFrom(releaseM.value, endM, ground, rolls, units) : [],
    rope: null,
    noRope: null,
    left: leftOf(takeOff, endM, units),
    aimM: null,
    lowest: null,
    halfway: halfwayLine(takeOff, view, units),
    againM: null,
    unknown: unknownPart(takeOff, endM),
  };
  return { ...model, spoken: spokenOf(takeOff, model), rows: rowsOf(takeOff, model, units) };
}

function estimateOf<T extends object>(
  part: T | Undetermined,
  pick: (part: T) => Measured,
): Estimate | null {
  if (isUndetermined(part)) return null;
  const picked = pick(part);
  return isUndetermined(picked) ? null : picked;
}

function placesOf(takeOff: TakeOff, byHand: LiftOffByHand, units: PilotUnits): PlaceMark[] {
  const releaseM = estimateOf(takeOff.brakeRelease, ({ alongM }) => alongM);
  const liftM = estimateOf(takeOff.liftOff, ({ alongM }) => alongM);
  const screenM = estimateOf(takeOff.screen, ({ distanceM }) => distanceM);
  const places: PlaceMark[] = [];
  const add = (
    kind: PlaceMark['kind'],
    label: string,
    at: Estimate | null,
    was: HandPlace | null = null,
  ): void => {
    if (!at) return;
    const figure = lengthFigure(was ? at.value : at, units);
    if (!hasFigure(figure)) return;
    const place = { kind, atM: at.value, lowM: at.low, highM: at.high, figure };
    places.push(
      was ? { ...place, label: `${label} by hand`, wasM: was.alongM } : { ...place, label },
    );
  };
  add('brake-release', 'brakes off', releaseM);
  add('lift-off', 'lift-off', liftM, byHand.put && byHand.measured);
  add('screen', '50 ft', releaseM && screenM ? shifted(screenM, releaseM.value) : null);
  return places;
}

function shifted({ value, low, high }: Estimate, byM: number): Estimate {
  return { value: value + byM, low: low + byM, high: high + byM };
}

function runPasses(takeOff: TakeOff): Passes | null {
  const releaseM = estimateOf(takeOff.brakeRelease, ({ alongM }) => alongM);
  const liftM = estimateOf(takeOff.liftOff, ({ alongM }) => alongM);
  if (!releaseM || !liftM) return null;
  const fromM = tenPointsOfBand(releaseM);
  return { fromM, toM: tenPointsOfBand(liftM), extrapolatedToM: null };
}

function leftOf(takeOff: TakeOff, endM: number, units: PilotUnits): StripLeft | null {
  const { stripLeftM } = takeOff;
  if (isUndetermined(stripLeftM)) return null;
  const isOver = stripLeftM.value < 0;
  const { value, low, high } = stripLeftM;
  const left = isOver ? { value: -value, low: -high, high: -low } : stripLeftM;
  const figure = lengthFigure(isExact(left) ? left.value : left, units);
  if (!hasFigure(figure)) return null;
  const words = isOver ? 'past the end at lift-off' : 'left';
  return { fromM: endM - value, toM: endM, isOver, words, figure };
}

/** An exact one, at a lift-off put by hand, has no band. */
function leftFigure({ stripLeftM }: TakeOff, units: PilotUnits): FigureText | NoFigure {
  const isPut = !isUndetermined(stripLeftM) && isExact(stripLeftM);
  return lengthFigure(isPut ? stripLeftM.value : stripLeftM, units);
}

/** The line at half of the TORA, with the speed there and its share of the speed at lift-off. */
function halfwayLine(takeOff: TakeOff, view: StripView, units: PilotUnits): CrossLine | null {
  const { halfway } = takeOff;
  const atM = halfwayAlongM(view);
  if (isUndetermined(halfway)) return null;
  const speed = speedFigure(halfway.groundSpeedMps, units);
  if (!hasFigure(speed) || isUndetermined(halfway.shareOfLiftOff)) return null;
  if (isOffBy(takeOff, atM)) {
    return { atM, label: `half way: ${figureValue(speed)}, off the ground by then` };
  }
  const share = `${numberText(100 * halfway.shareOfLiftOff.value, 0)}${NBSP}%`;
  return { atM, label: `half way: ${figureValue(speed)}, ${share} of lift-off` };
}

function unknownPart(takeOff: TakeOff, endM: number): StripPicture['unknown'] {
  const { brakeRelease, liftOff } = takeOff;
  const releaseM = estimateOf(brakeRelease, ({ alongM }) => alongM);
  const liftM = estimateOf(liftOff, ({ alongM }) => alongM);
  if (isUndetermined(liftOff) && takeOff.kind === 'take-off') {
    return { fromM: releaseM?.value ?? 0, toM: endM, reason: liftOff.undetermined };
  }
  if (liftM && isUndetermined(brakeRelease)) {
    const fromM = Math.min(0, liftM.value);
    return { fromM, toM: liftM.value, reason: brakeRelease.undetermined };
  }
  return null;
}

function spokenOf(takeOff: TakeOff, model: Model): string {
  const what = OUTCOME_WORDS[takeOff.kind];
  return [
    `${model.ground.name} ${model.ground.designator}, ${what}.`,
    ...model.places.map(({ label, figure }) => `${label}: ${figure.spoken}.`),
    ...(model.roll ? [`Take-off ground roll ${model.roll.spoken}.`] : []),
    ...(model.left ? [`${model.left.figure.spoken}, ${model.left.words}.`] : []),
    ...model.rods.map((rod) => `${rod.label} ${rod.figure.spoken}, ${rod.leftText}.`),
    ...(model.halfway ? [`${model.halfway.label}.`] : []),
    ...(model.unknown ? [`Undetermined: ${model.unknown.reason}.`] : []),
  ].join(' ');
}

function rowsOf(takeOff: TakeOff, model: Model, units: PilotUnits): TwinRow[] {
  const { liftOff, screen } = takeOff;
  return [
    { label: 'strip', value: `${model.ground.name} ${model.ground.designator}` },
    ...model.places.map(({ label, figure }) => ({ label, value: figureLine(figure) })),
    ...(isUndetermined(liftOff)
      ? [{ label: 'lift-off', value: `undetermined: ${liftOff.undetermined}` }]
      : [twinRow('speed at lift-off', speedFigure(liftOff.groundSpeedMps, units))]),
    twinRow('take-off ground roll', lengthFigure(takeOff.groundRollM, units)),
    twinRow(
      'distance to 50 ft',
      lengthFigure(isUndetermined(screen) ? screen : screen.distanceM, units),
    ),
    twinRow('strip left at lift-off', leftFigure(takeOff, units)),
    ...model.rods.map(({ label, figure, leftText }) => ({
      label: `${label} roll`,
      value: `${figureLine(figure)}, ${leftText}`,
    })),
    ...(model.halfway ? [{ label: 'half-way check', value: model.halfway.label }] : []),
    { label: 'length', value: model.end.label },
    ...groundRows(model),
  ];
}
