/** Simulated flights run through cleaning, motion and detection, without any file between. */
import { expect } from 'vitest';
import { findCircuits, type Circuits } from '../../src/events/circuit.ts';
import { detectEvents, type FlightEvents } from '../../src/events/detect-events.ts';
import { offsetAtView } from '../../src/events/ground-tie.ts';
import { TiedHeights } from '../../src/events/tied-heights.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined, type Estimate, type Measured } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK, type Strip } from '../../src/strips/strip.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion, type Motion } from '../../src/track/motion.ts';
import type { Track } from '../../src/track/track.ts';
import { boardAeroplane, type DemoPilot } from '../synthetic/demo/demo-pilot.ts';
import { logAsGpx, logAsIgc, toTrack } from '../synthetic/logged-track.ts';
import { PLAIN_RECEIVER, receive, type Receiver } from '../synthetic/receiver-model.ts';
import { SCENARIO_START_S, type Scenario } from '../synthetic/scenarios.ts';

/** How a flight is recorded and which strips are known. */
export interface Recording {
  readonly receiver?: Partial<Receiver>;
  readonly format?: 'gpx' | 'igc';
  readonly seed?: number;
  /** The flight's own strip by default; an empty list: no strip is known. */
  readonly strips?: readonly Strip[];
  /** Changes the track before it is looked at. */
  readonly edit?: (track: Track) => Track;
}

/** The track of a scenario as recorded. */
export function record(scenario: Scenario, recording: Recording = {}): Track {
  const receiver = { ...PLAIN_RECEIVER, ...recording.receiver };
  const fixes = receive(scenario.flown, receiver, createRandom(recording.seed ?? 1));
  const track = toTrack(recording.format === 'igc' ? logAsIgc(fixes) : logAsGpx(fixes));
  return recording.edit ? recording.edit(track) : track;
}

/** Events found in a scenario. */
export function eventsOf(scenario: Scenario, recording: Recording = {}): FlightEvents {
  return eventsOfTrack(record(scenario, recording), recording.strips ?? [scenario.strip]);
}

/** Events found in a track at these strips. */
export function eventsOfTrack(track: Track, strips: readonly Strip[]): FlightEvents {
  const cleaned = applyCleaning(track, cleanTrack(track));
  const motion = computeMotion(cleaned);
  return detectEvents(motion, { ...EMPTY_STRIP_BOOK, strips });
}

/** Circuits and joins among the events found in a motion. */
export function circuitsAmong(motion: Motion, events: FlightEvents): Circuits {
  return findCircuits(
    motion,
    events,
    (view) => new TiedHeights(motion, view, offsetAtView(view, events.ties, motion.heightDatum)),
  );
}

/** The same track without what was recorded after a time. */
export function cutAt(track: Track, timeS: number): Track {
  const length = track.timeS.findIndex((t) => t > timeS);
  if (length < 0) throw new Error(`the log ends before ${timeS}`);
  const columns = Object.entries(track).map(([name, column]) => [
    name,
    column instanceof Float64Array || column instanceof Int32Array || column instanceof Uint8Array
      ? column.slice(0, length)
      : (column as unknown),
  ]);
  return { ...(Object.fromEntries(columns) as Track), length };
}

/** Every other fix of a track: the even ones (0) or the odd ones (1). */
export function everyOther(track: Track, odd: number): Track {
  const half = <T extends Float64Array | Int32Array | Uint8Array>(column: T): T =>
    column.filter((_, i) => i % 2 === odd) as T;
  const columns = Object.entries(track).map(([name, column]) => [
    name,
    column instanceof Float64Array || column instanceof Int32Array || column instanceof Uint8Array
      ? half(column)
      : (column as unknown),
  ]);
  const halved = Object.fromEntries(columns) as Track;
  return { ...halved, length: halved.timeS.length };
}

/** The only one of a list. */
export function onlyOne<T>(list: readonly T[]): T {
  expect(list).toHaveLength(1);
  return list[0];
}

/** A quantity with its band, all finite and in order; throws where it is undetermined. */
export function bandOf(measured: Measured): Estimate {
  if (isUndetermined(measured)) throw new Error(measured.undetermined);
  const { value, low, high } = measured;
  expect([low, value, high].every(Number.isFinite), `${low} ${value} ${high} are finite`).toBe(
    true,
  );
  expect(low).toBeLessThanOrEqual(value);
  expect(value).toBeLessThanOrEqual(high);
  return measured;
}

/** Middle of a quantity; throws where it is undetermined. */
export function valueOf(measured: Measured): number {
  return bandOf(measured).value;
}

/** True where the band holds the truth, which must be a number. */
export function holds(measured: Measured, truth: number): boolean {
  expect(Number.isFinite(truth), `the truth is a number, not ${truth}`).toBe(true);
  const { low, high } = bandOf(measured);
  return low <= truth && truth <= high;
}

/** A demonstration pilot at the beginning of Ternholm 25, in one of two aeroplanes and some wind down the strip, by seed. */
export function lineUpAtTernholm(seed: number): DemoPilot {
  const pilot = boardAeroplane({
    startTimeS: SCENARIO_START_S + seed / 7,
    aeroplane: seed % 2 === 0 ? 'marram-160' : 'eelgrass-450',
    massKg: seed % 2 === 0 ? 1000 : 420,
    windFromDeg: 240,
    windKt: 6 + (seed % 5),
    gusty: false,
    wet: false,
    effort: 'normal',
    seed,
  });
  pilot.lineUp('ternholm', '25');
  return pilot;
}
