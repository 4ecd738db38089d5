/** Take-offs, given up or flown, and flights that use both directions; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { TakeOff } from '../../src/events/flight-event.ts';
import { measureTakeOff } from '../../src/events/take-off.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import type { Strip } from '../../src/strips/strip.ts';
import { expectNear } from '../expect-near.ts';
import { FOUR_SEATER, MICROLIGHT } from '../synthetic/aeroplane-model.ts';
import { boardAeroplane } from '../synthetic/demo/demo-pilot.ts';
import { demoStrips } from '../synthetic/demo/doggerland-strips.ts';
import { beginFlight, finishFlight } from '../synthetic/flight.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { drawStrip } from '../synthetic/population.ts';
import { standStill } from '../synthetic/roll-model.ts';
import { createMap, createRunway } from '../synthetic/runway.ts';
import {
  climbAway,
  flyDrawnTakeOff,
  SCENARIO_START_S,
  type Scenario,
} from '../synthetic/scenarios.ts';
import { plainTakeOff, standAt, takeOff } from '../synthetic/take-off-model.ts';
import { backtrack } from '../synthetic/taxi-model.ts';
import { CALM } from '../synthetic/wind-model.ts';
import { makeRun } from './made-motion.ts';
import { bandOf, eventsOf, holds, onlyOne, record, valueOf } from './simulated.ts';

const SEEDS = Array.from({ length: 12 }, (_, k) => 800 + k);

/** A take-off from standing with the truth beside it. */
function leave(seed: number, recording: Parameters<typeof eventsOf>[1] = {}, strip?: Strip) {
  const scenario = flyDrawnTakeOff(seed, strip ? { strip } : {});
  const found = onlyOne(eventsOf(scenario, { seed, ...recording }).takeOffs);
  const [truth] = scenario.flown.truth.takeOffs;
  if (!truth.liftOff || !truth.brakeRelease || !truth.screen) throw new Error('no take-off');
  return {
    scenario,
    found,
    liftOff: truth.liftOff,
    release: truth.brakeRelease,
    screen: truth.screen,
  };
}

function liftOffOf({ liftOff }: TakeOff) {
  if (isUndetermined(liftOff)) throw new Error(liftOff.undetermined);
  return liftOff;
}

/** A run given up at a speed, then a take-off, all in one flight. */
function rejectThenLeave(seed: number, rejectAtMps: (liftOffMps: number) => number): Scenario {
  const random = createRandom(seed);
  const map = createMap();
  const aeroplane = seed % 2 === 0 ? FOUR_SEATER : MICROLIGHT;
  const strip = drawStrip(map, random, 1.3 * aeroplane.stallMps);
  const designator = strip.directions[0].designator;
  const runway = createRunway(strip, designator, map);
  const flight = beginFlight({ aeroplane, wind: CALM, seed, startTimeS: SCENARIO_START_S });
  standAt(flight, runway, 10, 0);
  standStill(flight, runway, 20);
  takeOff(flight, runway, {
    ...plainTakeOff(flight),
    rejectAtMps: rejectAtMps(aeroplane.liftOffMps),
  });
  backtrack(flight, runway, 12);
  takeOff(flight, runway, plainTakeOff(flight));
  climbAway(flight, runway, 40);
  return { strip, designator, flown: finishFlight(flight) };
}

describe('[TO1] brake release and lift-off', () => {
  test('[TO1] lie in their bands four times in five', () => {
    const held = { releaseTime: 0, liftAlong: 0, liftSpeed: 0 };
    for (const seed of SEEDS) {
      const { found, liftOff, release } = leave(seed);
      if (isUndetermined(found.brakeRelease)) throw new Error(found.brakeRelease.undetermined);
      if (holds(found.brakeRelease.timeS, release.timeS)) held.releaseTime++;
      const lift = liftOffOf(found);
      if (holds(lift.alongM, liftOff.alongM)) held.liftAlong++;
      if (holds(lift.groundSpeedMps, liftOff.groundSpeedMps)) held.liftSpeed++;
    }
    // Of 12 bands that hold nine times in ten, fewer than 8 hold once in 230 draws (binomial).
    expect(Math.min(...Object.values(held)), JSON.stringify(held)).toBeGreaterThanOrEqual(8);
  });

  test('[TO1] without heights lift-off comes from the speed alone, with a wider band', () => {
    let held = 0;
    for (const seed of SEEDS) {
      const { found, liftOff } = leave(seed, { receiver: { heights: 'none' } });
      const lift = liftOffOf(found);
      const { low, high } = bandOf(lift.alongM);
      expect(high - low, `seed ${seed}`).toBeGreaterThan(25);
      if (holds(lift.alongM, liftOff.alongM)) held++;
      expect(isUndetermined(found.screen)).toBe(true);
    }
    expect(held).toBeGreaterThanOrEqual(8);
  });

  test('[TO7] without heights the lift-off is at 0.8 of the speed of the first climb', () => {
    const { motion, view, startS } = makeRun({
      ...{ fromAlongM: 0, lengthS: 43 },
      speedMps: (t) => Math.min(30, 2 * Math.max(0, t - 20)),
    });
    const none = new Float64Array(motion.length).fill(NaN);
    const bare = { ...motion, hasHeight: false, heightM: none, pressureHeightM: none };
    const range = { from: 20, to: motion.length, rollingSinceS: null };
    const found = measureTakeOff(bare, { ...view, smoothAboveM: none }, range);
    // 24 m/s, at 12 s of the run; the search ends where the climb's speed is reached.
    expectNear(valueOf(liftOffOf(found).timeS) - startS, 32, 0.2);
  });
});

