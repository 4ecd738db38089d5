/**
 * A flight as if only some of its take-offs and approaches had been flown.
 *
 * In: a debriefed flight, which of its events count. Out: the same flight with those alone, for whatever
 * counts landings; the columns that go with the events keep in step.
 */
import type { Flight } from './debrief.ts';

/** Which events count: a slot for each approach, and for each take-off; and the lessons of those. */
export interface CountingEvents extends Pick<Flight, 'lessons'> {
  readonly approaches: readonly boolean[];
  readonly takeOffs: readonly boolean[];
}

/** The flight with the events that count; itself where all do. */
export function countingPart(
  flight: Flight,
  { approaches, takeOffs, lessons }: CountingEvents,
): Flight {
  if (approaches.every(Boolean) && takeOffs.every(Boolean)) return flight;
  const landed = <T>(all: readonly T[]): T[] => all.filter((_, k) => approaches[k]);
  const left = <T>(all: readonly T[]): T[] => all.filter((_, k) => takeOffs[k]);
  const { events, compared, surroundings } = flight;
  return {
    ...flight,
    events: {
      ...events,
      approaches: landed(events.approaches),
      takeOffs: left(events.takeOffs),
    },
    compared: { approaches: landed(compared.approaches), takeOffs: left(compared.takeOffs) },
    surroundings: {
      ...surroundings,
      approaches: landed(surroundings.approaches),
      takeOffs: left(surroundings.takeOffs),
    },
    finals: landed(flight.finals),
    byHand: landed(flight.byHand),
    liftOffsByHand: left(flight.liftOffsByHand),
    lessons,
  };
}
