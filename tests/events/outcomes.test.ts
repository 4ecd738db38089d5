/** Outcomes of approaches and take-offs on simulated flights; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { isUndetermined } from '../../src/result.ts';
import type { Strip } from '../../src/strips/strip.ts';
import type { Outcome } from '../synthetic/truth.ts';
import { flyDrawnApproach, flyDrawnTakeOff, type Scenario } from '../synthetic/scenarios.ts';
import { windOf } from '../synthetic/wind-model.ts';
import { eventsOf, eventsOfTrack, onlyOne, record } from './simulated.ts';

/** Seeds of every outcome; the same for all receivers, so that only the receiver differs. */
const SEEDS = [11, 12, 13, 14, 15, 16, 17, 18];

describe('[AP1] the outcome of a simulated approach', () => {
  const outcomes: Outcome[] = ['full-stop', 'touch-and-go', 'stop-and-go'];
  test.each(outcomes)('[AP1] %s is named rightly at its strip and in its direction', (outcome) => {
    for (const seed of SEEDS) {
      const scenario = flyDrawnApproach(seed, outcome);
      const { approaches } = eventsOf(scenario, { seed });
      expect(approaches, `seed ${seed}`).toHaveLength(1);
      expect(approaches[0], `seed ${seed}`).toMatchObject({
        outcome,
        strip: scenario.strip.id,
        direction: scenario.designator,
      });
    }
  });

  test('[AP2] a go-around from above a metre and a half is never called a landing', () => {
    for (const seed of SEEDS) {
      const ending = { kind: 'go-around', atAboveM: 3 + 2 * seed } as const;
      const scenario = flyDrawnApproach(seed, 'go-around', { approach: { ending } });
      const { approaches } = eventsOf(scenario, { seed });
      expect(approaches, `seed ${seed}`).toHaveLength(1);
      expect(['go-around', 'low-pass'], `seed ${seed}`).toContain(approaches[0].outcome);
      expect(approaches[0].contactProbability).toBeLessThan(0.4);
    }
  });

  test.each([0.2, 4])('[AP2] outcomes are the same with a fix every %d s', (intervalS) => {
    const wishes = [
      ['full-stop', {}],
      ...(intervalS < 4 ? ([['touch-and-go', {}]] as const) : []),
      ['stop-and-go', {}],
      ['go-around', { approach: { ending: { kind: 'go-around', atAboveM: 20 } } }],
    ] as const;
    for (const seed of SEEDS.slice(0, 3)) {
      for (const [outcome, wish] of wishes) {
        const scenario = flyDrawnApproach(seed, outcome, wish);
        const { approaches } = eventsOf(scenario, { seed, receiver: { intervalS } });
        expect(
          approaches.map((each) => each.outcome),
          `seed ${seed}`,
        ).toEqual([outcome]);
      }
    }
  });

  test('[AP2] with a fix every 4 s no touch-and-go is called a pass, and at most one in ten is undetermined', () => {
    const seeds = Array.from({ length: 40 }, (_, k) => 11 + k);
    const found = seeds.map((seed) => {
      const scenario = flyDrawnApproach(seed, 'touch-and-go');
      const { approaches } = eventsOf(scenario, { seed, receiver: { intervalS: 4 } });
      const { outcome } = onlyOne(approaches);
      return isUndetermined(outcome) ? 'undetermined' : outcome;
    });
    const others = found.filter((outcome) => outcome !== 'touch-and-go');
    expect(others.filter((outcome) => outcome !== 'undetermined')).toEqual([]);
    expect(others.length).toBeLessThanOrEqual(4);
  });

  test('[AP3] a low pass 15 m up is one, and an overflight 160 m up is none', () => {
    for (const [aboveM, pathDeg, outcome] of [
      [15, 4, 'low-pass'],
      [160, 10, 'overflight'],
    ] as const) {
      const ending = { kind: 'low-pass', aboveM } as const;
      const scenario = flyDrawnApproach(21, 'low-pass', { approach: { ending, pathDeg } });
      // IGC says what its heights count from, so that a single pass can be told from an overflight.
      const { approaches } = eventsOf(scenario, { format: 'igc' });
      expect(
        approaches.map((each) => each.outcome),
        `${aboveM} m`,
      ).toEqual([outcome]);
    }
  });

  test('[AP4] without heights a landing is found all the same, and a pass is undetermined', () => {
    const receiver = { heights: 'none' } as const;
    const landing = eventsOf(flyDrawnApproach(12, 'full-stop'), { receiver });
    expect(landing.approaches.map((each) => each.outcome)).toEqual(['full-stop']);
    const pass = eventsOf(flyDrawnApproach(12, 'low-pass'), { receiver });
    expect(pass.approaches).toHaveLength(1);
    expect(isUndetermined(pass.approaches[0].outcome)).toBe(true);
  });

  test('[AP5] heights above the ellipsoid change no outcome and no touchdown', () => {
    const lift = (metres: number) => ({
      edit: (track: ReturnType<typeof record>) => ({
        ...track,
        heightM: track.heightM.map((height) => height + metres),
      }),
    });
    for (const seed of SEEDS.slice(0, 4)) {
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const low = eventsOf(scenario, { seed, ...lift(0) }).approaches[0];
      const high = eventsOf(scenario, { seed, ...lift(47) }).approaches[0];
      expect(high.outcome).toBe(low.outcome);
      if (isUndetermined(low.touchdown) || isUndetermined(high.touchdown)) throw new Error('none');
      // The height's level has no prior, so only rounding is left.
      expect(valueOf(high.touchdown.alongM)).toBeCloseTo(valueOf(low.touchdown.alongM), 3);
    }
  });
});

