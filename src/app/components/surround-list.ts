/**
 * What stands around a strip: listed, with name and height to change, and a way out.
 *
 * Properties: `rows`, `units`. Events: `wr-action`. One is open at a time.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { ShownUnits } from '../../logbook/entry.ts';
import { sendAction } from '../app-state.ts';
import type { SurroundRow } from '../entry/strip-list.ts';
import { surroundWords } from '../entry/strip-words.ts';
import { firstClick } from './first-click.ts';
import './surround-form.ts';

/** `<wr-surround-list>` */
export class SurroundList extends LitElement {
  static override properties = {
    rows: { attribute: false },
    units: { attribute: false },
    open: { state: true },
  };
  declare rows: readonly SurroundRow[];
  declare units: ShownUnits;
  /** Id of the record that is being changed. */
  declare open: string | null;

  constructor() {
    super();
    this.rows = [];
    this.open = null;
  }

  protected override createRenderRoot(): this {
    return this;
  }

  protected override render(): TemplateResult {
    if (this.rows.length === 0) {
      return html`<p class="form-note">Nothing yet. A strips file brings obstacles and areas.</p>`;
    }
    return html`<ul class="rows" @wr-saved=${this.#close} @wr-cancel=${this.#close}>
      ${this.rows.map((row) => this.#row(row))}
    </ul>`;
  }

  #row(row: SurroundRow): TemplateResult {
    const { record, name } = row;
    const canChange = row.kind !== 'other' && row.fault === '';
    return html`<li>
      <div class="surround-row">
        <span>${name}</span>
        <span class=${row.fault === '' ? 'row-note' : 'row-caution'}>
          ${surroundWords(row, this.units)}
        </span>
        <span class="row-buttons">
          ${
            canChange
              ? html`<button
                  type="button"
                  class="button-quiet"
                  aria-label=${`Change ${name}`}
                  aria-expanded=${this.open === record.id ? 'true' : 'false'}
                  @click=${() => (this.open = this.open === record.id ? null : record.id)}
                >
                  Change
                </button>`
              : nothing
          }
          <button
            type="button"
            class="button-quiet"
            aria-label=${`Remove ${name}`}
            @click=${firstClick(() =>
              sendAction(this, {
                type: 'remove',
                keys: [{ kind: record.kind, id: record.id }],
                words: name,
              }),
            )}
          >
            Remove
          </button>
        </span>
      </div>
      ${
        this.open === record.id
          ? html`<wr-surround-form .row=${row} .units=${this.units}></wr-surround-form>`
          : nothing
      }
    </li>`;
  }

  readonly #close = (event: Event): void => {
    event.stopPropagation();
    this.open = null;
  };
}

customElements.define('wr-surround-list', SurroundList);

declare global {
  interface HTMLElementTagNameMap {
    'wr-surround-list': SurroundList;
  }
}
