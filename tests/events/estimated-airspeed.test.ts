/** Airspeed estimated from ground speed, wind and density; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { debriefTrack } from '../../src/debrief/debrief.ts';
import {
  estimatedAirspeed,
  weighWinds,
  windAloftEntered,
  type AirAtStrip,
  type WindAloft,
} from '../../src/events/estimated-airspeed.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import type { Motion } from '../../src/track/motion.ts';
import { MPS_PER_KNOT } from '../../src/units/convert.ts';
import { scoreAirspeeds } from '../synthetic/airspeed-score.ts';
import { flyDrawnCircuits, logDrawnCircuits } from '../synthetic/circuit-population.ts';
import { toTrack } from '../synthetic/logged-track.ts';
import { bandOf, valueOf } from './simulated.ts';

/** Two seconds of level flight over the ground, due north. */
function northward(speedMps: number): Motion {
  const same = (value: number): Float64Array => new Float64Array(3).fill(value);
  return {
    timeS: Float64Array.of(0, 1, 2),
    velocityEastMps: same(0),
    velocityNorthMps: same(speedMps),
    verticalSpeedMps: same(0),
    verticalSpeedSdMps: same(0.2),
    speedSdMps: same(0.2),
  } as unknown as Motion;
}

const SEA_LEVEL: AirAtStrip = { tempC: 15, qnhHpa: 1013.25, elevationMslM: 0 };

describe('[EA1] the triangle of ground speed, wind and airspeed', () => {
  test('[EA1] a headwind adds, a tailwind takes away, a crosswind hardly counts', () => {
    // At 10 m over the ground the wind is the one entered; the air there is 0.1 % thinner.
    const by = (fromDeg: number): number =>
      valueOf(estimatedAirspeed(northward(30), 1, 10, windAloftEntered(fromDeg, 10), SEA_LEVEL));
    const windMps = 10 * MPS_PER_KNOT;
    expect(by(360)).toBeCloseTo(30 + windMps, 1);
    expect(by(180)).toBeCloseTo(30 - windMps, 1);
    expect(by(90)).toBeCloseTo(Math.hypot(30, windMps), 1);
  });

  test('[EA1] thin air shows less: 92.8 kt of 100 at 5,000 ft', () => {
    // U.S. Standard Atmosphere 1976: density ratio 0.8617 at 5,000 ft, from memory; its root is 0.9283.
    const still = windAloftEntered(360, 0);
    const high = { tempC: 5.1, qnhHpa: 1013.25, elevationMslM: 1524 - 15 };
    const at = valueOf(estimatedAirspeed(northward(51.44), 1, 15, still, high));
    expect(at / 51.44).toBeCloseTo(0.9283, 3);
  });

  test('[EA2] what nobody entered makes the band wider, never narrower', () => {
    const width = (air: AirAtStrip, kt = 10): number => {
      const { low, high } = bandOf(
        estimatedAirspeed(northward(40), 1, 30, windAloftEntered(360, kt), air),
      );
      return high - low;
    };
    const known = width(SEA_LEVEL);
    expect(width({ ...SEA_LEVEL, tempC: null })).toBeGreaterThan(known);
    expect(width({ ...SEA_LEVEL, qnhHpa: null })).toBeGreaterThan(known);
    expect(width({ ...SEA_LEVEL, elevationMslM: null })).toBeGreaterThan(known);
    expect(width(SEA_LEVEL, 25)).toBeGreaterThan(known);
    const variable = bandOf(
      estimatedAirspeed(northward(40), 1, 30, windAloftEntered(null, 10), SEA_LEVEL),
    );
    expect(variable.high - variable.low).toBeGreaterThan(known);
  });
});