describe('[AP6] which strip it was', () => {
  const scenario = flyDrawnApproach(15, 'full-stop');

  test('[AP6] of two parallel strips 60 m apart the nearer one is taken', () => {
    const beside = moved(scenario.strip, 60, 0);
    const { approaches } = eventsOf(scenario, { strips: [beside, scenario.strip] });
    expect(approaches.map((each) => each.strip)).toEqual([scenario.strip.id]);
  });

  test('[AP6] of two strips crossing at 25 degrees the aligned one is taken', () => {
    const across = moved(scenario.strip, 0, 25);
    const { approaches } = eventsOf(scenario, { strips: [across, scenario.strip] });
    expect(approaches.map((each) => each.strip)).toEqual([scenario.strip.id]);
  });

  test('[AP7] a direction that the strip does not list is reported with a note, never turned round', () => {
    const oneWay = {
      ...scenario.strip,
      directions: scenario.strip.directions.filter(
        ({ designator }) => designator !== scenario.designator,
      ),
    };
    const [approach] = eventsOf(scenario, { strips: [oneWay] }).approaches;
    expect(approach.direction).not.toBe(oneWay.directions[0].designator);
    expect(approach.notes.join()).toContain('does not list direction');
  });

  test('[AP7] a direction listed for take-off alone is reported with the note, and the other way about', () => {
    const usedFor = (use: 'landing' | 'take-off', { strip }: Scenario): Strip => ({
      ...strip,
      directions: strip.directions.map((each) => ({ ...each, use })),
    });
    const departure = flyDrawnTakeOff(301);
    for (const [use, isLandingNoted] of [
      ['take-off', true],
      ['landing', false],
    ] as const) {
      const [landed] = eventsOf(scenario, { strips: [usedFor(use, scenario)] }).approaches;
      const [left] = eventsOf(departure, { strips: [usedFor(use, departure)] }).takeOffs;
      const isNoted = [landed, left].map(({ notes }) => notes.join().includes('does not list'));
      expect(isNoted, use).toEqual([isLandingNoted, !isLandingNoted]);
    }
  });

  test('[UP1] at an unknown place the roll is measured, and what needs the strip is undetermined', () => {
    const { approaches, places } = eventsOf(scenario, { strips: [] });
    expect(places).toHaveLength(1);
    expect(approaches.map((each) => each.outcome)).toEqual(['full-stop']);
    const [found] = approaches;
    expect(found.strip).toBeNull();
    const none = { undetermined: 'no strip is known here' };
    expect([found.stripLeftM, found.thresholdCrossing]).toEqual([none, none]);
    expect(found.gates).toEqual([]);
    const [truth] = scenario.flown.truth.approaches;
    if (isUndetermined(found.fullStopRollM)) throw new Error(found.fullStopRollM.undetermined);
    const trueRoll = (truth.rollEnd?.alongM ?? NaN) - (truth.touchdown?.alongM ?? NaN);
    expect(found.fullStopRollM.low).toBeLessThan(trueRoll);
    expect(found.fullStopRollM.high).toBeGreaterThan(trueRoll * 0.9);
  });

  test('[UP1] a short, hard-braked roll at an unknown place is found as well as a long one', () => {
    for (let seed = 2120; seed < 2140; seed++) {
      const roll = { brakes: { mps2: 3.2 }, end: 'stopped' } as const;
      const hard = flyDrawnApproach(seed, 'full-stop', { roll, wind: windOf(0, 0) });
      const { approaches } = eventsOf(hard, { seed, strips: [] });
      expect(
        approaches.map((each) => each.outcome),
        `seed ${seed}`,
      ).toEqual(['full-stop']);
    }
  });
});

