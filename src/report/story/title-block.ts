/**
 * The title block: on what the figures rest, as entered.
 *
 * In: a flight's conditions and the pilot's units. Out: cells; a null value was not entered, and is
 * shown as missing, never as calm or dry.
 */
import type { ShownUnits } from '../../logbook/entry.ts';
import { isUndetermined, type Undetermined } from '../../result.ts';
import {
  KG_PER_POUND,
  MPS_PER_KMH,
  MPS_PER_KNOT,
  MPS_PER_MPH,
  PA_PER_HPA,
  PA_PER_INHG,
} from '../../units/convert.ts';
import type { Conditions, EnteredWind, SurfaceState } from '../../weather/conditions.ts';
import { NBSP, numberText } from '../figure-text.ts';

/** One cell. */
export interface BlockCell {
  readonly label: string;
  /** Null: nobody entered it. */
  readonly value: string | null;
}

/** Surface states in words. */
export const SURFACE_WORDS: Readonly<Record<SurfaceState, string>> = {
  'hard-dry': 'hard, dry',
  'hard-wet': 'hard, wet',
  'grass-dry': 'grass, dry',
  'grass-wet': 'grass, wet',
  'grass-wet-very-short': 'grass, wet, very short',
  'grass-long': 'grass, long',
  soft: 'soft ground',
  'standing-water': 'standing water',
  snow: 'snow',
};

/** Cells in the order of the block; mass is the landing's or the take-off's. */
export function titleBlock(
  conditions: Conditions | Undetermined,
  phase: 'landing' | 'take-off',
  units: ShownUnits,
): BlockCell[] {
  const entered = isUndetermined(conditions) ? null : conditions;
  const massKg =
    phase === 'take-off' ? (entered?.takeOffMassKg ?? entered?.massKg) : entered?.massKg;
  return [
    { label: 'Wind', value: entered?.wind ? windText(entered.wind, units) : null },
    { label: 'Temp', value: textOf(entered?.tempC, (tempC) => temperatureText(tempC, units)) },
    { label: 'QNH', value: textOf(entered?.qnhHpa, (hPa) => pressureText(hPa, units)) },
    { label: 'Mass', value: textOf(massKg, (kg) => massText(kg, units)) },
    { label: 'Surface', value: textOf(entered?.surface, (state) => SURFACE_WORDS[state]) },
  ];
}

function textOf<T>(value: T | null | undefined, text: (value: T) => string): string | null {
  return value === null || value === undefined ? null : text(value);
}

/** `250° 8 kt, gusts 14`, in the pilot's unit of speed. */
export function windText(
  { fromDeg, reference, speedKt, gustKt }: EnteredWind,
  units: Pick<ShownUnits, 'speed'>,
): string {
  const isGusty = gustKt !== null && gustKt > 0;
  if (speedKt === 0 && !isGusty) return 'calm';
  const perKnot = MPS_PER_KNOT / MPS_PER[units.speed];
  const speed = `${numberText(speedKt * perKnot, 0)}${NBSP}${units.speed}`;
  const gust = gustKt === null ? '' : `, gusts${NBSP}${numberText(gustKt * perKnot, 0)}`;
  if (fromDeg === null) return `variable ${speed}${gust}`;
  const from = `${String(Math.round(fromDeg)).padStart(3, '0')}°`;
  return `${from}${reference === 'magnetic' ? 'M' : ''} ${speed}${gust}`;
}

const MPS_PER = { kt: MPS_PER_KNOT, mph: MPS_PER_MPH, 'km/h': MPS_PER_KMH } as const;

function temperatureText(tempC: number, { temperature }: ShownUnits): string {
  return temperature === 'C'
    ? `${numberText(tempC, 0)}${NBSP}°C`
    : `${numberText((tempC * 9) / 5 + 32, 0)}${NBSP}°F`;
}

function pressureText(qnhHpa: number, { pressure }: ShownUnits): string {
  return pressure === 'hPa'
    ? String(Math.round(qnhHpa))
    : ((qnhHpa * PA_PER_HPA) / PA_PER_INHG).toFixed(2);
}

function massText(massKg: number, { mass }: ShownUnits): string {
  return mass === 'kg'
    ? `${numberText(massKg, 0)}${NBSP}kg`
    : `${numberText(massKg / KG_PER_POUND, 0)}${NBSP}lb`;
}
