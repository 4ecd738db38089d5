/**
 * What counts where several logs recorded one flight?
 *
 * In: flights of all logs with their paths and what was measured of each take-off and approach. Out: for
 * each flight which of its events count, and which other logs recorded it. Each landing counts once, in
 * the log that says most of it: first the one with more of its distances compared (conditions and
 * aeroplane entered, heights known), then one with its roll measured; between equals the log in which
 * that holds of more events, then the one with the narrower rolls, then that with more fixes used. What
 * the figures say never decides. An event that only one log saw counts in that one.
 */
import { isUndetermined, type Measured } from '../result.ts';
import type { FlownPath } from '../track/flown-path.ts';
import { isSameFlight, zoneFaultS } from './same-flight.ts';

/** A take-off or approach, as far as it matters for what counts. */
export interface RecordedEvent {
  readonly kind: 'approach' | 'take-off';
  readonly timeS: number;
  readonly rollM: Measured;
  /** Roll and whole distance: how many of them could be compared with what was expected. */
  readonly ratios: number;
}

/** One flight of one log. */
export interface RecordedFlight {
  /** Decides where nothing else does, so that the order of the logs does not. */
  readonly name: string;
  readonly path: FlownPath;
  readonly usedFixes: number;
  readonly events: readonly RecordedEvent[];
}

/** Another log of the same flight. */
export interface OtherRecording {
  /** Its place among the flights. */
  readonly index: number;
  /** Landings and take-offs whose roll both measured, and in how many of them the two bands overlap. */
  readonly bothMeasured: number;
  readonly bandsOverlap: number;
}

/** What counts of one flight. */
export interface Counted {
  /** One for each event. */
  readonly counts: readonly boolean[];
  readonly others: readonly OtherRecording[];
  /** Flights that would be the same one, were their clocks not so many seconds ahead of this one's. */
  readonly zoneFaults: readonly { readonly index: number; readonly aheadS: number }[];
}

/** Two logs know one event by moments closer than this, seconds; nobody lands twice within it. Ours. */
const SAME_EVENT_S = 60;

/** What counts, in the order of the flights. Never fails. */
export function countOnce(flights: readonly RecordedFlight[]): Counted[] {
  const pairs = sameFlights(flights.map(({ path }) => path));
  const order = rankOf(flights);
  return flights.map((flight, index) => {
    const found = pairs.filter(({ pair }) => pair.includes(index));
    const others = found
      .filter(({ zoneS }) => zoneS === 0)
      .map(({ pair: [a, b] }) => (a === index ? b : a));
    const counts = flight.events.map((event) =>
      others.every((other) => {
        const same = sameEvent(event, flight.events, flights[other].events);
        return same === null || isBefore(event, same, order[index] < order[other]);
      }),
    );
    return {
      counts,
      others: others.map((other) => ({ index: other, ...agreement(flight, flights[other]) })),
      zoneFaults: found
        .filter(({ zoneS }) => zoneS !== 0)
        .map(({ pair: [a, b], zoneS }) => ({
          index: a === index ? b : a,
          aheadS: a === index ? zoneS : -zoneS,
        })),
    };
  });
}

/** Places of two paths, and by how much the clock of the second is ahead: 0 where they are one flight. */
export interface PathPair {
  readonly pair: readonly [number, number];
  readonly zoneS: number;
}

/**
 * Paths that are one flight, and those that would be were a clock not in another zone. Both fly on one day
 * or two. Two that are one flight with a third are one flight, however far apart they lie themselves:
 * else each would count beside the other where the third does not.
 */
export function sameFlights(paths: readonly FlownPath[]): PathPair[] {
  const direct = paths.flatMap((path, a) =>
    paths.slice(a + 1).flatMap((other, k): PathPair[] => {
      const pair = [a, a + 1 + k] as const;
      const zoneS = shiftKnown(path, other);
      return zoneS === null ? [] : [{ pair, zoneS }];
    }),
  );
  const joined = joinedPairs(direct).filter(([a, b]) => isOverlapping(paths[a], paths[b]));
  const isJoined = ({ pair: [a, b] }: PathPair): boolean =>
    joined.some(([from, to]) => from === a && to === b);
  return [
    ...direct.filter((each) => !isJoined(each)),
    ...joined.map((pair): PathPair => ({ pair, zoneS: 0 })),
  ].sort(({ pair: [a, b] }, { pair: [c, d] }) => a - c || b - d);
}

