/**
 * Which factors do all these flights together suggest, for each aeroplane?
 *
 * In: debriefed flights of one pilot. Out: for each aeroplane and each of the four distances an own
 * factor, or why there are too few.
 */
import { calibrate, type OwnFactor, type TooFew } from '../calibration/calibrate.ts';
import type { ComparedQuantity, Comparison } from '../calibration/comparison.ts';
import { isUndetermined, type Undetermined } from '../result.ts';
import type { Flight } from './debrief.ts';

/** Own factors of one aeroplane. */
export interface AeroplaneFactors {
  /** Its id. */
  readonly aeroplane: string;
  readonly name: string;
  readonly factors: readonly (OwnFactor | TooFew)[];
  /** Approaches broken off, in the same flights: landings broken off for being long are missing. */
  readonly goArounds: number;
}

const QUANTITIES: readonly ComparedQuantity[] = [
  'landing-from-50-ft',
  'landing-roll',
  'take-off-to-50-ft',
  'take-off-roll',
];

/** What a calibration needs of one flight. */
export interface ComparedFlight {
  readonly aeroplane: { readonly id: string; readonly name: string } | Undetermined;
  /** Of every take-off and approach; those without a ratio say nothing and may be in it. */
  readonly comparisons: readonly Comparison[];
  /** Approaches broken off. */
  readonly goArounds: number;
}

/** Calibrates every aeroplane that any flight names. */
export function ownFactors(flights: readonly Flight[]): AeroplaneFactors[] {
  return ownFactorsFrom(flights.map(comparedFlight));
}

/** The same from the comparisons alone, for flights whose tracks are not at hand. */
export function ownFactorsFrom(flights: readonly ComparedFlight[]): AeroplaneFactors[] {
  const names = new Map(
    flights.flatMap(({ aeroplane }) =>
      isUndetermined(aeroplane) ? [] : [[aeroplane.id, aeroplane.name] as const],
    ),
  );
  return [...names].map(([id, name]) => {
    const own = flights.filter(
      ({ aeroplane }) => !isUndetermined(aeroplane) && aeroplane.id === id,
    );
    // Events whose distance was measured to its end and expected: the others say nothing.
    const comparisons = own
      .flatMap((flight) => flight.comparisons)
      .filter((comparison) => !isUndetermined(comparison.ratio));
    return {
      aeroplane: id,
      name,
      factors: QUANTITIES.map((quantity) =>
        calibrate(
          quantity,
          comparisons.filter((each) => each.quantity === quantity),
        ),
      ),
      goArounds: own.reduce((sum, flight) => sum + flight.goArounds, 0),
    };
  });
}

function comparedFlight({ aeroplane, compared, events }: Flight): ComparedFlight {
  return {
    aeroplane,
    comparisons: [...compared.approaches, ...compared.takeOffs].flatMap(({ roll, whole }) => [
      roll,
      whole,
    ]),
    goArounds: events.approaches.filter(({ outcome }) => outcome === 'go-around').length,
  };
}
