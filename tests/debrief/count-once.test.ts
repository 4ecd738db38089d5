/** Where several logs recorded one flight each landing counts once, in the log that says most of it. */
import { describe, expect, test } from 'vitest';
import {
  countOnce,
  type RecordedEvent,
  type RecordedFlight,
} from '../../src/debrief/count-once.ts';
import { countingPart } from '../../src/debrief/counting-part.ts';
import { debriefFile, type Debrief, type DebriefContext } from '../../src/debrief/debrief.ts';
import { learnStrips } from '../../src/debrief/learn-strips.ts';
import { ownFactors } from '../../src/debrief/own-factors.ts';
import { summariseFlight } from '../../src/report/flight-summary.ts';
import { countedFlights, countingSummary } from '../../src/report/recorded-twice.ts';
import { isUndetermined, undetermined } from '../../src/result.ts';
import type { FlownPath } from '../../src/track/flown-path.ts';
import {
  flyStory,
  logText,
  recordFlight,
  threeCircuits,
  type Recorder,
} from '../synthetic/recorders.ts';
import { debriefDemo, DEMO_FILES, demoContext } from './demo-flights.ts';

/** Straight on at 40 m/s; `byM` beside it. */
function straight(fromS: number, toS: number, byM = 0): FlownPath {
  const timeS = Array.from({ length: (toS - fromS) / 5 + 1 }, (_, k) => fromS + 5 * k);
  return {
    timeS,
    latDeg: timeS.map((each) => 54 + (40 * each) / 111_200),
    lonDeg: timeS.map(() => 2.3 + byM / 65_400),
  };
}

const rollM = (halfM: number, valueM = 200) => ({
  ...{ value: valueM, low: valueM - halfM, high: valueM + halfM },
});
const landing = (timeS: number, more: Partial<RecordedEvent> = {}): RecordedEvent => ({
  ...{ kind: 'approach', timeS, rollM: rollM(20), ratios: 2 },
  ...more,
});
const log = (name: string, more: Partial<RecordedFlight> = {}): RecordedFlight => ({
  ...{ name, path: straight(0, 600), usedFixes: 600 },
  events: [landing(100), landing(300)],
  ...more,
});
const counts = (...flights: RecordedFlight[]): (readonly boolean[])[] =>
  countOnce(flights).map((each) => each.counts);
const ALL = [true, true];
const NONE = [false, false];

test('[TWICE4] an event that only one log saw counts there, also less than a minute before one that both saw', () => {
  const run = (timeS: number, ratios: number) => landing(timeS, { kind: 'take-off', ratios });
  const seen = log('a', { events: [run(300, 1)] });
  const rejectedToo = log('b', { events: [run(250, 0), run(301, 2)] });
  expect(counts(seen, rejectedToo)).toEqual([[false], ALL]);
});

test('[TWICE4] of a flight of which a part counts the lift-offs put by hand keep in step', async () => {
  const [flight] = (await debriefDemo(DEMO_FILES[0], demoContext())).flights;
  const { takeOffs, approaches } = flight.events;
  const part = countingPart(flight, {
    ...{ approaches: approaches.map(() => true), takeOffs: takeOffs.map((_, k) => k > 0) },
    lessons: [],
  });
  expect(takeOffs.length).toBeGreaterThan(1);
  expect(part.liftOffsByHand).toEqual(flight.liftOffsByHand.slice(1));
});

