/** The shape of many touchdowns, against counting where the next ones fall. */
import { describe, expect, test } from 'vitest';
import { touchdownDispersion } from '../../src/calibration/touchdown-dispersion.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';

const place = (along: number, cross: number, half = 0) => ({
  alongM: { value: along, low: along - half, high: along + half },
  crossM: { value: cross, low: cross - half, high: cross + half },
});

describe('touchdown dispersion', () => {
  test('[DSP1] gives mean, spread and the part that may be the log’s', () => {
    // 40 50 60 70 80: mean 60, variance 250 (by hand). Band of 16.449 m either side: 10 m.
    const found = touchdownDispersion([40, 50, 60, 70, 80].map((x) => place(x, 1, 16.449)));
    expectNear(found?.along.mean ?? NaN, 60, 1e-12, 'mean');
    expectNear(found?.along.sd ?? NaN, Math.sqrt(250), 1e-12, 'spread');
    expectNear(found?.along.measuringSd ?? NaN, 10, 0.001, 'measuring');
    expectNear(found?.cross.sd ?? NaN, 0, 1e-12, 'spread across');
    // Of five: 250 / 5, and half of the log's 100: by hand.
    expectNear(found?.along.meanSd ?? NaN, 10, 0.001, 'the mean');
    expectNear(found?.correlation ?? NaN, 0, 1e-12, 'correlation');
  });

  test('[DSP2] turns its ellipse with the touchdowns', () => {
    const line = [-2, -1, 0, 1, 2].map((k) => place(50 + 10 * k, 10 * k));
    const found = touchdownDispersion(line);
    expectNear(found?.nineOfTen.turnedRad ?? NaN, Math.PI / 4, 1e-9, 'turned');
    expectNear(found?.nineOfTen.shortHalfM ?? NaN, 0, 1e-6, 'short half');
    expectNear(found?.correlation ?? NaN, 1, 1e-12, 'correlation');
  });

  test('[DSP3] holds nine in ten next touchdowns, of few and of many, seed 4', () => {
    const random = createRandom(4);
    const draw = () => {
      const x = random.normal();
      return place(60 + 40 * x, 4 * (0.5 * x + Math.sqrt(0.75) * random.normal()));
    };
    for (const n of [5, 25]) {
      let within = 0;
      const rounds = 4000;
      for (let k = 0; k < rounds; k++) {
        const found = touchdownDispersion(Array.from({ length: n }, draw));
        const next = draw();
        if (!found) throw new Error('too few');
        const { longHalfM, shortHalfM, turnedRad } = found.nineOfTen;
        const [dx, dy] = [
          next.alongM.value - found.along.mean,
          next.crossM.value - found.cross.mean,
        ];
        const u = dx * Math.cos(turnedRad) + dy * Math.sin(turnedRad);
        const v = dy * Math.cos(turnedRad) - dx * Math.sin(turnedRad);
        if ((u / longHalfM) ** 2 + (v / shortHalfM) ** 2 <= 1) within++;
      }
      // 4,000 rounds: a standard error of half a point; three of them.
      expectNear(within / rounds, 0.9, 0.015, `share within, of ${n}`);
    }
  });

  test('[DSP4] says nothing of four', () => {
    expect(touchdownDispersion([1, 2, 3, 4].map((x) => place(x, x)))).toBeNull();
  });
});
