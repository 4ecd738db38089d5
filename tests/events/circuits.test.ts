/**
 * Circuits, joins, orbits and the wind in simulated flights against their truth.
 *
 * The flights are drawn by seeds that chose nothing (tests/synthetic/circuit-population.ts); how
 * often all is right over hundreds of them: docs/accuracy-circuits.md.
 */
import { describe, expect, test } from 'vitest';
import type { Circuits } from '../../src/events/circuit.ts';
import type { Circuit } from '../../src/events/circuit-figures.ts';
import { detectEvents } from '../../src/events/detect-events.ts';
import { describeWind, fitWind, type WindEstimate } from '../../src/events/wind-from-track.ts';
import { isUndetermined, type Undetermined } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK, type Strip } from '../../src/strips/strip.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion } from '../../src/track/motion.ts';
import type { Track } from '../../src/track/track.ts';
import {
  flyDrawnCircuits,
  logDrawnCircuits,
  type Beginning,
  type CircuitFlight,
} from '../synthetic/circuit-population.ts';
import { scoreCircuits } from '../synthetic/circuit-score.ts';
import { toTrack } from '../synthetic/logged-track.ts';
import { createRunway, toAlongCross } from '../synthetic/runway.ts';
import { bandOf, circuitsAmong, holds, onlyOne, valueOf } from './simulated.ts';

interface Found {
  readonly circuits: Circuits;
  readonly wind: WindEstimate | Undetermined;
}

function found(flight: CircuitFlight, seed: number, intervalS = 1): Found {
  return circuitsOf(toTrack(logDrawnCircuits(flight, seed, intervalS)), [flight.strip]);
}

function circuitsOf(track: Track, strips: readonly Strip[]): Found {
  const cleaned = applyCleaning(track, cleanTrack(track));
  const motion = computeMotion(cleaned);
  const events = detectEvents(motion, { ...EMPTY_STRIP_BOOK, strips });
  const fitted = fitWind(motion);
  return {
    circuits: circuitsAmong(motion, events),
    wind: isUndetermined(fitted) ? fitted : describeWind(fitted),
  };
}

const SEEDS = Array.from({ length: 16 }, (_, k) => 60_000 + k);
const DRAWN = SEEDS.map((seed) => {
  const flight = flyDrawnCircuits(seed);
  return { seed, flight, ...found(flight, seed) };
});

describe('circuits of all shapes', () => {
  test('[CI3] have their side, legs, orbits and turns in time, and none is invented', () => {
    const scores = DRAWN.map(({ flight, circuits, wind }) =>
      scoreCircuits(flight, circuits, wind, 1),
    );
    const circuits = scores.flatMap((score, k) =>
      score.circuits.map((each) => ({ ...each, seed: SEEDS[k] })),
    );
    const wrong = circuits.filter(({ right }) => !right);
    expect(circuits.length).toBeGreaterThan(15);
    // At 98 % one of twenty may be wrong by chance; two would be a fault.
    expect(wrong.length, JSON.stringify(wrong)).toBeLessThanOrEqual(1);
    expect(scores.every(({ invented }) => invented === 0)).toBe(true);
  });

  test('[CI1] each runs from its beginning to the threshold, leg by leg without a gap', () => {
    const offM: number[] = [];
    for (const { flight, circuits } of DRAWN) {
      const { flown, strip } = flight;
      for (const { legs, startTimeS, endTimeS, direction } of circuits.circuits) {
        expect(legs[0].startTimeS).toBe(startTimeS);
        expect(legs[legs.length - 1]).toMatchObject({ leg: 'final', endTimeS });
        for (let k = 1; k < legs.length; k++) {
          expect(legs[k].startTimeS).toBe(legs[k - 1].endTimeS);
        }
        const runway = createRunway(strip, direction ?? '', flown.map);
        const i = flown.timeS.findIndex((t) => t >= endTimeS);
        offM.push(Math.abs(toAlongCross(runway, flown.eastM[i], flown.northM[i]).alongM));
      }
    }
    expect(offM.length).toBeGreaterThan(15);
    // A second of flight, and the receiver's drift.
    expect(Math.max(...offM)).toBeLessThan(45);
  });

  test('[CI4] the steepest bank to final lies in its band nine times in ten', () => {
    const banks = DRAWN.flatMap(({ flight, circuits, wind }) =>
      scoreCircuits(flight, circuits, wind, 1).circuits.flatMap(({ bank }) => (bank ? [bank] : [])),
    );
    expect(banks.filter(({ held }) => held).length / banks.length).toBeGreaterThan(0.8);
    // Wider than the turns differ, the band would say nothing.
    for (const { width } of banks) expect(width).toBeLessThan(10);
  });

  test('[CI5] every leg has its heights over the strip and its ground speed', () => {
    const whole = DRAWN.flatMap(({ circuits }) => circuits.circuits).filter(
      ({ legs: [first] }) => first.leg === 'climb-out',
    );
    expect(whole.length).toBeGreaterThan(3);
    for (const {
      legs: [climb],
    } of whole) {
      expect(valueOf(climb.endAboveM)).toBeGreaterThan(valueOf(climb.startAboveM));
    }
    const [circuit] = whole;
    const final = circuit.legs[circuit.legs.length - 1];
    expect(valueOf(final.endAboveM)).toBeLessThan(40);
    for (const { groundSpeedMps } of circuit.legs) bandOf(groundSpeedMps);
  });
});

