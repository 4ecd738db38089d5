/** Lift-offs from strips whose ground between the ends is not the line that was entered; rule GT8 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { heightsBetween } from '../../src/events/arrival-data.ts';
import type { HeightRows } from '../../src/events/height-stack.ts';
import { weighLiftOff } from '../../src/events/lift-off.ts';
import { viewsOf } from '../../src/events/strip-view.ts';
import { logAdd } from '../../src/numeric/posterior.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import type { Strip } from '../../src/strips/strip.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { expectNear } from '../expect-near.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { drawReceiver, withPressure } from '../synthetic/population.ts';
import { createMap } from '../synthetic/runway.ts';
import { flyDrawnTakeOff } from '../synthetic/scenarios.ts';
import { bandOf, eventsOf, onlyOne, record } from './simulated.ts';

const LENGTH_M = 600;
const FLIGHTS = 30;

/** Ground at 40 m that lies off its line by so much half-way. */
function bowed(middleM: number): Strip {
  const profile = Array.from({ length: 21 }, (_, k): [number, number] => [
    (k * LENGTH_M) / 20,
    40 + middleM * Math.sin((Math.PI * k) / 20) ** 2,
  ]);
  const wish = { id: 'uneven', bearingDeg: 40, lengthM: LENGTH_M, profile };
  return inventStrip(createMap(), { ...wish, elevationM: [40, 40] });
}

function receiverOf(seed: number) {
  const random = createRandom(seed);
  return withPressure(drawReceiver(random, 1), random);
}

