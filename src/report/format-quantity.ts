/**
 * Quantities as text for tables: the steps to which each is rounded.
 *
 * Metres and seconds to whole numbers, speeds to whole knots, rates of descent to ten feet a minute, ratios to two decimals, heights over
 * the strip to half metres below ten, shares to whole per cent. The band that holds 90 % follows the
 * value, its ends rounded outwards: `46 m 12–98`.
 */
import { isExact, isUndetermined, type Estimate, type Measured } from '../result.ts';
import { METRES_PER_FOOT, MPS_PER_KNOT } from '../units/convert.ts';
import { toStep, type Rounding } from './rounding.ts';

/** A length with its band: `46 m 12–98`. */
export function metres(quantity: Measured): string {
  return banded(quantity, whole, ' m');
}

/** A length without its band, or a dash. */
export function metresOnly(quantity: number | { readonly undetermined: string }): string {
  return typeof quantity === 'number' ? `${plain(quantity.toFixed(0))} m` : DASH;
}

/** A height over the strip with its band, to half a metre below ten. */
export function height(quantity: Measured): string {
  return banded(
    quantity,
    (value, way) => (value < 10 ? toStep(value, 0.5, way).toFixed(1) : whole(value, way)),
    ' m',
  );
}

/** A ground speed in knots with its band. */
export function knots(quantity: Measured): string {
  return banded(quantity, (value, way) => whole(value / MPS_PER_KNOT, way), ' kt');
}

/** A rate of descent in feet a minute with its band, to ten, without its unit. */
export function feetPerMinute(quantity: Measured): string {
  const tens: Show = (value, way) => toStep((value * 60) / METRES_PER_FOOT, 10, way).toFixed(0);
  return banded(quantity, tens, '');
}

/** A quantity with its sign changed. */
export function negated({ value, low, high }: Estimate): Estimate {
  return { value: -value, low: -high, high: -low };
}

/** A direction in whole degrees with its band, each 0 to 359. */
export function degrees(quantity: Measured): string {
  const wrapped: Show = (value, way) =>
    String(((toStep(value, 1, way) % 360) + 360) % 360).padStart(3, '0');
  return banded(quantity, wrapped, '°');
}

/** An angle that is no direction, in whole degrees with its band: `28° 25–31`. */
export function angle(quantity: Measured): string {
  return banded(quantity, whole, '°');
}

/** A ratio with its band: `1.09 0.80–1.42`. */
export function ratio(quantity: Measured): string {
  return banded(quantity, (value, way) => toStep(value, 0.01, way).toFixed(2), '');
}

/** How many, without a band where it is certain: `2`, `1 0–2`. */
export function count(quantity: Measured): string {
  if (isUndetermined(quantity)) return DASH;
  const { value, low, high } = quantity;
  const isSure = Math.round(low) === Math.round(high);
  return isSure ? value.toFixed(0) : banded(quantity, whole, '');
}

/** A share or a probability in whole per cent, never rounded to certainty: `83 %`, `over 99 %`. */
export function percent(share: number): string {
  if (share > 0.99 && share < 1) return 'over 99 %';
  if (share > 0 && share < 0.01) return 'under 1 %';
  return `${(100 * share).toFixed(0)} %`;
}

/** UTC time of day of a moment, `13:16:54`; a dash where it is undetermined. */
export function utcTime(quantity: Measured | number): string {
  if (typeof quantity !== 'number' && isUndetermined(quantity)) return DASH;
  const timeS = typeof quantity === 'number' ? quantity : quantity.value;
  return new Date(Math.round(timeS) * 1000).toISOString().slice(11, 19);
}

/** How long something took, minutes and seconds: `2 min 05 s`. */
export function duration(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)} min ${String(whole % 60).padStart(2, '0')} s`;
}

/** A number as entered, with a true minus: `−3`. */
export function entered(value: number): string {
  return plain(String(value));
}

/** UTC date of a moment, `12 May 2024`. */
export function utcDate(timeS: number): string {
  const date = new Date(timeS * 1000);
  return `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]} ${date.getUTCFullYear()}`;
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** Stands where a quantity has no value. */
export const DASH = '–';

/** A value as text, rounded one way. */
type Show = (value: number, way: Rounding) => string;

const whole: Show = (value, way) => toStep(value, 1, way).toFixed(0);

function banded(quantity: Measured, show: Show, unit: string): string {
  if (isUndetermined(quantity)) return DASH;
  const text = `${plain(show(quantity.value, 'near'))}${unit}`;
  // What was put by hand is exact.
  return isExact(quantity) ? text : `${text} ${bandText(quantity, show)}`;
}

/** A dash between positive ends; the word where a minus sign would stand beside it. */
function bandText({ low, high }: Estimate, show: Show): string {
  const [from, to] = [plain(show(low, 'down')), plain(show(high, 'up'))];
  return from.startsWith(MINUS) ? `${from} to ${to}` : `${from}–${to}`;
}

const MINUS = '−';

/** A true minus sign, and no minus before zero: `-0.0` is `0.0`. */
export function plain(text: string): string {
  if (!text.startsWith('-')) return text;
  return /^-[0.]*$/.test(text) ? text.slice(1) : MINUS + text.slice(1);
}
