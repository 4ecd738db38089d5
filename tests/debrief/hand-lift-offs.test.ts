/** Lift-offs put by hand; rules HC16, HC17 and HC19 in docs/spec/page.md. */
import { describe, expect, test } from 'vitest';
import type { Flight } from '../../src/debrief/debrief.ts';
import type { LandingMarks } from '../../src/debrief/hand-corrections.ts';
import { liftOffsOf } from '../../src/debrief/hand-lift-offs.ts';
import type { Approach, TakeOff } from '../../src/events/flight-event.ts';
import { viewOfEvent } from '../../src/events/view-of-event.ts';
import { isUndetermined, undetermined, type Measured } from '../../src/result.ts';
import { USUAL_UNITS } from '../../src/report/figure-text.ts';
import { noteLines } from '../../src/report/note-lines.ts';
import { liftOffEntry } from '../../src/report/story/landing-entry.ts';
import { ENDS_GUESSED } from '../../src/strips/strip.ts';
import { expectNear } from '../expect-near.ts';
import { debriefDemo, demoContext } from './demo-flights.ts';

const FILE = '2024-04-20-first-circuits-ternholm.gpx';

async function flightWith(landings: readonly LandingMarks[]): Promise<Flight> {
  return (await debriefDemo(FILE, { ...demoContext(), landings })).flights[0];
}

function valueOf(measured: Measured): number {
  if (isUndetermined(measured)) throw new Error(measured.undetermined);
  return measured.value;
}

function liftOffOf({ liftOff }: TakeOff) {
  if (isUndetermined(liftOff)) throw new Error('it lifted off');
  return liftOff;
}

const before = await flightWith([]);
const placeOf = (takeOff: TakeOff) => {
  const { timeS, alongM } = liftOffOf(takeOff);
  return { timeS: valueOf(timeS), alongM: valueOf(alongM) };
};
const none = { effort: null, touchdown: null, rollEnd: null };

