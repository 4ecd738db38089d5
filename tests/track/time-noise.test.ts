/** Times that a recorder cut to whole seconds, or that stray. */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { pickFixes } from '../../src/track/decode-columns.ts';
import type { Track } from '../../src/track/track.ts';
import { cutTimesSdS, strayTimesSdS } from '../../src/track/time-noise.ts';
import { eventsIn } from '../truth/events-in-truth.ts';
import { numberOf, readTruthFlights } from '../truth/read-truth.ts';

const times = (count: number, at: (k: number) => number): Float64Array =>
  Float64Array.from({ length: count }, (_, k) => at(k));

describe('[CT1] times cut to whole seconds', () => {
  test('[CT1] are seen by their steps, and are off by a second in all', () => {
    // Evenly spread over one second: its square root of a twelfth.
    expect(
      cutTimesSdS(
        times(60, (k) => Math.floor(4.5 * k)),
        1,
      ),
    ).toBeCloseTo(0.2887, 4);
    expect(
      cutTimesSdS(
        times(60, (k) => Math.floor(2.5 * k)),
        1,
      ),
    ).toBeGreaterThan(0);
    const withHole = times(60, (k) => Math.floor(4.5 * k) + (k > 30 ? 90 : 0));
    expect(cutTimesSdS(withHole, 1)).toBeGreaterThan(0);
  });

  test('[CT1] even steps, lost fixes, fractions of a second and steps of any length are none', () => {
    expect(
      cutTimesSdS(
        times(60, (k) => 4 * k),
        1,
      ),
    ).toBe(0);
    expect(
      cutTimesSdS(
        times(60, (k) => k + Math.floor(k / 3)),
        1,
      ),
    ).toBe(0);
    expect(
      cutTimesSdS(
        times(60, (k) => 4 * k + Math.floor(k / 20)),
        1,
      ),
    ).toBe(0);
    expect(
      cutTimesSdS(
        times(60, (k) => 4.5 * k),
        0.1,
      ),
    ).toBe(0);
    expect(
      cutTimesSdS(
        times(60, (k) => 3 * k + (k % 5) * (k % 3)),
        1,
      ),
    ).toBe(0);
    expect(
      cutTimesSdS(
        times(8, (k) => Math.floor(4.5 * k)),
        1,
      ),
    ).toBe(0);
  });

  test('[CT1] touchdowns are found all the same, and their bands hold', () => {
    // Every ninth half second of a log five times a second, its times cut.
    const cut = (track: Track): Track => {
      const every = Math.round(4.5 / (track.timeS[1] - track.timeS[0]));
      const kept = pickFixes(
        track,
        Int32Array.from({ length: Math.floor(track.length / every) }, (_, k) => k * every),
      );
      return { ...kept, timeS: kept.timeS.map(Math.floor), timeStepS: 1 };
    };
    const { held, errors } = touchdowns(cut, 0.5);
    // Taken as they stand, such times put touchdowns 52 m off and a band of five holds one.
    expect(errors.length).toBeGreaterThanOrEqual(24);
    expect(errors.toSorted((a, b) => a - b)[errors.length >> 1]).toBeLessThan(30);
    expect(held / errors.length).toBeGreaterThan(0.75);
  });
});

describe('[CT2] times that stray', () => {
  const random = createRandom(77);
  const stray = (track: Track): Track => {
    const late = track.timeS.map((t) => t + 0.2 * random.normal());
    return { ...track, timeS: late.sort(), timeStepS: 0.001 };
  };

  test('[CT2] show along the track and are measured there; those of a steady clock do not', () => {
    const east = times(200, (k) => 30 * k + 0.4 * random.normal());
    const north = times(200, () => 0.4 * random.normal());
    const clock = times(200, (k) => k);
    expect(strayTimesSdS(clock, east, north, 1)).toBe(0);
    const late = clock.map((t) => t + 0.2 * random.normal());
    expect(strayTimesSdS(late, east, north, 1)).toBeGreaterThan(0.15);
    expect(strayTimesSdS(late, east, north, 1)).toBeLessThan(0.26);
    // Standing, or between the fixes of a slow log, nothing can show it.
    expect(strayTimesSdS(late, north, north, 1)).toBe(0);
    expect(
      strayTimesSdS(
        late.map((t) => 4 * t),
        east,
        north,
        4,
      ),
    ).toBe(0);
  });

  test('[CT2] touchdowns are found all the same, and their bands hold', () => {
    const { held, errors } = touchdowns(stray, 1);
    // Taken as they stand, such times put touchdowns 37 m off, and bands hold two times in five.
    expect(errors.length).toBeGreaterThanOrEqual(24);
    expect(errors.toSorted((a, b) => a - b)[errors.length >> 1]).toBeLessThan(25);
    expect(held / errors.length).toBeGreaterThan(0.75);
  });
});

/** Touchdowns of the independent flights whose logs were spoilt: how far off, and how many bands hold. */
function touchdowns(
  spoil: (track: Track) => Track,
  intervalS: number,
): { readonly held: number; readonly errors: readonly number[] } {
  let held = 0;
  const errors: number[] = [];
  for (const flight of readTruthFlights()) {
    const landings = flight.events.filter(({ type }) => type === 'landing');
    for (const seed of [1, 2, 3]) {
      const found = eventsIn(flight, seed, 'gpx', spoil, intervalS).approaches.flatMap(
        ({ touchdown }) => (isUndetermined(touchdown) ? [] : [touchdown.alongM]),
      );
      expect(found, `${flight.name} seed ${seed}`).toHaveLength(landings.length);
      found.forEach((alongM, k) => {
        if (isUndetermined(alongM)) return;
        const truth = numberOf(landings[k], 'td_x');
        errors.push(Math.abs(alongM.value - truth));
        if (alongM.low <= truth && truth <= alongM.high) held++;
      });
    }
  }
  return { held, errors };
}
