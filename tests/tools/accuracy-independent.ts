/**
 * Flights that another simulator flew: how exact are the measurements there?
 *
 * In: a folder of gzipped flights as in tests/truth, or one with `truth.json` and `data/*.csv.gz`
 * as such flights are kept before they are copied there. Out: a cell for each of some logs, with
 * what was misnamed, missed or invented. Events are matched by time.
 */
import { existsSync } from 'node:fs';
import { detectEvents, type FlightEvents } from '../../src/events/detect-events.ts';
import type { Approach, TakeOff } from '../../src/events/flight-event.ts';
import { COMMON_MANNER, type Manner } from '../../src/events/manner.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined, undetermined, type Measured } from '../../src/result.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { START_S, stripOf } from '../truth/events-in-truth.ts';
import { independentFlown } from '../truth/log-truth.ts';
import {
  numberOf,
  readTruthFlights,
  type TruthEvent,
  type TruthFlight,
} from '../truth/read-truth.ts';
import { readRuns } from '../truth/read-runs.ts';
import { openCell, type Cell } from './accuracy-cells.ts';
import { logFlown, LOGS } from './accuracy-logs.ts';

/** A cell and the events that were not found as they were. */
export interface IndependentCell extends Cell {
  readonly events: number;
  readonly wrong: readonly string[];
}

/** Receivers drawn for every flight. */
export const RECEIVERS = 8;
/** Found and true may be so far apart and still be one event, seconds. */
const SAME_S = 40;

/** Reads a folder of either kind. Fails: throws where it holds no flight. */
export function readFolder(folder: string): TruthFlight[] {
  const flights = existsSync(`${folder}/truth.json`) ? readRuns(folder) : readTruthFlights(folder);
  if (flights.length === 0) {
    throw new Error(
      `${folder} holds neither *.json.gz flights nor a truth.json with data/*.csv.gz`,
    );
  }
  return flights;
}

/** Measures all flights in these logs (places in LOGS), `RECEIVERS` drawn receivers each. */
export function independentCells(
  flights: readonly TruthFlight[],
  logs: readonly number[],
): IndependentCell[] {
  return logs.map((log) => {
    const cell = openCell(LOGS[log].name);
    const wrong: string[] = [];
    let events = 0;
    for (const [place, flight] of flights.entries()) {
      for (let k = 0; k < RECEIVERS; k++) {
        // Other receivers for every flight: the same few would share their luck among all.
        const found = measure(flight, 30_000 + RECEIVERS * place + k, log);
        events += countEvents(flight, found.startS, found.events, cell, wrong);
      }
    }
    return { ...cell, events, wrong };
  });
}

/** One landing to a full stop found in an independent flight, and where it truly touched. */
export interface IndependentLanding {
  readonly found: Approach;
  readonly trueAlongM: number;
}

/** The landings to a full stop that were found in a flight logged by a drawn receiver. */
export function landingsIn(
  flight: TruthFlight,
  seed: number,
  log: number,
  manner: Manner,
): IndependentLanding[] {
  const { startS, events } = measure(flight, seed, log, manner);
  const left = events.approaches.filter(({ outcome }) => outcome === 'full-stop');
  return flight.events
    .filter(({ kind }) => kind === 'full_stop')
    .flatMap((event) => {
      const found = takeNearest(left, startS + numberOf(event, 'td_t'), timeOf);
      return found ? [{ found, trueAlongM: numberOf(event, 'td_x') }] : [];
    });
}

function measure(
  flight: TruthFlight,
  seed: number,
  log: number,
  manner: Manner = COMMON_MANNER,
): { startS: number; events: FlightEvents } {
  const random = createRandom(seed);
  // Fixes fall on whole seconds, the true moments anywhere between them.
  const startS = START_S + random.uniform();
  const raw = logFlown(independentFlown(flight, startS), random, LOGS[log]);
  const track = applyCleaning(raw, cleanTrack(raw));
  const motion = computeMotion(track);
  const events = detectEvents(motion, stripOf(flight), null, manner);
  return { startS, events };
}

/** Outcomes that are right for a kind of true event. */
const RIGHT: Readonly<Partial<Record<string, readonly string[]>>> = {
  full_stop: ['full-stop'],
  rollout_no_stop: ['full-stop'],
  touch_and_go: ['touch-and-go'],
  contact_in_go_around: ['touch-and-go', 'go-around'],
  go_around: ['go-around'],
};

