/** Where power for the take-off ended a roll; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { describeRollEnd } from '../../src/events/landing.ts';
import { powerEnd } from '../../src/events/power-end.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { makeRun } from './made-motion.ts';
import { bandOf, eventsOf, valueOf } from './simulated.ts';

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
