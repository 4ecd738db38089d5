/**
 * In which unit does the pilot type a quantity, and in which one is it kept?
 *
 * In: the pilot's choice of units. Out: for each quantity its symbol and the way both ways. A figure
 * that nobody touched goes back exactly as it was: only what was typed is converted.
 */
import type { ShownUnits } from '../../logbook/entry.ts';
import {
  KG_PER_POUND,
  METRES_PER_FOOT,
  MPS_PER_KMH,
  MPS_PER_KNOT,
  MPS_PER_MPH,
  PA_PER_HPA,
  PA_PER_INHG,
} from '../../units/convert.ts';
import { readNumber, showNumber } from './number-text.ts';

/** A unit of a field: shown = kept x scale + offset. */
export interface FieldUnit {
  readonly symbol: string;
  readonly scale: number;
  readonly offset: number;
  /** How many decimals a field shows at most. */
  readonly decimals: number;
  /** The unit it is kept in. */
  readonly keptSymbol: string;
}

/** What a field of a quantity says: the kept number, null for nothing entered, or what is wrong. */
export type QuantityText =
  | { readonly ok: true; readonly value: number | null }
  | { readonly ok: false; readonly message: string };

/** Decimal digits that a double holds for certain (IEEE 754). */
const SURE_DIGITS = 15;

/** Speeds, kept in knots. */
export function speedUnit({ speed }: ShownUnits): FieldUnit {
  const mps = { kt: MPS_PER_KNOT, mph: MPS_PER_MPH, 'km/h': MPS_PER_KMH };
  return unit(speed, MPS_PER_KNOT / mps[speed], 'kt');
}

/** Rates of descent, kept in feet a minute. */
export function verticalSpeedUnit({ verticalSpeed }: ShownUnits): FieldUnit {
  return unit(verticalSpeed, verticalSpeed === 'ft/min' ? 1 : METRES_PER_FOOT / 60, 'ft/min');
}

/** Temperatures, kept in degrees Celsius. */
export function temperatureUnit({ temperature }: ShownUnits): FieldUnit {
  const celsius = unit('°C', 1, '°C');
  return temperature === 'C' ? celsius : { ...celsius, symbol: '°F', scale: 1.8, offset: 32 };
}

/** Pressures, kept in hectopascal. */
export function pressureUnit({ pressure }: ShownUnits): FieldUnit {
  return unit(pressure, pressure === 'hPa' ? 1 : PA_PER_HPA / PA_PER_INHG, 'hPa');
}

/** Masses, kept in kilograms. */
export function massUnit({ mass }: ShownUnits): FieldUnit {
  return unit(mass, mass === 'kg' ? 1 : 1 / KG_PER_POUND, 'kg');
}

/** Lengths along the ground, kept in metres. */
export function lengthUnit({ length }: ShownUnits): FieldUnit {
  return metres(length);
}

/** Heights, kept in metres. */
export function heightUnit({ height }: ShownUnits): FieldUnit {
  return metres(height);
}

/** A unit that is shown as it is kept. */
export function sameUnit(symbol: string): FieldUnit {
  return unit(symbol, 1, symbol);
}

/** A kept number as the field shows it; empty where nothing was entered. */
export function showQuantity(kept: number | null, unit: FieldUnit): string {
  return kept === null ? '' : showNumber(kept * unit.scale + unit.offset, unit.decimals);
}

/**
 * The number that a field holds, in the unit in which it is kept.
 *
 * @param before what was kept when the field was filled: an untouched field gives it back exactly
 */
export function readQuantity(text: string, unit: FieldUnit, before: number | null): QuantityText {
  if (text.trim() === showQuantity(before, unit)) return { ok: true, value: before };
  const typed = readNumber(text, unit.symbol);
  if (typed.kind === 'wrong') return { ok: false, message: typed.message };
  if (typed.kind === 'empty') return { ok: true, value: null };
  const value = (typed.value - unit.offset) / unit.scale;
  // The last digit is rounding: 40 ft are kept as 12.192 m, not as 12.192000000000002.
  return { ok: true, value: Number(value.toPrecision(SURE_DIGITS)) };
}

/**
 * A reader's message about a kept number, with the figure as it was typed.
 *
 * @example inTypedUnit('found 162, expected ... kt', '300', kmh) // found 300 km/h (162 kt), expected ...
 */
export function inTypedUnit(message: string, text: string, unit: FieldUnit): string {
  const found = /^found (\S+?)(?: m)?, (expected .*)$/s.exec(message);
  if (!found || unit.symbol === unit.keptSymbol) return message;
  const kept = showNumber(Number(found[1]), 1);
  const figure = readNumber(text, unit.symbol);
  const typed = figure.kind === 'number' ? showNumber(figure.value, 6) : text.trim();
  return `found ${typed} ${unit.symbol} (${kept} ${unit.keptSymbol}), ${found[2]}`;
}

function metres(symbol: 'm' | 'ft'): FieldUnit {
  return unit(symbol, symbol === 'm' ? 1 : 1 / METRES_PER_FOOT, 'm');
}

function unit(symbol: string, scale: number, keptSymbol: string): FieldUnit {
  return { symbol, scale, offset: 0, decimals: 2, keptSymbol };
}
