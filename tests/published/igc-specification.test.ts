/**
 * Records printed in the FAI Technical Specification for IGC-approved GNSS Flight Recorders,
 * 2nd edition with Amendment 8 (1 February 2023), appendix A.
 */

import { describe, expect, test } from 'vitest';
import { decodeIgc } from '../../src/track/decode-igc.ts';
import { readExtraFields } from '../../src/track/decode-igc-fix.ts';
import { readDate } from '../../src/track/decode-igc-headers.ts';
import { expectNear } from '../expect-near.ts';
import { expectDecoded, seconds, utf8 } from '../track/fixture-file.ts';

describe('IGC specification', () => {
  test('[IGC22] reads the check fix of the example file in A9', () => {
    const text =
      'AXXXABCFLIGHT:1\r\nHFDTEDATE: 16 08 19 02\r\nB1602405407121N00249342WA0028000421\r\n';
    const result = decodeIgc(utf8(text));
    const { track } = expectDecoded(result);
    expect(result.problems).toEqual([]);
    expect(track.length).toBe(1);
    // The text beside it: 16:02:40 UTC, 54 deg 07.121 min N, 002 deg 49.342 min W, 280 m pressure, 421 m GNSS.
    expect(track.timeS[0]).toBe(seconds('2019-08-16T16:02:40Z'));
    expectNear(track.latDeg[0], 54 + 7.121 / 60, 1e-12, 'latitude');
    expectNear(track.lonDeg[0], -(2 + 49.342 / 60), 1e-12, 'longitude');
    expect(track.pressureHeightM[0]).toBe(280);
    expect(track.heightM[0]).toBe(421);
    expect(track.valid[0]).toBe(1);
    expect(track.heightDatum).toBe('ellipsoid');
    expect(track.pressureDatum).toBe('standard');
  });

  test('[IGC23] reads the event and its fix of A4.2', () => {
    const text =
      'AXXXABC\r\nHFDTE160819\r\nI023638FXA3940SIU\r\nE104533PEV\r\nB1045334945333N01132444EA0135701501\r\n';
    const { track, notes } = expectDecoded(decodeIgc(utf8(text)));
    const time = seconds('2019-08-16T10:45:33Z');
    expect(notes).toEqual([{ line: 4, timeS: time, kind: 'PEV', text: '' }]);
    expect(track.timeS[0]).toBe(time);
    expectNear(track.latDeg[0], 49 + 45.333 / 60, 1e-12, 'latitude');
    expectNear(track.lonDeg[0], 11 + 32.444 / 60, 1e-12, 'longitude');
    expect([track.pressureHeightM[0], track.heightM[0]]).toEqual([1357, 1501]);
  });

  test('[IGC24] reads the example I record of A3.3', () => {
    const { fields, faulty } = readExtraFields('I023638FXA3940SIU');
    expect(faulty).toEqual([]);
    expect([...fields]).toEqual([
      ['FXA', { offset: 35, width: 3 }],
      ['SIU', { offset: 38, width: 2 }],
    ]);
  });

  const dates = [
    // The form of 2010, the form since then (A3.2.4), and as the example of A9 prints it.
    'HFDTE160819',
    'HFDTEDATE:160819,02',
    'HFDTEDATE:160819',
    'HFDTEDATE: 16 08 19 02',
    'HFDTE DATE: 16 08 19 02',
  ];
  for (const record of dates) {
    test(`[IGC25] reads the date in ${record}`, () => {
      expectNear(readDate(record) * 86400, seconds('2019-08-16T00:00:00Z'), 0, 'date');
    });
  }

  test('[IGC26] finds no date in a date record without six digits', () => {
    for (const record of ['HFDTE', 'HFDTE16081', 'HFDTEDATE:1608190', 'HFDTE320819']) {
      expect(readDate(record), record).toBeNaN();
    }
  });
});
