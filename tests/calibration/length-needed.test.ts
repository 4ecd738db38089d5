/** The length that 95 of 100 short landings need, held against truth, plain simulation and a second way. */
import { describe, expect, test } from 'vitest';
import {
  landingPair,
  pairPosterior,
  type LandingPair,
} from '../../src/calibration/landing-pair.ts';
import {
  lengthNeeded,
  nextLengthM,
  type LengthNeeded,
} from '../../src/calibration/length-needed.ts';
import { choleskyInPlace, forwardSolve } from '../../src/numeric/cholesky.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { Z90, type Estimate } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { chanceWithin, drawPairPilot, flyPairs, type PairPilot } from './simulated-pairs.ts';

const TODAY = { ldaM: 400, expectedRollM: 150, forecastLogSd: 0 };
const PILOT: PairPilot = {
  ...{ meanM: 60, spreadM: 30, meanLog: 0.05, spreadLog: 0.18 },
  ...{ correlation: -0.4, dayShare: 0.3 },
};

function holds({ low, high }: Estimate, truth: number): boolean {
  return low <= truth && truth <= high;
}

function found(landings: readonly LandingPair[], today = TODAY): LengthNeeded {
  const result = lengthNeeded(landings, today);
  if (result.kind !== 'length-needed') throw new Error(result.reason);
  return result;
}

