/** Touches that the pilot tells of; rules TT1 to TT5 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { detectEvents, type FlightEvents } from '../../src/events/detect-events.ts';
import { COMMON_MANNER } from '../../src/events/manner.ts';
import type { Pass } from '../../src/events/passes.ts';
import { wordsOfPasses, type ContactWord } from '../../src/events/said-contact.ts';
import { isToldOnly } from '../../src/events/told-touch.ts';
import { isUndetermined, type Undetermined } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { computeMotion, type Motion } from '../../src/track/motion.ts';
import { expectNear } from '../expect-near.ts';
import { alongOfRows } from '../synthetic/flown-along.ts';
import type { Track } from '../../src/track/track.ts';
import { flyDrawnPass } from '../synthetic/pass-population.ts';
import { createMap, createRunway } from '../synthetic/runway.ts';
import { flyDrawnApproach, type Scenario } from '../synthetic/scenarios.ts';
import { bandOf, cutAt, holds, onlyOne, record, valueOf } from './simulated.ts';

function eventsSaid(
  motion: Motion,
  scenario: Scenario,
  words: readonly ContactWord[],
): FlightEvents {
  const book = { ...EMPTY_STRIP_BOOK, strips: [scenario.strip] };
  return detectEvents(motion, book, null, COMMON_MANNER, words);
}

/** The one approach of a scenario with a word about it; the word is given for its true moment. */
function approachSaid(
  scenario: Scenario,
  touched: boolean,
  recording: Parameters<typeof record>[1] = {},
) {
  const motion = computeMotion(record(scenario, recording));
  const [truth] = scenario.flown.truth.approaches;
  const aroundS =
    truth.touchdown?.timeS ?? truth.goAround?.lowestTimeS ?? truth.threshold?.timeS ?? NaN;
  const events = eventsSaid(motion, scenario, [{ aroundS, touched }]);
  return { events, truth, approach: onlyOne(events.approaches) };
}

describe('passes of which the truth is said', () => {
  const counts = { touched: 0, passed: 0, told: 0, held: 0, refused: 0, wrong: 0 };
  for (let seed = 930_000; seed < 930_100; seed++) {
    const drawn = flyDrawnPass(seed, true);
    const truth = drawn.pass.touchdown;
    const aroundS = truth?.timeS ?? drawn.lowestTimeS;
    const motion = computeMotion(record(drawn, { seed }));
    const { approaches } = eventsSaid(motion, drawn, [{ aroundS, touched: truth !== null }]);
    const found = approaches.find(({ saidContact }) => saidContact);
    if (!found) continue;
    if (truth) counts.touched++;
    else counts.passed++;
    if (found.saidContact?.refused !== null) counts.refused++;
    const { outcome } = found;
    const isTouch = outcome === 'touch-and-go' || outcome === 'full-stop';
    if (isUndetermined(outcome) || isTouch !== (truth !== null)) counts.wrong++;
    if (!truth || !isToldOnly(found) || isUndetermined(found.touchdown)) continue;
    counts.told++;
    if (holds(found.touchdown.alongM, truth.alongM)) counts.held++;
  }

  test('[TT1] have that outcome, and none is refused', () => {
    expect(counts.touched).toBeGreaterThan(35);
    expect(counts.passed).toBeGreaterThan(35);
    expect(counts).toMatchObject({ refused: 0, wrong: 0 });
  });

  test('[TT2] touches that the log does not show lie in their bands nine times in ten', () => {
    expect(counts.told).toBeGreaterThanOrEqual(10);
    // Of so many bands that hold nine times in ten, fewer than three in four hold once in fifty draws and more (binomial).
    expect(counts.held / counts.told).toBeGreaterThan(0.75);
  });
});

const PASSED_HIGH = { ending: { kind: 'low-pass', aboveM: 60 }, pathDeg: 6 } as const;
const NO_HEIGHT = (track: ReturnType<typeof record>) => ({
  ...track,
  heightM: new Float64Array(track.length).fill(NaN),
});
/** What is told; throws where it is undetermined. */
function told<T extends object>(what: T | Undetermined): T {
  if (isUndetermined(what)) throw new Error(what.undetermined);
  return what;
}
const SKIM = { kind: 'go-around', atAboveM: 1 } as const;

test('[TT3] a pass that the log surely has 30 m up did not touch, whatever is said', () => {
  const scenario = flyDrawnApproach(31, 'low-pass', { approach: PASSED_HIGH });
  const { approach } = approachSaid(scenario, true, { format: 'igc' });
  expect(approach.outcome).toBe('low-pass');
  expect(approach.saidContact?.refused).toMatch(
    /^the log has the aircraft \d+ m or more above the strip at its lowest$/,
  );
});

