/**
 * Satellite and pressure heights over a strip as one column of rows.
 *
 * In: rows of either kind. Out: both together, each row with its kind, its white noise and the ground
 * speed, on which the static error of a pressure height depends.
 */

/** Heights of one kind above the strip's surface. */
export interface HeightRows {
  readonly timeS: Float64Array;
  readonly heightM: Float64Array;
  /** Ground speed at each row, m/s. */
  readonly speedMps: Float64Array;
  /** White noise of each row, metres. */
  readonly noiseSdM: Float64Array;
  /** Where nobody entered the strip's elevations, metres along it at each row: its slope is unknown. Else null. */
  readonly tiltedM: Float64Array | null;
  /** Where a strip is known by the elevations of its ends alone: share of a hollow or crest at each row, 1 half-way and 0 at the ends. Else null. */
  readonly bow: Float64Array | null;
}

/** Rows of both kinds; a pressure row answers for one delay earlier. */
export interface HeightStack {
  readonly n: number;
  readonly timeS: Float64Array;
  readonly heightM: Float64Array;
  readonly speedMps: Float64Array;
  readonly noiseVar: Float64Array;
  /** Metres along a strip of unknown slope; null where the slope is known. */
  readonly tiltedM: Float64Array | null;
  /** Share of a hollow or crest; null where the ground between the ends is known, or not even its slope. */
  readonly bow: Float64Array | null;
  /** 0: satellite height, 1: pressure height. */
  readonly kind: Uint8Array;
  readonly hasSatellite: boolean;
  readonly hasPressure: boolean;
}

/**
 * Stacks rows of both kinds in the order of time.
 *
 * @param lagS delay of the pressure heights behind the satellite heights, seconds; negative: before
 * them. Either kind may be null; with both null the stack is empty. Never fails.
 */
export function stackRows(
  satellite: HeightRows | null,
  pressure: HeightRows | null,
  lagS: number,
  order: 'earliest first' | 'latest first',
): HeightStack {
  const rows = [...listRows(satellite, 0, 0), ...listRows(pressure, 1, lagS)];
  const sign = order === 'earliest first' ? 1 : -1;
  rows.sort((a, b) => sign * (a.timeS - b.timeS));
  const known = (column: Float64Array | null | undefined, of: (row: Row) => number) =>
    column ? Float64Array.from(rows, of) : null;
  return {
    n: rows.length,
    timeS: Float64Array.from(rows, (row) => row.timeS),
    heightM: Float64Array.from(rows, (row) => row.heightM),
    speedMps: Float64Array.from(rows, (row) => row.speedMps),
    noiseVar: Float64Array.from(rows, (row) => row.noiseVar),
    tiltedM: known(satellite?.tiltedM ?? pressure?.tiltedM, (row) => row.tiltedM),
    bow: known(satellite?.bow ?? pressure?.bow, (row) => row.bow),
    kind: Uint8Array.from(rows, (row) => row.kind),
    hasSatellite: satellite !== null,
    hasPressure: pressure !== null,
  };
}

interface Row {
  readonly timeS: number;
  readonly heightM: number;
  readonly speedMps: number;
  readonly noiseVar: number;
  readonly tiltedM: number;
  readonly bow: number;
  readonly kind: number;
}

function listRows(rows: HeightRows | null, kind: number, lagS: number): Row[] {
  if (!rows) return [];
  return Array.from(rows.timeS, (timeS, i) => ({
    timeS: timeS - lagS,
    heightM: rows.heightM[i],
    speedMps: rows.speedMps[i],
    noiseVar: rows.noiseSdM[i] ** 2,
    tiltedM: rows.tiltedM?.[i] ?? 0,
    bow: rows.bow?.[i] ?? 0,
    kind,
  }));
}