describe('the length needed', () => {
  test('[LN1] comes to what the pilot truly needs where there are very many landings', () => {
    const { lengthM, leftM, correlation } = found(flyPairs(PILOT, 400, createRandom(11)));
    // The chance is exact; 400 landings tell a spread to 4 %, and with it the 5 % to about a third.
    const chance = chanceWithin(PILOT, lengthM.value, TODAY.expectedRollM);
    expect(chance).toBeGreaterThan(0.935);
    expect(chance).toBeLessThan(0.967);
    expect(lengthM.low).toBeLessThan(lengthM.value);
    expect(lengthM.high).toBeGreaterThan(lengthM.value);
    expectNear(leftM.value, 400 - lengthM.value, 1e-9, 'left');
    expectNear(leftM.low, 400 - lengthM.high, 1e-9, 'least left');
    expectNear(correlation, PILOT.correlation, 0.15, 'correlation');
  });

  test('[LN2] agrees with the posterior found the long way, by weighing pilots drawn from the prior', () => {
    const landings = flyPairs(PILOT, 6, createRandom(5));
    const drawn = weighedPilots(landings, 60_000);
    const total = drawn.reduce((sum, { weight }) => sum + weight, 0);
    const average = (of: (pilot: PairPilot) => number): number =>
      drawn.reduce((sum, { weight, pilot }) => sum + weight * of(pilot), 0) / total;
    const parts = pairPosterior(landings);
    const mean = parts.reduce((sum, part) => sum + part.weight * part.mean.along, 0);
    const roll = parts.reduce((sum, part) => sum + part.weight * part.mean.roll, 0);
    // The draws' own error: about 200 of them carry the weight.
    expectNear(
      mean,
      average(({ meanM }) => meanM),
      3,
      'mean touchdown',
    );
    expectNear(
      roll,
      average(({ meanLog }) => meanLog),
      0.02,
      'mean ratio',
    );
    const bound = nextLengthM(landings, TODAY, 0.95);
    const chance = average((pilot) => chanceWithin(pilot, bound, TODAY.expectedRollM));
    expectNear(chance, 0.95, 0.01, 'chance of staying within the length');
  }, 20_000);

  test('[LN3] is shorter where late touchdowns went with short rolls than where with long ones', () => {
    const lengthWith = (correlation: number): number =>
      found(flyPairs({ ...PILOT, correlation, dayShare: 0 }, 60, createRandom(3))).lengthM.value;
    expect(lengthWith(-0.8)).toBeLessThan(lengthWith(0.8) - 20);
  });

  test('[LN4] gives none for four landings, nor for five on two days', () => {
    const five = flyPairs(PILOT, 5, createRandom(1));
    expect(lengthNeeded(five.slice(0, 4), TODAY)).toMatchObject({ kind: 'too-few', landings: 4 });
    const twoDays = five.map((landing, k) => ({ ...landing, dayKey: k < 3 ? 'a' : 'b' }));
    expect(lengthNeeded(twoDays, TODAY)).toMatchObject({ kind: 'too-few', days: 2 });
  });

  test('[LN5] is longer and its band wider before the flight than with the wind at the landing', () => {
    const landings = flyPairs(PILOT, 30, createRandom(8));
    const after = found(landings);
    const before = found(landings, { ...TODAY, forecastLogSd: 0.18 });
    const width = ({ lengthM }: LengthNeeded): number => lengthM.high - lengthM.low;
    expect(before.lengthM.value).toBeGreaterThan(after.lengthM.value + 5);
    expect(width(before)).toBeGreaterThan(1.5 * width(after));
    expectNear(before.touchdownM.value, after.touchdownM.value, 1e-9, 'touchdown');
  });

  test('[LN6] prints a strip that is too short as a negative remainder', () => {
    const { leftM } = found(flyPairs(PILOT, 20, createRandom(2)), { ...TODAY, ldaM: 200 });
    expect(leftM.value).toBeLessThan(0);
  });

  test('[LN7] holds 19 in 20 over pilots of the prior, seed 20260601', () => {
    // 20 pilots: a standard error of about 1.7 points; the long proof is docs/calibration.md.
    const random = createRandom(20_260_601);
    let sum = 0;
    for (let k = 0; k < 20; k++) {
      const pilot = drawPairPilot(random);
      sum += chanceWithin(pilot, nextLengthM(flyPairs(pilot, 8, random), TODAY, 0.95), 150);
    }
    expect(sum / 20).toBeGreaterThan(0.9);
    expect(sum / 20).toBeLessThan(0.99);
  });

  test('[LN10] leaves in doubt what all logs get wrong alike, in touchdown and roll and hardly in their sum', () => {
    const landings = flyPairs(PILOT, 400, createRandom(11));
    const { touchdownM, rollM, lengthM } = found(landings);
    const half = ({ low, high }: Estimate): number => (high - low) / 2;
    const commonSd = (of: (landing: LandingPair) => number): number =>
      Math.sqrt(landings.reduce((sum, each) => sum + of(each), 0) / landings.length / 2);
    const placeSd = commonSd(({ alongVariance }) => alongVariance);
    const rollSd = rollM.value * commonSd(({ rollVariance }) => rollVariance);
    // Their own scatter of 30 m and 27 m adds a seventieth of the variance, averaged over days four times that.
    expect(half(touchdownM)).toBeGreaterThan(Z90 * placeSd);
    expect(half(touchdownM)).toBeLessThan(1.1 * Z90 * placeSd);
    expect(half(rollM)).toBeGreaterThan(Z90 * rollSd);
    expect(half(rollM)).toBeLessThan(1.1 * Z90 * rollSd);
    // The stop is wrong by the strip's and the receiver's 5 m alone, half of it common.
    expect(half(lengthM)).toBeLessThan(0.8 * half(touchdownM));
  });

  test('[LN10] holds the true middles nine times in ten, of pilots whose errors are half common, seed 10', () => {
    const random = createRandom(10);
    const pilots = 40;
    let places = 0;
    let rolls = 0;
    for (let k = 0; k < pilots; k++) {
      const { touchdownM, rollM } = found(flyPairs(PILOT, 20, random));
      if (holds(touchdownM, PILOT.meanM)) places++;
      if (holds(rollM, TODAY.expectedRollM * Math.exp(PILOT.meanLog))) rolls++;
    }
    // 40 pilots: a standard error of 4.7 points; two and a half of them. Without the common half places hold seven in ten.
    expect(places / pilots).toBeGreaterThan(0.78);
    expect(rolls / pilots).toBeGreaterThan(0.78);
  }, 40_000);

  test('[LN8] refuses an LDA or a roll that is no length', () => {
    const landings = flyPairs(PILOT, 6, createRandom(2));
    expect(() => lengthNeeded(landings, { ...TODAY, expectedRollM: 0 })).toThrow('positive');
    expect(() => lengthNeeded(landings, { ...TODAY, ldaM: NaN })).toThrow('positive');
    expect(() => pairPosterior([{ ...landings[0], alongM: NaN }])).toThrow('must be numbers');
  });

  test('[LN9] takes a touchdown found too far along for a roll found too short', () => {
    // Band of 16.449 m either side: 10 m; roll 150 m, known to 6 % or 9 m.
    const pair = landingPair('a', { value: 50, low: 33.551, high: 66.449 }, 150, {
      value: 0,
      sd: 0.06,
    });
    expectNear(pair.alongVariance, 100, 0.01, 'variance');
    // All of the roll's 81 m2 is the touchdown's: that of the stop is 100 + 81 - 2 x 81 = 19 m2.
    expectNear(pair.covariance * 150, -81, 1e-9, 'common');
    const rollAlone = landingPair('a', { value: 50, low: 45, high: 55 }, 150, {
      value: 0,
      sd: 0.2,
    });
    const limit = Math.sqrt(rollAlone.alongVariance * rollAlone.rollVariance);
    expect(Math.abs(rollAlone.covariance)).toBeLessThan(limit);
  });
});

