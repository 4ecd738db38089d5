/**
 * A figure as a picture, its sentence and its table cell write it: value, unit and band apart.
 *
 * In: a quantity in SI with its band, and the pilot's units. Out: text ready to set, and the same as
 * read out. The rounding is stated here: lengths, heights and speeds to whole units, seconds and
 * degrees to one decimal, ratios to two, rates of descent to ten feet a minute; the low end of a band
 * down and the high end up, so that the band never holds less than it was measured to hold. A band
 * whose two ends are the figure itself says nothing and is left out. Minus signs are true ones; no
 * thousands mark below 10 000.
 */
import { isUndetermined, type Measured } from '../result.ts';
import { inPilotUnits, type TextUnits } from './figures-in-text.ts';
import { METRES_PER_FOOT, MPS_PER_KMH, MPS_PER_KNOT, MPS_PER_MPH } from '../units/convert.ts';
import { toStep } from './rounding.ts';

/** What the pilot reads lengths, heights and speeds in; and what stands in notes and reasons. */
export interface PilotUnits extends TextUnits {
  readonly length: 'm' | 'ft';
  /** Feet a minute where not given. */
  readonly verticalSpeed?: 'ft/min' | 'm/s';
  /** Zone of the IANA database in which days and clocks are read; UTC where not given. */
  readonly timeZone?: string;
}

/** Metres along the strip, feet above it, knots. */
export const USUAL_UNITS: PilotUnits = { length: 'm', height: 'ft', speed: 'kt' };

/** A unit with its name and its size in SI. */
export interface Unit {
  readonly symbol: string;
  /** SI units in one of it: 0.3048 for a foot. */
  readonly si: number;
  /** Read out, plural. */
  readonly spoken: string;
}

/** A figure ready to set. `band` is empty where the figure is known exactly. */
export interface FigureText {
  readonly value: string;
  readonly unit: string;
  readonly band: string;
  /** Read out: `183 metres, between 171 and 196`. */
  readonly spoken: string;
}

/** Stands in a figure's place where the data cannot tell. */
export interface NoFigure {
  readonly reason: string;
}

/** A no-break space: value and unit stay on one line. */
export const NBSP = '\u00a0';
const MINUS = '\u2212';
const EN_DASH = '\u2013';

const UNITS: Readonly<Record<'m' | 'ft' | 'kt' | 'mph' | 'km/h', Unit>> = {
  m: { symbol: 'm', si: 1, spoken: 'metres' },
  ft: { symbol: 'ft', si: METRES_PER_FOOT, spoken: 'feet' },
  kt: { symbol: 'kt', si: MPS_PER_KNOT, spoken: 'knots' },
  mph: { symbol: 'mph', si: MPS_PER_MPH, spoken: 'miles an hour' },
  'km/h': { symbol: 'km/h', si: MPS_PER_KMH, spoken: 'kilometres an hour' },
};

const SECONDS: Unit = { symbol: 's', si: 1, spoken: 'seconds' };

/** The unit behind a pilot's choice, for axes and tapes. */
export function unitOf(symbol: keyof typeof UNITS): Unit {
  return UNITS[symbol];
}

/** A length along the ground; metres in, whole units of the pilot's choice out. */
export function lengthFigure(metres: Measured | number, units: PilotUnits): FigureText | NoFigure {
  return figureIn(units, metres, UNITS[units.length], 0);
}

/**
 * A length as it is shown, in whole units of the pilot's choice. What stands beside other figures as
 * their sum or difference is made of these, so that a reader who adds comes to the same.
 */
export function wholeUnits(metres: number, units: PilotUnits): number {
  const value = metres / UNITS[units.length].si;
  return Math.sign(value) * Math.round(Math.abs(value)) + 0;
}

/** Metres between two lengths as they are shown: `minuendM` less `subtrahendM`, each rounded first. */
export function shownDifferenceM(minuendM: number, subtrahendM: number, units: PilotUnits): number {
  const whole = wholeUnits(minuendM, units) - wholeUnits(subtrahendM, units);
  return whole * UNITS[units.length].si;
}

/** A height over a strip or an obstacle; metres in, whole units out. */
export function heightFigure(metres: Measured | number, units: PilotUnits): FigureText | NoFigure {
  return figureIn(units, metres, UNITS[units.height], 0);
}

/** A time, seconds; whole ones out. */
export function secondsFigure(seconds: Measured | number): FigureText | NoFigure {
  return figure(seconds, SECONDS, 0);
}

/** A speed; metres a second in, whole units out. */
export function speedFigure(mps: Measured | number, units: PilotUnits): FigureText | NoFigure {
  return figureIn(units, mps, UNITS[units.speed], 0);
}

/** A rate of descent; metres a second in, tens of feet a minute or tenths of metres a second out. */
export function descentFigure(mps: Measured | number, units: PilotUnits): FigureText | NoFigure {
  const inFeet: Unit = { symbol: 'ft/min', si: METRES_PER_FOOT / 60, spoken: 'feet a minute' };
  return (units.verticalSpeed ?? 'ft/min') === 'ft/min'
    ? figureIn(units, mps, inFeet, -1)
    : figureIn(units, mps, { symbol: 'm/s', si: 1, spoken: 'metres a second' }, 1);
}

