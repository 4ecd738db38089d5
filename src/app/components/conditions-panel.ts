/**
 * `<wr-conditions-panel>`: the title block of the debrief; what is missing is asked for in its place.
 *
 * Properties: `event`, `state`, `logId`. Sends `save-visit`; the figures follow.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { entryId } from '../../logbook/entry.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { hasAnyRatio } from '../entry/effort-choices.ts';
import { visitOfLog } from '../entry/visit-of-log.ts';
import { routeHash } from '../route.ts';
import type { ConditionsEntered } from './conditions-form.ts';
import './conditions-form.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-conditions-panel': ConditionsPanel;
  }
}

/** See the file's head. */
export class ConditionsPanel extends LitElement {
  static override properties = {
    event: { attribute: false },
    state: { attribute: false },
    logId: { attribute: false },
    isOpen: { state: true },
  };
  declare event: EventDebrief;
  declare state: AppState;
  declare logId: string;
  declare isOpen: boolean;

  constructor() {
    super();
    this.isOpen = false;
  }

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult {
    const { block, aeroplane } = this.event;
    const isMissing = aeroplane === null || block.some(({ value }) => value === null);
    return html`<dl class="title-block">
        ${block.map(
          ({ label, value }) =>
            html`<div>
              <dt>${label}</dt>
              <dd class=${value === null ? 'missing' : ''}>${value ?? 'not entered'}</dd>
            </div>`,
        )}
      </dl>
      <p class="block-foot">
        <button class="link-button" aria-expanded=${this.isOpen} @click=${this.#toggle}>
          ${this.isOpen ? 'Close the form' : isMissing ? 'Enter what is missing' : 'Change'}
        </button>
        ${aeroplane === null && !this.isOpen ? this.#noAeroplane() : nothing}
      </p>
      ${this.isOpen ? this.#form() : nothing}`;
  }

  /** Without a handbook there is nothing to choose: the way to type one stands here. */
  #noAeroplane(): TemplateResult {
    return this.state.aeroplanes.length > 0
      ? html`<span>aeroplane not chosen</span>`
      : html`<a href=${routeHash('aeroplanes', 'new')}>Type your aeroplane's handbook figures</a>`;
  }

  #form(): TemplateResult {
    const visit = visitOfLog(this.state, this.logId);
    return html`<wr-conditions-form
      class="in-place"
      .conditions=${visit.conditions}
      .aeroplanes=${this.state.aeroplanes}
      .aeroplaneId=${visit.aeroplaneId}
      .units=${this.state.settings.units}
      .factorSet=${this.state.settings.factorSet}
      .factorSets=${this.state.factorSets}
      .visits=${this.state.visits}
      .visitId=${visit.id}
      .asksEffort=${!hasAnyRatio(this.state, this.logId)}
      @wr-conditions=${(event: CustomEvent<ConditionsEntered>) => this.#save(event.detail)}
      @wr-cancel=${() => (this.isOpen = false)}
    ></wr-conditions-form>`;
  }

  readonly #toggle = (): void => {
    this.isOpen = !this.isOpen;
  };

  #save({ conditions, aeroplaneId }: ConditionsEntered): void {
    const named = { ...conditions, aeroplane: aeroplaneId };
    const id = aeroplaneId === null ? null : entryId('aeroplane', aeroplaneId);
    sendAction(this, {
      type: 'save-visit',
      visit: { ...visitOfLog(this.state, this.logId), conditions: named, aeroplaneId: id },
    });
    this.isOpen = false;
  }
}

customElements.define('wr-conditions-panel', ConditionsPanel);
