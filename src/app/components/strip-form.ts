/**
 * One strip, to be entered or changed.
 *
 * Properties: `version` (the kept feature and since when it lies so; null: a new strip), `draft` (what
 * a new one begins with), `otherIds`,
 * `units`, `timeZone`. Events: `wr-action` to save the feature, then `wr-saved` with the strip's id.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { Feature, FeatureVersion, ShownUnits } from '../../logbook/entry.ts';
import { BEYOND_WHEELS_M } from '../../report/story/place-offer.ts';
import { sendAction } from '../app-state.ts';
import { summaryOf } from '../entry/field-messages.ts';
import {
  fieldsFromStrip,
  hasGuessedEnds,
  keptLine,
  type End,
  type StripFields,
} from '../entry/strip-fields.ts';
import { stripFromFields, type EnteredStrip } from '../entry/strip-from-fields.ts';
import { lengthWords } from '../entry/strip-words.ts';
import { dayStartS } from '../entry/time-zones.ts';
import { cautionMark } from './caution-mark.ts';
import { focusFirstWrong, radioField, textField } from './form-field.ts';
import { stripLabel, warningWords } from './strip-labels.ts';
import { directionPart, endPart, stripPart, typedPart, type StripContext } from './strip-parts.ts';

/** `<wr-strip-form>` */
export class StripForm extends LitElement {
  static override properties = {
    version: { attribute: false },
    draft: { attribute: false },
    otherIds: { attribute: false },
    units: { attribute: false },
    timeZone: { attribute: false },
    lengthM: { attribute: false },
    fields: { state: true },
    isTried: { state: true },
    seen: { state: true },
    moved: { state: true },
    day: { state: true },
  };
  declare version: FeatureVersion | null;
  /** What a new strip begins with, as the ends of a roll; null: nothing. */
  declare draft: Feature | null;
  declare otherIds: readonly string[];
  declare units: ShownUnits;
  declare timeZone: string;
  /** Length of the kept centreline, which may bend. */
  declare lengthM: number | null;
  declare fields: StripFields;
  declare isTried: boolean;
  /** Warnings that stood on the screen when it was saved: saying so again keeps it. */
  declare seen: string;
  /** Why the line lies elsewhere; empty: not said yet. */
  declare moved: '' | 'redrawn' | 'moved';
  /** Day from which it lies so, as a date field gives it. */
  declare day: string;
  #filledFrom = '';
  readonly #open = new Set<End>();

  constructor() {
    super();
    this.version = null;
    this.draft = null;
    this.otherIds = [];
    this.timeZone = 'UTC';
    this.lengthM = null;
    this.#forget();
  }

  protected override createRenderRoot(): this {
    return this;
  }

  protected override willUpdate(): void {
    const from = JSON.stringify([this.version, this.draft, this.units]);
    if (from === this.#filledFrom) return;
    this.#filledFrom = from;
    this.fields = fieldsFromStrip(this.version?.feature ?? this.draft, this.units);
    this.#forget();
  }

  protected override render(): TemplateResult {
    const read = this.#read();
    const messages = this.isTried && !read.ok ? read.messages : {};
    const isBent = keptLine(this.version?.feature ?? null).length > 2;
    const context: StripContext = {
      fields: this.fields,
      messages,
      units: this.units,
      isKept: this.version !== null,
      otherIds: this.otherIds,
      lengthM: isBent ? this.lengthM : null,
      open: this.#open,
      set: (change) => (this.fields = { ...this.fields, ...change }),
    };
    const labels = Object.keys(messages).map(stripLabel);
    return html`<form class="form" aria-label="Strip" novalidate @submit=${this.#save}>
      <div role="alert">
        ${this.#alert([summaryOf(labels), messages.form ?? '', read.ok ? this.seen : ''])}
      </div>
      ${hasGuessedEnds(this.version?.feature ?? this.draft) ? this.#guess(context.set) : nothing}
      ${stripPart(context)} ${endPart('a', context)} ${endPart('b', context)} ${typedPart(context)}
      ${directionPart('a', context)} ${directionPart('b', context)}
      ${read.ok && read.isMoved && this.version ? this.#movedPart() : nothing}
      <div class="form-buttons">
        <button type="submit" class="button">
          ${this.seen && read.ok ? 'Save it all the same' : 'Save the strip'}
        </button>
        <a class="button-quiet" href="#/strips">Leave without saving</a>
      </div>
    </form>`;
  }

  /** What is wrong, in front of the fields; nothing where nothing is. */
  #alert(words: readonly string[]): TemplateResult | typeof nothing {
    const said = words.filter((each) => each !== '').join(' ');
    return said === '' ? nothing : html`<p class="form-alert">${said}</p>`;
  }

