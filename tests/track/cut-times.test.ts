/** Times that a recorder cut to whole seconds. */
import { describe, expect, test } from 'vitest';
import { isUndetermined } from '../../src/result.ts';
import { pickFixes } from '../../src/track/decode-columns.ts';
import type { Track } from '../../src/track/track.ts';
import { cutTimesSdS } from '../../src/track/white-noise.ts';
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
    let held = 0;
    const errors: number[] = [];
    for (const flight of readTruthFlights()) {
      const landings = flight.events.filter(({ type }) => type === 'landing');
      for (const seed of [1, 2, 3]) {
        const found = eventsIn(flight, seed, 'gpx', cut, 0.5).approaches.flatMap(({ touchdown }) =>
          isUndetermined(touchdown) ? [] : [touchdown.alongM],
        );
        if (found.length !== landings.length) continue;
        found.forEach((alongM, k) => {
          if (isUndetermined(alongM)) return;
          const truth = numberOf(landings[k], 'td_x');
          errors.push(Math.abs(alongM.value - truth));
          if (alongM.low <= truth && truth <= alongM.high) held++;
        });
      }
    }
    // Taken as they stand, such times put touchdowns 52 m off and a band of five holds one.
    expect(errors.length).toBeGreaterThanOrEqual(24);
    expect(errors.toSorted((a, b) => a - b)[errors.length >> 1]).toBeLessThan(30);
    expect(held / errors.length).toBeGreaterThan(0.75);
  });
});
