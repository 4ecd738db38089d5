/** What ends a roll: turning off, leaving the strip's side, a steady taxi; rule RE1 in docs/spec/measuring.md. Positions made by hand. */
import { describe, expect, test } from 'vitest';
import { findRollEnd, type FoundRollEnd } from '../../src/events/roll-end.ts';
import type { StripView } from '../../src/events/strip-view.ts';
import type { Motion } from '../../src/track/motion.ts';

const STRAIGHT_S = 10;

/** So many seconds, one fix each, at these speeds along and to the right, m/s. */
type Leg = readonly [seconds: number, forwardMps: number, rightMps: number];

interface Made {
  readonly widthM?: number;
  readonly noise?: { readonly horizontalSdM: number; readonly quantumM: number };
  /** Behind this fix the log has a hole of ten seconds. */
  readonly holeAfter?: number;
}

/** The end of a roll down the middle that goes on like this; null: none found. */
function endOf(legs: readonly Leg[], made: Made = {}): FoundRollEnd | null {
  const { widthM = 60, noise = { horizontalSdM: 0.3, quantumM: 0 }, holeAfter = Infinity } = made;
  const fixes = legs.flatMap(([seconds, ...mps]) => Array.from({ length: seconds }, () => mps));
  const length = fixes.length;
  const each = (value: (i: number) => number): Float64Array =>
    Float64Array.from({ length }, (_, i) => value(i));
  const summed = (axis: 0 | 1): Float64Array => {
    let sumM = 0;
    return each((i) => (i === 0 ? 0 : (sumM += fixes[i - 1][axis])));
  };
  const [alongM, crossM] = [summed(0), summed(1)];
  const motion = {
    ...{ length, noise, medianIntervalS: 1, timeS: each((i) => (i > holeAfter ? i + 10 : i)) },
    speedMps: each((i) => Math.hypot(...fixes[i])),
  } as unknown as Motion;
  const view = {
    ...{ alongM, crossM, smoothAlongM: alongM, smoothCrossM: crossM },
    forwardMps: each((i) => fixes[i][0]),
    rightMps: each((i) => fixes[i][1]),
    strip: { widthM },
  } as unknown as StripView;
  return findRollEnd(motion, view, 1, length);
}

const kindOf = (legs: readonly Leg[], made?: Made): string => endOf(legs, made)?.kind ?? 'none';

/** Rolls on at 8 m/s, goes square to the side at 2 m/s for some seconds, and on along the strip. */
function kindAfter(sideS: number, noise: { horizontalSdM: number; quantumM: number }): string {
  const legs: Leg[] = [
    [STRAIGHT_S, 8, 0],
    [sideS, 0, 2],
    [40 - STRAIGHT_S - sideS, 8, 0],
  ];
  const end = endOf(legs, { noise });
  if (!end) throw new Error('the roll has no end');
  expect(end.index).toBeGreaterThanOrEqual(STRAIGHT_S);
  return end.kind;
}

// The turn is left at its last fix: 2 m less than its seconds would bring.
test.each([
  ['two metres of noise', { horizontalSdM: 2, quantumM: 0 }, 6],
  ['four metres of noise', { horizontalSdM: 4, quantumM: 0 }, 12],
  ['steps of a metre', { horizontalSdM: 0, quantumM: 1 }, 5.2],
  ['steps of two and a half metres', { horizontalSdM: 0, quantumM: 2.5 }, 13],
  ['the larger of both', { horizontalSdM: 3, quantumM: 2.5 }, 13],
])('[RE1] with %s it leads further than those may feign', (_, noise, feignedM) => {
  // Three errors of a position, or 5.2 of its rounding.
  const shortS = Math.floor(feignedM / 2) + 1;
  expect(2 * (shortS - 1)).toBeLessThanOrEqual(feignedM);
  expect(kindAfter(shortS, noise)).not.toBe('vacated');
  expect(kindAfter(shortS + 1, noise)).toBe('vacated');
});

describe('[RE1] a roll ends', () => {
  test('[RE1] beside the strip, eight metres from its edge and fifteen from its middle, however flat the way there', () => {
    // A metre aside in eight along is seven degrees.
    const drifts: Leg[] = [[60, 8, 1]];
    expect(endOf(drifts, { widthM: 30 })).toMatchObject({ kind: 'vacated', index: 24 });
    expect(endOf(drifts, { widthM: 8 })).toMatchObject({ kind: 'vacated', index: 16 });
  });

  test('[RE1] by a turn kept for two seconds, not by a swerve', () => {
    const swerve = (seconds: number): Leg[] => [
      [STRAIGHT_S, 8, 0],
      [seconds, 5.5, 5],
      [20, 8, 0],
    ];
    expect(kindOf(swerve(2))).toBe('none');
    expect(kindOf(swerve(3))).toBe('vacated');
  });

  test('[RE1] by turning off also where that is done at a walk', () => {
    expect(
      kindOf([
        [STRAIGHT_S, 8, 0],
        [15, 0, 1.5],
      ]),
    ).toBe('vacated');
  });

  test('[RE1] by a taxi below 10 kt that slows no more, and not where the log ends too early to tell', () => {
    const evenAt = (speedMps: number, seconds = 20): Leg[] => [
      [STRAIGHT_S, 8, 0],
      [seconds, speedMps, 0],
    ];
    expect(kindOf(evenAt(6))).toBe('none');
    expect(kindOf(evenAt(4.8))).toBe('taxi');
    expect(kindOf(evenAt(4.8, 4))).toBe('none');
    const slowing = Array.from({ length: 10 }, (_, k): Leg => [2, 5 - 0.4 * k, 0]);
    expect(kindOf([[STRAIGHT_S, 8, 0], ...slowing])).toBe('none');
    // A creep at less than a metre a second is none: nothing tells it from standing.
    expect(kindOf(evenAt(0.9))).toBe('none');
  });

  test('[RE1] by a turn at walking pace that follows a slow straight, not by a taxi; by turning round too', () => {
    const then = (...legs: Leg[]): string => kindOf([[STRAIGHT_S, 8, 0], ...legs]);
    expect(then([4, 4, 0], [15, 0, 4])).toBe('vacated');
    expect(then([1, 0, 3], [15, -3, 0])).toBe('vacated');
  });

  test('[RE1] in a standstill that the last fix shows, not in one slow fix before a hole', () => {
    const slowing = [8, 6, 4, 2, 0.3].map((mps): Leg => [1, mps, 0]);
    expect(kindOf(slowing)).toBe('stopped');
    // Behind the hole it rolls on.
    const holeAfter = slowing.length - 1;
    expect(endOf([...slowing, [6, 6, 0]], { holeAfter })?.kind).not.toBe('stopped');
  });
});
