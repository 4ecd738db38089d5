/**
 * What track does a GPX file hold?
 *
 * Inputs: the bytes of the file. Outputs: one track with all points of all tracks in file order,
 * segments numbered; headers, waypoints and route points as notes; what was left out, by line.
 * Streams, so that a day at 5 fixes a second needs little more memory than its columns.
 * Source: GPX 1.0 and 1.1 schemas (topografix.com/GPX/1/0 and /1/1): WGS 84 degrees, metres, UTC.
 */

import type { Problem, Result } from '../result.ts';
import { failure, problem, success } from '../result.ts';
import type { XmlAttributes, XmlReading } from '../xml/xml-reader.ts';
import { readXml } from '../xml/xml-reader.ts';
import { TrackColumns } from './decode-columns.ts';
import { GpxPoint } from './decode-gpx-point.ts';
import { LeftOutList } from './decode-left-out.ts';
import { IsoTimeReader } from './decode-time.ts';
import type { DecodedTrack, HeightDatum, Track, TrackNote } from './track.ts';

const METRES_PER_DEGREE = 111_195;
/** Further decimals of a degree are below a tenth of a millimetre. */
const MAX_POSITION_DECIMALS = 9;
const MAX_NOTES = 10_000;
const MAX_HEADERS = 500;
const MAX_HEADER_CHARS = 500;

/**
 * Reads a GPX file, 1.0 or 1.1, in any encoding, with namespaces or without.
 *
 * Shape: fixes in file order; `segment` counts the segments that hold a fix. Heights: where points
 * carry geoidheight, `ele` is taken as above the geoid, as in the NMEA sentence that geoidheight
 * is defined by; otherwise the datum is unstated. Speeds are metres a second unless their element
 * names a unit. Points without a readable time or position are left out.
 * Fails: a failure where the text is not XML or its outermost element is not gpx. Where the XML
 * breaks off, everything before is kept with a warning that names the line. A file without usable
 * time gives a track of length 0 and a problem.
 */
export function decodeGpx(bytes: Uint8Array): Result<DecodedTrack> {
  const reader = new GpxReader();
  const reading = readXml(bytes, {
    open: (name, attributes, line) => reader.open(name, attributes, line),
    close: (name, text) => reader.close(name, text),
  });
  return reader.result(reading);
}

class GpxReader {
  private readonly columns = new TrackColumns();
  private readonly leftOut = new LeftOutList();
  private readonly headers = new Map<string, string>();
  private readonly notes: TrackNote[] = [];
  private readonly times = new IsoTimeReader();
  private readonly noteTimes = new IsoTimeReader();
  private readonly point = new GpxPoint();
  /** Names of the open elements outside track points. */
  private readonly path: string[] = [];
  /** 0 outside a track point, 1 directly inside, more in its children. */
  private pointDepth = 0;
  private points = 0;
  private pointsWithTime = 0;
  private tracks = 0;
  private routePoints = 0;
  private segment = -1;
  private segmentHasFix = false;
  private positionDecimals = 0;
  private heights = 0;
  private geoidHeights = 0;
  private speedUnitAssumed = false;
  private noteLine = 0;
  private noteName = '';
  private noteTimeS = NaN;

  open(name: string, attributes: XmlAttributes, line: number): void {
    if (this.pointDepth > 0) {
      this.pointDepth += 1;
      this.point.openChild(attributes);
    } else if (name === 'trkpt') {
      this.pointDepth = 1;
      this.point.begin(attributes, line);
      this.countDecimals(attributes['lat']);
    } else {
      this.path.push(name);
      if (name === 'trkseg') this.segmentHasFix = false;
      else if (name === 'trk') this.tracks += 1;
      else if (name === 'wpt' || name === 'rtept') this.beginNote(line);
      else if (name === 'gpx') this.keepHeader('gpx.creator', attributes['creator']);
    }
  }

  close(name: string, text: string): void {
    if (this.pointDepth > 1) {
      this.pointDepth -= 1;
      this.point.closeChild(name, text, this.pointDepth === 1);
    } else if (this.pointDepth === 1) {
      this.pointDepth = 0;
      this.endPoint();
    } else {
      this.path.pop();
      this.closeOutside(name, text);
    }
  }

  result(reading: XmlReading): Result<DecodedTrack> {
    const { columns } = this;
    const problems: Problem[] = [...reading.problems];
    if (reading.root !== 'gpx') {
      const found =
        reading.root === '' ? 'no element at all' : `<${reading.root.slice(0, 40)}> outermost`;
      const line = reading.fault === null ? '' : ` ${reading.fault.message}`;
      const message = `The XML has ${found}; <gpx> was expected.${line}`;
      return failure([...problems, problem('not-gpx', 'error', 'file', message)]);
    }
    if (reading.fault !== null) problems.push(reading.fault);
    this.judge(problems);
    const track = columns.finish({
      format: 'gpx',
      heightDatum: this.heightDatum(),
      pressureDatum: 'unstated',
      timeStepS: 10 ** -this.times.finestDecimals,
      positionStepM: METRES_PER_DEGREE / 10 ** this.positionDecimals,
    });
    return success(
      { track, headers: this.headers, leftOut: this.leftOut.list(), notes: this.notes },
      problems,
    );
  }

