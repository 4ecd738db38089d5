/**
 * How far is the recorded height off the wheels' true height above sea level, minute by minute?
 *
 * While the wheels are on a strip of known elevation the offset (datum, geoid, receiver bias,
 * antenna height) is measured; in between it drifts. In: the ties of one flight and the declared
 * datum. Out: the offset at any time with its standard deviation.
 *
 * Model: a constant for the flight plus a Gauss-Markov drift; each strip's entered elevation has an
 * error of its own. Source: Gaussian process regression, standard; numbers in tuning.ts.
 */
import { GEOID_SD_M, geoidHeightM } from '../geo/geoid.ts';
import { backSolveInPlace, choleskyInPlace, forwardSolve } from '../numeric/cholesky.ts';
import { cutAbove, type Mixture } from '../numeric/posterior.ts';
import type { Strip } from '../strips/strip.ts';
import type { HeightReference } from '../track/motion-heights.ts';
import type { StripView } from './strip-view.ts';
import { TIE } from './tuning.ts';
import { UNTIED } from './untied-tuning.ts';

/** One contact with a strip of known elevation. */
export interface Tie {
  readonly timeS: number;
  /** Recorded height less the strip's elevation, wheels on the ground, metres. */
  readonly offsetM: number;
  readonly sdM: number;
  /** See `tiePlaceId`. */
  readonly placeId: string;
  /** False where the strip has no elevation: the tie then serves that strip alone. */
  readonly elevationKnown: boolean;
}

/** Where a contact was: the id of a known strip; that of a place nobody has kept behind a blank, which no strip's begins with. */
export function tiePlaceId({ stripId, strip }: StripView): string {
  return stripId ?? ` ${strip.id}`;
}

/** Offset of the recorded height at one time: one normal where contacts tie it, else a mixture over the datums it may have. */
export interface TiedOffset {
  readonly offset: Mixture;
  /** Mean and standard deviation of the mixture as far as the ceiling leaves it, metres. */
  readonly offsetM: number;
  readonly sdM: number;
  /** True where at least one contact ties it. */
  readonly tied: boolean;
  /** What it cannot exceed, for else the wheels were below the ground elsewhere; null where nothing says so. */
  readonly ceiling: OffsetCeiling | null;
}

/** The greatest offset that leaves the wheels above the ground at another moment, and the drift since, metres. */
export interface OffsetCeiling {
  readonly atMostM: number;
  readonly sdM: number;
}

/** What a height counts from where no contact tells: as declared, and the geoid over the ellipsoid there, metres. */
export interface HeightOrigin {
  readonly datum: HeightReference;
  readonly geoidM: number;
}

/**
 * The offset as seen from one strip view. A tie at an unknown elevation serves its own place alone, and a
 * strip without elevation is served by its own ties alone: nobody knows how high it lies.
 *
 * Units: UTC seconds to metres. Never fails: without ties, by what the datum may be.
 */
export function offsetAtView(
  view: StripView,
  ties: readonly Tie[],
  datum: HeightReference,
): (timeS: number) => TiedOffset {
  const id = tiePlaceId(view);
  const { latDeg, lonDeg } = view.strip;
  const levelKnown = view.stripId !== null && hasElevation(view.strip);
  const usable = ties.filter((tie) => tie.placeId === id || (tie.elevationKnown && levelKnown));
  if (usable.length === 0 && view.stripId !== null && !levelKnown) return () => ANY_LEVEL;
  return tieHeights(usable, { datum, geoidM: geoidHeightM(latDeg[0], lonDeg[0]) }, id);
}

/**
 * Prepares the offset of one flight.
 *
 * @param origin what the heights count from, used where there is no tie.
 * @param atPlace `tiePlaceId` of the strip or place whose elevation the answers count from.
 * @returns a function from UTC seconds to the offset.
 */
