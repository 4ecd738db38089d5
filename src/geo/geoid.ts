/**
 * How high does mean sea level lie over the WGS 84 ellipsoid, at a place?
 *
 * In: WGS 84 position, degrees. Out: height of the geoid over the ellipsoid, metres, so that height
 * above the ellipsoid = height above mean sea level + this.
 *
 * Source: EGM96 (NASA/NGA), thinned to two degrees and whole metres, between them linear. Against
 * the full 15-minute grid: 1.1 m (root mean square over the globe), 4.6 m in the worst hundredth,
 * 14 m at deep-sea trenches; a satellite height is several metres off by itself.
 */
import { EGM96_ROWS } from './egm96-grid.ts';

/** Distance of the grid's parallels and meridians, degrees. */
export const GRID_STEP_DEG = 2;
/** Letter code that stands for a step of nought. */
export const GRID_CODE = 75;
/** Root mean square error of `geoidHeightM` over the globe, metres (measured; see the head). */
export const GEOID_SD_M = 1.1;

const COLUMNS = 360 / GRID_STEP_DEG;
let decoded: Int8Array | null = null;

/**
 * Height of the geoid over the ellipsoid, metres.
 *
 * Fails: NaN for a position that is not on the globe.
 * @example geoidHeightM(54.7, 2.3) // 42
 */
export function geoidHeightM(latDeg: number, lonDeg: number): number {
  if (!(Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 360)) return NaN;
  const grid = (decoded ??= decodeGrid());
  const x = ((lonDeg + 360) % 360) / GRID_STEP_DEG;
  const y = (latDeg + 90) / GRID_STEP_DEG;
  const row = Math.min(Math.floor(y), EGM96_ROWS.length - 2);
  const column = Math.floor(x) % COLUMNS;
  const eastShare = x - Math.floor(x);
  const northShare = y - row;
  const along = (r: number): number => {
    const west = grid[r * COLUMNS + column];
    return west + eastShare * (grid[r * COLUMNS + ((column + 1) % COLUMNS)] - west);
  };
  const south = along(row);
  return south + northShare * (along(row + 1) - south);
}

function decodeGrid(): Int8Array {
  const grid = new Int8Array(EGM96_ROWS.length * COLUMNS);
  EGM96_ROWS.forEach((letters, row) => {
    let heightM = 0;
    for (let column = 0; column < COLUMNS; column++) {
      heightM += letters.charCodeAt(column) - GRID_CODE;
      grid[row * COLUMNS + column] = heightM;
    }
  });
  return grid;
}
