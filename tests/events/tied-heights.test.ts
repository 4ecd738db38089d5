/** Heights over the strip under one known offset, worked by hand; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { offsetOf, type TiedOffset } from '../../src/events/ground-tie.ts';
import { offsetByPath } from '../../src/events/path-tie.ts';
import { TiedHeights } from '../../src/events/tied-heights.ts';
import { TIE } from '../../src/events/tuning.ts';
import { Z90 } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { makeRun } from './made-motion.ts';
import { bandOf } from './simulated.ts';

/** A minute of flight, sinking steadily to 60 m as recorded: a satellite height nearly without noise. */
function sinking(sinkMps: number) {
  const { motion, view, startS } = makeRun({
    ...{ fromAlongM: -1800, lengthS: 60, speedMps: () => 30 },
  });
  const heightM = motion.timeS.map((t) => 60 + sinkMps * (startS + 60 - t));
  const flown = {
    ...motion,
    ...{ hasHeight: true, heightDatum: 'geoid' as const, smoothHeightM: heightM },
    verticalSpeedMps: motion.timeS.map(() => -sinkMps),
    noise: { ...motion.noise, verticalSdM: 1e-3, pressureDelay: null },
  };
  return { motion: flown, view: { ...view, smoothAboveM: heightM }, startS };
}

/** One normal offset, as known. */
const normal = (meanM: number, sdM: number) => ({
  ...{ weight: Float64Array.of(1), mean: Float64Array.of(meanM), sd: Float64Array.of(sdM) },
});

describe('[GT9] a height over what another moment says the ground cannot be above', () => {
  const { motion, view, startS } = sinking(0);
  const aboveBy = (offset: TiedOffset) =>
    bandOf(new TiedHeights(motion, view, () => offset).roughlyAboveAt(startS + 30));

  test('[GT9] is as doubtful as the offset and the drift of the ceiling together, on both sides', () => {
    const exact = aboveBy(offsetOf(normal(0, 2), true));
    expectNear(exact.value, 60, 0.01);
    expectNear(exact.high - exact.value, Z90 * 2, 0.02);
    // Far above the mean offset the ceiling cuts nothing; what it has drifted since counts all the same.
    const under = aboveBy({ ...offsetOf(normal(0, 2), true), ceiling: { atMostM: 40, sdM: 3 } });
    expectNear(under.value, 60, 0.01);
    expectNear(under.high - under.value, Z90 * Math.hypot(2, 3), 0.02);
    expectNear(under.value - under.low, Z90 * Math.hypot(2, 3), 0.02);
  });

  test('[GT9] is at least the height over the lowest moment', () => {
    // The offset may be anything up to 40: the recorded 60 are 20 m or more over the ground.
    const under = aboveBy({ ...offsetOf(normal(40, 25), true), ceiling: { atMostM: 40, sdM: 0 } });
    expect(under.low).toBeGreaterThanOrEqual(20);
  });

  test('[GT9] the ceiling drifts from the lowest moment on as all heights do', () => {
    const ofPass = offsetByPath(motion, view, { from: 0, lowest: 60 }, () =>
      offsetOf(normal(0, 25), false),
    );
    for (const gapS of [0, 30, 60, 3600]) {
      const { ceiling, tied } = ofPass(startS + 60 - gapS);
      expect(tied).toBe(false);
      expect(ceiling?.atMostM).toBe(60);
      // Two moments of one Gauss-Markov drift.
      const apart = 2 * TIE.driftSdM ** 2 * (1 - Math.exp(-gapS / TIE.driftTimeS));
      expectNear(ceiling?.sdM ?? NaN, Math.sqrt(apart), 1e-9, `${gapS} s before`);
    }
  });

  test('[GT9] heights that a contact ties need none', () => {
    const tied = offsetOf(normal(0, 2), true);
    expect(offsetByPath(motion, view, { from: 0, lowest: 60 }, () => tied)(startS)).toBe(tied);
  });
});

describe('[PH8] heights that may be late', () => {
  test('[PH8] are as doubtful in a descent as it sinks in that time', () => {
    const { motion, view, startS } = sinking(5);
    const heights = new TiedHeights(motion, view, () => offsetOf(normal(0, 1e-3), true));
    const { value, low, high } = bandOf(heights.aboveAt(startS + 30));
    // Most satellite heights are in time, some are 0.7 to 2.1 s late: 0.49 s, one sd.
    expectNear(value, 60 + 5 * 30, 0.01);
    expectNear(value - low, Z90 * 0.49 * 5, 0.05);
    expectNear(high - value, Z90 * 0.49 * 5, 0.05);
    expectNear(heights.levelSdM(startS + 30), 0.49 * 5, 0.05);
    expectNear(heights.lateSdS, 0.49, 0.01);
  });

  test('[PH8] count for nothing in level flight', () => {
    const { motion, view, startS } = sinking(0);
    const heights = new TiedHeights(motion, view, () => offsetOf(normal(0, 1e-3), true));
    const { low, high } = bandOf(heights.aboveAt(startS + 30));
    expect(high - low).toBeLessThan(0.02);
  });
});
