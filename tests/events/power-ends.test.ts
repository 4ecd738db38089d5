/** Where power for the take-off ended a roll; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { describeRollEnd } from '../../src/events/landing.ts';
import { powerEnd } from '../../src/events/power-end.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { FOUR_SEATER } from '../synthetic/aeroplane-model.ts';
import { flyApproach } from '../synthetic/approach-model.ts';
import { beginFlight, finishFlight, momentOf } from '../synthetic/flight.ts';
import { stepTaxi } from '../synthetic/ground-motion.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { drawApproach } from '../synthetic/population.ts';
import { PLAIN_ROLL, rollOut } from '../synthetic/roll-model.ts';
import { createMap, createRunway } from '../synthetic/runway.ts';
import { climbAway, flyAt, flyDrawnApproach, SCENARIO_START_S } from '../synthetic/scenarios.ts';
import { plainTakeOff, takeOff } from '../synthetic/take-off-model.ts';
import { CALM } from '../synthetic/wind-model.ts';
import { makeRun } from './made-motion.ts';
import { bandOf, eventsOf, holds, onlyOne, valueOf } from './simulated.ts';

const FLIGHTS = 70;

/** Touch-and-goes drawn by seed: which bands of the roll's end hold the simulator's moment of power. */
function touchAndGoes(intervalS: number) {
  const held = { place: 0, time: 0, speed: 0 };
  const widthsM: number[] = [];
  const lateS: number[] = [];
  for (let seed = 1; seed <= FLIGHTS; seed++) {
    const scenario = flyDrawnApproach(seed, 'touch-and-go');
    const truth = scenario.flown.truth.approaches[0].rollEnd;
    const { approaches } = eventsOf(scenario, { seed, receiver: { intervalS } });
    const end = approaches[0]?.rollEnd;
    if (!truth || isUndetermined(end) || end.kind !== 'power') continue;
    const isIn = (measured: Measured, value: number): number => {
      const { low, high } = bandOf(measured);
      return low <= value && value <= high ? 1 : 0;
    };
    held.place += isIn(end.alongM, truth.alongM);
    held.time += isIn(end.timeS, truth.timeS);
    held.speed += isIn(end.groundSpeedMps, truth.groundSpeedMps);
    const { low, high } = bandOf(end.alongM);
    widthsM.push(high - low);
    lateS.push(valueOf(end.timeS) - truth.timeS);
  }
  const median = (values: readonly number[]): number =>
    values.toSorted((a, b) => a - b)[values.length >> 1];
  const count = widthsM.length;
  const { place, time, speed } = held;
  return {
    count,
    shares: [place, time, speed].map((each) => each / count),
    medianWidthM: median(widthsM),
    medianLateS: median(lateS),
  };
}

describe('[RE2] the end of a roll where power was opened', () => {
  // Of 65 bands that hold nine times in ten, fewer than 53 hold once in 130 draws (binomial).
  test.each([
    [1, 35],
    [2, 45],
    [4, 85],
  ])(
    '[RE2] is held by its bands, with a fix every %d s, in no more than %d m, and not late nor early',
    (intervalS, mostM) => {
      const { count, shares, medianWidthM, medianLateS } = touchAndGoes(intervalS);
      expect(count).toBeGreaterThan(60);
      for (const share of shares) expect(share).toBeGreaterThan(0.82);
      expect(medianWidthM).toBeLessThan(mostM);
      // Half of what a roll slows on: neither the slowest fix nor twice as long before it.
      expectNear(medianLateS, 0, 0.22, 'median lateness');
    },
  );

  test('[RE2] lies anywhere in a roll at an even speed, and near the kink of one that slows to it', () => {
    // Slowing to 12 m/s by 20 s, so much longer even, then off again.
    const endOf = (evenS: number) => {
      const { motion, view, startS, trueAlongM } = makeRun({
        fromAlongM: 0,
        lengthS: 40 + evenS,
        speedMps: (t) => (t < 20 ? 32 - t : t < 20 + evenS ? 12 : 12 + 1.5 * (t - 20 - evenS)),
        noiseSdM: 0.2,
      });
      let slowest = 15;
      for (let i = slowest; i < 25 + evenS; i++) {
        if (view.forwardMps[i] < view.forwardMps[slowest]) slowest = i;
      }
      const end = describeRollEnd(view, powerEnd(motion, view, slowest));
      const { low, high } = bandOf(end.alongM);
      const time = bandOf(end.timeS);
      return { startS, trueAlongM, low, high, longS: time.high - time.low };
    };
    const sharp = endOf(0);
    expect(sharp.high - sharp.low).toBeLessThan(35);
    expect(sharp.low).toBeLessThan(sharp.trueAlongM(20));
    expect(sharp.high).toBeGreaterThan(sharp.trueAlongM(20));
    const even = endOf(12);
    expect(even.longS).toBeGreaterThan(8);
    expect(even.high - even.low).toBeGreaterThan(90);
  });
});

describe('[AP2] a landing that slows to a taxi and takes off again from it', () => {
  const map = createMap();
  const strip = inventStrip(map, { id: 'long', bearingDeg: 70, lengthM: 1200 });
  const runway = createRunway(strip, '07', map);
  const seed = 5;
  const flight = beginFlight({
    aeroplane: FOUR_SEATER,
    wind: CALM,
    seed,
    startTimeS: SCENARIO_START_S,
  });
  const plan = drawApproach(createRandom(seed), FOUR_SEATER);
  flyAt(flight, runway, plan);
  const truth = flyApproach(flight, runway, plan);
  rollOut(flight, runway, truth, { ...PLAIN_ROLL, end: 'taxi', endMps: 4 });
  const taxiS = flight.timeS;
  // Still slowing a little, for else a steady taxi would end the roll before.
  while (flight.timeS < taxiS + 25) {
    stepTaxi(flight, runway, runway.bearingRad, 4 - 0.08 * (flight.timeS - taxiS));
  }
  const power = momentOf(flight, runway);
  takeOff(flight, runway, { ...plainTakeOff(flight), power });
  climbAway(flight, runway, 20);
  const scenario = { strip, designator: '07', flown: finishFlight(flight) };
  const found = (intervalS: number) =>
    onlyOne(eventsOf(scenario, { seed, receiver: { intervalS } }).approaches);

  test('[AP2] is a touch-and-go, and its roll ends where power was opened', () => {
    const { outcome, rollEnd, notes } = found(1);
    expect([outcome, notes]).toEqual(['touch-and-go', []]);
    if (isUndetermined(rollEnd)) throw new Error(rollEnd.undetermined);
    expect(rollEnd.kind).toBe('power');
    expect(holds(rollEnd.timeS, power.timeS)).toBe(true);
    expect(holds(rollEnd.alongM, power.alongM)).toBe(true);
  });

  test('[CO1] of fixes far apart it tells no end, and that it may have stood', () => {
    const { outcome, rollEnd, notes } = found(8);
    expect(outcome).toBe('touch-and-go');
    expect(isUndetermined(rollEnd)).toBe(true);
    expect(notes.join()).toContain('a touch-and-go from a stop-and-go');
  });
});
