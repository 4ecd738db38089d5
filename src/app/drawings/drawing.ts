/**
 * What all drawings share: their outer element, their figure with its table, what they are told.
 *
 * In: a picture model and a drawing. Out: a `figure` that is read out as a sentence and holds a
 * table of all it shows.
 */
import { html, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import type { Picture } from '../../report/pictures/picture.ts';
import { setLabel, type Label, type Part } from './text.ts';

/** One cursor for all drawings: a place along the strip, or a time, with its read-out. */
export interface Cursor {
  /** alongM on a strip, UTC seconds on a flight line and a plan. */
  readonly at: number;
  readonly readOut: readonly Part[];
}

/** A laid-out drawing: its size in CSS pixels and its inside, labels apart so that they can be checked. */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly inside: SVGTemplateResult;
  readonly labels: readonly Label[];
  /** True where it holds something to choose: then its parts are read out one by one. */
  readonly hasChoices?: boolean;
}

/** The drawing as an `svg` element at its own size; labels lie on top. */
export function drawingSvg(
  { width, height, inside, labels, hasChoices = false }: Drawing,
  spoken: string,
): TemplateResult {
  const role = hasChoices ? 'group' : 'img';
  return html`<svg
    class="drawing"
    xmlns="http://www.w3.org/2000/svg"
    role=${role}
    aria-label=${spoken}
    width=${width}
    height=${height}
    viewBox=${`0 0 ${width} ${height}`}
  >
    ${inside}
    ${svg`<g class="words" aria-hidden=${hasChoices ? 'true' : 'false'}>${labels.map(setLabel)}</g>`}
  </svg>`;
}

/** The drawing in its figure: read out as a sentence, with its table for a reader who does not see it. */
export function drawingFigure(drawing: Drawing, picture: Picture, caption: string): TemplateResult {
  const rows = picture.rows.map(
    ({ label, value }) =>
      html`<tr>
        <th scope="row">${label}</th>
        <td>${value}</td>
      </tr>`,
  );
  return html`<figure class="drawing-figure" aria-label=${caption}>
    ${drawingSvg(drawing, picture.spoken)}
    <div class="twin">
      <table>
        <caption>
          ${caption}
        </caption>
        <tbody>
          ${rows}
        </tbody>
      </table>
    </div>
  </figure>`;
}
