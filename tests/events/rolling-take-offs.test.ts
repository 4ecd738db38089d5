/** Take-offs that roll on out of a taxi or a turn on to the strip; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { brakeRelease } from '../../src/events/brake-release.ts';
import { isUndetermined, Z90 } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { FOUR_SEATER } from '../synthetic/aeroplane-model.ts';
import { beginFlight, finishFlight, STEP_S } from '../synthetic/flight.ts';
import { stepTaxi } from '../synthetic/ground-motion.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { standStill } from '../synthetic/roll-model.ts';
import { createMap, createRunway } from '../synthetic/runway.ts';
import { climbAway, SCENARIO_START_S, type Scenario } from '../synthetic/scenarios.ts';
import { plainTakeOff, standAt, takeOff } from '../synthetic/take-off-model.ts';
import { CALM } from '../synthetic/wind-model.ts';
import { makeRun } from './made-motion.ts';
import { eventsOf, holds, onlyOne } from './simulated.ts';

/** How far off a release is, metres, and half its band. */
interface Found {
  readonly offM: number;
  readonly halfM: number;
}

/** Releases in 60 noisy logs of a run that begins so many seconds after the log. */
function releases(beginsS: number, speedMps: (t: number) => number, intervalS = 1): Found[] {
  return Array.from({ length: 60 }, (_, seed) => {
    const { motion, view, trueAlongM } = makeRun({
      ...{ fromAlongM: -120, lengthS: beginsS + 13.7, intervalS, noiseSdM: 0.4, seed: seed + 1 },
      speedMps,
    });
    const range = { from: 0, to: motion.length, rollingSinceS: null };
    const { alongM, alongSdM } = brakeRelease(motion, view, range);
    return { offM: alongM - trueAlongM(beginsS), halfM: Z90 * alongSdM };
  });
}

/** A taxi turns into a run 10.3 s after the log begins. */
const outOfTaxi = (taxiMps: number, opensS: number): Found[] =>
  releases(10.3, (t) => {
    const since = Math.max(0, t - 10.3);
    const opening = Math.min(since, opensS);
    return taxiMps + 2 * (since - opening) + (opensS > 0 ? opening ** 2 / opensS : 0);
  });

/** The aircraft stands 20 s, gathers the taxi's speed at 0.5 m/s2, keeps it for 7.3 s, and runs. */
const fromStanding = (taxiMps: number, intervalS: number): Found[] => {
  const beginsS = 20 + taxiMps / 0.5 + 7.3;
  const speedMps = (t: number): number =>
    Math.min(taxiMps, 0.5 * Math.max(0, t - 20)) + 2 * Math.max(0, t - beginsS);
  return releases(beginsS, speedMps, intervalS);
};

const heldOf = (list: readonly Found[]): number =>
  list.filter(({ offM, halfM }) => Math.abs(offM) < halfM).length;
const middleOf = (list: readonly Found[]): number =>
  list.map(({ offM }) => offM).toSorted((x, y) => x - y)[30];

describe('[TO1] a run that begins rolling', () => {
  // Of 60 bands that hold nine times in ten, fewer than 46 hold once in 600 draws (binomial).
  test('[TO1] is found where the speed turns up, not where the taxi began', () => {
    const sharp = outOfTaxi(4, 0);
    expect(heldOf(sharp)).toBeGreaterThanOrEqual(46);
    // Half a second of taxi; a line through taxi and run lay 11 m before it.
    expectNear(middleOf(sharp), 0, 2);
  });

  test('[TO1] is as doubtful as a throttle opened over two seconds makes it', () => {
    expect(heldOf(outOfTaxi(4, 2))).toBeGreaterThanOrEqual(46);
    expect(heldOf(outOfTaxi(0, 0))).toBeGreaterThanOrEqual(46);
  });

  // Until 2026-11-26 the run was held to begin with the taxi, 20 to 90 m too early.
  test.each([
    [2.5, 1],
    [5, 1],
    [8, 1],
    [5, 4],
    [8, 4],
  ])(
    '[TO1] does not begin with the taxi from standing to it, at %f m/s with a fix every %d s',
    (taxiMps, intervalS) => {
      const found = fromStanding(taxiMps, intervalS);
      expect(heldOf(found)).toBeGreaterThanOrEqual(46);
      // Half a second of the taxi, in the slow log a second.
      expectNear(middleOf(found), 0, taxiMps * (intervalS === 1 ? 0.5 : 1));
    },
  );
});

/** Taxies at 4 m/s from beside the strip, turns on to it in five seconds, and takes off without stopping. */
function turnIntoRun(seed: number): Scenario {
  const map = createMap();
  const strip = inventStrip(map, { id: 'long', bearingDeg: 70, lengthM: 700 });
  const runway = createRunway(strip, '07', map);
  const startTimeS = SCENARIO_START_S + seed / 7;
  const flight = beginFlight({ aeroplane: FOUR_SEATER, wind: CALM, seed, startTimeS });
  standAt(flight, runway, 15, 44);
  standStill(flight, runway, 20);
  const [straightS, turningS] = [11, 5];
  for (let t = 0; t < straightS + turningS; t += STEP_S) {
    const leftRad = (Math.PI / 2) * Math.min(1, 1 - (t - straightS) / turningS);
    stepTaxi(flight, runway, runway.bearingRad - leftRad, 4);
  }
  takeOff(flight, runway, plainTakeOff(flight));
  climbAway(flight, runway, 25);
  return { strip, designator: '07', flown: finishFlight(flight) };
}

test('[TO1] the run begins after the turn on to the strip, not with it', () => {
  let held = 0;
  for (let seed = 1; seed <= 12; seed++) {
    const scenario = turnIntoRun(seed);
    const { brakeRelease: found } = onlyOne(eventsOf(scenario, { seed }).takeOffs);
    if (isUndetermined(found)) throw new Error(found.undetermined);
    const [{ brakeRelease: truth }] = scenario.flown.truth.takeOffs;
    if (holds(found.alongM, truth?.alongM ?? NaN)) held++;
  }
  // Of 12 bands that hold nine times in ten, fewer than 8 hold once in 230 draws (binomial).
  expect(held).toBeGreaterThanOrEqual(8);
});
