/**
 * FRONT DOOR of the debrief: everything the page shows of one event of a flight, as plain data.
 *
 * In: a flight, the key of an event, the strips, the pilot's units, the own factor of the roll. Out:
 * sentence, title block, pictures, rows, columns for the plumb line. No functions: it crosses from the
 * worker to the page as it is.
 */
import type { Flight } from '../../debrief/debrief.ts';
import { intervalWords, isCoarse } from '../../events/coarse-log.ts';
import type { StripView } from '../../events/strip-view.ts';
import type { ShownUnits } from '../../logbook/entry.ts';
import type { ChainStep, Prediction } from '../../performance/prediction.ts';
import { isUndetermined, undetermined, type Undetermined } from '../../result.ts';
import type { StripBook } from '../../strips/strip.ts';
import { hasFigure, type PilotUnits } from '../figure-text.ts';
import { inPilotUnits, reasonIn } from '../figures-in-text.ts';
import { eventNotes } from '../note-lines.ts';
import { notesIn } from '../note-sentence.ts';
import { approachPicture } from '../pictures/approach-picture.ts';
import { circuitPicture, type CircuitPicture } from '../pictures/circuit-picture.ts';
import { finalPicture, type FinalPicture } from '../pictures/final-picture.ts';
import { flightLinePicture, type FlightLinePicture } from '../pictures/flight-line-picture.ts';
import { viewOfEvent } from '../../events/view-of-event.ts';
import { placeName } from '../pictures/picture.ts';
import type { StripPicture } from '../pictures/strip-picture.ts';
import { bareLandingRoll, bareRun, type BareRollPicture } from '../pictures/bare-roll-picture.ts';
import {
  seenApproach,
  unkeptLandingWords,
  unkeptRun,
  unkeptRunWords,
} from '../pictures/unkept-line.ts';
import { halfwayAlongM } from '../half-way.ts';
import { takeOffPicture } from '../pictures/take-off-picture.ts';
import {
  touchdownChancePicture,
  type TouchdownChancePicture,
} from '../pictures/touchdown-chance-picture.ts';
import { eventLengths, type EventLengths } from './before-and-after.ts';
import { cursorColumns, type CursorColumns } from './cursor-columns.ts';
import { backtracksAfter, backtracksBefore } from './backtrack-rows.ts';
import { approachRows, takeOffRows, type MeasuredRow } from './measured-rows.ts';
import { landingEntryPlaces, liftOffEntry, type LandingEntryPlaces } from './landing-entry.ts';
import { placeOffer, type PlaceOffer } from './place-offer.ts';
import {
  approachMeaning,
  approachSentence,
  takeOffMeaning,
  takeOffSentence,
  type TextWithBand,
} from './sentence.ts';
import { finalRows } from './final-rows.ts';
import { areaRows, clearanceRows } from './surround-rows.ts';
import { trackWindWords } from './track-wind-words.ts';
import { titleBlock, type BlockCell } from './title-block.ts';
import { whyRows, type WhyTable } from './why-rows.ts';

/** What the flight itself does not know. */
export interface EventDebriefOptions {
  readonly units: ShownUnits & PilotUnits;
  /** Factor of the ground roll from the pilot's own landings; null: none yet. */
  readonly ownRollFactor: number | null;
}

/** One event as the page shows it. */
export interface EventDebrief {
  /** `approach-0`; null where the flight has no event at all. */
  readonly key: string | null;
  readonly kind: 'approach' | 'take-off' | 'none';
  /** Moment of the event, or of the log's start, UTC seconds. */
  readonly timeS: number;
  /** Strip and direction; null at a place nobody has kept. */
  readonly place: string | null;
  /** Id of the strip and designator of the direction; null at a place nobody has kept. */
  readonly at: { readonly stripId: string; readonly designator: string } | null;
  /** What was expected, planned and measured, metres; null where the flight has no event. */
  readonly lengths: EventLengths | null;
  /** What can be entered about this event; null where nothing can. */
  readonly landing: LandingEntryPlaces | null;
  readonly aeroplane: string | null;
  readonly sentence: string;
  readonly meaning: readonly TextWithBand[];
  readonly block: readonly BlockCell[];
  readonly line: FlightLinePicture;
  readonly ruler: StripPicture | Undetermined;
  /** At a place nobody has kept: what is not known there, and what places count from; else null. */
  readonly lineWords: string | null;
  /** The roll on a bare tape, in place of the ruler at a place nobody has kept. */
  readonly bareRoll: BareRollPicture | Undetermined;
  readonly final: FinalPicture | Undetermined;
  readonly plan: CircuitPicture | Undetermined;
  readonly chance: TouchdownChancePicture | Undetermined;
  readonly why: WhyTable | Undetermined;
  readonly measured: readonly MeasuredRow[];
  /** The working of the expected and the planned figures. */
  readonly working: Working | Undetermined;
  readonly notes: readonly string[];
  /** What the track says of the wind: a check on the entered one. */
  readonly windFromTrack: string;
  readonly offer: PlaceOffer | null;
  readonly cursor: CursorColumns;
}

