/** How own factors are told: never as a permission, and with what they rest on. */
import { describe, expect, test } from 'vitest';
import { calibrate } from '../../src/calibration/calibrate.ts';
import { compare, type Comparison } from '../../src/calibration/comparison.ts';
import type { AeroplaneFactors } from '../../src/debrief/own-factors.ts';
import { factorLines } from '../../src/report/factor-tables.ts';

/** Landings of two on each of so many days, each this many times the expected 200 m. */
function landings(ratios: readonly number[], effort: 'full' | 'coasted' = 'full'): Comparison[] {
  return ratios.map((ratio, k) => {
    const measuredM = { value: 200 * ratio, low: 200 * ratio - 8, high: 200 * ratio + 8 };
    return compare({
      ...{ quantity: 'landing-from-50-ft', measuredM, expectedM: 200, effort },
      ...{ dayKey: `day ${k >> 1}`, stripLeftM: { value: 50, low: 45, high: 55 }, ldaM: 400 },
      ...{ slopeRatio: 0, factorSet: null },
    });
  });
}

function factorsOf(comparisons: readonly Comparison[], goArounds = 1): AeroplaneFactors {
  return {
    aeroplane: 'reed-1',
    name: 'Reed 1',
    factors: [calibrate('landing-from-50-ft', comparisons), calibrate('landing-roll', [])],
    goArounds,
  };
}

describe('[FT1] own factors in words', () => {
  test('[FT1] a small one keeps the published factor and says that it is no permission', () => {
    const lines = factorLines([factorsOf(landings([0.9, 1, 0.95, 1.05, 0.92, 1.02, 0.98, 1]))]);
    const text = lines.join(' ').replace(/\s+/g, ' ');
    expect(lines[0]).toBe(
      'Own factors, Reed 1 (1 go-around in the same flights: landings broken off are not among these)',
    );
    expect(text).toContain('8 on 4 days');
    expect(text).toMatch(
      /landing from 50 ft, not known: Your own factor 1\.\d\d is below the published 1\.43 of UK leaflet 7c/,
    );
    expect(text).toContain('no permission to plan shorter');
    expect(lines[2]).toMatch(/ 1\.43 +1\.43$/);
  });

  test('[FT1] a large one is said loudly and is the one to plan with', () => {
    const lines = factorLines([factorsOf(landings([1.5, 1.7, 1.6, 1.8, 1.4, 1.6, 1.7, 1.5]))]);
    const text = lines.join(' ').replace(/\s+/g, ' ');
    expect(text).toMatch(/LARGER than the published 1\.43 of UK leaflet 7c: plan with \d\.\d\d/);
    const [, planWith] = /1\.43 +(\d\.\d\d)$/.exec(lines[2]) ?? [];
    expect(Number(planWith)).toBeGreaterThan(1.7);
    expect(text).toContain(`plan with ${planWith}.`);
  });

  test('[FT2] too few give no factor, with what there is; one day is a day', () => {
    const lines = factorLines([factorsOf(landings([1, 1.1]), 0)]);
    expect(lines[0]).toContain('(0 go-arounds in');
    expect(lines[1].trim().split(/ {2,}/)).toEqual([
      'distance',
      'ground',
      'rests on',
      'own factor',
    ]);
    expect(lines[2].trim().split(/ {2,}/)).toEqual([
      'landing from 50 ft',
      'not known',
      '2 on 1 day',
      'too few',
    ]);
    expect(lines.filter((line) => line.includes('a factor needs 5 or more'))).toHaveLength(1);
    expect(lines.join('\n')).not.toMatch(/\d\.\d\d/);
  });

  test('[FT2] coasted landings are named as upper bounds', () => {
    const lines = factorLines([factorsOf([...landings([1, 1.1]), ...landings([1.9], 'coasted')])]);
    expect(lines[2]).toContain('2 on 1 day; 1 upper bound');
  });

  test('[FT3] a distance, or an aeroplane, of which nothing was compared takes no line', () => {
    expect(factorLines([factorsOf(landings([1, 1.1]))]).join()).not.toContain('landing roll');
    expect(factorLines([factorsOf([])])).toEqual([]);
    expect(factorLines([])).toEqual([]);
  });
});
