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

/** Offset of the recorded height at one time. */
export interface TiedOffset {
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
  atStrip: string | null,
): (timeS: number) => TiedOffset {
  const declared = datum === 'geoid';
  const priorSd = declared ? TIE.declaredSdM : TIE.undeclaredSdM;
  const driftVar = TIE.driftSdM ** 2;
  const stripVar = (id: string): number => (id === atStrip ? 0 : TIE.elevationSdM ** 2);
  const n = ties.length;
  const K = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const same = ties[i].stripId === ties[j].stripId;
      K[i * n + j] =
        priorSd ** 2 +
        driftVar * correlation(ties[i].timeS - ties[j].timeS) +
        (same ? stripVar(ties[i].stripId) : 0) +
        (i === j ? ties[i].sdM ** 2 : 0);
    }
  }
  choleskyInPlace(K, n);
  const gap = Float64Array.from(ties, (tie) => tie.offsetM - TIE.antennaM);
  const weights = new Float64Array(n);
  forwardSolve(K, n, gap, weights);
  backSolveInPlace(K, n, weights);
  return (timeS) => {
    let mean = TIE.antennaM;
    const cross = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      cross[i] = priorSd ** 2 + driftVar * correlation(timeS - ties[i].timeS);
      mean += cross[i] * weights[i];
    }
    forwardSolve(K, n, cross, cross);
    let variance = priorSd ** 2 + driftVar;
    for (const value of cross) variance -= value * value;
    return { offsetM: mean, sdM: Math.sqrt(Math.max(variance, 0)), tied: n > 0 };
  };
}

function correlation(gapS: number): number {
  return Math.exp(-Math.abs(gapS) / TIE.driftTimeS);
}
