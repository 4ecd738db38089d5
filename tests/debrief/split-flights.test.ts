/** A file of several recordings is divided at its long pauses, and nowhere else. */
import { describe, expect, test } from 'vitest';
import { splitRecordings } from '../../src/debrief/split-flights.ts';
import { makeTrack, steady } from '../track/made-track.ts';

describe('[SPL1] recordings of one file', () => {
  test('[SPL1] without a pause are one, whatever holes of minutes it has', () => {
    const fixes = [...steady(10), ...steady(10, 40, 10 + 1800), ...steady(5, 40, 7000)];
    expect(splitRecordings(makeTrack(fixes))).toEqual([{ from: 0, to: 25 }]);
  });

  test('[SPL1] are divided at a pause of two hours; every fix belongs to one', () => {
    const lastS = 9;
    const pauseS = 2 * 3600;
    const divided = [...steady(10), ...steady(7, 40, lastS + pauseS)];
    expect(splitRecordings(makeTrack(divided))).toEqual([
      { from: 0, to: 10 },
      { from: 10, to: 17 },
    ]);
    const whole = [...steady(10), ...steady(7, 40, lastS + pauseS - 1)];
    expect(splitRecordings(makeTrack(whole))).toEqual([{ from: 0, to: 17 }]);
  });

  test('[SPL1] of an empty file are none', () => {
    expect(splitRecordings(makeTrack([]))).toEqual([]);
  });
});
