/**
 * The conditions of one visit, as entered. Nothing is assumed: a field that nobody entered is null.
 */

import type { GateLimits } from './gate-limits.ts';

/** Wind as entered. */
export interface EnteredWind {
  /** Direction it blows from, degrees; null when variable or calm. */
  readonly fromDeg: number | null;
  readonly reference: 'true' | 'magnetic';
  readonly speedKt: number;
  readonly gustKt: number | null;
}

/** Surface state of the day, in plain words. `long-grass`, `standing-water` and `snow` have no published factor. */
export type SurfaceState =
  | 'hard-dry'
  | 'hard-wet'
  | 'grass-dry'
  | 'grass-wet'
  | 'grass-wet-very-short'
  | 'grass-long'
  | 'soft'
  | 'standing-water'
  | 'snow';

/** Conditions of one flight at one strip. */
export interface Conditions {
  readonly wind: EnteredWind | null;
  /** Where the wind was reported, when it is not the strip's own but that of a METAR; else absent or null. */
  readonly windReportedAt?: string | null;
  readonly tempC: number | null;
  readonly qnhHpa: number | null;
  /** Mass at landing, kg. */
  readonly massKg: number | null;
  /** Mass at take-off, kg; the landing mass serves where it is null. */
  readonly takeOffMassKg: number | null;
  readonly surface: SurfaceState | null;
  /** Flap setting, a label of the aeroplane's own table. */
  readonly flap: string | null;
  /** Id of the aeroplane flown; null: the one given. */
  readonly aeroplane: string | null;
  /** Factor set to predict with; null: the default. */
  readonly factorSet: string | null;
  /** The pilot's mark of how hard this landing was braked. */
  readonly effort: 'full' | 'normal' | 'coasted' | null;
  /** The pilot's own limits for a final; absent or null: none are held against it. */
  readonly gateLimits?: GateLimits | null;
}

/** Conditions of which nothing was entered. */
export const NO_CONDITIONS: Conditions = {
  wind: null,
  tempC: null,
  qnhHpa: null,
  massKg: null,
  takeOffMassKg: null,
  surface: null,
  flap: null,
  aeroplane: null,
  factorSet: null,
  effort: null,
};

/** Conditions for all flights and, by file name, for single ones (a single one's fields win). */
export interface ConditionsBook {
  readonly all: Conditions | null;
  readonly byFile: ReadonlyMap<string, Conditions>;
}
