/**
 * Published quantiles, and a second library as referee.
 *
 * Sources: Student t and tolerance factor tables (standard tables; ISO 16269-6 for content 0.95
 * and confidence 0.95, from memory), CMH-17-1G one-sided B-basis factors (quoted), NRC report
 * ML14031A495 p. 47 (quoted), NIST/SEMATECH e-Handbook of Statistical Methods 7.2.6.3 (read).
 * Referee: the ranjs library, an independent implementation.
 */

import ranjs from 'ranjs';
import { describe, expect, test } from 'vitest';
import {
  chiSquareCdf,
  chiSquareQuantile,
  noncentralTQuantile,
  normalCdf,
  normalQuantile,
  studentTCdf,
  studentTQuantile,
  toleranceFactor,
} from '../../src/numeric/distributions.ts';
import { expectNear } from '../expect-near.ts';

const referees = ranjs.dist;

describe('[STAT1] normal distribution', () => {
  test('[STAT1] gives the tabled quantiles', () => {
    expectNear(normalQuantile(0.95), 1.6448536269514722, 1e-9, '0.95');
    expectNear(normalQuantile(0.975), 1.959963984540054, 1e-9, '0.975');
    expectNear(normalQuantile(0.05), -1.6448536269514722, 1e-9, '0.05');
  });

  test('[STAT1] agrees with the referee from far below to far above', () => {
    const referee = new referees.Normal(0, 1);
    for (let z = -6; z <= 6; z += 0.37) {
      expectNear(normalCdf(z), referee.cdf(z), 1e-12, `z ${z}`);
    }
  });
});

describe('[STAT2] Student t distribution', () => {
  test.each([
    [2, 2.92, 4.303],
    [4, 2.132, 2.776],
    [9, 1.833, 2.262],
    [14, 1.761, 2.145],
    [19, 1.729, 2.093],
    [29, 1.699, 2.045],
    [49, 1.677, 2.01],
  ])('[STAT2] gives the tabled quantiles for %d degrees of freedom', (degrees, t95, t975) => {
    // Printed to three decimals; 0.0006 allows a rounding that falls on a half.
    expectNear(studentTQuantile(0.95, degrees), t95, 0.0006, '0.95');
    expectNear(studentTQuantile(0.975, degrees), t975, 0.0006, '0.975');
  });

  test('[STAT2] agrees with the referee', () => {
    for (const degrees of [2, 4, 9, 29]) {
      const referee = new referees.StudentT(degrees);
      for (const t of [-3, -0.5, 0.2, 1.8, 4]) {
        // The library stops its incomplete beta function at about 4e-9.
        expectNear(studentTCdf(t, degrees), referee.cdf(t), 1e-8, `t ${t}, df ${degrees}`);
      }
    }
  });
});

describe('[STAT3] chi-square distribution', () => {
  test('[STAT3] gives the value of the NIST example: 0.01 and 42 degrees, 23.650', () => {
    expectNear(chiSquareQuantile(0.01, 42), 23.65, 0.0005, 'quantile');
  });

  test('[STAT3] agrees with the referee', () => {
    const referee = new referees.Chi2(9);
    for (const x of [1, 4, 9, 16.9, 30])
      expectNear(chiSquareCdf(x, 9), referee.cdf(x), 1e-10, `${x}`);
  });
});

describe('[STAT6] quantiles of both, from one tail to the other', () => {
  const PROBABILITIES = [0.005, 0.05, 0.25, 0.5, 0.75, 0.95, 0.995];

  test.each([1, 2, 3, 7, 30, 200])(
    '[STAT6] within 1e-6 of the referee for %d degrees',
    (degrees) => {
      const [t, chiSquare] = [new referees.StudentT(degrees), new referees.Chi2(degrees)];
      for (const p of PROBABILITIES) {
        const [ours, theirs] = [studentTQuantile(p, degrees), t.q(p)];
        expectNear(ours, theirs, 1e-6 * Math.max(1, Math.abs(theirs)), `t at ${p}`);
        const [ourSquare, theirSquare] = [chiSquareQuantile(p, degrees), chiSquare.q(p)];
        expectNear(ourSquare, theirSquare, 1e-6 * Math.max(1, theirSquare), `chi-square at ${p}`);
      }
    },
  );
});

