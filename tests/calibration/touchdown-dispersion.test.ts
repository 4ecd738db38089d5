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
    // Of five: 250 / 5, times Student's t of 2.132 for four (any table), and half of the log's 100.
    const half = Math.hypot(2.132 * Math.sqrt(50), 1.645 * Math.sqrt(50));
    expectNear(found?.along.middle.high ?? NaN, 60 + half, 0.01, 'the middle');
    expectNear(found?.along.middle.low ?? NaN, 60 - half, 0.01, 'the middle');
    // Across all of the log's 100 is where the strip lies.
    expectNear(found?.cross.middle.high ?? NaN, 1 + 16.449, 0.001, 'the middle across');
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

  test('[DSP5] holds the true middle nine times in ten: few, many, put by hand, a strip off its place', () => {
    const random = createRandom(5);
    const rounds = 4000;
    for (const [n, habitM, ownM, stripM] of [
      [5, 0, 0, 0],
      [5, 14, 14, 0],
      [25, 14, 14, 0],
      [25, 0, 2, 5],
    ]) {
      const errorSd = Math.hypot(habitM, ownM, stripM);
      let along = 0;
      let cross = 0;
      for (let k = 0; k < rounds; k++) {
        const common = habitM * random.normal();
        const offM = stripM * random.normal();
        const places = Array.from({ length: n }, () => {
          const error = common + ownM * random.normal();
          return place(
            60 + 30 * random.normal() + error,
            3 * random.normal() + offM + ownM * random.normal(),
            1.6449 * errorSd,
          );
        });
        const found = touchdownDispersion(places);
        if (!found) throw new Error('too few');
        if (found.along.middle.low <= 60 && 60 <= found.along.middle.high) along++;
        if (found.cross.middle.low <= 0 && 0 <= found.cross.middle.high) cross++;
      }
      const name = `${n} touchdowns, errors of ${habitM}, ${ownM} and ${stripM} m`;
      // A standard error of half a point. Half is taken as common along, all across: more than true is safe.
      expect(along / rounds, name).toBeGreaterThan(0.885);
      expect(cross / rounds, name).toBeGreaterThan(0.885);
      if (stripM === 0 && n === 5) expect(along / rounds, name).toBeLessThan(0.93);
    }
  });

  test('[DSP4] says nothing of four', () => {
    expect(touchdownDispersion([1, 2, 3, 4].map((x) => place(x, x)))).toBeNull();
  });
});
