import { describe, expect, test } from 'vitest';
import { solarDay } from '../../src/geo/solar-day.ts';

const utc = (text: string): number => Date.parse(`${text}Z`) / 1000;

describe('[SOL1] the day of a landing is the local one of its place', () => {
  test.each([
    // Half past eleven at night in Greenwich is half past eleven of the next morning at 180 degrees east.
    ['2025-06-08T23:30', 180, '2025-06-09'],
    ['2025-06-08T23:30', 2.3, '2025-06-08'],
    ['2025-06-08T23:30', 0, '2025-06-08'],
    ['2025-06-09T01:00', -120, '2025-06-08'],
    ['2024-12-31T23:30', 150, '2025-01-01'],
    ['2024-03-01T00:30', -15, '2024-02-29'],
  ])('[SOL1] %s UTC at %d degrees is %s', (time, lonDeg, day) => {
    expect(solarDay(utc(time), lonDeg)).toBe(day);
  });

  test('[SOL2] from six in the morning to six in the evening of solar time it is one day, everywhere', () => {
    for (let lonDeg = -180; lonDeg <= 180; lonDeg += 7.5) {
      const noonS = utc('2025-06-08T12:00') - 240 * lonDeg;
      const days = [-6, -3, 0, 3, 5.99].map((hours) => solarDay(noonS + 3600 * hours, lonDeg));
      expect(new Set(days), `${lonDeg}`).toEqual(new Set(['2025-06-08']));
    }
  });

  test('[SOL3] what is no number is a mistake of the caller', () => {
    expect(() => solarDay(NaN, 0)).toThrow('numbers');
    expect(() => solarDay(0, NaN)).toThrow('numbers');
  });
});
