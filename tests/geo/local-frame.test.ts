import { describe, expect, test } from 'vitest';
import { createLocalFrame, shortLine } from '../../src/geo/local-frame.ts';
import { expectNear } from '../expect-near.ts';

describe('local frame', () => {
  test('[LOC1] its origin is zero and east and north are positive', () => {
    const frame = createLocalFrame(54.7, 2.3);
    const origin = frame.toEastNorthPoint(54.7, 2.3);
    expectNear(origin.eastM, 0, 1e-9, 'east');
    expectNear(origin.northM, 0, 1e-9, 'north');
    const point = frame.toEastNorthPoint(54.701, 2.301);
    expect(point.eastM).toBeGreaterThan(60);
    expect(point.northM).toBeGreaterThan(110);
  });

  test('[LOC2] columns keep their slots, a missing position stays missing', () => {
    const frame = createLocalFrame(54.7, 2.3, 20);
    const lat = Float64Array.of(54.71, NaN, 54.69);
    const lon = Float64Array.of(2.31, 2.3, NaN);
    const { eastM, northM } = frame.toEastNorth(lat, lon);
    expect(eastM).toHaveLength(3);
    const first = frame.toEastNorthPoint(54.71, 2.31);
    expect([eastM[0], northM[0]]).toEqual([first.eastM, first.northM]);
    expect(eastM[1]).toBeNaN();
    expect(northM[2]).toBeNaN();
    expect(() => frame.toEastNorth(lat, new Float64Array(2))).toThrow('3 latitudes but 2');
  });

  test('[LOC3] crosses the 180th meridian without a jump', () => {
    const frame = createLocalFrame(-17, 179.999);
    const { eastM, northM } = frame.toEastNorthPoint(-17, -179.999);
    // 0.002 degrees at 17 degrees south: 0.002 x 111 320 m x cos 17.
    expectNear(eastM, 212.9, 0.3, 'east');
    const back = frame.toLatLon(eastM, northM);
    expectNear(back.lonDeg, -179.999, 1e-11, 'longitude');
  });

  test('[LOC4] works at a pole', () => {
    const frame = createLocalFrame(90, 0);
    const point = frame.toLatLon(100, 0);
    expectNear(point.lonDeg, 90, 1e-6, 'longitude');
    const back = frame.toEastNorthPoint(point.latDeg, point.lonDeg);
    expectNear(back.eastM, 100, 1e-6, 'east');
    expectNear(back.northM, 0, 1e-6, 'north');
  });

  test('[LOC5] has no place for the far half of the globe', () => {
    const frame = createLocalFrame(54.7, 2.3);
    expect(frame.toEastNorthPoint(-54.7, -177.7).eastM).toBeNaN();
    expect(frame.toLatLon(7e6, 0).latDeg).toBeNaN();
    // A spike to 0, 0 lies 6000 km off, not near.
    const spike = frame.toEastNorthPoint(0, 0);
    expect(Math.hypot(spike.eastM, spike.northM)).toBeGreaterThan(5e6);
  });

  test('[LOC6] refuses an origin that is no place', () => {
    expect(() => createLocalFrame(91, 0)).toThrow('-90 to 90 degrees, not 91');
    expect(() => createLocalFrame(NaN, 0)).toThrow('latitude');
    expect(() => createLocalFrame(0, Infinity)).toThrow('longitude');
    expect(() => createLocalFrame(0, 0, NaN)).toThrow('height');
  });
});

test('[LOC7] a line with no length or no end', () => {
  expect(shortLine(54.7, 2.3, 54.7, 2.3)).toEqual({ lengthM: 0, bearingDeg: 0 });
  expect(shortLine(54.7, 2.3, NaN, 2.3).lengthM).toBeNaN();
});
