/** Strips whose elevations nobody entered may slope; rule GT7 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { drawReceiver, withPressure } from '../synthetic/population.ts';
import type { Receiver } from '../synthetic/receiver-model.ts';
import { createMap } from '../synthetic/runway.ts';
import { flyDrawnApproach, flyDrawnTakeOff } from '../synthetic/scenarios.ts';
import { bandOf, eventsOf, holds, onlyOne, valueOf } from './simulated.ts';

/** A strip of 600 m that falls or rises by so much from A to B. */
const strip = (riseM: number) =>
  inventStrip(createMap(), {
    ...{ id: 'sloping', bearingDeg: 40, lengthM: 600, elevationM: [40, 40 + riseM] },
  });

function receiverOf(seed: number): Receiver {
  const random = createRandom(seed);
  return withPressure(drawReceiver(random, 1), random);
}

describe('[GT7] a strip of 2.5 % whose elevations nobody entered', () => {
  test('[GT7] bands of touchdowns hold, and none is off by a hundred metres', () => {
    let held = 0;
    const errors: number[] = [];
    for (let seed = 9300; seed < 9330; seed++) {
      const sloping = strip(seed % 2 === 0 ? 15 : -15);
      const scenario = flyDrawnApproach(seed, 'full-stop', { strip: sloping });
      const strips = [{ ...sloping, elevationM: null }];
      const recording = { seed, strips, receiver: receiverOf(seed), format: 'igc' as const };
      const { touchdown } = onlyOne(eventsOf(scenario, recording).approaches);
      if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
      const trueM = scenario.flown.truth.approaches[0].touchdown?.alongM ?? NaN;
      if (holds(touchdown.alongM, trueM)) held++;
      errors.push(Math.abs(valueOf(touchdown.alongM) - trueM));
    }
    console.log(
      `slope unknown: bands hold ${held} of 30, worst ${Math.max(...errors).toFixed(0)} m`,
    );
    // Of 30 bands that hold nine times in ten, fewer than 23 hold once in 130 draws (binomial).
    expect(held).toBeGreaterThanOrEqual(23);
    expect(Math.max(...errors)).toBeLessThan(100);
  });

  test('[GT7] bands of lift-offs hold', () => {
    let held = 0;
    for (let seed = 9400; seed < 9420; seed++) {
      const sloping = strip(seed % 2 === 0 ? 15 : -15);
      const scenario = flyDrawnTakeOff(seed, { strip: sloping });
      const strips = [{ ...sloping, elevationM: null }];
      const recording = { seed, strips, receiver: receiverOf(seed), format: 'igc' as const };
      const { liftOff } = onlyOne(eventsOf(scenario, recording).takeOffs);
      if (isUndetermined(liftOff)) throw new Error(liftOff.undetermined);
      if (holds(liftOff.timeS, scenario.flown.truth.takeOffs[0].liftOff?.timeS ?? NaN)) held++;
    }
    console.log(`slope unknown: bands of lift-offs hold ${held} of 20`);
    expect(held).toBeGreaterThanOrEqual(15);
  });
});

describe('[GT7] strips that slope by 1 % (one sd), elevations not entered', () => {
  test.each(['satellite', 'pressure'])('[TO2] bands of 50 ft hold by %s heights', (by) => {
    let held = 0;
    const widths: number[] = [];
    for (let seed = 9500; seed < 9540; seed++) {
      const sloping = strip(6 * createRandom(seed).normal());
      const scenario = flyDrawnTakeOff(seed, { strip: sloping });
      const strips = [{ ...sloping, elevationM: null }];
      const drawn = receiverOf(seed);
      const receiver: Receiver = by === 'pressure' ? { ...drawn, heights: 'none' } : drawn;
      const recording = { seed, strips, receiver, format: 'igc' as const };
      const { screen } = onlyOne(eventsOf(scenario, recording).takeOffs);
      if (isUndetermined(screen)) throw new Error(screen.undetermined);
      const { low, high } = bandOf(screen.distanceM);
      const trueM = scenario.flown.truth.takeOffs[0].screen?.distanceM ?? NaN;
      if (low <= trueM && trueM <= high) held++;
      widths.push(high - low);
    }
    console.log(`slope unknown, ${by}: bands of 50 ft hold ${held} of 40`);
    // Of 40 bands that hold nine times in ten, fewer than 31 hold once in 150 draws (binomial).
    expect(held).toBeGreaterThanOrEqual(31);
    expect(widths.toSorted((x, y) => x - y)[20]).toBeLessThan(150);
  });
});
