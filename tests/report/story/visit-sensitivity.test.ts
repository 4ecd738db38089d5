/** What a little less wind or a little more mass would change. */
import { describe, expect, test } from 'vitest';
import { USUAL_UNITS } from '../../../src/report/figure-text.ts';
import type { BothPredictions } from '../../../src/performance/sensitivity.ts';
import { visitSensitivity } from '../../../src/report/story/visit-sensitivity.ts';
import type { Conditions } from '../../../src/weather/conditions.ts';
import { undetermined } from '../../../src/result.ts';
import { expectNear } from '../../expect-near.ts';

const CONDITIONS: Conditions = {
  wind: { fromDeg: 250, reference: 'true', speedKt: 8, gustKt: 12 },
  tempC: 15,
  qnhHpa: 1013,
  massKg: 900,
  takeOffMassKg: null,
  surface: 'grass-dry',
  flap: null,
  aeroplane: null,
  factorSet: null,
  effort: null,
};
const BEARINGS = { landing: 200, takeOff: 20 };
const NONE: BothPredictions = { landing: null, takeOff: null };

function asked(conditions: Conditions): { landing: Conditions; takeOff: Conditions }[] {
  const found: { landing: Conditions; takeOff: Conditions }[] = [];
  visitSensitivity(
    conditions,
    BEARINGS,
    (landing, takeOff) => {
      found.push({ landing, takeOff });
      return NONE;
    },
    USUAL_UNITS,
  );
  return found;
}

/** Headwind and crosswind from the right, knots. */
function parts({ wind }: Conditions, bearingDeg: number): { along: number; across: number } {
  const off = (((wind?.fromDeg ?? 0) - bearingDeg) * Math.PI) / 180;
  const kt = wind?.speedKt ?? NaN;
  return { along: kt * Math.cos(off), across: kt * Math.sin(off) };
}

describe('what is tried', () => {
  test('[VI10] takes knots off along the strip alone, in each direction its own', () => {
    const [before, one, five] = asked(CONDITIONS);
    for (const [which, bearing] of [
      ['landing', 200],
      ['takeOff', 20],
    ] as const) {
      const was = parts(before[which], bearing);
      expectNear(parts(one[which], bearing).along, was.along - 1, 1e-9);
      expectNear(parts(five[which], bearing).along, was.along - 5, 1e-9);
      expectNear(parts(five[which], bearing).across, was.across, 1e-9);
    }
    // The gust stays 4 kt over the mean.
    const { wind } = five.landing;
    expectNear((wind?.gustKt ?? NaN) - (wind?.speedKt ?? NaN), 4, 1e-9);
  });

  test('[VI11] makes a calm day one with a tailwind, and leaves a variable wind alone', () => {
    const calm = asked({ ...CONDITIONS, wind: { ...NO_WIND, speedKt: 0 } });
    expectNear(parts(calm[1].landing, 200).along, -1, 1e-9);
    const variable = { ...NO_WIND, speedKt: 4 };
    expect(asked({ ...CONDITIONS, wind: variable })[1].landing.wind).toEqual(variable);
  });

  test('[VI12] wets only grass that was entered as dry, and adds mass only where it was entered', () => {
    expect(asked(CONDITIONS).map(({ landing }) => landing.surface)).toContain('grass-wet');
    const hard = asked({ ...CONDITIONS, surface: 'hard-dry' });
    expect(hard.map(({ landing }) => landing.surface)).not.toContain('grass-wet');
    const heavier = asked(CONDITIONS).at(-2)?.landing;
    expect([heavier?.massKg, heavier?.takeOffMassKg]).toEqual([910, null]);
  });
});

const NO_WIND = { fromDeg: null, reference: 'true' as const, gustKt: null };

describe('the rows', () => {
  test('[VI13] show the change of the planned distance with its sign, or why there is none', () => {
    const rows = visitSensitivity(
      CONDITIONS,
      { landing: 200, takeOff: null },
      ({ massKg, surface }) => ({
        takeOff: null,
        landing:
          surface === 'grass-wet'
            ? undetermined('no factor')
            : predictionOf(500 + 2 * ((massKg ?? 0) - 900)),
      }),
      USUAL_UNITS,
    );
    const found = rows.map(({ label, landing, takeOff }) => [
      label,
      landing?.text.replaceAll('\u00a0', ' '),
      takeOff,
    ]);
    expect(found).toEqual([
      ['one knot less headwind', '0 m', null],
      ['five knots less headwind', '0 m', null],
      ['the grass wet', 'no prediction: no factor', null],
      ['ten kilograms more', '+20 m', null],
      ['five degrees warmer', '0 m', null],
    ]);
  });
});

function predictionOf(plannedFrom50FtM: number): BothPredictions['landing'] {
  const none = undetermined('not part of this test');
  return {
    factorSet: 'uk-leaflet',
    day: {
      headwindMps: 0,
      crosswindMps: 0,
      pressureAltitudeM: 0,
      densityAltitudeM: 0,
      densityRatio: 1,
    },
    speeds: none,
    takeOff: none,
    notes: [],
    landing: {
      expectedRollM: none,
      plannedRollM: none,
      expectedFrom50FtM: none,
      plannedFrom50FtM,
      expectedAirM: none,
      marginM: none,
      latestTouchdownAlongM: none,
      chain: { expected: [], planned: [] },
    },
  };
}