test('[TT3] with fixes far apart less is sure: by what may be sunk and climbed between two of them', () => {
  const scenario = flyDrawnApproach(31, 'low-pass', { approach: PASSED_HIGH });
  /** How high the log surely has it, metres; NaN where it excludes no touch. */
  const sureM = (intervalS: number): number => {
    const { saidContact } = approachSaid(scenario, true, {
      ...{ format: 'igc', receiver: { intervalS } },
    }).approach;
    return Number(/\d+/.exec(saidContact?.refused ?? '')?.[0] ?? NaN);
  };
  // 4 m/s down and up again: in 4 s 8 m that nobody saw, in one 2 m.
  expectNear(sureM(1) - sureM(4), 6, 2.5);
});

test('[TT3] of a pass said not to have touched the log says nothing against, however high', () => {
  const scenario = flyDrawnApproach(31, 'low-pass', { approach: PASSED_HIGH });
  const { approach } = approachSaid(scenario, false);
  expect(approach.saidContact).toMatchObject({ refused: null, againstIt: null });
});

test('[HC13] a pass too high for an approach stays one where the pilot says something of it', () => {
  const approach = { ending: { kind: 'low-pass', aboveM: 128 }, pathDeg: 6 } as const;
  const scenario = flyDrawnApproach(3, 'low-pass', { approach });
  const motion = computeMotion(record(scenario));
  expect(eventsSaid(motion, scenario, []).approaches).toEqual([]);
  expect(approachSaid(scenario, false).approach.saidContact).toMatchObject({ touched: false });
});

test('[HC14] of a touch-and-go that became as slow as a taxi nobody can say that it did not touch', () => {
  const roll = { ...{ powerAfterS: 6, brakes: { mps2: 2.5 }, brakeDelayS: 0.5 } };
  const { approach } = approachSaid(flyDrawnApproach(2, 'touch-and-go', { roll }), false);
  expect(approach.outcome).toBe('touch-and-go');
  expect(approach.saidContact?.refused).toBe(
    'the aircraft was as slow over the strip as in a taxi',
  );
});

test('[TT1] a word is about an arrival, not about the take-off after it; of two the last counts', () => {
  const motion = { timeS: Float64Array.from({ length: 60 }, (_, i) => i) } as unknown as Motion;
  const pass = (kind: Pass['kind'], from: number, to: number) => ({ kind, from, to }) as Pass;
  const passes = [pass('arrival', 0, 10), pass('departure', 12, 30)];
  const [early, late] = [
    { aroundS: 5, touched: false },
    { aroundS: 20, touched: true },
  ];
  expect(wordsOfPasses(passes, motion, [early, late])).toEqual([late, null]);
  expect(wordsOfPasses(passes, motion, [late, early])).toEqual([early, null]);
});

test('[TT4] without heights the word decides; where it touched is undetermined', () => {
  const noHeights = { edit: NO_HEIGHT };
  const scenario = flyDrawnApproach(21, 'go-around', { approach: { ending: SKIM } });
  const passed = approachSaid(scenario, false, noHeights).approach;
  expect(passed.outcome).toBe('go-around');
  expect(passed.goAround?.contactProbability).toBe(0);
  const { approach: touched, events } = approachSaid(scenario, true, noHeights);
  expect(touched.outcome).toBe('touch-and-go');
  expect(touched.touchdown).toEqual({
    undetermined: 'without heights the log does not show where the wheels touched',
  });
  // It lifted off some time in the pass.
  const motion = computeMotion(record(scenario, noHeights));
  const { liftOff } = onlyOne(events.takeOffs);
  expect(bandOf(told(liftOff).timeS)).toMatchObject({
    low: motion.timeS[touched.from],
    high: motion.timeS[touched.to - 1],
  });
});

test('[TT4] with a fix every 10 s the word decides too, and no touchdown is placed', () => {
  const scenario = flyDrawnApproach(12, 'touch-and-go');
  const coarse = { receiver: { intervalS: 10 } };
  const silent = computeMotion(record(scenario, coarse));
  const before = onlyOne(eventsSaid(silent, scenario, []).approaches);
  expect(isUndetermined(before.outcome)).toBe(true);
  const { approach, events } = approachSaid(scenario, true, coarse);
  expect(approach.outcome).toBe('touch-and-go');
  expect(approach.contactProbability).toBe(1);
  expect(approach.saidContact?.measuredProbability).toBeNaN();
  expect(isUndetermined(approach.touchdown)).toBe(true);
  const { liftOff } = onlyOne(events.takeOffs);
  if (isUndetermined(liftOff)) throw new Error('it took off again');
  bandOf(liftOff.timeS);
  expect(isUndetermined(liftOff.alongM)).toBe(true);
  const said = approachSaid(scenario, false, coarse).approach;
  expect(said.contactProbability).toBe(0);
  expect(['go-around', 'low-pass']).toContain(said.outcome);
});