describe('a lift-off put by hand', async () => {
  const [was] = before.events.takeOffs;
  const measured = placeOf(was);
  const put = { timeS: measured.timeS + 1, alongM: measured.alongM + 24 };
  const flight = await flightWith([{ ...none, aroundS: measured.timeS + 4, liftOff: put }]);
  const [now, ...others] = flight.events.takeOffs;
  const view = viewOfEvent(before.events, was);
  if (!view || isUndetermined(was.brakeRelease)) throw new Error('the run is at a strip');
  const release = was.brakeRelease.alongM;

  test('[HC16] is exact; the run ends there with the doubt of its beginning alone', () => {
    expect(placeOf(now)).toEqual(put);
    if (isUndetermined(now.groundRollM) || isUndetermined(release)) throw new Error('it ran');
    expectNear(now.groundRollM.value, put.alongM - release.value, 1e-9);
    expectNear(now.groundRollM.low, put.alongM - release.high, 1e-9);
    expectNear(now.groundRollM.high, put.alongM - release.low, 1e-9);
    expect(now.brakeRelease).toEqual(was.brakeRelease);
    expect(now.screen).toEqual(was.screen);
  });

  test('[HC16] put close behind the brake release it leaves no run of less than nothing', async () => {
    if (isUndetermined(release)) throw new Error('it stood');
    const early = { timeS: measured.timeS, alongM: release.value + 0.1 };
    const landing = { ...none, aroundS: measured.timeS, liftOff: early };
    const { groundRollM } = (await flightWith([landing])).events.takeOffs[0];
    expect(groundRollM).toMatchObject({ low: 0 });
  });

  test('[HC16] leaves of the strip what lies behind it', () => {
    const leftM = view.direction.toraM - view.direction.displacedM - put.alongM;
    expect(now.stripLeftM).toEqual({ value: leftM, low: leftM, high: leftM });
  });

  test('[HC16] has the speed that the track shows there, and the half-way check is held against it', async () => {
    const i = before.motion.timeS.findIndex((timeS) => timeS > put.timeS);
    const [from, to] = [before.motion.timeS[i - 1], before.motion.timeS[i]];
    const share = (put.timeS - from) / (to - from);
    const speeds = view.forwardMps;
    const speed = valueOf(liftOffOf(now).groundSpeedMps);
    expectNear(speed, speeds[i - 1] + share * (speeds[i] - speeds[i - 1]), 1e-9);
    // Off the ground by half way there was no share; lifted off behind it there is one.
    const halfM = view.frame.nearEndAlongM + view.direction.toraM / 2;
    const past = before.motion.timeS.findIndex((_, k) => k >= i && view.smoothAlongM[k] > halfM);
    const later = { timeS: before.motion.timeS[past + 1], alongM: view.smoothAlongM[past + 1] };
    const far = await flightWith([{ ...none, aroundS: measured.timeS, liftOff: later }]);
    const { halfway } = far.events.takeOffs[0];
    if (isUndetermined(halfway)) throw new Error('half way was passed');
    expect(isUndetermined(was.halfway) || isUndetermined(was.halfway.shareOfLiftOff)).toBe(true);
    expectNear(
      valueOf(halfway.shareOfLiftOff),
      valueOf(halfway.groundSpeedMps) / speeds[past + 1],
      1e-9,
    );
  });

  test('[HC17] moves the ratio with the run, and no other take-off', () => {
    const ratio = (which: Flight) => valueOf(which.compared.takeOffs[0].roll.ratio);
    expectNear(
      ratio(flight) / ratio(before),
      valueOf(now.groundRollM) / valueOf(was.groundRollM),
      1e-6,
    );
    expect(others).toEqual(before.events.takeOffs.slice(1));
    expect(flight.events.approaches).toEqual(before.events.approaches);
  });

  test('[HC17] keeps what was measured beside it, and is told', () => {
    expect(flight.liftOffsByHand[0]).toEqual({
      put,
      measured,
      measuredAlongM: liftOffOf(was).alongM,
      aroundS: measured.timeS,
    });
    const told = noteLines(flight).join(' ').replaceAll(/\s+/g, ' ');
    expect(told).toMatch(/lift-off put by hand \d+ m from the threshold; measured \d+ m/);
  });
});

test('[HC17] of a touch-and-go it moves the strip left; its run began rolling, as before', async () => {
  const was = before.events.takeOffs[1];
  const { timeS, alongM } = placeOf(was);
  const put = { timeS: timeS + 1, alongM: alongM + 24 };
  const now = (await flightWith([{ ...none, aroundS: timeS - 12, liftOff: put }])).events
    .takeOffs[1];
  expect(placeOf(now)).toEqual(put);
  expect(now.groundRollM).toEqual(was.groundRollM);
  expect(isUndetermined(now.groundRollM)).toBe(true);
  expect(now.halfway).toEqual({ undetermined: 'the run began rolling, after a touch' });
  expectNear(valueOf(now.stripLeftM), valueOf(was.stripLeftM) - 24, 1e-6);
});