describe('joins', () => {
  test.each<Beginning>(['overhead', 'crosswind', 'downwind', 'base', 'straight-in'])(
    '[CI2] by %s are named so, with wind and from any side',
    (kind) => {
      for (const seed of [61_001, 61_002, 61_003]) {
        const { circuits } = found(flyDrawnCircuits(seed, kind), seed, 2);
        expect(circuits.joins[0].kind, `seed ${seed}`).toBe(kind);
      }
    },
  );

  test('[CI7] a flight that begins on the strip joins nothing', () => {
    const { circuits } = found(flyDrawnCircuits(61_010, 'take-off'), 61_010);
    expect(circuits.joins).toEqual([]);
  });
});

describe('orbits', () => {
  test('[CI8] are found on their leg with their side, and the circuit stays whole', () => {
    const flown = firstWith((flight) => flight.orbits[0].length === 1);
    const [orbit] = flown.flight.orbits[0];
    const circuit = circuitAt(flown.circuits.circuits, orbit.startTimeS);
    const seen = onlyOne(circuit.orbits);
    expect(seen.side).toBe(orbit.side);
    expect(Math.abs(seen.startTimeS - orbit.startTimeS)).toBeLessThan(15);
    expect(Math.abs(seen.endTimeS - orbit.endTimeS)).toBeLessThan(15);
    expect(circuit.legs.map(({ leg }) => leg)).toContain('downwind');
  });

  test('[CI9] a circuit turned in two long turns holds no orbit', () => {
    const flown = firstWith(
      ({ shapes, orbits }) =>
        shapes[0].roundedToDownwind && shapes[0].roundedToFinal && orbits[0].length === 0,
    );
    expect(flown.circuits.circuits[0].orbits).toEqual([]);
    expect(flown.circuits.circuits[0].legs).toHaveLength(5);
  });
});

function firstWith(wanted: (flight: CircuitFlight) => boolean): Found & { flight: CircuitFlight } {
  for (let seed = 62_000; seed < 62_200; seed++) {
    const flight = flyDrawnCircuits(seed, 'take-off');
    if (wanted(flight)) return { flight, ...found(flight, seed) };
  }
  throw new Error('no such flight among 200');
}

function circuitAt(circuits: readonly Circuit[], timeS: number): Circuit {
  const circuit = circuits.find((each) => each.startTimeS < timeS && timeS < each.endTimeS);
  if (!circuit) throw new Error('no circuit then');
  return circuit;
}

describe('the wind that the track implies', () => {
  test('[WI2] is within 2 m/s in nine of ten flights with a circuit of four legs', () => {
    const winds = DRAWN.map(({ flight, circuits, wind }) =>
      scoreCircuits(flight, circuits, wind, 1),
    )
      .map((score) => score.wind)
      .filter(({ fourLegs }) => fourLegs);
    const near = winds.filter(({ errorMps }) => errorMps !== null && errorMps < 2);
    expect(near.length / winds.length).toBeGreaterThanOrEqual(0.85);
  });

  test('[WI5] is not too strong where pilots slow down for landing, and its bands hold', () => {
    const speeds = Array.from({ length: 40 }, (_, k) => {
      const seed = 65_000 + k;
      const flight = flyDrawnCircuits(seed, 'take-off');
      const track = toTrack(logDrawnCircuits(flight, seed, 1));
      const fitted = fitWind(computeMotion(applyCleaning(track, cleanTrack(track))));
      if (isUndetermined(fitted)) throw new Error(`seed ${seed}: ${fitted.undetermined}`);
      const { speedMps } = describeWind(fitted);
      const truth = Math.hypot(flight.windEastMps, flight.windNorthMps);
      return { error: valueOf(speedMps) - truth, held: holds(speedMps, truth) };
    });
    const mean = speeds.reduce((sum, { error }) => sum + error, 0) / speeds.length;
    expect(Math.abs(mean)).toBeLessThan(0.35);
    const held = speeds.filter((speed) => speed.held).length;
    expect(held).toBeGreaterThanOrEqual(34);
  });

  test('[WI3] has a band that holds the truth, and no direction where it may be calm', () => {
    let held = 0;
    let all = 0;
    for (const { flight, wind } of DRAWN) {
      if (isUndetermined(wind)) continue;
      all++;
      const truth = Math.hypot(flight.windEastMps, flight.windNorthMps);
      if (holds(wind.speedMps, truth)) held++;
      if (bandOf(wind.speedMps).low > 0 || isUndetermined(wind.fromDeg)) continue;
      const { low, high } = bandOf(wind.fromDeg);
      expect(high - low).toBeLessThan(180);
    }
    expect(held / all).toBeGreaterThan(0.75);
  });

  test('[WI4] is undetermined on a flight that flies straight in', () => {
    const seed = straightSeed();
    const { wind } = found(flyDrawnCircuits(seed, 'straight-in'), seed);
    expect(isUndetermined(wind)).toBe(true);
  });
});

/** A flight that only joins straight in and lands. */
function straightSeed(): number {
  for (let seed = 63_000; seed < 63_050; seed++) {
    if (flyDrawnCircuits(seed, 'straight-in').shapes.length === 1) return seed;
  }
  throw new Error('no such flight among 50');
}
