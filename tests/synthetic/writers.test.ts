/**
 * The written files against independent readers, published records and a reference geodesic.
 *
 * Sources: fix record of FAI technical specification for IGC recorders, 2nd edition, Amendment 8, A9
 * (54 07.121 N, 002 49.342 W, 280 m and 421 m); second readers igc-parser 2.0.0 (MIT) and
 * @tmcw/togeojson 7.1.3 (BSD-2-Clause); reference geodesic geographiclib-geodesic 2.2.0 (MIT).
 */
import { gpx } from '@tmcw/togeojson';
import { DOMParser } from '@xmldom/xmldom';
import geographiclib from 'geographiclib-geodesic';
import IGCParser from 'igc-parser';
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { createStripFrame } from '../../src/strips/strip-frame.ts';
import { expectNear } from '../expect-near.ts';
import { inventStrip } from './invent-strip.ts';
import { logAsGpx, logAsIgc, toTrack, withDoubledFixes, type LoggedTrack } from './logged-track.ts';
import { PERFECT_RECEIVER, PLAIN_RECEIVER, receive, type Receiver } from './receiver-model.ts';
import { createMap, createRunway, toAlongCross, toEastNorth } from './runway.ts';
import { flyDrawnApproach } from './scenarios.ts';
import { writeGpx } from './write-gpx.ts';
import { writeIgc } from './write-igc.ts';

const landing = flyDrawnApproach(4, 'full-stop');
const SENSOR = { qnhHpa: 1000, staticError: 0.05, lagS: 0.5, whiteM: 0.3 };

describe('places', () => {
  test('[SIM60] metres along a strip are metres of the reference geodesic', () => {
    const map = createMap();
    for (const [eastM, northM, bearingDeg] of [
      [0, 0, 37],
      [7200, 4300, 203],
      [-14000, 12000, 128],
    ]) {
      const strip = inventStrip(map, { id: 'far', eastM, northM, bearingDeg, lengthM: 600 });
      const runway = createRunway(strip, strip.directions[0].designator, map);
      const [a, b] = [100, 400].map((alongM) => {
        const at = toEastNorth(runway, alongM, 0);
        return map.toLatLon(at.eastM, at.northM);
      });
      const line = geographiclib.Geodesic.WGS84.Inverse(a.latDeg, a.lonDeg, b.latDeg, b.lonDeg);
      // The map lies 60 m over the ellipsoid: 300 m on it are 2.8 mm less on the ellipsoid.
      expectNear(line.s12 ?? NaN, 300, 0.005, 'length');
      expectNear(((line.azi1 ?? NaN) + 360) % 360, bearingDeg, 0.25, 'bearing but for convergence');
    }
  });

  test('[SIM61] a written roll is as long as the true one', () => {
    const flown = flyDrawnApproach(3, 'full-stop').flown;
    const [approach] = flown.truth.approaches;
    const log = logAsGpx(receive(flown, { ...PERFECT_RECEIVER, intervalS: 0.2 }, createRandom(1)));
    const at = (timeS: number): { lat: number; lon: number } => {
      const i = log.timeS.findIndex((t) => t >= timeS);
      const share = (timeS - log.timeS[i - 1]) / (log.timeS[i] - log.timeS[i - 1]);
      const mix = (column: Float64Array): number =>
        column[i - 1] + share * (column[i] - column[i - 1]);
      return { lat: mix(log.latDeg), lon: mix(log.lonDeg) };
    };
    const from = at(approach.touchdown?.timeS ?? NaN);
    const to = at(approach.rollEnd?.timeS ?? NaN);
    const line = geographiclib.Geodesic.WGS84.Inverse(from.lat, from.lon, to.lat, to.lon);
    // Straight lines between fixes 0.2 s apart cost up to 1 cm, rounding 1 cm, steering across a few.
    expectNear(line.s12 ?? NaN, approach.groundRollM ?? NaN, 0.06, 'roll');
  });
});

