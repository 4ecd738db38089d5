/** The changes of an airspeed foretold step by step, against one dense covariance of all moments; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { innovations } from '../../src/events/airspeed-walk.ts';
import { WIND } from '../../src/events/circuit-tuning.ts';
import type { WindSample } from '../../src/events/wind-samples.ts';
import { choleskyInPlace, forwardSolve } from '../../src/numeric/cholesky.ts';
import { expectNear } from '../expect-near.ts';

const WALK = { rateSdMps2: 0.3, gustSdMps: 0.7 };

/** Uneven steps; an orbit in the middle, of which two steps lie wholly within; climbs that change. */
const SAMPLES: readonly WindSample[] = [
  { at: 0, climbMps: 2.5, inFullTurn: false, sd: 0.2 },
  { at: 2, climbMps: 2.5, inFullTurn: false, sd: 0.4 },
  { at: 4.5, climbMps: 0, inFullTurn: true, sd: 0.2 },
  { at: 6.5, climbMps: 0, inFullTurn: true, sd: 0.1 },
  { at: 9, climbMps: -1, inFullTurn: true, sd: 0.3 },
  { at: 15, climbMps: -3, inFullTurn: false, sd: 0.2 },
  { at: 17, climbMps: -3, inFullTurn: false, sd: 0.2 },
].map(({ at, sd, ...rest }) => ({
  ...rest,
  ...{ timeS: at, speedSdMps: sd, eastMps: 0, northMps: 30, share: 1, turnDegPs: 0 },
}));

/** Variance of the rate of change while it walks from one moment to the next. */
function rateVar(from: WindSample, to: WindSample): number {
  const held = from.inFullTurn && to.inFullTurn ? WIND.heldInFullTurn : 1;
  const byClimb = WIND.ratePerClimb * (to.climbMps - from.climbMps);
  return (held * WALK.rateSdMps2) ** 2 + byClimb ** 2;
}

/** What a unit kick of the rate at one time has added to the airspeed by another, seconds. */
function gained(kickS: number, byS: number): number {
  return byS <= kickS ? 0 : WIND.rateS * (1 - Math.exp(-(byS - kickS) / WIND.rateS));
}

/** Covariance of what is seen at two moments: an integral over all the kicks that both have felt. */
function covariance(i: number, j: number): number {
  const [a, b] = [SAMPLES[i], SAMPLES[j]];
  const start = SAMPLES[0].timeS;
  // The first airspeed is not known, and the rate there is any rate.
  let sum = 1000 ** 2 + WALK.rateSdMps2 ** 2 * gained(start, a.timeS) * gained(start, b.timeS);
  const parts = 4000;
  for (let k = 1; k <= Math.min(i, j); k++) {
    const [from, to] = [SAMPLES[k - 1], SAMPLES[k]];
    const partS = (to.timeS - from.timeS) / parts;
    const kick = (2 * rateVar(from, to)) / WIND.rateS;
    for (let p = 0; p < parts; p++) {
      const at = from.timeS + (p + 0.5) * partS;
      sum += kick * partS * gained(at, a.timeS) * gained(at, b.timeS);
    }
  }
  sum += WALK.gustSdMps ** 2 * Math.exp(-Math.abs(a.timeS - b.timeS) / WIND.gustS);
  // No ground speed is better known than 0.1 m/s.
  return sum + (i === j ? a.speedSdMps ** 2 + 0.1 ** 2 : 0);
}

describe('[WI5] what the moments before foretell of an airspeed', () => {
  test('[WI5] is taken off as one covariance of all moments takes it off', () => {
    const n = SAMPLES.length;
    const factor = Float64Array.from({ length: n * n }, (_, k) =>
      covariance(Math.floor(k / n), k % n),
    );
    expect(Number.isFinite(choleskyInPlace(factor, n))).toBe(true);
    const columns = [
      Float64Array.of(30, 31, 33.5, 32, 31.8, 28, 27),
      Float64Array.of(0.9, 0.5, -0.2, -0.8, -1, -0.3, 0.2),
    ];
    const found = innovations(SAMPLES, columns, WALK);
    columns.forEach((column, c) => {
      const whole = new Float64Array(n);
      forwardSolve(factor, n, column, whole);
      expect(found[c]).toHaveLength(n - 1);
      found[c].forEach((each, i) => expectNear(each, whole[i + 1], 1e-4, `moment ${i + 1}`));
    });
  });
});