/**
 * Two places each of paths that are one flight, by themselves or by others between them. Two parts of one log
 * are so by a log of the whole, and still not each other's second log: they do not overlap.
 */
function joinedPairs(direct: readonly PathPair[]): (readonly [number, number])[] {
  const groupOf = new Map<number, ReadonlySet<number>>();
  for (const { pair, zoneS } of direct) {
    if (zoneS !== 0) continue;
    const group = new Set(pair.flatMap((index) => [...(groupOf.get(index) ?? [index])]));
    for (const index of group) groupOf.set(index, group);
  }
  return [...new Set(groupOf.values())].flatMap((group) => {
    const indices = [...group].sort((a, b) => a - b);
    return indices.flatMap((a, k) => indices.slice(k + 1).map((b) => [a, b] as const));
  });
}

function isOverlapping({ timeS: a }: FlownPath, { timeS: b }: FlownPath): boolean {
  return a[0] <= b[b.length - 1] && b[0] <= a[a.length - 1];
}

/** Of each two paths the answer, as long as somebody holds them: a logbook asks again at every change. */
const known = new WeakMap<FlownPath, WeakMap<FlownPath, number | null>>();

function shiftKnown(a: FlownPath, b: FlownPath): number | null {
  const ofA = known.get(a) ?? new WeakMap<FlownPath, number | null>();
  known.set(a, ofA);
  const before = ofA.get(b);
  if (before !== undefined) return before;
  const shiftS = isSameFlight(a, b) ? 0 : zoneFaultS(a, b);
  ofA.set(b, shiftS);
  return shiftS;
}

/** For each flight its place in the order of those that go before others; the lowest goes first. */
function rankOf(flights: readonly RecordedFlight[]): number[] {
  const figures = flights.map(({ events, usedFixes }) => [
    -events.reduce((sum, { ratios }) => sum + ratios, 0),
    -events.filter(({ rollM }) => !isUndetermined(rollM)).length,
    meanWidthM(events),
    -usedFixes,
  ]);
  const ranked = flights
    .map((_, index) => index)
    .sort((a, b) => {
      const first = figures[a].findIndex((figure, k) => figure !== figures[b][k]);
      if (first >= 0) return figures[a][first] - figures[b][first];
      return flights[a].name < flights[b].name ? -1 : flights[a].name > flights[b].name ? 1 : a - b;
    });
  return flights.map((_, index) => ranked.indexOf(index));
}

/** Mean width of the bands of the rolls, metres; very wide where there is none. */
function meanWidthM(events: readonly RecordedEvent[]): number {
  const widths = events.flatMap(({ rollM }) =>
    isUndetermined(rollM) ? [] : [rollM.high - rollM.low],
  );
  if (widths.length === 0) return Number.MAX_VALUE;
  return widths.reduce((sum, width) => sum + width, 0) / widths.length;
}

/** The event of the other log that is this one, where each is the other's nearest; null: that log did not see it. */
function sameEvent(
  event: RecordedEvent,
  own: readonly RecordedEvent[],
  others: readonly RecordedEvent[],
): RecordedEvent | null {
  const same = nearestOf(event, others);
  return same !== null && nearestOf(same, own) === event ? same : null;
}

function nearestOf(
  { kind, timeS }: RecordedEvent,
  events: readonly RecordedEvent[],
): RecordedEvent | null {
  const away = (event: RecordedEvent): number => Math.abs(event.timeS - timeS);
  const near = events.filter((event) => event.kind === kind && away(event) <= SAME_EVENT_S);
  return near.toSorted((a, b) => away(a) - away(b)).at(0) ?? null;
}

/** Whether one record of an event goes before the other. */
function isBefore(one: RecordedEvent, other: RecordedEvent, isFirstLog: boolean): boolean {
  if (one.ratios !== other.ratios) return one.ratios > other.ratios;
  const [measured, otherMeasured] = [one, other].map(({ rollM }) => !isUndetermined(rollM));
  return measured === otherMeasured ? isFirstLog : measured;
}

function agreement(
  one: RecordedFlight,
  other: RecordedFlight,
): Pick<OtherRecording, 'bothMeasured' | 'bandsOverlap'> {
  const both = one.events.flatMap((event) => {
    const same = sameEvent(event, one.events, other.events);
    if (same === null || isUndetermined(event.rollM) || isUndetermined(same.rollM)) return [];
    return [event.rollM.low <= same.rollM.high && same.rollM.low <= event.rollM.high];
  });
  return { bothMeasured: both.length, bandsOverlap: both.filter((overlap) => overlap).length };
}
