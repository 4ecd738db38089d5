/**
 * `<wr-strip-field>`: all landings at one strip side by side, with the strip to choose.
 *
 * Properties: `bars` (the list's rows), `units`. Chooses by itself the direction with the
 * most landings.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { PilotUnits } from '../../report/figure-text.ts';
import type { BarRow } from '../../report/pictures/landing-bars-picture.ts';
import {
  mownFieldPicture,
  type MownFieldPicture,
} from '../../report/pictures/mown-field-picture.ts';
import { mownField } from '../drawings/mown-field.ts';
import './measured-figure.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-strip-field': StripField;
  }
}

interface Place {
  readonly stripId: string;
  readonly designator: string;
  readonly name: string;
  readonly count: number;
}

/** See the file's head. */
export class StripField extends LitElement {
  static override properties = {
    bars: { attribute: false },
    units: { attribute: false },
    chosen: { state: true },
  };
  declare bars: readonly BarRow[];
  declare units: PilotUnits;
  declare chosen: string;

  constructor() {
    super();
    this.bars = [];
    this.chosen = '';
  }

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult | typeof nothing {
    const places = placesOf(this.bars);
    if (places.length === 0) return nothing;
    const place = places.find((each) => keyOf(each) === this.chosen) ?? places[0];
    const picture = mownFieldPicture(this.bars, place, this.units);
    if (!picture) return nothing;
    return html`<h2 class="section-head">${place.name} ${place.designator}, mown side by side</h2>
      <label class="list-filter">
        <span>Strip and direction</span>
        <select
          aria-label="Strip and direction"
          @change=${(event: Event) => (this.chosen = (event.target as HTMLSelectElement).value)}
        >
          ${places.map(
            (each) =>
              html`<option value=${keyOf(each)} ?selected=${each === place}>
                ${each.name} ${each.designator}, ${each.count}
              </option>`,
          )}
        </select>
      </label>
      <p class="quiet">Every landing from touchdown to stop, threshold below.</p>
      <wr-figure
        .picture=${picture}
        .caption=${`Landings at ${place.name} ${place.designator}`}
        .draw=${(widthPx: number) => mownField(picture, widthPx)}
      ></wr-figure>
      ${rowsBelow(picture)}`;
  }
}

function rowsBelow({ below }: MownFieldPicture): TemplateResult {
  return html`<table class="figures">
    <tbody>
      ${below.map(
        ({ label, value }) =>
          html`<tr>
            <th scope="row">${label}</th>
            <td>${value}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}

function placesOf(bars: readonly BarRow[]): Place[] {
  const found = new Map<string, Place>();
  for (const { stripId, designator, stripName, passes } of bars) {
    if (stripId === null || designator === null || !passes) continue;
    const key = `${stripId} ${designator}`;
    const count = (found.get(key)?.count ?? 0) + 1;
    found.set(key, { stripId, designator, name: stripName, count });
  }
  return [...found.values()].sort((a, b) => b.count - a.count);
}

function keyOf({ stripId, designator }: Place): string {
  return `${stripId} ${designator}`;
}

customElements.define('wr-strip-field', StripField);