test('[GA1] [TT5] lower off the strip than over it, a pass surely did not touch; told that it did, it has no place for the touch and ties nothing', () => {
  const low = { ending: SKIM, aimAlongM: -170 };
  const scenario = flyDrawnApproach(21, 'go-around', { approach: low });
  const { approach, events } = approachSaid(scenario, true);
  expect(approach.outcome).toBe('touch-and-go');
  expect(approach.saidContact).toMatchObject({ refused: null, againstIt: null });
  expect(approach.touchdown).toEqual({
    undetermined:
      'the log has the aircraft lower off the strip, where no wheels touch, than over it',
  });
  expect(approach.posterior).toBeNull();
  const silent = eventsSaid(computeMotion(record(scenario)), scenario, []);
  expect(events.ties).toEqual(silent.ties);
  // More than a hundred metres before a strip no wheel touches it.
  const { outcome, goAround } = onlyOne(silent.approaches);
  expect(outcome).toBe('go-around');
  expect(goAround?.contactProbability).toBe(0);
});

describe('[TT2] a touch that the log does not show', () => {
  const scenario = flyDrawnApproach(21, 'go-around', { approach: { ending: SKIM } });
  const { approach, events } = approachSaid(scenario, true);

  const takeOff = onlyOne(events.takeOffs);
  const touchdown = told(approach.touchdown);
  const liftOff = told(takeOff.liftOff);

  test('[TT2] leaves undetermined how long the wheels stayed down, and where they left', () => {
    expect(isToldOnly(approach)).toBe(true);
    const { rollEnd, groundRollM, fullStopRollM, hardestBrakingRollM, stripLeftM } = approach;
    const { alongM, groundSpeedMps } = liftOff;
    const nobodyKnows = {
      ...{ rollEnd, groundRollM, fullStopRollM, hardestBrakingRollM, stripLeftM },
      ...{ bounces: touchdown.bounces, alongM, groundSpeedMps },
      ...{ screen: takeOff.screen, left: takeOff.stripLeftM },
    };
    for (const [name, figure] of Object.entries(nobodyKnows)) {
      expect(figure, name).toEqual({
        undetermined: 'the log does not show the touch that was told of by hand',
      });
    }
  });

  test('[TT2] has its lift-off between the first moment of the touch and 50 ft', () => {
    const { value, low, high } = bandOf(liftOff.timeS);
    expect(low).toBe(bandOf(touchdown.timeS).low);
    const { timeS } = scenario.flown;
    const { aboveM } = alongOfRows(scenario);
    const lowest = aboveM.indexOf(Math.min(...aboveM));
    const screenS = timeS[aboveM.findIndex((m, i) => i > lowest && m > 15.24)];
    // Seen at the first fix above it.
    expectNear(high, screenS, 2);
    expect(value).toBeGreaterThan(low);
  });

  test('[TT2] ties the heights around it', () => {
    const silent = eventsSaid(computeMotion(record(scenario)), scenario, []);
    expect(events.ties.length).toBe(silent.ties.length + 1);
  });

  test('[TT2] was where wheels touch, however low the log has the aircraft before the strip', () => {
    for (const aimAlongM of [-60, -80, -100, -120]) {
      const early = flyDrawnApproach(21, 'go-around', { approach: { ending: SKIM, aimAlongM } });
      const { posterior } = approachSaid(early, true).approach;
      if (!posterior) throw new Error('it has a place');
      const { weight, alongM } = posterior;
      expectNear(
        weight.reduce((sum, of) => sum + of, 0),
        1,
        1e-9,
      );
      const beginsM = createRunway(early.strip, early.designator, createMap()).nearEndAlongM;
      // A hundred metres before the strip at the most.
      const firstM = alongM[weight.findIndex((of) => of > 0)];
      expect(firstM).toBeGreaterThanOrEqual(beginsM - 100);
    }
  });

  test('[AP4] with the end of the log on it, nobody knows what it became, and no take-off is invented', () => {
    const edit = (track: Track): Track => cutAt(track, valueOf(touchdown.timeS));
    const cut = approachSaid(scenario, true, { edit });
    expect(isToldOnly(cut.approach)).toBe(true);
    expect(cut.approach.outcome).toEqual({
      undetermined: 'the log ends after the touch: a full stop or a touch-and-go',
    });
    expect(cut.events.takeOffs).toEqual([]);
  });
});

test('[TT1] a word is about the nearest pass, and none that is 30 s away', () => {
  const scenario = flyDrawnApproach(31, 'low-pass', { approach: PASSED_HIGH });
  const motion = computeMotion(record(scenario));
  const { from, to } = onlyOne(eventsSaid(motion, scenario, []).approaches);
  const said = (aroundS: number) =>
    onlyOne(eventsSaid(motion, scenario, [{ aroundS, touched: false }]).approaches).saidContact;
  expect(said(motion.timeS[from] - 29)).not.toBeNull();
  expect(said(motion.timeS[from] - 31)).toBeNull();
  expect(said(motion.timeS[to - 1] + 31)).toBeNull();
});
