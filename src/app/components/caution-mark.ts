/**
 * The hurdle beside a caution in running text; the words stand with it, always.
 */
import { html, svg, type TemplateResult } from 'lit';
import { hurdle } from '../drawings/marks.ts';

/** A small hurdle; hidden from readers, who hear the words. */
export function cautionMark(): TemplateResult {
  return html`<svg
    class="caution-mark"
    width="22"
    height="22"
    viewBox="-4 -17 22 22"
    aria-hidden="true"
  >
    ${svg`${hurdle(0, 0)}`}
  </svg>`;
}
