/**
 * `<wr-aeroplane-form>`: one aeroplane, to be entered or changed.
 *
 * Properties: `document` (the kept one; null: a new aeroplane), `otherIds`, `units`. Events: `wr-action`
 * to save the document, then `wr-saved` with its id.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { ShownUnits } from '../../logbook/entry.ts';
import type { HandbookQuantity } from '../../performance/aeroplane.ts';
import { sendAction } from '../app-state.ts';
import {
  aeroplaneUnit,
  fieldsFromAeroplane,
  withCorrection,
  withRemoved,
  withTable,
  type AeroplaneFields,
  type Document,
} from '../entry/aeroplane-fields.ts';
import { aeroplaneFromFields } from '../entry/aeroplane-from-fields.ts';
import { summaryOf, type FieldMessages } from '../entry/field-messages.ts';
import { idFromName } from '../entry/id-from-name.ts';
import { withPastedTable } from '../entry/pasted-table.ts';
import { focusFirstWrong, radioField, textField } from './form-field.ts';
import {
  correctionPart,
  HANDBOOK_WORDS,
  tablePart,
  type HandbookContext,
} from './handbook-parts.ts';
import { notTaken, type Pasted } from './paste-field.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-aeroplane-form': AeroplaneForm;
  }
}

/** Figures with their labels and hints, masses then speeds. */
const MASSES = [
  ['massKg.min', 'Least mass', 'empty aeroplane with a light pilot'],
  ['massKg.maxTakeOff', 'Greatest take-off mass', 'MTOM'],
  ['massKg.maxLanding', 'Greatest landing mass', 'often the same'],
] as const;
const SPEEDS = [
  ['speeds.atMassKg', 'Speeds hold at', 'usually the greatest mass'],
  ['speeds.stallLandingKt', 'Stall, landing', 'indicated, landing flap'],
  ['speeds.stallTakeOffKt', 'Stall, take-off', 'indicated, take-off flap'],
  ['speeds.approachKt', 'Approach', 'empty: not given'],
  ['speeds.touchdownKt', 'Touchdown', 'empty: not given'],
  ['speeds.liftOffKt', 'Lift-off', 'empty: not given'],
] as const;

/** See the file's head. */
export class AeroplaneForm extends LitElement {
  static override properties = {
    document: { attribute: false },
    otherIds: { attribute: false },
    units: { attribute: false },
    fields: { state: true },
    messages: { state: true },
  };
  declare document: Document | null;
  declare otherIds: readonly string[];
  declare units: ShownUnits;
  declare fields: AeroplaneFields;
  /** Said since the pilot asked to save. */
  declare messages: FieldMessages;
  #filledFrom = '';

  constructor() {
    super();
    this.document = null;
    this.otherIds = [];
    this.messages = {};
  }

  protected override createRenderRoot(): this {
    return this;
  }

  protected override willUpdate(): void {
    const from = JSON.stringify([this.document, this.units]);
    if (from === this.#filledFrom) return;
    this.#filledFrom = from;
    this.fields = fieldsFromAeroplane(this.document, this.units);
    this.messages = {};
  }

  protected override render(): TemplateResult {
    const { fields, messages, units } = this;
    const context: HandbookContext = {
      fields,
      messages,
      units,
      set: this.#set,
      remove: (key, isRemoved) => (this.fields = withRemoved(this.fields, key, isRemoved)),
      paste: this.#paste,
    };
    const wrong = Object.keys(messages).length;
    const summary = wrong === 0 ? '' : summaryOf(Object.keys(messages).map(labelOf));
    return html`<form class="form" aria-label="Aeroplane" novalidate @submit=${this.#save}>
      <div role="alert">
        ${summary === '' ? nothing : html`<p class="form-alert">${summary}</p>`}
        ${wholeMessages(messages).map((text) => html`<p class="field-message">${text}</p>`)}
      </div>
      ${this.#ownPart()} ${this.#figures('Masses', MASSES)} ${this.#figures('Speeds', SPEEDS)}
      ${fields.tables.map((row) => tablePart(row, context))} ${this.#adders()}
      <fieldset class="form-part">
        <legend>The handbook's own corrections</legend>
        ${fields.corrections.map((row) => correctionPart(row, context))}
        <div class="form-buttons">
          <button
            type="button"
            class="button button-outlined"
            @click=${() => (this.fields = withCorrection(this.fields))}
          >
            Add a correction
          </button>
        </div>
      </fieldset>
      <div class="form-buttons">
        <button type="submit" class="button">Save the aeroplane</button>
        <a class="button-quiet" href="#/aeroplanes">Leave without saving</a>
      </div>
    </form>`;
  }

  readonly #set = (path: string, text: string): void => {
    this.fields = { ...this.fields, texts: { ...this.fields.texts, [path]: text } };
  };

