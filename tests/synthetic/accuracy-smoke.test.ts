/** A small share of the accuracy study: bands of touchdown and roll on landings drawn from the population. */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { eventsOf, holds, onlyOne, valueOf } from '../events/simulated.ts';
import { drawReceiver } from './population.ts';
import { flyDrawnApproach } from './scenarios.ts';

describe('[ACC1] landings drawn from the population, once a second', () => {
  test('[ACC1] touchdown and roll are found, and their bands hold as often as they should', () => {
    const landings = 60;
    const errors: number[] = [];
    let held = 0;
    let rolls = 0;
    let rollsHeld = 0;
    for (let k = 0; k < landings; k++) {
      const seed = 20_000 + k;
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const receiver = drawReceiver(createRandom(seed + 1), 1);
      const found = onlyOne(eventsOf(scenario, { seed, receiver }).approaches);
      const [truth] = scenario.flown.truth.approaches;
      expect(found.outcome, `seed ${seed}`).toBe('full-stop');
      if (isUndetermined(found.touchdown)) throw new Error(found.touchdown.undetermined);
      const trueAlongM = truth.touchdown?.alongM ?? NaN;
      errors.push(Math.abs(valueOf(found.touchdown.alongM) - trueAlongM));
      if (holds(found.touchdown.alongM, trueAlongM)) held++;
      if (truth.groundRollM === null) continue;
      rolls++;
      if (holds(found.fullStopRollM, truth.groundRollM)) rollsHeld++;
    }
    const sorted = errors.toSorted((a, b) => a - b);
    console.log(
      `drawn landings: touchdown ${sorted[30].toFixed(1)} / ${sorted[54].toFixed(1)} m, bands hold ${held} of ${landings}, of the roll ${rollsHeld} of ${rolls}`,
    );
    // Of 60 bands that hold nine times in ten, fewer than 46 hold once in 600 draws (binomial).
    expect(held).toBeGreaterThanOrEqual(46);
    expect(rolls).toBeGreaterThan(25);
    expect(rollsHeld / rolls).toBeGreaterThan(0.75);
    // The study's median is 25 m; of 60 landings it scatters by some 4 m.
    expect(sorted[30]).toBeLessThan(37);
  });
});
