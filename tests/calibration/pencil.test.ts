/** The factor worked with a pencil in docs/calibration.md: every line from the numbers printed there, and the tool's. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { calibrate } from '../../src/calibration/calibrate.ts';
import type { Comparison } from '../../src/calibration/comparison.ts';
import { isUndetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';

const PAGE = readFileSync(join(resolve('docs'), 'calibration.md'), 'utf8');
const SECTION = PAGE.split('## One factor with a pencil')[1].split('\n## ')[0];

/** Cells of the row that begins so, without its heading. */
function cells(heading: string): string[] {
  const row = SECTION.split('\n').find((line) => line.startsWith(`| ${heading}`));
  if (row === undefined) throw new Error(`no row ${heading}`);
  return row
    .split('|')
    .slice(2, -1)
    .map((cell) => cell.trim());
}

const numbers = (heading: string): number[] => cells(heading).map(Number);
const result = (heading: string): number => Number(cells(heading)[1]);

const ratios = numbers('ratio');
const logs = numbers('logarithm');
const mean = result('mean of the logarithms');
const sd = result('standard deviation');

describe('[PEN1] the factor worked with a pencil', () => {
  test('[PEN1] every line follows from the one before to the digit shown', () => {
    expect(ratios).toHaveLength(7);
    ratios.forEach((ratio, i) => expectNear(logs[i], Math.log(ratio), 0.00051, `logarithm ${i}`));
    const sum = logs.reduce((all, log) => all + log, 0);
    expect(cells('mean of the logarithms')[0]).toBe(`${sum.toFixed(3)} ÷ 7`);
    expectNear(mean, sum / 7, 0.00051, 'mean');
    expectNear(result('middle'), Math.exp(mean), 0.0051, 'middle');
    const squares = logs.reduce((all, log) => all + (log - mean) ** 2, 0);
    expectNear(result('sum of the squared'), squares, 0.000051, 'squares');
    expectNear(sd, Math.sqrt(result('sum of the squared') / 6), 0.00051, 'standard deviation');
    expectNear(result('tolerance bound'), Math.exp(mean + 3.399 * sd), 0.0051, 'tolerance');
    const next = Math.exp(mean + 1.943 * sd * Math.sqrt(8 / 7));
    expectNear(result('bound of the next'), next, 0.0051, 'next');
  });

  test('[PEN2] the tool has the same middle and tolerance bound, and the factor printed', () => {
    const days = [1, 1, 2, 3, 4, 5, 6];
    const comparisons = ratios.map((ratio, i): Comparison => ({
      quantity: 'take-off-to-50-ft',
      dayKey: `day ${days[i]}`,
      ratio: { value: ratio, low: ratio * 0.9, high: ratio * 1.1 },
      log: { value: Math.log(ratio), sd: 0.06 },
      role: 'counts',
      why: 'for the test',
      factorSet: null,
    }));
    const found = calibrate('take-off-to-50-ft', comparisons);
    if (found.kind === 'too-few' || isUndetermined(found.toleranceBound)) throw new Error('few');
    expectNear(found.toleranceBound, result('tolerance bound'), 0.0051, 'tolerance bound');
    // The prior holds the middle to 1 a little.
    expectNear(found.typicalRatio.value, result('middle'), 0.02, 'middle');
    expectNear(found.factor, result('own factor from these'), 0.0051, 'factor');
    expectNear(found.planWith ?? NaN, found.factor, 1e-12, 'planned with');
  });
});
