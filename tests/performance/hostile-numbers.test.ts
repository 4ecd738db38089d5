/** Numbers that cannot be meant: a message that names the field and the range, never a distance. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isUndetermined } from '../../src/result.ts';
import type { Figure } from '../../src/performance/prediction.ts';
import {
  ask,
  LEVEL_GRASS,
  oneRow,
  reasonOf,
  STILL_DAY,
  type Changes,
} from './invented-aeroplane.ts';

const WIND = { fromDeg: 90, reference: 'true', speedKt: 5, gustKt: null } as const;
const text = '12' as unknown as number;

describe('[HOS1] the predictor', () => {
  const cases: readonly (readonly [string, Changes, string])[] = [
    ['mass 0', { conditions: { massKg: 0 } }, 'landing mass: found 0, expected 50 to 10000 kg'],
    ['mass NaN', { conditions: { massKg: NaN } }, 'landing mass: found NaN, expected 50'],
    ['mass as text', { conditions: { massKg: text } }, 'landing mass: found "12", expected 50'],
    ['take-off mass -1', { conditions: { takeOffMassKg: -1 } }, 'take-off mass: found -1'],
    [
      'temperature 200',
      { conditions: { tempC: 200 } },
      'temperature: found 200, expected -50 to 60 degrees Celsius',
    ],
    [
      'QNH in inches',
      { conditions: { qnhHpa: 29.92 } },
      'QNH: found 29.92, expected 850 to 1100 hPa',
    ],
    [
      'wind 500',
      { conditions: { wind: { ...WIND, speedKt: 500 } } },
      'wind speed: found 500, expected 0 to 100 kt',
    ],
    ['wind NaN', { conditions: { wind: { ...WIND, speedKt: NaN } } }, 'wind speed: found NaN'],
    [
      'a wind from 400',
      { conditions: { wind: { ...WIND, fromDeg: 400 } } },
      'wind direction: found 400, expected 0 to 360',
    ],
    [
      'gust Infinity',
      { conditions: { wind: { ...WIND, gustKt: Infinity } } },
      'gust: found Infinity, expected 0 to 130 kt',
    ],
    [
      'elevation in feet and more',
      { direction: { elevationMslM: 99_999 } },
      'elevation of the strip: found 99999',
    ],
    [
      'slope in per cent',
      { direction: { slopeRatio: 2 } },
      'slope of the strip: found 2, expected -0.5 to 0.5',
    ],
    ['slope NaN', { direction: { slopeRatio: NaN } }, 'slope of the strip: found NaN'],
    ['LDA -5', { direction: { ldaM: -5 } }, 'LDA: found -5, expected 0 to 10000 m'],
    ['variation NaN', { variationDeg: NaN }, 'magnetic variation: found NaN'],
  ];
  test.each(cases)('[HOS1] %s', (_what, changes, message) => {
    expect(reasonOf(ask(changes))).toContain(message);
  });

  test('[HOS2] gives finite, positive distances or a reason, whatever it is asked', () => {
    const hostile = fc.oneof(
      { weight: 6, arbitrary: fc.double({ min: -60, max: 1200, noNaN: true }) },
      {
        weight: 1,
        arbitrary: fc.constantFrom(NaN, Infinity, -Infinity, 0, -0, 1e300, 5e-324, text),
      },
    );
    const maybe = fc.option(hostile);
    fc.assert(
      fc.property(
        fc.record({ fromDeg: maybe, speedKt: hostile, gustKt: maybe }),
        fc.record({ tempC: hostile, qnhHpa: maybe, massKg: hostile, takeOffMassKg: maybe }),
        fc.record({
          elevationMslM: hostile,
          slopeRatio: hostile,
          ldaM: hostile,
          toraM: hostile,
          todaM: hostile,
        }),
        fc.integer({ min: 0, max: 511 }),
        (wind, entered, strip, kept) => {
          // Each field is hostile in some draws and plain in others, so that several get through.
          const keep = <T extends object>(plain: T, odd: object, from: number): T =>
            Object.assign(
              { ...plain },
              Object.fromEntries(
                Object.entries(odd).filter((_, k) => (kept >> ((from + k) % 9)) & 1),
              ),
            );
          const found = ask({
            conditions: keep({ ...STILL_DAY, wind: keep(WIND, wind, 0) }, entered, 3),
            direction: keep(LEVEL_GRASS, strip, 7),
          });
          if (isUndetermined(found)) {
            expect(found.undetermined.length).toBeGreaterThan(10);
            return;
          }
          const { landing, takeOff } = found;
          const figures: Figure[] = [
            ...(isUndetermined(landing) ? [] : [landing.expectedFrom50FtM, landing.plannedRollM]),
            ...(isUndetermined(takeOff) ? [] : [takeOff.plannedTo50FtM, takeOff.expectedRollM]),
          ];
          for (const figure of figures) {
            if (!isUndetermined(figure)) {
              expect(Number.isFinite(figure)).toBe(true);
              expect(figure).toBeGreaterThan(0);
            }
          }
        },
      ),
      { numRuns: 600, seed: 20260409 },
    );
  });

  test('[HOS3] a table that no reader has checked gives no distance from NaN', () => {
    const tables = [oneRow('landing-from-screen', NaN)];
    const found = ask({ aeroplane: { tables } });
    if (isUndetermined(found)) throw new Error(found.undetermined);
    expect(reasonOf(found.landing)).toContain("the handbook's table gives NaN m there");
  });
});