export function tieHeights(
  ties: readonly Tie[],
  origin: HeightOrigin,
  atPlace: string,
): (timeS: number) => TiedOffset {
  if (ties.length === 0) {
    const offset = untied(origin);
    return () => offset;
  }
  const driftVar = TIE.driftSdM ** 2;
  const constantVar = TIE.constantSdM ** 2;
  const n = ties.length;
  const K = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const samePlace = ties[i].placeId === ties[j].placeId;
      const elevationVar = samePlace && ties[i].placeId !== atPlace ? TIE.elevationSdM ** 2 : 0;
      K[i * n + j] =
        constantVar +
        driftVar * correlation(ties[i].timeS - ties[j].timeS) +
        elevationVar +
        (i === j ? ties[i].sdM ** 2 : 0);
    }
  }
  choleskyInPlace(K, n);
  const meanM = ties.reduce((sum, tie) => sum + tie.offsetM, 0) / n;
  const weights = Float64Array.from(ties, (tie) => tie.offsetM - meanM);
  forwardSolve(K, n, weights, weights);
  backSolveInPlace(K, n, weights);
  return (timeS) => {
    let offsetM = meanM;
    const cross = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      cross[i] = constantVar + driftVar * correlation(timeS - ties[i].timeS);
      offsetM += cross[i] * weights[i];
    }
    forwardSolve(K, n, cross, cross);
    let variance = constantVar + driftVar;
    for (const value of cross) variance -= value * value;
    const sdM = Math.sqrt(Math.max(variance, 0));
    const offset = {
      weight: Float64Array.of(1),
      mean: Float64Array.of(offsetM),
      sd: Float64Array.of(sdM),
    };
    return offsetOf(offset, true);
  };
}

/**
 * Offset where no contact ties it: above the sea, above the ellipsoid, or by a height that is off by tens of
 * metres; a pressure height by what the day's pressure may be.
 */
function untied({ datum, geoidM }: HeightOrigin): TiedOffset {
  if (datum === 'pressure') {
    const one = (value: number): Float64Array => Float64Array.of(value);
    const offset = { weight: one(1), mean: one(TIE.antennaM), sd: one(UNTIED.pressureSdM) };
    return offsetOf(offset, false);
  }
  const [sea, ellipsoid] = UNTIED.datumShares[datum];
  const weight = Float64Array.of(sea, ellipsoid, 1 - sea - ellipsoid);
  const between = (geoidM * ellipsoid) / (sea + ellipsoid);
  const mean = Float64Array.of(0, geoidM, between).map((level) => TIE.antennaM + level);
  const sd = Float64Array.of(
    Math.hypot(UNTIED.seaLevelSdM, TIE.driftSdM),
    Math.hypot(TIE.elevationSdM, GEOID_SD_M, TIE.driftSdM),
    UNTIED.strayedSdM,
  );
  return offsetOf({ weight, mean, sd }, false);
}

/** An offset with the mean and standard deviation of its mixture, whose weights need not add up to 1, as far as the ceiling leaves it. */
export function offsetOf(
  offset: Mixture,
  tied: boolean,
  ceiling: OffsetCeiling | null = null,
): TiedOffset {
  const { weight, mean, sd } = ceiling ? cutAbove(offset, ceiling.atMostM, ceiling.sdM) : offset;
  let total = 0;
  let first = 0;
  for (let i = 0; i < weight.length; i++) {
    total += weight[i];
    first += weight[i] * mean[i];
  }
  const offsetM = first / total;
  let second = 0;
  for (let i = 0; i < weight.length; i++) {
    second += weight[i] * (sd[i] ** 2 + (mean[i] - offsetM) ** 2);
  }
  return { offset, offsetM, sdM: Math.sqrt(second / total), tied, ceiling };
}

/** Of a strip without elevation: it may lie anywhere. Only the path of a descent can tell more. */
const ANY_LEVEL = offsetOf(
  {
    weight: Float64Array.of(1),
    mean: Float64Array.of(UNTIED.anyLevelM),
    sd: Float64Array.of(UNTIED.anyLevelSdM),
  },
  false,
);

/** True where a strip's elevation was entered, at its ends or as a profile. */
export function hasElevation({ elevationM, profile }: Strip): boolean {
  return elevationM !== null || profile !== null;
}

/** True where a strip's elevation was entered at its ends, and nothing of the ground between. */
export function isKnownAtEndsAlone({ elevationM, profile }: Strip): boolean {
  return elevationM !== null && profile === null;
}

/** What of one moment's drift is still there after so many seconds, 0 to 1. */
export function correlation(gapS: number): number {
  return Math.exp(-Math.abs(gapS) / TIE.driftTimeS);
}