describe('[TO1] a fix every 5 s', () => {
  // Seeds that were missed until 2026-11-25: half the top speed was reached between two fixes.
  test.each([807, 821, 834, 838])(
    '[TO1] a run that is fast by its second fix is a take-off all the same (seed %d)',
    (seed) => {
      const { found, liftOff } = leave(seed, { receiver: { intervalS: 5 } });
      expect(found.kind).toBe('take-off');
      // Two intervals at flying speed; none of these aeroplanes lifts off faster than 25 m/s.
      expectNear(valueOf(liftOffOf(found).timeS), liftOff.timeS, 10);
    },
  );
});

describe('[TO2] what follows from them', () => {
  test('[TO2] 50 ft is passed where the bands say, four times in five', () => {
    let held = 0;
    for (const seed of SEEDS) {
      const { found, screen } = leave(seed);
      if (isUndetermined(found.screen)) throw new Error(found.screen.undetermined);
      if (holds(found.screen.distanceM, screen.distanceM)) held++;
    }
    expect(held).toBeGreaterThanOrEqual(8);
  });

  test('[TO3] strip left is the TORA less displacement and lift-off', () => {
    const { found, scenario } = leave(803);
    const direction = scenario.strip.directions.find(
      ({ designator }) => designator === scenario.designator,
    );
    const lift = bandOf(liftOffOf(found).alongM);
    const left = bandOf(found.stripLeftM);
    expectNear(left.value, (direction?.toraM ?? NaN) - lift.value, 1e-9);
    expectNear(left.low, (direction?.toraM ?? NaN) - lift.high, 1e-9);
  });

  test('[TO4] the halfway check gives the speed at half the TORA, and on the ground its share', () => {
    let held = 0;
    for (const seed of SEEDS) {
      // As long as this aeroplane's run elsewhere, and some: half of it is passed while still rolling.
      const elsewhere = leave(seed);
      const lengthM = 1.2 * (elsewhere.liftOff.alongM - elsewhere.release.alongM);
      const short = inventStrip(createMap(), { id: 'short', bearingDeg: 80, lengthM });
      const { found, scenario, liftOff } = leave(seed, {}, short);
      if (isUndetermined(found.halfway)) throw new Error(found.halfway.undetermined);
      const trueMps = speedAtHalf(scenario);
      expectNear(valueOf(found.halfway.groundSpeedMps), trueMps, 1, `seed ${seed}`);
      if (holds(found.halfway.shareOfLiftOff, trueMps / liftOff.groundSpeedMps)) held++;
    }
    expect(held / SEEDS.length).toBeGreaterThan(0.6);
  });

  test('[TO4] off the ground before half the TORA there is a speed but no share', () => {
    let told = 0;
    for (const seed of SEEDS) {
      const { found, scenario, liftOff } = leave(seed);
      if (isUndetermined(found.halfway)) continue;
      told++;
      const trueMps = speedAtHalf(scenario);
      expectNear(valueOf(found.halfway.groundSpeedMps), trueMps, 1, `seed ${seed}`);
      expect(trueMps, 'the drawn strips are long').toBeGreaterThan(liftOff.groundSpeedMps);
      expect(isUndetermined(found.halfway.shareOfLiftOff), `seed ${seed}`).toBe(true);
    }
    expect(told).toBeGreaterThanOrEqual(6);
  });
});

