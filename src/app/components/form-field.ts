/**
 * How does one field of a form look? Label, unit, hint and its own message, tied together for those
 * who see and those who listen.
 *
 * In: what the field is and what stands in it. Out: a Lit template for light DOM. Ids are the
 * caller's and unique on the page.
 */
import { html, nothing, type LitElement, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';

/** What every field has. */
export interface FieldParts {
  readonly id: string;
  readonly label: string;
  /** An example or a range; empty for none. */
  readonly hint?: string | undefined;
  /** What is wrong with it; absent while it is right. */
  readonly message?: string | undefined;
}

/** A field of text or of a figure. */
export interface TextFieldParts extends FieldParts {
  readonly value: string;
  /** Symbol of the unit, part of the label. */
  readonly unit?: string | undefined;
  /** `figure` opens a keypad of digits; `signed` has a minus too. */
  readonly kind?: 'text' | 'figure' | 'signed' | 'date' | undefined;
  readonly placeholder?: string | undefined;
  readonly readOnly?: boolean | undefined;
  readonly onInput: (text: string) => void;
}

/** One line to choose. */
export interface Option {
  readonly value: string;
  readonly words: string;
  /** Said under it; empty for nothing. */
  readonly note?: string | undefined;
}

/** A field that is chosen from a list. */
export interface ChoiceFieldParts extends FieldParts {
  readonly value: string;
  readonly options: readonly Option[];
  readonly onChoose: (value: string) => void;
}

/** A field to type into. */
export function textField(parts: TextFieldParts): TemplateResult {
  const { id, value, unit, kind = 'text', placeholder, readOnly, message } = parts;
  return html`<div class="field ${kind === 'text' ? '' : 'field-figure'}">
    <label for=${id}>${labelWords(parts.label, unit)}</label>
    <input
      id=${id}
      type=${kind === 'date' ? 'date' : 'text'}
      inputmode=${kind === 'figure' ? 'decimal' : 'text'}
      autocomplete="off"
      spellcheck="false"
      placeholder=${placeholder ?? nothing}
      ?readonly=${readOnly ?? false}
      aria-invalid=${message === undefined ? nothing : 'true'}
      aria-describedby=${describedBy(parts)}
      .value=${live(value)}
      @input=${(event: InputEvent) => parts.onInput((event.target as HTMLInputElement).value)}
    />
    ${below(parts)}
  </div>`;
}

/** A list that opens. */
export function choiceField(parts: ChoiceFieldParts): TemplateResult {
  const { id, value, message } = parts;
  return html`<div class="field">
    <label for=${id}>${parts.label}</label>
    <select
      id=${id}
      aria-invalid=${message === undefined ? nothing : 'true'}
      aria-describedby=${describedBy(parts)}
      @change=${(event: Event) => parts.onChoose((event.target as HTMLSelectElement).value)}
    >
      ${parts.options.map(
        (option) =>
          html`<option value=${option.value} ?selected=${live(option.value === value)}>
            ${option.note ? `${option.words}: ${option.note}` : option.words}
          </option>`,
      )}
    </select>
    ${below(parts)}
  </div>`;
}

/** A few choices that all stand open. */
export function radioField(parts: ChoiceFieldParts): TemplateResult {
  const { id, value, message } = parts;
  const isNoted = parts.options.some(({ note }) => note);
  return html`<fieldset
    class="field radios ${isNoted ? 'radios-noted' : ''}"
    role="radiogroup"
    aria-describedby=${describedBy(parts)}
    aria-invalid=${message === undefined ? nothing : 'true'}
  >
    <legend>${parts.label}</legend>
    <div class="radio-row">
      ${parts.options.map(
        (option, index) =>
          html`<label class="radio">
            <input
              id=${`${id}-${index}`}
              type="radio"
              name=${id}
              value=${option.value}
              .checked=${live(option.value === value)}
              @change=${() => parts.onChoose(option.value)}
            />
            <span>
              ${option.words}
              ${option.note ? html`<span class="radio-note">${option.note}</span>` : nothing}
            </span>
          </label>`,
      )}
    </div>
    ${below(parts)}
  </fieldset>`;
}

/** A button that stays pressed. */
export function pressButton(
  words: string,
  isPressed: boolean,
  onPress: (isPressed: boolean) => void,
): TemplateResult {
  return html`<button
    type="button"
    class="press"
    aria-pressed=${isPressed ? 'true' : 'false'}
    @click=${() => onPress(!isPressed)}
  >
    ${words}
  </button>`;
}

function labelWords(label: string, unit: string | undefined): TemplateResult {
  const hasUnit = unit !== undefined && unit !== '';
  return html`${label}${hasUnit ? html` <span class="unit">${unit}</span>` : nothing}`;
}

function describedBy({ id, hint, message }: FieldParts): string | typeof nothing {
  const ids = [...(message ? [`${id}-message`] : []), ...(hint ? [`${id}-hint`] : [])];
  return ids.length > 0 ? ids.join(' ') : nothing;
}

function below({ id, hint, message }: FieldParts): TemplateResult {
  return html`${message ? html`<p class="field-message" id=${`${id}-message`}>${message}</p>` : nothing}
  ${hint ? html`<p class="field-hint" id=${`${id}-hint`}>${hint}</p>` : nothing}`;
}

/** Once what is wrong has been said: leads to the first field that is. */
export async function focusFirstWrong(form: LitElement): Promise<void> {
  await form.updateComplete;
  const wrong = [...form.querySelectorAll<HTMLElement>('[aria-invalid="true"]')];
  // A field in a fold that was closed by hand can neither be seen nor reached.
  for (const each of wrong) each.closest('details')?.setAttribute('open', '');
  const [first] = wrong as (HTMLElement | undefined)[];
  const field = first?.matches('fieldset') ? first.querySelector('input') : first;
  field?.focus();
}
