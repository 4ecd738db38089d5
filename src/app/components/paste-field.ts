/**
 * `<wr-paste-field>`: text from elsewhere pasted into a form, read at once by a button.
 *
 * Properties: `fieldId`, `words` (summary of the fold, label, hint), `read` (takes the text; gives what
 * is to be said about it and whether it was taken). The text stays, so that it can be mended.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Problem } from '../../result.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-paste-field': PasteField;
  }
}

/** What the field is called. */
export interface PasteWords {
  readonly summary: string;
  readonly label: string;
  readonly hint: string;
}

/** What came of the text. */
export interface Pasted {
  readonly isTaken: boolean;
  readonly said: TemplateResult;
}

/** Why a text was not taken: each place, what was found, what was expected. */
export function notTaken(problems: readonly Problem[]): Pasted {
  const more = problems.length - MOST_SHOWN;
  return {
    isTaken: false,
    said: html`${problems
      .slice(0, MOST_SHOWN)
      .map(({ where, message }) => html`<p class="field-message">${where}: ${message}</p>`)}
    ${more > 0 ? html`<p class="field-message">and ${more} more</p>` : nothing}`,
  };
}

/** More than anybody mends in one go. */
const MOST_SHOWN = 8;

/** See the file's head. */
export class PasteField extends LitElement {
  static override properties = {
    fieldId: { attribute: false },
    words: { attribute: false },
    read: { attribute: false },
    text: { state: true },
    pasted: { state: true },
  };
  declare fieldId: string;
  declare words: PasteWords;
  declare read: (text: string) => Pasted;
  declare text: string;
  declare pasted: Pasted | null;

  constructor() {
    super();
    this.text = '';
    this.pasted = null;
  }

  protected override createRenderRoot(): this {
    return this;
  }

  protected override render(): TemplateResult {
    const { fieldId, words, pasted } = this;
    return html`<details class="fold">
      <summary>${words.summary}</summary>
      <div class="field">
        <label for=${fieldId}>${words.label}</label>
        <textarea
          id=${fieldId}
          rows="3"
          autocomplete="off"
          spellcheck="false"
          aria-invalid=${pasted?.isTaken === false ? 'true' : nothing}
          aria-describedby=${`${fieldId}-hint`}
          .value=${live(this.text)}
          @input=${(event: Event) => (this.text = (event.target as HTMLTextAreaElement).value)}
        ></textarea>
        <p class="field-hint" id=${`${fieldId}-hint`}>${words.hint}</p>
      </div>
      <button type="button" class="button button-outlined" @click=${this.#read}>
        Read it<span class="visually-hidden">: ${words.label}</span>
      </button>
      <div role="status">${pasted?.said ?? nothing}</div>
    </details>`;
  }

  readonly #read = (): void => {
    this.pasted = this.read(this.text);
  };
}

customElements.define('wr-paste-field', PasteField);