describe('the core', () => {
  test('[SIM70] finds a perfect fix as far along its strip as the truth says', () => {
    for (const seed of [3, 5, 8]) {
      const { strip, designator, flown } = flyDrawnApproach(seed, 'full-stop');
      const direction = strip.directions.find((candidate) => candidate.designator === designator);
      if (direction === undefined) throw new Error('the scenario names no direction of its strip');
      const frame = createStripFrame(strip, direction);
      const runway = createRunway(strip, designator, flown.map);
      const fixes = receive(flown, PERFECT_RECEIVER, createRandom(1));
      const { alongM, crossM } = frame.toAlongCross(fixes.latDeg, fixes.lonDeg);
      expect(fixes.length).toBeGreaterThan(60);
      for (let i = 0; i < fixes.length; i++) {
        const { eastM, northM } = flown.map.toEastNorthPoint(fixes.latDeg[i], fixes.lonDeg[i]);
        const truth = toAlongCross(runway, eastM, northM);
        // The core's frame lies at the strip's elevation, the map 60 m up: 1 part in 100,000.
        expectNear(alongM[i], truth.alongM, 0.02, 'along');
        expectNear(crossM[i], truth.crossM, 0.02, 'cross');
        const groundM = runway.groundMslM(truth.alongM);
        expectNear(frame.elevationMslM(alongM[i]), groundM, 0.01, 'elevation');
      }
    }
  });
});

describe('IGC', () => {
  test('[SIM62] prints the fix record of the specification', () => {
    const log: LoggedTrack = {
      ...oneFix(54 + 7.121 / 60, -(2 + 49.342 / 60), 421),
      pressureHeightM: Float64Array.of(280),
      timeS: Float64Array.of(Date.parse('2016-08-19T16:02:40Z') / 1000),
    };
    const record = writeIgc(log, { aeroplane: 'none' }).split('\r\n').at(-2);
    expect(record?.slice(0, 35)).toBe('B1602405407121N00249342WA0028000421');
  });

  test('[SIM63] puts a minus sign in the first place of a negative height', () => {
    const log = { ...oneFix(-1.5, 179.25, -17), pressureHeightM: Float64Array.of(-8) };
    const record = writeIgc(log, { aeroplane: 'none' }).split('\r\n').at(-2);
    expect(record?.slice(7, 35)).toBe('0130000S17915000EA-0008-0017');
  });

  for (const intervalS of [1, 2]) {
    test(`[SIM64] reads back fix by fix in a second reader, every ${intervalS} s`, () => {
      const receiver: Receiver = {
        ...PLAIN_RECEIVER,
        intervalS,
        heights: 'ellipsoid',
        pressure: SENSOR,
      };
      const log = logAsIgc(receive(landing.flown, receiver, createRandom(2)));
      const read = IGCParser.parse(writeIgc(log, { aeroplane: 'none' }));
      const track = toTrack(log);
      expect(read.fixes.length).toBe(track.length);
      read.fixes.forEach((fix, i) => {
        expectNear(fix.timestamp / 1000, track.timeS[i], 0, 'time');
        expectNear(fix.latitude, track.latDeg[i], 1e-9, 'latitude');
        expectNear(fix.longitude, track.lonDeg[i], 1e-9, 'longitude');
        expectNear(fix.gpsAltitude ?? NaN, track.heightM[i], 0, 'height');
        expectNear(fix.pressureAltitude ?? NaN, track.pressureHeightM[i], 0, 'pressure height');
      });
    });
  }

  test('[SIM65] declares tenths of seconds and speed in the extension record, byte by byte', () => {
    const receiver: Receiver = { ...PLAIN_RECEIVER, intervalS: 0.2, speedWhiteMps: 0.1 };
    const log = logAsIgc(receive(landing.flown, receiver, createRandom(2)));
    const lines = writeIgc(log, { aeroplane: 'none' }).split('\r\n');
    expect(lines.find((line) => line.startsWith('I'))).toBe('I033638FXA3941GSP4242TDS');
    const fixes = lines.filter((line) => line.startsWith('B'));
    expect(fixes.length).toBe(log.length);
    fixes.forEach((line, i) => {
      expect(line.length).toBe(42);
      expect(Number(line.slice(38, 41))).toBe(Math.round(log.groundSpeedMps[i] * 3.6));
      expect(Number(line.at(41))).toBe(Math.round((log.timeS[i] % 1) * 10));
    });
  });
});