  readonly #paste = (key: string, text: string): Pasted => {
    const pasted = withPastedTable(this.fields, key, text, this.units);
    if (!pasted.ok) return notTaken(pasted.problems);
    this.fields = pasted.fields;
    const words = `Read ${pasted.count} distances: look them over below.`;
    return { isTaken: true, said: html`<p class="form-note">${words}</p>` };
  };

  #ownPart(): TemplateResult {
    const { texts } = this.fields;
    const parts = (path: string, label: string) => ({
      id: `aeroplane-${path}`,
      label,
      value: texts[path] ?? '',
      message: this.messages[path],
      onInput: (text: string) => this.#set(path, text),
    });
    const isKept = this.document !== null;
    const choose = (path: string, label: string, options: { value: string; words: string }[]) =>
      radioField({ ...parts(path, label), options, onChoose: (value) => this.#set(path, value) });
    return html`<fieldset class="form-part">
      <legend>The aeroplane</legend>
      <div class="field-row field-row-wide">
        ${textField({ ...parts('name', 'Name'), hint: 'type or call sign, as you say it' })}
        ${textField({
          ...parts('id', 'Id'),
          hint: isKept ? 'fixed: flights refer to it' : 'empty: made from the name, then fixed',
          placeholder: idFromName(texts.name, this.otherIds),
          readOnly: isKept,
        })}
        ${textField({ ...parts('note', 'Note'), hint: 'edition of the handbook, say' })}
      </div>
      <div class="field-row">
        ${choose('gear', 'Gear', [
          { value: 'nose', words: 'nose wheel' },
          { value: 'tail', words: 'tail wheel' },
        ])}
        ${choose('brakes', 'Brakes', [
          { value: 'yes', words: 'yes' },
          { value: 'no', words: 'none' },
        ])}
      </div>
    </fieldset>`;
  }

  #figures(legend: string, list: typeof MASSES | typeof SPEEDS): TemplateResult {
    return html`<fieldset class="form-part">
      <legend>${legend}</legend>
      <div class=${list === MASSES ? 'field-row field-row-wide' : 'field-row'}>
        ${list.map(([path, label, hint]) =>
          textField({
            id: `aeroplane-${path.replace('.', '-')}`,
            label,
            hint,
            unit: aeroplaneUnit(path, this.units).symbol,
            kind: 'figure',
            value: this.fields.texts[path] ?? '',
            message: this.messages[path],
            onInput: (text) => this.#set(path, text),
          }),
        )}
      </div>
    </fieldset>`;
  }

  #adders(): TemplateResult {
    return html`<fieldset class="form-part">
      <legend>Distances of the handbook</legend>
      <p class="form-note">
        One row of each is enough to begin with. What is missing is not predicted.
      </p>
      <div class="form-buttons">
        ${(Object.keys(HANDBOOK_WORDS) as HandbookQuantity[]).map(
          (quantity) =>
            html`<button
              type="button"
              class="button button-outlined"
              @click=${() => (this.fields = withTable(this.fields, quantity))}
            >
              Add: ${HANDBOOK_WORDS[quantity]}
            </button>`,
        )}
      </div>
    </fieldset>`;
  }

  readonly #save = (event: Event): void => {
    event.preventDefault();
    const read = aeroplaneFromFields(this.fields, this.units, this.document, this.otherIds);
    if (!read.ok) {
      this.messages = read.messages;
      void focusFirstWrong(this);
      return;
    }
    sendAction(this, { type: 'save-aeroplane', document: read.document });
    this.dispatchEvent(new CustomEvent('wr-saved', { detail: read.document.id, bubbles: true }));
  };
}

/** Messages about whole parts, which have no field of their own. */
function wholeMessages(messages: FieldMessages): string[] {
  const whole = ['massKg', 'speeds', 'tables', 'corrections', 'form'];
  return whole.flatMap((path) => (messages[path] === undefined ? [] : [messages[path]]));
}

function labelOf(path: string): string {
  const own = [...MASSES, ...SPEEDS].find(([each]) => each === path);
  if (own) return own[1];
  if (path.startsWith('tables-')) return path.includes('.cell ') ? 'a distance' : 'a table';
  if (path.startsWith('corrections-')) return 'a correction';
  return path.charAt(0).toUpperCase() + path.slice(1);
}

customElements.define('wr-aeroplane-form', AeroplaneForm);
