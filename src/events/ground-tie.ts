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
import { backSolveInPlace, choleskyInPlace, forwardSolve } from '../numeric/cholesky.ts';
import type { Mixture } from '../numeric/posterior.ts';
import type { HeightDatum } from '../track/track.ts';
import { TIE } from './tuning.ts';

/** One contact with a strip of known elevation. */
export interface Tie {
  readonly timeS: number;
  /** Recorded height less the strip's elevation, wheels on the ground, metres. */
  readonly offsetM: number;
  readonly sdM: number;
  readonly stripId: string;
  /** False where the strip has no elevation: the tie then serves that strip alone. */
  readonly elevationKnown: boolean;
}

/** Offset of the recorded height at one time: one normal where contacts tie it, else a mixture over the datums it may have. */
export interface TiedOffset {
  readonly offset: Mixture;
  /** Mean and standard deviation of the mixture, metres. */
  readonly offsetM: number;
  readonly sdM: number;
  /** True where at least one contact ties it. */
  readonly tied: boolean;
}

/**
 * Prepares the offset of one flight.
 *
 * @param atStrip id of the strip whose elevation the answers count from.
 * @returns a function from UTC seconds to the offset.
 */
export function tieHeights(
  ties: readonly Tie[],
  datum: HeightDatum,
  atStrip: string,
): (timeS: number) => TiedOffset {
  if (ties.length === 0) return () => untied(datum);
  const driftVar = TIE.driftSdM ** 2;
  const constantVar = TIE.geoidSdM ** 2;
  const n = ties.length;
  const K = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const sameStrip = ties[i].stripId === ties[j].stripId;
      const elevationVar = sameStrip && ties[i].stripId !== atStrip ? TIE.elevationSdM ** 2 : 0;
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
    return { offset, offsetM, sdM, tied: true };
  };
}

/** Offset where no contact ties it: by the declared datum, or by both that it may be. */
function untied(datum: HeightDatum): TiedOffset {
  const share = { geoid: 0, ellipsoid: 1, unstated: TIE.ellipsoidShare }[datum];
  const sea = Math.hypot(TIE.seaLevelSdM, TIE.driftSdM);
  const ellipsoid = Math.hypot(TIE.geoidSdM, TIE.driftSdM);
  const offset = {
    weight: Float64Array.of(1 - share, share),
    mean: Float64Array.of(TIE.antennaM, TIE.antennaM + TIE.geoidMeanM),
    sd: Float64Array.of(sea, ellipsoid),
  };
  const offsetM = TIE.antennaM + share * TIE.geoidMeanM;
  const variance =
    (1 - share) * sea ** 2 + share * ellipsoid ** 2 + share * (1 - share) * TIE.geoidMeanM ** 2;
  return { offset, offsetM, sdM: Math.sqrt(variance), tied: false };
}

function correlation(gapS: number): number {
  return Math.exp(-Math.abs(gapS) / TIE.driftTimeS);
}
