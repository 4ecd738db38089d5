/** What the IGC reader makes of single records; the files are in data/. */

import { describe, expect, test } from 'vitest';
import { decodeIgc } from '../../src/track/decode-igc.ts';
import { expectNear } from '../expect-near.ts';
import { decodedFixture, expectDecoded, seconds, utf8 } from './fixture-file.ts';

const HEAD = 'AXWR001\r\nHFDTEDATE:070626,01\r\n';
const PLACE = '5442000N00218000E';

function decode(text: string) {
  return expectDecoded(decodeIgc(utf8(text)));
}

describe('times', () => {
  test('[IGC1] adds a day when the time of day falls at midnight UTC, and not at a corrected second', async () => {
    const { track, notes } = await decodedFixture('midnight-utc.igc');
    const expected = [
      '2026-06-07T23:59:58Z',
      '2026-06-07T23:59:59Z',
      '2026-06-08T00:00:00Z',
      '2026-06-07T23:59:59Z',
      '2026-06-08T00:00:01Z',
      '2026-06-08T00:00:02Z',
    ];
    expect([...track.timeS]).toEqual(expected.map(seconds));
    expect(notes).toEqual([
      { line: 9, timeS: seconds('2026-06-08T00:00:01Z'), kind: 'PEV', text: 'late landing' },
    ]);
  });

  test('[IGC2] keeps a step back of eleven hours on its day', () => {
    const { track } = decode(`${HEAD}B120000${PLACE}A0010000145\r\nB010000${PLACE}A0010000145\r\n`);
    expect(track.timeS[1]).toBe(seconds('2026-06-07T01:00:00Z'));
  });

  test('[IGC3] takes the stated date for the first valid fix, so void fixes before midnight are on the day before', async () => {
    const { track } = await decodedFixture('void-before-midnight.igc');
    expect([...track.timeS]).toEqual(
      [
        '2026-06-06T23:59:58Z',
        '2026-06-06T23:59:59Z',
        '2026-06-07T00:00:00Z',
        '2026-06-07T00:00:01Z',
      ].map(seconds),
    );
  });

  test('[IGC28] dates void fixes by the first valid one, however long after midnight it comes', () => {
    const fix = (time: string, validity: 'A' | 'V') => `B${time}${PLACE}${validity}0010000145\r\n`;
    const { track, notes } = decode(
      `${HEAD}${fix('235958', 'V')}E235958PEV\r\n${fix('000001', 'V')}${fix('000002', 'V')}` +
        `HFDTEDATE:070626,01\r\n${fix('000003', 'A')}${fix('120000', 'A')}${fix('235959', 'A')}${fix('000000', 'A')}`,
    );
    const expected = [
      '2026-06-06T23:59:58Z',
      '2026-06-07T00:00:01Z',
      '2026-06-07T00:00:02Z',
      '2026-06-07T00:00:03Z',
      '2026-06-07T12:00:00Z',
      '2026-06-07T23:59:59Z',
      // A midnight among valid fixes is the end of the stated day.
      '2026-06-08T00:00:00Z',
    ];
    expect([...track.timeS]).toEqual(expected.map(seconds));
    expect(notes[0].timeS).toBe(seconds('2026-06-06T23:59:58Z'));
  });

  test('[IGC29] takes the date for the first fix where none is valid', () => {
    const fix = (time: string) => `B${time}${PLACE}V0010000145\r\n`;
    const { track } = decode(`${HEAD}${fix('235958')}${fix('000001')}`);
    expect([...track.timeS]).toEqual(['2026-06-07T23:59:58Z', '2026-06-08T00:00:01Z'].map(seconds));
  });

  test('[IGC30] has a date of its own under every date record', () => {
    const fix = (time: string, validity: 'A' | 'V') => `B${time}${PLACE}${validity}0010000145\r\n`;
    const { track } = decode(
      `${HEAD}${fix('120000', 'A')}HFDTEDATE:090626,02\r\n${fix('235959', 'V')}${fix('000000', 'A')}`,
    );
    expect([...track.timeS]).toEqual(
      ['2026-06-07T12:00:00Z', '2026-06-08T23:59:59Z', '2026-06-09T00:00:00Z'].map(seconds),
    );
  });

  test('[IGC4] starts a segment with the right day at every date record, in file order', async () => {
    const { track } = await decodedFixture('several-days-out-of-order.igc');
    expect([...track.segment]).toEqual([0, 0, 1, 1, 2]);
    expect(track.timeS[2]).toBe(seconds('2026-06-05T15:00:00Z'));
    expect(track.timeS[4]).toBe(seconds('2026-06-07T12:00:00Z'));
  });

  test('[IGC5] does not turn the calendar back when the old date is written again after midnight', () => {
    const fix = (time: string) => `B${time}${PLACE}A0010000145\r\n`;
    const { track } = decode(
      `${HEAD}${fix('235958')}${fix('000001')}HFDTEDATE:070626,01\r\n${fix('000002')}`,
    );
    expect(track.timeS[2]).toBe(seconds('2026-06-08T00:00:02Z'));
  });

  test('[IGC27] crosses midnight where the old date is written again just then, but not hours apart', () => {
    const fix = (time: string) => `B${time}${PLACE}A0010000145\r\n`;
    const again = (first: string, second: string) =>
      decode(`${HEAD}${fix(first)}HFDTEDATE:070626,02\r\n${fix(second)}`).track.timeS[1];
    expect(again('235958', '000001')).toBe(seconds('2026-06-08T00:00:01Z'));
    // A later flight written before an earlier one of the same day.
    expect(again('200000', '060000')).toBe(seconds('2026-06-07T06:00:00Z'));
  });

  test('[IGC6] uses a date record that comes after the first fixes for these too', () => {
    const { track } = decode(`AXWR001\r\nB100000${PLACE}A0010000145\r\nHFDTE070626\r\n`);
    expect(track.timeS[0]).toBe(seconds('2026-06-07T10:00:00Z'));
  });

  test('[IGC7] reads years from 80 on as 19xx and refuses a day that does not exist', () => {
    expect(decode(`HFDTE310795\r\nB100000${PLACE}A0010000145\r\n`).track.timeS[0]).toBe(
      seconds('1995-07-31T10:00:00Z'),
    );
    const bad = decodeIgc(utf8(`HFDTE310626\r\nB100000${PLACE}A0010000145\r\n`));
    expect(bad.problems.map((p) => [p.code, p.where])).toEqual([
      ['igc-bad-date', 'line 1'],
      ['igc-no-date', 'file'],
    ]);
  });

  test('[IGC8] reports the steps in which times and positions are written', async () => {
    const plain = (await decodedFixture('cr-cr-lf-and-end-mark.igc')).track;
    expect(plain.timeStepS).toBe(1);
    expectNear(plain.positionStepM, 1.852, 1e-9);
    const fine = (await decodedFixture('extra-digits.igc')).track;
    expect(fine.timeStepS).toBe(0.001);
    expectNear(fine.positionStepM, 0.01852, 1e-9);
  });
});

