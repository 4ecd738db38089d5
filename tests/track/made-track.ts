/**
 * Tracks for the cleaning tests, made from metres about an invented place. Nothing but the fields a
 * test names is set; the rest is missing.
 */

import { TrackColumns } from '../../src/track/decode-columns.ts';
import type { Track } from '../../src/track/track.ts';

/** One fix: seconds from the start, metres north and east, and what else a test needs. */
export interface MadeFix {
  readonly t: number;
  readonly north: number;
  readonly east?: number;
  readonly height?: number;
  readonly pressure?: number;
  readonly segment?: number;
  readonly isVoid?: boolean;
}

const START_S = Date.UTC(2026, 5, 7, 10) / 1000;
const LAT_DEG = 54.7;
const LON_DEG = 2.3;
const METRES_PER_DEGREE = 111_195;

/** A track of the given fixes; positions rounded to `stepDeg` degrees where that is not 0. */
export function makeTrack(fixes: readonly MadeFix[], stepDeg = 0): Track {
  const columns = new TrackColumns();
  const round = (deg: number) => (stepDeg === 0 ? deg : Math.round(deg / stepDeg) * stepDeg);
  fixes.forEach((fix, k) => {
    const lat = LAT_DEG + fix.north / METRES_PER_DEGREE;
    const shrink = Math.cos((LAT_DEG * Math.PI) / 180);
    const lon = LON_DEG + (fix.east ?? 0) / (METRES_PER_DEGREE * shrink);
    const i = columns.append(START_S + fix.t, round(lat), round(lon), fix.segment ?? 0, k + 1);
    columns.heightM[i] = fix.height ?? NaN;
    columns.pressureHeightM[i] = fix.pressure ?? NaN;
    columns.valid[i] = fix.isVoid === true ? 0 : 1;
  });
  return columns.finish({
    format: 'gpx',
    heightDatum: 'unstated',
    pressureDatum: 'unstated',
    timeStepS: 1,
    positionStepM: stepDeg === 0 ? 0.01 : stepDeg * METRES_PER_DEGREE,
  });
}

/** `count` fixes one second apart at a steady speed northwards. */
export function steady(count: number, speedMps = 40, from = 0): MadeFix[] {
  return Array.from({ length: count }, (_, k) => ({ t: from + k, north: speedMps * (from + k) }));
}
