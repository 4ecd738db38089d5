/** Entries about single landings: places put by hand, effort marks. */
import { describe, expect, test } from 'vitest';
import type { Flight } from '../../src/debrief/debrief.ts';
import type { LandingMarks } from '../../src/debrief/hand-corrections.ts';
import type { Approach } from '../../src/events/flight-event.ts';
import { ROLL } from '../../src/events/tuning.ts';
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

  test('[HC1] lies surely on its side of the threshold', async () => {
    const short = { timeS: touchdown.timeS - 4, alongM: -3 };
    const before = (await flightWith([marks({ touchdown: short })])).events.approaches[last];
    const sides = [before, now].map(({ touchdown: put }) =>
      isUndetermined(put) ? NaN : put.shortProbability,
    );
    expect(sides).toEqual([1, 0]);
    expect(isUndetermined(was.touchdown) ? 0 : was.touchdown.shortProbability).toBeGreaterThan(0);
  });

  test('[HC7] has the speed and the place across that the track shows at that moment', () => {
    const { motion, events } = flight;
    const view = events.views.find(
      ({ stripId, direction }) => stripId === was.strip && direction.designator === was.direction,
    );
    if (!view || isUndetermined(now.touchdown)) throw new Error('the landing is at a kept strip');
    const i = motion.timeS.findIndex((timeS) => timeS > put.timeS);
    const share = (put.timeS - motion.timeS[i - 1]) / (motion.timeS[i] - motion.timeS[i - 1]);
    const there = (column: Float64Array) => column[i - 1] + share * (column[i] - column[i - 1]);
    expectNear(value(now.touchdown.groundSpeedMps), there(view.forwardMps), 1e-9);
    expectNear(value(now.touchdown.crossM), there(view.smoothCrossM), 1e-9);
    // What a smoothed speed can be off by, beside its own error: 1.645 standard deviations.
    const speed = now.touchdown.groundSpeedMps;
    if (isUndetermined(speed)) throw new Error('the speed there is known');
    const sd = Math.hypot(there(motion.speedSdMps), ROLL.speedDoubtMps);
    expectNear(speed.high - speed.value, 1.6449 * sd, 1e-3);
    expectNear(speed.value - speed.low, 1.6449 * sd, 1e-3);
    // It had slowed down since: the hardest braking needs as much less, by the square.
    const measured = isUndetermined(was.touchdown) ? NaN : value(was.touchdown.groundSpeedMps);
    const slower = value(now.touchdown.groundSpeedMps) / measured;
    expect(slower).toBeLessThan(0.99);
    expectNear(value(now.hardestBrakingRollM), slower ** 2 * value(was.hardestBrakingRollM), 1e-6);
  });

  test('[HC8] leaves in the air distance only the doubt of where it began', () => {
    const [before, after] = [was.airDistanceM, now.airDistanceM];
    if (isUndetermined(before) || isUndetermined(after) || isUndetermined(was.touchdown)) {
      throw new Error('the whole landing is in the log');
    }
    const along = was.touchdown.alongM;
    if (isUndetermined(along)) throw new Error('the strip is kept');
    expectNear(after.value, before.value + put.alongM - along.value, 1e-9);
    // The two doubts add by their squares.
    expectNear(
      Math.hypot(after.high - after.value, along.high - along.value),
      before.high - before.value,
      1e-6,
    );
    expectNear(
      Math.hypot(after.value - after.low, along.value - along.low),
      before.value - before.low,
      1e-6,
    );
  });

  test('[HC9] ends the float there; put where the log rules it out, there is none', async () => {
    const floatOf = ({ finals }: typeof before) => {
      const { float } = finals[last];
      return isUndetermined(float) ? null : value(float.durationS);
    };
    // Later on the wheels had been off the ground for longer.
    expect(floatOf(flight)).toBeGreaterThan(floatOf(before) ?? NaN);
    const far = { timeS: touchdown.timeS - 30, alongM: touchdown.alongM - 900 };
    expect(floatOf(await flightWith([marks({ touchdown: far })]))).toBeNull();
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

test('[HC4] put close behind the touchdown it leaves no roll of less than nothing', async () => {
  const put = { timeS: rollEnd.timeS - 20, alongM: touchdown.alongM + 10 };
  const flight = await flightWith([marks({ rollEnd: put })]);
  const { groundRollM } = flight.events.approaches[last];
  if (isUndetermined(groundRollM)) throw new Error('the roll is known');
  expectNear(groundRollM.value, 10, 1);
  expect(groundRollM.low).toBe(0);
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

describe('a touchdown put by hand without its time', () => {
  const { motion, events } = before;
  const view = events.views.find(
    ({ stripId, direction }) => stripId === was.strip && direction.designator === was.direction,
  );
  /** Where the smoothed track was at a time, by straight lines between fixes. */
  const alongAtM = (timeS: number): number => {
    const i = motion.timeS.findIndex((each) => each > timeS);
    const share = (timeS - motion.timeS[i - 1]) / (motion.timeS[i] - motion.timeS[i - 1]);
    const [from, to] = [view?.smoothAlongM[i - 1] ?? NaN, view?.smoothAlongM[i] ?? NaN];
    return from + share * (to - from);
  };

  test.each([-60, -25, 0.3, 18, 90])(
    '[KT6] %d m from the measured one it was when the aircraft passed there',
    async (byM) => {
      const alongM = touchdown.alongM + byM;
      const flight = await flightWith([marks({ touchdown: { alongM } })]);
      const put = place(flight.events.approaches[last].touchdown);
      expect(put.alongM).toBe(alongM);
      // A time as a number of our day is good to 0.2 millionths of a second, in which 6 µm are flown.
      expectNear(alongAtM(put.timeS), alongM, 1e-5);
      expect(put.timeS < touchdown.timeS + 1).toBe(byM < 20);
      expect(flight.byHand[last].marks?.touchdown).toEqual(put);
      expect(flight.byHand[last].measuredTouchdown).toEqual(touchdown);
      expect(flight.byHand[last].measuredAlongM).toEqual(
        isUndetermined(was.touchdown) ? null : was.touchdown.alongM,
      );
    },
  );

  test('[KT6] acts as one that was put there with that time', async () => {
    const alongM = touchdown.alongM + 25;
    const bare = await flightWith([marks({ touchdown: { alongM } })]);
    const { timeS } = place(bare.events.approaches[last].touchdown);
    const timed = await flightWith([marks({ touchdown: { timeS, alongM } })]);
    expect(bare.events.approaches).toEqual(timed.events.approaches);
    expect(bare.lessons).toEqual(timed.lessons);
    expect(bare.lessons).toHaveLength(1);
  });

  test('[KT6] beyond the opening of the power of a touch-and-go it is left out, though passed later', async () => {
    const [first] = before.events.approaches;
    expect(first.outcome).toBe('touch-and-go');
    const power = place(first.rollEnd);
    expect(Math.max(...(view?.smoothAlongM ?? []))).toBeGreaterThan(power.alongM + 100);
    const aroundS = place(first.touchdown).timeS;
    const put = async (byM: number): Promise<Flight> =>
      flightWith([marks({ aroundS, touchdown: { alongM: power.alongM + byM } })]);
    expect((await put(-10)).byHand[0].marks?.touchdown).not.toBeNull();
    const flight = await put(60);
    expect(flight.byHand[0].marks?.touchdown).toBeNull();
    expect(flight.events.approaches).toEqual(before.events.approaches);
  });

  test('[KT6] beyond the end of the roll it is left out, and the landing stays as measured', async () => {
    const flight = await flightWith([marks({ touchdown: { alongM: rollEnd.alongM + 30 } })]);
    expect(flight.events.approaches).toEqual(before.events.approaches);
    expect(flight.byHand[last].marks?.touchdown).toBeNull();
    expect(flight.lessons).toEqual([]);
  });
});