describe('heights', () => {
  test('[IGC9] reads a minus in place of the leading zero, and keeps a true height of zero', async () => {
    const { track } = await decodedFixture('heights-above-geoid.igc');
    expect([...track.pressureHeightM]).toEqual([-120, -121]);
    expect([...track.heightM]).toEqual([10, 0]);
    expect(track.pressureDatum).toBe('unstated');
  });

  test('[IGC10] takes a column of zeros for a missing sensor, not for sea level', async () => {
    const { track } = await decodedFixture('no-pressure-sensor.igc');
    expect([...track.pressureHeightM]).toEqual([NaN, NaN]);
    expect([...track.heightM]).toEqual([145, 146]);
  });

  test('[IGC11] has no satellite height where a void fix writes 00000', async () => {
    const { track } = await decodedFixture('jump-to-zero-zero.igc');
    expect([...track.heightM]).toEqual([145, NaN, NaN, 145]);
    expect([...track.valid]).toEqual([1, 0, 0, 1]);
    expect([...track.latDeg.subarray(1, 3)]).toEqual([0, 0]);
  });

  const datums = [
    ['HFALGALTGPS:WGS84 ELLIPSOID', 'ellipsoid'],
    ['HFALG:GEO', 'geoid'],
    ['HFALGALTGPS:NKN', 'unstated'],
    ['HFPLTPILOT:GEO', 'ellipsoid'],
  ] as const;
  for (const [record, datum] of datums) {
    test(`[IGC12] takes satellite heights as ${datum} after ${record}`, () => {
      const { track } = decode(`${HEAD}${record}\r\nB100000${PLACE}A0010000145\r\n`);
      expect(track.heightDatum).toBe(datum);
    });
  }
});

