/**
 * A strip as a bar of mown grass, one of many at one scale.
 *
 * In: its length, the longest of the list. Out: an SVG that fills its place; bands of 50 m, a post at
 * each end. It repeats a figure that stands beside it, so it is hidden from screen readers.
 */
import { html, svg, type TemplateResult } from 'lit';

const BAND_M = 50;
const HEIGHT_PX = 26;

/** See the file's head. */
export function stripBar(lengthM: number, longestM: number): TemplateResult {
  const percent = (metres: number) => `${((100 * metres) / longestM).toFixed(2)}%`;
  const bands = Array.from({ length: Math.ceil(lengthM / BAND_M) }, (_, index) => {
    const fromM = index * BAND_M;
    const fill = index % 2 === 0 ? 'bar-grass' : 'bar-mown';
    return svg`<rect class=${fill} x=${percent(fromM)} y="5" height="16"
      width=${percent(Math.min(BAND_M, lengthM - fromM))} />`;
  });
  return html`<svg class="strip-bar" height=${HEIGHT_PX} aria-hidden="true">
    ${bands}
    <line class="bar-post" x1="1" x2="1" y1="0" y2=${HEIGHT_PX} />
    <line
      class="bar-post"
      x1=${percent(lengthM)}
      x2=${percent(lengthM)}
      y1="0"
      y2=${HEIGHT_PX}
      transform="translate(-1)"
    />
  </svg>`;
}