/** Both chains with the set they come from. */
export interface Working {
  readonly factorSet: string;
  readonly expected: readonly ChainStep[];
  readonly planned: readonly ChainStep[];
}

/**
 * The debrief of one event; without a key, of the last landing, else of the last event.
 *
 * Throws where the key names no event of the flight.
 */
export function eventDebrief(
  flight: Flight,
  key: string | null,
  book: StripBook,
  { units, ownRollFactor }: EventDebriefOptions,
): EventDebrief {
  const line = flightLinePicture(flight, units);
  const chosen = key ?? usualEvent(flight);
  const common = {
    line,
    aeroplane: isUndetermined(flight.aeroplane) ? null : flight.aeroplane.name,
    windFromTrack: trackWindWords(flight, units),
  };
  if (chosen === null) {
    return { ...noEvent(flight, units), ...common, notes: notesIn(eventNotes(flight), units) };
  }
  const [, kind, number] = /^(approach|take-off)-(\d+)$/.exec(chosen) ?? [];
  const index = Number(number);
  const timeS = line.events.find((event) => event.key === chosen)?.atS;
  if (timeS === undefined) throw new Error(`the flight has no event ${chosen}`);
  const options = { units, ownRollFactor, aimM: null };
  const isApproach = kind === 'approach';
  const told = isApproach
    ? ofApproach(flight, index, book, options)
    : ofTakeOff(flight, index, book, options);
  const place = { use: isApproach ? ('landing' as const) : ('take-off' as const), index };
  const notes = notesIn(eventNotes(flight, place), units);
  const measured = told.measured.map((row) => measuredIn(row, units));
  return { ...told, ...common, measured, notes, key: chosen, timeS };
}

/** A row that has no figure has its reason in the pilot's units: a count or a time knows none. */
function measuredIn(row: MeasuredRow, units: ShownUnits): MeasuredRow {
  if (hasFigure(row.figure)) return row;
  return { ...row, figure: { reason: inPilotUnits(row.figure.reason, units) } };
}

type Own = Omit<EventDebrief, 'line' | 'aeroplane' | 'notes' | 'windFromTrack' | 'key' | 'timeS'>;
type PictureOptions = EventDebriefOptions & { readonly aimM: number | null };

function ofApproach(flight: Flight, index: number, book: StripBook, options: PictureOptions): Own {
  const { units } = options;
  const approach = flight.events.approaches[index];
  const view = viewOfEvent(flight.events, approach);
  const { prediction } = flight.compared.approaches[index];
  const seen = seenApproach(flight, index);
  const line = isUndetermined(seen) ? null : seen.view;
  return {
    kind: 'approach',
    place: view ? placeName(view) : null,
    at: atOf(view),
    lengths: eventLengths({ prediction }, 'landing', {
      rollM: approach.groundRollM,
      wholeM: approach.landingDistanceM,
    }),
    landing: landingEntryPlaces(flight, index, units),
    sentence: approachSentence(approach, units, view?.strip.endsGuessed),
    meaning: approachMeaning(flight, index, units, options.ownRollFactor),
    block: titleBlock(flight.conditions, 'landing', units),
    ruler: approachPicture(flight, index, book, options),
    lineWords: view ? null : unkeptLandingWords(seen),
    bareRoll: view ? ON_ITS_STRIP : bareLandingRoll(approach, units),
    final: finalPicture(flight, index, book, units),
    plan: circuitPicture(flight, index, book, units),
    chance: touchdownChancePicture(flight, index, units),
    why: reasonIn(whyRows(flight, index, units), units),
    measured: [
      ...approachRows(approach, flight.source.medianIntervalS, units, flight.byHand[index]),
      ...backtracksAfter(flight.events, approach, units),
      ...finalRows(approach, flight.finals[index], units),
      ...clearanceRows(flight.surroundings.approaches[index], units),
      ...areaRows(flight.surroundings.areas, units),
    ],
    working: reasonIn(workingOf(prediction, 'landing'), units),
    offer: placeOffer(flight, approach),
    cursor: cursorColumns(flight, line, approach.from, endOfRoll(flight, index)),
  };
}

