/** Which fixes are kept; the tracks are made here, so that every right answer is known. */

import { describe, expect, test } from 'vitest';
import { applyCleaning, CLEANING_REASONS, cleanTrack } from '../../src/track/clean-track.ts';
import type { Track } from '../../src/track/track.ts';
import { expectNear } from '../expect-near.ts';
import { decodedFixture, seconds } from './fixture-file.ts';
import { seeded } from './invented-log.ts';
import type { MadeFix } from './made-track.ts';
import { makeTrack, steady } from './made-track.ts';

/** Places of the fixes left out, with the words for it. */
function leftOut(track: Track): Record<number, string> {
  const found: Record<number, string> = {};
  cleanTrack(track).reason.forEach((code, i) => {
    if (code !== 0) found[i] = CLEANING_REASONS[code];
  });
  return found;
}

function replaced(fixes: readonly MadeFix[], changes: Record<number, Partial<MadeFix>>): MadeFix[] {
  return fixes.map((fix, k) => ({ ...fix, ...changes[k] }));
}

const MINUTE_STEP_DEG = 0.001 / 60;

describe('honest fixes stay', () => {
  test('[CLN1] keeps every fix of landings from gentle to full braking, at 5 Hz to one fix in 5 s, and of the standstill after', () => {
    const chance = seeded(5);
    let judged = 0;
    for (const brakingMps2 of [0.5, 2, 4, 7]) {
      for (const stepS of [0.2, 1, 2, 5]) {
        const stopS = 30 + 28 / brakingMps2;
        const fixes: MadeFix[] = [];
        for (let t = 0; t < stopS + 120; t += stepS) {
          const rolling = Math.min(Math.max(t - 30, 0), 28 / brakingMps2);
          const north = 28 * Math.min(t, 30) + 28 * rolling - (brakingMps2 / 2) * rolling ** 2;
          const noise = t < stopS ? 0.5 * (chance() - 0.5) : 0;
          const height = Math.max(0, 90 - 3 * t);
          fixes.push({ t, north: north + noise, east: noise, height });
        }
        const track = makeTrack(fixes, MINUTE_STEP_DEG);
        const cleaning = cleanTrack(track);
        expect(cleaning.order.length, `braking ${brakingMps2}, step ${stepS}`).toBe(track.length);
        expect(cleaning.heightSpike.includes(1)).toBe(false);
        expect(cleaning.leftOut).toEqual([]);
        judged += track.length;
      }
    }
    expect(judged).toBeGreaterThan(1000);
  });

  test('[CLN2] keeps a stop-and-go and a turn of 3 g at any interval', () => {
    const stopAndGo: MadeFix[] = [];
    for (let t = 0; t <= 60; t++) {
      const [away, back] = [Math.max(0, 20 - t), Math.max(0, t - 40)];
      stopAndGo.push({ t, north: 1.5 * (back ** 2 - away ** 2) });
    }
    expect(leftOut(makeTrack(stopAndGo, MINUTE_STEP_DEG))).toEqual({});
    for (const stepS of [0.2, 1, 2, 4]) {
      // 50 m/s and 30 m/s2 across: radius 83.3 m, 0.6 radians a second.
      const turn = Array.from({ length: 100 }, (_, k) => ({
        t: k * stepS,
        north: 83.3 * Math.sin(0.6 * k * stepS),
        east: 83.3 * Math.cos(0.6 * k * stepS),
      }));
      expect(leftOut(makeTrack(turn)), `step ${stepS}`).toEqual({});
    }
  });

  test('[CLN23] keeps a jink of 2.5 g to one side and back between fixes ten seconds apart', () => {
    // east = 250 m (1 - cos(2 pi t / 20 s)): at most 24.7 m/s2 and 500 m, all of it at one fix.
    const fixes = Array.from({ length: 20 }, (_, k) => ({
      t: 10 * k,
      north: 400 * k,
      east: k === 10 ? 500 : 0,
    }));
    expect(leftOut(makeTrack(fixes))).toEqual({});
  });

  test('[CLN3] keeps a step that stays: nobody can tell which side of it was wrong', () => {
    const fixes = steady(60).map((fix, k) => ({ ...fix, east: k < 30 ? 0 : 120 }));
    expect(leftOut(makeTrack(fixes))).toEqual({});
  });

  test('[CLN4] keeps a track at 280 m/s and one across the 180th meridian', () => {
    expect(leftOut(makeTrack(steady(60, 280)))).toEqual({});
    const track = makeTrack(steady(60));
    track.lonDeg.forEach((_, i) => {
      const lon = 179.99 + i * 0.0005;
      track.lonDeg[i] = lon >= 180 ? lon - 360 : lon;
    });
    expect(leftOut(track)).toEqual({});
  });

  test('[CLN5] leaves the track it is given untouched', () => {
    const track = makeTrack(replaced(steady(60), { 20: { east: 500 }, 30: { height: 900 } }));
    const before = structuredClone(track);
    applyCleaning(track, cleanTrack(track));
    expect(track).toEqual(before);
  });
});

