import { describe, expect, test } from 'vitest';
import type { Comparison, ComparedQuantity } from '../../src/calibration/comparison.ts';
import {
  pooledFactors,
  type GroupedComparison,
  type SurfaceClass,
} from '../../src/calibration/pooled-factor.ts';
import type { LogRatio } from '../../src/calibration/log-ratio.ts';
import { predictNextRatio, WEAK_PRIOR } from '../../src/calibration/predictive.ts';
import { normalCdf } from '../../src/numeric/distributions.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

function landings(
  surface: SurfaceClass,
  n: number,
  middle: number,
  quantity: ComparedQuantity = 'landing-from-50-ft',
): GroupedComparison[] {
  const random = createRandom(3);
  return Array.from({ length: n }, (_, i) => {
    const log = Math.log(middle) + 0.1 * random.normal();
    const ratio = Math.exp(log);
    const comparison: Comparison = {
      quantity,
      dayKey: `${surface} ${i >> 1}`,
      ratio: { value: ratio, low: ratio * 0.9, high: ratio * 1.1 },
      log: { value: log, sd: 0.06 },
      role: 'counts',
      why: 'for the test',
    };
    return { comparison, aeroplane: 'one', surface };
  });
}

function factorOn(surface: SurfaceClass, all: readonly GroupedComparison[]) {
  const found = pooledFactors('landing-from-50-ft', all).find((each) => each.surface === surface);
  if (!found) throw new Error(`no ${surface} group`);
  return found;
}

describe('[POOL1] the landings decide how much is pooled', () => {
  test('[POOL1] a small group is drawn towards alike ones, and its factor is below its own', () => {
    const found = factorOn('dry', [...landings('dry', 6, 1.5), ...landings('not known', 40, 1.5)]);
    expect(found.alone).not.toBeNull();
    expect(found.factor).toBeLessThan(found.alone ?? 0);
  });

  test('[POOL1] groups that differ clearly are told apart', () => {
    const all = [...landings('dry', 30, 1), ...landings('not known', 30, 1.8)];
    expectNear(factorOn('dry', all).typicalRatio?.value ?? NaN, 1, 0.06, 'dry');
    expectNear(factorOn('not known', all).typicalRatio?.value ?? NaN, 1.8, 0.1, 'the other');
  });

  test('[POOL1] one group alone gets the factor that calibrating it alone gives', () => {
    const found = factorOn('dry', landings('dry', 12, 1.2));
    expectNear(found.factor ?? NaN, found.alone ?? NaN, 1e-12, 'factor');
  });
});

describe('[POOL2] wet and soft ground keep the published factor', () => {
  test.each(['wet', 'soft'] as const)(
    '[POOL2] three %s landings are too few, however many dry ones there are',
    (surface) => {
      const found = factorOn(surface, [...landings('dry', 40, 0.8), ...landings(surface, 3, 0.8)]);
      expect(found).toMatchObject({ factor: null, isFloor: false, alone: null });
      expect(found.why).toContain('3 that count');
    },
  );

  test('[POOL2] many wet landings of their own may say less, and pooling takes nothing off that', () => {
    const found = factorOn('wet', [...landings('dry', 40, 0.6), ...landings('wet', 8, 0.8)]);
    expect(found.alone).toBeLessThan(1.43);
    expect(found.factor).toBeGreaterThanOrEqual(found.alone ?? Infinity);
  });

  test('[POOL2] a wet group that needs more than published says so', () => {
    const found = factorOn('wet', [...landings('dry', 20, 1), ...landings('wet', 6, 1.6)]);
    expect(found.factor).toBeGreaterThan(1.43);
    expect(found.isFloor && found.factor !== found.alone).toBe(false);
  });

  test('[POOL2] a roll keeps the surface factor that is in the expected figure', () => {
    const quantity = 'take-off-roll';
    const all = [...landings('dry', 40, 0.6, quantity), ...landings('wet', 6, 0.75, quantity)];
    const wet = pooledFactors(quantity, all).find(({ surface }) => surface === 'wet');
    expect(wet?.isFloor).toBe(true);
    expect(wet?.factor).toBe(Math.min(1, wet?.alone ?? NaN));
  });
});

