/**
 * Simulated pilots: does the next true ratio stay below the own factor as often as stated?
 *
 * Each pilot has a true mean, spread and day share; landings fall on few days and carry measuring
 * errors as the model assumes. The probability that the next true ratio on a new day stays below
 * the bound is exact for each pilot (a normal probability), so only the pilots are sampled.
 * Limits: the design asks 94 to 96 % on average over pilots of the prior and no less than 93.5 %
 * at any fixed spread from 0.08 to 0.35; with 40 to 120 pilots a cell the mean has a standard error
 * of about 0.6 to 1.0 points, and the limits here leave three of them. More than 96 % at a small
 * spread is excess, not error: few landings cannot rule out a larger spread.
 */

import { describe, expect, test } from 'vitest';
import type { LogRatio } from '../../src/calibration/log-ratio.ts';
import { predictNextRatio, WEAK_PRIOR } from '../../src/calibration/predictive.ts';
import { normalCdf } from '../../src/numeric/distributions.ts';
import { createRandom, type Random } from '../../src/numeric/random.ts';

const SEED = 20_260_401;
const MEASURING_SD = 0.06;
const DAYS_FOR = new Map([
  [5, 3],
  [10, 5],
  [20, 8],
]);

interface Pilot {
  readonly mean: number;
  readonly spread: number;
  readonly dayShare: number;
}

function fly(pilot: Pilot, n: number, random: Random): LogRatio[] {
  const days = DAYS_FOR.get(n) ?? n;
  const daySd = pilot.spread * Math.sqrt(pilot.dayShare);
  const ownSd = pilot.spread * Math.sqrt(1 - pilot.dayShare);
  const dayEffects = Array.from({ length: days }, () => daySd * random.normal());
  return Array.from({ length: n }, (_, i) => ({
    logRatio:
      pilot.mean + dayEffects[i % days] + ownSd * random.normal() + MEASURING_SD * random.normal(),
    sd: MEASURING_SD,
    dayKey: `day ${i % days}`,
    kind: 'value' as const,
  }));
}

/** Mean probability, in per cent, that the next true ratio stays below the bound. */
function coverage(pilots: number, n: number, random: Random, draw: () => Pilot): number {
  let sum = 0;
  for (let i = 0; i < pilots; i++) {
    const pilot = draw();
    const bound = Math.log(predictNextRatio(fly(pilot, n, random)).quantile(0.95));
    sum += normalCdf((bound - pilot.mean) / pilot.spread);
  }
  return (100 * sum) / pilots;
}

describe(`[CAL1] coverage of the own factor over simulated pilots, seed ${SEED}`, () => {
  test.each([5, 10, 20])('[CAL1] holds 19 in 20 over pilots of the prior at n = %d', (n) => {
    const random = createRandom(SEED + n);
    const drawn = coverage(120, n, random, () => ({
      mean: WEAK_PRIOR.meanLog + WEAK_PRIOR.meanLogSd * random.normal(),
      spread: WEAK_PRIOR.spreadMedian * Math.exp(WEAK_PRIOR.spreadLogSd * random.normal()),
      dayShare: random.uniform(),
    }));
    expect(drawn).toBeGreaterThan(92);
    expect(drawn).toBeLessThan(98);
  });

  test.each([
    [5, 0.08],
    [5, 0.35],
    [10, 0.15],
    [20, 0.08],
    [20, 0.35],
  ])('[CAL2] does not fall short at n = %d and a fixed spread of %d', (n, spread) => {
    for (const dayShare of [0, 0.3, 0.6]) {
      const random = createRandom(SEED + n);
      const fixed = coverage(40, n, random, () => ({
        mean: WEAK_PRIOR.meanLogSd * random.normal(),
        spread,
        dayShare,
      }));
      expect(fixed, `day share ${dayShare}`).toBeGreaterThan(90.5);
    }
  });
});
