/** Page, plan and command line say one thing in one way. */
import { expect, test } from 'vitest';
import { ownFactorText } from '../../src/calibration/calibrate.ts';
import { debriefLines } from '../../src/report/debrief-tables.ts';
import { USUAL_UNITS } from '../../src/report/figure-text.ts';
import { circuitPicture } from '../../src/report/pictures/circuit-picture.ts';
import { isUndetermined } from '../../src/result.ts';
import { DEMO_STRIPS } from '../drawings/demo-pictures.ts';
import { demoFlight } from './demo-flight.ts';

const { debrief, flight } = await demoFlight('2024-04-20-first-circuits-ternholm.gpx');
if (isUndetermined(flight.conditions) || flight.conditions.wind === null) throw new Error('wind');
const conditions = flight.conditions;
const wind = flight.conditions.wind;

test('[OW0] the plan writes the wind in the unit of the pilot', () => {
  const shown = circuitPicture(flight, 2, DEMO_STRIPS, { ...USUAL_UNITS, speed: 'km/h' });
  if (isUndetermined(shown)) throw new Error(shown.undetermined);
  // A knot is 1.852 km/h exactly.
  const kmh = Math.round(wind.speedKt * 1.852);
  expect(shown.wind?.label).toContain(`${kmh}\u00a0km/h`);
});

test('[OW1] a gust in calm air is hidden neither on the plan nor in the tables', () => {
  const gusty = { ...conditions, wind: { ...wind, speedKt: 0, fromDeg: null, gustKt: 12 } };
  const other = { ...flight, conditions: gusty };
  const shown = circuitPicture(other, 2, DEMO_STRIPS, USUAL_UNITS);
  if (isUndetermined(shown)) throw new Error(shown.undetermined);
  expect(shown.noWind).toMatch(/gusts.12/);
  expect(debriefLines({ ...debrief, flights: [other] }, []).join(' ')).toMatch(/gusting 12/);
});

test('[OW2] a larger own factor never reads like the published one', () => {
  expect(ownFactorText(1.4301, 1.43)).toBe('1.431');
  expect(ownFactorText(1.4349, 1.43)).toBe('1.435');
  expect(ownFactorText(1.62, 1.43)).toBe('1.62');
  expect(ownFactorText(1.2, 1.43)).toBe('1.20');
  expect(ownFactorText(1.2, null)).toBe('1.20');
});
