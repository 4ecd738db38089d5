/** Independent flights (see README.md) with a hole in the log where the wheels touched, or did not. */
import { expect, test } from 'vitest';
import { isUndetermined } from '../../src/result.ts';
import { pickFixes } from '../../src/track/decode-columns.ts';
import type { Track } from '../../src/track/track.ts';
import { eventsIn, START_S } from './events-in-truth.ts';
import { numberOf, readTruthFlights } from './read-truth.ts';

/** A track without the fixes of so many seconds from a moment on. */
function withHole(track: Track, fromS: number, lengthS: number): Track {
  const kept = Array.from(track.timeS.keys()).filter(
    (i) => track.timeS[i] < fromS || track.timeS[i] > fromS + lengthS,
  );
  return pickFixes(track, Int32Array.from(kept));
}

test.each([10, 15])('[GAP] a touch-and-go in a hole of %i s is never called a pass', (lengthS) => {
  const flights = readTruthFlights().filter(({ events }) =>
    events.some(({ kind }) => kind === 'touch_and_go'),
  );
  expect(flights.length).toBeGreaterThan(0);
  for (const flight of flights) {
    const touch = flight.events.find(({ kind }) => kind === 'touch_and_go');
    if (!touch) throw new Error('a touch-and-go');
    const atS = START_S + numberOf(touch, 'td_t');
    for (const seed of [1, 2, 3, 4]) {
      const { approaches } = eventsIn(flight, seed, 'gpx', (track) =>
        withHole(track, atS, lengthS),
      );
      const [{ outcome }] = approaches;
      if (!isUndetermined(outcome)) expect(outcome, flight.name).toBe('touch-and-go');
    }
  }
});
