/**
 * What can be entered about one landing, pass or take-off, and what was: the places that may be put by
 * hand, and whether the wheels touched.
 *
 * In: a flight, which of its events, the pilot's units. Out: each place as measured and, where a
 * correction is in force, as put by hand; null where there is nothing to be said.
 */
import type { Flight } from '../../debrief/debrief.ts';
import type { HandPlace } from '../../debrief/hand-corrections.ts';
import type { Approach } from '../../events/flight-event.ts';
import { isToldOnly } from '../../events/told-touch.ts';
import { knowsEnds } from '../../events/strip-view.ts';
import { viewOfEvent } from '../../events/view-of-event.ts';
import { isUndetermined } from '../../result.ts';
import { approachMoment } from '../event-table.ts';
import {
  figureValue,
  lengthFigure,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { contactWords, measuredContact } from '../hand-notes.ts';
import { ROLL_END_WORDS } from '../pictures/approach-words.ts';

/** A place that bounds another, metres from the threshold. */
interface Bound {
  readonly alongM: number;
  readonly words: string;
}

/** A touchdown, an end of roll or a lift-off. */
export interface LandingPlaceEntry {
  readonly what: 'touchdown' | 'roll-end' | 'lift-off';
  /** `touchdown`, `stopped` ... */
  readonly label: string;
  readonly measured: HandPlace;
  readonly measuredFigure: FigureText | NoFigure;
  /** Null: as measured. */
  readonly byHand: FigureText | NoFigure | null;
  /** Where the log speaks against the place put by hand: what follows. */
  readonly doubt: string | null;
  /** The place lies behind the first and not behind the second; null: nothing bounds it. */
  readonly after: Bound | null;
  readonly before: Bound | null;
}

/** Whether the wheels touched. */
export interface ContactEntry {
  /** As measured; null where the log cannot tell. */
  readonly measuredProbability: number | null;
  readonly hint: string;
}

/** What the entries of one event hang on. */
export interface LandingEntryPlaces {
  /** Touchdown, lowest point or lift-off as measured, UTC seconds: entries are kept by it. */
  readonly aroundS: number;
  readonly places: readonly LandingPlaceEntry[];
  /** Null where nobody can say otherwise: a stop on the strip, a take-off. */
  readonly contact: ContactEntry | null;
  /** True where a touchdown put by hand teaches how this pilot arrives (UP4 and TT2 have where it does not). */
  readonly teaches: boolean;
  /** True of a landing whose roll may be measured: it was braked more or less. */
  readonly takesEffort: boolean;
  /** True where the ratio of the roll stands on the screen. */
  readonly hasRatio: boolean;
}

const RULED_OUT =
  'The log all but rules this place out: one of the two is wrong. It stands, and teaches nothing.';

/** What can be entered about an approach. */
export function landingEntryPlaces(
  flight: Flight,
  index: number,
  units: PilotUnits,
): LandingEntryPlaces | null {
  const { marks, measuredTouchdown, measuredRollEnd } = flight.byHand[index];
  const approach = flight.events.approaches[index];
  const { rollEnd, posterior, saidContact } = approach;
  const contact = contactEntry(approach);
  const moment = approachMoment(approach);
  const momentS = isUndetermined(moment) ? null : moment.value;
  const aroundS = saidContact?.aroundS ?? measuredTouchdown?.timeS ?? momentS;
  if (aroundS === null || (!measuredTouchdown && !contact)) return null;
  const { roll, whole } = flight.compared.approaches[index];
  const endLabel = isUndetermined(rollEnd) ? 'end of the roll' : ROLL_END_WORDS[rollEnd.kind];
  const end = marks?.rollEnd ?? measuredRollEnd;
  const before = end && { alongM: end.alongM, words: 'the end of the roll' };
  const isTold = isToldOnly(approach);
  const isRuledOut = marks?.touchdown && !posterior?.arrival && !isTold;
  const free = { after: null, before: null, doubt: null };
  const doubt = isRuledOut ? RULED_OUT : null;
  const touchdown = { what: 'touchdown', label: 'touchdown', ...free, before, doubt } as const;
  const stop = { what: 'roll-end', label: endLabel, ...free } as const;
  return {
    aroundS,
    places: [
      ...placeEntry(touchdown, measuredTouchdown, marks?.touchdown ?? null, units),
      ...placeEntry(stop, measuredRollEnd, marks?.rollEnd ?? null, units),
    ],
    contact,
    teaches: !isTold && knowsItsEnds(flight, approach),
    takesEffort: measuredTouchdown !== null && !isTold,
    hasRatio: !isUndetermined(roll.ratio) || !isUndetermined(whole.ratio),
  };
}

function knowsItsEnds({ events }: Flight, approach: Approach): boolean {
  const view = viewOfEvent(events, approach);
  return view !== null && knowsEnds(view);
}

/** What can be entered about a take-off. */
export function liftOffEntry(
  flight: Flight,
  index: number,
  units: PilotUnits,
): LandingEntryPlaces | null {
  const { put, measured, aroundS } = flight.liftOffsByHand[index];
  const takeOff = flight.events.takeOffs[index];
  const view = viewOfEvent(flight.events, takeOff);
  if (!measured || !view) return null;
  const { brakeRelease, screen, from, to } = takeOff;
  const release = isUndetermined(brakeRelease) ? brakeRelease : brakeRelease.alongM;
  const distance = isUndetermined(screen) ? screen : screen.distanceM;
  const after = isUndetermined(release)
    ? { alongM: view.smoothAlongM[from], words: 'the opening of the power' }
    : { alongM: release.value, words: 'the brake release' };
  const before =
    isUndetermined(release) || isUndetermined(distance)
      ? { alongM: view.smoothAlongM[to - 1], words: 'the end of the climb in line' }
      : { alongM: release.value + distance.value, words: '50 ft' };
  const liftOff = { what: 'lift-off', label: 'lift-off', after, before, doubt: null } as const;
  return {
    aroundS,
    places: placeEntry(liftOff, measured, put, units),
    contact: null,
    teaches: false,
    takesEffort: false,
    hasRatio: false,
  };
}

/** Why a place put by hand cannot lie there, metres from the threshold; null: it may. */
export function whyNotThere(
  { after, before }: LandingPlaceEntry,
  alongM: number,
  units: PilotUnits,
): string | null {
  const at = (bound: Bound): string =>
    `${bound.words}, at ${figureValue(lengthFigure(bound.alongM, units))}`;
  if (after && alongM < after.alongM) return `expected a place behind ${at(after)}`;
  if (before && alongM > before.alongM) return `expected a place before ${at(before)}`;
  return null;
}

function placeEntry(
  place: Omit<LandingPlaceEntry, 'measured' | 'measuredFigure' | 'byHand'>,
  measured: HandPlace | null,
  put: HandPlace | null,
  units: PilotUnits,
): LandingPlaceEntry[] {
  if (!measured) return [];
  const measuredFigure = lengthFigure(measured.alongM, units);
  return [{ ...place, measured, measuredFigure, byHand: put && lengthFigure(put.alongM, units) }];
}

/** A stop on the strip and an overflight leave nothing to be said, unless it was said before. */
function contactEntry({ outcome, contactProbability, saidContact }: Approach): ContactEntry | null {
  const isOpen = isUndetermined(outcome) || OPEN.includes(outcome);
  if (!isOpen && !saidContact) return null;
  const probability = saidContact?.measuredProbability ?? contactProbability;
  const words = saidContact ? contactWords(saidContact) : measuredContact(probability);
  return {
    measuredProbability: Number.isNaN(probability) ? null : probability,
    hint: `${words[0].toUpperCase()}${words.slice(1)}.`,
  };
}

const OPEN: readonly string[] = ['touch-and-go', 'go-around', 'low-pass'];