describe('repeats', () => {
  test('[CLN6] drops the copies of a recorder that writes every position twice, whenever they come', () => {
    const chance = seeded(9);
    const fixes: MadeFix[] = [];
    for (let t = 0; t < 120; t++) {
      fixes.push({ t, north: 40 * t, height: 100 });
      fixes.push({ t: t + 0.05 + 0.9 * chance(), north: 40 * t, height: 100 });
    }
    const track = makeTrack(fixes);
    const cleaned = applyCleaning(track, cleanTrack(track));
    // The first copy lacks a position before it that would show it for one.
    expect(cleaned.length).toBe(121);
    for (let i = 3; i < 121; i++) {
      const metres = (cleaned.latDeg[i] - cleaned.latDeg[i - 1]) * 111_195;
      expectNear(metres / (cleaned.timeS[i] - cleaned.timeS[i - 1]), 40, 0.01, 'speed');
    }
  });

  test('[CLN7] drops positions frozen in flight for some seconds, and never those of a parked aeroplane', () => {
    const flight = steady(60).map((fix, k) => (k >= 30 && k < 35 ? { ...fix, north: 1200 } : fix));
    expect(Object.keys(leftOut(makeTrack(flight)))).toEqual(['31', '32', '33', '34']);
    const parked = Array.from({ length: 600 }, (_, t) => ({ t, north: 0, height: 3 }));
    expect(leftOut(makeTrack(parked))).toEqual({});
  });

  test('[CLN24] drops the copies of such a recorder at taxi speed too, and keeps them at a standstill', () => {
    const fixes: MadeFix[] = [];
    // 60 s at 40 m/s, 60 s at 2 m/s, 60 s standing.
    for (let t = 0; t < 180; t++) {
      const north = 40 * Math.min(t, 60) + 2 * Math.min(Math.max(t - 60, 0), 60);
      fixes.push({ t, north }, { t: t + 0.9, north });
    }
    const { order } = cleanTrack(makeTrack(fixes));
    const kept = (from: number, to: number) =>
      order.filter((i) => fixes[i].t >= from && fixes[i].t < to).length;
    expect(kept(62, 118)).toBe(56);
    expect(kept(125, 175)).toBe(100);
  });

  test('[CLN25] keeps twenty minutes parked even where the next fix is miles away', () => {
    const fixes: MadeFix[] = [
      { t: 0, north: 0 },
      { t: 30, north: 300 },
      ...Array.from({ length: 20 }, (_, k) => ({ t: 60 * (k + 1), north: 600 })),
      { t: 1260, north: 9000 },
      { t: 1290, north: 10_000 },
    ];
    expect(leftOut(makeTrack(fixes))).toEqual({});
  });

  /** Touchdown at 28 m/s after 30 s, braking at 2.5 m/s2, 60 s standing; frozen from one time to another. */
  function landingFrozen(fromS: number, toS: number, stepS = 1): MadeFix[] {
    const fixes: MadeFix[] = [];
    let north = 0;
    for (let t = 0; t <= 100; t += stepS) {
      const rolling = Math.min(Math.max(t - 30, 0), 11.2);
      const isFrozen = t > fromS && t <= toS;
      if (!isFrozen) north = 28 * Math.min(t, 30) + 28 * rolling - 1.25 * rolling ** 2;
      fixes.push({ t, north });
    }
    return fixes;
  }

  for (const [fromS, lastsS] of [
    [20, 11],
    [28, 12],
    [30, 12],
    [30, 30],
    [34, 20],
  ]) {
    test(`[CLN26] drops a position frozen for ${lastsS} s from ${fromS} s on, that the aeroplane could neither stop at nor leave so fast`, () => {
      const found = leftOut(makeTrack(landingFrozen(fromS, fromS + lastsS)));
      const frozen = Array.from({ length: lastsS }, (_, k) => String(fromS + 1 + k));
      expect(Object.keys(found)).toEqual(frozen);
      expect(new Set(Object.values(found))).toEqual(new Set([CLEANING_REASONS[7]]));
    });
  }

  test('[CLN27] keeps exact repeats where the aeroplane did stand: after a roll, and where it then leaves by a jump of the receiver', () => {
    expect(leftOut(makeTrack(landingFrozen(101, 101)))).toEqual({});
    for (const stepS of [1, 2, 5]) {
      // A receiver that holds its position below walking pace lets go of it 15 m further on.
      const stand = landingFrozen(101, 101, stepS);
      const { north } = stand[stand.length - 1];
      for (let k = 1; k < 20; k++) {
        stand.push({ t: 100 + k * stepS, north: north + 10 + 5 * k * stepS });
      }
      expect(leftOut(makeTrack(stand)), `step ${stepS}`).toEqual({});
    }
  });

  test('[CLN35] a recorder that calls every fix void keeps its standstills, and loses what froze in motion', () => {
    const allVoid = (fixes: readonly MadeFix[]) =>
      makeTrack(fixes.map((fix) => ({ ...fix, isVoid: true })));
    expect(leftOut(allVoid(landingFrozen(101, 101)))).toEqual({});
    const frozen = leftOut(allVoid(landingFrozen(20, 31)));
    expect(frozen).toEqual(leftOut(makeTrack(landingFrozen(20, 31))));
    expect(Object.keys(frozen)).toHaveLength(11);
  });

  test('[CLN28] keeps a long stand with a spike on either side of it', () => {
    const parked = Array.from({ length: 60 }, (_, t) => ({ t, north: t === 20 ? 400 : 0 }));
    expect(Object.keys(leftOut(makeTrack(parked)))).toEqual(['20']);
    const atTheEnd = Array.from({ length: 60 }, (_, t) => ({ t, north: t === 50 ? 400 : 0 }));
    expect(Object.keys(leftOut(makeTrack(atTheEnd)))).toEqual(['50']);
  });

  test('[CLN32] drops a first position written some seconds early, or again some seconds late, and keeps one stood at', () => {
    const rolling = Array.from({ length: 30 }, (_, k) => ({ t: 10 + k, north: 25 * k }));
    const early = [{ t: 4, north: 0 }, { t: 7, north: 0 }, ...rolling];
    expect(Object.keys(leftOut(makeTrack(early)))).toEqual(['0', '1']);
    // Written again 3 s late: the first goes with the way on.
    const late = [{ t: 6, north: -100 }, { t: 9, north: -100 }, ...rolling];
    expect(Object.keys(leftOut(makeTrack(late)))).toEqual(['1']);
    const stood = [
      { t: 7, north: 0 },
      ...Array.from({ length: 30 }, (_, k) => ({ t: 10 + k, north: 1.25 * k ** 2 })),
    ];
    expect(leftOut(makeTrack(stood))).toEqual({});
  });

  test('[CLN29] drops a position frozen in flight until the log ends', () => {
    const found = leftOut(makeTrack(landingFrozen(25, 100)));
    expect(Object.keys(found)).toHaveLength(75);
    expect(found[25]).toBeUndefined();
  });

  test('[CLN8] drops a fix written twice and, of one time with two positions, the second', () => {
    const fixes = [
      ...steady(10),
      { t: 9, north: 360 },
      { t: 9, north: 365 },
      ...steady(10, 40, 10),
    ];
    expect(leftOut(makeTrack(fixes))).toEqual({
      10: 'fix written twice',
      11: 'same time as another fix, other position',
    });
  });

  test('[CLN9] drops 0 N 0 E and the last position repeated while void, and keeps void fixes that move', async () => {
    const { track } = await decodedFixture('jump-to-zero-zero.igc');
    const cleaning = cleanTrack(track);
    expect([...cleaning.order]).toEqual([0, 3]);
    expect(cleaning.leftOut).toEqual([{ line: 5, count: 2, reason: CLEANING_REASONS[1] }]);
    const changes: Record<number, Partial<MadeFix>> = { 25: { isVoid: true } };
    for (let k = 10; k < 20; k++) changes[k] = { north: 360, isVoid: true };
    const voids = leftOut(makeTrack(replaced(steady(40), changes)));
    expect(Object.keys(voids).map(Number)).toEqual([10, 11, 12, 13, 14, 15, 16, 17, 18, 19]);
    expect(new Set(Object.values(voids))).toEqual(new Set([CLEANING_REASONS[2]]));
  });
});

