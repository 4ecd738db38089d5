/**
 * Drawn landings, go-arounds and take-offs: the truth agrees with the flown columns, and the flights
 * look like flights.
 *
 * Sources: common practice, no source, for what is usual: farm strips of 350 to 380 m by 10 to 24 m;
 * a light single leaves the grass near 52 kt; a firm short-field landing stops about 250 m into a
 * 350 m strip. Seeds stand in the titles or loops; all draws are fixed.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { MPS_PER_KNOT } from '../../src/units/convert.ts';
import { expectNear } from '../expect-near.ts';
import { FOUR_SEATER } from './aeroplane-model.ts';
import type { FlownFlight } from './flight.ts';
import { inventStrip } from './invent-strip.ts';
import { createMap, createRunway, toAlongCross } from './runway.ts';
import { flyDrawnApproach, flyDrawnTakeOff, type Scenario } from './scenarios.ts';
import type { ApproachTruth, TouchdownTruth } from './truth.ts';
import { windOf } from './wind-model.ts';

const SEEDS = Array.from({ length: 60 }, (_, i) => i + 1);
let landings: Scenario[] = [];

beforeAll(() => {
  landings = SEEDS.map((seed) => flyDrawnApproach(seed, 'full-stop'));
});

describe('drawn landings (seeds 1 to 60)', () => {
  test('[SIM10] touch down at the first wheel contact and never before', () => {
    for (const scenario of landings) {
      const { timeS } = touchdownOf(scenario);
      const before = rowsWhere(scenario.flown, (t) => t < timeS);
      for (const height of heightsOf(scenario, before)) expect(height).toBeGreaterThan(0);
      const [after] = heightsOf(
        scenario,
        rowsWhere(scenario.flown, (t) => t >= timeS),
      );
      // A planned bounce may have begun within the tenth of a second.
      expectNear(after, 0, bouncesOf(scenario) > 0 ? 0.2 : 1e-9, 'height just after contact');
    }
  });

  test('[SIM11] keep the wheels exactly on the profile from the last contact to the end', () => {
    for (const scenario of landings) {
      const downS = approachOf(scenario).bounces.at(-1)?.onTimeS ?? touchdownOf(scenario).timeS;
      const rows = rowsWhere(scenario.flown, (t) => t > downS + 0.02);
      expect(rows.length).toBeGreaterThan(100);
      for (const height of heightsOf(scenario, rows)) expectNear(height, 0, 1e-9, 'height');
    }
  });

  test('[SIM12] bring the antenna to rest at its height over the wheels', () => {
    for (const { flown } of landings) {
      const last = flown.length - 1;
      const antennaM = flown.antennaMslM[last] - flown.wheelMslM[last];
      expect(antennaM).toBeGreaterThan(0.99);
      expect(antennaM).toBeLessThan(1.61);
      expectNear(flown.antennaUpMps[last], 0, 1e-3, 'antenna speed');
    }
  });

  test('[SIM13] have positions, speeds and times that fit together at every row', () => {
    for (const { flown } of landings) {
      const steps = rowsWhere(flown, () => true).slice(1);
      const stepOff = steps.map((i) => flown.timeS[i] - flown.timeS[i - 1] - 0.1);
      const speedOff = steps.map((i) => {
        const moved = (flown.eastM[i] - flown.eastM[i - 1]) / 0.1;
        return moved - (flown.eastMps[i] + flown.eastMps[i - 1]) / 2;
      });
      expectNear(largest(stepOff), 0, 1e-5, 'step');
      // A straight mean of the speeds is off by the change of acceleration within a row.
      expectNear(largest(speedOff), 0, 0.15, 'east speed');
    }
  });

  test('[SIM14] change speed over the ground smoothly: below 6 m/s2 and without jumps', () => {
    for (const { flown } of landings) {
      const moving = rowsWhere(flown, () => true).filter((i) => i > 1 && speedAt(flown, i) > 0.5);
      const accel = (i: number): number => (speedAt(flown, i) - speedAt(flown, i - 1)) / 0.1;
      // Brakes grip and let go over some 0.4 s: 3.5 m/s2 of them change by 0.8 in a tenth.
      expectNear(largest(moving.map(accel)), 0, 6, 'acceleration');
      expectNear(largest(moving.map((i) => accel(i) - accel(i - 1))), 0, 1, 'its change');
    }
  });

  test('[SIM15] lose 0.2 to 1.6 m/s each second of airspeed between round-out and touchdown', () => {
    const rates = landings.map((scenario) => {
      const { roundOut } = approachOf(scenario);
      const touchdown = touchdownOf(scenario);
      const start = airspeedAt(scenario.flown, roundOut?.timeS ?? NaN);
      return (start - touchdown.airspeedMps) / (touchdown.timeS - (roundOut?.timeS ?? NaN));
    });
    const sorted = rates.toSorted((a, b) => a - b);
    // Gusts move single flights; the middle of them is the idle aeroplane's 0.5 to 1 m/s2.
    expectNear(sorted[30], 0.75, 0.25, 'median rate');
    expect(sorted[3]).toBeGreaterThan(0.1);
    expect(sorted[56]).toBeLessThan(1.7);
  });

  test('[SIM16] arrest the sink in the round-out: contact is softer than the approach', () => {
    const softer = landings.filter((scenario) => {
      const { roundOut } = approachOf(scenario);
      const row = Math.floor(((roundOut?.timeS ?? NaN) - scenario.flown.timeS[0]) / 0.1) - 5;
      return touchdownOf(scenario).sinkMps < -scenario.flown.antennaUpMps[row];
    });
    const sinks = landings.map((scenario) => touchdownOf(scenario).sinkMps);
    // The rest ran out of speed in the hold-off and dropped: that happens.
    expect(softer.length).toBeGreaterThan(54);
    expect(Math.min(...sinks)).toBeGreaterThan(0);
    expect(Math.max(...sinks)).toBeLessThan(2.2);
  });

  test('[SIM17] count the ground roll from first contact to 0.5 m/s', () => {
    const stopped = landings.filter((scenario) => approachOf(scenario).groundRollM !== null);
    expect(stopped.length).toBeGreaterThan(20);
    for (const scenario of stopped) {
      const { rollEnd, groundRollM } = approachOf(scenario);
      const flown = scenario.flown;
      const row = Math.round(((rollEnd?.timeS ?? NaN) - flown.timeS[0]) / 0.1);
      expectNear(speedAt(flown, row), 0.5, 0.4, 'speed at the stop');
      const travelled = pathLengthM(flown, touchdownOf(scenario).timeS, rollEnd?.timeS ?? NaN);
      // The steered path is a little longer than its length along the strip.
      expectNear(travelled, groundRollM ?? NaN, 0.6, 'roll');
    }
  });

  test('[SIM18] cover slow microlights and fast singles, soft and firm arrivals', () => {
    const speeds = landings.map((scenario) => touchdownOf(scenario).airspeedMps);
    const sinks = landings.map((scenario) => touchdownOf(scenario).sinkMps);
    expect(Math.min(...speeds)).toBeLessThan(13.5);
    expect(Math.max(...speeds)).toBeGreaterThan(26);
    expect(Math.min(...sinks)).toBeLessThan(0.3);
    expect(Math.max(...sinks)).toBeGreaterThan(1.1);
    expect(landings.filter((scenario) => bouncesOf(scenario) > 0).length).toBeGreaterThan(1);
  });
});

describe('other drawn flights', () => {
  test('[SIM19] go-arounds keep their wheels off the ground and know their lowest height', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const scenario = flyDrawnApproach(seed, 'go-around');
      const truth = approachOf(scenario);
      if (truth.goAround === null) expect(truth.touchdown).not.toBeNull();
      if (truth.goAround === null) continue;
      const heights = heightsOf(
        scenario,
        rowsWhere(scenario.flown, () => true),
      );
      // Rows stand a tenth of a second apart; near the lowest point that is a few centimetres.
      expectNear(Math.min(...heights), truth.goAround.lowestAboveM, 0.05, `seed ${seed}`);
      expect(truth.goAround.lowestAboveM).toBeGreaterThan(0);
      expect(truth.goAround.lowestTimeS).toBeGreaterThanOrEqual(truth.goAround.initiationTimeS);
    }
  });

  test('[SIM20] touch-and-goes touch, roll and lift off again, in that order', () => {
    for (let seed = 1; seed <= 15; seed++) {
      const { truth } = flyDrawnApproach(seed, 'touch-and-go').flown;
      const [approach] = truth.approaches;
      const [takeOff] = truth.takeOffs;
      expect(approach.rollEnd?.kind).toBe('power');
      expect(approach.rollEnd?.timeS ?? NaN).toBeGreaterThan(approach.touchdown?.timeS ?? NaN);
      expect(takeOff.liftOff?.timeS ?? NaN).toBeGreaterThan(approach.rollEnd?.timeS ?? NaN);
      expect(takeOff.brakeRelease).toBeNull();
    }
  });

  test('[SIM21] take-offs: wheels on the profile to lift-off, 50 ft above it later', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const scenario = flyDrawnTakeOff(seed);
      const [takeOff] = scenario.flown.truth.takeOffs;
      const liftOffS = takeOff.liftOff?.timeS ?? NaN;
      const screenS = takeOff.screen?.timeS ?? NaN;
      const onGround = heightsOf(
        scenario,
        rowsWhere(scenario.flown, (t) => t < liftOffS - 1e-3),
      );
      for (const height of onGround) expectNear(height, 0, 1e-9, 'height');
      const [atScreen] = heightsOf(
        scenario,
        rowsWhere(scenario.flown, (t) => t >= screenS),
      );
      expectNear(atScreen, 15.24, 0.6, 'screen height');
      expect(
        heightsOf(
          scenario,
          rowsWhere(scenario.flown, (t) => t > liftOffS + 1),
        )[0],
      ).toBeGreaterThan(0);
    }
  });

  test('[SIM22] the four-seater leaves the grass near 52 kt after a few hundred metres at most', () => {
    const strip = inventStrip(createMap(), { id: 'level', bearingDeg: 90, lengthM: 600 });
    for (let seed = 1; seed <= 5; seed++) {
      const wish = { aeroplane: FOUR_SEATER, strip, wind: windOf(0, 0) };
      const { flown } = flyDrawnTakeOff(seed, wish);
      const [takeOff] = flown.truth.takeOffs;
      expectNear((takeOff.liftOff?.airspeedMps ?? NaN) / MPS_PER_KNOT, 52, 5, 'lift-off, kt');
      expectNear(takeOff.groundRollM ?? NaN, 290, 60, 'take-off roll');
    }
  });

  test('[SIM23] a firm short-field landing of the four-seater stops about 250 m into 350 m', () => {
    const strip = inventStrip(createMap(), { id: 'farm', bearingDeg: 90, lengthM: 350 });
    const stops = [1, 2, 3, 4, 5].map((seed) => {
      const scenario = flyDrawnApproach(seed, 'full-stop', {
        aeroplane: FOUR_SEATER,
        strip,
        wind: windOf(0, 0),
        approach: {
          speedMps: 30,
          pathDeg: 4.5,
          aimAlongM: -25,
          flareHeightM: 4,
          holdHeightM: 0.2,
          contactSinkMps: 0.9,
          touchdownMps: 28.5,
          throttleCutS: 1,
          bouncesMps: [],
        },
        roll: { brakeDelayS: 1.5, brakes: { mps2: 1.6 }, end: 'stopped' },
      });
      return approachOf(scenario).rollEnd?.alongM ?? NaN;
    });
    for (const stop of stops) expectNear(stop, 250, 50, 'stop');
  });

  test('[SIM24] the same seed gives the same flight, another seed another', () => {
    const [one, again, other] = [7, 7, 8].map((seed) => flyDrawnApproach(seed, 'full-stop').flown);
    expect(again.eastM).toEqual(one.eastM);
    expect(again.truth).toEqual(one.truth);
    expect(other.truth).not.toEqual(one.truth);
  });
});

function approachOf(scenario: Scenario): ApproachTruth {
  return scenario.flown.truth.approaches[0];
}

function touchdownOf(scenario: Scenario): TouchdownTruth {
  const { touchdown } = approachOf(scenario);
  if (touchdown === null) throw new Error('the drawn landing has no touchdown');
  return touchdown;
}

function bouncesOf(scenario: Scenario): number {
  return approachOf(scenario).bounces.length;
}

function rowsWhere(flown: FlownFlight, keep: (timeS: number) => boolean): number[] {
  return Array.from(flown.timeS.keys()).filter((i) => keep(flown.timeS[i]));
}

function heightsOf(scenario: Scenario, rows: readonly number[]): number[] {
  const { flown } = scenario;
  const runway = createRunway(scenario.strip, scenario.designator, flown.map);
  return rows.map((i) => {
    const { alongM } = toAlongCross(runway, flown.eastM[i], flown.northM[i]);
    return flown.wheelMslM[i] - runway.groundMslM(alongM);
  });
}

/** The value farthest from zero; NaN where any is. */
function largest(values: readonly number[]): number {
  if (values.some(Number.isNaN)) return NaN;
  return values.reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), 0);
}

function speedAt(flown: FlownFlight, i: number): number {
  return Math.hypot(flown.eastMps[i], flown.northMps[i]);
}

function airspeedAt(flown: FlownFlight, timeS: number): number {
  return flown.airspeedMps[Math.round((timeS - flown.timeS[0]) / 0.1)];
}

function pathLengthM(flown: FlownFlight, fromS: number, toS: number): number {
  let lengthM = 0;
  for (let i = 1; i < flown.length; i++) {
    const share = Math.min(flown.timeS[i], toS) - Math.max(flown.timeS[i - 1], fromS);
    const speed = (speedAt(flown, i) + speedAt(flown, i - 1)) / 2;
    if (share > 0) lengthM += speed * share;
  }
  return lengthM;
}
