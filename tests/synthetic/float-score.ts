/**
 * The float of simulated landings, found against flown.
 *
 * In: a seed. Out: error and band of its time and distance, or null where it is undetermined. The
 * simulated round-out dies away without an end: it counts as ended where the sink has lost four
 * fifths of what it loses.
 */
import { finalsOf } from '../../src/debrief/finals.ts';
import { detectEvents } from '../../src/events/detect-events.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined, undetermined, type Measured } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion } from '../../src/track/motion.ts';
import type { FlownFlight } from './flight.ts';
import { logAsGpx, logAsIgc, toTrack } from './logged-track.ts';
import { drawReceiver } from './population.ts';
import { receive } from './receiver-model.ts';
import { flyDrawnApproach } from './scenarios.ts';

/** One quantity against the truth. */
export interface FloatAgainst {
  readonly truth: number;
  readonly error: number;
  readonly held: boolean;
  readonly width: number;
}

/** The float of one landing: time in seconds, distance in metres. */
export interface FloatScore {
  readonly time: FloatAgainst;
  readonly distance: FloatAgainst;
}

/** One drawn landing, logged by a drawn receiver. */
export function scoreFloat(seed: number, intervalS: number): FloatScore | null {
  const { flown, strip } = flyDrawnApproach(seed, 'full-stop');
  const random = createRandom(seed + 1_000_000);
  const isIgc = random.uniform() < 0.4;
  const heights = isIgc ? 'ellipsoid' : 'geoid';
  const fixes = receive(flown, { ...drawReceiver(random, intervalS), heights }, random);
  const logged = toTrack(isIgc ? logAsIgc(fixes) : logAsGpx(fixes));
  const track = applyCleaning(logged, cleanTrack(logged));
  const motion = computeMotion(track);
  const book = { ...EMPTY_STRIP_BOOK, strips: [strip] };
  const events = detectEvents(motion, book);
  const nothing = undetermined('not part of this test');
  const finals = finalsOf(motion, events, { wind: nothing, conditions: nothing, book });
  if (finals.length !== 1 || isUndetermined(finals[0].float)) return null;
  const truth = flownFloat(flown);
  const { durationS, distanceM } = finals[0].float;
  return {
    time: against(durationS, truth.durationS),
    distance: against(distanceM, truth.distanceM),
  };
}

function flownFloat(flown: FlownFlight): { durationS: number; distanceM: number } {
  const { roundOut, touchdown } = flown.truth.approaches[0];
  if (!roundOut || !touchdown) throw new Error('a landing has both');
  const first = flown.timeS.findIndex((t) => t >= roundOut.timeS);
  const last = flown.timeS.findIndex((t) => t >= touchdown.timeS);
  const sink = (i: number): number =>
    (flown.wheelMslM[i - 2] - flown.wheelMslM[i + 2]) / (flown.timeS[i + 2] - flown.timeS[i - 2]);
  const before = sink(first - 3);
  let least = first;
  for (let i = first; i < last - 2; i++) if (sink(i) < sink(least)) least = i;
  const enough = sink(least) + (before - sink(least)) / 5;
  let end = first;
  while (end < least && sink(end) > enough) end++;
  const eastM = flown.eastM[last] - flown.eastM[end];
  const northM = flown.northM[last] - flown.northM[end];
  return { durationS: touchdown.timeS - flown.timeS[end], distanceM: Math.hypot(eastM, northM) };
}

function against(found: Measured, truth: number): FloatAgainst {
  if (isUndetermined(found)) throw new Error(found.undetermined);
  const { value, low, high } = found;
  return {
    truth,
    error: value - truth,
    held: low <= truth && truth <= high,
    width: high - low,
  };
}
