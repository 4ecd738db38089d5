import geographiclib from 'geographiclib-geodesic';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { signedDifferenceDeg } from '../../src/geo/angles.ts';
import { createStripFrame } from '../../src/strips/strip-frame.ts';
import type { StripFrame } from '../../src/strips/strip-frame.ts';
import { expectNear } from '../expect-near.ts';
import { frameFrom, readOneStrip } from './invented-strip.ts';

const WGS84 = geographiclib.Geodesic.WGS84;
const LAT = 54.7;
const LON = 2.3;

/** The far end of a line, by the reference library. */
function beyond(latDeg: number, lonDeg: number, bearingDeg: number, lengthM: number) {
  const end = WGS84.Direct(latDeg, lonDeg, bearingDeg, lengthM);
  return { latDeg: end.lat2 ?? NaN, lonDeg: end.lon2 ?? NaN };
}

/** A straight strip of 600 m on a bearing of 63 degrees, end A first, at sea level. */
function straight(properties: Record<string, unknown> = {}) {
  const b = beyond(LAT, LON, 63, 600);
  const coordinates = [
    [LON, LAT],
    [b.lonDeg, b.latDeg],
  ];
  return readOneStrip({ elevationM: [0, 0], ...properties }, coordinates);
}

function place(frame: StripFrame, latDeg: number, lonDeg: number) {
  const { alongM, crossM } = frame.toAlongCross(Float64Array.of(latDeg), Float64Array.of(lonDeg));
  return { alongM: alongM[0], crossM: crossM[0] };
}

describe('a straight strip', () => {
  test('[SF1] has the length and bearing of the reference library within 1 cm', () => {
    const frame = frameFrom(straight(), 'A');
    expectNear(frame.lengthM, 600, 0.001, 'length');
    expectNear(frame.trueBearingDeg, 63, 1e-5, 'bearing');
    expectNear(frame.farEndAlongM, 600, 0.001, 'far end');
    expect(frame.nearEndAlongM).toBe(0);
    const back = frameFrom(straight(), 'B');
    expectNear(back.lengthM, 600, 0.001, 'length back');
    // The meridians converge by 0.007 degrees over the strip.
    expectNear(back.trueBearingDeg, 243, 0.01, 'bearing back');
  });

  test('[SF2] counts from the landing threshold, also behind a displaced one', () => {
    const strip = straight({
      directions: [{ designator: '06', from: 'A', displacedM: 80 }],
    });
    const frame = frameFrom(strip, 'A');
    expectNear(place(frame, LAT, LON).alongM, -80, 0.001, 'near end');
    expectNear(frame.nearEndAlongM, -80, 1e-12);
    expectNear(frame.farEndAlongM, 520, 0.001);
    const threshold = beyond(LAT, LON, 63, 80);
    expectNear(place(frame, threshold.latDeg, threshold.lonDeg).alongM, 0, 0.001, 'threshold');
  });

  test('[SF3] is negative before the threshold and positive to the right', () => {
    const frame = frameFrom(straight(), 'A');
    const before = beyond(LAT, LON, 63 + 180, 1500);
    const final = place(frame, before.latDeg, before.lonDeg);
    expectNear(final.alongM, -1500, 0.01, 'along on final');
    expectNear(final.crossM, 0, 0.01, 'cross on final');
    const right = beyond(LAT, LON, 63 + 90, 25);
    expectNear(place(frame, right.latDeg, right.lonDeg).crossM, 25, 0.001, 'right');
    const mirrored = place(frameFrom(straight(), 'B'), right.latDeg, right.lonDeg);
    expectNear(mirrored.crossM, -25, 0.01, 'left of the other direction');
    expectNear(mirrored.alongM, 600, 0.01, 'at the far end of the other direction');
  });

  test('[SF4] a missing position stays missing in its own slot', () => {
    const frame = frameFrom(straight(), 'A');
    const { alongM, crossM } = frame.toAlongCross(
      Float64Array.of(LAT, NaN, LAT),
      Float64Array.of(LON, LON, LON),
    );
    expect(alongM).toHaveLength(3);
    expect([alongM[1], crossM[1]]).toEqual([NaN, NaN]);
    expectNear(alongM[2], 0, 1e-6);
    expect(() => frame.toAlongCross(new Float64Array(2), new Float64Array(3))).toThrow();
  });

  test('[SF5] pointAt is the inverse of toAlongCross', () => {
    const frame = frameFrom(straight({ directions: [{ designator: '24', from: 'B' }] }), 'B');
    fc.assert(
      fc.property(
        fc.double({ min: -15000, max: 15000, noNaN: true }),
        fc.double({ min: -5000, max: 5000, noNaN: true }),
        (alongM, crossM) => {
          const point = frame.pointAt(alongM, crossM);
          const back = place(frame, point.latDeg, point.lonDeg);
          expectNear(back.alongM, alongM, 1e-4, 'along');
          expectNear(back.crossM, crossM, 1e-4, 'cross');
        },
      ),
      { seed: 11, numRuns: 200 },
    );
  });

  test('[SF6] at 800 m elevation it is longer than at sea level by the height over the radius', () => {
    const low = frameFrom(straight(), 'A').lengthM;
    const high = frameFrom(straight({ elevationM: [800, 800] }), 'A').lengthM;
    // 600 m x 800 m / 6380 km = 75 mm; radius and bearing change that by less than 1 %.
    expectNear(high - low, 0.0752, 0.001);
  });
});

