/**
 * The one sentence a pilot would say about an event, and what it means.
 *
 * In: a flight, which of its events, the pilot's units. Out: the sentence, and the lines below it
 * with their bands apart, or the reasons why there are none.
 */
import { ENDS_GUESSED } from '../../strips/strip.ts';
import { pastLatestTouchdown } from '../../debrief/latest-touchdown.ts';
import type { ComparedEvent } from '../../debrief/compare-events.ts';
import type { Flight } from '../../debrief/debrief.ts';
import type { Approach, TakeOff } from '../../events/flight-event.ts';
import { isExact, isUndetermined, type Measured } from '../../result.ts';
import {
  figureValue,
  hasFigure,
  heightFigure,
  lengthFigure,
  ratioFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { contactWords } from '../hand-notes.ts';
import { predictedRolls } from '../pictures/approach-picture.ts';
import { isOwnLonger } from '../pictures/rods.ts';

/** A piece of text; `band` stands smaller behind it. */
export interface TextWithBand {
  readonly text: string;
  readonly band: string;
}

/**
 * The sentence of an approach: what happened, in the order in which it happened.
 *
 * @param endsGuessed where nobody knows the threshold, nothing lies short of it.
 */
export function approachSentence(
  approach: Approach,
  units: PilotUnits,
  endsGuessed = false,
): string {
  const { outcome } = approach;
  if (isUndetermined(outcome) && isUndetermined(approach.touchdown)) {
    return 'Touched down or passed: the log cannot tell.';
  }
  switch (isUndetermined(outcome) ? 'landing' : outcome) {
    case 'go-around':
      return `Went around${lowestWords(approach, units)}.`;
    case 'low-pass':
      return `Flew along the strip${lowestWords(approach, units)}.`;
    case 'overflight':
      return 'Flew over the strip.';
    case 'touch-and-go':
      return `${landed(approach, units, endsGuessed)}, and went again.`;
    case 'stop-and-go':
      return `${landed(approach, units, endsGuessed)}, and took off again.`;
    default:
      return `${landed(approach, units, endsGuessed)}.`;
  }
}

/** The sentence of a take-off; `endsGuessed` as for an approach. */
export function takeOffSentence(takeOff: TakeOff, units: PilotUnits, endsGuessed = false): string {
  const { kind, liftOff, groundRollM, stripLeftM } = takeOff;
  if (kind === 'rejected') {
    const run = lengthFigure(groundRollM, units);
    return hasFigure(run)
      ? `Gave up the take-off after ${figureValue(run)}.`
      : 'Gave up the take-off.';
  }
  const run = lengthFigure(groundRollM, units);
  const left = lengthFigure(stripLeftM, units);
  const at = isUndetermined(liftOff) ? liftOff : liftOff.alongM;
  const ran = hasFigure(run) ? `Ran ${figureValue(run)}` : null;
  const lifted = isUndetermined(at) ? null : `lifted off ${placeWords(at, units, endsGuessed)}`;
  const parts = [ran, lifted].filter((part) => part !== null).join(', ');
  const isPast = !isUndetermined(stripLeftM) && stripLeftM.value < 0;
  const size = absolute(stripLeftM, units);
  const rest = !hasFigure(left) ? '' : isPast ? `, ${size} past the end` : ` with ${size} left`;
  return `${parts === '' ? 'Took off' : capital(parts)}${rest}.`;
}

/**
 * Ratio of rolls and the latest touchdown point, or what is missing for them.
 *
 * @param ownRollFactor where the roll by it is the longer one the strip shows its latest touchdown point, and
 * the one told here, of the planned roll, has its name. Null: none yet.
 */
export function approachMeaning(
  flight: Flight,
  index: number,
  units: PilotUnits,
  ownRollFactor: number | null,
): TextWithBand[] {
  const approach = flight.events.approaches[index];
  const compared = flight.compared.approaches[index];
  const { outcome } = approach;
  if (outcome === 'go-around' || outcome === 'low-pass' || outcome === 'overflight') {
    return [...saidLines(approach), ...contactLines(approach)];
  }
  const isEither = isUndetermined(outcome) && isUndetermined(approach.touchdown);
  return [
    ...saidLines(approach),
    ...(isEither ? contactLines(approach) : []),
    ...shortWords(approach),
    ...ratioWords(compared, 'roll', 'distance from 50 ft', wholeOf(approach, compared, units)),
    ...latestWords(
      pastLatestTouchdown(approach, compared),
      approach,
      units,
      isOwnLonger(predictedRolls(flight, index, ownRollFactor)),
    ),
  ];
}

/** Ratio of a take-off's runs. */
export function takeOffMeaning(flight: Flight, index: number): TextWithBand[] {
  if (flight.events.takeOffs[index].kind === 'rejected') return [];
  return ratioWords(flight.compared.takeOffs[index], 'run', 'distance to 50 ft', '');
}

function landed(approach: Approach, units: PilotUnits, endsGuessed: boolean): string {
  const { touchdown, rollEnd, groundRollM, stripLeftM } = approach;
  const roll = lengthFigure(groundRollM, units);
  const end = isUndetermined(rollEnd) ? null : rollEnd.kind;
  const left = isUndetermined(stripLeftM) ? null : stripLeftM;
  const parts = [
    // Where and when it touched the log may not show: that it landed, it does.
    isUndetermined(touchdown) ? 'Landed' : touchedWords(touchdown, units, endsGuessed),
    ...(hasFigure(roll) ? [`rolled ${figureValue(roll)}`] : []),
  ];
  if (end === 'power') return parts.join(', ');
  const words = end === null ? null : END_WORDS[end];
  if (words === null) return parts.join(', ');
  if (left === null) return `${parts.join(', ')} and ${words}`;
  const over = left.value < 0 ? `${absolute(left, units)} past the end` : null;
  parts.push(`${words} ${over ?? `with ${absolute(left, units)} left`}`);
  return parts.join(', ');
}

function touchedWords(
  { alongM }: { readonly alongM: Measured },
  units: PilotUnits,
  endsGuessed: boolean,
): string {
  if (isUndetermined(alongM)) return 'Touched down';
  return `Touched down ${placeWords(alongM, units, endsGuessed)}`;
}

const END_WORDS = { stopped: 'stopped', taxi: 'was taxiing', vacated: 'turned off' } as const;

function placeWords(
  at: { readonly value: number },
  units: PilotUnits,
  endsGuessed: boolean,
): string {
  const distance = figureValue(lengthFigure(Math.abs(at.value), units));
  if (at.value >= 0) return `${distance} in`;
  return `${distance} ${endsGuessed ? 'before the end as drawn' : 'short of the threshold'}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function absolute(measured: Measured, units: PilotUnits): string {
  return isUndetermined(measured) ? '' : figureValue(lengthFigure(Math.abs(measured.value), units));
}

function lowestWords({ goAround }: Approach, units: PilotUnits): string {
  if (!goAround) return '';
  const height = heightFigure(goAround.lowestAboveM, units);
  const along = goAround.lowestAlongM;
  if (!hasFigure(height)) return '';
  const place = isUndetermined(along)
    ? ''
    : `, ${figureValue(lengthFigure(Math.abs(along.value), units))} ${along.value < 0 ? 'before' : 'past'} the threshold`;
  return `, lowest ${figureValue(height)}${place}`;
}

/** What the pilot says of the contact, and why it does not count where it does not. */
function saidLines({ saidContact }: Approach): TextWithBand[] {
  if (!saidContact) return [];
  const words = contactWords(saidContact);
  return [{ text: `${words[0].toUpperCase()}${words.slice(1)}.`, band: '' }];
}

/** A pass whose wheels may have touched is worth a word. */
function contactLines({ contactProbability, saidContact }: Approach): TextWithBand[] {
  if (saidContact) return [];
  const percent = Math.round(100 * contactProbability);
  if (Number.isNaN(percent) || percent < 10) return [];
  return [{ text: `The wheels may have touched: ${percent} in 100.`, band: '' }];
}

function shortWords({ touchdown }: Approach): TextWithBand[] {
  if (isUndetermined(touchdown)) return [];
  const percent = Math.round(100 * touchdown.shortProbability);
  // Of a place put by hand the sentence has said it.
  if (percent < 5 || isExact(touchdown.alongM)) return [];
  return [{ text: `Short of the threshold with a chance of ${percent} in 100.`, band: '' }];
}

/** The ratio of rolls; where there is none that of the whole distances, with the lengths that it is of. */
function ratioWords(
  { roll, whole }: ComparedEvent,
  rollName: string,
  wholeName: string,
  wholeLengths: string,
): TextWithBand[] {
  // Of two that there are not, what whole distances lack at guessed ends is no reason for rolls.
  const isWhole = isUndetermined(roll.ratio) && !isFor(whole.ratio, ENDS_GUESSED);
  const [ratio, name, lengths] = isWhole
    ? [whole.ratio, wholeName, wholeLengths]
    : [roll.ratio, rollName, ''];
  const figure = ratioFigure(ratio);
  if (!hasFigure(figure)) return [{ text: `Not compared: ${figure.reason}.`, band: '' }];
  return [{ text: `${figure.value} times the expected ${name}${lengths}`, band: figure.band }];
}

/** True where a quantity is undetermined for this reason. */
function isFor(measured: Measured, reason: string): boolean {
  return isUndetermined(measured) && measured.undetermined === reason;
}

/** `, 270 m of 146 m`: no rod shows these lengths on the strip. Empty where either is not known. */
function wholeOf(
  { landingDistanceM }: Approach,
  { prediction }: ComparedEvent,
  units: PilotUnits,
): string {
  const landing = isUndetermined(prediction) ? prediction : prediction.landing;
  if (isUndetermined(landing) || isUndetermined(landing.expectedFrom50FtM)) return '';
  const measured = lengthFigure(landingDistanceM, units);
  const expected = lengthFigure(landing.expectedFrom50FtM, units);
  if (!hasFigure(measured) || !hasFigure(expected)) return '';
  return `, ${figureValue(measured)} instead of ${figureValue(expected)}`;
}

function latestWords(
  past: Measured,
  { touchdown }: Approach,
  units: PilotUnits,
  isOwnDrawn: boolean,
): TextWithBand[] {
  if (isUndetermined(past)) return [];
  const isPast = past.value > 0;
  const downM = isUndetermined(touchdown) ? touchdown : touchdown.alongM;
  const latestM = isUndetermined(downM) ? 0 : downM.value - past.value;
  const away = isPast ? past : { value: -past.value, low: -past.high, high: -past.low };
  const figure = lengthFigure(away, units);
  if (!hasFigure(figure)) return [];
  // Before the threshold there is no such point.
  if (latestM < 0) {
    const longer = figureValue(lengthFigure(-latestM, units));
    const early = isPast ? 'too late' : 'early enough';
    const text = `Down ${figureValue(figure)} ${early} for the planned roll, which is ${longer} longer than the LDA`;
    return [{ text, band: figure.band }];
  }
  const side = isPast ? 'past' : 'before';
  const text = `Down ${figureValue(figure)} ${side} the latest touchdown point${isOwnDrawn ? ' of the planned roll' : ''}`;
  return [{ text, band: figure.band }];
}
