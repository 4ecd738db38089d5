/** What is said of rolls and runs at their limits, worked by hand; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { TouchdownPosterior } from '../../src/events/flight-event.ts';
import { thresholdCrossing } from '../../src/events/gates.ts';
import { offsetOf } from '../../src/events/ground-tie.ts';
import { halfwayCheck } from '../../src/events/halfway-check.ts';
import { fullStopRoll, noLongerThan, rollTo } from '../../src/events/landing.ts';
import { TiedHeights } from '../../src/events/tied-heights.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined, undetermined, Z90 } from '../../src/result.ts';
import { placeSdM } from '../../src/strips/place-error.ts';
import { expectNear } from '../expect-near.ts';
import { drawReceiver } from '../synthetic/population.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { makeRun } from './made-motion.ts';
import { bandOf, eventsOf, onlyOne } from './simulated.ts';

describe('[RO2] a lower limit of a roll', () => {
  const about = (value: number) => ({ value, low: value - 40, high: value + 60 });

  test('[RO2] is cut at the roll itself, with its band', () => {
    expect(noLongerThan(about(210), about(200))).toEqual({ value: 200, low: 160, high: 260 });
    expect(noLongerThan(about(120), about(200))).toEqual(about(120));
    expect(noLongerThan(about(120), undetermined('no end'))).toEqual(about(120));
  });

  test.each([1, 4])('[RO2] is never longer than the roll, unbraked, every %d s', (intervalS) => {
    let compared = 0;
    for (let seed = 520; seed < 540; seed++) {
      const scenario = flyDrawnApproach(seed, 'full-stop', {
        roll: { end: 'stopped', brakes: { mps2: 0 } },
      });
      const receiver = drawReceiver(createRandom(seed), intervalS);
      const landing = onlyOne(eventsOf(scenario, { seed, receiver }).approaches);
      if (isUndetermined(landing.hardestBrakingRollM)) continue;
      if (isUndetermined(landing.fullStopRollM)) continue;
      compared++;
      expect(landing.hardestBrakingRollM.value, `seed ${seed}`).toBeLessThanOrEqual(
        landing.fullStopRollM.value,
      );
    }
    expect(compared).toBeGreaterThan(10);
  });
});

describe('[RO1] a roll of which the log holds seconds with doubtful speeds', () => {
  test('[RO1] is no shorter than what was surely rolled, however far its left tail reaches', () => {
    // From 20 m/s at 1.2 m/s2; the log ends after 4 s and 70 m, at 15 m/s that may be off by 1.6.
    const { motion, view, startS } = makeRun({
      ...{ fromAlongM: 50, lengthS: 4 },
      speedMps: (t) => 20 - 1.2 * t,
    });
    const doubtful = { ...motion, speedSdMps: motion.speedSdMps.map(() => 1.6) };
    const last = motion.length - 1;
    const one = (value: number): Float64Array => Float64Array.of(value);
    const posterior: TouchdownPosterior = {
      ...{ timeS: one(startS), weight: one(1), alongM: one(50), alongSdM: one(Math.hypot(2, 0.5)) },
      ...{ speedMps: one(20), speedSdMps: one(0.2), arrival: null },
    };
    const rolled = bandOf(rollTo(posterior, view.smoothAlongM[last], 0.5));
    const roll = bandOf(fullStopRoll(doubtful, view, posterior, last));
    expectNear(rolled.value, 70.4, 0.5);
    // Some 96 m more, or with the least that grass slows it down 460 m: a band even on both sides would begin at nothing.
    expect(roll.high - roll.value).toBeGreaterThan(2 * roll.value);
    expectNear(roll.low, rolled.low, 0.5);
  });
});

describe('[TO4] half the TORA of a strip whose place is doubtful', () => {
  test('[TO4] has a speed as doubtful as what it gains over that place', () => {
    const half = (positionErrorM: number) => {
      const { motion, view } = makeRun({
        ...{ fromAlongM: 0, lengthS: 26, intervalS: 0.5, positionErrorM },
        speedMps: (t) => 2 * t,
      });
      const lift = { value: 45, low: 44, high: 46 };
      const never = { value: Infinity, low: Infinity, high: Infinity };
      const range = { from: 0, to: motion.length, rollingSinceS: null };
      const found = halfwayCheck(motion, view, range, lift, never);
      if (isUndetermined(found)) throw new Error(found.undetermined);
      const { low, high } = bandOf(found.groundSpeedMps);
      return { varMps2: ((high - low) / (2 * Z90)) ** 2, placeSd: placeSdM(view.strip) };
    };
    const [near, far] = [half(5), half(60)];
    // At 40 m/s and 2 m/s2 a metre of place is 0.05 m/s.
    const more = 0.05 ** 2 * (far.placeSd ** 2 - near.placeSd ** 2);
    expect(more).toBeGreaterThan(0.5);
    expectNear((far.varMps2 - near.varMps2) / more, 1, 0.1);
  });
});

describe('[TC2] the threshold of a strip whose place is doubtful', () => {
  test('[TC2] is crossed with a speed as doubtful as what it loses over that place', () => {
    const crossed = (positionErrorM: number) => {
      const { motion, view } = makeRun({
        ...{ fromAlongM: -380, lengthS: 24, intervalS: 0.5, positionErrorM },
        speedMps: (t) => 40 - t,
      });
      const pass = { from: 0, to: motion.length, kind: 'arrival', referenceMps: 30 } as const;
      const offset = {
        weight: Float64Array.of(1),
        mean: Float64Array.of(0),
        sd: Float64Array.of(1),
      };
      const heights = new TiedHeights(motion, view, () => offsetOf(offset, true));
      const found = thresholdCrossing(motion, view, { ...pass, begunLate: false }, heights);
      if (isUndetermined(found)) throw new Error(found.undetermined);
      const { value, low, high } = bandOf(found.groundSpeedMps);
      return { value, varMps2: ((high - low) / (2 * Z90)) ** 2, placeSd: placeSdM(view.strip) };
    };
    const [near, far] = [crossed(5), crossed(60)];
    // It slows by 1 m/s2: a metre of place is so much in speed.
    const more = (far.placeSd ** 2 - near.placeSd ** 2) / near.value ** 2;
    expect(more).toBeGreaterThan(0.3);
    expectNear((far.varMps2 - near.varMps2) / more, 1, 0.15);
  });
});