function countEvents(
  flight: TruthFlight,
  startS: number,
  { approaches, takeOffs }: FlightEvents,
  cell: Cell,
  wrong: string[],
): number {
  const left = approaches.filter(({ outcome }) => outcome !== 'overflight');
  const brushed = new Set(
    flight.events.filter(({ kind }) => kind === 'contact_in_go_around').map(approachOf),
  );
  const liftsLeft = [...takeOffs];
  let events = 0;
  for (const event of flight.events) {
    // A go-around that brushed the ground is listed twice, as a contact and as a go-around.
    if (event.type === 'go_around' && brushed.has(approachOf(event))) continue;
    if (event.type === 'landing' || event.type === 'go_around') {
      events++;
      const kind = event.kind ?? 'go_around';
      const atS = startS + numberOf(event, event.type === 'landing' ? 'td_t' : 'min_h_t');
      const found = takeNearest(left, atS, timeOf);
      const outcome = found && (isUndetermined(found.outcome) ? 'undetermined' : found.outcome);
      if (!found || !RIGHT[kind]?.includes(outcome ?? '')) {
        wrong.push(`${flight.name} ${kind}: ${outcome ?? 'missed'}`);
      } else countApproach(event, found, cell);
    } else if (event.type === 'liftoff' || event.type === 'liftoff_tg') {
      events++;
      const found = takeNearest(liftsLeft, startS + numberOf(event, 't'), liftOffTimeOf);
      if (!found || isUndetermined(found.liftOff)) wrong.push(`${flight.name} take-off: missed`);
      else countTakeOff(event, climbAfter(flight, event), found, found.liftOff.alongM, cell);
    }
  }
  for (const { outcome } of left) {
    wrong.push(`${flight.name}: invented ${isUndetermined(outcome) ? 'approach' : outcome}`);
  }
  return events;
}

function liftOffTimeOf({ liftOff }: TakeOff): number {
  return isUndetermined(liftOff) ? NaN : valueOf(liftOff.timeS);
}

/** The climb through 50 ft after a lift-off; null where the flight holds none. */
function climbAfter({ events }: TruthFlight, liftOff: TruthEvent): TruthEvent | null {
  return events.slice(events.indexOf(liftOff)).find(({ type }) => type === 'climb_50ft') ?? null;
}

function countTakeOff(
  event: TruthEvent,
  climb: TruthEvent | null,
  { brakeRelease, screen }: TakeOff,
  liftOffM: Measured,
  { tallies }: Cell,
): void {
  if (event.type === 'liftoff_tg') {
    tallies['lift-off again'].add(liftOffM, numberOf(event, 'x'));
    return;
  }
  const releaseM = numberOf(event, 'release_x');
  tallies['lift-off'].add(liftOffM, numberOf(event, 'x'));
  tallies.release.add(isUndetermined(brakeRelease) ? brakeRelease : brakeRelease.alongM, releaseM);
  if (!climb) return;
  tallies['50 ft'].add(
    isUndetermined(screen) ? screen : screen.distanceM,
    numberOf(climb, 'x') - releaseM,
  );
}

function countApproach(event: TruthEvent, found: Approach, cell: Cell): void {
  const { touchdown, rollEnd, goAround } = found;
  if (event.type === 'go_around') {
    cell.tallies.lowest.add(
      goAround?.lowestAboveM ?? undetermined('no go-around'),
      numberOf(event, 'min_h'),
    );
    return;
  }
  if (event.kind === 'contact_in_go_around') return;
  const place = isUndetermined(touchdown) ? touchdown : touchdown.alongM;
  cell.tallies.touchdown.add(place, numberOf(event, 'td_x'));
  const speed = isUndetermined(touchdown) ? touchdown : touchdown.groundSpeedMps;
  cell.tallies.speed.add(speed, numberOf(event, 'td_gs'));
  if (event.kind !== 'full_stop') return;
  const roll = isUndetermined(found.groundRollM) ? found.fullStopRollM : found.groundRollM;
  cell.tallies.roll.add(roll, numberOf(event, 'ground_roll'));
  cell.tallies.stop.add(
    isUndetermined(rollEnd) ? rollEnd : rollEnd.alongM,
    numberOf(event, 'stop_x'),
  );
  // Flights that begin below 50 ft have no place of it.
  if (typeof event['x_50ft'] !== 'number') return;
  const fromM = Math.max(0, event['x_50ft']);
  cell.tallies['landing distance'].add(found.landingDistanceM, numberOf(event, 'stop_x') - fromM);
}

/** Takes the nearest in time out of a list, unless all are too far off. */
function takeNearest<T>(list: T[], atS: number, timeS: (each: T) => number): T | null {
  let best = -1;
  let least = SAME_S;
  list.forEach((each, k) => {
    const off = Math.abs(timeS(each) - atS);
    if (off < least) [best, least] = [k, off];
  });
  return best < 0 ? null : list.splice(best, 1)[0];
}

function timeOf({ touchdown, goAround, thresholdCrossing }: Approach): number {
  if (!isUndetermined(touchdown)) return valueOf(touchdown.timeS);
  if (goAround) return valueOf(goAround.lowestTimeS);
  return isUndetermined(thresholdCrossing) ? NaN : valueOf(thresholdCrossing.timeS);
}

function valueOf(measured: Measured): number {
  return isUndetermined(measured) ? NaN : measured.value;
}

function approachOf(event: TruthEvent): unknown {
  return event['approach_index'];
}