describe('[STAT4] one-sided normal tolerance factors', () => {
  // n, content 0.95 and confidence 0.95, content 0.90 and confidence 0.95, CMH-17-1G column.
  const ROWS = [
    [3, 7.6559, 6.1553, 6.157],
    [5, 4.2027, 3.4066, 3.408],
    [10, 2.911, 2.3546, 2.355],
    [15, 2.566, 2.0684, 2.069],
    [20, 2.396, 1.926, 1.927],
    [30, 2.2198, 1.7773, 1.778],
    [50, 2.065, 1.6456, 1.646],
  ] as const;

  test.each(ROWS)('[STAT4] gives the tabled factors for n = %d', (n, k95, k90, handbook) => {
    expectNear(toleranceFactor(n, 0.95, 0.95), k95, 0.00006, 'content 0.95');
    expectNear(toleranceFactor(n, 0.9, 0.95), k90, 0.00006, 'content 0.90');
    // That handbook's printed column lies up to 0.002 above the exact factors.
    expectNear(toleranceFactor(n, 0.9, 0.95), handbook, 0.002, 'CMH-17-1G');
  });

  test('[STAT4] gives the NRC value for n = 50 and the NIST values for n = 43 and n = 6', () => {
    expectNear(toleranceFactor(50, 0.95, 0.95), 2.065, 0.0005, 'n 50');
    expectNear(toleranceFactor(43, 0.9, 0.99), 1.874, 0.0001, 'n 43');
    expectNear(toleranceFactor(6, 0.9, 0.99), 4.4111, 0.0001, 'n 6');
  });

  test('[STAT4] goes on falling towards the normal quantile, however many values there are', () => {
    const factors = [200, 220, 239, 240, 241, 243, 400, 1000, 10_000].map((n) =>
      toleranceFactor(n, 0.95, 0.95),
    );
    factors.slice(1).forEach((each, k) => expect(each).toBeLessThan(factors[k]));
    // From one way to the other the step is no larger than 0.002; of very many it is z itself.
    expectNear(factors[4], factors[3], 0.002, 'n 241 beside n 240');
    expectNear(toleranceFactor(1_000_000, 0.95, 0.95), 1.644854 + 0.0025, 0.001, 'very many');
  });

  test('[STAT4] agrees with the referee on the non-central t quantile', () => {
    for (const n of [5, 12, 40]) {
      const shift = normalQuantile(0.95) * Math.sqrt(n);
      const referee = new referees.NoncentralT(n - 1, shift).q(0.95);
      expectNear(noncentralTQuantile(0.95, n - 1, shift), referee, 1e-7, `n ${n}`);
    }
  });

  test('[STAT4] gives its own quantiles back to 1e-6, also of few landings and high confidence', () => {
    for (const n of [3, 5, 20, 100]) {
      for (const [content, confidence] of [
        [0.9, 0.9],
        [0.95, 0.95],
        [0.99, 0.99],
      ]) {
        const shift = normalQuantile(content) * Math.sqrt(n);
        const quantile = noncentralTQuantile(confidence, n - 1, shift);
        const referee = new referees.NoncentralT(n - 1, shift);
        // The distance of quantiles from the distance of probabilities, by the referee's own slope.
        const slope = (referee.cdf(quantile * 1.0001) - referee.cdf(quantile)) / (1e-4 * quantile);
        const off = (referee.cdf(quantile) - confidence) / slope;
        expectNear(off / quantile, 0, 1e-6, `n ${n}, content ${content}`);
      }
    }
  });

  test('[STAT5] refuses probabilities and sample sizes that make no sense', () => {
    expect(() => normalQuantile(0)).toThrow('between 0 and 1');
    expect(() => studentTQuantile(Number.NaN, 4)).toThrow('between 0 and 1');
    expect(() => studentTQuantile(0.9, 0)).toThrow('positive');
    expect(() => toleranceFactor(1, 0.95, 0.95)).toThrow('two or more');
  });
});
