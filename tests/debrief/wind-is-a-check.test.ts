/** The wind that the track implies checks the entered one and never stands in for it. */
import { expect, test } from 'vitest';
import { isUndetermined, type Undetermined } from '../../src/result.ts';
import type { Conditions } from '../../src/weather/conditions.ts';
import { expectNear } from '../expect-near.ts';
import { debriefDemo, demoContext } from './demo-flights.ts';

const FILE = '2024-07-14-gusty-go-around-sedge.gpx';

/** The flight with other conditions; its first landing's prediction. */
async function withWind(wind: Conditions['wind']) {
  const context = demoContext();
  const noted = context.conditions?.byFile.get(FILE);
  if (!context.conditions || !noted) throw new Error(`no conditions for ${FILE}`);
  const byFile = new Map([[FILE, { ...noted, wind }]]);
  const conditions = { ...context.conditions, byFile };
  const { flights } = await debriefDemo(FILE, { ...context, conditions });
  const [flight] = flights;
  const last = flight.compared.approaches[flight.compared.approaches.length - 1];
  return { wind: flight.wind, prediction: last.prediction };
}

function determined<T extends object>(value: T | Undetermined): T {
  if (isUndetermined(value)) throw new Error(value.undetermined);
  return value;
}

test('[WI1] is the same whatever was entered, and what was entered predicts', async () => {
  const calm = await withWind({ fromDeg: null, reference: 'true', speedKt: 0, gustKt: null });
  const windy = await withWind({ fromDeg: 200, reference: 'true', speedKt: 10, gustKt: null });
  expect(determined(calm.wind)).toEqual(determined(windy.wind));
  const { speedMps } = determined(calm.wind);
  // The track tells a wind far from calm: it would show, were it used.
  expect(isUndetermined(speedMps) ? 0 : speedMps.low).toBeGreaterThan(5);
  expectNear(Number(determined(calm.prediction).day.headwindMps), 0, 1e-9, 'calm');
  const headwindMps = determined(windy.prediction).day.headwindMps;
  // 10 kt nearly along the strip.
  expectNear(Number(headwindMps), 5.14, 0.1, 'headwind');
});

test('[WI1] does not stand in for a wind that nobody entered', async () => {
  const none = await withWind(null);
  determined(none.wind);
  expect(none.prediction).toEqual({
    undetermined: expect.stringContaining('no wind was entered') as string,
  });
});