describe('extra fields and other records', () => {
  test('[IGC13] reads speeds with decimals by field width, course, noise and accuracies; blanks are missing', async () => {
    const { track } = await decodedFixture('speed-extensions.igc');
    // FXA 005, VXA 009, ENL 123, GSP 07200 = 72.00 km/h, TAS 10800 = 108.00, IAS 100, TRT 270.
    expect([...track.accuracyM]).toEqual([5, NaN, 5]);
    expect([...track.verticalAccuracyM]).toEqual([9, NaN, NaN]);
    expect([...track.engineNoise]).toEqual([123, 999, NaN]);
    expectNear(track.groundSpeedMps[0], 20, 1e-12, 'ground speed');
    expectNear(track.trueAirspeedMps[0], 30, 1e-12, 'true airspeed');
    expectNear(track.indicatedAirspeedMps[0], 100 / 3.6, 1e-12, 'indicated airspeed');
    expect([...track.courseDeg]).toEqual([270, 0, NaN]);
    expect(track.groundSpeedMps[2]).toBeNaN();
  });

  test('[IGC14] reads GSP, TAS, IAS of three bytes as whole km/h and TRT as degrees true', () => {
    const { track } = decode(
      `${HEAD}I043638GSP3941TAS4244IAS4547TRT\r\nB100000${PLACE}A0010000145090108072360\r\n`,
    );
    expectNear(track.groundSpeedMps[0], 25, 1e-12, 'ground speed');
    expectNear(track.trueAirspeedMps[0], 30, 1e-12, 'true airspeed');
    expectNear(track.indicatedAirspeedMps[0], 20, 1e-12, 'indicated airspeed');
    expect(track.courseDeg[0]).toBe(0);
  });

  test('[IGC15] reports an I record that cannot be, and reads the fixes without it', () => {
    const result = decodeIgc(utf8(`${HEAD}I023638FXA3025GSP\r\nB100000${PLACE}A0010000145005\r\n`));
    expect(result.problems.map((p) => [p.code, p.where])).toEqual([
      ['igc-bad-extension', 'line 3'],
    ]);
    expect(expectDecoded(result).track.accuracyM[0]).toBe(5);
  });

  test('[IGC16] keeps headers, declared points and events, and passes over the other records', async () => {
    const { headers, notes, leftOut } = await decodedFixture('every-record.igc');
    expect([...headers]).toEqual([
      ['A', 'XWR001extra'],
      ['HFDTE', '070626,01'],
      ['HFPLT', 'nobody'],
    ]);
    expect(notes.map((note) => [note.line, note.kind, note.text])).toEqual([
      [6, 'declared-point', '060626203000070626000101Round the marsh'],
      [7, 'declared-point', '5442000N00218000EFen strip'],
      [11, 'PEV', ''],
    ]);
    expect(leftOut).toEqual([]);
  });

  test('[IGC17] reads header texts in Latin-1 and in UTF-8', async () => {
    const { headers } = await decodedFixture('latin1-header.igc');
    expect(headers.get('HFSIT')).toBe('Sch\u00f6nes Moor');
    const modern = decode(`${HEAD}HFSITSITE:Sch\u00f6nes Moor\r\nB100000${PLACE}A0010000145\r\n`);
    expect(modern.headers.get('HFSIT')).toBe('Sch\u00f6nes Moor');
  });

  test('[IGC18] reads 60.000 minutes, which some recorders round up to, as the next degree', () => {
    const { track } = decode(`${HEAD}B1000005442000N00260000EA0010000145\r\n`);
    expectNear(track.lonDeg[0], 3, 1e-12);
  });

  test('[IGC19] says so where there is a date but no fix', () => {
    const result = decodeIgc(utf8(HEAD));
    expect(expectDecoded(result).track.length).toBe(0);
    expect(result.problems.map((p) => p.code)).toEqual(['no-fixes']);
  });
});