describe('[TWICE4] which log counts', () => {
  test('two flights apart both count', () => {
    expect(counts(log('a'), log('b', { path: straight(0, 600, 60) }))).toEqual([ALL, ALL]);
    expect(countOnce([log('a')])[0]).toEqual({ counts: ALL, others: [], zoneFaults: [] });
  });

  test.each<[string, Partial<RecordedFlight>]>([
    [
      'one compared with more',
      { events: [landing(101, { ratios: 1 }), landing(301, { ratios: 1 })] },
    ],
    [
      'one with the rolls measured',
      {
        events: [
          landing(101, { rollM: undetermined('hole') }),
          landing(301, { rollM: undetermined('hole') }),
        ],
      },
    ],
    ['one with narrower rolls', { events: [landing(101, { rollM: rollM(21) }), landing(301)] }],
    ['one with more fixes used', { usedFixes: 599 }],
    ['the first by name', { name: 'b' }],
  ])('is %s, in whatever order they come', (_, less) => {
    expect(counts(log('a'), log('a', { ...less }))).toEqual([ALL, NONE]);
    expect(counts(log('a', { ...less }), log('a'))).toEqual([NONE, ALL]);
  });

  test('is not the one with the shorter or the longer rolls: figures decide nothing', () => {
    const longer = log('b', { events: [landing(100, { rollM: rollM(20, 400) }), landing(300)] });
    const shorter = log('b', { events: [landing(100, { rollM: rollM(20, 100) }), landing(300)] });
    expect(counts(log('a'), longer)).toEqual([ALL, NONE]);
    expect(counts(log('a'), shorter)).toEqual([ALL, NONE]);
  });

  test('of three is one', () => {
    expect(counts(log('b'), log('c'), log('a'))).toEqual([NONE, NONE, ALL]);
  });

  test('of three is one also where two are too far apart to be known but by the third', () => {
    const at = (name: string, byM: number, halfM: number): RecordedFlight =>
      log(name, {
        path: straight(0, 600, byM),
        events: [100, 300].map((timeS) => landing(timeS, { rollM: rollM(halfM) })),
      });
    expect(counts(at('a', 0, 20), at('c', 14, 20))).toEqual([ALL, ALL]);
    // The one between is the worst, or the best.
    expect(counts(at('a', 0, 20), at('b', 7, 30), at('c', 14, 20))).toEqual([ALL, NONE, NONE]);
    expect(counts(at('c', 14, 20), at('a', 0, 20), at('b', 7, 30))).toEqual([NONE, ALL, NONE]);
    expect(counts(at('a', 0, 20), at('b', 7, 10), at('c', 14, 20))).toEqual([NONE, ALL, NONE]);
    const [first] = countOnce([at('a', 0, 20), at('b', 7, 30), at('c', 14, 20)]);
    expect(first.others.map(({ index }) => index)).toEqual([1, 2]);
  });

  test('and two parts in one log are not logs of each other', () => {
    const parts = [log('a', { path: straight(0, 250) }), log('a', { path: straight(260, 600) })];
    const found = countOnce([...parts, log('b')]);
    expect(found.map(({ others }) => others.map(({ index }) => index))).toEqual([[2], [2], [0, 1]]);
  });
});

