/**
 * A line with its band of 90 % as hatching to both edges.
 *
 * In: columns with their band, where they are drawn. Out: path data for the line and the hatching.
 */
import type { BandColumns } from '../../report/pictures/final-picture.ts';
import { hatchPath } from './hatch.ts';
import { columnPath, type Point, type Scale } from './scale.ts';
import type { Box } from './text.ts';

/** The slots of a band that fall inside a range of the axis, one more on each side. */
function insideRange({ alongM }: BandColumns, { from, to }: Scale): number[] {
  const found: number[] = [];
  alongM.forEach((along, i) => {
    if (along >= from && along <= to) found.push(i);
  });
  return found;
}

/** Line and hatching; values beyond the panel are cut at its edges. */
export function bandPaths(
  band: BandColumns,
  along: Scale,
  value: Scale,
): { readonly line: string; readonly hatch: string } {
  const slots = insideRange(band, along).filter((i) => !Number.isNaN(band.value[i]));
  const clamp = (each: number): number => Math.min(Math.max(each, value.from), value.to);
  const point = (column: Float64Array, i: number): Point => [
    along.at(band.alongM[i]),
    value.at(clamp(column[i])),
  ];
  const inPanel = slots.map((i) =>
    band.value[i] > value.to || band.value[i] < value.from ? NaN : band.value[i],
  );
  const line = columnPath(
    slots.map((i) => band.alongM[i]),
    inPanel,
    (at, each) => [along.at(at), value.at(each)],
  );
  const area = [
    ...slots.map((i) => point(band.low, i)),
    ...slots.toReversed().map((i) => point(band.high, i)),
  ];
  return { line, hatch: slots.length < 2 ? '' : hatchPath(area, 45, 4) };
}

/** The band as boxes that words keep clear of, pixels. */
export function bandWalls(band: BandColumns, along: Scale, value: Scale): Box[] {
  const slots = insideRange(band, along).filter((i) => !Number.isNaN(band.value[i]));
  const walls: Box[] = [];
  for (let k = 1; k < slots.length; k++) {
    const [i, j] = [slots[k - 1], slots[k]];
    const [from, to] = [along.at(band.alongM[i]), along.at(band.alongM[j])];
    const steps = Math.max(1, Math.ceil(Math.abs(to - from) / WALL));
    const at = (column: Float64Array, share: number): number =>
      value.at(column[i] + share * (column[j] - column[i]));
    for (let step = 0; step < steps; step++) {
      const ends = [step / steps, (step + 1) / steps];
      const xs = ends.map((share) => from + share * (to - from));
      const ys = ends.flatMap((share) => [at(band.low, share), at(band.high, share)]);
      walls.push({
        left: Math.min(...xs),
        right: Math.max(...xs),
        top: Math.min(...ys),
        bottom: Math.max(...ys),
      });
    }
  }
  return walls;
}

/** Width of such a box, pixels. */
const WALL = 6;

/** The value of a band's middle at a place, by a straight line; NaN outside. Places need not rise. */
export function valueAtPlace({ alongM, value }: BandColumns, atM: number): number {
  for (let i = 1; i < alongM.length; i++) {
    const [a, b] = [alongM[i - 1], alongM[i]];
    if ((a <= atM && b >= atM) || (b <= atM && a >= atM)) {
      return b === a ? value[i] : value[i - 1] + ((atM - a) / (b - a)) * (value[i] - value[i - 1]);
    }
  }
  return NaN;
}
