/**
 * Bytes nobody meant as a log, and logs with damage at any place. Nothing may throw or hang, every
 * column keeps its slot, and the answer is quick.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { decodeTrack, decodeUnpacked } from '../../src/track/decode-track.ts';
import type { Track } from '../../src/track/track.ts';
import { fixtureBytes, fixtureNames, utf8 } from './fixture-file.ts';
import type { MadeFix } from './made-track.ts';
import { makeTrack } from './made-track.ts';
import { inventFixes, writeInventedGpx, writeInventedIgc } from './invented-log.ts';

const FIXES = inventFixes(60, 3, Date.UTC(2026, 5, 7, 10) / 1000);
const LOGS = [
  utf8(writeInventedIgc(FIXES)),
  utf8(writeInventedGpx(FIXES)),
  ...fixtureNames().map((name) => fixtureBytes(name)),
];

function expectSound(track: Track): void {
  const columns = Object.values(track).filter(
    (value): value is Float64Array | Int32Array | Uint8Array => ArrayBuffer.isView(value),
  );
  expect(columns).toHaveLength(16);
  for (const column of columns) expect(column.length).toBe(track.length);
  for (let i = 0; i < track.length; i++) {
    expect(Number.isFinite(track.timeS[i])).toBe(true);
    expect(Math.abs(track.latDeg[i])).toBeLessThanOrEqual(90);
    expect(track.lonDeg[i]).toBeGreaterThanOrEqual(-180);
    expect(track.lonDeg[i]).toBeLessThan(180);
  }
}

function expectHandled(bytes: Uint8Array): void {
  const result = decodeUnpacked(bytes, 'damaged');
  if (!result.ok) {
    expect(result.problems.length).toBeGreaterThan(0);
    return;
  }
  const { track } = result.value;
  expectSound(track);
  const cleaning = cleanTrack(track);
  const cleaned = applyCleaning(track, cleaning);
  expectSound(cleaned);
  const unused = cleaning.reason.filter((code) => code !== 0).length;
  expect(cleaned.length + unused).toBe(track.length);
  for (let i = 1; i < cleaned.length; i++) {
    expect(cleaned.timeS[i]).toBeGreaterThan(cleaned.timeS[i - 1]);
  }
}

describe('damaged logs', () => {
  test('[DEC10] survives a cut at any place', () => {
    fc.assert(
      fc.property(
        fc.nat(LOGS.length - 1),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (k, share) => {
          expectHandled(LOGS[k].subarray(0, Math.floor(share * LOGS[k].length)));
        },
      ),
      { seed: 21, numRuns: 300 },
    );
  });

  test('[DEC11] survives bytes overwritten anywhere', () => {
    const damage = fc.array(
      fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 0, max: 255 })),
      { minLength: 1, maxLength: 30 },
    );
    fc.assert(
      fc.property(fc.nat(LOGS.length - 1), damage, (k, flips) => {
        const bytes = LOGS[k].slice();
        if (bytes.length === 0) return;
        for (const [share, byte] of flips) {
          bytes[Math.min(Math.floor(share * bytes.length), bytes.length - 1)] = byte;
        }
        expectHandled(bytes);
      }),
      { seed: 22, numRuns: 500 },
    );
  });

  test('[DEC12] survives any bytes at all, also behind a beginning that promises a log', async () => {
    const beginnings = [
      '',
      'HFDTE070626\n',
      '<gpx>',
      '\u001f\u008b',
      '<gpx><trk><trkseg><trkpt lat="',
    ];
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...beginnings),
        fc.uint8Array({ maxLength: 300 }),
        async (beginning, rest) => {
          const head = Uint8Array.from(beginning, (c) => c.charCodeAt(0));
          const bytes = new Uint8Array(head.length + rest.length);
          bytes.set(head);
          bytes.set(rest, head.length);
          const result = await decodeTrack(bytes, 'any');
          if (result.ok) expectSound(result.value.track);
          else expect(result.problems.length).toBeGreaterThan(0);
        },
      ),
      { seed: 23, numRuns: 500 },
    );
  });
});

describe('hostile logs', () => {
  const point = '<trkpt lat="54.7" lon="2.3"><time>2026-06-07T10:00:00Z</time></trkpt>';
  const start = `<gpx><trk><trkseg>${point}`;
  const hostile: readonly (readonly [string, () => string, string])[] = [
    [
      'an attribute of 50 million characters',
      () => `${start}<trkpt lat="${'5'.repeat(50e6)}"/>`,
      'xml-piece-too-long',
    ],
    [
      'a text of 50 million characters',
      () => `${start}<x>${'5'.repeat(50e6)}</x>`,
      'xml-piece-too-long',
    ],
    [
      'a comment of 50 million characters',
      () => `${start}<!--${'5'.repeat(50e6)}-->`,
      'xml-piece-too-long',
    ],
    ['a million nested elements', () => start + '<x>'.repeat(1e6), 'xml-too-deep'],
    [
      'a million attributes',
      () => `${start}<x ${Array.from({ length: 1e6 }, (_, i) => `a${i}="1"`).join(' ')}/>`,
      'xml-piece-too-long',
    ],
  ];
  for (const [name, make, code] of hostile) {
    test(`[DEC13] stops within two seconds at ${name}, and keeps the fix before it`, () => {
      const bytes = utf8(make());
      const began = performance.now();
      const result = decodeUnpacked(bytes, 'hostile.gpx');
      // Decoding takes some 20 ms; two seconds allow for a busy machine and still catch any growth.
      expect(performance.now() - began).toBeLessThan(2000);
      if (!result.ok) throw new Error(result.problems[0].message);
      expect(result.value.track.length).toBe(1);
      expect(result.problems.map((p) => p.code)).toEqual([code]);
    });
  }

  test('[DEC14] keeps the list of left-out lines short whatever the file', () => {
    const lines = Array.from({ length: 50_000 }, (_, i) => (i % 2 === 0 ? 'B1' : 'Zq\nB100000'));
    const result = decodeUnpacked(utf8(`HFDTE070626\n${lines.join('\n')}`), 'a.igc');
    if (!result.ok) throw new Error(result.problems[0].message);
    const { leftOut } = result.value;
    expect(leftOut.length).toBeLessThan(100);
    expect(leftOut.reduce((sum, entry) => sum + entry.count, 0)).toBe(75_000);
  });
});

describe('hostile tracks', () => {
  const count = 150_000;
  const cases: readonly (readonly [string, (k: number) => MadeFix])[] = [
    ['every fix a segment, times falling', (k) => ({ t: -k, north: 0, segment: k })],
    ['every fix a segment, times rising', (k) => ({ t: k, north: 20 * k, segment: k })],
    ['one segment, times falling', (k) => ({ t: -k, north: 0 })],
    ['two interleaved clocks', (k) => ({ t: k % 2 === 0 ? k : 1e6 - k, north: k })],
    ['all fixes within a tenth of a second', (k) => ({ t: k * 6e-7, north: (k % 2) * 500 })],
    [
      'one position for ten seconds',
      (k) => ({ t: k * 6e-5, north: Math.abs(k - 100) < 50 ? k : 0 }),
    ],
    ['heights that jump at every fix', (k) => ({ t: k * 4e-4, north: k, height: (k % 3) * 1e5 })],
    [
      'two whole tracks over the same time',
      (k) => ({ t: k % (count / 2), north: k, segment: k < count / 2 ? 0 : 1 }),
    ],
  ];
  for (const [name, fix] of cases) {
    test(`[CLN22] cleans ${count} fixes within three seconds: ${name}`, () => {
      const track = makeTrack(Array.from({ length: count }, (_, k) => fix(k)));
      const began = performance.now();
      const cleaning = cleanTrack(track);
      // Takes well under a second here; quadratic work would take minutes.
      expect(performance.now() - began).toBeLessThan(3000);
      const left = cleaning.reason.filter((code) => code !== 0).length;
      expect(cleaning.order.length + left).toBe(count);
      const { timeS } = applyCleaning(track, cleaning);
      expect(timeS.length).toBeGreaterThan(0);
      expect(timeS.every((t, i) => i === 0 || t > timeS[i - 1])).toBe(true);
    });
  }
});
