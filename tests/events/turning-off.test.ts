/** How far a turning off must lead before it ends a roll; rule RE1 in docs/spec/measuring.md. Positions made by hand. */
import { expect, test } from 'vitest';
import { findRollEnd } from '../../src/events/roll-end.ts';
import type { StripView } from '../../src/events/strip-view.ts';
import type { Motion } from '../../src/track/motion.ts';

const STRAIGHT_S = 10;

/** Rolls on at 8 m/s, goes square to the side at 2 m/s for some seconds, and on along the strip. */
function kindAfter(sideS: number, noise: { horizontalSdM: number; quantumM: number }): string {
  const length = 40;
  const isSide = (i: number): boolean => i >= STRAIGHT_S && i < STRAIGHT_S + sideS;
  const alongM = new Float64Array(length);
  const crossM = new Float64Array(length);
  for (let i = 1; i < length; i++) {
    alongM[i] = alongM[i - 1] + (isSide(i - 1) ? 0 : 8);
    crossM[i] = crossM[i - 1] + (isSide(i - 1) ? 2 : 0);
  }
  const each = (value: (i: number) => number): Float64Array =>
    Float64Array.from({ length }, (_, i) => value(i));
  const motion = {
    ...{ length, noise, medianIntervalS: 1, timeS: each((i) => i) },
    speedMps: each((i) => (isSide(i) ? 2 : 8)),
  } as unknown as Motion;
  const view = {
    ...{ alongM, crossM, smoothAlongM: alongM, smoothCrossM: crossM },
    forwardMps: each((i) => (isSide(i) ? 0 : 8)),
    rightMps: each((i) => (isSide(i) ? 2 : 0)),
    strip: { widthM: 60 },
  } as unknown as StripView;
  const end = findRollEnd(motion, view, 1, length);
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