describe('[TO5] a run given up', () => {
  test('[TO5] at 70 % of lift-off speed is a rejected take-off before the one that follows', () => {
    for (const seed of SEEDS.slice(0, 6)) {
      const scenario = rejectThenLeave(seed, (liftOffMps) => 0.7 * liftOffMps);
      const { takeOffs, approaches } = eventsOf(scenario, { seed });
      expect(
        takeOffs.map(({ kind }) => kind),
        `seed ${seed}`,
      ).toEqual(['rejected', 'take-off']);
      expect(approaches, `seed ${seed}`).toHaveLength(0);
      expect(isUndetermined(takeOffs[0].liftOff)).toBe(true);
      const [truth] = scenario.flown.truth.takeOffs;
      const { brakeRelease } = takeOffs[0];
      if (isUndetermined(brakeRelease)) throw new Error(brakeRelease.undetermined);
      expectNear(valueOf(brakeRelease.timeS), truth.brakeRelease?.timeS ?? NaN, 3);
    }
  });

  test('[TO5] at a quarter of lift-off speed is a taxi and no event', () => {
    for (const seed of SEEDS.slice(0, 3)) {
      const scenario = rejectThenLeave(seed, (liftOffMps) => 0.25 * liftOffMps);
      const kinds = eventsOf(scenario, { seed }).takeOffs.map(({ kind }) => kind);
      expect(kinds, `seed ${seed}`).toEqual(['take-off']);
    }
  });
});

describe('[AP1] both directions of one strip in one flight', () => {
  test('[AP1] each event is named by the direction it used', () => {
    const pilot = boardAeroplane({
      startTimeS: SCENARIO_START_S,
      aeroplane: 'eelgrass-450',
      massKg: 430,
      windFromDeg: 160,
      windKt: 4,
      gusty: false,
      wet: false,
      effort: 'normal',
      seed: 12,
    });
    pilot.lineUp('ternholm', '25');
    pilot.takeOff();
    pilot.circuit();
    pilot.land();
    pilot.turnRound('ternholm', '07', 20);
    pilot.takeOff();
    pilot.circuit();
    pilot.touchAndGo();
    pilot.circuit();
    pilot.land();
    const strips: Strip[] = Object.values(demoStrips(createMap()));
    const scenario = { strip: strips[0], designator: '25', flown: pilot.finish() };
    const { approaches, takeOffs } = eventsOf(scenario, { strips });
    expect(approaches.map(({ direction, outcome }) => [direction, outcome])).toEqual([
      ['25', 'full-stop'],
      ['07', 'touch-and-go'],
      ['07', 'full-stop'],
    ]);
    expect(takeOffs.map(({ direction, kind }) => [direction, kind])).toEqual([
      ['25', 'take-off'],
      ['07', 'take-off'],
      ['07', 'take-off'],
    ]);
    expect(approaches.every(({ strip }) => strip === 'ternholm')).toBe(true);
  });
});

/** True ground speed at half the TORA, from the rows of the simulator. */
function speedAtHalf({ strip, designator, flown }: Scenario): number {
  const runway = createRunway(strip, designator, flown.map);
  const half = runway.nearEndAlongM + (runway.farEndAlongM - runway.nearEndAlongM) / 2;
  const along = (i: number): number =>
    (flown.eastM[i] - runway.thresholdEastM) * runway.unitEast +
    (flown.northM[i] - runway.thresholdNorthM) * runway.unitNorth;
  for (let i = 1; i < flown.length; i++) {
    if (along(i) >= half) return Math.hypot(flown.eastMps[i], flown.northMps[i]);
  }
  return NaN;
}

describe('[TO1] the lift-off between its candidates', () => {
  test('[TO1] its place is where the aircraft was at its time, not at the nearest of a grid', () => {
    const apart: number[] = [];
    for (let seed = 700; seed < 720; seed++) {
      const scenario = flyDrawnTakeOff(seed);
      const recording = { seed };
      const { timeS } = record(scenario, recording);
      const { takeOffs, views } = eventsOf(scenario, recording);
      const found = onlyOne(takeOffs);
      const view = views.find(({ direction }) => direction.designator === found.direction);
      if (isUndetermined(found.liftOff) || !view) throw new Error('no lift-off');
      const atS = valueOf(found.liftOff.timeS);
      const after = timeS.findIndex((t) => t > atS);
      const share = (atS - timeS[after - 1]) / (timeS[after] - timeS[after - 1]);
      const [from, to] = [view.smoothAlongM[after - 1], view.smoothAlongM[after]];
      apart.push(Math.abs(valueOf(found.liftOff.alongM) - from - share * (to - from)));
    }
    // Candidates are some 10 m apart; a place that jumped from one to the next was off by half a metre.
    expect(Math.max(...apart)).toBeLessThan(0.3);
  });
});
