/**
 * Can these numbers be meant? The predictor's own guard against slips that no form has caught.
 *
 * In: what the predictor is asked. Out: the first number that lies outside the possible, by name, with
 * what was found and the allowed range; null where all are possible. The ranges are those of the
 * conditions document and of a strips file, and as wide (ours, no source).
 */
import { undetermined, type Undetermined } from '../result.ts';
import type { Conditions } from '../weather/conditions.ts';

/** The numbers of a question to the predictor. */
interface AskedNumbers {
  readonly conditions: Conditions;
  readonly variationDeg: number | null;
  readonly direction: {
    readonly trueBearingDeg: number;
    readonly elevationMslM: number | null;
    readonly slopeRatio: number | null;
    readonly ldaM: number;
    readonly toraM: number;
    readonly todaM: number;
  };
}

type Check = readonly [name: string, value: unknown, low: number, high: number, unit: string];

/** The first number that cannot be meant; null: all can. A value that is null was not entered. */
export function impossibleNumber(input: AskedNumbers): Undetermined | null {
  const { conditions, direction, variationDeg } = input;
  const { wind } = conditions;
  const checks: readonly Check[] = [
    ['wind direction', wind?.fromDeg ?? null, 0, 360, 'degrees'],
    ['wind speed', wind === null ? null : wind.speedKt, 0, 100, 'kt'],
    ['gust', wind?.gustKt ?? null, 0, 130, 'kt'],
    ['temperature', conditions.tempC, -50, 60, 'degrees Celsius'],
    ['QNH', conditions.qnhHpa, 850, 1100, 'hPa'],
    ['landing mass', conditions.massKg, 50, 10_000, 'kg'],
    ['take-off mass', conditions.takeOffMassKg, 50, 10_000, 'kg'],
    ['magnetic variation', variationDeg, -180, 180, 'degrees'],
    ['bearing of the strip', direction.trueBearingDeg, 0, 360, 'degrees'],
    ['elevation of the strip', direction.elevationMslM, -500, 6000, 'm'],
    ['slope of the strip', direction.slopeRatio, -0.5, 0.5, 'rise over run'],
    ['LDA', direction.ldaM, 0, 10_000, 'm'],
    ['TORA', direction.toraM, 0, 10_000, 'm'],
    ['TODA', direction.todaM, 0, 10_000, 'm'],
  ];
  for (const [name, value, low, high, unit] of checks) {
    if (value === null) continue;
    if (typeof value === 'number' && value >= low && value <= high) continue;
    // JSON would write NaN and Infinity as null.
    const found = typeof value === 'number' ? String(value) : JSON.stringify(value).slice(0, 40);
    return undetermined(`${name}: found ${found}, expected ${low} to ${high} ${unit}`);
  }
  return null;
}