describe('elevation', () => {
  test('[SF7] runs straight between the ends, level beyond them', () => {
    const strip = straight({ elevationM: [10, 22] });
    const up = frameFrom(strip, 'A');
    expectNear(up.elevationMslM(0), 10, 1e-9);
    expectNear(up.elevationMslM(300), 16, 0.001);
    expectNear(up.elevationMslM(-2000), 10, 1e-9);
    expectNear(up.elevationMslM(2000), 22, 1e-9);
    expectNear(up.slopeRatio, 0.02, 1e-6, 'uphill');
    const down = frameFrom(strip, 'B');
    expectNear(down.slopeRatio, -0.02, 1e-6, 'downhill');
    expectNear(down.elevationMslM(0), 22, 1e-9);
    expectNear(down.elevationMslM(150), 19, 0.001);
  });

  test('[SF8] follows the profile, and the ends where the profile stops short', () => {
    const strip = straight({
      elevationM: [10, 14],
      profile: [
        [100, 8],
        [300, 12],
      ],
      directions: [
        { designator: '06', from: 'A', displacedM: 50 },
        { designator: '24', from: 'B' },
      ],
    });
    const up = frameFrom(strip, 'A');
    expectNear(up.elevationMslM(-50), 10, 1e-9, 'end A');
    expectNear(up.elevationMslM(0), 9, 1e-9, 'halfway to the first point');
    expectNear(up.elevationMslM(150), 10, 1e-9, 'halfway in the profile');
    expectNear(up.elevationMslM(550), 14, 0.001, 'end B');
    const down = frameFrom(strip, 'B');
    expectNear(down.elevationMslM(150), 13, 0.001, 'halfway from B to the last point');
    expectNear(down.elevationMslM(500), 8, 0.001, 'the first point');
  });

  test('[SF9] is NaN where none is known', () => {
    const frame = frameFrom(straight({ elevationM: null }), 'A');
    expect(frame.elevationMslM(100)).toBeNaN();
    expect(frame.slopeRatio).toBeNaN();
    const known = frameFrom(straight(), 'A');
    expect(known.elevationMslM(NaN)).toBeNaN();
    expect(known.bearingAt(NaN)).toBeNaN();
  });
});

