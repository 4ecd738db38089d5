/** Taxiing back along the strip; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { FlightEvents } from '../../src/events/detect-events.ts';
import type { Strip } from '../../src/strips/strip.ts';
import type { Track } from '../../src/track/track.ts';
import { expectNear } from '../expect-near.ts';
import { MICROLIGHT } from '../synthetic/aeroplane-model.ts';
import { boardAeroplane, type DemoPilot } from '../synthetic/demo/demo-pilot.ts';
import { demoStrips } from '../synthetic/demo/doggerland-strips.ts';
import { finishFlight } from '../synthetic/flight.ts';
import { standStill } from '../synthetic/roll-model.ts';
import { createMap } from '../synthetic/runway.ts';
import { beginOnLong, climbAway, SCENARIO_START_S } from '../synthetic/scenarios.ts';
import { plainTakeOff, standAt, takeOff } from '../synthetic/take-off-model.ts';
import { backtrack, taxi } from '../synthetic/taxi-model.ts';
import { bandOf, eventsOf, everyOther, onlyOne, valueOf } from './simulated.ts';

const SEEDS = [12, 13, 14];
const STRIPS: Strip[] = Object.values(demoStrips(createMap()));

/** Flies a story at Ternholm in a microlight and finds its events. */
function eventsIn(seed: number, story: (pilot: DemoPilot) => void): FlightEvents {
  const pilot = boardAeroplane({
    startTimeS: SCENARIO_START_S + seed / 7,
    aeroplane: 'eelgrass-450',
    massKg: 430,
    windFromDeg: 250,
    windKt: 4,
    gusty: false,
    wet: false,
    effort: 'normal',
    seed,
  });
  story(pilot);
  const scenario = { strip: STRIPS[0], designator: '25', flown: pilot.finish() };
  return eventsOf(scenario, { seed, strips: STRIPS });
}

function arrive(pilot: DemoPilot): void {
  pilot.lineUp('ternholm', '25');
  pilot.takeOff();
  pilot.circuit();
  pilot.land();
}

/** Taxis back along an invented strip at a speed, turns round and leaves. */
function leaveAfterBacktrack(seed: number, speedMps: number): FlightEvents {
  const { strip, runway, flight } = beginOnLong(seed, MICROLIGHT, 600);
  standAt(flight, runway, 420, 0);
  standStill(flight, runway, 20);
  const back = runway.bearingRad + Math.PI;
  const halfWay = { alongM: 200, crossM: 1, speedMps };
  taxi(flight, runway, [halfWay, { alongM: 30, crossM: 0, speedMps }], back);
  backtrack(flight, runway, 12, back);
  takeOff(flight, runway, plainTakeOff(flight));
  climbAway(flight, runway, 40);
  return eventsOf({ strip, designator: '07', flown: finishFlight(flight) }, { seed });
}

function kindsOf({ takeOffs }: FlightEvents): string[] {
  return takeOffs.map(({ kind, direction }) => `${kind} ${direction}`);
}

describe('[BT1] a backtrack', () => {
  test('[BT1] between a landing and a take-off the same way begins at the stop and ends at the start of the run', () => {
    for (const seed of SEEDS) {
      const events = eventsIn(seed, (pilot) => {
        arrive(pilot);
        pilot.backtrack(22);
        pilot.takeOff();
        pilot.circuit();
        pilot.land();
      });
      const back = onlyOne(events.backtracks);
      expect(back).toMatchObject({ strip: 'ternholm', direction: '25' });
      expect([back.afterLanding, back.beforeTakeOff]).toEqual([true, true]);
      const [first] = events.approaches;
      if (!('alongM' in first.rollEnd)) throw new Error('no roll end');
      // It turns round where it stopped, within a dozen metres, and once more 16 m behind the start.
      expectNear(valueOf(back.fromAlongM), valueOf(first.rollEnd.alongM) - 12, 12, `seed ${seed}`);
      expectNear(valueOf(back.toAlongM), 6, 12, `seed ${seed}`);
      expectNear(valueOf(back.fastestMps), 6, 1, `seed ${seed}`);
      expect(bandOf(back.startTimeS).high).toBeLessThan(bandOf(back.endTimeS).low);
      expect(kindsOf(events)).toEqual(['take-off 25', 'take-off 25']);
    }
  });

  test('[BT1] before a first take-off, and after a last landing, is reported too', () => {
    const events = eventsIn(15, (pilot) => {
      pilot.lineUp('ternholm', '25', 300);
      pilot.backtrack(20);
      pilot.takeOff();
      pilot.circuit();
      pilot.land();
      pilot.backtrack(20);
    });
    expect(
      events.backtracks.map(({ direction, afterLanding, beforeTakeOff }) => [
        direction,
        afterLanding,
        beforeTakeOff,
      ]),
    ).toEqual([
      ['25', false, true],
      ['25', true, false],
    ]);
  });
});