describe('[TO1] take-offs', () => {
  test('[TO1] from standing are found with lift-off and run inside their bands four times in five', () => {
    let held = 0;
    const seeds = Array.from({ length: 20 }, (_, k) => 300 + k);
    for (const seed of seeds) {
      const scenario = flyDrawnTakeOff(seed);
      const { takeOffs, approaches } = eventsOf(scenario, { seed });
      expect(approaches, `seed ${seed}`).toHaveLength(0);
      expect(takeOffs, `seed ${seed}`).toHaveLength(1);
      const [truth] = scenario.flown.truth.takeOffs;
      const run = takeOffs[0].groundRollM;
      if (isUndetermined(run)) throw new Error(run.undetermined);
      const trueRun = truth.groundRollM ?? NaN;
      expect(Number.isFinite(trueRun)).toBe(true);
      if (run.low <= trueRun && trueRun <= run.high) held++;
    }
    // Of 20 bands that hold nine times in ten, fewer than 14 hold once in 400 draws (binomial).
    expect(held).toBeGreaterThanOrEqual(14);
  });
});

describe('[UP2] what is no flight gives no event', () => {
  test('[UP2] a walk and a taxi along the strip give nothing', () => {
    const scenario = flyDrawnTakeOff(301);
    const track = record(scenario);
    for (const speedMps of [1.5, 5]) {
      const walk = walkAlong(track, scenario.strip, speedMps);
      const events = eventsOfTrack(walk, [scenario.strip]);
      expect([...events.approaches, ...events.takeOffs], `${speedMps} m/s`).toEqual([]);
    }
  });
});

function valueOf(measured: { value: number } | { undetermined: string }): number {
  return isUndetermined(measured) ? NaN : measured.value;
}

/** The strip moved sideways by metres and turned about its middle, with an id of its own. */
function moved(strip: Strip, sidewaysM: number, turnDeg: number): Strip {
  const middleLat = (strip.latDeg[0] + strip.latDeg[1]) / 2;
  const middleLon = (strip.lonDeg[0] + strip.lonDeg[1]) / 2;
  const perLat = 111_300;
  const perLon = perLat * Math.cos((middleLat * Math.PI) / 180);
  const turn = (turnDeg * Math.PI) / 180;
  const north = strip.latDeg.map((lat) => (lat - middleLat) * perLat);
  const east = strip.lonDeg.map((lon) => (lon - middleLon) * perLon);
  const length = Math.hypot(north[1] - north[0], east[1] - east[0]);
  const rightEast = ((north[1] - north[0]) / length) * sidewaysM;
  const rightNorth = (-(east[1] - east[0]) / length) * sidewaysM;
  return {
    ...strip,
    id: 'other',
    latDeg: north.map(
      (n, k) => middleLat + (n * Math.cos(turn) - east[k] * Math.sin(turn) + rightNorth) / perLat,
    ),
    lonDeg: east.map(
      (e, k) => middleLon + (e * Math.cos(turn) + north[k] * Math.sin(turn) + rightEast) / perLon,
    ),
  };
}

/** A track that goes up and down the strip at one speed. */
function walkAlong(like: ReturnType<typeof record>, strip: Strip, speedMps: number) {
  const [latA, latB] = strip.latDeg;
  const [lonA, lonB] = strip.lonDeg;
  const length = Math.hypot(
    (latB - latA) * 111_300,
    (lonB - lonA) * 111_300 * Math.cos((latA * Math.PI) / 180),
  );
  const share = (i: number): number => {
    const there = ((i * speedMps) / length) % 2;
    return there < 1 ? there : 2 - there;
  };
  const column = (valueAt: (i: number) => number): Float64Array =>
    Float64Array.from({ length: like.length }, (_, i) => valueAt(i));
  return {
    ...like,
    latDeg: column((i) => latA + share(i) * (latB - latA)),
    lonDeg: column((i) => lonA + share(i) * (lonB - lonA)),
    heightM: column(() => 20),
  };
}
