/**
 * How do fixes become equal-length columns while nobody knows yet how many there are?
 *
 * Inputs: fixes one by one. Output: a Track whose columns all have the same length; whatever was
 * not given for a fix is NaN in its own slot.
 */

import type { HeightDatum, PressureDatum, Track, TrackFormat } from './track.ts';

const FIRST_CAPACITY = 4096;

/** Names of the measured columns that may be missing, all Float64Array of the Track. */
const OPTIONAL_COLUMNS = [
  'heightM',
  'geoidHeightM',
  'pressureHeightM',
  'groundSpeedMps',
  'courseDeg',
  'trueAirspeedMps',
  'indicatedAirspeedMps',
  'accuracyM',
  'verticalAccuracyM',
  'engineNoise',
] as const;

/** All columns of 64-bit floats. */
const FLOAT_COLUMNS = ['timeS', 'latDeg', 'lonDeg', ...OPTIONAL_COLUMNS] as const;

/** What a Track states once for all its fixes. */
export interface TrackStatement {
  readonly format: TrackFormat;
  readonly heightDatum: HeightDatum;
  readonly pressureDatum: PressureDatum;
  /** Seconds. */
  readonly timeStepS: number;
  /** Metres north-south. */
  readonly positionStepM: number;
}

/**
 * Columns that grow. `append` opens a slot; the optional columns of that slot are NaN until set:
 * `columns.heightM[i] = 12`. Always reach them through the builder: growing replaces the arrays.
 */
export class TrackColumns {
  length = 0;
  timeS = new Float64Array(FIRST_CAPACITY);
  latDeg = new Float64Array(FIRST_CAPACITY);
  lonDeg = new Float64Array(FIRST_CAPACITY);
  heightM = missing(FIRST_CAPACITY);
  geoidHeightM = missing(FIRST_CAPACITY);
  pressureHeightM = missing(FIRST_CAPACITY);
  groundSpeedMps = missing(FIRST_CAPACITY);
  courseDeg = missing(FIRST_CAPACITY);
  trueAirspeedMps = missing(FIRST_CAPACITY);
  indicatedAirspeedMps = missing(FIRST_CAPACITY);
  accuracyM = missing(FIRST_CAPACITY);
  verticalAccuracyM = missing(FIRST_CAPACITY);
  engineNoise = missing(FIRST_CAPACITY);
  segment = new Int32Array(FIRST_CAPACITY);
  valid = new Uint8Array(FIRST_CAPACITY);
  line = new Int32Array(FIRST_CAPACITY);

  /** Opens the slot of a fix and returns its index. Time in UTC seconds, position in degrees, line from 1. */
  append(timeS: number, latDeg: number, lonDeg: number, segment: number, line: number): number {
    const i = this.length;
    if (i === this.timeS.length) this.grow();
    this.timeS[i] = timeS;
    this.latDeg[i] = latDeg;
    this.lonDeg[i] = lonDeg;
    this.segment[i] = segment;
    this.valid[i] = 1;
    this.line[i] = line;
    this.length = i + 1;
    return i;
  }

  /** The finished track; the builder must not be used afterwards. */
  finish(statement: TrackStatement): Track {
    const n = this.length;
    const floats = {} as Record<(typeof FLOAT_COLUMNS)[number], Float64Array>;
    for (const name of FLOAT_COLUMNS) floats[name] = this[name].slice(0, n);
    return {
      ...statement,
      ...floats,
      length: n,
      segment: this.segment.slice(0, n),
      valid: this.valid.slice(0, n),
      line: this.line.slice(0, n),
    };
  }

  private grow(): void {
    const capacity = this.timeS.length * 2;
    for (const name of FLOAT_COLUMNS) {
      const wider = new Float64Array(capacity);
      wider.set(this[name]);
      this[name] = wider;
    }
    for (const name of OPTIONAL_COLUMNS) this[name].fill(NaN, this.length);
    const segment = new Int32Array(capacity);
    segment.set(this.segment);
    this.segment = segment;
    const valid = new Uint8Array(capacity);
    valid.set(this.valid);
    this.valid = valid;
    const line = new Int32Array(capacity);
    line.set(this.line);
    this.line = line;
  }
}

/**
 * A track of the fixes at `order`, in that order; the other track is untouched.
 * Shape: indices into `track`, each 0 <= i < track.length. Fails: throws RangeError on an index outside.
 */
export function pickFixes(track: Track, order: Int32Array): Track {
  const n = order.length;
  const floats = {} as Record<(typeof FLOAT_COLUMNS)[number], Float64Array>;
  for (const name of FLOAT_COLUMNS) floats[name] = new Float64Array(n);
  const segment = new Int32Array(n);
  const valid = new Uint8Array(n);
  const line = new Int32Array(n);
  for (let k = 0; k < n; k++) {
    const i = order[k];
    if (!(i >= 0 && i < track.length)) {
      throw new RangeError(`fix ${i} is outside the track of ${track.length} fixes`);
    }
    segment[k] = track.segment[i];
    valid[k] = track.valid[i];
    line[k] = track.line[i];
  }
  for (const name of FLOAT_COLUMNS) {
    const from = track[name];
    const into = floats[name];
    for (let k = 0; k < n; k++) into[k] = from[order[k]];
  }
  return { ...track, ...floats, length: n, segment, valid, line };
}

function missing(length: number): Float64Array {
  return new Float64Array(length).fill(NaN);
}
