import { describe, expect, test } from 'vitest';
import { forecastPairs } from '../../src/debrief/forecast-pairs.ts';
import { isUndetermined } from '../../src/result.ts';
import { MPS_PER_KNOT } from '../../src/units/convert.ts';
import type { Conditions, EnteredWind } from '../../src/weather/conditions.ts';
import { expectNear } from '../expect-near.ts';
import { debriefDemo, demoContext } from './demo-flights.ts';

const FILE = '2025-06-08-every-two-seconds-mereling.gpx';

describe('[FCP1] the wind along the strip, planned with and met', async () => {
  const { flights } = await debriefDemo(FILE, demoContext());
  const [flight] = flights;
  if (isUndetermined(flight.conditions)) throw new Error('no conditions');
  const entered = flight.conditions;
  const plannedWith = (wind: EnteredWind | null) => {
    const conditions: Conditions = { ...entered, wind };
    return forecastPairs(flights, { all: null, byFile: new Map([[FILE, conditions]]) });
  };

  test('[FCP1] is split along the direction of the first landing at a kept strip', () => {
    const landing = flight.events.approaches.find(({ strip }) => strip !== null);
    if (!landing) throw new Error('no landing');
    const view = flight.events.views.find(
      ({ stripId, direction }) =>
        stripId === landing.strip && direction.designator === landing.direction,
    );
    if (!view) throw new Error('no view');
    const bearing = view.frame.trueBearingDeg;
    const along = { fromDeg: bearing, reference: 'true', speedKt: 10, gustKt: null } as const;
    const [pair] = plannedWith(along);
    expect(pair).toMatchObject({
      file: FILE,
      day: '2025-06-08',
      strip: landing.strip,
      direction: landing.direction,
    });
    expectNear(pair.forecastMps, 10 * MPS_PER_KNOT, 1e-9, 'straight ahead');
    expectNear(
      plannedWith({ ...along, fromDeg: bearing + 180 })[0].forecastMps,
      -pair.forecastMps,
      1e-9,
    );
    expectNear(plannedWith({ ...along, fromDeg: bearing + 90 })[0].forecastMps, 0, 1e-9, 'across');
  });

  test('[FCP1] a magnetic wind is turned by the variation, some degrees there', () => {
    const { fromDeg } = entered.wind ?? { fromDeg: null };
    const wind = { fromDeg, reference: 'true', speedKt: 12, gustKt: null } as const;
    const [asTrue] = plannedWith(wind);
    const [asMagnetic] = plannedWith({ ...wind, reference: 'magnetic' });
    const turned = Math.abs(asTrue.forecastMps - asMagnetic.forecastMps);
    expect(turned).toBeGreaterThan(1e-4);
    expect(turned).toBeLessThan(12 * MPS_PER_KNOT * Math.sin((5 * Math.PI) / 180));
  });

  test('[FCP2] a wind taken over, none, or one without a direction is no pair', () => {
    expect(plannedWith(entered.wind)).toEqual([]);
    expect(plannedWith(null)).toEqual([]);
    const variable = { fromDeg: null, reference: 'true', speedKt: 3, gustKt: null } as const;
    expect(plannedWith(variable)).toEqual([]);
    expect(forecastPairs(flights, { all: null, byFile: new Map() })).toEqual([]);
  });
});
