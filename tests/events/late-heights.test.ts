/** Heights that are late, behind the positions and behind each other; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import {
  averageOverLate,
  heightLags,
  satelliteLateness,
  withLateCandidates,
  type HeightLag,
} from '../../src/events/height-lags.ts';
import type { HeightRows } from '../../src/events/height-stack.ts';
import { weighHeights } from '../../src/events/touchdown-height.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { expectNear } from '../expect-near.ts';
import { gateTruths } from '../synthetic/gate-truth.ts';
import { drawReceiver, withPressure } from '../synthetic/population.ts';
import { flyDrawnCircuits } from '../synthetic/circuit-population.ts';
import { logAsIgc, toTrack } from '../synthetic/logged-track.ts';
import { receive, type Receiver } from '../synthetic/receiver-model.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { eventsOf, holds, onlyOne, valueOf } from './simulated.ts';

const BOTH = { satellite: true, pressure: true };

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** How late the satellite height is taken to be in the mean, seconds. */
function satelliteLateS(lags: ReturnType<typeof heightLags>): number {
  return sum(lags.map(({ weight, late }) => weight * sum(late.map((l) => l.lateS * l.weight))));
}

describe('[PH7] delays that are averaged over', () => {
  test('[PH7] weights add up to one, with either height and both, seen and unseen', () => {
    const seen = { delayS: 0.4, sdS: 0.2 };
    for (const lags of [
      heightLags(null, BOTH),
      heightLags(seen, BOTH),
      heightLags(seen, { satellite: true, pressure: false }),
      heightLags(seen, { satellite: false, pressure: true }),
    ]) {
      expectNear(sum(lags.map(({ weight }) => weight)), 1, 1e-12);
      for (const { late } of lags) expectNear(sum(late.map(({ weight }) => weight)), 1, 1e-12);
    }
  });

  test('[PH7] a delay that the log shows well stands alone; one that it does not is averaged over', () => {
    const known = heightLags({ delayS: 1.3, sdS: 0.03 }, BOTH);
    expect(known).toHaveLength(1);
    expectNear(known[0].pressureBehindS, 1.3, 0.02);
    const doubtful = heightLags({ delayS: 1.3, sdS: 2 }, BOTH);
    expect(doubtful.length).toBeGreaterThan(1);
    // A delay hardly seen leaves what sensors have: half a second or so.
    expectNear(doubtful[0].pressureBehindS, 0.45, 0.2);
  });

  test('[PH7] the delays averaged over have the mean and the spread of what is known', () => {
    const moments = (all: readonly { at: number; weight: number }[]) => {
      const mean = sum(all.map(({ at, weight }) => at * weight));
      return { mean, sd: Math.sqrt(sum(all.map(({ at, weight }) => weight * (at - mean) ** 2))) };
    };
    // A pressure sensor alone: 0.5 s, one sd 0.3 s.
    const [alone] = heightLags(null, { satellite: false, pressure: true });
    const sensor = moments(alone.late.map(({ lateS, weight }) => ({ at: lateS, weight })));
    expectNear(sensor.mean, 0.5, 1e-9);
    expectNear(sensor.sd, 0.3, 1e-9);
    // Seen to be 0.5 s with 0.3 s: with the sensor's own spread 0.3 / root 2, and a little for late satellite heights.
    const nodes = heightLags({ delayS: 0.5, sdS: 0.3 }, BOTH);
    const both = moments(
      nodes.map(({ pressureBehindS, weight }) => ({ at: pressureBehindS, weight })),
    );
    expectNear(both.mean, 0.47, 0.05);
    expectNear(both.sd, 0.3 / Math.SQRT2, 0.05);
    // The rough look takes the first: the middle one.
    expectNear(nodes[0].pressureBehindS, both.mean, 1e-9);
  });

  test('[PH7] a close look at touchdowns averages over all delays, a rough one takes the first', () => {
    const timeS = Float64Array.from({ length: 40 }, (_, i) => i);
    const random = createRandom(4);
    const rows = (lateS: number): HeightRows => ({
      timeS,
      heightM: timeS.map((t) => Math.max(0, 20.4 + lateS - t) ** 1.2 + 0.2 * random.normal()),
      speedMps: timeS.map((t) => (t < 20 ? 28 : Math.max(2, 28 - 1.5 * (t - 20)))),
      noiseSdM: timeS.map(() => 0.4),
      tiltedM: null,
      bow: null,
    });
    const [satellite, pressure] = [rows(0), rows(0.6)];
    const candidateS = Float64Array.from({ length: 30 }, (_, c) => 14 + 0.33 * c);
    const lags = heightLags({ delayS: 0.6, sdS: 0.4 }, BOTH);
    const weigh = (of: readonly HeightLag[], look: 'rough' | 'close') =>
      weighHeights({ satellite, pressure, lags: of }, candidateS, look)?.logEvidence ??
      new Float64Array(0);
    const single = lags.map((lag) => weigh([{ ...lag, weight: 1 }], 'close'));
    expect(single).toHaveLength(3);
    weigh(lags, 'close').forEach((value, k) => {
      const mean = sum(single.map((each) => Math.exp(each[k] - value))) / 3;
      expectNear(mean, 1, 1e-9, `value ${k}`);
    });
    expect(weigh(lags, 'rough')).toEqual(weigh(lags.slice(0, 1), 'rough'));
  });

  test('[PH7] a pressure height before the satellite height shows that one to be late', () => {
    const usual = satelliteLateS(heightLags({ delayS: 0.5, sdS: 0.05 }, BOTH));
    const early = satelliteLateS(heightLags({ delayS: -1, sdS: 0.05 }, BOTH));
    expect(usual).toBeLessThan(0.1);
    expect(early).toBeGreaterThan(1.2);
    expect(early).toBeLessThan(2);
  });

  test('[PH7] late heights tell of a candidate what heights in time tell of a later one', () => {
    // Two shapes a candidate, log evidence straight in time: 2 t and -t.
    const stepS = 0.5;
    const count = 6;
    const late = [{ lateS: 0.7, weight: 1 }];
    const candidateS = Float64Array.from({ length: count }, (_, c) => c * stepS);
    const wideS = withLateCandidates(candidateS, [{ pressureBehindS: 0, weight: 1, late }]);
    expect(Array.from(wideS.subarray(count))).toEqual([3, 3.5]);
    const onTime = Float64Array.from({ length: 2 * wideS.length }, (_, k) => {
      const timeS = Math.floor(k / 2) * stepS;
      return k % 2 === 0 ? 2 * timeS : -timeS;
    });
    const averaged = averageOverLate(onTime, 2, count, stepS, late);
    for (let c = 0; c < count; c++) {
      expectNear(averaged[2 * c], 2 * (c * stepS + 0.7), 1e-12);
      expectNear(averaged[2 * c + 1], -(c * stepS + 0.7), 1e-12);
    }
    const halves = [
      { lateS: 0, weight: 0.5 },
      { lateS: 0.5, weight: 0.5 },
    ];
    const mixed = averageOverLate(onTime, 2, count, stepS, halves);
    expectNear(Math.exp(mixed[2]), (Math.exp(1) + Math.exp(2)) / 2, 1e-12);
  });
});