describe('times', () => {
  test('[CLN10] drops one time far ahead alone, and a step back alone', () => {
    const fixes = replaced(steady(60), { 20: { t: 9000 }, 40: { t: 37.5 } });
    expect(leftOut(makeTrack(fixes))).toEqual({ 20: 'time runs back', 40: 'time runs back' });
  });

  test('[CLN11] puts parts of the file in order of time and says so', async () => {
    const { track } = await decodedFixture('several-days-out-of-order.igc');
    const cleaning = cleanTrack(track);
    const cleaned = applyCleaning(track, cleaning);
    expect([...cleaned.timeS]).toEqual(
      [
        '2026-06-05T15:00:00Z',
        '2026-06-05T15:00:01Z',
        '2026-06-07T10:00:00Z',
        '2026-06-07T10:00:01Z',
        '2026-06-07T12:00:00Z',
      ].map(seconds),
    );
    expect([...cleaned.segment]).toEqual([1, 1, 0, 0, 2]);
    expect([...cleaned.line]).toEqual([7, 8, 3, 4, 11]);
    expect(cleaning.problems.map((p) => p.code)).toContain('parts-out-of-order');
  });

  test('[CLN30] reads a track written newest first, in one segment or in several, and says so', () => {
    const fixes = steady(90).map((fix, k) => ({ ...fix, segment: k < 30 ? 0 : k < 50 ? 1 : 2 }));
    const straight = applyCleaning(makeTrack(fixes), cleanTrack(makeTrack(fixes)));
    const inOne = fixes.map((fix) => ({ ...fix, segment: 0 })).toReversed();
    const perSegment = [0, 1, 2].flatMap((n) => fixes.filter((f) => f.segment === n).toReversed());
    for (const written of [inOne, fixes.toReversed(), perSegment]) {
      const track = makeTrack(written);
      const cleaning = cleanTrack(track);
      const cleaned = applyCleaning(track, cleaning);
      expect(cleaned.timeS).toEqual(straight.timeS);
      expect(cleaned.latDeg).toEqual(straight.latDeg);
      expect(cleaning.leftOut).toEqual([]);
      expect(cleaning.problems.map(({ code }) => code)).toEqual(['newest-first']);
    }
    expect(cleanTrack(makeTrack(fixes)).problems).toEqual([]);
  });

  test('[CLN31] drops a part written twice among parts out of order, and nothing beside it', () => {
    const part = (n: number): MadeFix[] => steady(90).slice(30 * n, 30 * n + 30);
    for (const order of [
      [1, 2, 0, 1],
      [2, 0, 1, 2],
      [1, 0, 1, 2],
    ]) {
      const written = order.flatMap((n, segment) => part(n).map((fix) => ({ ...fix, segment })));
      const track = makeTrack(written);
      const cleaned = applyCleaning(track, cleanTrack(track));
      expect([...cleaned.timeS], order.join()).toEqual([...makeTrack(steady(90)).timeS]);
      expect(new Set(Object.values(leftOut(track)))).toEqual(new Set(['fix written twice']));
    }
  });

  test('[CLN12] puts a whole flight written before an earlier one in order within one segment too', () => {
    const fixes = [...steady(50, 40, 5000), ...steady(30, 40, 0)];
    const track = makeTrack(fixes);
    const { order } = cleanTrack(track);
    expect(order.length).toBe(80);
    expect(order[0]).toBe(50);
  });

  test('[CLN13] keeps one of two tracks over the same time, the fuller one, and joins segments that share a fix', () => {
    const first = steady(100);
    const other = steady(60, 30, 20).map((fix) => ({
      ...fix,
      t: fix.t + 0.5,
      east: 900,
      segment: 1,
    }));
    const kept = cleanTrack(
      makeTrack([
        ...other.map((f) => ({ ...f, segment: 0 })),
        ...first.map((f) => ({ ...f, segment: 1 })),
      ]),
    );
    expect([...kept.order]).toEqual(Array.from({ length: 100 }, (_, k) => k + 60));
    expect(kept.leftOut).toEqual([
      { line: 1, count: 60, reason: 'second track over the same time' },
    ]);
    const joined = [...steady(50), ...steady(50, 40, 49).map((f) => ({ ...f, segment: 1 }))];
    expect(leftOut(makeTrack(joined))).toEqual({ 50: 'fix written twice' });
  });

  test('[CLN14] notes gaps with their ends and fills none', () => {
    const fixes = [...steady(60), ...steady(60, 40, 160)];
    const { gaps, order, problems } = cleanTrack(makeTrack(fixes));
    expect(gaps).toEqual([{ before: 59, after: 60, seconds: 101 }]);
    expect(order.length).toBe(120);
    expect(problems.map((p) => [p.code, p.severity, p.where])).toEqual([['gap', 'note', 'file']]);
  });

  test.each([
    [15 * 86_400, '15 d'],
    [36 * 3600 + 29, '36 h'],
  ])('[CLN40] tells a gap of a day and more with its dates: %i s', (laterS, length) => {
    const later = steady(30).map((fix) => ({ ...fix, t: fix.t + laterS }));
    const { problems } = cleanTrack(makeTrack([...steady(30), ...later]));
    const start = makeTrack(steady(1)).timeS[0];
    const day = (t: number): string =>
      new Date((start + t) * 1000).toISOString().slice(0, 16).replace('T', ' ');
    expect(problems.map(({ message }) => message)).toEqual([
      `no usable fix from ${day(29)} to ${day(laterS)} (${length}), UTC; what happened then is not known`,
    ]);
  });

  test('[CLN40] tells a gap of hours in hours', () => {
    const later = steady(30).map((fix) => ({ ...fix, t: fix.t + 29 + 5.5 * 3600 }));
    const { problems } = cleanTrack(makeTrack([...steady(30), ...later]));
    expect(problems.map(({ message }) => message).join()).toMatch(/ \d\d:\d\d \(5\.5 h\), UTC/);
  });

  test('[CLN40] tells all gaps in one line, by the clock, the longest with their times', () => {
    const flown = (from: number): MadeFix[] => steady(30, 40, from);
    const starts = [0, 45, 200, 240, 280, 330, 1000];
    const { problems } = cleanTrack(makeTrack(starts.flatMap(flown)));
    const start = makeTrack(steady(1)).timeS[0];
    const clock = (t: number, digits: number): string =>
      new Date((start + t) * 1000).toISOString().slice(11, 11 + digits);
    expect(problems.map(({ message }) => message)).toEqual([
      `no usable fix from ${[
        `${clock(29, 8)} to ${clock(45, 8)} (16 s)`,
        `${clock(74, 5)} to ${clock(200, 5)} (2 min)`,
        `${clock(309, 8)} to ${clock(330, 8)} (21 s)`,
        `${clock(359, 5)} to ${clock(1000, 5)} (11 min)`,
      ].join(', ')}, and 2 shorter, UTC; what happened then is not known`,
    ]);
  });

  test('[CLN41] tells no gap of an aeroplane that stood at one place before and after it', () => {
    const standing = (from: number, north: number): MadeFix[] =>
      Array.from({ length: 40 }, (_, k) => ({
        t: from + k,
        north: north + 0.3 * (k % 2),
        east: 0,
      }));
    const told = (fixes: readonly MadeFix[]) => cleanTrack(makeTrack(fixes)).problems;
    expect(told([...standing(0, 0), ...standing(1000, 40)])).toEqual([]);
    // Another place: it was moved, and nobody knows how.
    expect(told([...standing(0, 0), ...standing(1000, 900)])).toHaveLength(1);
    // Over the same place, but flying on one side of the gap.
    const landed = steady(40, 30, 0);
    const last = landed[landed.length - 1];
    expect(told([...landed, ...standing(1000, last.north)])).toHaveLength(1);
  });
});