describe('the entry of a lift-off of a touch-and-go', () => {
  const [touched] = before.events.approaches;
  if (isUndetermined(touched.touchdown)) throw new Error('it touched');
  const touchedS = valueOf(touched.touchdown.timeS);
  const { timeS, alongM } = placeOf(before.events.takeOffs[1]);
  const liftOff = { timeS: timeS + 1, alongM: alongM + 24 };

  test('[HC19] hangs on the touchdown, that of any other take-off on the lift-off', () => {
    expect(timeS - touchedS).toBeGreaterThan(5);
    expectNear(liftOffEntry(before, 1, USUAL_UNITS)?.aroundS ?? NaN, touchedS, 1e-9);
    const [first] = before.events.takeOffs;
    expectNear(liftOffEntry(before, 0, USUAL_UNITS)?.aroundS ?? NaN, placeOf(first).timeS, 1e-9);
  });

  test('[HC19] hangs on the landing that it followed alone: rolling or after a stop, there and that way, with no other between', () => {
    const { approaches, takeOffs } = before.events;
    const aroundS = (landing: Partial<Approach>, more: readonly TakeOff[] = []): number => {
      const [first, second] = takeOffs;
      const events = {
        ...before.events,
        approaches: [{ ...approaches[0], ...landing }],
        takeOffs: [first, second, ...more],
      };
      return liftOffsOf(events, [])[1].aroundS;
    };
    expectNear(aroundS({}), touchedS, 1e-9);
    expectNear(aroundS({ outcome: 'stop-and-go' }), touchedS, 1e-9);
    expectNear(aroundS({ outcome: 'full-stop' }), timeS, 1e-9);
    expectNear(aroundS({ strip: 'elsewhere' }), timeS, 1e-9);
    expectNear(aroundS({ direction: '07' }), timeS, 1e-9);
    const between = { ...takeOffs[1], from: takeOffs[1].from - 1 };
    expectNear(aroundS({}, [between]), timeS, 1e-9);
  });

  test('[HC19] goes before one by the time of the lift-off; where none was measured none is put', () => {
    const own = { ...none, aroundS: timeS, liftOff: { timeS: timeS - 1, alongM: alongM - 24 } };
    const ofLanding = { ...none, aroundS: touchedS, liftOff };
    expect(liftOffsOf(before.events, [own, ofLanding])[1].put).toEqual(liftOff);
    const [first, second, ...others] = before.events.takeOffs;
    const unseen: TakeOff = { ...second, liftOff: undetermined('a hole') };
    const events = { ...before.events, takeOffs: [first, unseen, ...others] };
    expect(liftOffsOf(events, [ofLanding])[1]).toMatchObject({ put: null, measured: null });
  });

  test('[HC19] is found by the touchdown, however long the roll', async () => {
    // 30 s before the touchdown is further from the lift-off.
    const flight = await flightWith([{ ...none, aroundS: touchedS - 29, liftOff }]);
    expect(placeOf(flight.events.takeOffs[1])).toEqual(liftOff);
    expectNear(liftOffEntry(flight, 1, USUAL_UNITS)?.aroundS ?? NaN, touchedS, 1e-9);
  });

  test('[HC19] is found by the lift-off where it was entered so, and taken back there', async () => {
    const aroundS = touchedS + 31;
    expect(Math.abs(aroundS - timeS)).toBeLessThan(30);
    const flight = await flightWith([{ ...none, aroundS, liftOff }]);
    expect(placeOf(flight.events.takeOffs[1])).toEqual(liftOff);
    expectNear(liftOffEntry(flight, 1, USUAL_UNITS)?.aroundS ?? NaN, timeS, 1e-9);
  });
});

test('[UP4] where the ends are guessed a lift-off put by hand leaves no strip either, and passes no half of it', async () => {
  const context = demoContext();
  const { strips } = context.strips;
  const guessed = strips.map((strip) => ({ ...strip, endsGuessed: true }));
  const debriefed = async (landings: readonly LandingMarks[]) => {
    const book = { ...context.strips, strips: guessed };
    const [flight] = (await debriefDemo(FILE, { ...context, strips: book, landings })).flights;
    return flight.events.takeOffs[0];
  };
  const was = await debriefed([]);
  const put = placeOf(was);
  const now = await debriefed([{ ...none, aroundS: put.timeS, liftOff: put }]);
  expect(placeOf(now)).toEqual(put);
  expect(now.stripLeftM).toEqual({ undetermined: ENDS_GUESSED });
  expect(now.stripLeftM).toEqual(was.stripLeftM);
  expect([was.halfway, now.halfway]).toEqual([now.stripLeftM, now.stripLeftM]);
});

test('[HC5] an entry more than 30 s from any lift-off moves none', async () => {
  const { timeS, alongM } = placeOf(before.events.takeOffs[0]);
  const flight = await flightWith([{ ...none, aroundS: timeS - 31, liftOff: { timeS, alongM } }]);
  expect(flight.events.takeOffs).toEqual(before.events.takeOffs);
});