function ofTakeOff(flight: Flight, index: number, book: StripBook, options: PictureOptions): Own {
  const { units } = options;
  const takeOff = flight.events.takeOffs[index];
  const view = viewOfEvent(flight.events, takeOff);
  const none = undetermined('shown for approaches');
  const { prediction } = flight.compared.takeOffs[index];
  const { screen, groundRollM: rollM } = takeOff;
  return {
    kind: 'take-off',
    place: view ? placeName(view) : null,
    at: atOf(view),
    lengths: eventLengths({ prediction }, 'take-off', {
      rollM,
      wholeM: isUndetermined(screen) ? screen : screen.distanceM,
    }),
    landing: liftOffEntry(flight, index, units),
    sentence: takeOffSentence(takeOff, units, view?.strip.endsGuessed),
    meaning: takeOffMeaning(flight, index),
    block: titleBlock(flight.conditions, 'take-off', units),
    ruler: takeOffPicture(flight, index, book, options),
    lineWords: view ? null : unkeptRunWords(unkeptRun(flight, takeOff)),
    bareRoll: view ? ON_ITS_STRIP : bareRun(takeOff, units),
    final: none,
    plan: none,
    chance: none,
    why: none,
    measured: [
      ...backtracksBefore(flight.events, takeOff, units),
      ...takeOffRows(takeOff, view && halfwayAlongM(view), units, flight.liftOffsByHand[index]),
      ...clearanceRows(flight.surroundings.takeOffs[index], units),
      ...areaRows(flight.surroundings.areas, units),
    ],
    working: reasonIn(workingOf(prediction, 'takeOff'), units),
    offer: placeOffer(flight, takeOff),
    cursor: cursorColumns(flight, view ?? unkeptRun(flight, takeOff), takeOff.from, takeOff.to),
  };
}

const ON_ITS_STRIP = undetermined('shown on its strip');

function noEvent(flight: Flight, units: ShownUnits): Omit<EventDebrief, keyof Shared> {
  const none = undetermined('no take-off or landing was found');
  return {
    key: null,
    kind: 'none',
    timeS: flight.motion.timeS[0],
    place: null,
    at: null,
    lengths: null,
    landing: null,
    sentence: `No take-off or landing was found in this flight.${coarseWords(flight.source.medianIntervalS)}`,
    meaning: [],
    block: titleBlock(flight.conditions, 'landing', units),
    ruler: none,
    lineWords: null,
    bareRoll: none,
    final: none,
    plan: none,
    chance: none,
    why: none,
    measured: [],
    working: none,
    offer: null,
    cursor: cursorColumns(flight, null, 0, flight.motion.length),
  };
}

/** What was not found may have happened all the same. */
function coarseWords(intervalS: number): string {
  return isCoarse(intervalS) ? ` One fix every ${intervalWords(intervalS)} may not show them.` : '';
}

type Shared = Pick<EventDebrief, 'line' | 'aeroplane' | 'notes' | 'windFromTrack'>;

function atOf(view: StripView | null): EventDebrief['at'] {
  if (!view || view.stripId === null) return null;
  return { stripId: view.stripId, designator: view.direction.designator };
}

/** The last landing; else the last pass; else the last take-off. */
function usualEvent({ events: { approaches, takeOffs } }: Flight): string | null {
  const landed = approaches.findLastIndex(({ touchdown }) => !isUndetermined(touchdown));
  if (landed >= 0) return `approach-${landed}`;
  if (approaches.length > 0) return `approach-${approaches.length - 1}`;
  return takeOffs.length > 0 ? `take-off-${takeOffs.length - 1}` : null;
}

/** One past the last fix of the roll, or of the pass. */
function endOfRoll({ events, motion }: Flight, index: number): number {
  const { rollEnd, to } = events.approaches[index];
  if (isUndetermined(rollEnd) || isUndetermined(rollEnd.timeS)) return to;
  const endS = rollEnd.timeS.value;
  const after = motion.timeS.findIndex((timeS) => timeS > endS);
  return after < 0 ? motion.length : Math.min(after + 1, motion.length);
}

function workingOf(
  prediction: Prediction | Undetermined,
  phase: 'landing' | 'takeOff',
): Working | Undetermined {
  if (isUndetermined(prediction)) return prediction;
  const part = prediction[phase];
  if (isUndetermined(part)) return part;
  return { factorSet: prediction.factorSet, ...part.chain };
}
