/**
 * The size, the speeds and the steepest bank of simulated circuits against their truth, in logs with
 * a fix every second, every four, and every one to six. The flights are drawn by seeds that chose nothing.
 */
import { describe, expect, test } from 'vitest';
import type { Circuits } from '../../src/events/circuit.ts';
import { detectEvents } from '../../src/events/detect-events.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { computeMotion } from '../../src/track/motion.ts';
import type { Track } from '../../src/track/track.ts';
import {
  flyDrawnCircuits,
  keptToStrip,
  logDrawnCircuits,
  type CircuitFlight,
} from '../synthetic/circuit-population.ts';
import { scoreCircuits, type Against } from '../synthetic/circuit-score.ts';
import { circuitFound, scoreSizes, SIZES } from '../synthetic/circuit-sizes.ts';
import { toTrack } from '../synthetic/logged-track.ts';
import { unevenLog } from '../synthetic/uneven-log.ts';
import { circuitsAmong } from './simulated.ts';

const LOGS: readonly { name: string; intervalS: number; uneven: boolean }[] = [
  { name: 'every second', intervalS: 1, uneven: false },
  { name: 'every four seconds', intervalS: 4, uneven: false },
  { name: 'every one to six seconds', intervalS: 1, uneven: true },
];

/** How far off the middle one may be, and how wide its band: metres, m/s; with a fix a second and otherwise. */
const MOST: Record<string, { error: readonly [number, number]; width: readonly [number, number] }> =
  {
    'base turn': { error: [8, 16], width: [45, 90] },
    final: { error: [6, 8], width: [25, 50] },
    spacing: { error: [3, 3], width: [12, 12] },
    'leg speed': { error: [0.15, 0.25], width: [1, 1.4] },
  };

const FLIGHTS = Array.from({ length: 60 }, (_, k) => 64_000 + k)
  .map((seed) => ({ seed, flight: flyDrawnCircuits(seed) }))
  .filter(({ flight }) => keptToStrip(flight));

function circuitsOf(flight: CircuitFlight, track: Track): Circuits {
  const motion = computeMotion(track);
  const events = detectEvents(motion, { ...EMPTY_STRIP_BOOK, strips: [flight.strip] });
  return circuitsAmong(motion, events);
}

describe.each(LOGS)('circuits in a log with a fix $name', ({ intervalS, uneven }) => {
  const found = FLIGHTS.map(({ seed, flight }) => {
    const track = toTrack(logDrawnCircuits(flight, seed, intervalS));
    return { flight, circuits: circuitsOf(flight, uneven ? unevenLog(track, seed) : track) };
  });
  const sizes = found.flatMap(({ flight, circuits }) =>
    flight.flown.truth.circuits.flatMap((truth, k) => {
      const seen = circuitFound(circuits.circuits, truth);
      return seen ? scoreSizes(flight, k, seen) : [];
    }),
  );

  test.each(SIZES)(
    '[CI10] have their %s in its band, which is no wider than it must be',
    (name) => {
      const list = sizes.filter(({ figure }) => figure === name);
      const at = intervalS === 1 && !uneven ? 0 : 1;
      expect(list.length).toBeGreaterThan(15);
      expect(shareHeld(list)).toBeGreaterThan(0.8);
      expect(middle(list.map(({ error }) => Math.abs(error)))).toBeLessThan(MOST[name].error[at]);
      expect(middle(list.map(({ width }) => width))).toBeLessThan(MOST[name].width[at]);
    },
  );

  test('[CI4] have their steepest bank to final in its band', () => {
    const banks = found.flatMap(({ flight, circuits }) =>
      scoreCircuits(flight, circuits, NO_WIND, intervalS).circuits.flatMap(({ bank }) =>
        bank ? [bank] : [],
      ),
    );
    expect(banks.length).toBeGreaterThan(15);
    expect(shareHeld(banks)).toBeGreaterThan(0.8);
    expect(middle(banks.map(({ width }) => width))).toBeLessThan(13);
  });
});

const NO_WIND = { undetermined: 'not looked for here' };

function shareHeld(list: readonly Against[]): number {
  return list.filter(({ held }) => held).length / list.length;
}

function middle(list: readonly number[]): number {
  return list.toSorted((a, b) => a - b)[list.length >> 1];
}
