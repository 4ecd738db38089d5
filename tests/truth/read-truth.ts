/**
 * The independent flights with known events, as columns.
 *
 * In: the gzipped JSON files beside this one. Out: one record a flight; README.md explains the fields.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';

/** One event; which of the numbers it has depends on its type. */
export interface TruthEvent {
  readonly type: 'landing' | 'liftoff' | 'liftoff_tg' | 'go_around' | 'climb_50ft';
  readonly kind?: string;
  readonly [field: string]: unknown;
}

/** One flight. */
export interface TruthFlight {
  readonly name: string;
  readonly klass: string;
  readonly braking: string | null;
  readonly strip: {
    readonly thresholdLatDeg: number;
    readonly thresholdLonDeg: number;
    readonly farLatDeg: number;
    readonly farLonDeg: number;
    readonly bearingDeg: number;
    readonly lengthM: number;
    readonly elevationThresholdM: number;
    readonly elevationFarM: number;
    readonly surface: string;
  };
  readonly wind: { readonly fromDeg: number; readonly speedKt10M: number };
  readonly events: readonly TruthEvent[];
  readonly columns: {
    readonly t: readonly number[];
    readonly lat: readonly number[];
    readonly lon: readonly number[];
    readonly alt: readonly number[];
    readonly agl: readonly number[];
    readonly gs: readonly number[];
    readonly tas: readonly number[];
  };
}

/** Reads all flights, in order of name. `folder` is seen from where the tests run. */
export function readTruthFlights(folder = 'tests/truth'): TruthFlight[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json.gz'))
    .sort()
    .map((name) => {
      const text = gunzipSync(readFileSync(`${folder}/${name}`)).toString('utf8');
      return JSON.parse(text) as TruthFlight;
    });
}

/** A number of an event. Throws where the event has none of that name. */
export function numberOf(event: TruthEvent, field: string): number {
  const value = event[field];
  if (typeof value !== 'number') throw new Error(`event ${event.type} has no number ${field}`);
  return value;
}
