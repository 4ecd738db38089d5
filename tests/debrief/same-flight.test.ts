/** Two logs of one flight are known as such; aircraft close together are not taken for one. */
import { describe, expect, test } from 'vitest';
import { isSameFlight, pathsApart, zoneFaultS } from '../../src/debrief/same-flight.ts';
import type { FlownPath } from '../../src/track/flown-path.ts';
import {
  flownBeside,
  flyStory,
  pathOf,
  recordFlight,
  threeCircuits,
  type Recorder,
} from '../synthetic/recorders.ts';

const FLOWN = flyStory(threeCircuits);
const LENGTH_S = FLOWN.timeS[FLOWN.length - 1] - FLOWN.timeS[0];
const recorded = (recorder: Recorder): FlownPath => pathOf(recordFlight(FLOWN, recorder));
const TABLET = recorded({ format: 'gpx', seed: 1 });
const same = (a: FlownPath, b: FlownPath): boolean[] => [isSameFlight(a, b), isSameFlight(b, a)];

/** Another aircraft near the first one, as its own recorder saw it. */
const beside = (seed: number, where: Parameters<typeof flownBeside>[1]): FlownPath =>
  pathOf(recordFlight(flownBeside(FLOWN, where), { format: 'igc', seed }));

describe('two logs of one flight', () => {
  test.each([
    ['a recorder beside the tablet', {}],
    ['another phase of the second, written down in whole seconds', { lateS: 0.6 }],
    ['moments that are a second late', { lateS: 0.95 }],
    ['a fix every four seconds', { intervalS: 4 }],
    ['five fixes a second', { intervalS: 0.2 }],
    ['another start and end', { fromS: 130, toS: LENGTH_S - 60 }],
    ['only the first third', { toS: LENGTH_S / 3 }],
    ['a hole of four minutes', { receiver: { holes: [{ afterS: 200, lengthS: 240 }] } }],
    ['a receiver twice as far off as usual', { receiver: { horizontalBiasM: 4 } }],
  ] satisfies [string, Partial<Recorder>][])('[TWICE1] are known as one: %s', (_, how) => {
    for (const seed of [21, 22, 23]) {
      const other = recorded({ format: 'igc', seed, ...how });
      expect(same(TABLET, other)).toEqual([true, true]);
    }
  });

  test('[TWICE1] usual receivers lie well within the limits', () => {
    for (let seed = 30; seed < 42; seed++) {
      const one = recorded({ format: 'gpx', seed });
      const apart = pathsApart(one, recorded({ format: 'igc', seed: seed + 100, lateS: 0.4 }));
      expect(apart?.halfM).toBeLessThan(8);
      expect(apart?.nineTenthsM).toBeLessThan(16);
      expect(apart?.slowHalfM).toBeLessThan(10);
    }
  });
});

describe('logs of two aircraft', () => {
  test.each([
    ['in formation, abreast a wing span and a half apart', { rightM: 15 }],
    ['in formation, abreast at 30 m', { rightM: 30 }],
    ['in formation, in echelon', { rightM: 20, behindM: 20 }],
    ['one behind the other by a short rope', { behindM: 40 }],
    ['one behind the other by a long rope', { behindM: 55 }],
    ['the other two seconds behind', { laterS: 2 }],
    ['the next in the circuit', { laterS: 60 }],
    ['the other one and a half seconds behind', { laterS: 1.5 }],
  ])('[TWICE2] are not taken for one: %s', (_, where) => {
    for (const seed of [51, 52, 53]) {
      expect(same(TABLET, beside(seed, where))).toEqual([false, false]);
    }
  });

  test('[TWICE2] a tug and its glider are two, also where both logs end at the release', () => {
    const towed = flownBeside(FLOWN, { behindM: 50 });
    for (const seed of [61, 62]) {
      const tug = recorded({ format: 'gpx', seed, toS: 240 });
      const glider = pathOf(recordFlight(towed, { format: 'igc', seed: seed + 7, toS: 240 }));
      expect(same(tug, glider)).toEqual([false, false]);
    }
  });

  test('[TWICE2] are told apart by the ground alone where they fly at one place', () => {
    // Parked and lining up 20 m apart, then within reach of the receivers' errors of each other.
    const ground: FlownPath = {
      ...TABLET,
      lonDeg: TABLET.lonDeg.map((lonDeg, i) =>
        i < 12 || i > TABLET.lonDeg.length - 12 ? lonDeg + 0.0004 : lonDeg,
      ),
    };
    expect(pathsApart(TABLET, ground)?.halfM).toBe(0);
    expect(same(TABLET, ground)).toEqual([false, false]);
  });

  test('[TWICE2] that stand side by side all day and fly at other times are two', () => {
    // Parked 8 m apart with the recorders on, twelve minutes in the air each.
    const day = (byM: number, flyFromS: number): FlownPath => {
      const timeS = Array.from({ length: (6 * 3600) / 5 }, (_, k) => 5 * k);
      const awayM = timeS.map(
        (each) => 40 * Math.max(0, Math.min(each - flyFromS, flyFromS + 720 - each)),
      );
      const latDeg = awayM.map((each) => 54 + each / 111_200);
      return { timeS, latDeg, lonDeg: timeS.map(() => 2.3 + byM / 65_400) };
    };
    const [one, other] = [day(0, 3600), day(8, 4 * 3600)];
    const apart = pathsApart(one, other);
    expect([apart?.halfM, apart?.nineTenthsM].every((each) => each && each < 9)).toBe(true);
    expect(same(one, other)).toEqual([false, false]);
    expect(same(one, day(8, 3600))).toEqual([true, true]);
  });

  test('[TWICE2] a few seconds in common, or nothing, say nothing', () => {
    const [first, rest] = [
      recorded({ format: 'gpx', seed: 71, toS: 200 }),
      recorded({ format: 'igc', seed: 72, fromS: 190 }),
    ];
    expect(same(first, rest)).toEqual([false, false]);
    const empty: FlownPath = { timeS: [], latDeg: [], lonDeg: [] };
    expect(same(TABLET, empty)).toEqual([false, false]);
    expect(zoneFaultS(TABLET, empty)).toBeNull();
  });
});

describe('[TWICE3] a clock in another zone', () => {
  const ahead = (byS: number, seed = 81): FlownPath => {
    const path = recorded({ format: 'igc', seed });
    return { ...path, timeS: path.timeS.map((timeS) => timeS + byS) };
  };

  test.each([3600, -3600, 7200, 19_800])('is found, and keeps two logs apart: %d s', (byS) => {
    expect(isSameFlight(TABLET, ahead(byS))).toBe(false);
    expect(zoneFaultS(TABLET, ahead(byS))).toBe(byS);
    expect(zoneFaultS(ahead(byS), TABLET)).toBe(-byS);
  });

  test('is none where another flight was flown an hour later, or the next day', () => {
    const other = pathOf(
      recordFlight(flyStory(threeCircuits, { seed: 12 }), { format: 'gpx', seed: 82 }),
    );
    const later = { ...other, timeS: other.timeS.map((timeS) => timeS + 3600) };
    expect(zoneFaultS(TABLET, later)).toBeNull();
    expect(zoneFaultS(TABLET, ahead(86_400))).toBeNull();
    expect(zoneFaultS(TABLET, ahead(1700))).toBeNull();
  });
});
