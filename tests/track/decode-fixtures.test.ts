/**
 * Every small log in data/, decoded through the front door, against what its author says is in it.
 * The expected values were written down from the text of each file, not from our reader's output.
 */

import { describe, expect, test } from 'vitest';
import { expectNear } from '../expect-near.ts';
import { decodeFixture, fixtureNames, seconds } from './fixture-file.ts';

interface Expected {
  readonly fixes: number;
  /** Times of the first and last fix. */
  readonly times?: readonly [string, string];
  /** Latitude and longitude of the last fix, degrees. */
  readonly last?: readonly [number, number];
  readonly segments?: number;
  readonly datum?: string;
  /** [line, count, piece of the reason]. */
  readonly leftOut?: readonly (readonly [number, number, string])[];
  /** Codes of the problems, in any order. */
  readonly problems?: readonly string[];
}

const DAY = '2026-06-07T';
const [T0, T1] = [`${DAY}10:00:00Z`, `${DAY}10:00:01Z`];
const HOME: readonly [number, number] = [54.7, 2.3];
/** 54 degrees 42.010 minutes. */
const NORTH_010: readonly [number, number] = [54 + 42.01 / 60, 2.3];

const EXPECTED: Readonly<Record<string, Expected | string>> = {
  'area.kml': 'KML file',
  'bad-coordinates.gpx': {
    fixes: 1,
    times: [`${DAY}10:00:03Z`, `${DAY}10:00:03Z`],
    last: [54.7, -180],
    leftOut: [
      [4, 1, 'not a number'],
      [5, 1, 'beyond 90'],
      [6, 1, 'missing'],
      [8, 1, 'missing'],
    ],
  },
  'bad-lines.igc': {
    fixes: 2,
    times: [T0, `${DAY}10:00:07Z`],
    last: [54 + 42.02 / 60, 2.3],
    leftOut: [
      [5, 1, 'shorter than 35 bytes'],
      [6, 1, 'HHMMSS'],
      [7, 1, 'neither N nor S'],
      [8, 1, 'neither A nor V'],
      [9, 1, 'no letter of an IGC record'],
      [10, 1, 'position'],
      [11, 1, 'height'],
      [13, 1, 'shorter than 35 bytes'],
    ],
  },
  'bare-ampersand.gpx': { fixes: 1, times: [T0, T0], problems: ['xml-entities'] },
  'cr-cr-lf-and-end-mark.igc': { fixes: 2, times: [T0, T1], last: NORTH_010 },
  'cut-off.gpx': { fixes: 2, times: [T0, T1], problems: ['xml-not-well-formed'] },
  'date-1024-weeks-early.igc': {
    fixes: 1,
    times: ['2006-10-22T10:00:00Z', '2006-10-22T10:00:00Z'],
    problems: ['date-1024-weeks'],
  },
  'date-with-blanks.igc': { fixes: 1, times: [T0, T0], last: HOME },
  'empty-height.gpx': { fixes: 3, times: [T0, `${DAY}10:00:02Z`], datum: 'unstated' },
  'empty.igc': 'empty (0 bytes)',
  'entity-bomb.gpx': {
    fixes: 1,
    times: [T0, T0],
    leftOut: [[6, 1, 'not a number']],
    problems: ['xml-entities'],
  },
  'every-record.igc': { fixes: 2, times: [T0, T1], last: NORTH_010, datum: 'ellipsoid' },
  'extensions-own-namespace.gpx': { fixes: 1, times: [T0, T0], last: [54.700001, 2.3] },
  'extensions-unbound-prefix.gpx': { fixes: 1, times: [T0, T0], problems: ['speed-unit-assumed'] },
  'extra-digits.igc': {
    fixes: 2,
    times: [`${DAY}10:00:00.125Z`, `${DAY}10:00:00.625Z`],
    last: [-(54 + 42.00099 / 60), -(2 + 18.00001 / 60)],
  },
  'fractions-and-zones.gpx': {
    fixes: 4,
    times: [`${DAY}10:00:00.25Z`, `${DAY}10:00:03Z`],
    problems: ['time-without-zone'],
  },
  'geoid-heights.gpx': { fixes: 2, times: [T0, T1], datum: 'geoid' },
  'heights-above-geoid.igc': { fixes: 2, times: [T0, T1], last: NORTH_010, datum: 'geoid' },
  'igc-named.gpx': { fixes: 1, times: [T0, T0], last: HOME },
  'jump-to-zero-zero.igc': { fixes: 4, times: [T0, `${DAY}10:00:03Z`] },
  'latin1-header.igc': { fixes: 1, times: [T0, T0] },
  'latin1.gpx': { fixes: 1, times: [T0, T0] },
  'mac-line-ends.igc': { fixes: 2, times: [T0, T1], last: NORTH_010 },
  'midnight-utc.igc': { fixes: 6, times: [`${DAY}23:59:58Z`, '2026-06-08T00:00:02Z'] },
  'native-speed.gpx': {
    fixes: 2,
    times: [T0, T1],
    last: [54.70023, 2.300001],
    problems: ['speed-unit-assumed'],
  },
  'no-date.igc': {
    fixes: 2,
    times: ['1970-01-01T10:00:00Z', '1970-01-01T10:00:01Z'],
    problems: ['igc-bad-date', 'igc-no-date'],
  },
  'no-pressure-sensor.igc': { fixes: 2, times: [T0, T1], last: NORTH_010 },
  'no-time-increment.igc': { fixes: 4, times: [T0, T1] },
  'no-times.gpx': {
    fixes: 0,
    segments: 0,
    leftOut: [[4, 2, 'without time']],
    problems: ['no-times'],
  },
  'not-well-formed.gpx': { fixes: 1, times: [T0, T0], problems: ['xml-not-well-formed'] },
  'notes.txt': 'not in a format of track logs',
  'packed-log.gpx.gz': {
    fixes: 2,
    times: [T0, T1],
    last: [54.70023, 2.300001],
    problems: ['speed-unit-assumed'],
  },
  'picture.gpx': 'PNG picture',
  'sentences.nmea': 'NMEA',
  'several-days-out-of-order.igc': {
    fixes: 5,
    segments: 3,
    times: [T0, `${DAY}12:00:00Z`],
  },
  'several-tracks.gpx': {
    fixes: 3,
    segments: 3,
    times: [T0, `${DAY}09:00:00Z`],
    last: [54.72, 2.3],
  },
  'some-without-time.gpx': {
    fixes: 2,
    times: [T0, `${DAY}10:00:04Z`],
    leftOut: [
      [5, 2, 'without time'],
      [7, 1, 'ISO 8601'],
    ],
  },
  'speed-extensions.igc': { fixes: 3, times: [T0, `${DAY}10:00:02Z`] },
  'speed-in-kmh.gpx': {
    fixes: 30,
    times: [T0, `${DAY}10:00:29Z`],
    problems: ['speed-unit-assumed', 'speed-unit'],
  },
  'utf16-byte-order-mark.gpx': { fixes: 1, times: [T0, T0], last: HOME },
  'utf8-byte-order-mark.gpx': { fixes: 1, times: [T0, T0], last: HOME },
  'void-before-midnight.igc': { fixes: 4, times: ['2026-06-06T23:59:58Z', `${DAY}00:00:01Z`] },
  'web-page.igc': 'web page',
};

