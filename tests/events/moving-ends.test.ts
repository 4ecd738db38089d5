/** Rolls that end moving: turning off, or on at a steady taxi; rule RE3 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { isUndetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { FOUR_SEATER, MICROLIGHT } from '../synthetic/aeroplane-model.ts';
import { alongOfRows } from '../synthetic/flown-along.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { createMap, createRunway } from '../synthetic/runway.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { windOf } from '../synthetic/wind-model.ts';
import { eventsOf, holds, onlyOne, valueOf } from './simulated.ts';

const FLIGHTS = 40;

/** Of simulated landings with such an end: how many are found as that, what was held, median lateness. */
function ends(end: 'vacated' | 'taxi', intervalS: number) {
  const found = { right: 0, placeHeld: 0, timeHeld: 0, speedHeld: 0, lateS: [] as number[] };
  for (let k = 0; k < FLIGHTS; k++) {
    const seed = 9900 + k;
    const scenario = flyDrawnApproach(seed, 'full-stop', {
      ...{ aeroplane: FOUR_SEATER, roll: { end, endMps: 3 + (k % 3) } },
    });
    const { rollEnd: truth } = scenario.flown.truth.approaches[0];
    const { rollEnd } = onlyOne(eventsOf(scenario, { seed, receiver: { intervalS } }).approaches);
    if (!truth || isUndetermined(rollEnd)) continue;
    if (rollEnd.kind === end) found.right++;
    if (holds(rollEnd.alongM, truth.alongM)) found.placeHeld++;
    if (holds(rollEnd.timeS, truth.timeS)) found.timeHeld++;
    if (holds(rollEnd.groundSpeedMps, truth.groundSpeedMps)) found.speedHeld++;
    found.lateS.push(valueOf(rollEnd.timeS) - truth.timeS);
  }
  const lateS = found.lateS.toSorted((a, b) => a - b)[found.lateS.length >> 1];
  return { ...found, lateS };
}

describe.each([1, 4])('[RE3] with a fix every %i s', (intervalS) => {
  test.each(['vacated', 'taxi'] as const)(
    '[RE3] a roll that ends by %s is known as that, ends where it truly did, and its bands hold',
    (end) => {
      const { right, placeHeld, timeHeld, speedHeld, lateS } = ends(end, intervalS);
      // In a slow log 60 m of taxi are three fixes.
      const least = intervalS === 1 ? 39 : 34;
      // Of 40 bands of nine in ten fewer than 31 hold about once in a hundred.
      expect({
        right: right >= least,
        placeHeld: placeHeld >= 31,
        timeHeld: timeHeld >= 31,
        speedHeld: speedHeld >= 31,
      }).toEqual({ right: true, placeHeld: true, timeHeld: true, speedHeld: true });
      expectNear(lateS, 0, 0.3 + 0.15 * intervalS, 'median lateness');
    },
  );
});

test('[RE3] a drift that led off the strip ends the roll where it did, not before the wheels were down', () => {
  // So slow against the wind that half the approach speed is passed in the air: the drift then goes back beyond the touch.
  const strip = inventStrip(createMap(), { id: 'askew', bearingDeg: 0, lengthM: 600 });
  const seed = 8;
  const flight = flyDrawnApproach(seed, 'full-stop', {
    ...{ aeroplane: MICROLIGHT, strip, wind: windOf(0, 9, 0) },
    roll: { ...{ end: 'taxi', endMps: 4 }, brakes: { mps2: 2 }, brakeDelayS: 0.3 },
  });
  const { flown, designator } = flight;
  const { unitEast, unitNorth, circuitSide } = createRunway(strip, designator, flown.map);
  const { alongM } = alongOfRows(flight);
  const touchedM = flown.truth.approaches[0].touchdown?.alongM ?? NaN;
  const rightM = alongM.map((m) => circuitSide * Math.tan(Math.PI / 15) * (m - touchedM));
  const drifted = {
    ...flown,
    eastM: flown.eastM.map((m, i) => m + rightM[i] * unitNorth),
    northM: flown.northM.map((m, i) => m - rightM[i] * unitEast),
  };
  const found = onlyOne(eventsOf({ ...flight, flown: drifted }, { seed }).approaches);
  const { rollEnd, touchdown, groundRollM } = found;
  if (isUndetermined(rollEnd) || isUndetermined(touchdown)) throw new Error('it rolled');
  expect(rollEnd.kind).toBe('vacated');
  const [touchedS, endS] = [touchdown.timeS, rollEnd.timeS].map(valueOf);
  expect(endS).toBeGreaterThan(touchedS + 1);
  // Place and roll are those of that moment.
  const placeM = (timeS: number): number => alongM[flown.timeS.findIndex((t) => t >= timeS)];
  expectNear(valueOf(rollEnd.alongM), placeM(endS), 4);
  expectNear(valueOf(groundRollM), placeM(endS) - placeM(touchedS), 4);
});
