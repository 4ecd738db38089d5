/**
 * Sources: worked examples of the NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (limits
 * quoted second-hand, data from memory) and 6.3.2.4 (quoted second-hand).
 */
import { describe, expect, test } from 'vitest';
import {
  driftTest,
  individualsChart,
  weightedCourse,
} from '../../src/calibration/control-chart.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

const TEN = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
const TWENTY = [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, ...TEN];

describe('[SPC1] charts of the e-Handbook', () => {
  test('[SPC1] the individuals chart gives its limits', () => {
    const chart = individualsChart(TEN);
    expectNear(chart.middle, 50.81, 1e-9, 'middle');
    expectNear(chart.meanRange, 1.8778, 5e-5, 'mean range');
    expectNear(chart.upper, 55.8041, 1e-4, 'upper');
    expectNear(chart.lower, 45.8159, 1e-4, 'lower');
    expectNear(chart.rangeLimit, 6.135, 5e-4, 'range limit');
  });

  test('[SPC1] the weighted course gives its values and limits', () => {
    const course = weightedCourse(TWENTY, { start: 50, sd: 2.0539, lambda: 0.3 });
    // Printed to two decimals, some cut off rather than rounded.
    const printed = [
      50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52,
      50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
    ];
    printed.forEach((value, i) => expectNear(course.values[i], value, 0.0101, `value ${i + 1}`));
    expectNear(course.upper, 52.5884, 1e-4, 'upper');
    expectNear(course.lower, 47.4115, 1e-4, 'lower');
  });
});

describe('[SPC2] the drift test', () => {
  test('[SPC2] ten rising values score 45 of 45, and the slope is theirs', () => {
    const found = driftTest([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(found.score).toBe(45);
    // Variance 10 x 9 x 25 / 18 = 125, z = 44 / sqrt(125) = 3.9355.
    expectNear(found.chance, 8.3e-5, 1e-6, 'chance');
    expect(found.slopePerStep).toBe(1);
  });

  test('[SPC2] equal values show no drift', () => {
    expect(driftTest([3, 3, 3, 3, 3, 3, 3, 3])).toEqual({ score: 0, chance: 1, slopePerStep: 0 });
  });

  test('[SPC2] of 2,000 steady pilots it calls one in twenty', () => {
    const random = createRandom(11);
    let called = 0;
    for (let i = 0; i < 2000; i++) {
      if (driftTest(Array.from({ length: 15 }, () => random.normal())).chance < 0.05) called++;
    }
    // 100 expected, standard deviation 10.
    expect(called).toBeGreaterThan(60);
    expect(called).toBeLessThan(130);
  });

  test('[SPC2] seven values are too few', () => {
    expect(() => driftTest([1, 2, 3, 4, 5, 6, 7])).toThrow('needs 8');
  });
});
