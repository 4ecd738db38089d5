/**
 * Which flights count, and what is said of a flight that several logs recorded?
 *
 * In: flights as the logbook keeps them, or as they were debriefed, with the names of their logs. Out: the
 * flights with the events that count, each landing once; and for each flight notes for its debrief. What
 * counts is settled in `debrief/count-once.ts`.
 */
import { countOnce, type Counted } from '../debrief/count-once.ts';
import { countingPart } from '../debrief/counting-part.ts';
import { baseName, type Flight } from '../debrief/debrief.ts';
import { SAME_LANDING_S } from '../debrief/landing-limits.ts';
import { isUndetermined, problem, type Problem } from '../result.ts';
import { summariseFlight, type FlightSummary } from './flight-summary.ts';

/** A flight and the name of its log. */
export interface NamedFlight {
  readonly name: string;
  readonly summary: FlightSummary;
}

/** What counts of one flight, and what is said of it. */
export interface RecordedTwice {
  /** Keys of the events that count. */
  readonly counting: ReadonlySet<string>;
  /** Places of the other logs' flights among those given. */
  readonly others: readonly number[];
  readonly notes: readonly Problem[];
}

/** What counts of each flight, in the order given. */
export function recordedTwice(flights: readonly NamedFlight[]): RecordedTwice[] {
  const found = countOnce(
    flights.map(({ name, summary: { path, usedFixes, events } }) => ({
      ...{ name, path, usedFixes },
      events: events.map(({ kind, timeS, rollM, roll, whole }) => ({
        ...{ kind, timeS, rollM },
        ratios: [roll, whole].filter(({ ratio }) => !isUndetermined(ratio)).length,
      })),
    })),
  );
  return flights.map(({ summary: { events } }, index) => ({
    counting: new Set(events.map(({ key }) => key).filter((_, k) => found[index].counts[k])),
    others: found[index].others.map((other) => other.index),
    notes: notesOf(found, index, flights),
  }));
}

/** A summary with the events that count, and what they teach; itself where all do. */
export function countingSummary(
  summary: FlightSummary,
  counting: ReadonlySet<string>,
): FlightSummary {
  const events = summary.events.filter(({ key }) => counting.has(key));
  if (events.length === summary.events.length) return summary;
  const lessons = summary.lessons.filter((lesson) =>
    events.some(
      ({ kind, timeS }) => kind === 'approach' && Math.abs(timeS - lesson.timeS) <= SAME_LANDING_S,
    ),
  );
  return { ...summary, events, lessons };
}

/** Debriefed flights with the events that count, and the notes of each; in the order given. */
export function countedFlights(flights: readonly Flight[]): {
  readonly flight: Flight;
  readonly counting: ReadonlySet<string>;
  readonly notes: readonly Problem[];
}[] {
  const named = flights.map((flight) => ({
    name: baseName(flight.source.file),
    summary: summariseFlight(flight),
  }));
  return recordedTwice(named).map(({ counting, notes }, index) => {
    const { approaches, takeOffs } = flights[index].events;
    const { lessons } = countingSummary(named[index].summary, counting);
    const flight = countingPart(flights[index], {
      lessons,
      approaches: approaches.map((_, k) => counting.has(`approach-${k}`)),
      takeOffs: takeOffs.map((_, k) => counting.has(`take-off-${k}`)),
    });
    return { flight, counting, notes };
  });
}

function notesOf(
  found: readonly Counted[],
  index: number,
  flights: readonly NamedFlight[],
): Problem[] {
  const { counts, others, zoneFaults } = found[index];
  const twice = others.map((other) => {
    const { name } = flights[other.index];
    const message = `also recorded by ${name}, ${whichCounts(counts, found[other.index].counts)}${agreementWords(other)}`;
    return problem('same-flight', 'note', 'file', message);
  });
  const faults = zoneFaults.map(({ index: other, aheadS }) => {
    const hours = `${Math.abs(aheadS) / 3600} h`;
    const message = `${flights[other].name} flew the same path with its clock ${hours} ${aheadS > 0 ? 'ahead' : 'behind'}: one of the two clocks is wrong. Until one log is removed both count`;
    return problem('same-flight-other-clock', 'warning', 'file', message);
  });
  return [...twice, ...faults];
}

function whichCounts(own: readonly boolean[], others: readonly boolean[]): string {
  const counted = own.filter(Boolean).length;
  if (counted === 0 && others.some(Boolean))
    return 'which counts: what this log saw is in no count and no factor';
  if (counted === own.length && !others.some(Boolean)) return 'which does not count: this log does';
  return `each take-off and approach counts once: ${counted} of ${own.length} in this log`;
}

function agreementWords({ bothMeasured, bandsOverlap }: Counted['others'][number]): string {
  if (bothMeasured === 0) return '';
  if (bothMeasured === 1) {
    return `. The bands of the ground roll that both measured ${bandsOverlap === 1 ? 'overlap' : 'do not overlap'}`;
  }
  return `. Of ${bothMeasured} ground rolls that both measured the bands overlap in ${bandsOverlap}`;
}
