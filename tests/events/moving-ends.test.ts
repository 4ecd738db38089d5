/** Rolls that end moving: turning off, or on at a steady taxi; rule RE3 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { isUndetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { FOUR_SEATER } from '../synthetic/aeroplane-model.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { bandOf, eventsOf, onlyOne } from './simulated.ts';

const FLIGHTS = 40;

/** Of simulated landings with such an end: how many are found as that, place and time held, median lateness. */
function ends(end: 'vacated' | 'taxi', intervalS: number) {
  const found = { right: 0, placeHeld: 0, timeHeld: 0, lateS: [] as number[] };
  for (let k = 0; k < FLIGHTS; k++) {
    const seed = 9900 + k;
    const scenario = flyDrawnApproach(seed, 'full-stop', {
      ...{ aeroplane: FOUR_SEATER, roll: { end, endMps: 3 + (k % 3) } },
    });
    const { rollEnd: truth } = scenario.flown.truth.approaches[0];
    const { rollEnd } = onlyOne(eventsOf(scenario, { seed, receiver: { intervalS } }).approaches);
    if (!truth || isUndetermined(rollEnd)) continue;
    if (rollEnd.kind === end) found.right++;
    const [place, time] = [bandOf(rollEnd.alongM), bandOf(rollEnd.timeS)];
    if (place.low <= truth.alongM && truth.alongM <= place.high) found.placeHeld++;
    if (time.low <= truth.timeS && truth.timeS <= time.high) found.timeHeld++;
    found.lateS.push(time.value - truth.timeS);
  }
  const lateS = found.lateS.toSorted((a, b) => a - b)[found.lateS.length >> 1];
  return { ...found, lateS };
}

describe.each([1, 4])('[RE3] with a fix every %i s', (intervalS) => {
  test.each(['vacated', 'taxi'] as const)(
    '[RE3] a roll that ends by %s is known as that, ends where it truly did, and its bands hold',
    (end) => {
      const { right, placeHeld, timeHeld, lateS } = ends(end, intervalS);
      // In a slow log 60 m of taxi are three fixes.
      const least = intervalS === 1 ? 39 : 34;
      // Of 40 bands of nine in ten fewer than 31 hold about once in a hundred.
      expect({
        right: right >= least,
        placeHeld: placeHeld >= 31,
        timeHeld: timeHeld >= 31,
      }).toEqual({
        ...{ right: true, placeHeld: true, timeHeld: true },
      });
      expectNear(lateS, 0, 0.3 + 0.15 * intervalS, 'median lateness');
    },
  );
});