describe('GPX', () => {
  for (const intervalS of [0.2, 1, 4]) {
    test(`[SIM66] reads back fix by fix in a second reader, every ${intervalS} s`, () => {
      const receiver: Receiver = { ...PLAIN_RECEIVER, intervalS, speedWhiteMps: 0.1 };
      const log = logAsGpx(receive(landing.flown, receiver, createRandom(2)));
      const text = writeGpx(log, { name: 'landing' });
      const read = gpx(new DOMParser().parseFromString(text, 'text/xml'));
      const [feature] = read.features;
      if (feature.geometry.type !== 'LineString') throw new Error('the reader found no line');
      const properties = feature.properties as { coordinateProperties: { times: string[] } };
      const track = toTrack(log);
      expect(feature.geometry.coordinates.length).toBe(track.length);
      feature.geometry.coordinates.forEach(([lon, lat, heightM], i) => {
        expectNear(lat, track.latDeg[i], 1e-12, 'latitude');
        expectNear(lon, track.lonDeg[i], 1e-12, 'longitude');
        expectNear(heightM, track.heightM[i], 1e-9, 'height');
        const time = Date.parse(properties.coordinateProperties.times[i]) / 1000;
        expectNear(time, track.timeS[i], 1e-6, 'time');
      });
    });
  }

  test('[SIM67] starts a new segment after a hole, in the text and in the Track', () => {
    const holes = [{ afterS: 40, lengthS: 15 }];
    const fixes = receive(landing.flown, { ...PLAIN_RECEIVER, holes }, createRandom(2));
    const log = logAsGpx(fixes, { breakAfterS: 10 });
    expect(writeGpx(log, { name: 'hole' }).match(/<trkseg>/g)?.length).toBe(2);
    const { segment } = toTrack(log);
    expect(segment[0]).toBe(0);
    expect(segment[segment.length - 1]).toBe(1);
  });

  test('[SIM68] leaves the height out where the receiver has none', () => {
    const fixes = receive(landing.flown, { ...PLAIN_RECEIVER, heights: 'none' }, createRandom(2));
    const text = writeGpx(logAsGpx(fixes), { name: 'flat' });
    expect(text).not.toContain('<ele>');
    expect(text.match(/<trkpt/g)?.length).toBe(fixes.length);
  });

  test('[SIM69] writes doubled fixes twice and leaves the others alone', () => {
    const log = logAsGpx(receive(landing.flown, PLAIN_RECEIVER, createRandom(2)));
    const doubled = withDoubledFixes(log, 10, 20);
    expect(doubled.length).toBe(log.length + 10);
    expect(doubled.timeS[10]).toBe(doubled.timeS[11]);
    expect(doubled.latDeg[10]).toBe(doubled.latDeg[11]);
    expect(doubled.timeS[9]).toBe(log.timeS[9]);
    expect(doubled.timeS[doubled.length - 1]).toBe(log.timeS[log.length - 1]);
  });
});

/** A log of one fix. */
function oneFix(latDeg: number, lonDeg: number, heightM: number): LoggedTrack {
  return {
    format: 'igc',
    length: 1,
    intervalS: 1,
    heights: 'ellipsoid',
    timeDecimals: 0,
    positionDecimals: 0,
    positionStepM: 1.855,
    breaks: [],
    timeS: Float64Array.of(0),
    latDeg: Float64Array.of(latDeg),
    lonDeg: Float64Array.of(lonDeg),
    heightM: Float64Array.of(heightM),
    pressureHeightM: Float64Array.of(NaN),
    groundSpeedMps: Float64Array.of(NaN),
    courseDeg: Float64Array.of(NaN),
    accuracyM: Float64Array.of(4),
  };
}
