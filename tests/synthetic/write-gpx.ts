/**
 * A log as GPX 1.1 text.
 *
 * Source: the GPX 1.1 schema (topografix.com/GPX/1/1): element order, WGS 84 decimal degrees,
 * metres, UTC in ISO 8601. The schema has no speed; it stands in the extensions, in m/s.
 */
import type { LoggedTrack } from './logged-track.ts';

/** What else the file says. */
export interface GpxWords {
  readonly name: string;
  /** A sentence in the metadata: that the flight is invented, for instance. */
  readonly about?: string;
}

/** Prints the log, one fix a line. */
export function writeGpx(logged: LoggedTrack, words: GpxWords): string {
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx version="1.1" creator="Doggerland simulator" xmlns="http://www.topografix.com/GPX/1/1">',
  ];
  if (words.about !== undefined) lines.push(`<metadata><desc>${words.about}</desc></metadata>`);
  lines.push(`<trk><name>${words.name}</name>`, '<trkseg>');
  for (let i = 0; i < logged.length; i++) {
    if (logged.breaks.includes(i)) lines.push('</trkseg>', '<trkseg>');
    lines.push(fixLine(logged, i));
  }
  lines.push('</trkseg>', '</trk>', '</gpx>', '');
  return lines.join('\n');
}

function fixLine(logged: LoggedTrack, i: number): string {
  const lat = logged.latDeg[i].toFixed(logged.positionDecimals);
  const lon = logged.lonDeg[i].toFixed(logged.positionDecimals);
  const height = Number.isNaN(logged.heightM[i])
    ? ''
    : `<ele>${logged.heightM[i].toFixed(1)}</ele>`;
  const time = new Date(Math.round(logged.timeS[i] * 1000)).toISOString();
  const written = logged.timeDecimals === 0 ? time.replace('.000Z', 'Z') : time;
  const speed = logged.groundSpeedMps[i];
  const extensions = Number.isNaN(speed)
    ? ''
    : `<extensions><speed>${speed.toFixed(2)}</speed><course>${logged.courseDeg[i].toFixed(1)}</course></extensions>`;
  return `<trkpt lat="${lat}" lon="${lon}">${height}<time>${written}</time>${extensions}</trkpt>`;
}
