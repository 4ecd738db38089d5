/** What a knot, a wet surface, ten kilograms or five degrees change, through the predictor itself. */
import { expect, test } from 'vitest';
import { isUndetermined } from '../../src/result.ts';
import { sensitivity, type SensitivityChange } from '../../src/performance/sensitivity.ts';
import type { Conditions } from '../../src/weather/conditions.ts';
import { expectNear } from '../expect-near.ts';
import { ask, metres, reasonOf, STILL_DAY, type Changes } from './invented-aeroplane.ts';

function rows(conditions: Partial<Conditions> = {}, changes: Changes = {}): SensitivityChange[] {
  return sensitivity(
    { ...STILL_DAY, ...conditions },
    { landing: 90, takeOff: 90 },
    (landing, takeOff) => ({
      landing: ask({ ...changes, conditions: landing }),
      takeOff: ask({ ...changes, conditions: takeOff }),
    }),
  );
}

function row(all: readonly SensitivityChange[], id: SensitivityChange['id']): SensitivityChange {
  const found = all.find((each) => each.id === id);
  if (!found) throw new Error(`no row ${id} among ${all.map((each) => each.id).join()}`);
  return found;
}

// 450 m from 50 ft and 500 m to it on dry grass (1.15, 1.20), safety 1.43 and 1.33, 50 kt at contact.
const IN = 450 * 1.15;
const OUT = 500 * 1.2;

test('[SEN1] one knot less headwind on a calm day is one knot of tailwind, one and a half for the plan', () => {
  const { landing, takeOff } = row(rows(), 'headwind-1-less');
  if (!landing || !takeOff) throw new Error('no row');
  // A tenth of the speed, 5 kt, is 20 %: a knot is 4 %, one and a half 6 %.
  expectNear(metres(landing.expectedM), IN * 0.04, 1e-6);
  expectNear(metres(landing.plannedM), IN * 1.43 * 0.06, 1e-6);
  expectNear(metres(takeOff.expectedM), OUT * 0.04, 1e-6);
  expectNear(metres(takeOff.plannedM), OUT * 1.33 * 0.06, 1e-6);
});

test('[SEN2] the grass wet: 1.35 over 1.15 in, 1.30 over 1.20 out', () => {
  const { landing, takeOff } = row(rows(), 'wet');
  if (!landing || !takeOff) throw new Error('no row');
  expectNear(metres(landing.expectedM), 450 * (1.35 - 1.15), 1e-9);
  expectNear(metres(landing.plannedM), 450 * (1.35 - 1.15) * 1.43, 1e-9);
  expectNear(metres(takeOff.plannedM), 500 * (1.3 - 1.2) * 1.33, 1e-9);
});

test('[SEN3] ten kilograms of 1000 are a tenth of 10 % in and of 20 % out; five degrees half of 5 % and of 10 %', () => {
  const mass = row(rows(), 'mass-10-more');
  expectNear(metres(mass.landing?.expectedM ?? NaN), IN * 0.01, 1e-6);
  expectNear(metres(mass.takeOff?.expectedM ?? NaN), OUT * 0.02, 1e-6);
  const warm = row(rows(), 'temp-5-more');
  expectNear(metres(warm.landing?.expectedM ?? NaN), IN * 0.025, 1e-6);
  expectNear(metres(warm.takeOff?.expectedM ?? NaN), OUT * 0.05, 1e-6);
});

test('[SEN4] five knots more are shown only for a wind that was reported elsewhere', () => {
  const ids = (all: readonly SensitivityChange[]) => all.map(({ id }) => id);
  expect(ids(rows())).not.toContain('headwind-5-more');
  const reported = rows({ windReportedAt: 'XXDL' });
  const more = row(reported, 'headwind-5-more').landing;
  expect(metres(more?.expectedM ?? NaN)).toBeLessThan(0);
  expect(metres(row(reported, 'headwind-5-less').landing?.expectedM ?? NaN)).toBeGreaterThan(0);
});

test('[SEN6] a wind without a direction has no knot less along the strip; a calm has', () => {
  const variable = { fromDeg: null, reference: 'true', speedKt: 4, gustKt: null } as const;
  const ids = rows({ wind: variable, windReportedAt: 'XXDL' }).map(({ id }) => id);
  expect(ids).toEqual(['wet', 'mass-10-more', 'temp-5-more']);
  const calm = rows({ wind: { ...variable, speedKt: 0 } }).map(({ id }) => id);
  expect(calm).toContain('headwind-1-less');
});

test('[SEN5] a change beyond a limit gives the reason, and nothing is shown where nothing was predicted', () => {
  const heavy = row(rows({ massKg: 1195 }), 'mass-10-more').landing;
  expect(reasonOf(heavy?.plannedM)).toContain("1205 kg lies outside the aeroplane's limits");
  expect(rows({ massKg: null })).toEqual([]);
  const oneWay = rows({}, { direction: { use: 'landing' } });
  expect(oneWay.every(({ takeOff }) => takeOff === null)).toBe(true);
  expect(isUndetermined(oneWay[0].landing?.plannedM)).toBe(false);
});
