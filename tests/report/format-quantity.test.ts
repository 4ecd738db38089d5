/** Rounding and signs of figures; the rules stand in format-quantity.ts. */
import { describe, expect, test } from 'vitest';
import {
  angle,
  count,
  degrees,
  duration,
  entered,
  height,
  knots,
  metres,
  metresOnly,
  percent,
  ratio,
  utcDate,
  utcTime,
} from '../../src/report/format-quantity.ts';
import { wrapText } from '../../src/report/wrap-text.ts';
import { textTable } from '../../src/report/text-table.ts';
import { undetermined } from '../../src/result.ts';

const band = (value: number, low: number, high: number) => ({ value, low, high });

describe('[FQ1] figures as text', () => {
  test('[FQ1] a length is rounded to metres, its band outwards, with a dash', () => {
    expect(metres(band(46.4, 11.6, 98.2))).toBe('46 m 11–99');
  });

  test('[FQ2] a negative one has a true minus, and the word between the ends', () => {
    expect(metres(band(-9, -20, 4))).toBe('−9 m −20 to 4');
    expect(metres(band(-0.3, -0.4, 0.2))).toBe('0 m −1 to 1');
    expect(metres(band(-0.3, -0.3, 12))).toBe('0 m −1 to 12');
    expect(metresOnly(-12.4)).toBe('−12 m');
  });

  test('[FQ2] an exact one, as a place put by hand, has no band', () => {
    expect(metres(band(31, 31, 31))).toBe('31 m');
    expect(metres(band(31, 30.9, 31.1))).toBe('31 m 30–32');
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
    expect(height(band(3.3, 1.1, 12.4))).toBe('3.5 m 1.0–13');
    expect(degrees(band(359.7, 351, 370))).toBe('000° 351–010');
  });

  test('[FQ5] times are UTC', () => {
    const moment = Date.UTC(2024, 4, 12, 13, 16, 53) / 1000 + 0.6;
    expect(utcTime(moment)).toBe('13:16:54');
    expect(utcDate(moment)).toBe('12 May 2024');
  });
});

describe('[FQ6] counts, shares, angles and durations', () => {
  test('[FQ6] a certain count has no band, an uncertain one has', () => {
    expect(count(band(2, 2, 2))).toBe('2');
    expect(count(band(1, 0, 2))).toBe('1 0–2');
    expect(count(undetermined('noise'))).toBe('–');
  });

  test('[FQ6] a share is never rounded to certainty', () => {
    expect(percent(0.834)).toBe('83 %');
    expect(percent(0.9996)).toBe('over 99 %');
    expect(percent(0.0004)).toBe('under 1 %');
    expect([percent(0), percent(1)]).toEqual(['0 %', '100 %']);
  });

  test('[FQ6] an angle is not wrapped, a duration carries its seconds, minus signs are true', () => {
    expect(angle(band(27.6, 20.4, 33.5))).toBe('28° 20–34');
    expect(angle(band(-1, -3, 1))).toBe('−1° −3 to 1');
    expect(duration(125.4)).toBe('2 min 05 s');
    expect(duration(59.6)).toBe('1 min 00 s');
    expect(entered(-3.5)).toBe('−3.5');
    expect(entered(12)).toBe('12');
  });

  test('[FQ6] a height below zero keeps its minus, and one that rounds to zero has none', () => {
    expect(height(band(-1.4, -2, 0.1))).toBe('−1.5 m −2.0 to 0.5');
    expect(height(band(-0.1, -0.2, 0.1))).toBe('0.0 m −0.5 to 0.5');
  });
});

describe('[WT1] long text', () => {
  test('[WT1] is broken between words, later lines further in, and loses no word', () => {
    const words = Array.from({ length: 60 }, (_, k) => `word${k}`);
    const lines = wrapText(words.join('  '), '  ');
    expect(lines.length).toBeGreaterThan(3);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(120);
    expect(lines[0]).toMatch(/^ {2}word0 /);
    for (const line of lines.slice(1)) expect(line).toMatch(/^ {4}word/);
    expect(lines.flatMap((line) => line.trim().split(' '))).toEqual(words);
  });

  test('[WT1] a word longer than a line stays whole', () => {
    const long = 'x'.repeat(200);
    expect(wrapText(`a ${long} b`, '')).toEqual(['a', `  ${long}`, '  b']);
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
