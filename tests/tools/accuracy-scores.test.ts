/** The scoring of the accuracy study: known errors give known figures. */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { undetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { boundOf, openCell } from './accuracy-cells.ts';
import { quantileWithDoubt, Tally } from './accuracy-tally.ts';
import { BINS } from './bound-features.ts';
import { BoundNetwork, type Lessons } from './bound-network.ts';
import { learnBound, medianBin } from './bound.ts';

describe('[ACC2] a tally of measured quantities', () => {
  test('[ACC2] gives error, coverage, width and penalty of four bands worked by hand', () => {
    const tally = new Tally();
    tally.add({ value: 10, low: 0, high: 20 }, 12); // holds, 2 off, 20 wide
    tally.add({ value: 10, low: 5, high: 15 }, 16); // 1 outside above, 6 off, 10 wide
    tally.add({ value: 10, low: 8, high: 14 }, 6); // 2 outside below, 4 off, 6 wide
    tally.add({ value: 10, low: 0, high: 40 }, 40); // on the edge holds, 30 off, 40 wide
    tally.add(undetermined('no height'), 3);
    expect(tally.count).toBe(4);
    expect(tally.undetermined).toBe(1);
    expectNear(tally.error(0.5).value, 5, 1e-9, 'median of 2, 4, 6, 30');
    expectNear(tally.error(0.9).value, 22.8, 1e-9, '90th percentile: 6 + 0.7 x 24');
    expectNear(tally.coverage().value, 0.5, 1e-9, 'two of four hold');
    expectNear(tally.width(), 15, 1e-9, 'median of 6, 10, 20, 40');
    expectNear(tally.penalty(), (20 + (10 + 20) + (6 + 40) + 40) / 4, 1e-9, 'penalty');
  });

  test('[ACC2] refuses a truth that is no number', () => {
    expect(() => new Tally().add({ value: 1, low: 0, high: 2 }, NaN)).toThrow('the truth');
  });

  test('[ACC2] normal errors with their own 90 % bands hold nine times in ten, and are 0.674 sd off', () => {
    const random = createRandom(11);
    const tally = new Tally();
    for (let k = 0; k < 4_000; k++) {
      const value = 20 * random.normal();
      tally.add({ value, low: value - 32.897, high: value + 32.897 }, 0);
    }
    // Quantiles of the normal distribution (standard tables): 0.6745 and 1.6449 sd of the size.
    const { value: median, doubt } = tally.error(0.5);
    expectNear(median, 13.49, 3 * doubt, 'median');
    // Standard error of the median of |normal|: 1 / (2 f sqrt(n)), f = 2 x 0.3178 / 20.
    expectNear(doubt, 20 / (4 * 0.3178 * Math.sqrt(4_000)), 0.06, 'its standard error');
    expectNear(tally.error(0.9).value, 32.9, 3 * tally.error(0.9).doubt, '90th percentile');
    const held = tally.coverage();
    expectNear(held.value, 0.9, 3 * held.doubt, 'coverage');
    expectNear(held.doubt, Math.sqrt(0.09 / 4_000), 3e-4, 'its standard error');
  });

  test('[ACC2] few bands that all hold still carry a doubt', () => {
    const tally = new Tally();
    for (let k = 0; k < 4; k++) tally.add({ value: 0, low: -1, high: 1 }, 0);
    expect(tally.coverage().value).toBe(1);
    expectNear(tally.coverage().doubt, Math.sqrt((0.75 * 0.25) / 8), 1e-9, 'six of eight');
  });

  test('[ACC2] the quantile of nothing is no number', () => {
    expect(quantileWithDoubt([], 0.5).value).toBeNaN();
  });
});

describe('[ACC3] the bound', () => {
  test('[ACC3] of a cell is the median of its errors, and the ratio ours over it', () => {
    const cell = openCell('a cell');
    for (let k = 1; k <= 99; k++) cell.pairs.push([3 * k, 2 * k]);
    const bound = boundOf(cell);
    expectNear(bound?.median.value ?? NaN, 100, 1e-9, 'median of 2, 4 ... 198');
    expectNear(bound?.ratio.value ?? NaN, 1.5, 1e-9, 'ratio');
    // Every pair has the same ratio, so resampling pairs cannot move it.
    expectNear(bound?.ratio.doubt ?? NaN, 0, 1e-9, 'its standard error');
    expect(boundOf(openCell('empty'))).toBeNull();
  });

  test('[ACC3] takes the median within a bin', () => {
    expectNear(medianBin([0.25, 0.5, 0.25]), 1.5, 1e-9, 'even');
    expectNear(medianBin([0.5, 0.5]), 1, 1e-9, 'at an edge');
    expectNear(medianBin([0, 0.8, 0.2]), 1.625, 1e-9, 'within');
  });

  test('[ACC3] untaught gives the guess back; taught it finds what a feature tells and a guess does not', () => {
    const lessons = toyLessons(600, createRandom(3));
    const random = createRandom(5);
    const network = new BoundNetwork(lessons, [12], random);
    const before = network.judge(lessons);
    expectNear(before, Math.log(4), 1e-3, 'cross entropy of an even guess over four bins');
    for (let round = 0; round < 100; round++) network.learn(lessons, random, 1);
    const others = toyLessons(200, createRandom(4));
    expect(network.judge(others)).toBeLessThan(0.35 * before);
    // What no feature tells cannot be learned.
    const blind = toyLessons(200, createRandom(4), 0);
    expect(network.judge(blind)).toBeGreaterThan(before * 0.98);
  });

  test('[ACC3] learned from landings moves a found place by what it was always wrong by', () => {
    const random = createRandom(9);
    const samples = Array.from({ length: 128 }, () => lateSample(random));
    const bound = learnBound(samples, () => {}, 60);
    const off = Array.from({ length: 100 }, () => {
      const sample = lateSample(random);
      return Math.abs(bound.placeM(sample) - sample.trueAlongM);
    });
    // Found is 30 m early, always; a bin is 10 m, and the lesson is short.
    expect(quantileWithDoubt(off, 0.5).value).toBeLessThan(10);
  });
});

/** Four bins; one feature says which, another says nothing; the guess is even. */
function toyLessons(rows: number, random: ReturnType<typeof createRandom>, tells = 1): Lessons {
  const features = new Float32Array(rows * 2);
  const target = new Float32Array(rows * 4);
  for (let row = 0; row < rows; row++) {
    const bin = random.integer(0, 4);
    features[2 * row] = tells * (bin - 1.5) + 0.1 * random.normal();
    features[2 * row + 1] = random.normal();
    target[4 * row + bin] = 1;
  }
  return {
    rows,
    width: 2,
    bins: 4,
    features,
    guess: new Float32Array(rows * 4).fill(0.25),
    target,
  };
}

/** A landing at 20 m/s whose touchdown was found 1.5 s early; the features are chance. */
function lateSample(random: ReturnType<typeof createRandom>) {
  const guess = new Float32Array(BINS);
  guess[BINS / 2] = 1;
  const firstM = 300 * random.uniform();
  const trueBin = BINS / 2 + 0.5 + 3;
  return {
    features: Float32Array.from({ length: 5 }, () => random.normal()),
    guess,
    edgePlaceM: Float32Array.from({ length: BINS + 1 }, (_, b) => firstM + 10 * b),
    trueBin,
    trueAlongM: firstM + 10 * trueBin,
    foundAlongM: firstM + 10 * (trueBin - 3),
  };
}