describe('[POOL3] upper bounds', () => {
  // One shared day of two coasted landings, the rest on days of their own; every integral by brute force.
  const value = (logRatio: number, dayKey: string): LogRatio => ({
    ...{ logRatio, dayKey },
    sd: 0.08,
    kind: 'value',
  });
  const bound = (logRatio: number): LogRatio => ({ ...value(logRatio, 'x'), kind: 'upper-bound' });
  const all = [
    value(0.1, 'a'),
    value(0.3, 'b'),
    value(-0.1, 'c'),
    value(0.2, 'd'),
    bound(0.05),
    bound(0.1),
  ];

  test('[POOL3] the mean agrees with integrating every unknown by brute force', () => {
    const found = Math.log(predictNextRatio(all).typicalRatio.value);
    expectNear(found, bruteForceMedian(all), 0.004, 'median of the mean log ratio');
  });

  test('[POOL3] a bound far above says nothing', () => {
    const without = all.slice(0, 4);
    const far = [...without, bound(40)];
    expectNear(
      predictNextRatio(far).quantile(0.95),
      predictNextRatio(without).quantile(0.95),
      1e-6,
      'factor',
    );
  });
});

/** Median of the mean log ratio on a plain grid of mean, spread, day share and the bounds' day. */
function bruteForceMedian(landingsOfAll: readonly LogRatio[]): number {
  const means = Array.from({ length: 81 }, (_, i) => -0.8 + i * 0.02);
  const weights = means.map((mean) => {
    let sum = 0;
    for (let z = -2.8; z <= 2.8; z += 0.2) {
      const spread = WEAK_PRIOR.spreadMedian * Math.exp(WEAK_PRIOR.spreadLogSd * z);
      for (let j = 0; j < 12; j++) {
        const share = Math.sin((Math.PI / 2) * ((j + 0.5) / 12)) ** 2;
        let likelihood = Math.exp(-0.5 * z * z - 0.5 * (mean / WEAK_PRIOR.meanLogSd) ** 2);
        for (const { kind, logRatio, sd } of landingsOfAll) {
          if (kind === 'upper-bound') continue;
          const total = Math.hypot(spread, sd);
          likelihood *= Math.exp(-0.5 * ((logRatio - mean) / total) ** 2) / total;
        }
        let ofDay = 0;
        for (let d = -4; d <= 4; d += 0.5) {
          let both = Math.exp(-0.5 * d * d);
          for (const { kind, logRatio, sd } of landingsOfAll) {
            if (kind === 'value') continue;
            const centre = mean + d * spread * Math.sqrt(share);
            both *= normalCdf((logRatio - centre) / Math.hypot(spread * Math.sqrt(1 - share), sd));
          }
          ofDay += both;
        }
        sum += likelihood * ofDay;
      }
    }
    return sum;
  });
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  let below = 0;
  for (let i = 0; i < means.length; i++) {
    if (below + weights[i] >= total / 2) {
      return means[i] - 0.01 + (0.02 * (total / 2 - below)) / weights[i];
    }
    below += weights[i];
  }
  throw new Error('no median');
}

describe('[POOL4] speed', () => {
  test('[POOL4] a factor from 50 landings takes well under 50 ms', () => {
    const random = createRandom(5);
    const fifty = Array.from({ length: 50 }, (_, i): LogRatio => ({
      ...{ logRatio: 0.2 * random.normal(), sd: 0.09, dayKey: `${i >> 1}` },
      kind: i % 10 === 0 ? 'upper-bound' : 'value',
    }));
    predictNextRatio(fifty).quantile(0.95);
    const startedMs = performance.now();
    for (let k = 0; k < 10; k++) predictNextRatio(fifty).quantile(0.95);
    const eachMs = (performance.now() - startedMs) / 10;
    expect(eachMs).toBeLessThan(50);
  });
});