describe('[GT8] a take-off over ground between the ends that nobody entered', () => {
  test.each([-3, 3])('[GT8] bands of lift-offs hold over ground off by %d m half-way', (offM) => {
    const strip = bowed(offM);
    let held = 0;
    for (let seed = 9500; seed < 9500 + FLIGHTS; seed++) {
      const scenario = flyDrawnTakeOff(seed, { strip });
      const strips = [{ ...strip, profile: null }];
      const recording = { seed, strips, receiver: receiverOf(seed), format: 'igc' as const };
      const { liftOff } = onlyOne(eventsOf(scenario, recording).takeOffs);
      if (isUndetermined(liftOff)) throw new Error(liftOff.undetermined);
      const trueS = scenario.flown.truth.takeOffs[0].liftOff?.timeS ?? NaN;
      const { low, high } = bandOf(liftOff.timeS);
      if (low <= trueS && trueS <= high) held++;
    }
    // Of 30 bands that hold nine times in ten, fewer than 23 hold once in 130 draws (binomial).
    expect(held).toBeGreaterThanOrEqual(23);
  });

  test('[GT8] a profile that was entered leaves no bow to be found, ends alone do', () => {
    const strip = bowed(-3);
    const scenario = flyDrawnTakeOff(9500, { strip });
    const receiver = receiverOf(9500);
    const motion = computeMotion(record(scenario, { seed: 9500, receiver, format: 'igc' }));
    const liftS = scenario.flown.truth.takeOffs[0].liftOff?.timeS ?? NaN;
    const rowsAt = (entered: Strip) => {
      const [view] = viewsOf(motion, entered, entered.id);
      return heightsBetween(motion, view, liftS - 10, liftS + 5);
    };
    const [whole, ends] = [rowsAt(strip), rowsAt({ ...strip, profile: null })];
    expect(whole?.satellite?.heightM.length).toBeGreaterThan(10);
    expect(whole?.satellite?.bow).toBeNull();
    expect(whole?.pressure?.bow).toBeNull();
    const bow = ends?.satellite?.bow ?? [];
    expect(bow.length).toBeGreaterThan(10);
    expect(Math.max(...bow)).toBeGreaterThan(0);
    expect(Math.max(...bow)).toBeLessThanOrEqual(1);
    // No elevations at all: its slope is not known, and so no bow is looked for.
    expect(rowsAt({ ...strip, profile: null, elevationM: null })?.satellite?.bow).toBeNull();
  });

  /** Heights at 2 m/s2 from standing; off the ground after 20 s and 400 m, then climbing 1 m/s faster each second. */
  function rowsOver(offM: number, seed: number): { rows: HeightRows; bow: Float64Array } {
    const random = createRandom(seed);
    const timeS = Float64Array.from({ length: 27 }, (_, k) => k);
    const bow = timeS.map((t) => Math.sin((Math.PI * Math.min(t * t, LENGTH_M)) / LENGTH_M) ** 2);
    const noiseM = timeS.map(() => 0.15 * random.normal());
    const rows = {
      ...{ timeS, speedMps: timeS.map((t) => 2 * t), tiltedM: null, bow: null },
      heightM: timeS.map((t, k) => offM * bow[k] + Math.max(0, t - 20) ** 2 / 2 + noiseM[k]),
      noiseSdM: new Float64Array(timeS.length).fill(0.15),
    };
    return { rows, bow };
  }

  const candidateS = Float64Array.from({ length: 46 }, (_, k) => 8 + k / 3);
  const lags = [{ pressureBehindS: 0, weight: 1, late: [{ lateS: 0, weight: 1 }] }];

  test('[GT8] lift-off is weighed with the bow that the ground may have', () => {
    const weighed = (satellite: HeightRows) => {
      const log = weighLiftOff({ satellite, pressure: null, lags }, candidateS);
      const best = log.indexOf(Math.max(...log));
      return { total: log.reduce(logAdd), atS: candidateS[best] };
    };
    for (const offM of [-3, 3]) {
      const { rows, bow } = rowsOver(offM, 8);
      const [told, untold] = [{ ...rows, bow }, rows].map(weighed);
      // So many times likelier than level ground with a drift that happens to look like it: e to the 4th.
      expect(told.total - untold.total).toBeGreaterThan(4);
      expectNear(told.atS, 20, 0.7);
    }
  });

  /** Log weight of each candidate over ground that surely bows: level ground under heights freed of every bow, by its chance. */
  function surelyBowed(rows: HeightRows, bow: Float64Array, kind: 'satellite' | 'pressure') {
    const partM = 0.05;
    const parts = Array.from({ length: 401 }, (_, k) => (k - 200) * partM);
    const total = new Float64Array(candidateS.length).fill(-Infinity);
    for (const offM of parts) {
      const freed = { ...rows, heightM: rows.heightM.map((each, k) => each - offM * bow[k]) };
      const level = weighLiftOff({ ...NONE, lags, [kind]: freed }, candidateS);
      // Off its line by 1.3 m, one sd (GT8).
      const chance = ((offM / 1.3) ** 2 + Math.log(2 * Math.PI)) / -2 + Math.log(partM / 1.3);
      level.forEach((value, c) => {
        total[c] = logAdd(total[c], value + chance);
      });
    }
    return total;
  }

  const NONE = { satellite: null, pressure: null };
  /** Three strips in ten bow (GT8). */
  const ODDS = 0.3 / 0.7;

  test.each([-3, 0, 0.6])(
    '[GT8] ground off by %d m is weighed as all bows that it may have, by their chance',
    (offM) => {
      const { rows, bow } = rowsOver(offM, 9);
      const told = weighLiftOff({ ...NONE, lags, pressure: { ...rows, bow } }, candidateS);
      const level = weighLiftOff({ ...NONE, lags, pressure: rows }, candidateS);
      const bowed = surelyBowed(rows, bow, 'pressure');
      told.forEach((value, c) => {
        expectNear(value, logAdd(level[c], Math.log(ODDS) + bowed[c]), 1e-6);
      });
    },
  );

  test('[GT8] the bow under one drift of the satellite heights stands for all three', () => {
    const { rows, bow } = rowsOver(-3, 9);
    const told = weighLiftOff({ ...NONE, lags, satellite: { ...rows, bow } }, candidateS);
    const bowed = surelyBowed(rows, bow, 'satellite');
    const best = told.indexOf(Math.max(...told));
    // Ground so far off bows surely, and heights that stay have the least drift: a third by its chance.
    expectNear(told[best], Math.log(ODDS) + bowed[best] + Math.log(3), 0.05);
  });
});
