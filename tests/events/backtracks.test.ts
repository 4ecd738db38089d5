/** Taxiing back along the strip; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { findBacktracks, type FoundBacktracks } from '../../src/events/backtrack.ts';
import type { FlightEvents } from '../../src/events/detect-events.ts';
import type { Approach, Backtrack, TakeOff } from '../../src/events/flight-event.ts';
import { viewsOf } from '../../src/events/strip-view.ts';
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
import { makeRun } from './made-motion.ts';
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
      // It turned round before it took off again: no stop-and-go, however soon that was.
      expect(first.outcome).toBe('full-stop');
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

describe('[BT1] taxiing back before a take-off, from speeds made by hand', () => {
  /** Along the made strip of 800 m at these speeds, negative against the take-off that follows. */
  const all = (
    fromAlongM: number,
    parts: readonly (readonly [seconds: number, mps: number])[],
    more: {
      readonly landed?: true;
      readonly leavesBy?: 'A' | 'B';
      readonly crossM?: number;
      /** Runs found before it that were given up, by their fixes. */
      readonly rejected?: readonly Partial<TakeOff>[];
    } = {},
  ): FoundBacktracks => {
    const lengthS = parts.reduce((sum, [seconds]) => sum + seconds, 0);
    const speedMps = (t: number): number => {
      let left = t;
      return parts.find(([seconds]) => (left -= seconds) < 0)?.[1] ?? 0;
    };
    const { motion, view } = makeRun({ fromAlongM, speedMps, lengthS });
    const crossM = motion.timeS.map(() => more.crossM ?? 0);
    const views = viewsOf(motion, view.strip, view.strip.id).map((each) => ({
      ...each,
      ...{ crossM, smoothCrossM: crossM },
    }));
    const designatorOf = (from: 'A' | 'B'): string | undefined =>
      views.find(({ direction }) => direction.from === from)?.direction.designator;
    const strip = view.strip.id;
    const takeOff = {
      ...{ kind: 'take-off', strip, direction: designatorOf(more.leavesBy ?? 'A') },
      ...{ from: motion.length - 1, to: motion.length },
    } as unknown as TakeOff;
    const [beganS] = motion.timeS;
    const landing = {
      ...{ strip, direction: designatorOf('A'), outcome: 'full-stop', from: 0, to: 1 },
      rollEnd: { kind: 'stopped', timeS: { value: beganS, low: beganS, high: beganS } },
    } as unknown as Approach;
    const approaches = more.landed ? [landing] : [];
    const rejected = (more.rejected ?? []).map(
      (each) => ({ kind: 'rejected', strip, ...each }) as unknown as TakeOff,
    );
    return findBacktracks(motion, views, approaches, [...rejected, takeOff]);
  };
  const found = (...flown: Parameters<typeof all>): Backtrack[] => all(...flown).backtracks;

  test('[BT1] counts from forty metres on', () => {
    expect(
      found(400, [
        [7, -5],
        [10, 0],
      ]),
    ).toEqual([]);
    expect(
      found(400, [
        [12, -5],
        [10, 0],
      ]),
    ).toHaveLength(1);
  });

  test('[BT1] goes on after a halt of fifteen seconds, and is another one after one of half a minute', () => {
    // At walking pace, for nothing starts at more from one second to the next but a take-off.
    const halted = (haltS: number) =>
      found(600, [
        [25, -3],
        [haltS, 0],
        [25, -3],
        [10, 0],
      ]).map(({ lengthM }) => valueOf(lengthM));
    expect(halted(15)).toHaveLength(1);
    expectNear(halted(15)[0], 150, 12);
    expect(halted(30)).toHaveLength(2);
  });

  test('[BT1] is one on the strip alone, between its ends and beside it by no more than its taxiing may be', () => {
    const [fromBeyond] = found(950, [
      [60, -5],
      [10, 0],
    ]);
    expectNear(valueOf(fromBeyond.fromAlongM), 800, 8);
    expect(
      found(
        400,
        [
          [20, -5],
          [10, 0],
        ],
        { crossM: 12 },
      ),
    ).toHaveLength(1);
    expect(
      found(
        400,
        [
          [20, -5],
          [10, 0],
        ],
        { crossM: 40 },
      ),
    ).toEqual([]);
  });

  test('[BT1] after a landing is one, and before a take-off the same way', () => {
    const back = [
      [40, -5],
      [10, 0],
    ] as const;
    const [same, other] = (['A', 'B'] as const).map((leavesBy) =>
      onlyOne(found(600, back, { landed: true, leavesBy })),
    );
    expect([same.afterLanding, same.beforeTakeOff]).toEqual([true, true]);
    expect([other.afterLanding, other.beforeTakeOff]).toEqual([true, false]);
  });

  test('[BT2] takes the place of a rejected run that was most of it, at that strip alone', () => {
    // The backtrack is the first thirty fixes.
    const left = (rejected: Partial<TakeOff>): number =>
      all(
        600,
        [
          [30, -5],
          [15, 0],
        ],
        { rejected: [rejected] },
      ).takeOffs.length - 1;
    expect(left({ from: 5, to: 25 })).toBe(0);
    expect(left({ from: 5, to: 25, strip: 'elsewhere' })).toBe(1);
    expect(left({ from: 22, to: 44 })).toBe(1);
  });
});
