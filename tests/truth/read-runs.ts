/** Independent flights as they are kept before they are copied to tests/truth: one list of runs, a table a flight. */
import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import type { TruthEvent, TruthFlight } from './read-truth.ts';

/** A run of `truth.json`, as far as it is used. */
interface Run {
  readonly name: string;
  readonly file: string;
  readonly klass: string;
  readonly braking: string | null;
  readonly events: readonly TruthEvent[];
  readonly strip: Readonly<Record<string, number>> & { readonly surface: string };
  readonly wind: { readonly dir_true: number; readonly speed_kt_10m: number };
}

const COLUMNS = {
  t: 't',
  lat: 'lat',
  lon: 'lon',
  alt: 'alt_m',
  agl: 'agl_m',
  gs: 'gs',
  tas: 'tas',
};

/**
 * The flights of a folder with `truth.json` and `data/*.csv.gz`. Throws where a file or column is missing.
 */
export function readRuns(folder: string): TruthFlight[] {
  const { runs } = JSON.parse(readFileSync(`${folder}/truth.json`, 'utf8')) as { runs: Run[] };
  return runs.map(({ name, file, klass, braking, events, strip, wind }) => ({
    name,
    klass,
    braking,
    events,
    strip: {
      thresholdLatDeg: strip['thr_lat'],
      thresholdLonDeg: strip['thr_lon'],
      farLatDeg: strip['far_lat'],
      farLonDeg: strip['far_lon'],
      bearingDeg: strip['true_bearing'],
      lengthM: strip['length_m'],
      elevationThresholdM: strip['elev_thr_m'],
      elevationFarM: strip['elev_far_m'],
      surface: strip.surface,
    },
    wind: { fromDeg: wind.dir_true, speedKt10M: wind.speed_kt_10m },
    columns: readColumns(`${folder}/data/${file}`),
  }));
}

function readColumns(path: string): TruthFlight['columns'] {
  const [head, ...rows] = gunzipSync(readFileSync(path)).toString('utf8').trim().split(/\r?\n/);
  const names = head.split(',');
  const cells = rows.map((row) => row.split(','));
  const column = (name: string): number[] => {
    const at = names.indexOf(name);
    if (at < 0) throw new Error(`${path} has no column ${name}, only ${head}`);
    return cells.map((row) => Number(row[at]));
  };
  const { t, lat, lon, alt, agl, gs, tas } = COLUMNS;
  return {
    t: column(t),
    lat: column(lat),
    lon: column(lon),
    alt: column(alt),
    agl: column(agl),
    gs: column(gs),
    tas: column(tas),
  };
}
