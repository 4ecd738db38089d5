import { describe, expect, test } from 'vitest';
import { compare, type ComparisonInput } from '../../src/calibration/comparison.ts';
import { isUndetermined, normalEstimate, undetermined, Z90 } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';

const PLAIN: ComparisonInput = {
  quantity: 'landing-roll',
  measuredM: normalEstimate(240, 10),
  expectedM: 200,
  dayKey: '2026-05-02',
  effort: null,
  stripLeftM: { value: 100, low: 90, high: 110 },
  ldaM: 400,
  slopeRatio: 0.01,
  factorSet: null,
};

describe('[CMP1] measured against expected', () => {
  test('[CMP1] is their ratio, with the band of the measuring alone', () => {
    const { ratio, log } = compare(PLAIN);
    if (isUndetermined(ratio) || isUndetermined(log)) throw new Error('undetermined');
    expectNear(ratio.value, 1.2, 1e-12, 'ratio');
    expectNear(ratio.low, (240 - Z90 * 10) / 200, 1e-12, 'low');
    expectNear(ratio.high, (240 + Z90 * 10) / 200, 1e-12, 'high');
    expectNear(log.value, Math.log(1.2), 1e-12, 'log');
    // For a small relative error the sd of the logarithm is the relative error itself.
    expectNear(log.sd, 10 / 240, 0.0005, 'sd');
  });

  test('[CMP2] a band that reaches zero still has a logarithm', () => {
    const { ratio, log } = compare({ ...PLAIN, measuredM: { value: 60, low: -5, high: 120 } });
    if (isUndetermined(ratio) || isUndetermined(log)) throw new Error('undetermined');
    expectNear(ratio.low, 60 / 2 / 200, 1e-12, 'low');
    expectNear(log.sd, Math.log(2) / Z90, 1e-12, 'sd');
  });

  test.each([
    ['measured', { measuredM: undetermined('no touchdown found') }, 'no touchdown found'],
    ['expected', { expectedM: undetermined('no wind was entered') }, 'no wind was entered'],
    ['a measured zero', { measuredM: { value: 0, low: 0, high: 0 } }, 'not positive'],
    ['an expected zero', { expectedM: 0 }, 'not positive'],
    ['a measured NaN', { measuredM: { value: NaN, low: NaN, high: NaN } }, 'not positive'],
  ])('[CMP3] without %s there is no ratio, with the reason', (_what, changes, reason) => {
    const found = compare({ ...PLAIN, ...changes });
    expect(found.role).toBe('left-out');
    expect(found.why).toContain(reason);
    expect(isUndetermined(found.ratio)).toBe(true);
  });
});

describe('[CMP4] which landings count', () => {
  test.each([
    ['little strip left', {}, 'counts'],
    ['over half the LDA left', { stripLeftM: { value: 210, low: 200, high: 220 } }, 'left-out'],
    [
      'over half left but marked full effort',
      { stripLeftM: { value: 210, low: 200, high: 220 }, effort: 'full' },
      'counts',
    ],
    ['coasted', { effort: 'coasted' }, 'upper-bound'],
    ['strip left not known', { stripLeftM: undetermined('unknown place') }, 'counts'],
    ['beyond 5 % of slope', { slopeRatio: -0.06 }, 'left-out'],
    ['past the end', { stripLeftM: { value: -20, low: -30, high: -10 } }, 'counts'],
  ] as const)('[CMP4] %s', (_what, changes, role) => {
    const found = compare({ ...PLAIN, ...changes });
    expect(found.role).toBe(role);
    expect(found.why.length).toBeGreaterThan(10);
  });

  test('[CMP5] the part a landing plays never depends on its ratio', () => {
    const roles = [50, 150, 240, 600, 2000].map(
      (metres) => compare({ ...PLAIN, measuredM: normalEstimate(metres, 5) }).role,
    );
    expect(new Set(roles)).toEqual(new Set(['counts']));
  });

  test('[CMP6] take-offs all count', () => {
    const found = compare({ ...PLAIN, quantity: 'take-off-roll', effort: 'coasted' });
    expect(found.role).toBe('counts');
  });
});