describe('spikes', () => {
  const spike = CLEANING_REASONS[8];

  // 400 m are too far for a second at any speed; 200 m only for the acceleration.
  for (const [run, metres] of [
    [1, 200],
    [2, 200],
    [5, 200],
    [1, 400],
    [3, 400],
    [5, 400],
  ]) {
    test(`[CLN15] drops ${run} fixes that stand ${metres} m aside and come back, and nothing else`, () => {
      const changes: Record<number, Partial<MadeFix>> = {};
      const expected: Record<number, string> = {};
      for (let k = 30; k < 30 + run; k++) {
        changes[k] = { east: metres };
        expected[k] = spike;
      }
      expect(leftOut(makeTrack(replaced(steady(60), changes)))).toEqual(expected);
    });
  }

  test('[CLN16] drops a place far away at the beginning, at the end, and for twenty seconds between', () => {
    const changes: Record<number, Partial<MadeFix>> = { 0: { north: -90_000 }, 99: { east: 9000 } };
    for (let k = 50; k < 70; k++) changes[k] = { east: 50_000 };
    const found = Object.keys(leftOut(makeTrack(replaced(steady(100), changes)))).map(Number);
    expect(found).toEqual([0, ...Array.from({ length: 20 }, (_, k) => 50 + k), 99]);
  });

  test('[CLN17] keeps the fix of a height spike and drops the height; the other height stays', () => {
    const fixes = steady(60).map((fix) => ({ ...fix, height: 120, pressure: 80 }));
    const track = makeTrack(replaced(fixes, { 20: { height: -181 }, 40: { pressure: 0 } }));
    const cleaning = cleanTrack(track);
    const cleaned = applyCleaning(track, cleaning);
    expect(cleaned.length).toBe(60);
    expect([cleaned.heightM[20], cleaned.pressureHeightM[20]]).toEqual([NaN, 80]);
    expect([cleaned.heightM[40], cleaned.pressureHeightM[40]]).toEqual([120, NaN]);
    expect(cleaned.heightM.filter((h) => Number.isNaN(h))).toHaveLength(1);
    expect(cleaning.leftOut.map((entry) => [entry.line, entry.count])).toEqual([
      [21, 1],
      [41, 1],
    ]);
  });

  test('[CLN17] drops heights that no aeroplane can have, however long they last', () => {
    const fixes = steady(120).map((fix, k) => ({ ...fix, height: k < 30 || k >= 90 ? 120 : -999 }));
    const track = makeTrack(fixes);
    const cleaned = applyCleaning(track, cleanTrack(track));
    expect(cleaned.length).toBe(120);
    expect(cleaned.heightM.filter((h) => Number.isNaN(h))).toHaveLength(60);
    const low = makeTrack(steady(120).map((fix) => ({ ...fix, height: -425 })));
    expect(applyCleaning(low, cleanTrack(low)).heightM.every((h) => h === -425)).toBe(true);
  });

  test('[CLN18] drops heights that jump and creep back over half a minute, and keeps those that do not come back', () => {
    const creeping = (back: number) =>
      makeTrack(
        steady(120).map((fix, k) => ({
          ...fix,
          height: 350 - (k < 60 ? 0 : 240 * Math.exp(-(k - 60) / back)),
        })),
      );
    const spikes = [...cleanTrack(creeping(6)).heightSpike.keys()].filter(
      (i) => cleanTrack(creeping(6)).heightSpike[i] === 1,
    );
    // Back when 20 m and 15 % of the jump are left: 240 exp(-t/6) falls below 56 m after 8.7 s.
    expect(spikes).toEqual([60, 61, 62, 63, 64, 65, 66, 67, 68]);
    expect(cleanTrack(creeping(1e6)).heightSpike.includes(1)).toBe(false);
  });

  test('[CLN19] finds nothing more in a track it has cleaned', () => {
    const chance = seeded(31);
    const changes: Record<number, Partial<MadeFix>> = {};
    for (let k = 7; k < 290; k += 11)
      changes[k] = { east: 3000 * (chance() - 0.5), height: 2000 * chance() };
    const track = makeTrack(replaced(steady(300), changes));
    const cleaned = applyCleaning(track, cleanTrack(track));
    expect(cleaned.length).toBeLessThan(300);
    expect(leftOut(cleaned)).toEqual({});
  });
});

describe('little tracks', () => {
  test('[CLN20] has nothing to say of no fix, one fix and two fixes', () => {
    for (const count of [0, 1, 2]) {
      const track = makeTrack(steady(count));
      const cleaning = cleanTrack(track);
      expect(cleaning.order.length).toBe(count);
      expect(cleaning.leftOut).toEqual([]);
      expect(cleaning.problems).toEqual([]);
      expect(applyCleaning(track, cleaning).length).toBe(count);
    }
  });

  test('[CLN21] refuses to apply the cleaning of a longer track', () => {
    const cleaning = cleanTrack(makeTrack(steady(10)));
    expect(() => applyCleaning(makeTrack(steady(5)), cleaning)).toThrow(RangeError);
  });
});