describe('[TWICE5] each landing by itself', () => {
  test('one that only one log saw counts there', () => {
    const first = log('a', { path: straight(0, 350) });
    const rest = log('b', { path: straight(200, 900), events: [landing(300), landing(700)] });
    expect(counts(first, rest)).toEqual([ALL, [false, true]]);
  });

  test('one whose roll fell into the hole of the log that counts otherwise, in the other log', () => {
    const hole = log('a', {
      events: [
        landing(100),
        landing(300, { rollM: undetermined('hole'), ratios: 0 }),
        landing(500),
      ],
    });
    const whole = log('b', { path: straight(250, 400), events: [landing(300)] });
    expect(counts(hole, whole)).toEqual([[true, false, true], [true]]);
  });

  test('goes by what could be compared before the log that has more of it, then by the roll measured', () => {
    const unmeasured = undetermined('hole');
    const more = [landing(100), landing(500)];
    const uncompared = log('a', { events: [...more, landing(300, { ratios: 1 })] });
    const compared = log('b', { path: straight(250, 400), events: [landing(300)] });
    expect(counts(uncompared, compared)).toEqual([[true, true, false], [true]]);
    const blind = log('a', { events: [...more, landing(300, { ratios: 0, rollM: unmeasured })] });
    const seen = log('b', { path: straight(250, 400), events: [landing(300, { ratios: 0 })] });
    expect(counts(blind, seen)).toEqual([[true, true, false], [true]]);
  });

  test('what counts teaches, and nothing else', async () => {
    const [flight] = (await debriefDemo(DEMO_FILES[0], demoContext())).flights;
    const summary = summariseFlight(flight);
    // A take-off follows a touch-and-go within seconds: it is not what taught.
    const approaches = summary.events.filter(({ kind }) => kind === 'approach');
    const lessons = approaches.map(({ timeS }) => ({
      ...{ timeS, brakes: [], shapes: null, effort: null },
    }));
    const [, second] = approaches;
    const takeOffs = summary.events.filter(({ kind }) => kind === 'take-off');
    const keys = new Set([second, ...takeOffs].map(({ key }) => key));
    const part = countingSummary({ ...summary, lessons }, keys);
    expect(part.events.filter(({ kind }) => kind === 'approach')).toEqual([second]);
    expect(part.lessons).toEqual([lessons[1]]);
    const all = new Set(summary.events.map(({ key }) => key));
    expect(countingSummary(summary, all)).toBe(summary);
  });

  test('a take-off is no landing, however near', () => {
    const takeOff = log('b', { events: [landing(110, { kind: 'take-off' })] });
    expect(counts(log('a'), takeOff)).toEqual([ALL, [true]]);
  });
});

test('[TWICE9] bands of rolls that both measured overlap or do not', () => {
  const other = log('b', {
    events: [landing(102, { rollM: rollM(20, 239) }), landing(300, { rollM: rollM(20, 241) })],
  });
  expect(countOnce([log('a'), other])[0].others).toEqual([
    { index: 1, bothMeasured: 2, bandsOverlap: 1 },
  ]);
  const blind = log('b', { events: [landing(102, { rollM: undetermined('no') })] });
  expect(countOnce([log('a'), blind])[0].others[0].bothMeasured).toBe(0);
});

test('[TWICE9] of two landings within a minute each is held against its own record', () => {
  const twice = (name: string): RecordedFlight =>
    log(name, {
      events: [landing(100), landing(150, { rollM: rollM(20, 400) })],
    });
  expect(countOnce([twice('a'), twice('b')])[0].others).toEqual([
    { index: 1, bothMeasured: 2, bandsOverlap: 2 },
  ]);
});

// The longer flight shares most of its hours with itself an hour later.
test.each([600, 9000])(
  '[TWICE3] a clock in another zone is warned of in both debriefs, and both count: %d s',
  (toS) => {
    const late = straight(0, toS);
    const other = log('b', { path: { ...late, timeS: late.timeS.map((timeS) => timeS + 3600) } });
    const found = countOnce([log('a', { path: late }), other]);
    expect(found.map((each) => each.counts)).toEqual([ALL, ALL]);
    expect(found.map(({ zoneFaults }) => zoneFaults)).toEqual([
      [{ index: 1, aheadS: 3600 }],
      [{ index: 0, aheadS: -3600 }],
    ]);
  },
);

