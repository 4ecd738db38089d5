/**
 * A log as IGC text.
 *
 * Source: FAI technical specification for IGC-approved GNSS flight recorders, 2nd edition with
 * Amendment 8 (2023), appendix A: line ends A2.1, header A3.2.4 and A3.2.7.5, extensions A3.3, fix
 * record A4.1, decimal seconds A7. No security record: the recorder is invented.
 */
import type { LoggedTrack } from './logged-track.ts';

/** What the header says. Nobody flies these. */
export interface IgcWords {
  readonly aeroplane: string;
  /** Number of the flight on its day. */
  readonly flightOfDay?: number;
}

/** Prints the log. */
export function writeIgc(logged: LoggedTrack, words: IgcWords): string {
  const date = new Date(Math.floor(logged.timeS[0]) * 1000).toISOString();
  const day = `${date.slice(8, 10)}${date.slice(5, 7)}${date.slice(2, 4)}`;
  const flight = (words.flightOfDay ?? 1).toString().padStart(2, '0');
  const hasPressure = !Number.isNaN(logged.pressureHeightM[0]);
  const extensions = extensionsOf(logged);
  const lines = [
    'AXDLSIM Doggerland simulator, invented',
    `HFDTEDATE:${day},${flight}`,
    'HFPLTPILOTINCHARGE:NIL',
    'HFCM2CREW2:NIL',
    `HFGTYGLIDERTYPE:${words.aeroplane}`,
    'HFGIDGLIDERID:INVENTED',
    'HFDTMGPSDATUM:WGS84',
    'HFRFWFIRMWAREVERSION:1',
    'HFRHWHARDWAREVERSION:1',
    'HFFTYFRTYPE:DOGGERLAND,SIMULATED',
    'HFGPSRECEIVER:SIMULATED',
    `HFPRSPRESSALTSENSOR:${hasPressure ? 'SIMULATED' : 'NIL'}`,
    `HFALGALTGPS:${DATUM_WORD[logged.heights]}`,
    `HFALPALTPRESSURE:${hasPressure ? 'ISA' : 'NIL'}`,
    extensionLine(extensions),
  ];
  for (let i = 0; i < logged.length; i++) lines.push(fixRecord(logged, i, extensions));
  lines.push('');
  return lines.join('\r\n');
}

const DATUM_WORD = { ellipsoid: 'ELL', geoid: 'GEO', none: 'NIL' };

interface Extension {
  readonly code: string;
  readonly bytes: number;
  readonly text: (i: number) => string;
}

function extensionsOf(logged: LoggedTrack): Extension[] {
  const extensions: Extension[] = [
    { code: 'FXA', bytes: 3, text: (i) => digits(logged.accuracyM[i], 3) },
  ];
  if (!Number.isNaN(logged.groundSpeedMps[0])) {
    const text = (i: number): string => digits(logged.groundSpeedMps[i] * 3.6, 3);
    extensions.push({ code: 'GSP', bytes: 3, text });
  }
  if (logged.timeDecimals > 0) {
    const text = (i: number): string => digits((logged.timeS[i] % 1) * 10, 1);
    extensions.push({ code: 'TDS', bytes: 1, text });
  }
  return extensions;
}

function extensionLine(extensions: readonly Extension[]): string {
  let next = 36;
  const parts = extensions.map(({ code, bytes }) => {
    const part = `${digits(next, 2)}${digits(next + bytes - 1, 2)}${code}`;
    next += bytes;
    return part;
  });
  return `I${digits(extensions.length, 2)}${parts.join('')}`;
}

function fixRecord(logged: LoggedTrack, i: number, extensions: readonly Extension[]): string {
  const time = new Date(Math.floor(logged.timeS[i] + 1e-6) * 1000).toISOString();
  const clock = time.slice(11, 19).replaceAll(':', '');
  const lat = angle(logged.latDeg[i], 2, 'N', 'S');
  const lon = angle(logged.lonDeg[i], 3, 'E', 'W');
  const validity = logged.heights === 'none' ? 'V' : 'A';
  const extra = extensions.map(({ text }) => text(i)).join('');
  return `B${clock}${lat}${lon}${validity}${height(logged.pressureHeightM[i])}${height(logged.heightM[i])}${extra}`;
}

function angle(valueDeg: number, degreeDigits: number, positive: string, negative: string): string {
  const thousandths = Math.round(Math.abs(valueDeg) * 60_000);
  const degrees = Math.floor(thousandths / 60_000);
  const minutes = thousandths - degrees * 60_000;
  return `${digits(degrees, degreeDigits)}${digits(minutes, 5)}${valueDeg < 0 ? negative : positive}`;
}

/** Five characters; the sign of a negative height takes the first. A missing height is zeros. */
function height(valueM: number): string {
  if (Number.isNaN(valueM)) return '00000';
  return valueM < 0 ? `-${digits(-valueM, 4)}` : digits(valueM, 5);
}

function digits(value: number, count: number): string {
  return Math.round(value).toString().padStart(count, '0');
}
