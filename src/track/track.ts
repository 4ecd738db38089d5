/**
 * The track: what a recorder wrote, as equal-length columns.
 *
 * Every column has a slot for every fix; a missing value is NaN in its own slot, so columns never
 * slip against each other. Nothing here is smoothed or repaired.
 */

/** File formats a track may come from. */
export type TrackFormat = 'igc' | 'gpx' | 'kml' | 'nmea';

/**
 * What a satellite height counts from, as the file declares it: the WGS 84 ellipsoid, the geoid
 * (mean sea level), or `unstated` where the format or the file does not say.
 */
export type HeightDatum = 'ellipsoid' | 'geoid' | 'unstated';

/** What a pressure height counts from: the 1013.25 hPa standard, or `unstated`. */
export type PressureDatum = 'standard' | 'unstated';

/** Columns of fixes in file order. All arrays have `length` slots; missing values are NaN. */
export interface Track {
  readonly format: TrackFormat;
  readonly length: number;
  /** UTC seconds since 1970. */
  readonly timeS: Float64Array;
  /** WGS 84 latitude, degrees north. */
  readonly latDeg: Float64Array;
  /** WGS 84 longitude, degrees east, -180 <= lon < 180. */
  readonly lonDeg: Float64Array;
  /** Height from the satellite receiver, metres over `heightDatum`. */
  readonly heightM: Float64Array;
  readonly heightDatum: HeightDatum;
  /** Geoid above ellipsoid as the file states it at the fix, metres. */
  readonly geoidHeightM: Float64Array;
  /** Pressure height, metres over `pressureDatum`. */
  readonly pressureHeightM: Float64Array;
  readonly pressureDatum: PressureDatum;
  /** Recorded ground speed, metres a second. */
  readonly groundSpeedMps: Float64Array;
  /** Recorded track over the ground, degrees true. */
  readonly courseDeg: Float64Array;
  /** Recorded true airspeed, metres a second. */
  readonly trueAirspeedMps: Float64Array;
  /** Recorded indicated airspeed, metres a second. */
  readonly indicatedAirspeedMps: Float64Array;
  /** Recorded horizontal accuracy, metres. */
  readonly accuracyM: Float64Array;
  /** Recorded vertical accuracy, metres. */
  readonly verticalAccuracyM: Float64Array;
  /** Recorded engine noise level, 0-999 (IGC ENL). */
  readonly engineNoise: Float64Array;
  /** Index of the track segment the fix belongs to, counted over the whole file from 0. */
  readonly segment: Int32Array;
  /** 1 where the recorder called the fix three-dimensional or did not say, 0 where it called it void. */
  readonly valid: Uint8Array;
  /** Line of the file (counted from 1) on which the fix begins. */
  readonly line: Int32Array;
  /** Smallest step of the recorded times, seconds: 1 for whole seconds, 0.001 for milliseconds. */
  readonly timeStepS: number;
  /** Coarsest step of the recorded positions, metres north-south (IGC 0.001 minute: 1.85). */
  readonly positionStepM: number;
}

/** Something the decoder did not use: where (line from 1), how many fixes or records, and why. */
export interface LeftOut {
  readonly line: number;
  readonly count: number;
  readonly reason: string;
}

/** A waypoint, declared task point or event that came with the track. */
export interface TrackNote {
  readonly line: number;
  readonly timeS: number;
  readonly kind: string;
  readonly text: string;
}

/** What a decoder makes of one file: the track, what came with it, and what it could not use. */
export interface DecodedTrack {
  /** Fixes in file order; not cleaned. Length 0 where the file is readable but holds no usable fix. */
  readonly track: Track;
  /**
   * What the file says about itself, as text to be shown and never trusted. Keys: the record's
   * letters for IGC (`A`, `HFPLT`, `HFGTY`...), dotted element names for GPX (`gpx.creator`,
   * `metadata.name`, `trk.1.name`...).
   */
  readonly headers: ReadonlyMap<string, string>;
  readonly leftOut: readonly LeftOut[];
  readonly notes: readonly TrackNote[];
}
