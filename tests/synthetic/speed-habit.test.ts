/**
 * Do the simulated pilots change speed as pilots do?
 *
 * Source of the bounds: common practice, no source.
 */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { valueAt } from '../../src/events/arrival-data.ts';
import { flyDrawnCircuits } from './circuit-population.ts';
import { drawSpeedHabit, speedToGo } from './speed-habit.ts';
import type { LegName } from './truth.ts';

const FLIGHTS = Array.from({ length: 24 }, (_, k) => flyDrawnCircuits(67_000 + k, 'take-off'));

/** Airspeeds in the middle of a leg and at the end of the circuit, and over the turn on to a leg. */
const CIRCUITS = FLIGHTS.flatMap(({ flown }) => {
  const at = (timeS: number): number => valueAt(flown.timeS, flown.airspeedMps, timeS);
  return flown.truth.circuits.map(({ legs }) => {
    const of = (name: LegName) => {
      const leg = legs.find((each) => each.leg === name);
      if (!leg) throw new Error(name);
      return leg;
    };
    const downwind = of('downwind');
    return {
      slower: 1 - at(of('final').endTimeS - 3) / at((downwind.startTimeS + downwind.endTimeS) / 2),
      inTurns: ['base' as const, 'final' as const].reduce(
        (sum, name) => sum + at(of(name).startTimeS) - at(of(name).startTimeS + 10),
        0,
      ),
      climbing: at(of('crosswind').endTimeS) - at(of('climb-out').startTimeS + 5),
    };
  });
});

describe('[SIM35] simulated pilots', () => {
  test('[SIM35] slow down by a tenth to two fifths from downwind to short final', () => {
    const slower = CIRCUITS.map((each) => each.slower).toSorted((a, b) => a - b);
    expect(slower[Math.floor(slower.length / 10)]).toBeGreaterThan(0.08);
    expect(slower[Math.floor(slower.length / 2)]).toBeGreaterThan(0.2);
    expect(slower[slower.length - 1]).toBeGreaterThan(0.3);
    expect(slower[slower.length - 1]).toBeLessThan(0.45);
  });

  test('[SIM35] much of it within the turns, some hardly any, and climb faster later on', () => {
    const inTurns = CIRCUITS.map((each) => each.inTurns).toSorted((a, b) => a - b);
    expect(inTurns[Math.floor(inTurns.length / 10)]).toBeLessThan(1.5);
    expect(inTurns[Math.floor(0.9 * inTurns.length)]).toBeGreaterThan(5);
    const climbing = CIRCUITS.map((each) => each.climbing);
    expect(climbing.filter((gain) => gain > 2).length).toBeGreaterThan(climbing.length / 3);
  });

  test('[SIM35] never speed up on the way down, and are at approach speed in the end', () => {
    const descent = {
      ...{ abeamToGoM: 2000, baseTurnToGoM: 1500, finalTurnToGoM: 900 },
      ...{ downwindMps: 42, finalMps: 28 },
    };
    for (let seed = 0; seed < 200; seed++) {
      const habit = drawSpeedHabit(createRandom(seed));
      let last = 42;
      for (let toGoM = 4000; toGoM >= 0; toGoM -= 50) {
        const speed = speedToGo(habit, descent, toGoM);
        expect(speed).toBeLessThanOrEqual(last);
        last = speed;
      }
      expect(last).toBeCloseTo(28, 9);
    }
  });
});
