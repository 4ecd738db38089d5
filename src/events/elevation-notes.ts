/**
 * Does the elevation entered for a strip agree with the heights of the log?
 *
 * In: the ties of one flight, the datum that its heights declare, the strips. Out: a note, or the
 * difference, for each strip whose elevation is further off than receivers are. Where nothing is declared, or
 * the height is one of pressure, only an elevation is noted that no such height could be at.
 */
import { geoidHeightM } from '../geo/geoid.ts';
import { problem, type Problem } from '../result.ts';
import type { StripBook } from '../strips/strip.ts';
import type { HeightReference } from '../track/motion-heights.ts';
import type { Tie } from './ground-tie.ts';
import { TIE } from './tuning.ts';
import { UNTIED } from './untied-tuning.ts';

/** A strip whose entered elevation the log contradicts. Metres. */
export interface ElevationOff {
  readonly stripId: string;
  /** How far above the entered elevation the log puts the ground; negative: below. */
  readonly offM: number;
  /** Most that it might be off by without a word. */
  readonly expectedM: number;
}

/** Notes, in the order of the strips. Metres. */
export function elevationNotes(
  ties: readonly Tie[],
  datum: HeightReference,
  book: StripBook,
): Problem[] {
  return elevationsOff(ties, datum, book).map(({ stripId, offM, expectedM }) => {
    const way = offM > 0 ? 'above' : 'below';
    return problem(
      'elevation-differs',
      'note',
      `strip ${stripId}`,
      `the log puts the ground ${Math.abs(offM).toFixed(0)} m ${way} the elevation entered for it; expected within ${expectedM} m`,
    );
  });
}

/** Strips whose entered elevations the log contradicts, in the order of the strips. */
export function elevationsOff(
  ties: readonly Tie[],
  datum: HeightReference,
  book: StripBook,
): ElevationOff[] {
  const expectedM = NOTE_M[datum];
  return book.strips.flatMap(({ id, latDeg, lonDeg }) => {
    const here = ties.filter((tie) => tie.placeId === id && tie.elevationKnown);
    if (here.length === 0) return [];
    const mean = here.reduce((sum, tie) => sum + tie.offsetM - TIE.antennaM, 0) / here.length;
    const geoidM = geoidHeightM(latDeg[0], lonDeg[0]);
    // Many recorders write sea level where their file says ellipsoid or nothing.
    const offM =
      datum === 'geoid' || datum === 'pressure' ? mean : nearerNought(mean - geoidM, mean);
    return Math.abs(offM) <= expectedM ? [] : [{ stripId: id, offM, expectedM }];
  });
}

function nearerNought(a: number, b: number): number {
  return Math.abs(a) < Math.abs(b) ? a : b;
}

/** An entered elevation this far off the tied one is worth a note, metres: four standard deviations of what an undeclared level, or the day's pressure, may be off by. */
const NOTE_M = {
  geoid: TIE.noteM,
  ellipsoid: TIE.noteM,
  unstated: 4 * UNTIED.strayedSdM,
  pressure: 4 * UNTIED.pressureSdM,
} as const;
