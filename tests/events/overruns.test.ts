/** Landings that stop well past the end as drawn; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { Approach } from '../../src/events/flight-event.ts';
import { slowPart } from '../../src/events/slow-part.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import type { Track } from '../../src/track/track.ts';
import { expectNear } from '../expect-near.ts';
import { FOUR_SEATER } from '../synthetic/aeroplane-model.ts';
import { flyApproach } from '../synthetic/approach-model.ts';
import { beginFlight, finishFlight } from '../synthetic/flight.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { drawApproach } from '../synthetic/population.ts';
import { PLAIN_ROLL, rollOut, standStill, type RollPlan } from '../synthetic/roll-model.ts';
import { createMap, createRunway, toAlongCross } from '../synthetic/runway.ts';
import { flyAt, SCENARIO_START_S } from '../synthetic/scenarios.ts';
import { taxi } from '../synthetic/taxi-model.ts';
import { CALM } from '../synthetic/wind-model.ts';
import { makeRun } from './made-motion.ts';
import { eventsOf, onlyOne, valueOf } from './simulated.ts';

/** Lands, rolls as planned and then so far on at the plan's end speed, on a strip that is drawn to end before the stop. */
function overrun(
  seed: number,
  { pastM, onM, roll, hole }: Overrun,
): { approach: Approach; stopM: number; lengthM: number } {
  const map = createMap();
  const long = inventStrip(map, { id: 'drawn', bearingDeg: 70, lengthM: 1200 });
  const runway = createRunway(long, '07', map);
  const startTimeS = SCENARIO_START_S + seed / 7;
  const flight = beginFlight({ aeroplane: FOUR_SEATER, wind: CALM, seed, startTimeS });
  const drawn = drawApproach(createRandom(seed), FOUR_SEATER);
  const plan = { ...drawn, aimAlongM: drawn.aimAlongM + 300 };
  flyAt(flight, runway, plan);
  const truth = flyApproach(flight, runway, plan);
  rollOut(flight, runway, truth, { ...PLAIN_ROLL, ...roll });
  if (onM > 0) {
    const place = { alongM: (truth.rollEnd?.alongM ?? NaN) + onM, crossM: 0, speedMps: 9 };
    taxi(flight, runway, [place], runway.bearingRad);
  }
  const stopM = toAlongCross(runway, flight.eastM, flight.northM).alongM;
  standStill(flight, runway, 12);
  const lengthM = Math.floor(stopM - pastM);
  const strip = inventStrip(map, { id: 'drawn', bearingDeg: 70, lengthM });
  const touchedS = truth.touchdown?.timeS ?? NaN;
  const edit = (track: Track): Track =>
    without(track, touchedS + hole[0], touchedS + hole[0] + hole[1]);
  const scenario = { strip, designator: '07', flown: finishFlight(flight) };
  return { approach: onlyOne(eventsOf(scenario, { seed, edit }).approaches), stopM, lengthM };
}

interface Overrun {
  /** The drawn end lies so far before the stop, metres. */
  readonly pastM: number;
  readonly onM: number;
  readonly roll: Partial<RollPlan>;
  /** Seconds after touchdown at which the log has a hole, and its length. */
  readonly hole: readonly [number, number];
}

/** The track without the fixes between two times. */
function without(track: Track, fromS: number, toS: number): Track {
  const isKept = (_: number, i: number): boolean => track.timeS[i] < fromS || track.timeS[i] > toS;
  const columns = Object.entries(track).map(([name, column]) => [
    name,
    column instanceof Float64Array || column instanceof Int32Array || column instanceof Uint8Array
      ? column.filter(isKept)
      : (column as unknown),
  ]);
  const length = track.timeS.filter(isKept).length;
  return { ...(Object.fromEntries(columns) as Track), length };
}

describe('[AP2] a full stop past the end as drawn', () => {
  // Until 2026-11-26 each was a low pass whose wheels "did not touch", or undetermined.
  test.each<[string, Overrun]>([
    ['rolled on to', { pastM: 190, onM: 250, roll: { end: 'taxi', endMps: 9 }, hole: [0, 0] }],
    ['stopped at in a hole of the log', { pastM: 170, onM: 0, roll: {}, hole: [3, 12] }],
    ['far off, in a hole of the log', { pastM: 230, onM: 0, roll: {}, hole: [3, 12] }],
  ])('[AP2] %s is one, with its roll end and the strip left below zero', (_, wish) => {
    for (const seed of [3, 4, 5]) {
      const { approach, stopM, lengthM } = overrun(seed, wish);
      expect(approach.outcome, `seed ${seed}`).toBe('full-stop');
      expect(approach.strip).toBe('drawn');
      const { rollEnd } = approach;
      if (isUndetermined(rollEnd)) throw new Error(rollEnd.undetermined);
      // Three of a receiver's drift.
      expectNear(valueOf(rollEnd.alongM), stopM, 6, `seed ${seed}`);
      expectNear(valueOf(approach.stripLeftM), lengthM - stopM, 6, `seed ${seed}`);
    }
  });
});

describe('[SC1] slow past the far end', () => {
  // 25 m/s over the strip of 800 m, slowing at 1.5 m/s2 from 900 m on: below a quarter at 1095 m.
  const { motion, view } = makeRun({
    ...{ fromAlongM: -100, lengthS: 65 },
    speedMps: (t) => Math.max(0, 25 - 1.5 * Math.max(0, t - 40)),
  });
  const to = Array.from(motion.speedMps).findIndex((mps) => mps < 5);
  const pass = { kind: 'arrival', from: 0, to, referenceMps: 25, begunLate: false } as const;

  test('[SC1] in line is a roll that overran, across is one at another strip', () => {
    const slow = slowPart(motion, view, pass, motion.length);
    expectNear(motion.speedMps[slow ?? 0], 12.5, 1.5);
    const across = motion.speedMps.map((mps) => mps * Math.cos((35 * Math.PI) / 180));
    expect(slowPart(motion, { ...view, forwardMps: across }, pass, motion.length)).toBeNull();
  });
});
