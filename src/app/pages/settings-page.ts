/**
 * The room of settings: units, times, the look, the factor set, limits, and what is kept where.
 *
 * Properties: `state`. Each choice is kept at once; figures when the field is left. Events:
 * `wr-action` only.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { SettingsRecord } from '../../logbook/entry.ts';
import { CAUTION_LINES } from '../../report/caution.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { cautionMark } from '../components/caution-mark.ts';
import { keptWhere, logbookPart } from '../components/logbook-part.ts';
import { notTakenList } from '../components/not-taken.ts';
import '../components/factor-sets.ts';
import { choiceField, radioField, textField } from '../components/form-field.ts';
import {
  currencyFields,
  settingsSentence,
  UNIT_CHOICES,
  withCurrency,
  type CurrencyFields,
} from '../entry/settings-fields.ts';
import { timeZoneChoices } from '../entry/time-zones.ts';

const THEMES = [
  { value: 'system', words: 'as the machine says' },
  { value: 'light', words: 'light' },
  { value: 'dark', words: 'dark' },
];

/** `<wr-settings-page>` */
export class SettingsPage extends LitElement {
  static override properties = {
    state: { attribute: false },
    args: { attribute: false },
    limits: { state: true },
  };
  declare state: AppState;
  declare args: readonly string[];
  /** Limits that were typed and not yet taken; null: as kept. */
  declare limits: CurrencyFields | null;

  constructor() {
    super();
    this.args = [];
    this.limits = null;
  }

  protected override createRenderRoot(): this {
    return this;
  }

  protected override render(): TemplateResult {
    const { settings } = this.state;
    return html`<div class="page">
      <p class="kicker">Settings</p>
      <h1 class="sentence">${settingsSentence(settings)}</h1>
      <p class="meaning">
        A choice is kept at once. It changes what you see, never what was measured.
      </p>
      ${section('Units', 'kept figures stay exact', this.#units(settings))}
      ${section('Times and look', '', this.#look(settings))}
      ${section(
        'Factors',
        'for what was expected and planned',
        html`<wr-factor-sets .state=${this.state}></wr-factor-sets>`,
      )}
      ${section('Staying current', 'your own limits, not the law', this.#limits(settings))}
      ${section('The logbook', 'everything in one file', html`${logbookPart(this, this.state.hasDemo)} ${notTakenList(this, this.state)}`)}
      ${section('What is kept where', '', keptWhere())}
      ${section(
        'Caution',
        '',
        html`<div class="caution-block">
          ${cautionMark()}
          <div>${CAUTION_LINES.map((line) => html`<p>${line}</p>`)}</div>
        </div>`,
      )}
    </div>`;
  }

  #units(settings: SettingsRecord): TemplateResult {
    return html`<div class="ruled-fields">
      ${UNIT_CHOICES.map(({ name, label, options }) =>
        radioField({
          id: `settings-${name}`,
          label,
          value: settings.units[name],
          options,
          onChoose: (unit) => this.#save({ units: { ...settings.units, [name]: unit } }),
        }),
      )}
    </div>`;
  }

  #look({ timeZone, theme }: SettingsRecord): TemplateResult {
    return html`<div class="field-row field-row-wide">
      ${choiceField({
        id: 'settings-time-zone',
        label: 'Time zone',
        value: timeZone,
        options: timeZoneChoices(timeZone),
        hint: 'for local dates and times of day',
        onChoose: (zone) => this.#save({ timeZone: zone }),
      })}
      ${radioField({
        id: 'settings-theme',
        label: 'Light or dark',
        value: theme,
        options: THEMES,
        onChoose: (value) => this.#save({ theme: value as SettingsRecord['theme'] }),
      })}
    </div>`;
  }

  #limits(settings: SettingsRecord): TemplateResult {
    const fields = this.limits ?? currencyFields(settings);
    const read = this.limits ? withCurrency(settings, fields) : null;
    const messages = read?.ok === false ? read.messages : {};
    const field = (name: keyof CurrencyFields, label: string, hint: string) =>
      textField({
        id: `settings-${name}`,
        label,
        kind: 'figure',
        value: fields[name],
        hint,
        message: messages[name],
        onInput: (text) => (this.limits = { ...fields, [name]: text }),
      });
    return html`<div class="field-row field-row-wide" @change=${this.#saveLimits}>
      ${field('landingsIn90Days', 'Landings in 90 days', 'at least; for example 6; empty: no limit')}
      ${field(
        'daysSinceStripLanding',
        'Days since a strip landing',
        'at most; for example 28; empty: no limit',
      )}
    </div>`;
  }

  #save(change: Partial<SettingsRecord>): void {
    sendAction(this, { type: 'save-settings', settings: { ...this.state.settings, ...change } });
  }

  readonly #saveLimits = (): void => {
    if (!this.limits) return;
    const read = withCurrency(this.state.settings, this.limits);
    if (!read.ok) return;
    this.limits = null;
    this.#save({ currency: read.settings.currency });
  };
}

function section(head: string, note: string, body: TemplateResult): TemplateResult {
  return html`<section>
    <h2 class="section-head">
      ${head} ${note ? html`<span class="note">${note}</span>` : nothing}
    </h2>
    ${body}
  </section>`;
}

customElements.define('wr-settings-page', SettingsPage);

declare global {
  interface HTMLElementTagNameMap {
    'wr-settings-page': SettingsPage;
  }
}
