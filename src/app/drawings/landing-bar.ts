/**
 * One landing of the logbook's list: a strip to scale with its roll. All bars share one metre scale.
 *
 * In: a row, the longest LDA of the list, a width. Out: a small drawing without words; the row's
 * figures stand beside it.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { BarRow } from '../../report/pictures/landing-bars-picture.ts';
import { acrossPath, boxPath, lyingAxes, type Axes } from './axes.ts';
import type { Drawing } from './drawing.ts';
import { dip } from './marks.ts';
import { linearScale, multiples, px } from './scale.ts';
import { unknownOutline } from './strip-bed.ts';
import { swathe } from './swathe.ts';

/** Height of the drawing, edges of the strip and of the roll on it, pixels. */
const HEIGHT = 30;
const BED = [4, 26] as const;
const ROLLED = [7, 23] as const;
/** Ground shown before the threshold, as a share of the longest LDA. */
const BEFORE = 0.14;
/** Mown bands, metres. */
const BAND_M = 50;

/** Draws it; empty where no strip is known. */
export function landingBar(bar: BarRow, longestM: number, widthPx: number): Drawing {
  const drawn = { width: widthPx, height: HEIGHT, labels: [] };
  const { ldaM } = bar;
  if (ldaM === null || !(longestM > 0)) return { ...drawn, inside: svg`` };
  const axes = lyingAxes(linearScale(-BEFORE * longestM, longestM, 1, widthPx - 3));
  const { at } = axes.scale;
  const mown = multiples(2 * BAND_M, 0, ldaM)
    .map((from) => [from + BAND_M, Math.min(from + 2 * BAND_M, ldaM)] as const)
    .filter(([from, to]) => to > from)
    .map(([from, to]) => boxPath(axes, [at(from), at(to)], BED));
  const end = (alongM: number): string => acrossPath(axes, at(alongM), BED[0] - 2, BED[1] + 2);
  const inside = svg`<path class="grass" d=${boxPath(axes, [at(0), at(ldaM)], BED)}/>
    <path class="mown" d=${mown.join('')}/>
    ${bar.passes ? swathe(bar.passes, axes, ROLLED) : nothing}
    <path class="strip-end" d=${end(0) + end(ldaM)}/>
    ${bar.isUndetermined && !bar.passes ? unknownOutline(axes, [at(0.1 * ldaM), at(0.9 * ldaM)], ROLLED) : nothing}
    ${markOf(bar, axes, widthPx)}`;
  return { ...drawn, inside };
}

/**
 * A dip where a pass was lowest, or where that lies off the drawing an arrow at the edge beyond which
 * it lies; a peg drawn out where power was opened.
 */
function markOf(
  { lowestM, powerM }: BarRow,
  { scale }: Axes,
  widthPx: number,
): SVGTemplateResult | typeof nothing {
  const middle = (BED[0] + BED[1]) / 2;
  const powerPx = powerM === null ? NaN : scale.at(powerM);
  if (powerPx >= DIP_HALF && powerPx <= widthPx - DIP_HALF) {
    return svg`<g transform=${`translate(${px(powerPx)} ${BED[1] - 3})`}><path class="mark-line fill-ground" d="M-4-2H4V-5L0-16L-4-5Z"/></g>`;
  }
  if (lowestM === null) return nothing;
  const x = scale.at(lowestM);
  // At the very edge it is moved in by less than its own half.
  if (x >= 0 && x <= widthPx) {
    return dip(Math.min(Math.max(x, DIP_HALF), widthPx - DIP_HALF), middle + 3);
  }
  const isBefore = x < 0;
  return svg`${edgeArrow(isBefore ? 1 : widthPx - 1, middle, isBefore ? 1 : -1)}
    ${isBefore && scale.at(0) >= DIP_ROOM ? dip(DIP_ROOM / 2 + 2, middle + 3) : nothing}`;
}

/** Half of a dip and of a peg, pixels. */
const DIP_HALF = 12;
/** Room that the edge's arrow and a dip beside it need before the threshold, pixels. */
const DIP_ROOM = 38;

/** Its tip at the edge, open to the side `inwards`. */
function edgeArrow(x: number, y: number, inwards: 1 | -1): SVGTemplateResult {
  const back = px(x + inwards * 6);
  return svg`<path class="mark-line edge-arrow" d=${`M${back} ${px(y - 5)}L${px(x)} ${px(y)}L${back} ${px(y + 5)}`}/>`;
}