/** Largest rounding of seconds since 1970 in a 64-bit float is 2e-7. */
const TIME_TOLERANCE_S = 1e-6;

describe('small logs', () => {
  test('[DEC1] expects something of every file in the folder and of no other', () => {
    expect(Object.keys(EXPECTED).sort()).toEqual(fixtureNames());
  });

  for (const [name, expected] of Object.entries(EXPECTED)) {
    if (typeof expected === 'string') {
      test(`[DEC2] refuses ${name} and says what it is and what was expected`, async () => {
        const result = await decodeFixture(name);
        expect(result.ok).toBe(false);
        expect(result.problems).toHaveLength(1);
        expect(result.problems[0].severity).toBe('error');
        expect(result.problems[0].message).toContain(expected);
        expect(result.problems[0].message).toContain('IGC or GPX format was expected');
      });
      continue;
    }
    test(`[DEC3] reads ${name} as its text says`, async () => {
      const result = await decodeFixture(name);
      if (!result.ok) throw new Error(result.problems[0].message);
      const { track, leftOut } = result.value;
      expect(track.length).toBe(expected.fixes);
      expect(result.problems.map((p) => p.code).sort()).toEqual(
        [...(expected.problems ?? [])].sort(),
      );
      expect(new Set(track.segment).size).toBe(expected.segments ?? 1);
      if (expected.datum !== undefined) expect(track.heightDatum).toBe(expected.datum);
      if (expected.times !== undefined) {
        const [first, last] = expected.times;
        expectNear(track.timeS[0], seconds(first), TIME_TOLERANCE_S, 'first time');
        expectNear(track.timeS[track.length - 1], seconds(last), TIME_TOLERANCE_S, 'last time');
      }
      if (expected.last !== undefined) {
        expectNear(track.latDeg[track.length - 1], expected.last[0], 1e-12, 'latitude');
        expectNear(track.lonDeg[track.length - 1], expected.last[1], 1e-12, 'longitude');
      }
      const rows = expected.leftOut ?? [];
      expect(leftOut.map((entry) => [entry.line, entry.count])).toEqual(
        rows.map(([line, count]) => [line, count]),
      );
      rows.forEach(([, , reason], k) => {
        expect(leftOut[k].reason).toContain(reason);
      });
    });
  }
});