describe('[BT2] no rejected take-off', () => {
  test.each([6, 11])('[BT2] a backtrack at %d m/s is one all the same', (speedMps) => {
    for (const seed of SEEDS) {
      const events = leaveAfterBacktrack(seed, speedMps);
      const back = onlyOne(events.backtracks);
      expectNear(valueOf(back.fastestMps), speedMps, 1, `seed ${seed}`);
      expectNear(valueOf(back.fromAlongM), 420, 15, `seed ${seed}`);
      expect(kindsOf(events), `seed ${seed}`).toEqual(['take-off 07']);
    }
  });

  test('[BT2] a run against the landing that is given up stays a rejected take-off', () => {
    for (const seed of SEEDS) {
      const events = eventsIn(seed, (pilot) => {
        arrive(pilot);
        pilot.turnRound('ternholm', '07', 20);
        pilot.rejectTakeOff(13);
      });
      expect(kindsOf(events), `seed ${seed}`).toEqual(['take-off 25', 'rejected 07']);
      expect(events.backtracks, `seed ${seed}`).toEqual([]);
    }
  });
});

describe('[BT4] a swerve on the way', () => {
  /** Stops 420 m along, swerves by more than 15 degrees within the first 40 m of the way back, and leaves. */
  const swerving = (seed: number, edit: (track: Track) => Track = (track) => track) => {
    const { strip, runway, flight } = beginOnLong(seed, MICROLIGHT, 600);
    standAt(flight, runway, 420, 0);
    standStill(flight, runway, 20);
    const back = runway.bearingRad + Math.PI;
    const places = [
      ...[
        { alongM: 403, crossM: 0 },
        { alongM: 381, crossM: 8.5 },
        { alongM: 350, crossM: 9 },
      ],
      { alongM: 30, crossM: 0 },
    ];
    taxi(
      flight,
      runway,
      places.map((place) => ({ ...place, speedMps: 5 })),
      back,
    );
    backtrack(flight, runway, 12, back);
    takeOff(flight, runway, plainTakeOff(flight));
    climbAway(flight, runway, 40);
    const scenario = { strip, designator: '07', flown: finishFlight(flight) };
    return onlyOne(eventsOf(scenario, { seed, edit }).backtracks);
  };

  test('[BT4] ends no backtrack, nor costs it its beginning', () => {
    for (const seed of SEEDS) {
      expectNear(valueOf(swerving(seed).fromAlongM), 415, 8, `seed ${seed}`);
    }
  });

  test('[BT4] and its length is the same by every other fix, within both bands', () => {
    for (const seed of SEEDS) {
      const halves = [0, 1].map((odd) => swerving(seed, (track) => everyOther(track, odd)));
      const [one, other] = halves.map(({ lengthM }) => bandOf(lengthM));
      const half = ({ low, high }: typeof one) => (high - low) / 2;
      const apartM = Math.abs(one.value - other.value);
      expect(apartM, `seed ${seed}`).toBeLessThan(Math.hypot(half(one), half(other)));
      // No wider than two seconds of the way.
      expect(half(one)).toBeLessThan(12);
    }
  });
});

test('[BT3] taxiing on to the far end to leave the other way is no backtrack', () => {
  for (const seed of SEEDS) {
    const events = eventsIn(seed, (pilot) => {
      arrive(pilot);
      pilot.turnRound('ternholm', '07', 20);
      pilot.takeOff();
      pilot.circuit();
      pilot.land();
    });
    expect(kindsOf(events), `seed ${seed}`).toEqual(['take-off 25', 'take-off 07']);
    expect(events.backtracks, `seed ${seed}`).toEqual([]);
  }
});