/** Pilots of the prior with the likelihood of the landings, by one dense matrix for all of them. */
function weighedPilots(
  landings: readonly LandingPair[],
  howMany: number,
): { readonly pilot: PairPilot; readonly weight: number }[] {
  const random = createRandom(77);
  const n = 2 * landings.length;
  const matrix = new Float64Array(n * n);
  const off = new Float64Array(n);
  const solved = new Float64Array(n);
  const all = Array.from({ length: howMany }, () => {
    const pilot = drawPairPilot(random);
    const { spreadM, spreadLog, correlation, dayShare, meanM, meanLog } = pilot;
    const spread = [
      [spreadM ** 2, correlation * spreadM * spreadLog],
      [correlation * spreadM * spreadLog, spreadLog ** 2],
    ];
    landings.forEach((one, i) => {
      off[2 * i] = one.alongM - meanM;
      off[2 * i + 1] = one.rollLog - meanLog;
      landings.forEach((other, j) => {
        const share = i === j ? 1 : one.dayKey === other.dayKey ? dayShare : 0;
        for (const [a, row] of spread.entries()) {
          for (const [b, value] of row.entries()) {
            matrix[(2 * i + a) * n + 2 * j + b] = share * value;
          }
        }
      });
      landings.forEach((other, j) => {
        // Half of every error is the same at all landings.
        const held = i === j ? 1 : 0.5;
        const both = (of: (landing: LandingPair) => number): number =>
          held * Math.sign(of(one)) * Math.sqrt(of(one) * of(other));
        matrix[2 * i * n + 2 * j] += both(({ alongVariance }) => alongVariance);
        matrix[(2 * i + 1) * n + 2 * j] += both(({ covariance }) => covariance);
        matrix[2 * i * n + 2 * j + 1] += both(({ covariance }) => covariance);
        matrix[(2 * i + 1) * n + 2 * j + 1] += both(({ rollVariance }) => rollVariance);
      });
    });
    const halfLogDet = choleskyInPlace(matrix, n);
    forwardSolve(matrix, n, off, solved);
    const misfit = solved.reduce((sum, each) => sum + each * each, 0);
    return { pilot, weight: Math.exp(-halfLogDet - 0.5 * misfit) };
  });
  // The means lie in a narrow part of a wide prior: most draws carry nothing and need no chance.
  const heaviest = all.reduce((most, { weight }) => Math.max(most, weight), 0);
  return all.filter(({ weight }) => weight > 1e-6 * heaviest);
}
