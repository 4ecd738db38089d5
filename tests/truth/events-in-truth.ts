/** What is found in an independent flight once it is logged. */
import { detectEvents, type FlightEvents } from '../../src/events/detect-events.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { decodeStrips } from '../../src/strips/decode-strips.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion } from '../../src/track/motion.ts';
import type { Track } from '../../src/track/track.ts';
import { independentTrack, type LoggedAs } from './log-truth.ts';
import type { TruthFlight } from './read-truth.ts';

/** 2025-06-14 09:12:30 UTC: when column `t` is zero, less the part of a second that the seed draws. */
export const START_S = Date.UTC(2025, 5, 14, 9, 12, 30) / 1000;

/** The strip of a flight, from its threshold (end A) to its far end. */
export function stripOf({ strip }: TruthFlight) {
  const text = JSON.stringify({
    type: 'FeatureCollection',
    features: [
      {
        type: 'Feature',
        geometry: {
          type: 'LineString',
          coordinates: [
            [strip.thresholdLonDeg, strip.thresholdLatDeg],
            [strip.farLonDeg, strip.farLatDeg],
          ],
        },
        properties: {
          kind: 'strip',
          id: 'spot',
          name: 'Spot',
          widthM: 30,
          surface: 'grass',
          elevationM: [strip.elevationThresholdM, strip.elevationFarM],
        },
      },
    ],
  });
  const decoded = decodeStrips(text);
  if (!decoded.ok) throw new Error(decoded.problems[0].message);
  return decoded.value;
}

/**
 * Events found in a flight as logged by a receiver that the seed draws.
 *
 * @param spoil what else happened to the log; absent: nothing. @param intervalS between its fixes.
 */
export function eventsIn(
  flight: TruthFlight,
  seed: number,
  as: LoggedAs,
  spoil: (track: Track) => Track = (track) => track,
  intervalS = 1,
): FlightEvents {
  const track = spoil(independentTrack(flight, START_S, createRandom(seed), as, intervalS));
  const cleaned = applyCleaning(track, cleanTrack(track));
  return detectEvents(computeMotion(cleaned), stripOf(flight));
}
