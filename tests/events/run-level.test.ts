/** The level of a take-off run and 50 ft over it, on made heights; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { valueAt } from '../../src/events/arrival-data.ts';
import { runLevel } from '../../src/events/run-level.ts';
import { screenPoint } from '../../src/events/screen-point.ts';
import { isUndetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { makeRun } from './made-motion.ts';
import { bandOf, valueOf } from './simulated.ts';

/** A run at 2 m/s2 from 20 m along the strip of 800 m, off the ground after 20 s, with the recorded heights given. */
function run(lengthS: number, heightM: (t: number, alongM: number) => number, sloping = false) {
  const { motion, view, startS } = makeRun({
    ...{ fromAlongM: 20, lengthS, speedMps: (t) => 2 * Math.min(t, 20) },
  });
  const aboveM = motion.timeS.map((t, i) => heightM(t - startS, view.smoothAlongM[i]));
  return {
    motion: {
      ...motion,
      ...{ hasHeight: true, heightDatum: 'geoid' as const, smoothHeightM: aboveM },
      verticalSpeedMps: motion.timeS.map((t) => (t - startS > 20 ? 4 : 0)),
      noise: { ...motion.noise, verticalSdM: 0.2, pressureDelay: null },
    },
    view: {
      ...{ ...view, smoothAboveM: aboveM },
      strip: sloping ? { ...view.strip, elevationM: null } : view.strip,
    },
    startS,
  };
}

describe('[GT7] the level of a run up a slope that nobody entered', () => {
  const { motion, view, startS } = run(22, (_, alongM) => 30 + 0.01 * alongM, true);
  const level = runLevel(motion, view, startS + 20);

  test('[GT7] goes on with the slope to the end of the strip, and is level beyond it', () => {
    const readsM = level?.readsM ?? (() => NaN);
    const { farEndAlongM } = view.frame;
    expectNear(farEndAlongM, 800, 1);
    // The slope is shared with the drift of the heights, so that only a part of it is believed.
    const climbedM = readsM(40, farEndAlongM) - readsM(40, farEndAlongM - 300);
    expect(climbedM).toBeGreaterThan(0.5);
    expect(climbedM).toBeLessThan(3.1);
    expectNear(readsM(40, farEndAlongM + 300), readsM(40, farEndAlongM), 1e-9);
    expectNear(
      level?.sdM(40, farEndAlongM + 300) ?? NaN,
      level?.sdM(40, farEndAlongM) ?? NaN,
      1e-9,
    );
  });

  test('[UP4] goes on without an end where the strip’s ends are a guess', () => {
    const guessed = { ...view, strip: { ...view.strip, endsGuessed: true } };
    const readsM = runLevel(motion, guessed, startS + 20)?.readsM ?? (() => NaN);
    const { farEndAlongM } = view.frame;
    const climbedM = readsM(40, farEndAlongM) - readsM(40, farEndAlongM - 300);
    expect(climbedM).toBeGreaterThan(0.5);
    expectNear(readsM(40, farEndAlongM + 300) - readsM(40, farEndAlongM), climbedM, 1e-9);
  });

  test('[GT7] is surer where the run was than further on', () => {
    const sdM = level?.sdM ?? (() => NaN);
    expect(sdM(40, 700)).toBeGreaterThan(1.5 * sdM(40, 420));
  });
});

describe('[TO2] 50 ft where the log ends', () => {
  test('[TO2] just above it may be as much later as it may be earlier', () => {
    // 4 m/s from lift-off on: 50 ft and what the antenna rises are passed 3.9 s after it, and the log ends at 16.4 m.
    const { motion, view, startS } = run(24.2, (t) => 30 + 4.1 * Math.max(0, t - 20));
    const at = { value: startS + 20, low: startS + 19.5, high: startS + 20.5 };
    const screen = screenPoint(motion, view, at, null);
    if (isUndetermined(screen)) throw new Error(screen.undetermined);
    const { timeS } = screen;
    if (isUndetermined(timeS)) throw new Error(timeS.undetermined);
    expectNear(valueOf(timeS) - startS, 20 + 15.5 / 4.1, 0.4);
    expect(timeS.value - timeS.low).toBeGreaterThan(0.3);
    expectNear(timeS.high - timeS.value, timeS.value - timeS.low, 1e-9);
  });

  test('[TO2] is no distance before the brakes were released, in value and band', () => {
    // Released 40 m behind where 50 ft were passed, as a coarse log may have it.
    const { motion, view, startS } = run(40, (t) => 30 + 4.1 * Math.max(0, t - 20));
    const at = { value: startS + 20, low: startS + 19.5, high: startS + 20.5 };
    const passed = screenPoint(motion, view, at, null);
    if (isUndetermined(passed)) throw new Error(passed.undetermined);
    const alongM = valueAt(motion.timeS, view.smoothAlongM, valueOf(passed.timeS)) + 40;
    const screen = screenPoint(motion, view, at, {
      ...{ timeS: startS, timeSdS: 1, alongM, alongSdM: 40 },
    });
    if (isUndetermined(screen)) throw new Error(screen.undetermined);
    const { value, low, high } = bandOf(screen.distanceM);
    expect([value, low]).toEqual([0, 0]);
    expect(high).toBeGreaterThan(20);
  });
});
