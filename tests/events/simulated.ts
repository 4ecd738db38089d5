/** Simulated flights run through cleaning, motion and detection, without any file between. */
import { detectEvents, type FlightEvents } from '../../src/events/detect-events.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { EMPTY_STRIP_BOOK, type Strip } from '../../src/strips/strip.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion } from '../../src/track/motion.ts';
import type { Track } from '../../src/track/track.ts';
import { logAsGpx, logAsIgc, toTrack } from '../synthetic/logged-track.ts';
import { PLAIN_RECEIVER, receive, type Receiver } from '../synthetic/receiver-model.ts';
import type { Scenario } from '../synthetic/scenarios.ts';

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
  return detectEvents(motion, cleaned.heightDatum, { ...EMPTY_STRIP_BOOK, strips });
}