describe('one flown flight, a tablet and a recorder', async () => {
  const flown = flyStory(threeCircuits);
  const entered = [...(demoContext().conditions?.byFile.values() ?? [])][0];
  const context: DebriefContext = {
    ...demoContext(),
    conditions: { all: { ...entered, aeroplane: 'marram-160' }, byFile: new Map() },
  };
  const debriefed = async (name: string, recorder: Recorder): Promise<Debrief> => {
    const bytes = new TextEncoder().encode(logText(recordFlight(flown, recorder)));
    const result = await debriefFile(bytes, name, context);
    if (!result.ok) throw new Error(result.problems[0].message);
    return result.value;
  };
  const lengthS = flown.timeS[flown.length - 1] - flown.timeS[0];
  const lastTouchS = Math.max(
    ...flown.truth.approaches.map(({ touchdown }) => touchdown?.timeS ?? 0),
  );
  const tablet = await debriefed('tablet.gpx', { format: 'gpx', seed: 1 });
  const recorder = await debriefed('recorder.igc', {
    ...{ format: 'igc', seed: 2, lateS: 0.5, fromS: 60, toS: lengthS - 20 },
  });
  const holed = await debriefed('holed.igc', {
    ...{ format: 'igc', seed: 3 },
    receiver: { holes: [{ afterS: lastTouchS - flown.timeS[0] - 40, lengthS: 70 }] },
  });
  const landings = (debriefs: readonly Debrief[]): number =>
    countedFlights(debriefs.flatMap(({ flights }) => flights))
      .flatMap(({ flight }) => flight.events.approaches)
      .filter(({ groundRollM }) => !isUndetermined(groundRollM)).length;

  test('[TWICE4] three landings, not six, whichever log comes first', () => {
    expect(landings([tablet])).toBe(3);
    expect(landings([recorder])).toBe(3);
    expect(landings([tablet, recorder])).toBe(3);
    expect(landings([recorder, tablet])).toBe(3);
    expect(landings([tablet, tablet])).toBe(3);
  });

  test('[TWICE4] own factors are those of the log that counts', () => {
    const alone = tablet.flights;
    const both = countedFlights([...tablet.flights, ...recorder.flights]).map(
      ({ flight }) => flight,
    );
    const counted = (flights: typeof alone): number[] =>
      ownFactors(flights)[0].factors.map((factor) => factor.counts.counted);
    expect(counted(both)).toEqual(counted(alone));
    expect(counted([...tablet.flights, ...recorder.flights])).not.toEqual(counted(alone));
  });

  test('[TWICE4] a strip is learned from one visit', () => {
    const both = [...tablet.flights, ...recorder.flights];
    const visits = (flights: typeof both): number[] =>
      learnStrips(flights, context.strips).map(({ learned }) => learned.visits);
    expect(visits(both)).toEqual([2]);
    expect(visits(countedFlights(both).map(({ flight }) => flight))).toEqual([1]);
  });

  test('[TWICE5] the landing in a hole is counted from the other log, and no other one twice', () => {
    const measured = holed.flights[0].events.approaches.filter(
      ({ groundRollM }) => !isUndetermined(groundRollM),
    );
    expect(measured).toHaveLength(2);
    expect(landings([holed, recorder])).toBe(3);
    expect(landings([recorder, holed])).toBe(3);
  });

  test('[TWICE3] the warning names the other log, and by how much its clock is off', async () => {
    const text = logText(recordFlight(flown, { format: 'gpx', seed: 9, lateS: -7200 }));
    const ahead = await debriefFile(new TextEncoder().encode(text), 'ahead.gpx', context);
    if (!ahead.ok) throw new Error('a readable log');
    const [own, others] = countedFlights([...tablet.flights, ...ahead.value.flights]);
    expect(own.notes).toMatchObject([{ code: 'same-flight-other-clock', severity: 'warning' }]);
    expect(own.notes[0].message).toContain('ahead.gpx flew the same path with its clock 2 h ahead');
    expect(others.notes[0].message).toContain(
      'tablet.gpx flew the same path with its clock 2 h behind',
    );
    expect(landings([tablet, ahead.value])).toBe(6);
  });

  test('[TWICE9] the debrief of each says which counts, and that the bands overlap', () => {
    const said = countedFlights([...tablet.flights, ...recorder.flights]).map(({ notes }) => notes);
    expect(said.map((notes) => notes.length)).toEqual([1, 1]);
    const words = said.flat().map(({ message }) => message);
    expect(words.filter((each) => each.includes('which counts: '))).toHaveLength(1);
    expect(words.filter((each) => each.includes('this log does'))).toHaveLength(1);
    expect(words[0]).toMatch(/Of \d ground rolls that both measured the bands overlap in \d$/);
  });
});
