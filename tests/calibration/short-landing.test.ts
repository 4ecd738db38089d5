/** Which landings tell of the length that is needed, and how far off a forecast is. */
import { describe, expect, test } from 'vitest';
import { compare } from '../../src/calibration/comparison.ts';
import { forecastSpread } from '../../src/calibration/forecast-spread.ts';
import { shortLanding, type ShortLandingInput } from '../../src/calibration/short-landing.ts';
import { isUndetermined, undetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';

const ROLL = { value: 150, low: 140, high: 161 };

function landing(changes: Partial<ShortLandingInput>): ReturnType<typeof shortLanding> {
  const roll = compare({
    quantity: 'landing-roll',
    measuredM: ROLL,
    expectedM: 140,
    dayKey: '2026-05-01',
    effort: null,
    stripLeftM: { value: 120, low: 115, high: 125 },
    ldaM: 400,
    slopeRatio: 0,
    factorSet: null,
  });
  return shortLanding({
    dayKey: '2026-05-01',
    effort: null,
    ldaM: 400,
    plannedFrom50FtM: 300,
    slopeRatio: 0,
    touchdownAlongM: { value: 60, low: 50, high: 70 },
    rollM: ROLL,
    roll,
    ...changes,
  });
}

function whyNot(found: ReturnType<typeof shortLanding>): string {
  return isUndetermined(found) ? found.undetermined : 'it was';
}

describe('a landing meant to be short', () => {
  test('[SHL1] is any on a strip of less than 1.5 planned distances', () => {
    expect(isUndetermined(landing({ ldaM: 449 }))).toBe(false);
    expect(whyNot(landing({ ldaM: 450 }))).toMatch(/1.5 times/);
    expect(isUndetermined(landing({ ldaM: 449, effort: 'normal' }))).toBe(false);
  });

  test('[SHL2] is one marked as full effort on any strip, and none that was coasted', () => {
    expect(isUndetermined(landing({ ldaM: 900, effort: 'full' }))).toBe(false);
    expect(isUndetermined(landing({ ldaM: null, effort: 'full' }))).toBe(false);
    expect(whyNot(landing({ effort: 'coasted' }))).toMatch(/coasted/);
  });

  test('[SHL3] says nothing on a steep strip or without its touchdown or roll', () => {
    expect(whyNot(landing({ slopeRatio: -0.06 }))).toMatch(/slope/);
    expect(landing({ touchdownAlongM: undetermined('not seen') })).toEqual(
      undetermined('not seen'),
    );
    expect(landing({ plannedFrom50FtM: undetermined('no table') })).toEqual(
      undetermined('no table'),
    );
    expect(whyNot(landing({ ldaM: null }))).toMatch(/known strip/);
  });
});

describe('the wind along the strip as forecast', () => {
  const pair = (off: number) => ({ forecastMps: 3, actualMps: 3 + off });

  test('[FCS1] is off by a stated 4 kt until five visits tell', () => {
    const { sdMps, own } = forecastSpread([pair(1), pair(1), pair(1), pair(1)]);
    expect(own).toBe(false);
    expectNear(sdMps, (4 * 1852) / 3600, 1e-12, '4 kt');
  });

  test('[FCS2] counts a bias as spread, and is wider for few visits', () => {
    // Root mean square 2 m/s; t(0.95; 5) = 2.015 over 1.645 (standard tables).
    const { sdMps, own, pairs } = forecastSpread([-2, -2, -2, -2, -2].map(pair));
    expect([own, pairs]).toEqual([true, 5]);
    expectNear(sdMps, (2 * 2.015) / 1.645, 0.002, 'widened');
    expect(() => forecastSpread([NaN, 1, 1, 1, 1].map(pair))).toThrow('number');
  });
});