describe('a strip that bends', () => {
  const corner = beyond(LAT, LON, 80, 300);
  const end = beyond(corner.latDeg, corner.lonDeg, 100, 200);
  const strip = readOneStrip({ elevationM: [0, 0] }, [
    [LON, LAT],
    [corner.lonDeg, corner.latDeg],
    [end.lonDeg, end.latDeg],
  ]);

  test('[SF10] counts alongM along the line', () => {
    const frame = frameFrom(strip, 'A');
    expectNear(frame.lengthM, 500, 0.001, 'length');
    const far = place(frame, end.latDeg, end.lonDeg);
    expectNear(far.alongM, 500, 0.001, 'along');
    expectNear(far.crossM, 0, 0.001, 'cross');
    expectNear(frame.bearingAt(100), 80, 0.01, 'first piece');
    expectNear(frame.bearingAt(400), 100, 0.01, 'second piece');
    expectNear(frame.bearingAt(-500), 80, 0.01, 'before the strip');
    expectNear(frame.bearingAt(900), 100, 0.01, 'beyond the strip');
    const chord = WGS84.Inverse(LAT, LON, end.latDeg, end.lonDeg);
    expectNear(frame.trueBearingDeg, chord.azi1 ?? NaN, 0.001, 'end to end');
  });

  test('[SF11] runs on straight beyond both ends', () => {
    const frame = frameFrom(strip, 'B');
    // At the end the geodesic's bearing is no longer the 100 degrees it had at the corner.
    const { azi2 } = WGS84.Direct(corner.latDeg, corner.lonDeg, 100, 200);
    const final = beyond(end.latDeg, end.lonDeg, azi2 ?? NaN, 3000);
    const before = place(frame, final.latDeg, final.lonDeg);
    expectNear(before.alongM, -3000, 0.02, 'along on final');
    expectNear(before.crossM, 0, 0.02, 'cross on final');
    const past = beyond(LAT, LON, 80 + 180, 1000);
    const after = place(frame, past.latDeg, past.lonDeg);
    expectNear(after.alongM, 1500, 0.02, 'along past the far end');
    expectNear(after.crossM, 0, 0.02, 'cross past the far end');
  });

  test('[SF12] on the outside of the bend it measures to the corner', () => {
    const frame = frameFrom(strip, 'A');
    // The bend is to the right, so its outside is on the left: bearing 0 halves it.
    const outside = beyond(corner.latDeg, corner.lonDeg, 0, 30);
    const there = place(frame, outside.latDeg, outside.lonDeg);
    expectNear(there.alongM, 300, 0.001, 'along');
    expectNear(there.crossM, -30, 0.001, 'cross');
  });

  test('[SF13] pointAt follows the line', () => {
    const frame = frameFrom(strip, 'A');
    const point = frame.pointAt(300, 0);
    expectNear(point.latDeg, corner.latDeg, 1e-8);
    expectNear(point.lonDeg, corner.lonDeg, 1e-8);
    const right = place(frame, ...spread(frame.pointAt(400, 7)));
    expectNear(right.alongM, 400, 0.001);
    expectNear(right.crossM, 7, 0.001);
  });
});

function spread(point: { latDeg: number; lonDeg: number }): [number, number] {
  return [point.latDeg, point.lonDeg];
}

test('[SF14] the two directions of any straight strip are mirror images', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 360, noNaN: true }),
      fc.double({ min: 60, max: 2000, noNaN: true }),
      fc.double({ min: -3000, max: 3000, noNaN: true }),
      fc.double({ min: -500, max: 500, noNaN: true }),
      (bearingDeg, lengthM, alongM, crossM) => {
        const b = beyond(LAT, LON, bearingDeg, lengthM);
        const strip = readOneStrip({}, [
          [LON, LAT],
          [b.lonDeg, b.latDeg],
        ]);
        const [from, back] = [frameFrom(strip, 'A'), frameFrom(strip, 'B')];
        const seen = place(back, ...spread(from.pointAt(alongM, crossM)));
        // Two planes 2 km apart tilt by 2 km / R; over 5 km that is 0.1 mm, and their own shortening 1 mm.
        expectNear(seen.alongM, from.lengthM - alongM, 0.01, 'along');
        expectNear(seen.crossM, -crossM, 0.01, 'cross');
        const turn = signedDifferenceDeg(from.trueBearingDeg, back.trueBearingDeg);
        expectNear(Math.abs(turn), 180, 0.05, 'bearing');
      },
    ),
    { seed: 12, numRuns: 200 },
  );
});

test('[SF15] a centreline without length is a mistake of the program', () => {
  const strip = straight();
  const [direction] = strip.directions;
  expect(() => createStripFrame({ ...strip, latDeg: [LAT], lonDeg: [LON] }, direction)).toThrow(
    '1 positions, not 2',
  );
  expect(() =>
    createStripFrame({ ...strip, latDeg: [LAT, LAT], lonDeg: [LON, LON] }, direction),
  ).toThrow('no length');
});
