/**
 * What must not change a debrief: the day, the place on the globe, the file format, which way the
 * strip points.
 */
import { describe, expect, test } from 'vitest';
import type { FlightEvents } from '../../src/events/detect-events.ts';
import { createLocalFrame } from '../../src/geo/local-frame.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import type { Strip } from '../../src/strips/strip.ts';
import { decodeUnpacked } from '../../src/track/decode-track.ts';
import type { Track } from '../../src/track/track.ts';
import { expectNear } from '../expect-near.ts';
import { eventsOf, eventsOfTrack, record } from '../events/simulated.ts';
import { logAsGpx, logAsIgc, toTrack } from '../synthetic/logged-track.ts';
import { PERFECT_RECEIVER, PLAIN_RECEIVER, receive } from '../synthetic/receiver-model.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { writeGpx } from '../synthetic/write-gpx.ts';
import { writeIgc } from '../synthetic/write-igc.ts';
import { createRandom } from '../../src/numeric/random.ts';

const SEEDS = [31, 32, 33, 34];

/** Touchdown and roll of the only approach. */
function figures(events: FlightEvents): { outcome: unknown; along: number; roll: number } {
  expect(events.approaches).toHaveLength(1);
  const [{ outcome, touchdown, fullStopRollM }] = events.approaches;
  if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
  return { outcome, along: valueOf(touchdown.alongM), roll: valueOf(fullStopRollM) };
}

function valueOf(measured: Measured): number {
  return isUndetermined(measured) ? NaN : measured.value;
}

function quantile(values: number[], p: number): number {
  return values.sort((a, b) => a - b)[Math.floor(p * (values.length - 1))];
}

function expectSame(a: FlightEvents, b: FlightEvents, toleranceM: number, what: string): void {
  const [one, other] = [figures(a), figures(b)];
  expect(other.outcome, what).toBe(one.outcome);
  expectNear(other.along, one.along, toleranceM, `${what} touchdown`);
  expectNear(other.roll, one.roll, toleranceM, `${what} roll`);
}

