/** What the logbook remembers of a flight: the figures as measured, also where there are few. */
import { describe, expect, test } from 'vitest';
import type { Flight } from '../../src/debrief/debrief.ts';
import type { Approach } from '../../src/events/flight-event.ts';
import { USUAL_UNITS } from '../../src/report/figure-text.ts';
import { summariseFlight } from '../../src/report/flight-summary.ts';
import { flightLinePicture } from '../../src/report/pictures/flight-line-picture.ts';
import { isUndetermined, undetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { demoFlight, landingLike } from './demo-flight.ts';

const { flight } = await demoFlight('2024-04-20-first-circuits-ternholm.gpx');
const summary = summariseFlight(flight);
const none = undetermined('the data cannot tell');

/** The flight with its first approach replaced. */
function withApproach(changes: Partial<Approach>): Flight {
  const approach = { ...flight.events.approaches[0], ...changes };
  return {
    ...flight,
    events: { ...flight.events, approaches: flight.events.approaches.with(0, approach) },
  };
}
const eventOf = (other: Flight, key: string) => {
  const event = summariseFlight(other).events.find((each) => each.key === key);
  if (!event) throw new Error(`no ${key}`);
  return event;
};

describe('the summary of a flight', () => {
  test('[ST70] names its events by their place in the flight and stands them in the order of time', () => {
    expect(summary.events.map(({ key }) => key)).toEqual([
      'take-off-0',
      'approach-0',
      'take-off-1',
      'approach-1',
      'take-off-2',
      'approach-2',
    ]);
    const times = summary.events.map(({ timeS }) => timeS);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
    expect(summary.startS).toBe(flight.motion.timeS[0]);
    expect(summary.endS).toBe(flight.motion.timeS.at(-1));
    expect(summary.aeroplane).toMatchObject({ id: 'marram-160' });
  });

  test('[ST71] keeps each figure with its band, in SI, unrounded', () => {
    const landing = eventOf(flight, 'approach-2');
    const { touchdown, groundRollM, stripLeftM } = flight.events.approaches[2];
    if (isUndetermined(touchdown)) throw new Error('the demo landing has a touchdown');
    expect(landing.placeM).toEqual(touchdown.alongM);
    expect(landing.rollM).toEqual(groundRollM);
    expect(landing.leftM).toEqual(stripLeftM);
    expect(landing.roll).toEqual(flight.compared.approaches[2].roll);
    // LDA of Ternholm 25 and TORA of the same direction (strips file of the demo).
    expect(landing).toMatchObject({ stripId: 'ternholm', designator: '25', lengthM: 500 });
    expect(eventOf(flight, 'take-off-0').lengthM).toBe(560);
    const { prediction } = flight.compared.approaches[2];
    if (isUndetermined(prediction) || isUndetermined(prediction.landing))
      throw new Error('planned');
    expect(landing.latestTouchdownM).toBe(prediction.landing.latestTouchdownAlongM);
    expect(landing.expectedRollM).toBe(prediction.landing.expectedRollM);
  });

  test('[ST72] draws the ten passes of a roll, and none where there was no roll', () => {
    const { passes, placeM } = eventOf(flight, 'approach-2');
    if (!passes || isUndetermined(placeM)) throw new Error('a roll');
    expect(passes.fromM.length).toBe(10);
    expect(passes.fromM).toEqual(passes.fromM.toSorted((a, b) => a - b));
    expectNear((passes.fromM[4] + passes.fromM[5]) / 2, placeM.value, 2, 'middle pass');
    const gone = withApproach({ rollEnd: none, outcome: 'go-around', touchdown: none });
    expect(eventOf(gone, 'approach-0').passes).toBeNull();
  });

  test('[ST73] of a pass keeps where and how low', () => {
    const metres = (value: number) => ({ value, low: value - 1, high: value + 1 });
    const goAround = {
      initiationTimeS: metres(flight.motion.timeS[100]),
      lowestTimeS: metres(flight.motion.timeS[105]),
      lowestAboveM: metres(5.5),
      lowestAlongM: metres(-44),
      contactProbability: 0.01,
    };
    const event = eventOf(
      withApproach({ goAround, outcome: 'go-around', touchdown: none }),
      'approach-0',
    );
    expect(event.lowest).toEqual({ alongM: metres(-44), aboveM: metres(5.5) });
    expect(event.timeS).toBe(flight.motion.timeS[105]);
    expect(eventOf(flight, 'approach-0').lowest).toBeNull();
  });

  test('[ST74] at a place nobody has kept has no strip, no length and no place along it', () => {
    const event = eventOf(withApproach({ strip: null, direction: null }), 'approach-0');
    expect(event).toMatchObject({
      stripId: null,
      designator: null,
      lengthM: null,
      stripName: 'a place not kept yet',
      passes: null,
    });
  });

  test('[ST75] knows each event by the same moment as the line of the flight, even with no time measured', () => {
    const bare = landingLike(flight.events.approaches[0], {
      outcome: none,
      touchdown: none,
      thresholdCrossing: none,
      rollEnd: none,
    });
    for (const other of [flight, withApproach(bare)]) {
      const line = flightLinePicture(other, USUAL_UNITS).events;
      for (const { key, timeS } of summariseFlight(other).events) {
        const drawn = line.find((each) => each.key === key);
        expectNear(timeS, drawn?.atS ?? NaN, 1e-6, key);
      }
    }
  });

  test('[ST76] without conditions or an aeroplane says so and keeps the rest', () => {
    const bare = summariseFlight({ ...flight, conditions: none, aeroplane: none });
    expect(bare.surface).toBeNull();
    expect(bare.aeroplane).toEqual(none);
    expect(bare.events.length).toBe(6);
    expect(JSON.parse(JSON.stringify(bare))).toEqual(bare);
  });
});
