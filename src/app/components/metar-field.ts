/**
 * `<wr-metar-field>`: a METAR pasted into the form of conditions.
 *
 * Properties: `fields` (what stands in the form), `units`. Event: `wr-metar` with the fields as they
 * are after it. What was read is said group by group; the fields stay open to be changed.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { ShownUnits } from '../../logbook/entry.ts';
import type { ConditionsFields } from '../entry/conditions-fields.ts';
import { fieldsWithMetar, type MetarEntered } from '../entry/metar-fields.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-metar-field': MetarField;
  }
  interface HTMLElementEventMap {
    'wr-metar': CustomEvent<ConditionsFields>;
  }
}

/** See the file's head. */
export class MetarField extends LitElement {
  static override properties = {
    fields: { attribute: false },
    units: { attribute: false },
    text: { state: true },
    entered: { state: true },
  };
  declare fields: ConditionsFields;
  declare units: ShownUnits;
  declare text: string;
  declare entered: MetarEntered | null;
  /** What METARs put into the fields so far. */
  #filled: Partial<ConditionsFields> = {};

  constructor() {
    super();
    this.text = '';
    this.entered = null;
  }

  protected override createRenderRoot(): this {
    return this;
  }

  protected override render(): TemplateResult {
    const isWrong = this.entered?.ok === false;
    return html`<details class="fold metar-fold">
      <summary>Paste a METAR</summary>
      <div class="field">
        <label for="conditions-metar">METAR, as reported</label>
        <textarea
          id="conditions-metar"
          rows="3"
          autocomplete="off"
          spellcheck="false"
          aria-invalid=${isWrong ? 'true' : nothing}
          aria-describedby="conditions-metar-hint"
          .value=${live(this.text)}
          @input=${(event: Event) => (this.text = (event.target as HTMLTextAreaElement).value)}
        ></textarea>
        <p class="field-hint" id="conditions-metar-hint">
          Its wind is a mean over minutes, counted from true north, at the place that reports it. It
          is not the wind of the strip.
        </p>
      </div>
      <button type="button" class="button button-outlined" @click=${this.#read}>Read it</button>
      <div role="status">${this.entered === null ? nothing : enteredPart(this.entered)}</div>
    </details>`;
  }

  readonly #read = (): void => {
    const entered = fieldsWithMetar(this.fields, this.text, this.units, this.#filled);
    this.entered = entered;
    if (!entered.ok) return;
    this.#filled = entered.filled;
    this.dispatchEvent(new CustomEvent('wr-metar', { detail: entered.fields, bubbles: true }));
  };
}

/** What was read, or why nothing was. */
function enteredPart(entered: MetarEntered): TemplateResult {
  if (!entered.ok) {
    return html`${entered.problems.map(
      ({ where, message }) => html`<p class="field-message">${where}: ${message}</p>`,
    )}`;
  }
  return html`<p class="form-note">
      Read${entered.from === '' ? nothing : html` from ${entered.from}`}, and put into the fields
      below:
    </p>
    <dl class="metar-read">
      ${entered.groups.map(
        ({ name, words, isOwnKept }) =>
          html`<div>
            <dt>${name}</dt>
            <dd>
              ${words}${isOwnKept ? html`<span class="row-note"> not taken: yours stays</span>` : nothing}
            </dd>
          </div>`,
      )}
    </dl>
    ${entered.notes.map(({ message }) => html`<p class="form-note">${message}</p>`)}`;
}

customElements.define('wr-metar-field', MetarField);
