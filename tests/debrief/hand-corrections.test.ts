/** Entries about single landings: places put by hand, effort marks. */
import { describe, expect, test } from 'vitest';
import type { Flight } from '../../src/debrief/debrief.ts';
import type { LandingMarks } from '../../src/debrief/hand-corrections.ts';
import type { Approach } from '../../src/events/flight-event.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { debriefDemo, demoContext } from './demo-flights.ts';

const FILE = '2024-04-20-first-circuits-ternholm.gpx';
const context = demoContext();

async function flightWith(landings: readonly LandingMarks[]): Promise<Flight> {
  const { flights } = await debriefDemo(FILE, { ...context, landings });
  return flights[0];
}

const value = (measured: Measured): number => (isUndetermined(measured) ? NaN : measured.value);
const before = await flightWith([]);
const last = before.events.approaches.length - 1;
const place = (part: Approach['touchdown'] | Approach['rollEnd']) => {
  if (isUndetermined(part)) throw new Error('the landing has no such place');
  return { timeS: value(part.timeS), alongM: value(part.alongM) };
};
const was = before.events.approaches[last];
const touchdown = place(was.touchdown);
const rollEnd = place(was.rollEnd);
const marks = (part: Partial<LandingMarks>): LandingMarks => ({
  aroundS: touchdown.timeS + 4,
  effort: null,
  touchdown: null,
  rollEnd: null,
  ...part,
});

describe('a touchdown put by hand', async () => {
  const put = { timeS: touchdown.timeS + 1, alongM: touchdown.alongM + 25 };
  const flight = await flightWith([marks({ touchdown: put })]);
  const now = flight.events.approaches[last];

  test('[HC1] is exact, and shortens the roll by as much as it was moved', () => {
    expect(place(now.touchdown)).toEqual(put);
    expectNear(value(now.groundRollM), rollEnd.alongM - put.alongM, 1e-6);
    // The stop did not move, so nothing else is left of the strip.
    expect(now.stripLeftM).toEqual(was.stripLeftM);
    expect(now.landingDistanceM).toEqual(was.landingDistanceM);
  });

  test('[HC2] keeps what was measured beside it', () => {
    expect(flight.byHand[last].measuredTouchdown).toEqual(touchdown);
    expect(flight.byHand[last].marks?.touchdown).toEqual(put);
  });

  test('[HC3] changes the ratio, and no other landing', () => {
    const ratio = (which: typeof before) => value(which.compared.approaches[last].roll.ratio);
    expectNear(
      ratio(flight) / ratio(before),
      (rollEnd.alongM - put.alongM) / value(was.groundRollM),
      1e-6,
    );
    expect(flight.events.approaches[0]).toEqual(before.events.approaches[0]);
  });
});

test('[HC4] an end of roll put by hand moves the strip left by as much, the other way', async () => {
  const put = { timeS: rollEnd.timeS, alongM: rollEnd.alongM + 12 };
  const now = (await flightWith([marks({ rollEnd: put })])).events.approaches[last];
  expectNear(value(now.stripLeftM), value(was.stripLeftM) - 12, 1e-6);
  expectNear(value(now.groundRollM), value(was.groundRollM) + 12, 1e-6);
});

test('[HC5] an entry more than 30 s from any touchdown is about no landing', async () => {
  const put = { timeS: touchdown.timeS, alongM: 5 };
  const flight = await flightWith([marks({ aroundS: touchdown.timeS + 31, touchdown: put })]);
  expect(flight.events.approaches).toEqual(before.events.approaches);
});

test('[HC6] a landing marked coasted bounds the factor from above, the others stay as they were', async () => {
  const flight = await flightWith([marks({ effort: 'coasted' })]);
  expect(flight.compared.approaches[last].roll.role).toBe('upper-bound');
  expect(flight.compared.approaches[0].roll).toEqual(before.compared.approaches[0].roll);
});
