/**
 * Our readers against independent ones on the same files: igc-parser 2.0.0 for IGC, and
 * @tmcw/togeojson 7.1.3 over @xmldom/xmldom 0.9.12 for GPX. Positions, times and heights of every
 * fix are compared one by one.
 */

import { gpx } from '@tmcw/togeojson';
import { DOMParser } from '@xmldom/xmldom';
import type { LineString, MultiLineString } from 'geojson';
import IGCParser from 'igc-parser';
import { describe, expect, test } from 'vitest';
import { decodeGpx } from '../../src/track/decode-gpx.ts';
import { decodeIgc } from '../../src/track/decode-igc.ts';
import { expectNear } from '../expect-near.ts';
import { expectDecoded, fixtureBytes, seconds, utf8 } from './fixture-file.ts';
import { inventFixes, writeInventedGpx, writeInventedIgc } from './invented-log.ts';

/** Both do the same arithmetic in another order. */
const DEGREE_TOLERANCE = 1e-12;

const FLIGHT = inventFixes(600, 7, seconds('2026-06-07T23:55:00Z'));

function text(name: string): string {
  return new TextDecoder('latin1').decode(fixtureBytes(name));
}

describe('IGC against igc-parser', () => {
  const files: Readonly<Record<string, string>> = {
    'an invented flight over midnight': writeInventedIgc(FLIGHT),
    'cr-cr-lf-and-end-mark.igc': text('cr-cr-lf-and-end-mark.igc').replaceAll('\r\r\n', '\r\n'),
    'every-record.igc': text('every-record.igc').replace(/^[MN]\r\n/gm, ''),
    'heights-above-geoid.igc': text('heights-above-geoid.igc'),
    'latin1-header.igc': text('latin1-header.igc'),
    'no-pressure-sensor.igc': text('no-pressure-sensor.igc'),
  };
  for (const [name, igc] of Object.entries(files)) {
    test(`[IGC20] reads ${name} as the other reader does`, () => {
      const other = IGCParser.parse(igc, { lenient: true });
      const { track } = expectDecoded(decodeIgc(new TextEncoder().encode(igc)));
      expect(other.fixes.length).toBeGreaterThan(0);
      expect(track.length).toBe(other.fixes.length);
      other.fixes.forEach((fix, i) => {
        expectNear(track.timeS[i], fix.timestamp / 1000, 0, `time ${i}`);
        expectNear(track.latDeg[i], fix.latitude, DEGREE_TOLERANCE, `latitude ${i}`);
        expectNear(track.lonDeg[i], fix.longitude, DEGREE_TOLERANCE, `longitude ${i}`);
        expect(track.valid[i] === 1).toBe(fix.valid);
        // The other reader calls every height of zero missing; we only a column of them.
        if (fix.gpsAltitude !== null) expectNear(track.heightM[i], fix.gpsAltitude, 0, 'height');
        if (fix.pressureAltitude !== null) {
          expectNear(track.pressureHeightM[i], fix.pressureAltitude, 0, 'pressure height');
        }
        if (fix.fixAccuracy !== null) expectNear(track.accuracyM[i], fix.fixAccuracy, 0, 'FXA');
        if (fix.enl !== null) expectNear(track.engineNoise[i], fix.enl * 1000, 1e-9, 'ENL');
      });
    });
  }

  test('[IGC21] reads further decimals of minutes as the other reader does', () => {
    const igc = text('extra-digits.igc');
    const other = IGCParser.parse(igc, { lenient: true });
    const { track } = expectDecoded(decodeIgc(fixtureBytes('extra-digits.igc')));
    expect(other.fixes).toHaveLength(2);
    other.fixes.forEach((fix, i) => {
      expectNear(track.latDeg[i], fix.latitude, DEGREE_TOLERANCE, 'latitude');
      expectNear(track.lonDeg[i], fix.longitude, DEGREE_TOLERANCE, 'longitude');
    });
  });
});

interface OtherPoint {
  readonly position: readonly number[];
  readonly time: string;
}

/** Points of all tracks in file order, as the other reader sees them. */
function pointsOfOther(xml: string): OtherPoint[] {
  const features = gpx(new DOMParser().parseFromString(xml, 'text/xml')).features;
  return features.flatMap((feature) => {
    const properties = feature.properties as { coordinateProperties?: { times?: unknown } };
    const geometry = feature.geometry as LineString | MultiLineString;
    const times = properties.coordinateProperties?.times as string[] | string[][];
    const positions = geometry.coordinates;
    const flatTimes = times.flat();
    const flat =
      geometry.type === 'LineString'
        ? (positions as number[][])
        : (positions as number[][][]).flat();
    return flat.map((position, i) => ({ position, time: flatTimes[i] }));
  });
}

describe('GPX against togeojson', () => {
  const files: Readonly<Record<string, string>> = {
    'an invented flight over midnight': writeInventedGpx(FLIGHT),
    'native-speed.gpx': text('native-speed.gpx'),
    'geoid-heights.gpx': text('geoid-heights.gpx'),
    'speed-in-kmh.gpx': text('speed-in-kmh.gpx'),
  };
  for (const [name, xml] of Object.entries(files)) {
    test(`[GPX14] reads ${name} as the other reader does`, () => {
      const other = pointsOfOther(xml);
      const { track } = expectDecoded(decodeGpx(utf8(xml)));
      expect(other.length).toBeGreaterThan(1);
      expect(track.length).toBe(other.length);
      other.forEach(({ position, time }, i) => {
        expectNear(track.timeS[i], seconds(time), 0, `time ${i}`);
        expectNear(track.lonDeg[i], position[0], 0, `longitude ${i}`);
        expectNear(track.latDeg[i], position[1], 0, `latitude ${i}`);
        if (position.length > 2) expectNear(track.heightM[i], position[2], 0, `height ${i}`);
        else expect(track.heightM[i]).toBeNaN();
      });
    });
  }

  test('[DEC9] reads the same flight from IGC and from GPX', () => {
    const igc = expectDecoded(decodeIgc(utf8(writeInventedIgc(FLIGHT)))).track;
    const xml = expectDecoded(decodeGpx(utf8(writeInventedGpx(FLIGHT)))).track;
    expect(igc.length).toBe(FLIGHT.length);
    expect(xml.length).toBe(FLIGHT.length);
    for (let i = 0; i < FLIGHT.length; i++) {
      expectNear(igc.timeS[i], xml.timeS[i], 0, 'time');
      // Written with seven decimals.
      expectNear(igc.latDeg[i], xml.latDeg[i], 0.51e-7, 'latitude');
      expectNear(igc.lonDeg[i], xml.lonDeg[i], 0.51e-7, 'longitude');
      expectNear(igc.heightM[i], xml.heightM[i], 0, 'height');
      expectNear(igc.groundSpeedMps[i], xml.groundSpeedMps[i], 0.0051, 'speed');
    }
  });
});
