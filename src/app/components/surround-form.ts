/**
 * Name and height of one obstacle, area to avoid or path.
 *
 * Properties: `row`, `units`. Events: `wr-action` to save the feature, then `wr-saved`; `wr-cancel`.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { ShownUnits } from '../../logbook/entry.ts';
import { sendAction } from '../app-state.ts';
import { heightUnit } from '../entry/shown-unit.ts';
import type { SurroundRow } from '../entry/strip-list.ts';
import {
  fieldsFromSurround,
  HEIGHT_KINDS,
  surroundFromFields,
  type SurroundFields,
} from '../entry/surround-fields.ts';
import { choiceField, focusFirstWrong, textField } from './form-field.ts';

/** `<wr-surround-form>` */
export class SurroundForm extends LitElement {
  static override properties = {
    row: { attribute: false },
    units: { attribute: false },
    fields: { state: true },
    isTried: { state: true },
  };
  declare row: SurroundRow;
  declare units: ShownUnits;
  declare fields: SurroundFields;
  declare isTried: boolean;
  #filledFrom = '';

  constructor() {
    super();
    this.isTried = false;
  }

  protected override createRenderRoot(): this {
    return this;
  }

  protected override willUpdate(): void {
    const from = JSON.stringify([this.row.feature, this.units]);
    if (from === this.#filledFrom) return;
    this.#filledFrom = from;
    this.fields = fieldsFromSurround(this.row.feature, this.units);
    this.isTried = false;
  }

  protected override render(): TemplateResult {
    const read = surroundFromFields(this.fields, this.units, this.row.feature);
    const messages = this.isTried && !read.ok ? read.messages : {};
    const { kind } = this.row;
    const height = textField({
      id: 'surround-height',
      label: kind === 'avoid' ? 'To be avoided below' : 'Height of the top',
      unit: heightUnit(this.units).symbol,
      kind: 'signed',
      value: this.fields.height,
      hint: kind === 'avoid' ? 'above the sea; empty: at any height' : 'highest part of it',
      message: messages.height,
      onInput: (text) => this.#set({ height: text }),
    });
    const above = choiceField({
      id: 'surround-height-kind',
      label: 'Counted',
      value: this.fields.heightKind,
      options: HEIGHT_KINDS,
      onChoose: (value) => this.#set({ heightKind: value as SurroundFields['heightKind'] }),
    });
    return html`<form class="form" aria-label=${this.row.name} novalidate @submit=${this.#save}>
      <div class="field-row field-row-wide">
        ${textField({
          id: 'surround-name',
          label: 'Name',
          value: this.fields.name,
          message: messages.name,
          onInput: (name) => this.#set({ name }),
        })}
        ${kind === 'obstacle' || kind === 'avoid' ? height : nothing}
        ${kind === 'obstacle' ? above : nothing}
      </div>
      <div class="form-buttons">
        <button type="submit" class="button">Save</button>
        <button
          type="button"
          class="button-quiet"
          @click=${() => this.dispatchEvent(new CustomEvent('wr-cancel', { bubbles: true }))}
        >
          Cancel
        </button>
      </div>
    </form>`;
  }

  #set(change: Partial<SurroundFields>): void {
    this.fields = { ...this.fields, ...change };
  }

  readonly #save = (event: SubmitEvent): void => {
    event.preventDefault();
    this.isTried = true;
    const read = surroundFromFields(this.fields, this.units, this.row.feature);
    if (!read.ok) {
      void focusFirstWrong(this);
      return;
    }
    const { record, version } = this.row;
    sendAction(this, {
      type: 'save-features',
      features: [{ feature: read.feature, recordId: record.id }],
      fromS: version.fromS,
      words: this.fields.name.trim() || this.row.name,
    });
    this.dispatchEvent(new CustomEvent('wr-saved', { detail: record.id, bubbles: true }));
  };
}

customElements.define('wr-surround-form', SurroundForm);

declare global {
  interface HTMLElementTagNameMap {
    'wr-surround-form': SurroundForm;
  }
}
