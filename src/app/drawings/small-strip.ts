/**
 * A strip as it lies, north up, small: does what was typed point where the strip does?
 *
 * In: its length, bearing and designators. Out: an SVG; bands of 50 m while they can be told apart, a
 * post and a letter at each end. It repeats the line of words beside it, so it is hidden from screen
 * readers.
 */
import { html, svg, type TemplateResult } from 'lit';
import { RAD_PER_DEG } from '../../geo/angles.ts';
import type { TypedLine } from '../entry/typed-strip.ts';
import { northArrow } from './marks.ts';

const SIDE_PX = 148;
const STRIP_PX = 84;
const WIDTH_PX = 14;
const BAND_M = 50;
/** Narrower bands are one tone. */
const LEAST_BAND_PX = 2.5;
/** From the middle to the middle of a letter. */
const LETTER_PX = STRIP_PX / 2 + 16;

/** See the file's head. */
export function smallStrip({ lengthM, bearingDeg }: TypedLine): TemplateResult {
  const middle = SIDE_PX / 2;
  const left = middle - WIDTH_PX / 2;
  const foot = middle + STRIP_PX / 2;
  const bandPx = (STRIP_PX * BAND_M) / lengthM;
  const count = bandPx < LEAST_BAND_PX ? 0 : Math.ceil(lengthM / BAND_M);
  const bands = Array.from({ length: count }, (_, k) => {
    const height = Math.min(bandPx, STRIP_PX - k * bandPx);
    return k % 2 === 0
      ? svg``
      : svg`<rect class="mown" x=${left} width=${WIDTH_PX} y=${foot - k * bandPx - height} height=${height} />`;
  });
  const post = (y: number) =>
    svg`<line class="bar-post" x1=${left - 3} x2=${left + WIDTH_PX + 3} y1=${y} y2=${y} />`;
  const letter = (name: string, way: number) => {
    const angle = bearingDeg * RAD_PER_DEG;
    const x = middle + way * LETTER_PX * Math.sin(angle);
    const y = middle - way * LETTER_PX * Math.cos(angle);
    return svg`<text class="fill-ink" x=${x} y=${y + 5} text-anchor="middle">${name}</text>`;
  };
  return html`<svg
    class="small-strip"
    width=${SIDE_PX}
    height=${SIDE_PX}
    viewBox="0 0 ${SIDE_PX} ${SIDE_PX}"
    aria-hidden="true"
  >
    <g transform="rotate(${bearingDeg} ${middle} ${middle})">
      <rect class="grass" x=${left} width=${WIDTH_PX} y=${foot - STRIP_PX} height=${STRIP_PX} />
      ${bands} ${post(foot)} ${post(foot - STRIP_PX)}
    </g>
    ${letter('A', -1)} ${letter('B', 1)} ${northArrow(14, 18, 0)}
    <text class="fill-ink2" x="24" y="16">N</text>
  </svg>`;
}
