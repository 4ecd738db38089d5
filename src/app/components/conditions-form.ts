/**
 * The conditions of a flight, asked for where they are missing.
 *
 * Properties: `conditions`, `aeroplanes`, `aeroplaneId`, `units`, `factorSet`, `factorSets`, `visits` and
 * `visitId` (limits for a final are offered from the others), `isForecast` (for a visit that is still to
 * be flown), `asksEffort` (how hard it was braked may still be marked). Events: `wr-conditions` when the pilot says
 * "Use these", `wr-cancel`. What is typed stays until then, also
 * when it is wrong; a figure that was not touched goes back exactly as it came.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type {
  AeroplaneRecord,
  FactorSetRecord,
  ShownUnits,
  VisitRecord,
} from '../../logbook/entry.ts';
import type { Conditions } from '../../weather/conditions.ts';
import {
  conditionsFromFields,
  fieldsFromConditions,
  type ConditionsBefore,
  type ConditionsFields,
} from '../entry/conditions-fields.ts';
import { earlierLimits } from '../entry/earlier-limits.ts';
import { afterChange, fieldsWithMetar } from '../entry/metar-fields.ts';
import { readFactorSets } from '../entry/own-factor-sets.ts';
import {
  airPart,
  conditionsSummary,
  effortPart,
  stripPart,
  windPart,
  type ConditionsContext,
} from './conditions-parts.ts';
import { focusFirstWrong } from './form-field.ts';
import { gateLimitsPart } from './gate-limits-part.ts';
import { METAR_WORDS, metarPasted } from './metar-part.ts';
import './paste-field.ts';
import type { Pasted } from './paste-field.ts';

/** What `wr-conditions` carries. */
export interface ConditionsEntered {
  readonly conditions: Conditions;
  readonly aeroplaneId: string | null;
}

/** `<wr-conditions-form>` */
export class ConditionsForm extends LitElement {
  static override properties = {
    conditions: { attribute: false },
    aeroplanes: { attribute: false },
    aeroplaneId: { attribute: false },
    units: { attribute: false },
    factorSet: { attribute: false },
    factorSets: { attribute: false },
    visits: { attribute: false },
    visitId: { attribute: false },
    isForecast: { attribute: false },
    asksEffort: { attribute: false },
    fields: { state: true },
    isTried: { state: true },
  };
  declare conditions: Conditions | null;
  declare aeroplanes: readonly AeroplaneRecord[];
  declare aeroplaneId: string | null;
  declare units: ShownUnits;
  /** Id of the factor set of the settings; the one of the conditions goes before it. */
  declare factorSet: string | null;
  /** The pilot's own sets, as kept. */
  declare factorSets: readonly FactorSetRecord[];
  declare visits: readonly VisitRecord[];
  /** The visit that is being entered; null: one that is not kept yet. */
  declare visitId: string | null;
  declare isForecast: boolean;
  /** True while no ratio of these landings is on the screen: a mark made now counts. */
  declare asksEffort: boolean;
  /** What stands in the fields. */
  declare fields: ConditionsFields;
  /** True once the pilot asked to use them: from then on what is wrong is said at once. */
  declare isTried: boolean;
  #before: ConditionsBefore = { conditions: null, aeroplaneId: null };
  #filledFrom = '';
  /** What METARs put into the fields. */
  #reported: Partial<ConditionsFields> = {};

  constructor() {
    super();
    this.conditions = null;
    this.aeroplanes = [];
    this.aeroplaneId = null;
    this.factorSet = null;
    this.factorSets = [];
    this.visits = [];
    this.visitId = null;
    this.isForecast = false;
    this.asksEffort = false;
    this.isTried = false;
  }

  protected override createRenderRoot(): HTMLElement {
    return this;
  }

  protected override willUpdate(): void {
    const { conditions, aeroplaneId, units } = this;
    // By content: the page may hand in an equal copy while the pilot is typing.
    const from = JSON.stringify({ conditions, aeroplaneId, units });
    if (from === this.#filledFrom) return;
    this.#filledFrom = from;
    this.#before = { conditions, aeroplaneId };
    this.fields = fieldsFromConditions(this.#before, units);
    this.isTried = false;
  }

  protected override render(): TemplateResult {
    const read = this.isTried ? this.#read() : null;
    const context: ConditionsContext = {
      fields: this.fields,
      messages: read?.ok === false ? read.messages : {},
      units: this.units,
      aeroplanes: this.aeroplanes,
      factorSet: this.conditions?.factorSet ?? this.factorSet,
      factorSets: readFactorSets(this.factorSets),
      isForecast: this.isForecast,
      set: (change) => (this.fields = afterChange(this.fields, change)),
    };
    return html`<form class="form" aria-label="Conditions" novalidate @submit=${this.#save}>
      <p class="form-note">An empty field means not entered: never zero, never calm, never dry.</p>
      <div role="alert">${alertText(conditionsSummary(context.messages))}</div>
      <wr-paste-field
        .fieldId=${'conditions-metar'}
        .words=${METAR_WORDS}
        .read=${this.#readMetar}
      ></wr-paste-field>
      ${windPart(context)} ${airPart(context)} ${stripPart(context)}
      ${this.asksEffort ? effortPart(context) : nothing}
      ${gateLimitsPart(context, earlierLimits(this.visits, this.fields.aeroplane, this.visitId))}
      <div class="form-buttons">
        <button type="submit" class="button">${this.isForecast ? 'Predict' : 'Use these'}</button>
        ${
          this.isForecast && this.conditions === null
            ? nothing
            : html`<button type="button" class="button-quiet" @click=${this.#cancel}>
                Cancel
              </button>`
        }
      </div>
    </form>`;
  }

  #read() {
    return conditionsFromFields(this.fields, this.units, this.#before);
  }

  readonly #readMetar = (text: string): Pasted => {
    const entered = fieldsWithMetar(this.fields, text, this.units, this.#reported);
    if (entered.ok) {
      this.#reported = entered.filled;
      this.fields = entered.fields;
    }
    return metarPasted(entered);
  };

  readonly #save = (event: SubmitEvent): void => {
    event.preventDefault();
    const read = this.#read();
    if (!read.ok) {
      this.isTried = true;
      void focusFirstWrong(this);
      return;
    }
    const detail: ConditionsEntered = {
      conditions: read.conditions,
      aeroplaneId: read.aeroplaneId,
    };
    this.dispatchEvent(new CustomEvent('wr-conditions', { detail, bubbles: true }));
  };

  readonly #cancel = (): void => {
    // The next time it opens it shows what is kept.
    this.#filledFrom = '';
    this.requestUpdate();
    this.dispatchEvent(new CustomEvent('wr-cancel', { bubbles: true }));
  };
}

/** What is wrong, in front of the fields; nothing where nothing is. */
function alertText(words: string): TemplateResult | typeof nothing {
  return words === '' ? nothing : html`<p class="form-alert">${words}</p>`;
}

customElements.define('wr-conditions-form', ConditionsForm);

declare global {
  interface HTMLElementTagNameMap {
    'wr-conditions-form': ConditionsForm;
  }
  interface HTMLElementEventMap {
    'wr-conditions': CustomEvent<ConditionsEntered>;
    'wr-cancel': CustomEvent;
  }
}
