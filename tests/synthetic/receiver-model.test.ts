/**
 * The receiver's errors have the size and the memory that its figures say.
 *
 * Sources: variance of third differences of white noise is 20 times its own (binomial coefficients
 * 1, 3, 3, 1 squared and summed); a Gauss-Markov process loses a share 1/e of its correlation in one
 * time scale; standard atmosphere, Doc 7488: geopotential 1,000 m at 898.746 hPa (calculated from the
 * published constants, as in its tables). Tolerances: about four standard errors of the estimate.
 */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';
import { FOUR_SEATER } from './aeroplane-model.ts';
import type { FlownFlight } from './flight.ts';
import {
  geoidM,
  PERFECT_RECEIVER,
  PLAIN_RECEIVER,
  pressureHeightM,
  receive,
  type Fixes,
  type Receiver,
} from './receiver-model.ts';
import { createMap } from './runway.ts';
import { emptyTruth } from './truth.ts';

describe('position errors', () => {
  const receiver = { ...PLAIN_RECEIVER, horizontalWhiteM: 0, verticalWhiteM: 0, intervalS: 150 };
  const still = standing(155);
  const pairs = Array.from({ length: 2000 }, (_, seed) => {
    const fixes = receive(still, receiver, createRandom(seed));
    const east = eastMetres(still, fixes);
    return { east: [east[0], east[1]], up: [fixes.heightM[0] - 50, fixes.heightM[1] - 50] };
  });

  test('[SIM40] the bias has its standard deviation over 2,000 seeds, sideways and up', () => {
    // Standard error of a standard deviation from 2,000 draws: 1.6 %.
    expectNear(spread(pairs.map(({ east }) => east[0])), 2, 0.13, 'sideways');
    expectNear(spread(pairs.map(({ up }) => up[0])), 4, 0.26, 'up');
  });

  test('[SIM41] the bias keeps 1/e of itself after its time scale', () => {
    const products = pairs.map(({ east }) => east[0] * east[1]);
    const correlation = mean(products) / 2 ** 2;
    expectNear(correlation, Math.exp(-1), 0.1, 'correlation');
  });

  test('[SIM42] third differences give back the white noise, seed by seed and together', () => {
    const noisy = { ...PLAIN_RECEIVER, horizontalBiasM: 0, verticalBiasM: 0 };
    const long = standing(2000);
    const fixes = receive(long, noisy, createRandom(5));
    expectNear(whiteOf(fixes.heightM), 0.65, 0.06, 'up');
    expectNear(whiteOf(eastMetres(long, fixes)), 0.4, 0.04, 'sideways');
  });

  test('[SIM43] noise of a fast receiver hangs together from fix to fix when told to', () => {
    const fast = { ...PERFECT_RECEIVER, intervalS: 0.2, verticalWhiteM: 0.65, whiteS: 0.4 };
    const heights = receive(standing(1500), fast, createRandom(6)).heightM.map((h) => h - 50);
    const neighbours = Array.from(heights.subarray(1), (h, i) => h * heights[i]);
    expectNear(mean(neighbours) / 0.65 ** 2, Math.exp(-0.5), 0.06, 'correlation of neighbours');
    expectNear(spread(Array.from(heights)), 0.65, 0.06, 'spread');
  });
});

describe('the receiver filter', () => {
  test('[SIM44] a late receiver lags by speed times its time; a tracking one not at all', () => {
    const steady = moving(60, 30, 0);
    for (const [filter, lagM] of [
      ['late', 30 * 0.5],
      ['tracking', 0],
    ] as const) {
      const fixes = receive(steady, { ...PERFECT_RECEIVER, filter, filterS: 0.5 }, createRandom(1));
      const east = eastMetres(steady, fixes);
      const last = east.length - 1;
      expectNear(30 * (fixes.timeS[last] - steady.timeS[0]) - east[last], lagM, 0.01, filter);
    }
  });

  test('[SIM44] late heights are those of so long before; of positions nothing changes', () => {
    const level = moving(60, 30, 0);
    const rising = { ...level, antennaMslM: level.antennaMslM.map((m, i) => m + 1e-3 * i * i) };
    const inTime = receive(rising, PERFECT_RECEIVER, createRandom(1));
    const late = receive(rising, { ...PERFECT_RECEIVER, heightLateS: 2 }, createRandom(1));
    expect(late.latDeg).toEqual(inTime.latDeg);
    for (let i = 2; i < late.length; i++) {
      expectNear(late.heightM[i], inTime.heightM[i - 2], 1e-9, `fix ${i}`);
    }
    expect(new Set(inTime.heightM).size).toBeGreaterThan(3);
  });

  test('[SIM45] a tracking receiver is off by acceleration times its time squared', () => {
    const slowing = moving(20, 40, -2);
    const receiver: Receiver = { ...PERFECT_RECEIVER, filter: 'tracking', filterS: 0.5 };
    const fixes = receive(slowing, receiver, createRandom(1));
    const last = fixes.length - 1;
    const t = fixes.timeS[last] - slowing.timeS[0];
    const trueEastM = 40 * t - t * t;
    expectNear(eastMetres(slowing, fixes)[last] - trueEastM, 2 * 0.5 ** 2, 0.03, 'error');
  });
});

