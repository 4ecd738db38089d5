/**
 * Which approaches can be laid over each other, and how do they stand in an address?
 *
 * In: the flights of the logbook; the parts of an address. Out: candidates by strip and direction,
 * newest first; the chosen ones, and the parts that stand for them: `LOG.FLIGHT.APPROACH`, the log by
 * the beginning of its id.
 */
import type { VisitRecord } from '../../logbook/entry.ts';
import type { EventSummary } from '../../report/flight-summary.ts';
import type { EventAddress, LoggedFlight } from '../../report/logged-flight.ts';
import { isUndetermined } from '../../result.ts';

/** At most so many are laid over each other: more lines cannot be told apart. */
export const MOST_APPROACHES = 6;

/** Letters of a log's id that an address keeps. */
const ID_LETTERS = 12;

/** One approach that can be chosen. */
export interface Candidate extends EventAddress {
  readonly ref: string;
  readonly stripId: string;
  readonly stripName: string;
  readonly designator: string;
  readonly timeS: number;
  /** Null where nobody said which. */
  readonly aeroplane: string | null;
  readonly event: EventSummary;
}

/** Every approach at a strip that was kept, newest first; a flight high over it is none. */
export function candidatesOf(flights: readonly LoggedFlight[]): Candidate[] {
  return flights
    .flatMap(({ id, flightIndex, summary }) =>
      summary.events.flatMap((event): Candidate[] => {
        const { key, kind, stripId, designator, outcome, stripName, timeS } = event;
        if (kind !== 'approach' || outcome === 'overflight') return [];
        if (stripId === null || designator === null) return [];
        const ref = `${id.slice(0, ID_LETTERS)}.${flightIndex}.${key.replace('approach-', '')}`;
        const place = { stripId, stripName, designator };
        const aeroplane = isUndetermined(summary.aeroplane) ? null : summary.aeroplane.name;
        return [{ logId: id, flightIndex, key, ref, ...place, timeS, aeroplane, event }];
      }),
    )
    .sort((a, b) => b.timeS - a.timeS);
}

/** Strip and direction as one text. */
export function placeKey({
  stripId,
  designator,
}: Pick<Candidate, 'stripId' | 'designator'>): string {
  return `${stripId} ${designator}`;
}

/**
 * The chosen ones in the order in which they were flown: those of the address, all in the direction of
 * the first; without any, the approaches of the newest flight that made two or more in one direction.
 */
export function chosenApproaches(
  all: readonly Candidate[],
  refs: readonly string[],
): readonly Candidate[] {
  const named = refs.flatMap((ref) => all.filter((each) => each.ref === ref).slice(0, 1));
  const [first] = named as (Candidate | undefined)[];
  const found = first
    ? named.filter((each) => placeKey(each) === placeKey(first))
    : usualApproaches(all);
  return found.slice(0, MOST_APPROACHES).toSorted((a, b) => a.timeS - b.timeS);
}

function usualApproaches(all: readonly Candidate[]): Candidate[] {
  const together = (one: Candidate): Candidate[] =>
    all.filter(
      (each) =>
        each.logId === one.logId &&
        each.flightIndex === one.flightIndex &&
        placeKey(each) === placeKey(one),
    );
  const several = all.find((each) => together(each).length > 1);
  if (several) return together(several);
  const [newest] = all as (Candidate | undefined)[];
  return newest ? all.filter((each) => placeKey(each) === placeKey(newest)) : [];
}

/** What was written about one approach: remarks pinned within two minutes of it. */
export function remarksOf({ logId, timeS }: Candidate, visits: readonly VisitRecord[]): string[] {
  return visits
    .filter((visit) => visit.logId === logId)
    .flatMap(({ remarks }) => remarks)
    .filter((remark) => remark.timeS !== null && Math.abs(remark.timeS - timeS) <= NEAR_S)
    .map(({ text }) => text);
}

/** A remark this near to the touchdown or the lowest point is about that approach, seconds. */
const NEAR_S = 120;