describe('[IV1] a debrief does not depend on', () => {
  test.each(SEEDS)('[IV1] the day or midnight UTC (seed %d)', (seed) => {
    const scenario = flyDrawnApproach(seed, 'full-stop');
    const shift = (seconds: number) => (track: Track) => ({
      ...track,
      timeS: track.timeS.map((t) => t + seconds),
    });
    const day = eventsOf(scenario, { seed });
    const track = record(scenario, { seed });
    // The touchdown half a minute after midnight, and a year later.
    const toMidnight = 86_400 - (track.timeS[Math.floor(track.length / 2)] % 86_400);
    for (const seconds of [toMidnight, 365 * 86_400]) {
      const rounded = Math.round(seconds);
      expectSame(day, eventsOf(scenario, { seed, edit: shift(rounded) }), 0.01, `${rounded} s`);
    }
  });

  test.each(SEEDS)('[IV2] the place on the globe and the bearing (seed %d)', (seed) => {
    const scenario = flyDrawnApproach(seed, 'full-stop');
    const here = createLocalFrame(scenario.strip.latDeg[0], scenario.strip.lonDeg[0]);
    for (const [lat, lon, turnDeg] of [
      [-37, 175, 0],
      [65, -179.99, 120],
    ]) {
      const there = createLocalFrame(lat, lon);
      const move = (latDeg: Float64Array, lonDeg: Float64Array) => {
        const { eastM, northM } = here.toEastNorth(latDeg, lonDeg);
        const turn = (turnDeg * Math.PI) / 180;
        const places = Array.from(eastM, (east, i) =>
          there.toLatLon(
            east * Math.cos(turn) + northM[i] * Math.sin(turn),
            northM[i] * Math.cos(turn) - east * Math.sin(turn),
          ),
        );
        return {
          latDeg: Float64Array.from(places, (place) => place.latDeg),
          lonDeg: Float64Array.from(places, (place) => place.lonDeg),
        };
      };
      const ends = move(
        Float64Array.from(scenario.strip.latDeg),
        Float64Array.from(scenario.strip.lonDeg),
      );
      const strip: Strip = {
        ...scenario.strip,
        latDeg: [...ends.latDeg],
        lonDeg: [...ends.lonDeg],
      };
      const track = record(scenario, { seed });
      const moved = { ...track, ...move(track.latDeg, track.lonDeg) };
      expectSame(
        eventsOfTrack(track, [scenario.strip]),
        eventsOfTrack(moved, [strip]),
        0.5,
        `${lat} ${lon}`,
      );
    }
  });

  test.each(SEEDS)(
    '[IV3] going through a file: the written and read GPX and IGC are the track (seed %d)',
    (seed) => {
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const fixes = receive(scenario.flown, PLAIN_RECEIVER, createRandom(seed));
      for (const [logged, text] of [
        [logAsGpx(fixes), writeGpx(logAsGpx(fixes), { name: 'invented' })],
        [logAsIgc(fixes), writeIgc(logAsIgc(fixes), { aeroplane: 'invented' })],
      ] as const) {
        const decoded = decodeUnpacked(new TextEncoder().encode(text), 'flight');
        if (!decoded.ok) throw new Error(decoded.problems[0].message);
        expectSame(
          eventsOfTrack(toTrack(logged), [scenario.strip]),
          eventsOfTrack(decoded.value.track, [scenario.strip]),
          0.2,
          logged.format,
        );
      }
    },
  );

  test('[IV4] without receiver errors GPX and IGC agree within what IGC rounds away', () => {
    const apartM: number[] = [];
    for (let seed = 500; seed < 520; seed++) {
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const fixes = receive(scenario.flown, PERFECT_RECEIVER, createRandom(seed));
      const gpx = figures(eventsOfTrack(toTrack(logAsGpx(fixes)), [scenario.strip]));
      const igc = figures(eventsOfTrack(toTrack(logAsIgc(fixes)), [scenario.strip]));
      expect(igc.outcome).toBe(gpx.outcome);
      apartM.push(Math.abs(igc.along - gpx.along));
    }
    // Whole metres of height blur the last second of the round-out: 20 to 30 m at 50 kt.
    expect(quantile(apartM, 0.5)).toBeLessThan(15);
    expect(quantile(apartM, 0.9)).toBeLessThan(40);
  });

  test.each(SEEDS)('[IV5] which hand: mirrored left to right it is the same (seed %d)', (seed) => {
    const scenario = flyDrawnApproach(seed, 'full-stop');
    const centreDeg = scenario.strip.lonDeg[0];
    const mirror = (lonDeg: number): number => 2 * centreDeg - lonDeg;
    const track = record(scenario, { seed });
    const mirrored = { ...track, lonDeg: track.lonDeg.map(mirror) };
    const strip = { ...scenario.strip, lonDeg: scenario.strip.lonDeg.map(mirror) };
    const [one, other] = [eventsOfTrack(track, [scenario.strip]), eventsOfTrack(mirrored, [strip])];
    expectSame(one, other, 0.05, 'mirrored');
    const cross = [one, other].map(({ approaches: [{ touchdown }] }) =>
      isUndetermined(touchdown) ? NaN : valueOf(touchdown.crossM),
    );
    expectNear(cross[1], -cross[0], 0.05, 'crossM');
  });

  test('[IV6] when the fixes fall: half a second later the touchdown is within its bands', () => {
    let overlap = 0;
    const seeds = Array.from({ length: 12 }, (_, k) => 60 + k);
    for (const seed of seeds) {
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const bands = [0, 0.5].map((laterS) => {
        // The same flight half a second later by the clock: other fixes of the same receiver.
        const flown = {
          ...scenario.flown,
          timeS: scenario.flown.timeS.map((t) => t + laterS),
        };
        const [{ outcome, touchdown }] = eventsOf({ ...scenario, flown }, { seed }).approaches;
        expect(outcome, `seed ${seed}`).toBe('full-stop');
        if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
        if (isUndetermined(touchdown.alongM)) throw new Error(touchdown.alongM.undetermined);
        return touchdown.alongM;
      });
      const [a, b] = bands;
      if (a.value >= b.low && a.value <= b.high && b.value >= a.low && b.value <= a.high) overlap++;
    }
    // Two estimates of one landing from the same noise lie closer than either from the truth.
    expect(overlap).toBeGreaterThanOrEqual(10);
  });
});
