/**
 * Invented logs of any length for the decoder tests and the benchmark: a wandering circuit over
 * the open North Sea, written as IGC and as GPX by code that shares nothing with the readers.
 * Inputs: number of fixes and a seed. Outputs: text.
 */

/** The invented fixes before they are written, already rounded as IGC rounds them. */
export interface InventedFix {
  /** Seconds since 1970. */
  readonly timeS: number;
  /** Thousandths of a minute north and east. */
  readonly latThousandths: number;
  readonly lonThousandths: number;
  readonly heightM: number;
  readonly pressureM: number;
  readonly speedKmh: number;
  readonly noise: number;
}

const DAY_S = 86400;

/** A seeded generator (linear congruential, constants of the C standard's example; chance of no quality needed). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    return state / 2 ** 32;
  };
}

/** Fixes one second apart from `startS` on. */
export function inventFixes(count: number, seed: number, startS: number): InventedFix[] {
  const chance = seeded(seed);
  const fixes: InventedFix[] = [];
  let latThousandths = 54 * 60_000 + 42_000;
  let lonThousandths = 2 * 60_000 + 18_000;
  for (let i = 0; i < count; i++) {
    const turn = (i / 400) * 2 * Math.PI;
    latThousandths += Math.round(13 * Math.cos(turn) + 2 * chance() - 1);
    lonThousandths += Math.round(22 * Math.sin(turn) + 2 * chance() - 1);
    const heightM = Math.round(200 + 150 * Math.sin(i / 300) + 4 * chance());
    fixes.push({
      timeS: startS + i,
      latThousandths,
      lonThousandths,
      heightM,
      pressureM: heightM - 45,
      speedKmh: Math.round(85 + 10 * chance()),
      noise: Math.floor(1000 * chance()),
    });
  }
  return fixes;
}

/** An IGC file of them, with FXA, ENL and GSP. */
export function writeInventedIgc(fixes: readonly InventedFix[]): string {
  const date = new Date(fixes[0].timeS * 1000).toISOString();
  const ddmmyy = date.slice(8, 10) + date.slice(5, 7) + date.slice(2, 4);
  const lines = ['AXWRINV', `HFDTEDATE:${ddmmyy},01`, 'I033638FXA3941ENL4244GSP'];
  for (const fix of fixes) {
    const s = fix.timeS % DAY_S;
    const time = pad(Math.floor(s / 3600), 2) + pad(Math.floor(s / 60) % 60, 2) + pad(s % 60, 2);
    const lat = `${pad(Math.floor(fix.latThousandths / 60_000), 2)}${pad(fix.latThousandths % 60_000, 5)}N`;
    const lon = `${pad(Math.floor(fix.lonThousandths / 60_000), 3)}${pad(fix.lonThousandths % 60_000, 5)}E`;
    const heights = igcHeight(fix.pressureM) + igcHeight(fix.heightM);
    lines.push(`B${time}${lat}${lon}A${heights}004${pad(fix.noise, 3)}${pad(fix.speedKmh, 3)}`);
  }
  return lines.join('\r\n') + '\r\n';
}

/** A GPX 1.1 file of them, with the speed in an extension, m/s. */
export function writeInventedGpx(fixes: readonly InventedFix[]): string {
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx version="1.1" creator="invented" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>',
  ];
  for (const fix of fixes) {
    const lat = (fix.latThousandths / 60_000).toFixed(7);
    const lon = (fix.lonThousandths / 60_000).toFixed(7);
    const time = new Date(fix.timeS * 1000).toISOString();
    lines.push(
      `<trkpt lat="${lat}" lon="${lon}">\n  <ele>${fix.heightM.toFixed(1)}</ele>\n  <time>${time}</time>\n  <extensions><speed>${(fix.speedKmh / 3.6).toFixed(2)}</speed></extensions>\n</trkpt>`,
    );
  }
  lines.push('</trkseg></trk></gpx>');
  return lines.join('\n') + '\n';
}

function igcHeight(heightM: number): string {
  return heightM < 0 ? `-${pad(-heightM, 4)}` : pad(heightM, 5);
}

function pad(value: number, width: number): string {
  return String(value).padStart(width, '0');
}
