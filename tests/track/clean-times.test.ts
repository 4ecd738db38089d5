/** The order of fixes in time, at the limits of what is read backwards, kept and left out; worked by hand. */
import { describe, expect, test } from 'vitest';
import { orderByTime } from '../../src/track/clean-times.ts';
import { makeTrack, type MadeFix } from './made-track.ts';

/** One fix a second from a time on, in one segment, at a place of its own for each second. */
function part(segment: number, fromS: number, count: number, east = 0): MadeFix[] {
  return Array.from({ length: count }, (_, k) => ({
    ...{ t: fromS + k, north: 30 * (fromS + k), east, segment },
  }));
}

/** What is kept, as the seconds that were made, and how many fixes are of rejected segments. */
function ordered(fixes: readonly MadeFix[]): { keptS: number[]; overlapping: number } {
  const all = Int32Array.from(fixes, (_, i) => i);
  const { order, overlapping } = orderByTime(makeTrack(fixes), all);
  return { keptS: Array.from(order, (i) => fixes[i].t), overlapping: overlapping.length };
}

/** Times that take these steps over and over. */
function stepping(steps: readonly number[], times: number): MadeFix[] {
  const fixes: MadeFix[] = [{ t: 100, north: 3000 }];
  for (let k = 0; k < steps.length * times; k++) {
    const t = fixes[k].t + steps[k % steps.length];
    fixes.push({ t, north: 30 * t });
  }
  return fixes;
}

describe('[CLN33] a segment written newest first', () => {
  test('[CLN33] is one where four steps in five run back; a jumble is none', () => {
    expect(ordered(stepping([-2, -2, -2, -2, 1], 4)).keptS.length).toBeGreaterThanOrEqual(16);
    expect(ordered(stepping([-2, -2, -2, 1], 5)).keptS).toHaveLength(2);
  });

  test('[CLN33] has ten steps back at least: fewer are a fault', () => {
    expect(ordered(stepping([-1], 10)).keptS).toHaveLength(11);
    expect(ordered(stepping([-1], 9)).keptS).toHaveLength(1);
  });
});

describe('[CLN34] a segment over the end of the fuller one', () => {
  const full = part(0, 0, 100);
  const kept = (fromS: number, count: number) => {
    const { keptS, overlapping } = ordered([...full, ...part(1, fromS, count)]);
    return { more: keptS.length - 100, overlapping };
  };

  test('[CLN34] may lose three fixes, as of a recorder that begins with the last ones', () => {
    expect(kept(96.5, 7)).toEqual({ more: 4, overlapping: 0 });
    expect(kept(95.5, 9)).toEqual({ more: 0, overlapping: 9 });
  });

  test('[CLN34] or a fifth of its own', () => {
    expect(kept(91.5, 40)).toEqual({ more: 32, overlapping: 0 });
    expect(kept(90.5, 40)).toEqual({ more: 0, overlapping: 40 });
  });

  test('[CLN34] at other places in the same seconds it is another track, no repeat', () => {
    const beside = ordered([...full, ...part(1, 90, 20, 5000)]);
    expect(beside).toEqual({ keptS: full.map(({ t }) => t), overlapping: 20 });
    const repeated = ordered([...full, ...part(1, 90, 20)]);
    expect(repeated.keptS).toHaveLength(110);
    expect(repeated.overlapping).toBe(0);
  });

  test('[CLN34] keeps the first of two fixes with one time', () => {
    const { keptS } = ordered([...full, ...part(1, 98, 12, 5000)]);
    expect(keptS).toEqual(Array.from({ length: 110 }, (_, k) => k));
  });

  test('[CLN34] a stretch of the segment itself that fits nowhere is no segment left out', () => {
    const { keptS, overlapping } = ordered([...full, ...part(0, 50.5, 15)]);
    expect(keptS).toHaveLength(100);
    expect(overlapping).toBe(0);
  });

  test('[CLN34] five segments written last first are all kept', () => {
    const parts = [400, 300, 200, 100, 0].flatMap((fromS, k) => part(k, fromS, 12));
    const { keptS } = ordered(parts);
    expect(keptS).toEqual(parts.map(({ t }) => t).sort((a, b) => a - b));
  });
});
