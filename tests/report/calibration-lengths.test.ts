/** How closely touchdowns lie, as `calibrate` prints it. */
import { expect, test } from 'vitest';
import type { Dispersion } from '../../src/calibration/touchdown-dispersion.ts';
import { dispersionLines } from '../../src/report/calibration-lengths.ts';

const SHAPE = { correlation: 0, nineOfTen: { longHalfM: 80, shortHalfM: 4, turnedRad: 0 } };

function lineOf(along: Dispersion['along'], cross: Dispersion['cross']): string {
  const dispersion = { touchdowns: 7, along, cross, ...SHAPE };
  const lines = dispersionLines([
    { strip: 'sedge', direction: '20', touchdowns: 7, dispersion },
    { strip: 'mereling', direction: '11', touchdowns: 2, dispersion: null },
  ]);
  expect(lines.join()).not.toContain('mereling');
  return lines.find((line) => line.includes('sedge 20')) ?? '';
}

test('[CAL14] of a spread that the log can make by itself all may be the log’s, of a larger one its part', () => {
  const good = { mean: 40, sd: 45, measuringSd: 36, middle: { value: 40, low: -9, high: 89 } };
  const poor = { mean: 1, sd: 2, measuringSd: 3, middle: { value: 1, low: -2, high: 4 } };
  expect(lineOf(good, poor)).toMatch(/45 m .*36 m along, all across/);
  expect(lineOf(good, poor)).toMatch(/sedge 20 +7 +40 m −9 to 89/);
  expect(lineOf({ ...good, sd: 20 }, { ...poor, sd: 4 })).toMatch(/20 m .*all along, 3 m across/);
});
