/**
 * What length would 95 of 100 short landings of one aeroplane need, by the logbook's flights?
 *
 * In: summaries of flights. Out: the landings meant to be short; for each direction landed in the length
 * in the wind and on the surface of the last landing there, as `debrief/short-lengths.ts` has it from
 * whole debriefs.
 */
import type { LandingPair } from '../calibration/landing-pair.ts';
import {
  lengthsNeeded,
  type LengthNeeded,
  type TooFewShort,
} from '../calibration/length-needed.ts';
import { PUBLISHED_SETS } from '../performance/factor-sets/published.ts';
import { isUndetermined } from '../result.ts';
import { ENDS_GUESSED } from '../strips/strip.ts';
import type { EventSummary } from './flight-summary.ts';
import { dayText, yearOf } from './local-time.ts';
import type { LoggedFlight } from './logged-flight.ts';

/** One direction. */
export interface LoggedLength {
  readonly stripName: string;
  readonly designator: string;
  /** Of the last landing there: `6 Jul 2025`. */
  readonly day: string;
  readonly needed: LengthNeeded | TooFewShort;
}

/** Landings of one aeroplane that were meant to be short; those compared with one factor set, or all. */
export function shortPairs(
  flights: readonly LoggedFlight[],
  aeroplaneId: string,
  factorSetId: string | null = null,
): LandingPair[] {
  return eventsOf(flights, aeroplaneId).flatMap(({ short, roll }) => {
    const isOfSet = factorSetId === null || setOf(roll) === factorSetId;
    return isUndetermined(short) || !isOfSet ? [] : [short];
  });
}

function setOf({ factorSet }: EventSummary['roll']): string {
  return factorSet?.id ?? PUBLISHED_SETS[0].id;
}

/** Every direction of a kept strip with a landing whose roll was expected, the last one first. */
export function loggedLengths(
  flights: readonly LoggedFlight[],
  aeroplaneId: string,
  timeZone?: string,
): LoggedLength[] {
  const lasts = new Map<string, EventSummary>();
  const inOrder = eventsOf(flights, aeroplaneId).toSorted((a, b) => b.timeS - a.timeS);
  for (const event of inOrder) {
    const place = `${event.stripId ?? ''}\n${event.designator ?? ''}`;
    if (isCompared(event) && !isAtGuess(event) && !lasts.has(place)) {
      lasts.set(place, event);
    }
  }
  const events = [...lasts.values()];
  const todays = events.map(({ lengthM, expectedRollM }) => ({
    ldaM: lengthM ?? NaN,
    expectedRollM: expectedRollM ?? NaN,
    forecastLogSd: 0,
  }));
  const needed = lengthsNeeded(shortPairs(flights, aeroplaneId), todays);
  return events.map(({ stripName, designator, timeS }, k) => ({
    stripName,
    designator: designator ?? '',
    day: `${dayText(timeS, timeZone)} ${yearOf(timeS, timeZone)}`,
    needed: needed[k],
  }));
}

/** True where the strip's ends are a guess: no length can be held against them (UP4). */
function isAtGuess({ short }: EventSummary): boolean {
  return isUndetermined(short) && short.undetermined === ENDS_GUESSED;
}

function eventsOf(flights: readonly LoggedFlight[], aeroplaneId: string): EventSummary[] {
  return flights
    .filter(
      ({ summary: { aeroplane } }) => !isUndetermined(aeroplane) && aeroplane.id === aeroplaneId,
    )
    .flatMap(({ summary }) => summary.events)
    .filter(({ kind }) => kind === 'approach');
}

/** At a kept strip, with a roll that was expected and compared. */
function isCompared({ stripId, lengthM, expectedRollM, roll }: EventSummary): boolean {
  return (
    stripId !== null && lengthM !== null && expectedRollM !== null && !isUndetermined(roll.ratio)
  );
}
