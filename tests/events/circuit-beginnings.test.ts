/** Where circuits begin, and which strip the aircraft left before them; rule CI1 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { Circuits } from '../../src/events/circuit.ts';
import { detectEvents, type FlightEvents } from '../../src/events/detect-events.ts';
import type { Approach, TakeOff } from '../../src/events/flight-event.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK, type Strip } from '../../src/strips/strip.ts';
import { computeMotion, type Motion } from '../../src/track/motion.ts';
import { MICROLIGHT } from '../synthetic/aeroplane-model.ts';
import { flyApproach } from '../synthetic/approach-model.ts';
import { flyCircuit } from '../synthetic/circuit-plan.ts';
import { flyDrawnCircuits, logDrawnCircuits } from '../synthetic/circuit-population.ts';
import { beginFlight, finishFlight } from '../synthetic/flight.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { toTrack } from '../synthetic/logged-track.ts';
import { drawApproach } from '../synthetic/population.ts';
import { PLAIN_ROLL, rollOut, standStill } from '../synthetic/roll-model.ts';
import { createMap, createRunway } from '../synthetic/runway.ts';
import { SCENARIO_START_S } from '../synthetic/scenarios.ts';
import { plainTakeOff, standAt, takeOff } from '../synthetic/take-off-model.ts';
import { CALM } from '../synthetic/wind-model.ts';
import { circuitsAmong, onlyOne, record } from './simulated.ts';

const map = createMap();
const main = inventStrip(map, { id: 'main', bearingDeg: 90, lengthM: 600 });
const crossing = inventStrip(map, {
  ...{ id: 'crossing', eastM: 560, northM: 150, bearingDeg: 180, lengthM: 500 },
});

/** Leaves a strip that runs the way the crosswind leg of another one does, flies on to downwind there, and lands. */
function crossOver(
  seed: number,
  strips: readonly Strip[],
): { liftOffS: number; motion: Motion; events: FlightEvents } {
  const [left, runway] = [createRunway(crossing, '18', map), createRunway(main, '09', map)];
  const startTimeS = SCENARIO_START_S + seed / 7;
  const flight = beginFlight({ aeroplane: MICROLIGHT, wind: CALM, seed, startTimeS });
  standAt(flight, left, 10, 0);
  standStill(flight, left, 30);
  const takenOff = takeOff(flight, left, plainTakeOff(flight));
  const plan = { ...drawApproach(createRandom(seed), MICROLIGHT), aimAlongM: 40 };
  const shape = {
    ...{ side: 1 as const, heightM: 180, spacingM: 900, baseAlongM: -700, crosswindAtM: 100 },
    ...{ bankRad: 0.4, downwindMps: 28, baseMps: 24, pathDeg: plan.pathDeg, aimAlongM: 40 },
  };
  flyCircuit(flight, runway, shape, 'crosswind');
  const approach = flyApproach(flight, runway, plan);
  rollOut(flight, runway, approach, PLAIN_ROLL);
  standStill(flight, runway, 20);
  const flown = finishFlight(flight);
  const motion = computeMotion(record({ strip: main, designator: '09', flown }, { seed }));
  const events = detectEvents(motion, { ...EMPTY_STRIP_BOOK, strips });
  return { liftOffS: takenOff.liftOff?.timeS ?? NaN, motion, events };
}

/** A take-off from the strip of the approach as the log began, before the one that it shows. */
function usedBefore(events: FlightEvents): FlightEvents {
  const [first] = events.takeOffs;
  if (isUndetermined(first.liftOff)) throw new Error(first.liftOff.undetermined);
  const timeS = { value: SCENARIO_START_S + 3, low: SCENARIO_START_S, high: SCENARIO_START_S + 5 };
  const { strip } = onlyOne(events.approaches);
  const earlier: TakeOff = { ...first, strip, from: 0, liftOff: { ...first.liftOff, timeS } };
  return { ...events, takeOffs: [earlier, ...events.takeOffs] };
}

function expectJoined(circuits: Circuits, liftOffS: number, seed: number): void {
  const circuit = onlyOne(circuits.circuits);
  // A lift-off is known to two seconds.
  expect(circuit.startTimeS - liftOffS, `seed ${seed}`).toBeGreaterThan(-2);
  const join = onlyOne(circuits.joins);
  expect(join.timeS - liftOffS, `seed ${seed}`).toBeGreaterThan(-2);
  expect(['crosswind', 'downwind']).toContain(join.kind);
}

describe('[CI1] a take-off from a crossing strip', () => {
  // Places that nobody has kept were one to this rule, and the circuit began at the other's lift-off.
  test.each<[string, readonly Strip[]]>([
    ['two strips', [main, crossing]],
    ['a place that nobody has kept and a strip', [main]],
    ['a strip and a place that nobody has kept', [crossing]],
    ['two places that nobody has kept', []],
  ])(
    '[CI1] begins no circuit and no join before the wheels left the ground there: %s',
    (_, strips) => {
      for (const seed of [3, 4, 5]) {
        const { liftOffS, motion, events } = crossOver(seed, strips);
        const { strip } = onlyOne(events.approaches);
        expect(strip).toBe(strips.includes(main) ? 'main' : null);
        expectJoined(circuitsAmong(motion, events), liftOffS, seed);
      }
    },
  );

  test('[CI1] is what was left last, also where the other strip was left before', () => {
    const { liftOffS, motion, events } = crossOver(3, [main, crossing]);
    expectJoined(circuitsAmong(motion, usedBefore(events)), liftOffS, 3);
  });

  test('[CI1] a pass over another place that nobody has kept begins no circuit', () => {
    const { liftOffS, motion, events } = crossOver(3, []);
    const landing = onlyOne(events.approaches);
    const from = motion.timeS.findIndex((timeS) => timeS > liftOffS - 3);
    const pass: Approach = { ...landing, from, to: from + 6, outcome: 'overflight' };
    const passed = { ...events, takeOffs: [], approaches: [pass, landing] };
    expect(onlyOne(circuitsAmong(motion, passed).joins).strip).toBeNull();
  });
});

describe('[CI1] a take-off or pass at the place of the circuit', () => {
  test.each([61_014, 61_015, 61_016])(
    '[CI1] begins it also where nobody has kept the place (seed %d)',
    (seed) => {
      const flight = flyDrawnCircuits(seed, 'take-off');
      const motion = computeMotion(toTrack(logDrawnCircuits(flight, seed, 1)));
      const [kept, unkept] = [[flight.strip], []].map((strips) =>
        circuitsAmong(motion, detectEvents(motion, { ...EMPTY_STRIP_BOOK, strips })),
      );
      expect(unkept.joins).toEqual([]);
      expect(unkept.circuits).toHaveLength(flight.flown.truth.circuits.length);
      unkept.circuits.forEach(({ legs, startTimeS }, k) => {
        expect(legs[0].leg).toBe('climb-out');
        // A lift-off is known to two seconds.
        expect(Math.abs(startTimeS - kept.circuits[k].startTimeS)).toBeLessThan(2);
      });
    },
  );
});
