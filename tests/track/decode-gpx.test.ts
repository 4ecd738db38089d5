/** What the GPX reader makes of single elements; the files are in data/. */

import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { decodeTrack } from '../../src/track/decode-track.ts';
import { MPS_PER_KNOT } from '../../src/units/convert.ts';
import { expectNear } from '../expect-near.ts';
import {
  decodedFixture,
  decodeFixture,
  expectDecoded,
  fixtureBytes,
  seconds,
  utf8,
} from './fixture-file.ts';

describe('track points', () => {
  test('[GPX1] reads speed and course as GPX 1.0 writes them, minus one as unknown, 360 as 0', async () => {
    const { track } = await decodedFixture('native-speed.gpx');
    expect([...track.groundSpeedMps]).toEqual([25.5, NaN]);
    expect([...track.courseDeg]).toEqual([0, 1.5]);
    expect([...track.heightM]).toEqual([41.5, 42]);
    expect([...track.line]).toEqual([3, 4]);
  });

  test('[GPX2] reads extensions in any namespace, a named unit, and never their time', async () => {
    const { track, headers } = await decodedFixture('extensions-own-namespace.gpx');
    expectNear(track.groundSpeedMps[0], 50 * MPS_PER_KNOT, 1e-12, 'speed');
    expect(track.courseDeg[0]).toBe(90);
    expect(track.accuracyM[0]).toBe(3);
    expect(track.verticalAccuracyM[0]).toBe(5);
    expect(track.timeS[0]).toBe(seconds('2026-06-07T10:00:00Z'));
    expect(headers.get('trk.1.name')).toBe('Evening');
  });

  test('[GPX3] reads extensions whose prefix is not bound, or that have none', async () => {
    const { track } = await decodedFixture('extensions-unbound-prefix.gpx');
    expect(track.groundSpeedMps[0]).toBe(20);
    expect(track.accuracyM[0]).toBe(4);
  });

  test('[GPX4] tells a height of zero from an empty and a missing one', async () => {
    const { track } = await decodedFixture('empty-height.gpx');
    expect([...track.heightM]).toEqual([NaN, 0, NaN]);
  });

  test('[GPX5] takes heights with geoidheight as above the geoid, and fix "none" as void', async () => {
    const { track } = await decodedFixture('geoid-heights.gpx');
    expect([...track.geoidHeightM]).toEqual([41.2, 41.2]);
    expect([...track.heightM]).toEqual([1.5, 0]);
    expect([...track.valid]).toEqual([1, 0]);
  });

  test('[GPX6] reads fractions, zones ahead and behind, and takes a time without zone as UTC', async () => {
    const { track } = await decodedFixture('fractions-and-zones.gpx');
    expect([...track.timeS].map((t) => t - seconds('2026-06-07T10:00:00Z'))).toEqual([
      0.25, 1.5, 2, 3,
    ]);
    expect(track.timeStepS).toBe(0.01);
  });

  test('[GPX7] counts the decimals of the positions', async () => {
    expectNear((await decodedFixture('native-speed.gpx')).track.positionStepM, 0.111195, 1e-9);
  });

  test('[GPX16] takes noughts at the end of every position for padding', async () => {
    const stepOf = async (lats: readonly string[]): Promise<number> => {
      const points = lats.map(
        (lat, k) => `<trkpt lat="${lat}" lon="2.3"><time>2026-06-07T10:00:0${k}Z</time></trkpt>`,
      );
      const text = `<gpx><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
      return expectDecoded(await decodeTrack(utf8(text), 'padded.gpx')).track.positionStepM;
    };
    expectNear(await stepOf(['54.7123000', '54.7130000']), 11.1195, 1e-9);
    expectNear(await stepOf(['54.7123000', '54.7130001']), 0.0111195, 1e-9);
    expectNear(await stepOf(['54.0000000', '55.0000000']), 111_195, 1e-6);
  });

  test('[GPX15] keeps what is missing missing in a track of any length', async () => {
    const points = Array.from(
      { length: 10_000 },
      (_, i) =>
        `<trkpt lat="54.7" lon="2.3"><time>${new Date(i * 1000 + 1.7e12).toISOString()}</time></trkpt>`,
    );
    const text = `<gpx><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
    const { track } = expectDecoded(await decodeTrack(utf8(text), 'long.gpx'));
    expect(track.length).toBe(10_000);
    for (const column of [track.heightM, track.pressureHeightM, track.groundSpeedMps]) {
      expect(column.every((value) => Number.isNaN(value))).toBe(true);
    }
    expect(track.line[9999]).toBe(1);
    expect(track.valid[9999]).toBe(1);
  });

  test('[GPX8] reads speeds that the positions show to be km/h as km/h and warns', async () => {
    const { track } = await decodedFixture('speed-in-kmh.gpx');
    // Made with 20 m between fixes a second apart and 72 in the speed element.
    for (const speed of track.groundSpeedMps) expectNear(speed, 20, 1e-9, 'speed');
  });
});

describe('the file around them', () => {
  test('[GPX9] numbers the segments that hold a fix, keeps names, and lists waypoints and route points', async () => {
    const { track, headers, notes } = await decodedFixture('several-tracks.gpx');
    expect([...track.segment]).toEqual([0, 1, 2]);
    expect(headers.get('trk.1.name')).toBe('First');
    expect(headers.get('trk.2.name')).toBe('Second');
    expect(notes.map((note) => [note.line, note.kind, note.text])).toEqual([
      [3, 'waypoint', 'Mill'],
      [4, 'route-point', 'Start'],
    ]);
  });

  test('[GPX10] explains that without times there is nothing to measure', async () => {
    const result = await decodeFixture('no-times.gpx');
    expect(result.problems[0].message).toContain('Without times there is nothing to measure');
  });

  test('[GPX11] keeps what stands before the end of a cut-off file and names the line', async () => {
    const result = await decodeFixture('cut-off.gpx');
    expect(result.problems.map((p) => [p.code, p.severity, p.where])).toEqual([
      ['xml-not-well-formed', 'warning', 'line 6'],
    ]);
  });

  const names = [
    ['latin1.gpx', 'Sch\u00f6nes Moor'],
    ['utf16-byte-order-mark.gpx', 'Sch\u00f6nes Moor'],
    ['bare-ampersand.gpx', 'Fish & Fen & Moor &nbsp; A'],
    ['entity-bomb.gpx', '&lol3;'],
  ] as const;
  for (const [file, name] of names) {
    test(`[GPX12] reads the name in ${file} in its encoding, entities as written`, async () => {
      expect((await decodedFixture(file)).headers.get('metadata.name')).toBe(name);
    });
  }

  test('[GPX13] says what a file of routes alone holds', async () => {
    const text = '<gpx><rte><rtept lat="54.7" lon="2.3"/><rtept lat="54.8" lon="2.3"/></rte></gpx>';
    const result = await decodeTrack(utf8(text), 'route.gpx');
    expect(expectDecoded(result).track.length).toBe(0);
    expect(result.problems[0].message).toContain('a route of 2 points');
  });
});

describe('dates and packing', () => {
  test('[DEC4] says what the date would be where a week counter rolled over, and changes nothing', async () => {
    const result = await decodeFixture('date-1024-weeks-early.igc');
    const told = result.problems.find((p) => p.code === 'date-1024-weeks');
    // 22 October 2006 + 7,168 days = 7 June 2026.
    expect(told?.message).toContain('2026-06-07');
    expect(told?.severity).toBe('warning');
  });

  test('[DEC5] is sure of it where the name or the metadata of the file carries the right date', async () => {
    const igc = fixtureBytes('date-1024-weeks-early.igc');
    const byName = await decodeTrack(igc, '2026-06-07-XWR-001-01.igc');
    expect(byName.problems.map((p) => p.message).join()).toContain('probably 2026-06-07');
    const point = '<trkpt lat="54.7" lon="2.3"><time>2010-01-01T10:00:00Z</time></trkpt>';
    const gpx = `<gpx><metadata><time>2029-08-17T10:00:00Z</time></metadata><trk><trkseg>${point}</trkseg></trk></gpx>`;
    const byMetadata = await decodeTrack(utf8(gpx), 'x.gpx');
    expect(byMetadata.problems.map((p) => p.message).join()).toContain('probably 2029-08-17');
    const honest = await decodeTrack(utf8(gpx.replace('2029-08-17', '2010-01-02')), 'x.gpx');
    expect(honest.problems).toEqual([]);
  });

  test('[DEC6] keeps what can be unpacked of a cut-off gzip file', async () => {
    const points = Array.from({ length: 20_000 }, (_, i) => {
      const time = new Date(Date.UTC(2026, 5, 7, 10) + i * 1000).toISOString();
      return `<trkpt lat="54.${String(700_000 + ((i * 7919) % 99_991))}" lon="2.3"><time>${time}</time></trkpt>`;
    });
    const packed = gzipSync(utf8(`<gpx><trk><trkseg>${points.join('\n')}</trkseg></trk></gpx>`));
    const result = await decodeTrack(new Uint8Array(packed.subarray(0, packed.length / 2)), 'a');
    expect(result.problems.map((p) => p.code)).toContain('gzip-damaged');
    expect(expectDecoded(result).track.length).toBeGreaterThan(5000);
  });

  test('[DEC7] refuses a gzip bomb long before it has unpacked', async () => {
    const bomb = new Uint8Array(gzipSync(new Uint8Array(100_000_000)));
    const result = await decodeTrack(bomb, 'bomb.gz');
    expect(result.ok).toBe(false);
    expect(result.problems.map((p) => p.code)).toEqual(['gzip-too-large']);
  });

  test('[DEC8] refuses gzip in gzip, and gzip that holds nothing', async () => {
    const twice = gzipSync(gzipSync(utf8('<gpx/>')));
    expect((await decodeTrack(new Uint8Array(twice), 'a')).problems[0].message).toContain('twice');
    const broken = await decodeTrack(new Uint8Array([0x1f, 0x8b, 8, 0, 1, 2]), 'a');
    expect(broken.problems.map((p) => p.code)).toEqual(['gzip-damaged']);
    expect(broken.ok).toBe(false);
  });
});
