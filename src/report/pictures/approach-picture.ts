/**
 * The strip ruler of an approach: a landing, a touch-and-go, a go-around, a low pass, or what the
 * data cannot tell.
 *
 * In: a flight, which of its approaches, the strips file, the pilot's units. Out: the model, or why
 * there is none (no strip is known there).
 */
import type { Flight } from '../../debrief/debrief.ts';
import type { ByHand, HandPlace } from '../../debrief/hand-corrections.ts';
import type { Approach, TakeOff } from '../../events/flight-event.ts';
import type { StripView } from '../../events/strip-view.ts';
import { isUndetermined, undetermined, type Measured, type Undetermined } from '../../result.ts';
import type { StripBook } from '../../strips/strip.ts';
import {
  figureValue,
  hasFigure,
  lengthFigure,
  heightFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { landingPasses } from './landing-passes.ts';
import { viewOfEvent } from '../../events/view-of-event.ts';
import { declaredLabel, rodsFrom, ropeFor, type PredictedRolls } from './rods.ts';
import { stripGround } from './strip-ground.ts';
import type { PlaceMark, StripLeft, StripPicture } from './strip-picture.ts';
import { approachRows, approachSpoken, ROLL_END_WORDS, rollWords } from './approach-words.ts';

/** What the flight itself does not know. */
export interface StripPictureOptions {
  readonly units: PilotUnits;
  /** Factor of the ground roll from the pilot's own landings; null: none yet. */
  readonly ownRollFactor: number | null;
  /** The pilot's aiming point, alongM; null: none entered. */
  readonly aimM: number | null;
}

/** The ruler's model of one approach; undetermined where no strip is known there. */
export function approachPicture(
  flight: Flight,
  index: number,
  book: StripBook,
  options: StripPictureOptions,
): StripPicture | Undetermined {
  const approach = flight.events.approaches[index];
  const view = viewOfEvent(flight.events, approach);
  if (!view) return undetermined('no strip is known here');
  const { units } = options;
  const ground = stripGround(view, book, units);
  const rolls = predictedRolls(flight, index, options.ownRollFactor);
  const touchdown = isUndetermined(approach.touchdown) ? null : approach.touchdown;
  const touchM =
    touchdown === null || isUndetermined(touchdown.alongM) ? null : touchdown.alongM.value;
  const roll = lengthFigure(approach.groundRollM, units);
  const model: Omit<StripPicture, 'spoken' | 'rows'> = {
    kind: kindOf(approach),
    lengthUnit: units.length,
    ground,
    start: { atM: 0, label: startLabel(view, units) },
    end: { atM: ground.ldaM, label: declaredLabel('LDA', ground.ldaM, ground, units) },
    places: placesOf(approach, flight.byHand[index], units),
    passes: landingPasses(approach, view),
    roll: hasFigure(roll) ? roll : null,
    rollWords: rollWords(approach, units),
    rods: touchM === null ? [] : rodsFrom(touchM, ground.ldaM, ground, rolls, units),
    ...ropeFor(ground, rolls, units),
    left: leftOf(approach, view, units),
    aimM: options.aimM,
    lowest: lowestOf(approach, units),
    halfway: null,
    againM: againAt(flight, approach),
    unknown: unknownPart(approach, ground.ldaM),
  };
  return {
    ...model,
    spoken: approachSpoken(approach, model),
    rows: approachRows(approach, model, units),
  };
}

function kindOf(approach: Approach): StripPicture['kind'] {
  const { outcome } = approach;
  if (isUndetermined(outcome)) {
    return isUndetermined(approach.touchdown) ? 'undetermined' : 'landing';
  }
  if (outcome === 'touch-and-go') return 'touch-and-go';
  return outcome === 'full-stop' || outcome === 'stop-and-go' ? 'landing' : 'pass';
}

/** The rolls predicted for one approach; `factor` is the pilot's own, null: none yet. */
export function predictedRolls(
  flight: Flight,
  index: number,
  factor: number | null,
): PredictedRolls {
  const { prediction } = flight.compared.approaches[index];
  const landing = isUndetermined(prediction) ? prediction : prediction.landing;
  if (isUndetermined(landing)) return { expectedM: landing, plannedM: landing, ownM: null };
  const { expectedRollM, plannedRollM } = landing;
  const ownM = factor === null || typeof expectedRollM !== 'number' ? null : factor * expectedRollM;
  return { expectedM: expectedRollM, plannedM: plannedRollM, ownM };
}

function startLabel({ direction }: StripView, units: PilotUnits): string {
  if (direction.displacedM === 0) return 'threshold';
  return `threshold, displaced ${figureValue(lengthFigure(direction.displacedM, units))}`;
}

function placesOf(approach: Approach, byHand: ByHand, units: PilotUnits): PlaceMark[] {
  const { touchdown, rollEnd, goAround } = approach;
  const places: PlaceMark[] = [];
  const { marks } = byHand;
  const add = (kind: PlaceMark['kind'], label: string, at: Measured, was?: HandPlace): void => {
    const exact = isUndetermined(at) ? at : was ? at.value : at;
    const figure = lengthFigure(exact, units);
    if (isUndetermined(at) || !hasFigure(figure)) return;
    const place = { kind, atM: at.value, lowM: at.low, highM: at.high, figure };
    places.push(
      was ? { ...place, label: `${label} by hand`, wasM: was.alongM } : { ...place, label },
    );
  };
  if (!isUndetermined(touchdown)) {
    const was = marks?.touchdown ? byHand.measuredTouchdown : null;
    add('touchdown', 'touchdown', touchdown.alongM, was ?? undefined);
  }
  if (!isUndetermined(rollEnd)) {
    const kind = rollEnd.kind === 'stopped' ? 'stop' : 'roll-end';
    const was = marks?.rollEnd ? byHand.measuredRollEnd : null;
    add(kind, ROLL_END_WORDS[rollEnd.kind], rollEnd.alongM, was ?? undefined);
  }
  if (goAround) add('lowest', 'lowest at', goAround.lowestAlongM);
  return places;
}

function lowestOf({ goAround }: Approach, units: PilotUnits): StripPicture['lowest'] {
  if (!goAround) return null;
  const figure = heightFigure(goAround.lowestAboveM, units);
  if (isUndetermined(goAround.lowestAlongM) || !hasFigure(figure)) return null;
  return { atM: goAround.lowestAlongM.value, figure };
}

function leftOf(approach: Approach, view: StripView, units: PilotUnits): StripLeft | null {
  const { stripLeftM, rollEnd } = approach;
  if (isUndetermined(stripLeftM) || isUndetermined(rollEnd)) return null;
  const isOver = stripLeftM.value < 0;
  const ldaM = view.direction.ldaM;
  const figure = isOver
    ? lengthFigure(
        { value: -stripLeftM.value, low: -stripLeftM.high, high: -stripLeftM.low },
        units,
      )
    : lengthFigure(stripLeftM, units);
  if (!hasFigure(figure)) return null;
  return {
    fromM: ldaM - stripLeftM.value,
    toM: ldaM,
    isOver,
    words: isOver ? 'past the end' : 'left',
    figure,
  };
}

/** Lift-off of the take-off that a touch-and-go goes on to. */
function againAt(flight: Flight, approach: Approach): number | null {
  if (approach.outcome !== 'touch-and-go') return null;
  const { touchdown } = approach;
  const afterS =
    isUndetermined(touchdown) || isUndetermined(touchdown.timeS) ? null : touchdown.timeS.value;
  if (afterS === null) return null;
  const next = flight.events.takeOffs.find((takeOff) => liftOffTime(takeOff) > afterS);
  if (!next || next.strip !== approach.strip || next.direction !== approach.direction) return null;
  if (isUndetermined(next.liftOff) || isUndetermined(next.liftOff.alongM)) return null;
  return next.liftOff.alongM.value;
}

function liftOffTime({ liftOff }: TakeOff): number {
  if (isUndetermined(liftOff) || isUndetermined(liftOff.timeS)) return -Infinity;
  return liftOff.timeS.value;
}

/** What the data cannot tell, as an outline on the grass. */
function unknownPart(approach: Approach, ldaM: number): StripPicture['unknown'] {
  const { outcome, touchdown, rollEnd } = approach;
  if (isUndetermined(outcome) && isUndetermined(touchdown)) {
    return { fromM: 0.1 * ldaM, toM: 0.9 * ldaM, reason: outcome.undetermined };
  }
  if (isUndetermined(touchdown)) {
    // It ended on the ground; where that began the log does not show.
    if (isUndetermined(rollEnd) || isUndetermined(rollEnd.alongM)) return null;
    const endM = rollEnd.alongM.value;
    return { fromM: Math.min(0, endM), toM: endM, reason: touchdown.undetermined };
  }
  if (isUndetermined(touchdown.alongM) || !isUndetermined(rollEnd)) return null;
  const fromM = touchdown.alongM.value;
  return { fromM, toM: Math.max(ldaM, fromM), reason: rollEnd.undetermined };
}