/** Touchdowns of drawn landings whose heights come so late: how many bands hold, and the errors. */
function touchdowns(lateS: number, better: Partial<Receiver>): { held: number; of: number } {
  let held = 0;
  const landings = 30;
  for (let k = 0; k < landings; k++) {
    const seed = 40_000 + k;
    const scenario = flyDrawnApproach(seed, 'full-stop');
    const drawn = drawReceiver(createRandom(seed + 1), 1);
    const receiver = { ...drawn, ...better, heightLateS: lateS };
    const { touchdown } = onlyOne(eventsOf(scenario, { seed, receiver }).approaches);
    if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
    const [truth] = scenario.flown.truth.approaches;
    expect(Number.isFinite(valueOf(touchdown.alongM))).toBe(true);
    if (holds(touchdown.alongM, truth.touchdown?.alongM ?? NaN)) held++;
  }
  return { held, of: landings };
}

const QUIET = { verticalBiasM: 2, verticalWhiteM: 0.15, horizontalWhiteM: 0.1 };

describe('[PH7] landings whose satellite heights are late', () => {
  test('[PH6] the log of an hour of circuits shows how late, beside its pressure height', () => {
    const { flown } = flyDrawnCircuits(7);
    const random = createRandom(7);
    const sensor = { qnhHpa: 1013, staticError: 0.06, lagS: 0.5, whiteM: 0.3 };
    for (const heightLateS of [0, 2]) {
      const receiver = { ...drawReceiver(random, 1), pressure: sensor, heightLateS };
      const { noise } = computeMotion(toTrack(logAsIgc(receive(flown, receiver, random))));
      // The receiver's own filter may make its height later by a few tenths.
      expectNear(noise.pressureDelay?.delayS ?? NaN, 0.5 - heightLateS, 0.4, `${heightLateS} s`);
      expect(noise.pressureDelay?.sdS).toBeLessThan(0.25);
    }
  });

  test('[PH7] by a second: bands of a quiet receiver still hold in most', () => {
    const late = touchdowns(1, QUIET);
    console.log(`quiet receiver, heights a second late: bands hold ${late.held} of ${late.of}`);
    // Taken as in time, a third of them held.
    expect(late.held).toBeGreaterThanOrEqual(20);
  });
});