  private endPoint(): void {
    const { point, columns } = this;
    this.points += 1;
    const timeS = this.times.read(point.timeText);
    if (!Number.isNaN(timeS)) this.pointsWithTime += 1;
    const reason = reasonToLeaveOut(point, timeS);
    if (reason !== null) {
      this.leftOut.add(point.line, reason, columns.length);
      return;
    }
    if (!this.segmentHasFix) {
      this.segment += 1;
      this.segmentHasFix = true;
    }
    const lonDeg = point.lonDeg === 180 ? -180 : point.lonDeg;
    const i = columns.append(timeS, point.latDeg, lonDeg, this.segment, point.line);
    columns.heightM[i] = point.heightM;
    columns.geoidHeightM[i] = point.geoidHeightM;
    columns.groundSpeedMps[i] = point.groundSpeedMps;
    columns.courseDeg[i] = point.courseDeg;
    columns.accuracyM[i] = point.accuracyM;
    columns.verticalAccuracyM[i] = point.verticalAccuracyM;
    columns.valid[i] = point.valid ? 1 : 0;
    this.speedUnitAssumed ||= point.speedUnitAssumed;
    if (!Number.isNaN(point.heightM)) this.heights += 1;
    if (point.geoidHeightM < 0 || point.geoidHeightM > 0) this.geoidHeights += 1;
  }

  /** Above the geoid where most heights come with a geoid height that is not zero. */
  private heightDatum(): HeightDatum {
    return this.heights > 0 && this.geoidHeights * 2 > this.heights ? 'geoid' : 'unstated';
  }

  private countDecimals(latText: string | undefined): void {
    if (latText === undefined) return;
    const point = latText.indexOf('.');
    if (point === -1) return;
    // Noughts at the end are padding where every position has them.
    let end = latText.trimEnd().length;
    while (latText[end - 1] === '0') end--;
    const decimals = Math.min(end - point - 1, MAX_POSITION_DECIMALS);
    if (decimals > this.positionDecimals) this.positionDecimals = decimals;
  }

  private beginNote(line: number): void {
    this.noteLine = line;
    this.noteName = '';
    this.noteTimeS = NaN;
  }

  private closeOutside(name: string, text: string): void {
    const parent = this.path[this.path.length - 1];
    if (name === 'wpt' || name === 'rtept') this.endNote(name);
    else if (parent === 'wpt' || parent === 'rtept') {
      if (name === 'name') this.noteName = text.trim();
      else if (name === 'time') this.noteTimeS = this.noteTimes.read(text);
    } else if (parent === 'trk') {
      if (name === 'name' || name === 'desc' || name === 'cmt') {
        this.keepHeader(`trk.${this.tracks}.${name}`, text);
      }
    } else if (parent === 'metadata' || parent === 'gpx') {
      // GPX 1.0 keeps these directly in gpx, 1.1 in metadata.
      if (name === 'name' || name === 'desc' || name === 'time' || name === 'keywords') {
        this.keepHeader(`metadata.${name}`, text);
      }
    }
  }

  private endNote(name: 'wpt' | 'rtept'): void {
    if (name === 'rtept') this.routePoints += 1;
    if (this.notes.length >= MAX_NOTES) return;
    this.notes.push({
      line: this.noteLine,
      timeS: this.noteTimeS,
      kind: name === 'wpt' ? 'waypoint' : 'route-point',
      text: this.noteName.slice(0, MAX_HEADER_CHARS),
    });
  }

  private keepHeader(key: string, text: string | undefined): void {
    const kept = text?.trim() ?? '';
    if (kept === '' || this.headers.size >= MAX_HEADERS || this.headers.has(key)) return;
    this.headers.set(key, kept.slice(0, MAX_HEADER_CHARS));
  }

  /** Says what the file as a whole lacks or leaves to be assumed. */
  private judge(problems: Problem[]): void {
    const { points } = this;
    if (points === 0) {
      const routes = this.routePoints === 0 ? '' : `, but a route of ${this.routePoints} points`;
      const message = `The GPX file holds no track point (trkpt)${routes}; a recorded track was expected.`;
      problems.push(problem('no-fixes', 'warning', 'file', message));
    } else if (this.pointsWithTime === 0) {
      const message = `None of the ${points} track points carries a usable time. Without times there is nothing to measure: no speed, no touchdown, no roll.`;
      problems.push(problem('no-times', 'warning', 'file', message));
    } else if (this.columns.length === 0) {
      const message = `None of the ${points} track points has both a usable time and a usable position.`;
      problems.push(problem('no-fixes', 'warning', 'file', message));
    }
    if (this.times.withoutZone > 0) {
      const message = `Times without a time zone: ${this.times.withoutZone}. They were taken as UTC, which GPX requires.`;
      problems.push(problem('time-without-zone', 'note', 'file', message));
    }
    if (this.speedUnitAssumed) {
      const message = 'The recorded speeds name no unit; they were taken as metres a second.';
      problems.push(problem('speed-unit-assumed', 'note', 'file', message));
    }
  }
}

function reasonToLeaveOut(point: GpxPoint, timeS: number): string | null {
  const { latDeg, lonDeg } = point;
  if (Number.isNaN(latDeg) || Number.isNaN(lonDeg)) {
    return 'latitude or longitude is missing or not a number';
  }
  if (Math.abs(latDeg) > 90 || Math.abs(lonDeg) > 180) {
    return 'latitude beyond 90 or longitude beyond 180 degrees';
  }
  if (point.timeText.trim() === '') return 'fix without time';
  if (Number.isNaN(timeS)) return 'time is not ISO 8601 (2026-06-07T10:00:00Z)';
  return null;
}

/** Times that the file states beside its fixes: when it was written. For checking dates. */
export function statedTimes(decoded: DecodedTrack): number[] {
  const written = decoded.headers.get('metadata.time');
  return written === undefined ? [] : [new IsoTimeReader().read(written)];
}

/** The same track with its recorded speeds multiplied, NaN taking them out. */
export function scaleSpeeds(track: Track, factor: number): Track {
  return { ...track, groundSpeedMps: track.groundSpeedMps.map((speed) => speed * factor) };
}
