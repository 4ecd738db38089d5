/**
 * Which compared events belong to one aeroplane's calibration of one distance?
 *
 * In: the logbook's flights, an aeroplane, a distance. Out: entries for the picture of the factor.
 * Events that were not carried to their end (a touch-and-go, a go-around) are no landings and are
 * not listed as left out either.
 */
import type { ComparedQuantity } from '../../calibration/comparison.ts';
import { isUndetermined } from '../../result.ts';
import type { EventSummary } from '../flight-summary.ts';
import type { LoggedFlight } from '../logged-flight.ts';
import type { FactorEntry } from './factor-picture.ts';

/** Entries of one aeroplane and one distance, in the order of the flights. */
export function factorEntries(
  flights: readonly LoggedFlight[],
  aeroplaneId: string,
  quantity: ComparedQuantity,
): FactorEntry[] {
  return flights
    .filter(
      ({ summary: { aeroplane } }) => !isUndetermined(aeroplane) && aeroplane.id === aeroplaneId,
    )
    .flatMap(({ id, flightIndex, summary }) =>
      summary.events.filter(isCarriedOut).flatMap((event): FactorEntry[] => {
        const comparison = [event.roll, event.whole].find((each) => each.quantity === quantity);
        const isAnywhere = event.stripId !== null;
        if (!comparison || (!isAnywhere && isUndetermined(comparison.ratio))) return [];
        const { key, timeS, stripName } = event;
        return [{ logId: id, flightIndex, key, timeS, stripName, comparison }];
      }),
    );
}

function isCarriedOut({ outcome }: EventSummary): boolean {
  return outcome === 'full-stop' || outcome === 'stop-and-go' || outcome === 'take-off';
}