describe('fixes', () => {
  for (const intervalS of [0.2, 1, 2, 4]) {
    test(`[SIM46] come every ${intervalS} s, on whole multiples`, () => {
      const fixes = receive(standing(60), { ...PERFECT_RECEIVER, intervalS }, createRandom(1));
      expect(fixes.length).toBeGreaterThanOrEqual(Math.floor(59 / intervalS));
      for (let i = 1; i < fixes.length; i++) {
        expectNear(fixes.timeS[i] - fixes.timeS[i - 1], intervalS, 1e-6, 'interval');
        const multiple = fixes.timeS[i] / intervalS;
        expectNear(multiple, Math.round(multiple), 1e-5, 'multiple of the interval');
      }
    });
  }

  test('[SIM47] are missing in a hole and, at the chance told, elsewhere', () => {
    const holes = [{ afterS: 100, lengthS: 40 }];
    const whole = receive(standing(600), { ...PERFECT_RECEIVER, holes }, createRandom(1));
    const steps = Array.from(whole.timeS.subarray(1), (t, i) => t - whole.timeS[i]);
    expect(Math.max(...steps)).toBe(41);
    const lossy = receive(
      standing(2000),
      { ...PERFECT_RECEIVER, lossChance: 0.2 },
      createRandom(2),
    );
    expectNear(lossy.length / 2000, 0.8, 0.04, 'share kept');
  });

  test('[SIM48] carry heights above the ellipsoid, sea level, or none', () => {
    const heights = (['ellipsoid', 'geoid', 'none'] as const).map(
      (datum) =>
        receive(standing(10), { ...PERFECT_RECEIVER, heights: datum }, createRandom(1)).heightM[0],
    );
    expectNear(heights[0], 50 + geoidM(0, 0), 1e-6, 'ellipsoid');
    expectNear(heights[1], 50, 1e-6, 'sea level');
    expect(heights[2]).toBeNaN();
  });

  test('[SIM49] carry speed and course where the receiver writes them', () => {
    const fixes = receive(
      moving(300, 30, 0),
      { ...PERFECT_RECEIVER, speedWhiteMps: 0.15 },
      createRandom(3),
    );
    expectNear(mean(Array.from(fixes.groundSpeedMps)), 30, 0.04, 'speed');
    expectNear(spread(Array.from(fixes.groundSpeedMps, (v) => v - 30)), 0.15, 0.03, 'speed noise');
    expectNear(mean(Array.from(fixes.courseDeg)), 90, 0.1, 'course');
    const silent = receive(moving(10, 30, 0), PERFECT_RECEIVER, createRandom(3));
    expect(silent.groundSpeedMps[0]).toBeNaN();
  });
});

describe('pressure height', () => {
  test('[SIM50] is the height itself on a standard day, and zero where 1013.25 hPa is', () => {
    for (const heightM of [-50, 0, 500, 3000]) {
      expectNear(pressureHeightM(heightM, 1013.25), heightM, 1e-6, 'standard day');
    }
    // 898.746 hPa at sea level is what the standard atmosphere has 1,000 m up.
    expectNear(pressureHeightM(0, 898.746), 1000, 0.05, 'low pressure');
  });

  test('[SIM51] is off in flight by the static error times the height the speed is worth', () => {
    const pressure = { qnhHpa: 1013.25, staticError: 0.1, lagS: 0.5, whiteM: 0 };
    const fixes = receive(moving(60, 25, 0), { ...PERFECT_RECEIVER, pressure }, createRandom(1));
    const worthM = 25 ** 2 / (2 * 9.80665);
    expectNear(fixes.pressureHeightM[30], 50 - 0.1 * worthM, 1e-3, 'pressure height');
  });
});

/** Standing at the origin, antenna 50 m above sea level. */
function standing(seconds: number): FlownFlight {
  return moving(seconds, 0, 0);
}

/** Moving due east from the origin with a steady acceleration; airspeed is ground speed. */
function moving(seconds: number, speedMps: number, accelMps2: number): FlownFlight {
  const length = Math.round(seconds * 10) + 1;
  const column = (of: (t: number) => number): Float64Array =>
    Float64Array.from({ length }, (_, i) => of(i / 10));
  const speed = column((t) => speedMps + accelMps2 * t);
  return {
    map: createMap(),
    length,
    timeS: column((t) => 1_750_000_200 + t),
    eastM: column((t) => speedMps * t + (accelMps2 * t * t) / 2),
    northM: column(() => 0),
    antennaMslM: column(() => 50),
    wheelMslM: column(() => 50 - FOUR_SEATER.antennaM),
    eastMps: speed,
    northMps: column(() => 0),
    antennaUpMps: column(() => 0),
    airspeedMps: speed,
    truth: emptyTruth(),
  };
}

function eastMetres(flown: FlownFlight, fixes: Fixes): Float64Array {
  return flown.map.toEastNorth(fixes.latDeg, fixes.lonDeg).eastM;
}

function whiteOf(column: Float64Array): number {
  const thirds = Array.from(
    { length: column.length - 3 },
    (_, i) => column[i + 3] - 3 * column[i + 2] + 3 * column[i + 1] - column[i],
  );
  return spread(thirds) / Math.sqrt(20);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Root mean square about zero: every process here has mean zero. */
function spread(values: readonly number[]): number {
  return Math.sqrt(mean(values.map((value) => value * value)));
}
