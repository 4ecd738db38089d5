/**
 * What length would 95 of 100 short landings need at each strip, in the conditions of the last one there?
 *
 * In: debriefed flights of one pilot. Out: for each aeroplane and each direction it landed in, the length
 * against the LDA and the planned distance of that day.
 */
import {
  lengthsNeeded,
  type LandingToday,
  type LengthNeeded,
  type TooFewShort,
} from '../calibration/length-needed.ts';
import type { LandingPair } from '../calibration/landing-pair.ts';
import type { Figure } from '../performance/prediction.ts';
import { knowsEnds } from '../events/strip-view.ts';
import { isUndetermined } from '../result.ts';
import type { Flight } from './debrief.ts';

/** One aeroplane in one direction. Metres. */
export interface ShortLength {
  readonly aeroplane: string;
  readonly strip: string;
  readonly direction: string;
  /** Day of the last landing there, whose wind, surface and mass are taken. */
  readonly day: string;
  /** What the factor set plans from 50 ft in the same conditions. */
  readonly plannedFrom50FtM: Figure;
  readonly needed: LengthNeeded | TooFewShort;
}

/** Landings of one aeroplane that were meant to be short. */
export function shortLandings(flights: readonly Flight[], aeroplaneId: string): LandingPair[] {
  return flights
    .filter(({ aeroplane }) => !isUndetermined(aeroplane) && aeroplane.id === aeroplaneId)
    .flatMap(({ compared }) => compared.approaches)
    .flatMap(({ short }) => (isUndetermined(short) ? [] : [short]));
}

/** Lengths of every aeroplane and direction of which a roll was expected. */
export function shortLengths(flights: readonly Flight[]): ShortLength[] {
  const inOrder = flights.toSorted((a, b) => a.track.timeS[0] - b.track.timeS[0]);
  const lasts = new Map<string, Omit<ShortLength, 'needed'> & { readonly today: LandingToday }>();
  for (const flight of inOrder) {
    for (const last of expectedLandings(flight)) {
      lasts.set(`${last.aeroplane}\n${last.strip}\n${last.direction}`, last);
    }
  }
  const all = [...lasts.values()];
  const aeroplanes = [...new Set(all.map(({ aeroplane }) => aeroplane))];
  return aeroplanes.flatMap((aeroplane) => {
    const own = all.filter((last) => last.aeroplane === aeroplane);
    const todays = own.map(({ today }) => today);
    const needed = lengthsNeeded(shortLandings(flights, aeroplane), todays);
    return own.map(({ strip, direction, day, plannedFrom50FtM }, k) => ({
      ...{ aeroplane, strip, direction, day, plannedFrom50FtM },
      needed: needed[k],
    }));
  });
}

function expectedLandings({
  aeroplane,
  events,
  compared,
}: Flight): (Omit<ShortLength, 'needed'> & { readonly today: LandingToday })[] {
  if (isUndetermined(aeroplane)) return [];
  return events.approaches.flatMap(({ strip, direction }, k) => {
    const { prediction, roll } = compared.approaches[k];
    const view = events.views.find(
      (each) => each.stripId === strip && each.direction.designator === direction,
    );
    if (strip === null || direction === null || !view || !knowsEnds(view)) return [];
    if (isUndetermined(roll.ratio) || isUndetermined(prediction)) return [];
    const { landing } = prediction;
    if (isUndetermined(landing) || isUndetermined(landing.expectedRollM)) return [];
    const today = {
      ldaM: view.direction.ldaM,
      expectedRollM: landing.expectedRollM,
      forecastLogSd: 0,
    };
    const { plannedFrom50FtM } = landing;
    const day = roll.dayKey;
    return [{ aeroplane: aeroplane.id, strip, direction, day, plannedFrom50FtM, today }];
  });
}