describe('[EA4] two winds of one air', () => {
  const wind = (eastMps: number, northMps: number, sd: number, cov = 0): WindAloft => ({
    ...{ from: 'track', eastMps, northMps, varEast: sd * sd, varNorth: sd * sd, cov },
  });

  test('[EA4] count by their variances, and leave less doubt than either', () => {
    // 1 and 2 m/s: weights 4 to 1, variance 1 / (1 + 1 / 4).
    const both = weighWinds(wind(2, -6, 1), wind(0, -5, 2));
    expect(both.from).toBe('both');
    expect(both.eastMps).toBeCloseTo(1.6, 9);
    expect(both.northMps).toBeCloseTo(-5.8, 9);
    expect(both.varEast).toBeCloseTo(0.8, 9);
    expect(both.varNorth).toBeCloseTo(0.8, 9);
    expect(both.cov).toBeCloseTo(0, 9);
  });

  test('[EA4] what the track does not tell the entered wind does', () => {
    // Known along the diagonal only: variances 1 + 15 and 1 across, turned by 45 degrees.
    const both = weighWinds(wind(0, 0, Math.sqrt(8.5), 7.5), wind(4, 4, 1));
    // Along the diagonal 16 against 1, across it 1 against 1; both entered components lie along it.
    expect(both.eastMps).toBeCloseTo((4 * 16) / 17, 9);
    expect(both.northMps).toBeCloseTo((4 * 16) / 17, 9);
    expect(both.varEast + both.cov).toBeCloseTo(16 / 17, 9);
    expect(both.varEast - both.cov).toBeCloseTo(1 / 2, 9);
  });

  test('[EA4] further apart than chance they leave more doubt, not less', () => {
    const near = weighWinds(wind(0, -6, 1), wind(0, -5, 1));
    expect(near.varNorth).toBeCloseTo(0.5, 9);
    // 8 m/s apart: a misfit of 64 / 2 where nine in ten pairs keep below 4.605.
    const far = weighWinds(wind(0, -10, 1), wind(0, -2, 1));
    expect(far.northMps).toBeCloseTo(-6, 9);
    expect(far.varNorth).toBeCloseTo((0.5 * 32) / 4.605, 3);
  });

  test('[EA4] winds whose components err together, by hand', () => {
    // Inverses of (2 1; 1 2) and (2 -1; -1 2): (2 -1; -1 2) / 3 and (2 1; 1 2) / 3, together 4/3 of one.
    const both = weighWinds(wind(3, 1, Math.SQRT2, 1), wind(1, 3, Math.SQRT2, -1));
    // Pulls: (5, -1) / 3 and (5, 7) / 3.
    expect(both.eastMps).toBeCloseTo(2.5, 9);
    expect(both.northMps).toBeCloseTo(1.5, 9);
    expect(both.varEast).toBeCloseTo(0.75, 9);
    expect(both.varNorth).toBeCloseTo(0.75, 9);
    expect(both.cov).toBeCloseTo(0, 9);
    // 6 m/s apart in both: the inverse of (4 2; 2 4) is (4 -2; -2 4) / 12, so a misfit of 12.
    const far = weighWinds(wind(6, 6, Math.SQRT2, 1), wind(0, 0, Math.SQRT2, 1));
    expect(far.varEast).toBeCloseTo(12 / 4.605, 3);
    expect(far.cov).toBeCloseTo(6 / 4.605, 3);
  });

  test('[EA4] an entered wind errs more aloft, by its share there', () => {
    // 1.5 m/s at 10 m, and the power law with 0.15 from there to 100 m; a calm has no error by its speed.
    const calm = windAloftEntered(0, 0);
    expect(calm.varEast).toBeCloseTo((1.5 * 10 ** 0.15) ** 2, 9);
    expect(calm.varNorth).toBeCloseTo((1.5 * 10 ** 0.15) ** 2, 9);
    expect(calm.cov).toBe(0);
  });
});

describe('[EA3] at the gates of simulated circuits, by the wind from the track', () => {
  const scores = Array.from({ length: 14 }, (_, k) => {
    const seed = 64_000 + k;
    const flight = flyDrawnCircuits(seed, 'take-off');
    const track = toTrack(logDrawnCircuits(flight, seed, 1));
    const strips = { ...EMPTY_STRIP_BOOK, strips: [flight.strip] };
    const { flights } = debriefTrack(
      { track, headers: new Map(), notes: [], leftOut: [] },
      'drawn.gpx',
      '',
      { strips, aeroplanes: [], conditions: null },
    );
    const elevationM = flight.strip.elevationM?.[0] ?? 0;
    return scoreAirspeeds(flight.flown, flights[0], elevationM, seed);
  }).flat();

  test('[EA3] nine of ten are within 5 kt, and the bands hold about as often', () => {
    expect(scores.length).toBeGreaterThan(40);
    const near = scores.filter(({ error }) => Math.abs(error) <= 5 * MPS_PER_KNOT);
    expect(near.length / scores.length).toBeGreaterThan(0.9);
    const held = scores.filter((score) => score.held).length / scores.length;
    // Gates of one flight share its wind: 14 flights are worth some 20 independent gates.
    expect(held).toBeGreaterThan(0.76);
    for (const { width } of scores) expect(width).toBeLessThan(10);
  });
});