describe('[PH8] heights over the strip', () => {
  test('[PH8] are read so late as the log shows them to be: gates of a circuit lie where it came through them', () => {
    let held = 0;
    const off: number[] = [];
    for (let seed = 11; seed < 19; seed++) {
      const scenario = flyDrawnCircuits(seed);
      const random = createRandom(seed);
      const drawn = withPressure(drawReceiver(random, 1), random);
      const receiver = { ...drawn, ...QUIET, heightLateS: 2 };
      const { approaches } = eventsOf(
        { ...scenario, designator: '' },
        { seed, receiver, format: 'igc' },
      );
      for (const { gates, direction } of approaches) {
        for (const gate of gates.filter(({ heightFt }) => heightFt <= 200)) {
          const passed = gateTruths(
            { ...scenario, designator: direction ?? '' },
            gate.timeS + 8,
          )(gate.heightFt);
          if (!passed) continue;
          off.push(valueOf(gate.alongM) - passed.alongM);
          if (holds(gate.alongM, passed.alongM)) held++;
        }
      }
    }
    off.sort((a, b) => a - b);
    console.log(`late heights: gates off by ${off.map(Math.round).join(' ')}, ${held} hold`);
    expect(off.length).toBeGreaterThan(20);
    // At 30 m/s two seconds are 60 m.
    expect(Math.abs(off[off.length >> 1])).toBeLessThan(20);
    expect(held / off.length).toBeGreaterThan(0.8);
  });

  test('[PH8] without a pressure height only the usual doubt is known', () => {
    const { meanS, sdS } = satelliteLateness(null);
    expect(meanS).toBe(0);
    // By hand: the root of 0.08 x 0.7^2 + 0.045 x 1.4^2 + 0.025 x 2.1^2.
    expectNear(sdS, Math.sqrt(0.08 * 0.49 + 0.045 * 1.96 + 0.025 * 4.41), 1e-9);
    expect(satelliteLateness({ delayS: -1, sdS: 0.05 }).meanS).toBeGreaterThan(1.2);
    expect(satelliteLateness({ delayS: 0.5, sdS: 0.05 }).meanS).toBeLessThan(0.1);
  });
});
