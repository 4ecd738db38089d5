/**
 * What does one GPX track point say?
 *
 * Inputs: its attributes, then its child elements one by one. Outputs: numbers, NaN where nothing
 * or nothing readable was written. Speed, course and accuracy are taken wherever they stand: as
 * children (GPX 1.0), or anywhere in the extensions, in any namespace or none, because loggers
 * agree on the words only.
 * Source: GPX 1.0 and 1.1 schemas (topografix.com/GPX/1/0 and /1/1); names of extension elements
 * from common practice, no source.
 */

import { MPS_PER_KMH, MPS_PER_KNOT, MPS_PER_MPH } from '../units/convert.ts';
import type { XmlAttributes } from '../xml/xml-reader.ts';

/** Element names, lower case, by what they mean. */
const MEANING: ReadonlyMap<string, 'speed' | 'course' | 'accuracy' | 'verticalAccuracy'> = new Map([
  ['speed', 'speed'],
  ['groundspeed', 'speed'],
  ['ground_speed', 'speed'],
  ['gpsspeed', 'speed'],
  ['gps_speed', 'speed'],
  ['course', 'course'],
  ['bearing', 'course'],
  ['cog', 'course'],
  ['hacc', 'accuracy'],
  ['h_acc', 'accuracy'],
  ['horizontalaccuracy', 'accuracy'],
  ['horizontal_accuracy', 'accuracy'],
  ['accuracy', 'accuracy'],
  ['vacc', 'verticalAccuracy'],
  ['v_acc', 'verticalAccuracy'],
  ['verticalaccuracy', 'verticalAccuracy'],
  ['vertical_accuracy', 'verticalAccuracy'],
]);

/** Units a speed element may name in an attribute, lower case, in metres a second. */
const SPEED_UNITS: ReadonlyMap<string, number> = new Map([
  ['m/s', 1],
  ['mps', 1],
  ['km/h', MPS_PER_KMH],
  ['kmh', MPS_PER_KMH],
  ['kph', MPS_PER_KMH],
  ['kt', MPS_PER_KNOT],
  ['kn', MPS_PER_KNOT],
  ['kts', MPS_PER_KNOT],
  ['knots', MPS_PER_KNOT],
  ['mph', MPS_PER_MPH],
]);

/** One track point, filled element by element; the same object serves every point of a file. */
export class GpxPoint {
  line = 0;
  latDeg = NaN;
  lonDeg = NaN;
  heightM = NaN;
  /** As written; empty where there was none. */
  timeText = '';
  geoidHeightM = NaN;
  groundSpeedMps = NaN;
  courseDeg = NaN;
  accuracyM = NaN;
  verticalAccuracyM = NaN;
  /** False where the point says `none` or `2d`, as a void IGC fix would. */
  valid = true;
  /** True where a speed came without a unit, so that metres a second had to be assumed. */
  speedUnitAssumed = false;
  private speedUnit = 1;
  private unitNamed = false;

  /** Begins a point. `line` counts from 1. */
  begin(attributes: XmlAttributes, line: number): void {
    this.line = line;
    this.latDeg = readNumber(attributes['lat']);
    this.lonDeg = readNumber(attributes['lon']);
    this.heightM = NaN;
    this.timeText = '';
    this.geoidHeightM = NaN;
    this.groundSpeedMps = NaN;
    this.courseDeg = NaN;
    this.accuracyM = NaN;
    this.verticalAccuracyM = NaN;
    this.valid = true;
    this.speedUnitAssumed = false;
  }

  /** An element begins inside the point: its unit, if it names one, is for its text. */
  openChild(attributes: XmlAttributes): void {
    const unit = attributes['unit'] || attributes['uom'] || '';
    const factor = SPEED_UNITS.get(unit.trim().toLowerCase());
    this.unitNamed = factor !== undefined;
    this.speedUnit = factor ?? 1;
  }

  /** An element ends inside the point; `direct` tells a child from something deeper in extensions. */
  closeChild(name: string, text: string, direct: boolean): void {
    if (direct && name === 'ele') this.heightM = readNumber(text);
    else if (direct && name === 'time') this.timeText = text;
    else if (direct && name === 'geoidheight') this.geoidHeightM = readNumber(text);
    else if (direct && name === 'fix') this.valid = !/^\s*(?:none|2d)\s*$/i.test(text);
    else this.closeMeasurement(MEANING.get(name.toLowerCase()), text);
  }

  private closeMeasurement(
    meaning: 'speed' | 'course' | 'accuracy' | 'verticalAccuracy' | undefined,
    text: string,
  ): void {
    if (meaning === undefined) return;
    const value = readNumber(text);
    // Recorders write -1 for "not known".
    if (!(value >= 0)) return;
    if (meaning === 'speed' && Number.isNaN(this.groundSpeedMps)) {
      this.groundSpeedMps = value * this.speedUnit;
      this.speedUnitAssumed = !this.unitNamed;
    } else if (meaning === 'course' && Number.isNaN(this.courseDeg) && value <= 360) {
      this.courseDeg = value % 360;
    } else if (meaning === 'accuracy' && Number.isNaN(this.accuracyM)) {
      this.accuracyM = value;
    } else if (meaning === 'verticalAccuracy' && Number.isNaN(this.verticalAccuracyM)) {
      this.verticalAccuracyM = value;
    }
  }
}

/** A decimal number; NaN for nothing, for other text and for anything infinite. */
function readNumber(text: string | undefined): number {
  // An empty text would count as 0.
  if (text === undefined || text.trim() === '') return NaN;
  const value = Number(text);
  return Number.isFinite(value) ? value : NaN;
}
