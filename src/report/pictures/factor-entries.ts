/**
 * Which compared events belong to one aeroplane's calibration of one distance?
 *
 * In: the logbook's flights, an aeroplane, a distance. Out: entries for the picture of the factor.
 * Events that were not carried to their end (a touch-and-go, a go-around) are no landings and are
 * not listed as left out either.
 */
import type { ComparedQuantity, Comparison } from '../../calibration/comparison.ts';
import {
  SURFACE_CLASSES,
  surfaceClass,
  type SurfaceClass,
} from '../../calibration/surface-class.ts';
import { isUndetermined } from '../../result.ts';
import type { EventSummary } from '../flight-summary.ts';
import type { LoggedFlight } from '../logged-flight.ts';
import type { FactorEntry } from './factor-picture.ts';

/** Entries of one aeroplane and one distance on one kind of ground (null: on any), in the order of the flights. */
export function factorEntries(
  flights: readonly LoggedFlight[],
  aeroplaneId: string,
  quantity: ComparedQuantity,
  surface: SurfaceClass | null = null,
): FactorEntry[] {
  return flights
    .filter(
      ({ summary }) =>
        !isUndetermined(summary.aeroplane) &&
        summary.aeroplane.id === aeroplaneId &&
        (surface === null || surfaceClass(summary.surface) === surface),
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

/** What the pilot's other groups compared of the same distance, a list for each aeroplane on each kind of ground. */
export function otherGroups(
  flights: readonly LoggedFlight[],
  aeroplaneId: string,
  quantity: ComparedQuantity,
  surface: SurfaceClass,
): (readonly Comparison[])[] {
  const ids = new Set(
    flights.flatMap(({ summary: { aeroplane } }) =>
      isUndetermined(aeroplane) ? [] : [aeroplane.id],
    ),
  );
  return [...ids].flatMap((id) =>
    SURFACE_CLASSES.flatMap((each) => {
      if (id === aeroplaneId && each === surface) return [];
      const entries = factorEntries(flights, id, quantity, each);
      const compared = entries
        .map(({ comparison }) => comparison)
        .filter(({ ratio }) => !isUndetermined(ratio));
      return compared.length === 0 ? [] : [compared];
    }),
  );
}

function isCarriedOut({ outcome }: EventSummary): boolean {
  return outcome === 'full-stop' || outcome === 'stop-and-go' || outcome === 'take-off';
}
