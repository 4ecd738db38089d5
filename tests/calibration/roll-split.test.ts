/** Why a roll was longer or shorter: shares that add up exactly. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { splitRoll } from '../../src/calibration/roll-split.ts';
import { expectNear } from '../expect-near.ts';

const exactly = (value: number) => ({ value, low: value, high: value });

describe('the split of a roll', () => {
  test('[RS1] gives a roll that is longer by speed alone to the speed alone', () => {
    // v2 = 2 a s (school physics): 20 m/s and 200 m is 1 m/s2; 22 m/s at the same braking is 242 m.
    const split = splitRoll({
      measuredM: exactly(242),
      expectedM: 200,
      touchdownMps: exactly(22),
      referenceMps: 20,
    });
    expectNear(split?.touchdownSpeed.metres.value ?? NaN, 42, 1e-9, 'metres of speed');
    expectNear(split?.braking.metres.value ?? NaN, 0, 1e-9, 'metres of braking');
    expectNear(split?.measuredBrakingMps2 ?? NaN, 1, 1e-12, 'braking');
    expectNear(split?.expectedBrakingMps2 ?? NaN, 1, 1e-12, 'braking expected');
  });

  test('[RS2] gives a roll that is longer by weaker braking alone to the braking alone', () => {
    const split = splitRoll({
      measuredM: exactly(400),
      expectedM: 200,
      touchdownMps: exactly(20),
      referenceMps: 20,
    });
    expectNear(split?.touchdownSpeed.metres.value ?? NaN, 0, 1e-9, 'metres of speed');
    expectNear(split?.braking.metres.value ?? NaN, 200, 1e-9, 'metres of braking');
  });

  test('[RS3] adds up exactly, in logarithms and in metres', () => {
    const length = fc.double({ min: 20, max: 2000, noNaN: true });
    const speed = fc.double({ min: 5, max: 60, noNaN: true });
    fc.assert(
      fc.property(length, length, speed, speed, (measured, expectedM, touched, referenceMps) => {
        const split = splitRoll({
          measuredM: exactly(measured),
          expectedM,
          touchdownMps: exactly(touched),
          referenceMps,
        });
        if (!split) throw new Error('positive values split');
        const { touchdownSpeed, braking } = split;
        const logs = touchdownSpeed.logShare + braking.logShare;
        expectNear(logs, Math.log(measured / expectedM), 1e-9, 'logs');
        const metres = touchdownSpeed.metres.value + braking.metres.value;
        expectNear(metres, measured - expectedM, 1e-6 * Math.max(measured, expectedM), 'metres');
      }),
      { seed: 20261125, numRuns: 500 },
    );
  });

  test('[RS4] carries the errors of speed and roll into the bands', () => {
    const split = splitRoll({
      measuredM: { value: 200, low: 180, high: 220 },
      expectedM: 200,
      touchdownMps: { value: 20, low: 19, high: 21 },
      referenceMps: 20,
    });
    // Two per cent of speed is ten per cent either way in its square: 20 m of 200.
    const speed = split?.touchdownSpeed.metres ?? { low: NaN, high: NaN };
    expectNear((speed.high - speed.low) / 2, 20, 1e-9, 'half the band of the speed');
    const braking = split?.braking.metres ?? { low: NaN, high: NaN };
    expectNear((braking.high - braking.low) / 2, Math.hypot(20, 20), 1e-9, 'and of the braking');
  });

  test('[RS5] refuses what has no logarithm', () => {
    const good = {
      measuredM: exactly(200),
      expectedM: 200,
      touchdownMps: exactly(20),
      referenceMps: 20,
    };
    expect(splitRoll({ ...good, measuredM: exactly(0) })).toBeNull();
    expect(splitRoll({ ...good, expectedM: -1 })).toBeNull();
    expect(splitRoll({ ...good, touchdownMps: exactly(0) })).toBeNull();
    expect(splitRoll({ ...good, referenceMps: -2 })).toBeNull();
    expect(splitRoll(good)).not.toBeNull();
  });

  test('[RS6] splits a roll that is just as long as expected, or all but', () => {
    // 10 % faster and as much harder on the brakes: v2 = 2 a s, so both shares are 2 ln 1.1 of 200 m.
    const share = 200 * 2 * Math.log(1.1);
    for (const measured of [200, 200 * (1 + 1e-12), 200 * (1 + 1e-8), 200.001]) {
      const split = splitRoll({
        measuredM: exactly(measured),
        expectedM: 200,
        touchdownMps: exactly(22),
        referenceMps: 20,
      });
      expectNear(split?.touchdownSpeed.metres.value ?? NaN, share, 1e-3, 'metres of speed');
      expectNear(split?.braking.metres.value ?? NaN, measured - 200 - share, 1e-3, 'of braking');
    }
  });

  test('[RS7] refuses a value that is none', () => {
    const good = {
      measuredM: exactly(200),
      expectedM: 200,
      touchdownMps: exactly(20),
      referenceMps: 20,
    };
    for (const field of ['expectedM', 'referenceMps'] as const) {
      expect(splitRoll({ ...good, [field]: NaN })).toBeNull();
    }
    expect(splitRoll({ ...good, measuredM: exactly(NaN) })).toBeNull();
  });
});
