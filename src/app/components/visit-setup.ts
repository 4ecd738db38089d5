/**
 * `<wr-visit-setup>`: where to, in which direction, on which day, by which factors, in what conditions.
 *
 * Properties: `draft`, `strips` (the strips of the day), `state`. Event: `wr-visit-draft` with the
 * draft as it is now; a choice takes effect at once, conditions when the pilot says "Predict".
 */
import { html, LitElement, type TemplateResult } from 'lit';
import type { Strip } from '../../strips/strip.ts';
import { PUBLISHED_SETS } from '../../performance/factor-sets/published.ts';
import type { AppState, VisitDraft } from '../app-state.ts';
import { readFactorSets } from '../entry/own-factor-sets.ts';
import type { ConditionsEntered } from './conditions-form.ts';
import './conditions-form.ts';
import { choiceField, textField, type Option } from './form-field.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-visit-setup': VisitSetup;
  }
  interface HTMLElementEventMap {
    'wr-visit-draft': CustomEvent<VisitDraft>;
  }
}

/** See the file's head. */
export class VisitSetup extends LitElement {
  static override properties = {
    draft: { attribute: false },
    strips: { attribute: false },
    state: { attribute: false },
  };
  declare draft: VisitDraft;
  declare strips: readonly Strip[];
  declare state: AppState;

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult {
    const { draft, state } = this;
    const strip = this.strips.find(({ id }) => id === draft.stripId) ?? null;
    return html`<div class="visit-setup">
      <div class="form-part visit-where">
        <div class="field-row field-row-wide">
          ${choiceField({
            id: 'visit-strip',
            label: 'Strip',
            value: draft.stripId ?? '',
            options: [
              { value: '', words: 'choose one' },
              ...this.strips.map(({ id, name }) => ({ value: id, words: name })),
            ],
            onChoose: (value) => this.#chooseStrip(value),
          })}
          ${this.#direction('landing', 'Landing', strip)}
          ${this.#direction('takeOff', 'Taking off', strip)}
          ${textField({
            id: 'visit-day',
            label: 'Day',
            kind: 'date',
            value: draft.day,
            onInput: (day) => this.#send({ day }),
          })}
          ${choiceField({
            id: 'visit-factors',
            label: 'Factors',
            value: draft.factorSet ?? state.settings.factorSet ?? PUBLISHED_SETS[0].id,
            options: [...PUBLISHED_SETS, ...readFactorSets(state.factorSets)].map(
              ({ id, name }) => ({ value: id, words: name }),
            ),
            onChoose: (factorSet) => this.#send({ factorSet }),
          })}
        </div>
      </div>
      <wr-conditions-form
        .conditions=${draft.conditions}
        .aeroplanes=${state.aeroplanes}
        .aeroplaneId=${draft.aeroplaneId}
        .units=${state.settings.units}
        .factorSet=${draft.factorSet ?? state.settings.factorSet}
        .factorSets=${state.factorSets}
        .visits=${state.visits}
        .isForecast=${true}
        @wr-conditions=${(event: CustomEvent<ConditionsEntered>) =>
          this.#send({
            conditions: event.detail.conditions,
            aeroplaneId: event.detail.aeroplaneId,
          })}
      ></wr-conditions-form>
    </div>`;
  }

  #direction(which: 'landing' | 'takeOff', label: string, strip: Strip | null): TemplateResult {
    return choiceField({
      id: `visit-${which}`,
      label,
      value: this.draft[which] ?? '',
      options: directionOptions(which, strip),
      onChoose: (value) => this.#send({ [which]: value === '' ? null : value }),
    });
  }

  /** A one-way strip leaves nothing to choose; else the pilot says which way. */
  #chooseStrip(id: string): void {
    const strip = this.strips.find((each) => each.id === id) ?? null;
    const only = (which: 'landing' | 'takeOff'): string | null => {
      const open = directionOptions(which, strip).slice(1);
      return open.length === 1 ? open[0].value : null;
    };
    this.#send({
      stripId: strip?.id ?? null,
      landing: only('landing'),
      takeOff: only('takeOff'),
    });
  }

  #send(change: Partial<VisitDraft>): void {
    const detail: VisitDraft = { ...this.draft, ...change };
    this.dispatchEvent(new CustomEvent('wr-visit-draft', { detail, bubbles: true }));
  }
}

/** The directions that a strip lists for this use, after the choice of none. */
function directionOptions(which: 'landing' | 'takeOff', strip: Strip | null): readonly Option[] {
  const barred = which === 'landing' ? 'take-off' : 'landing';
  const open = strip?.directions.filter(({ use }) => use !== barred) ?? [];
  const none = strip === null ? 'choose the strip first' : 'not planned';
  return [
    { value: '', words: none },
    ...open.map(({ designator }) => ({ value: designator, words: designator })),
  ];
}

customElements.define('wr-visit-setup', VisitSetup);