  /** A length that nobody has measured must not look like one to plan with. */
  #guess(set: StripContext['set']): TemplateResult {
    const beyond = lengthWords(BEYOND_WHEELS_M, this.units);
    const from =
      this.version === null
        ? `Each end lies ${beyond} beyond where the wheels were on the ground`
        : 'Its ends come from where wheels were seen, and it may go on beyond them';
    return html`<div class="caution-block">
        ${cautionMark()}
        <p>
          <strong>Where the strip ends is a guess.</strong> ${from}; LDA and every declared distance
          left empty rest on that. Put the ends right before you plan with them.
        </p>
      </div>
      ${radioField({
        id: 'strip-ends',
        label: 'Where it ends',
        value: this.fields.ends,
        options: [
          { value: 'guessed', words: 'a guess', note: 'what counts from the ends is not told' },
          { value: 'known', words: 'known', note: 'the positions below are right' },
        ],
        onChoose: (ends) => set({ ends }),
      })}`;
  }

  #movedPart(): TemplateResult {
    const isAsked = this.isTried && this.moved === '';
    return html`<fieldset class="form-part">
      <legend>The line or a threshold lies elsewhere than before</legend>
      <div class="field-row field-row-wide">
        ${radioField({
          id: 'strip-moved',
          label: 'Why',
          value: this.moved,
          options: [
            { value: 'redrawn', words: 'it was drawn wrongly', note: 'flights are measured anew' },
            { value: 'moved', words: 'it was moved', note: 'earlier flights keep the old line' },
          ],
          message: isAsked ? 'found neither, expected one of the two' : undefined,
          onChoose: (moved) => (this.moved = moved as StripForm['moved']),
        })}
        ${
          this.moved === 'moved'
            ? textField({
                id: 'strip-day',
                label: 'From which day does it lie so?',
                kind: 'date',
                value: this.day,
                message:
                  this.isTried && this.#fromS() === null ? 'found no day, expected one' : undefined,
                onInput: (day) => (this.day = day),
              })
            : nothing
        }
      </div>
    </fieldset>`;
  }

  #read(): EnteredStrip {
    const before = { feature: this.version?.feature ?? null, otherIds: this.otherIds };
    return stripFromFields(this.fields, this.units, before);
  }

  #fromS(): number | null {
    return dayStartS(this.day, this.timeZone);
  }

  readonly #save = (event: SubmitEvent): void => {
    event.preventDefault();
    this.isTried = true;
    const read = this.#read();
    const isNewPlace = read.ok && read.isMoved && this.version !== null;
    const isUnsaid = this.moved === '' || (this.moved === 'moved' && this.#fromS() === null);
    if (!read.ok || (isNewPlace && isUnsaid)) {
      void focusFirstWrong(this);
      return;
    }
    const warnings = warningWords(read.warnings);
    if (warnings !== '' && this.seen !== warnings) {
      this.seen = warnings;
      return;
    }
    const fromS = isNewPlace && this.moved === 'moved' ? this.#fromS() : this.version?.fromS;
    sendAction(this, {
      type: 'save-features',
      features: [{ feature: read.feature, recordId: this.version ? read.strip.id : null }],
      fromS: fromS ?? null,
      words: read.strip.name,
    });
    this.dispatchEvent(new CustomEvent('wr-saved', { detail: read.strip.id, bubbles: true }));
  };

  #forget(): void {
    this.#open.clear();
    this.isTried = false;
    this.seen = '';
    this.moved = '';
    this.day = '';
  }
}

customElements.define('wr-strip-form', StripForm);

declare global {
  interface HTMLElementTagNameMap {
    'wr-strip-form': StripForm;
  }
  interface HTMLElementEventMap {
    'wr-saved': CustomEvent<string>;
  }
}
