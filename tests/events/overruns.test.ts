/** Landings that stop well past the end as drawn; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { Approach } from '../../src/events/flight-event.ts';
import { endsInRoll, slowPart } from '../../src/events/slow-part.ts';
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
import { cutAt, eventsOf, onlyOne, valueOf } from './simulated.ts';

/** Lands, rolls as planned and then so far on at the plan's end speed, on a strip that is drawn to end before the stop. */
function overrun(
  seed: number,
  { pastM, onM, roll, hole, endsRolling }: Overrun,
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
    endsRolling
      ? cutAt(track, truth.rollEnd?.timeS ?? NaN)
      : without(track, touchedS + hole[0], touchedS + hole[0] + hole[1]);
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
  /** The log ends where the planned roll does. */
  readonly endsRolling?: boolean;
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

test('[AP2] a log that ends while rolling on past the end as drawn is a full stop', () => {
  for (const seed of [3, 4, 5]) {
    // Too fast to be a taxi; nothing but the grass slows it down.
    const roll = { brakeDelayS: 99, end: 'taxi', endMps: 10 } as const;
    const wish = { pastM: 230, onM: 0, roll, hole: [0, 0] as const, endsRolling: true };
    const { approach } = overrun(seed, wish);
    expect(approach.outcome, `seed ${seed}`).toBe('full-stop');
    expect(approach.strip).toBe('drawn');
    expect(approach.rollEnd).toEqual({ undetermined: 'the log ends before the roll does' });
  }
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

describe('[AP2] slow past the end', () => {
  // 25 m/s, slowing at 1.5 m/s2 until it stands.
  const stopFrom = (fromAlongM: number, slowsS: number) => {
    const { motion, view } = makeRun({
      fromAlongM,
      lengthS: slowsS + 25,
      speedMps: (t) => Math.max(0, 25 - 1.5 * Math.max(0, t - slowsS)),
    });
    const to = Array.from(motion.speedMps).findIndex((mps) => mps < 5);
    const pass = { kind: 'arrival', from: 0, to, referenceMps: 25, begunLate: false } as const;
    return { motion, view, pass };
  };

  test.each<[string, number, number, number, number | null]>([
    ['past it, in line', -100, 40, 0, 1],
    ['before the strip', -1200, 30, 0, null],
    ['more than 1500 m past it', 1500, 40, 0, null],
    ['further than 150 m beside', -100, 40, 200, null],
  ])('[AP2] %s', (_, fromAlongM, slowsS, besideM, found) => {
    const { motion, view, pass } = stopFrom(fromAlongM, slowsS);
    const smoothCrossM = view.smoothCrossM.map(() => besideM);
    const slow = slowPart(motion, { ...view, smoothCrossM }, pass, motion.length);
    expect(slow === null ? null : 1).toBe(found);
  });

  test('[AP2] going back to the strip is no overrun', () => {
    const { motion, view, pass } = stopFrom(-100, 40);
    const forwardMps = motion.speedMps.map((mps) => -mps);
    expect(slowPart(motion, { ...view, forwardMps }, pass, motion.length)).toBeNull();
  });

  test('[AP2] standing where a hole of the log ends is one', () => {
    const { motion, view } = makeRun({ fromAlongM: -100, lengthS: 70, speedMps: () => 18 });
    const first = Array.from(view.smoothAlongM).findIndex((m) => m > 800 + 200);
    const speedMps = motion.speedMps.map((mps, i) => (i < first ? mps : 0.2));
    const forwardMps = view.forwardMps.map((mps, i) => (i < first ? mps : -0.1));
    const pass = {
      kind: 'arrival',
      from: 0,
      to: first,
      referenceMps: 18,
      begunLate: false,
    } as const;
    const slow = slowPart({ ...motion, speedMps }, { ...view, forwardMps }, pass, motion.length);
    expect(slow).toBe(first);
  });

  test('[AP2] a roll that was slow at the strip may become a taxi off it', () => {
    const { motion, view, pass } = stopFrom(-100, 28);
    const slowAt = Array.from(motion.speedMps).findIndex((mps) => mps < 12.5);
    const smoothCrossM = view.smoothCrossM.map((m, i) => (i > slowAt + 1 ? 200 : m));
    expect(slowPart(motion, { ...view, smoothCrossM }, pass, motion.length)).toBe(slowAt);
  });

  test('[AP2] a log that ends in an overrun ends on the ground', () => {
    const { motion, view } = makeRun({
      ...{ fromAlongM: -100, lengthS: 51 },
      speedMps: (t) => 25 - 1.5 * Math.max(0, t - 40),
    });
    expect(view.smoothAlongM[motion.length - 1]).toBeGreaterThan(1000);
    const pass = {
      kind: 'arrival',
      from: 0,
      to: motion.length,
      referenceMps: 25,
      begunLate: false,
    } as const;
    expect(slowPart(motion, view, pass, motion.length)).not.toBeNull();
    expect(endsInRoll(motion, view, pass, motion.length - 1)).toBe(true);
  });
});
