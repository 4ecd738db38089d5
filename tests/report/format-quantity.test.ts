/** Rounding and signs of figures; the rules stand in format-quantity.ts. */
import { describe, expect, test } from 'vitest';
import {
  degrees,
  height,
  knots,
  metres,
  metresOnly,
  ratio,
  utcDate,
  utcTime,
} from '../../src/report/format-quantity.ts';
import { textTable } from '../../src/report/text-table.ts';
import { undetermined } from '../../src/result.ts';

const band = (value: number, low: number, high: number) => ({ value, low, high });

describe('[FQ1] figures as text', () => {
  test('[FQ1] a length is rounded to metres, its band follows with a dash', () => {
    expect(metres(band(46.4, 11.6, 98.2))).toBe('46 m 12–98');
  });

  test('[FQ2] a negative one has a true minus, and the word between the ends', () => {
    expect(metres(band(-9, -20, 4))).toBe('−9 m −20 to 4');
    expect(metres(band(-0.3, -0.4, 0.2))).toBe('0 m 0–0');
    expect(metresOnly(-12.4)).toBe('−12 m');
  });

  test('[FQ3] what is undetermined is a dash, never a number', () => {
    for (const show of [metres, height, knots, ratio, degrees, utcTime]) {
      expect(show(undetermined('no reason'))).toBe('–');
    }
  });

  test('[FQ4] knots, ratios, heights and directions have their own digits', () => {
    // 1 kt is 1852 m an hour exactly.
    expect(knots(band(25.72, 23.15, 28.29))).toBe('50 kt 45–55');
    expect(ratio(band(1.086, 0.8, 1.4))).toBe('1.09 0.80–1.40');
    expect(height(band(3.3, 1.1, 12.4))).toBe('3.5 m 1.0–12');
    expect(degrees(band(359.7, 351, 370))).toBe('000° 351–010');
  });

  test('[FQ5] times are UTC', () => {
    const moment = Date.UTC(2024, 4, 12, 13, 16, 53) / 1000 + 0.6;
    expect(utcTime(moment)).toBe('13:16:54');
    expect(utcDate(moment)).toBe('12 May 2024');
  });
});

describe('[TT1] tables', () => {
  test('[TT1] are aligned, and leave out columns that are empty in every row', () => {
    const lines = textTable(
      ['a', 'gone', 'long heading'],
      [
        ['wide cell', '', 'x'],
        ['–', '', 'y'],
      ],
    );
    expect(lines).toEqual(['  a          long heading', '  wide cell  x', '  –          y']);
    expect(textTable(['a'], [])).toEqual([]);
  });
});
