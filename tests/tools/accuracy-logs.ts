/**
 * The ways of logging that are judged, and a simulated flight logged in one of them.
 *
 * Every error of the receiver is drawn by seed. The quiet receiver stands for one with a second
 * frequency or corrections: a fifth of the white noise, half the wandering. Its sizes are common
 * practice, no source.
 */
import { detectEvents, type FlightEvents } from '../../src/events/detect-events.ts';
import { COMMON_MANNER, type Manner } from '../../src/events/manner.ts';
import { TIE } from '../../src/events/tuning.ts';
import { createLocalFrame } from '../../src/geo/local-frame.ts';
import { createRandom, type Random } from '../../src/numeric/random.ts';
import { placeSdM } from '../../src/strips/place-error.ts';
import { EMPTY_STRIP_BOOK, type Strip } from '../../src/strips/strip.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion, type Motion } from '../../src/track/motion.ts';
import type { Track } from '../../src/track/track.ts';
import type { FlownFlight } from '../synthetic/flight.ts';
import { logAsGpx, logAsIgc, toTrack } from '../synthetic/logged-track.ts';
import { drawReceiver, withLateHeights, withPressure } from '../synthetic/population.ts';
import { receive, type Receiver } from '../synthetic/receiver-model.ts';
import type { Scenario } from '../synthetic/scenarios.ts';

/** One way of logging. */
export interface Log {
  readonly name: string;
  /** As short as a plot's label must be. */
  readonly label: string;
  readonly intervalS: number;
  readonly format: 'gpx' | 'igc';
  readonly quiet: boolean;
}

const INTERVALS_S = [0.2, 1, 2, 4];

/** All of them; places in this list name them in trials. */
export const LOGS: readonly Log[] = [
  ...INTERVALS_S.map((intervalS) => logOf('gpx', intervalS, false)),
  ...INTERVALS_S.map((intervalS) => logOf('igc', intervalS, false)),
  logOf('gpx', 1, true),
];

/** The usual log: GPX once a second. */
export const USUAL_LOG = LOGS.findIndex(
  ({ format, intervalS, quiet }) => format === 'gpx' && intervalS === 1 && !quiet,
);

function logOf(format: 'gpx' | 'igc', intervalS: number, quiet: boolean): Log {
  const kind = format === 'gpx' ? 'GPX' : 'IGC with pressure height';
  return {
    name: `${kind}, every ${intervalS} s${quiet ? ', quiet receiver' : ''}`,
    label: `${format.toUpperCase()} ${intervalS} s${quiet ? ' quiet' : ''}`,
    intervalS,
    format,
    quiet,
  };
}

/** A scenario as logged: the track, its motion and the events found at its own strip. */
export interface Logged {
  readonly track: Track;
  readonly motion: Motion;
  readonly events: FlightEvents;
}

/**
 * Logs a scenario and looks for its events at its strip as somebody might have entered it. Equal
 * seeds draw the same receiver and the same strip for every interval.
 *
 * @param manner how the pilot is taken to arrive.
 */
export function logScenario(
  scenario: Scenario,
  seed: number,
  log: Log,
  manner: Manner = COMMON_MANNER,
): Logged {
  const raw = logFlown(scenario.flown, createRandom(seed + 1_000_000_000), log);
  const track = applyCleaning(raw, cleanTrack(raw));
  const motion = computeMotion(track);
  const entered = asEntered(scenario.strip, createRandom(seed + 2_000_000_000));
  const book = { ...EMPTY_STRIP_BOOK, strips: [entered] };
  return { track, motion, events: detectEvents(motion, book, null, manner) };
}

/** Logs a flown flight by a drawn receiver, without looking for anything in it. */
export function logFlown(flown: FlownFlight, random: Random, log: Log): Track {
  const fixes = receive(flown, receiverFor(log, random), random);
  return toTrack(log.format === 'igc' ? logAsIgc(fixes) : logAsGpx(fixes));
}

/**
 * The strip with the errors that it says it may have: moved as a whole, and raised or lowered. Two in
 * three are entered by their ends alone, each of them off by some more, and nothing of the ground
 * between; the others have their profile.
 */
function asEntered(strip: Strip, random: Random): Strip {
  const sdM = placeSdM(strip);
  const frame = createLocalFrame(strip.latDeg[0], strip.lonDeg[0]);
  const off = frame.toLatLon(sdM * random.normal(), sdM * random.normal());
  const raisedM = TIE.elevationSdM * random.normal();
  const ends = [raisedM + END_SD_M * random.normal(), raisedM + END_SD_M * random.normal()];
  const hasProfile = random.uniform() < PROFILE_SHARE;
  return {
    ...strip,
    latDeg: strip.latDeg.map((lat) => lat + off.latDeg - strip.latDeg[0]),
    lonDeg: strip.lonDeg.map((lon) => lon + off.lonDeg - strip.lonDeg[0]),
    elevationM: strip.elevationM && [strip.elevationM[0] + ends[0], strip.elevationM[1] + ends[1]],
    profile: hasProfile
      ? (strip.profile?.map(([fromAM, heightM]) => [fromAM, heightM + raisedM]) ?? null)
      : null,
  };
}

/** How far either end's elevation is off by itself, metres (one sd), and how many strips have a profile: common practice, no source. */
const END_SD_M = 0.5;
const PROFILE_SHARE = 1 / 3;

function receiverFor(log: Log, random: Random): Receiver {
  const plain = withLateHeights(drawReceiver(random, log.intervalS), random);
  if (log.quiet) return { ...plain, ...QUIET };
  return log.format === 'igc' ? withPressure(plain, random) : plain;
}

/** What a quiet receiver does better, metres. */
const QUIET = {
  horizontalBiasM: 1,
  verticalBiasM: 2,
  horizontalWhiteM: 0.1,
  verticalWhiteM: 0.15,
} as const;
