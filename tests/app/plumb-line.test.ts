/** The plumb line: what it reads at a moment, on the strip and off it. */
import { describe, expect, test } from 'vitest';
import { plumbLine } from '../../src/app/components/plumb-line.ts';
import type { PilotUnits } from '../../src/report/figure-text.ts';
import { readAtTime, timeAtPlace } from '../../src/report/story/cursor-columns.ts';

const START = Date.UTC(2025, 5, 14, 9, 53, 0) / 1000;
/** Ten seconds at 20 m/s along the strip, then standing; the event is from the third fix to the ninth. */
const COLUMNS = {
  timeS: Float64Array.from({ length: 14 }, (_, k) => START + k),
  alongM: Float64Array.from({ length: 14 }, (_, k) => -60 + 20 * Math.min(k, 10)),
  speedMps: Float64Array.from({ length: 14 }, (_, k) => (k < 10 ? 20 : 0)),
  from: 2,
  to: 9,
};
const UNKNOWN = { ...COLUMNS, alongM: new Float64Array(14).fill(NaN) };
const UNITS: PilotUnits = { length: 'm', height: 'ft', speed: 'km/h' };
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('the plumb line', () => {
  test('[ST80] reads time, place and speed between two fixes', () => {
    const line = plumbLine(COLUMNS, START + 4.5, UNITS);
    expect(line.byTime.at).toBe(START + 4.5);
    expect(line.byPlace?.at).toBe(30);
    // 20 m/s are 72 km/h.
    expect(plain(line.spoken)).toBe('09:53:04, 30 m along the strip, 72 km/h');
    expect(line.byTime.readOut).toEqual(line.byPlace?.readOut);
    expect(line.byTime.readOut.map((part) => plain(part.text))).toEqual([
      '09:53:04',
      '30 m',
      '72 km/h',
    ]);
  });

  test('[ST81] hangs on the strip only in the stretch of its event', () => {
    const isOnStrip = (second: number): boolean =>
      plumbLine(COLUMNS, START + second, UNITS).byPlace !== null;
    expect([1.9, 2, 8, 8.1].map(isOnStrip)).toEqual([false, true, true, false]);
    expect(plain(plumbLine(COLUMNS, START + 1, UNITS).spoken)).toBe('09:53:01, 72 km/h');
  });

  test('[ST82] knows no place where no strip is known', () => {
    const line = plumbLine(UNKNOWN, START + 4, UNITS);
    expect(line.byPlace).toBeNull();
    expect(plain(line.spoken)).toBe('09:53:04, 72 km/h');
  });

  test('[ST83] reads its clock in the zone of the pilot', () => {
    // Oslo is UTC+2 in June (IANA database).
    const { spoken } = plumbLine(COLUMNS, START + 4, { ...UNITS, timeZone: 'Europe/Oslo' });
    expect(spoken).toMatch(/^11:53:04/);
  });

  test('[ST84] outside the log reads no speed and says so', () => {
    const { spoken, byPlace } = plumbLine(COLUMNS, START - 5, UNITS);
    expect(byPlace).toBeNull();
    expect(spoken).toBe('09:52:55, not known');
    expect(readAtTime(COLUMNS, NaN)).toEqual({ alongM: NaN, speedMps: NaN });
  });
});

describe('the time at a place', () => {
  test('[ST85] outside the stretch is that of its nearest end', () => {
    expect(timeAtPlace(COLUMNS, -500)).toBe(START + 2);
    expect(timeAtPlace(COLUMNS, -20)).toBe(START + 2);
    expect(timeAtPlace(COLUMNS, 100)).toBe(START + 8);
    expect(timeAtPlace(COLUMNS, 500)).toBe(START + 8);
  });

  test('[ST86] of a place passed twice is that of the first pass in the stretch', () => {
    const there = [-60, 0, 60, 120, 60, 0, 60, 120];
    const twice = {
      timeS: Float64Array.from(there, (_, k) => START + k),
      alongM: Float64Array.from(there),
      speedMps: new Float64Array(8).fill(60),
      from: 0,
      to: 8,
    };
    expect(timeAtPlace(twice, 30)).toBe(START + 1.5);
    expect(timeAtPlace({ ...twice, from: 4 }, 30)).toBe(START + 5.5);
  });

  test('[ST87] is found at every place of the stretch, standing fixes among them', () => {
    const standing = { ...COLUMNS, to: 14 };
    for (let atM = -20; atM <= 140; atM += 7) {
      expect(readAtTime(standing, timeAtPlace(standing, atM)).alongM).toBeCloseTo(atM, 4);
    }
    const one = { ...COLUMNS, from: 5, to: 6 };
    expect(timeAtPlace(one, 0)).toBe(START + 5);
  });
});
