/**
 * Which factors do all these flights together suggest, for each aeroplane?
 *
 * In: debriefed flights of one pilot. Out: for each aeroplane and each of the four distances an own
 * factor, or why there are too few.
 */
import { calibrate, type OwnFactor, type TooFew } from '../calibration/calibrate.ts';
import type { ComparedQuantity, Comparison } from '../calibration/comparison.ts';
import { isUndetermined } from '../result.ts';
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

/** Calibrates every aeroplane that any flight names. */
export function ownFactors(flights: readonly Flight[]): AeroplaneFactors[] {
  const names = new Map(
    flights.flatMap(({ aeroplane }) =>
      isUndetermined(aeroplane) ? [] : [[aeroplane.id, aeroplane.name] as const],
    ),
  );
  return [...names].map(([id, name]) => {
    const own = flights.filter(
      ({ aeroplane }) => !isUndetermined(aeroplane) && aeroplane.id === id,
    );
    const comparisons = own.flatMap(comparisonsOf);
    return {
      aeroplane: id,
      name,
      factors: QUANTITIES.map((quantity) =>
        calibrate(
          quantity,
          comparisons.filter((each) => each.quantity === quantity),
        ),
      ),
      goArounds: own
        .flatMap((flight) => flight.events.approaches)
        .filter((approach) => approach.outcome === 'go-around').length,
    };
  });
}

/** Comparisons that say anything: events whose distance was measured to its end and expected. */
function comparisonsOf(flight: Flight): Comparison[] {
  const { approaches, takeOffs } = flight.compared;
  return [...approaches, ...takeOffs]
    .flatMap(({ roll, whole }) => [roll, whole])
    .filter((comparison) => !isUndetermined(comparison.ratio));
}