/** How good an airspeed estimated from a track is: `about 5 kt`. */
export function airspeedError(units: PilotUnits): string {
  return `about ${figureValue(speedFigure(5 * MPS_PER_KNOT, units))}`;
}

/** How many, whole ones. */
export function countFigure(count: Measured | number): FigureText | NoFigure {
  return figure(count, { symbol: '', si: 1, spoken: '' }, 0);
}

/** A ratio or a factor, two decimals. */
export function ratioFigure(ratio: Measured | number): FigureText | NoFigure {
  return figure(ratio, { symbol: '', si: 1, spoken: '' }, 2);
}

/** An angle, one decimal. */
export function angleFigure(degrees: Measured | number): FigureText | NoFigure {
  return figure(degrees, { symbol: '°', si: 1, spoken: 'degrees' }, 1);
}

/** A share in whole per cent; 0.68 in, `68 %` out. */
export function shareFigure(share: Measured | number): FigureText | NoFigure {
  return figure(share, { symbol: '%', si: 0.01, spoken: 'per cent' }, 0);
}

/** True where there is a figure to set. */
export function hasFigure(figure: FigureText | NoFigure): figure is FigureText {
  return 'value' in figure;
}

/** `183 m 171–196` in one line; the reason where there is no figure. */
export function figureLine(figure: FigureText | NoFigure): string {
  if (!hasFigure(figure)) return figure.reason;
  return figure.band === '' ? withUnit(figure) : `${withUnit(figure)} ${figure.band}`;
}

/** `183 m` without its band; the reason where there is no figure. */
export function figureValue(figure: FigureText | NoFigure): string {
  return hasFigure(figure) ? withUnit(figure) : figure.reason;
}

/** Read out; `undetermined` and why where there is no figure. */
export function figureSpoken(figure: FigureText | NoFigure): string {
  return hasFigure(figure) ? figure.spoken : `undetermined: ${figure.reason}`;
}

/**
 * A number with a true minus, no minus before zero, and a mark only from 10 000 up.
 *
 * @param decimals negative ones round to tens, hundreds
 */
export function numberText(value: number, decimals: number): string {
  if (decimals >= 0) return signed(value, Math.abs(value).toFixed(decimals));
  const step = 10 ** -decimals;
  return signed(value, (Math.round(Math.abs(value) / step) * step).toFixed(0));
}

function signed(value: number, digits: string): string {
  const isZero = Number(digits) === 0;
  const [whole, ...rest] = digits.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, NBSP) : whole;
  return [(value < 0 && !isZero ? MINUS : '') + grouped, ...rest].join('.');
}

function withUnit({ value, unit }: FigureText): string {
  if (unit === '') return value;
  return unit === '°' ? value + unit : value + NBSP + unit;
}

function figure(quantity: Measured | number, unit: Unit, decimals: number): FigureText | NoFigure {
  if (typeof quantity === 'number') {
    if (!Number.isFinite(quantity)) return { reason: 'not known' };
    const value = numberText(quantity / unit.si, decimals);
    return { value, unit: unit.symbol, band: '', spoken: spokenValue(value, unit) };
  }
  if (isUndetermined(quantity)) return { reason: quantity.undetermined };
  const value = numberText(quantity.value / unit.si, decimals);
  const step = 10 ** -decimals;
  const low = numberText(toStep(quantity.low / unit.si, step, 'down'), decimals);
  const high = numberText(toStep(quantity.high / unit.si, step, 'up'), decimals);
  const said = spokenValue(value, unit);
  const band = bandText(low, high);
  return {
    value,
    unit: unit.symbol,
    band,
    spoken: band === '' ? said : `${said}, between ${spokenNumber(low)} and ${spokenNumber(high)}`,
  };
}

/** A figure whose reason, where there is none, speaks in the pilot's units too. */
function figureIn(
  units: PilotUnits,
  quantity: Measured | number,
  unit: Unit,
  decimals: number,
): FigureText | NoFigure {
  const shown = figure(quantity, unit, decimals);
  return hasFigure(shown) ? shown : { reason: inPilotUnits(shown.reason, units) };
}

/**
 * Two ends, already rounded outwards, as a band. Where both read the same the value between them does
 * too, so that a band would be a claim of exactness: there is none.
 */
export function bandText(low: string, high: string): string {
  if (low === high) return '';
  // Two minus signs with a dash between them cannot be read.
  return high.startsWith(MINUS) ? `${low} to ${high}` : `${low}${EN_DASH}${high}`;
}

function spokenValue(value: string, unit: Unit): string {
  const number = spokenNumber(value);
  if (unit.spoken === '') return number;
  const name = value === '1' && unit.symbol === 'm' ? 'metre' : unit.spoken;
  return `${number} ${name}`;
}

function spokenNumber(value: string): string {
  return value.replace(MINUS, 'minus ').replaceAll(NBSP, '');
}
