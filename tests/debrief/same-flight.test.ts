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

  /** So many moments of two aircraft each: the speed of both, and how far beside the other one flies. */
  type Part = readonly [moments: number, mps: number, besideM: number];

  /** Two aircraft going north through these parts, with a pause of the recorders behind every moment of some. */
  const both = (parts: readonly Part[], pausesAfter: (i: number) => number = () => 0) => {
    const steps = parts.flatMap(([moments, mps, besideM]) =>
      Array.from({ length: moments }, () => ({ mps, besideM })),
    );
    let [atS, northM] = [0, 0];
    const moments = steps.map(({ mps, besideM }, i) => {
      const stepS = 5 + pausesAfter(i);
      atS += stepS;
      northM += stepS * mps;
      return { timeS: atS, northM, besideM, mps };
    });
    const timeS = moments.map((each) => each.timeS);
    const one: FlownPath = {
      timeS,
      latDeg: moments.map((each) => 54 + each.northM / 111_200),
      lonDeg: moments.map(() => 2.3),
    };
    /** The other, written down so much later than it was. */
    const other = (lateS = 0): FlownPath => ({
      timeS,
      latDeg: moments.map((each) => 54 + (each.northM - lateS * each.mps) / 111_200),
      lonDeg: moments.map((each) => 2.3 + each.besideM / 65_400),
    });
    return { one, other };
  };
  const areSame = (...parts: Part[]): boolean => {
    const { one, other } = both(parts);
    const [there, back] = same(one, other());
    expect(there).toBe(back);
    return there;
  };

  test('[TWICE2] each limit holds by itself: of all moments, of the fast, of half and of nine in ten', () => {
    expect(areSame([32, 40, 8], [60, 6, 8], [60, 0, 8])).toBe(true);
    // Fast ones: half of them too far, or one in five much too far, among many near each other.
    expect(areSame([32, 40, 13], [120, 6, 0])).toBe(false);
    expect(areSame([26, 40, 0], [6, 40, 45], [120, 6, 0])).toBe(false);
    // All: of those in between half too far, or one in five much too far, with every fast one at hand.
    expect(areSame([32, 40, 0], [60, 6, 13])).toBe(false);
    expect(areSame([32, 40, 0], [12, 6, 45])).toBe(false);
  });

  test('[TWICE2] fast for less than half a minute together they say nothing', () => {
    // The first and the last moment have no neighbour that shows how fast they were.
    expect(areSame([8, 40, 0])).toBe(true);
    expect(areSame([7, 40, 0])).toBe(false);
  });

  test('[TWICE1] logs with pauses are told by the moments between, where it shows how fast they were', () => {
    const { one, other } = both([[60, 40, 0]], (i) => (i % 5 === 0 ? 30 : 0));
    expect(same(one, other(0.9))).toEqual([true, true]);
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

  test('is found also where one log has a hole half-way', () => {
    const other = ahead(3600);
    const middle = other.timeS.length >> 1;
    const without = <T>(column: readonly T[]): T[] =>
      column.filter((_, i) => Math.abs(i - middle) > 12);
    const holed = {
      timeS: without(other.timeS),
      latDeg: without(other.latDeg),
      lonDeg: without(other.lonDeg),
    };
    expect(zoneFaultS(TABLET, holed)).toBe(3600);
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
