/**
 * Statistics against the NIST Statistical Reference Datasets (StRD).
 *
 * Source: NIST StRD, itl.nist.gov/div898/strd: Norris (linear regression, lower difficulty),
 * NumAcc1 to NumAcc4 and Michelso (univariate summary), certified to 15 digits. Data of Michelso
 * from memory, confirmed by its three certified values.
 *
 * Tolerance: 10 digits, where the data themselves carry them. NumAcc3 and NumAcc4 hold 0.1 steps on
 * top of 1e6 and 1e7: a double keeps those steps to 1.2e-10 and 1.9e-9, so at best 9 and 8 digits
 * of the standard deviation can come out of any program.
 */

import { describe, expect, test } from 'vitest';
import { spreadOf } from '../../src/numeric/columns.ts';
import { fitLinear } from '../../src/numeric/regression.ts';
import { isUndetermined } from '../../src/result.ts';
import { expectDigits, expectNear } from '../expect-near.ts';

const NORRIS_X = [
  0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9,
  338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0,
  779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
];
const NORRIS_Y = [
  0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8,
  339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5,
  778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
];

/** Michelso: speed of light in air, thousandths of Mm/s above 299. */
const MICHELSO = [
  850, 740, 900, 1070, 930, 850, 950, 980, 980, 880, 1000, 980, 930, 650, 760, 810, 1000, 1000, 960,
  960, 960, 940, 960, 940, 880, 800, 850, 880, 900, 840, 830, 790, 810, 880, 880, 830, 800, 790,
  760, 800, 880, 880, 880, 860, 720, 720, 620, 860, 970, 950, 880, 910, 850, 870, 840, 840, 850,
  840, 840, 840, 890, 810, 810, 820, 800, 770, 760, 740, 750, 760, 910, 920, 890, 860, 880, 720,
  840, 850, 850, 780, 890, 840, 780, 810, 760, 810, 790, 810, 820, 850, 870, 870, 810, 740, 810,
  940, 950, 800, 810, 870,
].map((thousandths) => 299 + thousandths / 1000);

test('[NIST1] fits Norris to 10 digits', () => {
  const x = Float64Array.from(NORRIS_X);
  const y = Float64Array.from(NORRIS_Y);
  const fit = fitLinear([new Float64Array(36).fill(1), x], y);
  if (isUndetermined(fit)) throw new Error(fit.undetermined);
  expectDigits(fit.coefficients[0], -0.262323073774029, 10, 'b0');
  expectDigits(fit.coefficients[1], 1.00211681802045, 10, 'b1');
  expectDigits(fit.standardErrors[0], 0.232818234301152, 10, 'se b0');
  expectDigits(fit.standardErrors[1], 0.429796848199937e-3, 10, 'se b1');
  expectDigits(fit.residualSd, 0.884796396144373, 10, 'residual sd');
  expect(fit.degreesOfFreedom).toBe(34);
  const squares = fit.residuals.reduce((sum, residual) => sum + residual ** 2, 0);
  expectDigits(squares, 26.6173985294224, 10, 'residual sum of squares');
});

describe('mean and standard deviation', () => {
  const steps = (base: number) => [
    base + 0.2,
    ...Array.from({ length: 1000 }, (_, i) => base + (i % 2 === 0 ? 0.1 : 0.3)),
  ];

  test.each([
    { name: 'NumAcc1', data: [10000001, 10000003, 10000002], mean: 10000002, sd: 1, digits: 14 },
    { name: 'NumAcc2', data: steps(1), mean: 1.2, sd: 0.1, digits: 13 },
    { name: 'NumAcc3', data: steps(1e6), mean: 1000000.2, sd: 0.1, digits: 9 },
    { name: 'NumAcc4', data: steps(1e7), mean: 10000000.2, sd: 0.1, digits: 8 },
    {
      name: 'Michelso',
      data: MICHELSO,
      mean: 299.8524,
      sd: 0.0790105478190518,
      digits: 12,
    },
  ])('[NIST2] gives the certified values of $name', ({ data, mean, sd, digits }) => {
    const spread = spreadOf(data);
    expectDigits(spread.mean, mean, 14, 'mean');
    expectDigits(spread.sd, sd, digits, 'sd');
  });

  test('[NIST3] the Michelso data are in their certified order', () => {
    const { mean } = spreadOf(MICHELSO);
    let products = 0;
    let squares = 0;
    for (const [i, value] of MICHELSO.entries()) {
      squares += (value - mean) ** 2;
      if (i > 0) products += (value - mean) * (MICHELSO[i - 1] - mean);
    }
    expectNear(products / squares, 0.535199668621283, 1e-10, 'lag-1 autocorrelation');
  });
});
